package save

import (
	"os"
	"path/filepath"
	"regexp"
	"sync"
)

var leftoverName = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^` + regexp.QuoteMeta(Prefix) + `(` + ofSet + `)?[0-9a-z]{1,13}$`)
})

// Sweep removes from the folders of paths what killed runs left there unfinished, files
// and folders, and returns what it removed. What a run still writes stays.
func Sweep(paths ...string) (removed []string) {
	seen := make(map[string]bool)
	for _, p := range paths {
		if p == "" {
			continue
		}
		dir := filepath.Dir(filepath.Clean(p))
		if target, err := filepath.EvalSymlinks(p); err == nil {
			dir = filepath.Dir(target)
		}
		if seen[dir] {
			continue
		}
		seen[dir] = true
		entries, err := os.ReadDir(dir)
		if err != nil {
			continue
		}
		for _, e := range entries {
			name := filepath.Join(dir, e.Name())
			if isOurs(e) && isLeft(name, e.IsDir()) && os.RemoveAll(name) == nil {
				removed = append(removed, name)
			}
		}
	}
	return removed
}

// isOurs reports whether only this package names a file or folder so.
func isOurs(e os.DirEntry) bool {
	m := leftoverName().FindStringSubmatch(e.Name())
	return m != nil && (e.IsDir() && m[1] != "" || e.Type().IsRegular() && m[1] == "")
}
