package sizing

import (
	"fmt"
	"strings"
)

// UnknownError says that a name is not known, and which known name is nearest.
type UnknownError struct {
	Kind, Name string
	Nearest    string // "" where none is near
	Known      []string
}

func (e *UnknownError) Error() string {
	if e.Nearest != "" {
		return fmt.Sprintf("unknown %s %.80q; did you mean %.80q?", e.Kind, e.Name, e.Nearest)
	}
	if len(e.Known) == 0 {
		return fmt.Sprintf("unknown %s %.80q; none is known", e.Kind, e.Name)
	}
	return fmt.Sprintf("unknown %s %.80q; known are %s", e.Kind, e.Name, strings.Join(e.Known, ", "))
}

// A SizeError says that a chart has no such size.
type SizeError struct{ Unknown *UnknownError }

func (e *SizeError) Error() string {
	return e.Unknown.Error() + ", or a number between, an age such as 18m or 3y6m, or a height such as 104cm"
}

func (e *SizeError) Unwrap() error { return e.Unknown }

// listed are names in an error: "chest, waist and hip".
func listed(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

func unknown(kind, name string, known []string) error {
	return &UnknownError{kind, name, Nearest(name, known), known}
}

// Nearest returns the known name that takes the fewest single-letter changes
// to reach, if that is at most about a third of its letters.
func Nearest(name string, known []string) string {
	if len(name) > 100 {
		return ""
	}
	plain := strings.NewReplacer("_", "-", " ", "-").Replace(strings.ToLower(name))
	best, found := 0, ""
	for _, k := range known {
		d := distance(plain, strings.ReplaceAll(k, "_", "-"))
		if d <= max(1, (len(k)+1)/3) && (found == "" || d < best) {
			best, found = d, k
		}
	}
	return found
}

// distance is the number of letters to insert, delete or replace.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

// Words are the names in a list of fits, layers and the like.
func Words[T ~string](names []T) []string {
	words := make([]string, len(names))
	for i, n := range names {
		words[i] = string(n)
	}
	return words
}
