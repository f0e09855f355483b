package list

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBar(t *testing.T) {
	require.Equal(t, "12 children", bar(12, 5, 0))
	require.Equal(t, "[###############...............]  50 %, 7 children", bar(7, 50, 100))
	require.Equal(t, "[##############################] 100 %, 7 children", bar(7, 101, 100))
	var none *Progress
	none.Add(1, 1)
	none.Clear()
}
