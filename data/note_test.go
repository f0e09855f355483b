package data

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNoteParts(t *testing.T) {
	for note, want := range map[string][]NotePart{
		"":                             nil,
		"lying length":                 {{nil, "lying length"}},
		"lying; on the back":           {{nil, "lying; on the back"}},
		"R20: as at 24 months":         {{[]string{"R20"}, "as at 24 months"}},
		"R20 R25, R26: so; printed":    {{[]string{"R20", "R25", "R26"}, "so; printed"}},
		"R20: one; R25: another":       {{[]string{"R20"}, "one"}, {[]string{"R25"}, "another"}},
		"lying length; R25: another":   {{nil, "lying length"}, {[]string{"R25"}, "another"}},
		"see R20: it is printed so":    {{nil, "see R20: it is printed so"}},
		"R2: no rule":                  {{nil, "R2: no rule"}},
		": nothing before":             {{nil, ": nothing before"}},
		"21 in is 53.34 cm, so it is:": {{nil, "21 in is 53.34 cm, so it is:"}},
	} {
		require.Equal(t, want, NoteParts(note), note)
	}
	require.Equal(t, "one; another", NoteText("R20: one; R25: another"))
	require.Equal(t, "", NoteText(""))
}
