package main

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every command has a page of the manual, which groff, where it is there, sets without
// a warning.
func TestManualOfEveryCommand(t *testing.T) {
	groff, _ := exec.LookPath("groff")
	pages := [][]string{nil}
	for _, c := range wholeRoot(&app{}).Commands() {
		if c.IsAvailableCommand() {
			pages = append(pages, []string{c.Name()})
		}
	}
	require.Greater(t, len(pages), 20)
	for _, p := range pages {
		code, page, stderr := try(t, noChild, append([]string{"manual"}, p...)...)
		require.Zero(t, code, stderr)
		for _, section := range []string{".TH GROWTUCK", ".SH NAME\n", ".SH SYNOPSIS\n", ".SH DESCRIPTION\n"} {
			require.Contains(t, page, section, p)
		}
		if groff != "" {
			c := exec.Command(groff, "-man", "-Tutf8", "-ww", "-z")
			c.Stdin = strings.NewReader(page)
			said, err := c.CombinedOutput()
			require.NoError(t, err)
			require.Empty(t, string(said), p)
		}
	}
	code, _, stderr := try(t, noChild, "manual", "nosuch")
	require.Equal(t, exitUsage, code)
	require.Contains(t, stderr, `unknown command "nosuch"`)
}
