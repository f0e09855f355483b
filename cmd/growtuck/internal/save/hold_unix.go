//go:build unix && !aix && !solaris

package save

import (
	"os"
	"syscall"
)

// hold marks a file as being written, for as long as this process has it open.
func hold(f *os.File) { _ = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) }

// isLeft reports whether no process writes a file any more.
func isLeft(name string) bool {
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return false
	}
	defer f.Close()
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil
}
