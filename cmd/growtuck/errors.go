package main

import (
	"errors"
	"fmt"
	"io/fs"
	"net"
	"os"
	"strings"
	"syscall"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/data/table"
)

// The exit codes: exitBadInput where input was read and something in it is
// wrong, findings too; exitUsage where the command line cannot be followed, or
// a file that it names cannot be read or written.
const (
	exitBadInput = 1
	exitUsage    = 2
)

// A usageError is a command line that cannot be followed.
type usageError struct{ msg string }

func (e *usageError) Error() string { return e.msg }

func usagef(format string, args ...any) error {
	return &usageError{fmt.Sprintf(format, args...)}
}

// fail prints an error and returns the exit code for it.
func (a *app) fail(err error) int {
	if errors.Is(err, syscall.EPIPE) {
		return exitBadInput // the reader has gone: nobody would see a message
	}
	for _, e := range work.Flatten(err) {
		says := tell.Style{}.Error(e)
		if errors.As(e, new(*table.NotUTF8Error)) {
			says += ", or give --latin-1"
		}
		a.say(says)
		for _, doubt := range a.style().CheckFirst(tell.DoubtsOf(e)) {
			a.say(doubt)
		}
	}
	var usage *usageError
	var cannot work.Unusable
	var fault *ask.Fault
	var faults ask.Faults
	var address *net.AddrError // of a flag
	if !a.started || errors.As(err, &usage) || errors.As(err, &cannot) || errors.As(err, &fault) || errors.As(err, &faults) || errors.As(err, &address) || cannotReadOrWrite(err) {
		return exitUsage
	}
	return exitBadInput
}

// cannotReadOrWrite reports whether an error is about a file rather than its content.
func cannotReadOrWrite(err error) bool {
	var at *fs.PathError
	var link *os.LinkError
	var call *os.SyscallError
	var target *save.TargetError
	return errors.As(err, &at) || errors.As(err, &link) || errors.As(err, &call) || errors.As(err, &target)
}

// say prints a message on standard error, each line after the program's name.
func (a *app) say(msg string) {
	for line := range strings.Lines(msg) {
		fmt.Fprint(a.stderr, fitting("growtuck: "+tell.Printable(strings.TrimRight(line, "\n"))+"\n", a.stderr))
	}
}
