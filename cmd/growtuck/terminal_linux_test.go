package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// openTerminal is a terminal of so many columns; what is written to it can be read from
// screen.
func openTerminal(t *testing.T, columns uint16) (terminal, screen *os.File) {
	t.Helper()
	screen, err := os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skip(err)
	}
	t.Cleanup(func() { screen.Close() })
	require.NoError(t, unix.IoctlSetPointerInt(int(screen.Fd()), unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(int(screen.Fd()), unix.TIOCGPTN)
	require.NoError(t, err)
	terminal, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skip(err)
	}
	t.Cleanup(func() { terminal.Close() })
	require.NoError(t, unix.IoctlSetWinsize(int(terminal.Fd()), unix.TIOCSWINSZ, &unix.Winsize{Row: 24, Col: columns}))
	return terminal, screen
}

// onTerminal runs the program on a terminal, and gives the lines that it shows.
func onTerminal(t *testing.T, columns uint16, args ...string) []string {
	t.Helper()
	terminal, screen := openTerminal(t, columns)
	shown := make(chan []byte)
	go func() {
		var all bytes.Buffer
		for !bytes.Contains(all.Bytes(), []byte("\x04")) {
			if _, err := io.CopyN(&all, screen, 1); err != nil {
				break
			}
		}
		shown <- all.Bytes()
	}()
	run(args, strings.NewReader(""), terminal, terminal)
	fmt.Fprint(terminal, "\x04")
	return strings.Split(strings.ReplaceAll(strings.TrimSuffix(string(<-shown), "\x04"), "\r\n", "\n"), "\n")
}

// On a terminal no line of words is broken within one: neither of help, nor of findings,
// nor of what is said.
func TestWordsFitTheTerminal(t *testing.T) {
	testdata := filepath.Join("..", "..", "testdata")
	for _, columns := range []uint16{40, 72, 80} {
		for _, args := range [][]string{
			{"check", filepath.Join(testdata, "drafts", "cardigan-slips.csv")}, {"rows", filepath.Join(testdata, "rows", "proposed.csv")},
			{"plan", "--help"}, {"batch", "--help"}, {"--help"}, {"blend", "--set", "hed=3"}, {"plan", "hat", "--zippers", "30", "--yoke", "raglan"}, {"size", "3", "5.5"},
		} {
			lines := onTerminal(t, columns, args...)
			require.Greater(t, len(lines), 1)
			for _, line := range lines {
				if !strings.HasPrefix(line, "  growtuck ") && strings.Contains(strings.TrimSpace(line), " ") {
					require.LessOrEqual(t, utf8.RuneCountInString(line), int(columns), "%s: %q", args, line)
				}
			}
		}
	}
}

// In a file a finding is one line, however narrow the terminal is that it is written from.
func TestAFindingIsALine(t *testing.T) {
	t.Setenv("COLUMNS", "40")
	path := filepath.Join("..", "..", "testdata", "drafts", "cardigan-slips.csv")
	_, stdout, _ := try(t, noChild, "check", path)
	for line := range strings.Lines(stdout) {
		require.True(t, strings.HasPrefix(line, path+":") || strings.HasPrefix(line, "No problems"), line)
	}
}

// The bar keeps away from a terminal that the lines go to.
func TestResultsCanGoToATerminal(t *testing.T) {
	device, _ := openTerminal(t, 80)
	require.NotNil(t, terminal(device))
	require.NotNil(t, terminal(&resultWriter{to: device}))
	file, err := os.Create(filepath.Join(t.TempDir(), "file"))
	require.NoError(t, err)
	defer file.Close()
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	require.NoError(t, err)
	defer null.Close()
	for _, w := range []io.Writer{file, null, &resultWriter{to: file}, &resultWriter{to: &bytes.Buffer{}}, &bytes.Buffer{}} {
		require.Nil(t, terminal(w))
	}
}
