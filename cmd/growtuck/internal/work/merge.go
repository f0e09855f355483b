package work

import (
	"cmp"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/data"
	"growtuck/data/rules"
	"growtuck/sizing"
	"growtuck/validate"
)

// A Merge is proposed rows of any tables put among those that they will join.
type Merge struct {
	Tables   []MergedTable
	Findings []validate.Finding // that the tables without the rows do not have
	Loads    error              // why the tables could not be used
	Before   *data.Edition
	After    *data.Edition
	Moved    *sizing.Comparison // nil where the tables cannot be used
	Uses     []Use              // of the charts and garments that are new or changed
	Passed   []string           // sheets of a workbook that hold no rows

	files      memory            // all tables with the rows in them
	was, after *sizing.Reference // nil where the tables cannot be used
	changed    map[string]bool   // keys of rows of body.csv that are new or changed
	sheets     []*workbook.Table // of workbooks, in the order in which they were joined
}

// A MergedTable is a table that rows were proposed for.
type MergedTable struct {
	Name             string
	Added, Corrected int
}

// A Use is what a new chart or garment can be used for.
type Use struct {
	What string // garment bathrobe
	For  string // where it can be used: "planned in knit and crochet, sizes 2 to 14"
	Err  error  // why it cannot
}

// proposed is where a merged row comes from: a line of a file, or a row of the sheet
// that it was read from.
type proposed struct {
	file  string
	line  int
	sheet *workbook.Table
}

// String is the place in words.
func (p proposed) String() string {
	at := fmt.Sprintf("%s:%d:1", p.file, p.line)
	if p.sheet != nil {
		return p.sheet.Where(at)
	}
	return fmt.Sprintf("line %d of %s", p.line, p.file)
}

// Merge puts the rows of files, each of one table, among the tables.
func (t Tables) Merge(paths []string, stdin io.Reader, decode Decoder) (*Merge, error) {
	before, err := t.Load()
	if err != nil {
		return nil, err
	}
	m := &Merge{files: memory{}, changed: make(map[string]bool)}
	if m.Before, err = data.EditionOf(t.files(), rules.Rows(data.Forms())); err != nil {
		return nil, err
	}
	for _, s := range data.Schemas() {
		f, err := data.OpenTable(t.files(), s.File)
		if err != nil {
			continue // a folder without a log of changes
		}
		raw, err := io.ReadAll(f)
		if err := cmp.Or(err, f.Close()); err != nil {
			return nil, err
		}
		m.files[s.File] = raw
	}
	from := make(map[string]map[string]proposed) // table → key
	for _, path := range paths {
		if path != "-" && IsWorkbook(path) {
			err = m.joinWorkbook(path, from)
		} else {
			var raw []byte
			if raw, err = ReadTable(path, stdin, decode); err == nil {
				err = m.join(path, raw, nil, from)
			}
		}
		if err != nil {
			return nil, err
		}
	}
	if err := m.canonical(); err != nil {
		return nil, err
	}
	m.After, _ = data.EditionOf(m.files, rules.Rows(data.Forms())) // its log of changes has been read
	return m, m.check(t, before, from)
}

// canonical puts every table that was added to into canonical form, those first that
// give others their order.
func (m *Merge) canonical() error {
	for _, s := range data.Schemas() {
		if !slices.ContainsFunc(m.Tables, func(t MergedTable) bool { return t.Name == s.File }) && s.File != "body.csv" {
			continue
		}
		tables, err := data.Load(m.files)
		if err != nil {
			tables = new(data.Tables) // what is wrong is found below
		}
		raw, err := validate.Canonical(s.File, m.files[s.File], tables)
		if err != nil {
			return err
		}
		m.files[s.File] = raw
	}
	return nil
}

