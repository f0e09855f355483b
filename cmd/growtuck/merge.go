package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/validate"
)

// mergeRows puts proposed rows among the tables of a folder, or makes an edition of
// what was merged before.
func (a *app) mergeRows(args []string, f rowsFlags, failOn validate.Severity) error {
	tables := a.tablesInUse()
	switch {
	case f.merge == f.release, f.write != "" || f.review:
		return usagef("--merge, --release, --review and --write are apart: give one of them")
	case f.release && len(args) > 0:
		return usagef("--release takes no file: it makes an edition of what was merged")
	case f.merge && len(args) == 0:
		return usagef("--merge wants files, for example growtuck rows charts.csv body.csv --merge --tables data")
	case tables.Folder == "" && (f.release || !f.dryRun):
		return usagef("--tables names the folder that is written to")
	case f.picture != "" && !slices.Contains([]string{".svg", ".png"}, strings.ToLower(filepath.Ext(f.picture))):
		return usagef("--picture %s: want a name that ends in .svg or .png", f.picture)
	case f.force && f.picture == "":
		return usagef("--force is for what --picture writes")
	case f.release:
		return a.release(tables)
	case !f.dryRun && strings.TrimSpace(f.why) == "":
		return usagef("--why says why the tables change: it goes into their log")
	}
	m, err := tables.Merge(args, a.stdin, a.decoder())
	if err != nil {
		return err
	}
	if f.format != "text" {
		err = a.printFindings(m.Findings, f.format, "", false)
	} else {
		err = a.printMerge(m, f.dryRun)
	}
	if err != nil {
		return err
	}
	if f.picture != "" {
		content, err := m.Picture(f.picture)
		if err != nil {
			return err
		}
		a.sweep(f.picture)
		if err := save.One(save.File{Path: f.picture, Content: content}, f.force); err != nil {
			return err
		}
		a.say("the columns that change are drawn in " + f.picture)
	}
	for _, u := range m.Uses {
		if u.Err != nil {
			return fmt.Errorf("%s: %w", u.What, u.Err)
		}
	}
	if err := failing(m.Findings, failOn); err != nil || f.dryRun {
		return err
	}
	if m.Loads != nil {
		return m.Loads
	}
	files, err := m.Files(tables.Folder, contribution(args[0]), f.why)
	if err != nil || len(files) == 0 {
		return err
	}
	return a.writeInto(tables.Folder, files, true, []string{fmt.Sprintf("Wrote %d files", len(files))}, nil)
}

// contribution names what is merged, by its first file and folder.
func contribution(path string) string {
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if folder := filepath.Base(filepath.Dir(path)); folder != "." && folder != string(filepath.Separator) {
		name = folder + "-" + name
	}
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' || r == '_' {
			return r
		}
		return '-'
	}, strings.ToLower(name))
}

// printMerge says what came of a merge.
func (a *app) printMerge(m *work.Merge, dry bool) error {
	var out bytes.Buffer
	for _, s := range m.Passed {
		fmt.Fprintf(&out, "sheet %s: skipped, it has the header of no table\n", s)
	}
	for _, t := range m.Tables {
		fmt.Fprintf(&out, "%s: %s\n", t.Name, t.What())
	}
	fmt.Fprintln(&out)
	if err := a.style().WriteFindings(&out, m.Findings); err != nil {
		return err
	}
	if len(m.Findings) == 0 {
		fmt.Fprintln(&out, "No problems found.")
	}
	if m.Loads != nil {
		fmt.Fprintln(&out, "The tables could not be used with these rows.")
		if validate.Worst(m.Findings) < validate.Stop { // else it is said above
			for _, fault := range work.Flatten(m.Loads)[:1] {
				fmt.Fprintln(&out, fault)
			}
		}
	}
	for _, u := range m.Uses {
		if u.Err != nil {
			fmt.Fprintf(&out, "%s cannot be used: %v\n", u.What, u.Err)
		} else {
			fmt.Fprintf(&out, "%s: %s\n", u.What, u.For)
		}
	}
	if m.Moved != nil {
		fmt.Fprintf(&out, "Readings that move: %d, by at most %s cm or kg; %d more, %d gone.\n", m.Moved.Moved, tell.Figure(m.Moved.Largest), m.Moved.Added, m.Moved.Gone)
		if m.Moved.Moved > 0 && m.After != nil {
			if err := movesOf(m).Write(&out, "table", lineWidth(a.stdout)); err != nil {
				return err
			}
		}
	}
	if dry {
		fmt.Fprintln(&out, "Nothing was written: --dry-run=false writes it.")
	}
	_, err := a.stdout.Write(out.Bytes())
	return err
}

// release makes an edition, and takes away what it was made of.
func (a *app) release(tables work.Tables) error {
	write, remove, err := tables.Release(time.Now().Format(time.DateOnly))
	if err != nil {
		return err
	}
	if err := a.writeInto(tables.Folder, write, true, []string{"A new edition"}, nil); err != nil {
		return err
	}
	for _, path := range remove {
		if err := os.Remove(path); err != nil {
			return err
		}
	}
	return nil
}

// mostMoves is how many readings that move are shown.
const mostMoves = 40

// movesOf is a table of the readings that move most.
func movesOf(m *work.Merge) tell.Document {
	moved := *m.Moved
	moved.Moves = nil
	for _, x := range m.Moved.Moves {
		if x.Was && x.Is && len(moved.Moves) < mostMoves {
			moved.Moves = append(moved.Moves, x)
		}
	}
	d := tell.Compare(m.Before, m.After, &moved)
	d.Heading, d.Remarks = nil, nil
	return d
}
