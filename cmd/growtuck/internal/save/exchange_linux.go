package save

import (
	"errors"

	"golang.org/x/sys/unix"
)

// exchange lets a fresh folder and the one in place change places, at once where the
// file system can.
func exchange(fresh, place string) error {
	err := unix.Renameat2(unix.AT_FDCWD, fresh, unix.AT_FDCWD, place, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.EINVAL) {
		return inTurn(fresh, place)
	}
	return err
}
