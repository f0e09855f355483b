//go:build !unix || aix || solaris

package save

import "os"

// hold does nothing: Windows removes no file that is open.
func hold(*os.File) {}

func isLeft(string, bool) bool { return true }

func likeBefore(name string, as os.FileInfo) error { return os.Chmod(name, as.Mode().Perm()) }
