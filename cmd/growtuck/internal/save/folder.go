package save

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// ofSet is in the name of a folder of files that are written as one.
const ofSet = "set-"

// mostKept bounds what a folder may hold beside the files that are written into it.
const mostKept = 20_000

// inFolder writes files of a folder as one: they are put into a new folder beside it,
// with links to all else that it holds, and the two change places. So whoever looks,
// and whenever a run is killed, sees all of the old files or all of the new ones.
func inFolder(folder string, files []File, g *guard) error {
	place, err := filepath.EvalSymlinks(folder)
	if errors.Is(err, fs.ErrNotExist) {
		place, err = folder, os.MkdirAll(filepath.Dir(filepath.Clean(folder)), 0o755)
	}
	if err != nil {
		return writeError(folder, err)
	}
	was, err := os.Stat(place)
	there := err == nil
	if here, err := os.Stat("."); err == nil && there && os.SameFile(here, was) {
		return &TargetError{folder, "is the folder that you are in, and is replaced as a whole; do it from another"}
	}
	var fresh freshFolder
	f, err := g.create(func() (*os.File, error) { fresh, err = newFolderBeside(place); return fresh.File, err })
	if err != nil {
		return writeError(folder, err)
	}
	defer f.Close()
	defer os.RemoveAll(fresh.Name()) // after the exchange, what was there before
	written, err := fresh.fill(place, files, there, g)
	if err != nil {
		return err
	}
	g.hold() // a signal to stop waits until they have changed places
	if !there {
		err = errors.Join(os.Chmod(fresh.Name(), fresh.mode), f.Sync())
		if err == nil {
			err = os.Rename(fresh.Name(), place)
		}
		return inName(folder, err)
	}
	if err := errors.Join(likeBefore(fresh.Name(), was), f.Sync()); err != nil {
		return writeError(folder, err)
	}
	if err := exchange(fresh.Name(), place); err != nil {
		return inName(folder, err)
	}
	return inName(folder, rescue(fresh.Name(), place, written))
}

func inName(path string, err error) error {
	if err == nil {
		return nil
	}
	return writeError(path, err)
}

// A freshFolder is being filled; mode is what it gets in the end where it replaces none.
type freshFolder struct {
	*os.File
	mode fs.FileMode
}

// newFolderBeside creates a folder beside another, for its user alone, open and marked
// as being filled.
func newFolderBeside(place string) (f freshFolder, err error) {
	for range 1000 {
		name := temporaryName(place, ofSet)
		if err = os.Mkdir(name, 0o777); errors.Is(err, fs.ErrExist) {
			continue
		}
		if err == nil {
			f.File, err = os.Open(name)
		}
		if err != nil {
			return f, err
		}
		hold(f.File)
		own, err := f.Stat()
		if err != nil {
			return f, err
		}
		if there, err := os.Stat(name); err != nil || !os.SameFile(there, own) {
			_ = f.Close() // another run took it for a leftover before it was marked
			continue
		}
		f.mode = own.Mode().Perm()
		return f, os.Chmod(name, 0o700)
	}
	return f, fs.ErrExist
}

// fill puts the files into the folder, and links to what else is in place. It returns
// the names of the files.
func (fresh freshFolder) fill(place string, files []File, there bool, g *guard) (map[string]bool, error) {
	written := make(map[string]bool)
	for _, f := range files {
		dir, name := filepath.Split(f.Path)
		if real, err := filepath.EvalSymlinks(dir); err == nil {
			dir = real
		}
		name, err := filepath.Rel(place, filepath.Join(dir, name))
		if err != nil || !filepath.IsLocal(name) {
			return nil, &TargetError{f.Path, "is not in the folder"}
		}
		written[name] = true
		if err := g.step(func() error { return writeSynced(filepath.Join(fresh.Name(), name), f.Content, f.Path) }); err != nil {
			return nil, err
		}
	}
	if !there {
		return written, nil
	}
	kept := 0
	return written, filepath.WalkDir(place, func(path string, d fs.DirEntry, err error) error {
		name, _ := filepath.Rel(place, path)
		if err != nil || name == "." {
			return err
		}
		if kept++; kept > mostKept {
			return &TargetError{place, fmt.Sprintf("holds more than %d files; want a folder of its own", mostKept)}
		}
		return g.step(func() error { return keep(path, filepath.Join(fresh.Name(), name), d, written[name]) })
	})
}

// keep gives a fresh folder what there is of a name in the old one; of what is written
// anew only its permissions.
func keep(path, to string, d fs.DirEntry, written bool) error {
	switch {
	case d.IsDir():
		if err := os.Mkdir(to, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
			return err
		}
		return alike(to, d)
	case written && !d.Type().IsRegular():
		return &TargetError{path, "is a link, and the files of the folder are replaced as one; delete it"}
	case written:
		return alike(to, d)
	case d.Type().IsRegular():
		return os.Link(path, to)
	case d.Type()&fs.ModeSymlink != 0:
		target, err := os.Readlink(path)
		if err != nil {
			return err
		}
		return os.Symlink(target, to)
	}
	return &TargetError{path, notRegular}
}

// alike gives a file or folder the permissions of another.
func alike(name string, as fs.DirEntry) error {
	info, err := as.Info()
	if err != nil {
		return err
	}
	return likeBefore(name, info)
}

// rescue puts into place what came into the folder that was there before while the new
// one was filled.
func rescue(before, place string, written map[string]bool) error {
	return filepath.WalkDir(before, func(path string, d fs.DirEntry, err error) error {
		name, _ := filepath.Rel(before, path)
		if err != nil || written[name] || d.IsDir() {
			return err
		}
		to := filepath.Join(place, name)
		was, err := os.Lstat(path)
		if err != nil {
			return err
		}
		is, err := os.Lstat(to)
		if err == nil && (os.SameFile(was, is) || !d.Type().IsRegular()) {
			return nil
		}
		return os.Rename(path, to)
	})
}

// writeSynced writes a file that nobody else sees yet; path is what it will be called.
func writeSynced(name string, content []byte, path string) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return writeError(path, err)
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, newFiles)
	if err != nil {
		return writeError(path, err)
	}
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return writeError(path, err)
	}
	return nil
}

// inTurn lets two folders change places one after the other, where that cannot be done
// at once: a run killed in between leaves the old folder under the name of what is
// before, and none in its place.
func inTurn(fresh, place string) error {
	before := place + before
	if err := os.Rename(place, before); err != nil {
		return err
	}
	if err := os.Rename(fresh, place); err != nil {
		return errors.Join(err, os.Rename(before, place))
	}
	return os.Rename(before, fresh)
}

const before = ".before"