// check finds what the rows bring: findings, what can be used, and readings that move.
func (m *Merge) check(t Tables, before *data.Tables, from map[string]map[string]proposed) error {
	known := make(map[string]bool)
	old, err := validate.CheckTables(t.files(), "", nil)
	if err != nil {
		return err
	}
	about := func(f validate.Finding) string {
		return strings.Join([]string{f.Rule, f.File, f.Subject, f.Found.String(), f.Severity.String()}, "\x00")
	}
	for _, f := range old {
		known[about(f)] = true
	}
	findings, err := validate.CheckTables(m.files, "", before)
	if err != nil {
		return err
	}
	records := make(map[string][][]string)
	fresh := make(map[*workbook.Table][]validate.Finding) // those of files under nil
	for _, f := range findings {
		if known[about(f)] {
			continue
		}
		var sheet *workbook.Table
		if s := data.SchemaOf(f.File); s != nil && f.Line > 1 {
			if records[f.File] == nil {
				records[f.File], _ = recordsOf(m.files[f.File])
			}
			if rows := records[f.File]; f.Line <= len(rows) {
				if p, ok := from[f.File][keyOf(s, rows[f.Line-1])]; ok {
					f.File, f.Line = p.file, p.line
					if sheet = p.sheet; sheet == nil {
						f.Column = 0 // cells may be written otherwise than in the table
					}
				}
			}
		}
		fresh[sheet] = append(fresh[sheet], f)
	}
	for _, sheet := range append([]*workbook.Table{nil}, m.sheets...) {
		validate.Sort(fresh[sheet])
		of := validate.Gather(fresh[sheet])
		if sheet != nil {
			of = sheet.Findings(of)
		}
		m.Findings = append(m.Findings, of...)
	}
	after, err := data.Load(m.files)
	if err == nil {
		err = after.Check(rules.Rows(data.Forms()))
	}
	var ref, was *sizing.Reference
	if err == nil {
		ref, err = sizing.New(after)
	}
	if m.Loads = err; err != nil {
		return nil
	}
	if was, err = sizing.New(before); err == nil {
		m.Moved, err = ref.Compare(was)
	}
	m.was, m.after = was, ref
	m.Uses = usesOf(ref, from)
	return err
}

// Files are what a merge writes into a folder: the tables that changed, and what is
// kept of it until the next edition.
func (m *Merge) Files(folder, name, why string) ([]save.File, error) {
	var files []save.File
	var pending []data.PendingChange
	for _, t := range m.Tables {
		if t.Added+t.Corrected == 0 {
			continue
		}
		files = append(files, save.File{Path: filepath.Join(folder, t.Name), Content: m.files[t.Name]})
		moved := 0.0
		if m.Moved != nil {
			moved = m.Moved.Largest
		}
		pending = append(pending, data.PendingChange{Table: t.Name, What: t.What(), Why: why, MovedCm: moved, Added: t.Added > 0})
	}
	if len(files) == 0 {
		return nil, nil
	}
	text, err := data.WritePending(pending)
	return append(files, save.File{Path: filepath.Join(folder, data.PendingFolder, name+".csv"), Content: text}), err
}

// What says what was done to the table.
func (t MergedTable) What() string {
	var parts []string
	if t.Added > 0 {
		parts = append(parts, fmt.Sprintf("%d added", t.Added))
	}
	if t.Corrected > 0 {
		parts = append(parts, fmt.Sprintf("%d corrected", t.Corrected))
	}
	if len(parts) == 0 {
		return "nothing new"
	}
	return strings.Join(parts, ", ")
}

// Release makes an edition of what is pending in the folder: the files to write, and
// those to remove.
func (t Tables) Release(date string) (write []save.File, remove []string, err error) {
	files, gone, err := data.Release(t.files(), date, rules.Rows(data.Forms()))
	if err != nil {
		return nil, nil, inFolder(t.Folder, err)
	}
	for _, name := range []string{"changes.csv", data.DescriptorFile} {
		write = append(write, save.File{Path: filepath.Join(t.Folder, name), Content: files[name]})
	}
	for _, name := range gone {
		remove = append(remove, filepath.Join(t.Folder, name))
	}
	return write, remove, nil
}
