package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"golang.org/x/term"
)

// fromDesktop reports whether the program was started by a double click: without
// arguments, and without a terminal or, in Windows, which gives it one, at all.
func fromDesktop(args []string) bool {
	if len(args) > 0 {
		return false
	}
	for _, f := range []*os.File{os.Stdin, os.Stdout, os.Stderr} {
		if term.IsTerminal(int(f.Fd())) && runtime.GOOS != "windows" {
			return false
		}
	}
	switch runtime.GOOS {
	case "windows":
		return true
	case "darwin":
		own, err := os.Executable()
		return err == nil && strings.Contains(filepath.ToSlash(own), ".app/Contents/MacOS/")
	}
	return (os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != "") && !piped(os.Stdin) && !piped(os.Stdout)
}

// piped reports whether a stream comes from or goes to another program, as in a
// script. What a desktop's programs print may go to a file.
func piped(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeNamedPipe != 0
}

// openBrowser opens an address in the browser that the person uses.
func openBrowser(address string) error {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	case "darwin":
		name = "open"
	}
	cmd := exec.Command(name, args...)
	if err := cmd.Start(); err != nil {
		return err
	}
	go func() { _ = cmd.Wait() }()
	return nil
}
