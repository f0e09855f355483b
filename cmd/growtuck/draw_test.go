package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOddDrawingsDoNotPanic(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, form := range []string{"draw %s hat --size 3", "draw - %s --size 3", "draw - hat --sizes %s", "draw - hat --size 3 --extra brim=%s", "draw - hat --set %s"} {
		for _, arg := range odd {
			var args []string
			for _, word := range strings.Fields(form) {
				args = append(args, strings.ReplaceAll(word, "%s", arg))
			}
			code, stdout, stderr := try(t, noChild, args...)
			if code == 0 {
				require.True(t, strings.HasSuffix(stdout, "</svg>\n"), "%q", args)
				continue
			}
			require.Contains(t, []int{1, 2}, code, "%q", args)
			require.NotEmpty(t, stderr, "%q", args)
			require.Empty(t, stdout, "%q", args)
		}
	}
}

// A name is text wherever it is written.
func TestDrawingEscapesNames(t *testing.T) {
	code, stdout, stderr := try(t, "measurement,value,unit\nname,<b>&Ada</b>,\nhead,50,cm\nheight,104,cm\n", "draw", "-", "hat", "-")
	require.Zero(t, code, stderr)
	require.Contains(t, stdout, "Hat for &lt;b&gt;&amp;Ada&lt;/b&gt;")
	require.NotContains(t, stdout, "<b>")
}
