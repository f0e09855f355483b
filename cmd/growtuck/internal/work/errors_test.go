package work

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

func TestFlatten(t *testing.T) {
	a, b, c := errors.New("a"), errors.New("b"), errors.New("c")
	require.Empty(t, Flatten(nil))
	require.Equal(t, []error{a}, Flatten(a))
	require.Equal(t, []error{a, b, c}, Flatten(errors.Join(a, Faults{b, c})))
	said := &data.Error{File: "x.csv", Line: 2, Msg: "bad"}
	require.EqualError(t, inFolder("dir", errors.Join(said, a)), "dir/x.csv:2: bad\na")
	require.NoError(t, inFolder("dir", nil))
}
