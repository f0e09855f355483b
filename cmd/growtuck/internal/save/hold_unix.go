//go:build unix && !aix && !solaris

package save

import (
	"os"
	"syscall"
)

// hold marks a file as being written, for as long as this process has it open.
func hold(f *os.File) { _ = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) }

// isLeft reports whether no process writes a file or fills a folder any more.
func isLeft(name string, folder bool) bool {
	how := os.O_WRONLY
	if folder {
		how = os.O_RDONLY
	}
	f, err := os.OpenFile(name, how, 0)
	if err != nil {
		return false
	}
	defer f.Close()
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil
}

// likeBefore gives a file or folder the permissions of the one that it replaces, and its
// owner, which only root can.
func likeBefore(name string, as os.FileInfo) error {
	if owner, ok := as.Sys().(*syscall.Stat_t); ok {
		_ = os.Lchown(name, int(owner.Uid), int(owner.Gid))
	}
	return os.Chmod(name, as.Mode()&(os.ModePerm|os.ModeSetgid|os.ModeSticky))
}
