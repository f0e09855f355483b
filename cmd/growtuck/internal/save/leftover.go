package save

import (
	"os"
	"path/filepath"
	"regexp"
	"sync"
)

var leftoverName = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^` + regexp.QuoteMeta(Prefix) + `[0-9a-z]{1,13}$`) })

// Sweep removes from the folders of paths what killed runs left there unfinished, and
// returns what it removed. A file that a run still writes stays.
func Sweep(paths ...string) (removed []string) {
	seen := make(map[string]bool)
	for _, p := range paths {
		dir := filepath.Dir(p)
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
			if e.Type().IsRegular() && leftoverName().MatchString(e.Name()) && isLeft(name) && os.Remove(name) == nil {
				removed = append(removed, name)
			}
		}
	}
	return removed
}
