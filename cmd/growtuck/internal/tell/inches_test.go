package tell

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWithInches(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", ""},
		{"count over 13 stitches", "count over 13 stitches"},
		{"13.8 cm at rest; expected 14.2 cm round the hand", "13.8 cm (5.4 in) at rest; expected 14.2 cm (5.6 in) round the hand"},
		{"cuffs worn folded by 2.5 to 5 cm", "cuffs worn folded by 2.5 to 5 cm (1 to 2 in)"},
		{"take the 9 in zipper (22.9 cm); close 2.5 cm", "take the 9 in zipper (22.9 cm); close 2.5 cm (1 in)"},
		{"body 12.5 cm (5 in) + ease", "body 12.5 cm (5 in) + ease"},
		{"an area of 3400 cm²", "an area of 3400 cm²"},
		{"0.04 cm off", "0.04 cm (0 in) off"},
		{"twice 25.4 cm.", "twice 25.4 cm (10 in)."},
		{"20 and 25 cm, or 47–50 cm", "20 and 25 cm (7.9 and 9.8 in), or 47–50 cm (18.5–19.7 in)"},
	} {
		require.Equal(t, c.want, WithInches(c.text))
	}
}
