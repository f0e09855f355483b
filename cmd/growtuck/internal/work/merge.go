package work

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/data"
	"growtuck/data/rules"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
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

	files memory // all tables with the rows in them
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

// proposed is where a merged row comes from.
type proposed struct {
	file string
	line int
}

// Merge puts the rows of files, each of one table, among the tables.
func (t Tables) Merge(paths []string, stdin io.Reader, decode Decoder) (*Merge, error) {
	before, err := t.Load()
	if err != nil {
		return nil, err
	}
	m := &Merge{files: memory{}}
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
		if err := m.join(path, stdin, decode, from); err != nil {
			return nil, err
		}
	}
	if err := m.canonical(); err != nil {
		return nil, err
	}
	m.After, _ = data.EditionOf(m.files, rules.Rows(data.Forms())) // its log of changes has been read
	return m, m.check(t, before, from)
}

// join puts the rows of a file in the place of those with their keys, or at the end.
func (m *Merge) join(path string, stdin io.Reader, decode Decoder, from map[string]map[string]proposed) error {
	raw, err := ReadTable(path, stdin, decode)
	if err != nil {
		return err
	}
	name := validate.TableOf(raw)
	if name == "" || m.files[name] == nil || name == "changes.csv" {
		return Unusable{Faults{fmt.Errorf("%s has the columns of no table that rows are proposed for", path)}}
	}
	loose, err := validate.Canonical(name, raw, new(data.Tables))
	if err != nil {
		return inFolder(filepath.Dir(path), err)
	}
	schema := data.SchemaOf(name)
	rows, lines := recordsOf(loose)
	have, _ := recordsOf(m.files[name])
	at := make(map[string]int, len(have))
	for i, row := range have[1:] {
		at[keyOf(schema, row)] = i + 1
	}
	i := slices.IndexFunc(m.Tables, func(t MergedTable) bool { return t.Name == name })
	if i < 0 {
		m.Tables = append(m.Tables, MergedTable{Name: name})
		i = len(m.Tables) - 1
		from[name] = make(map[string]proposed)
	}
	places := linesIn(raw, rows)
	for n, row := range rows[1:] {
		k := keyOf(schema, row)
		line := lines[n+1]
		if p, ok := places[strings.Join(row, "\x00")]; ok {
			line = p
		}
		if old, ok := from[name][k]; ok {
			return Unusable{Faults{&data.Error{File: path, Line: line, Msg: fmt.Sprintf("%s is proposed on line %d of %s too", strings.ReplaceAll(k, "\x00", ", "), old.line, old.file)}}}
		}
		from[name][k] = proposed{path, line}
		if j, ok := at[k]; !ok {
			have = append(have, row)
			m.Tables[i].Added++
		} else if !slices.Equal(have[j], row) {
			have[j] = row
			m.Tables[i].Corrected++
		}
	}
	m.files[name] = written(have)
	return nil
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
	for _, f := range findings {
		if known[about(f)] {
			continue
		}
		if s := data.SchemaOf(f.File); s != nil && f.Line > 1 {
			if records[f.File] == nil {
				records[f.File], _ = recordsOf(m.files[f.File])
			}
			if rows := records[f.File]; f.Line <= len(rows) {
				if p, ok := from[f.File][keyOf(s, rows[f.Line-1])]; ok {
					f.File, f.Line, f.Column = p.file, p.line, 0
				}
			}
		}
		m.Findings = append(m.Findings, f)
	}
	validate.Sort(m.Findings)
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
	m.Uses = usesOf(ref, was, from)
	return err
}

// usesOf tries the charts and garments that rows are about in what commands do.
func usesOf(ref, was *sizing.Reference, from map[string]map[string]proposed) []Use {
	touched := func(id string, tables ...string) bool {
		for _, table := range tables {
			for k := range from[table] {
				if slices.Contains(strings.Split(k, "\x00")[:1], id) || table == "ease.csv" && strings.Split(k, "\x00")[1] == id {
					return true
				}
			}
		}
		return false
	}
	var uses []Use
	for _, c := range ref.Charts() {
		if touched(c.ID, "charts.csv", "sizes.csv", "body.csv") {
			uses = append(uses, chartUse(ref, c))
		}
	}
	for _, g := range ref.Garments() {
		if touched(g.ID, "garments.csv", "parts.csv", "ease.csv", "lengths.csv") {
			uses = append(uses, garmentUse(ref, g))
		}
	}
	return uses
}

// chartUse reads a chart at all its sizes.
func chartUse(ref *sizing.Reference, c *sizing.Chart) Use {
	u := Use{What: "chart " + c.ID}
	sizes, readings := 0, 0
	for _, run := range c.Runs() {
		for _, z := range run.Sizes {
			n := len(ref.BodyAt(sizing.Place{Run: run, Position: z.Position}, sizing.Monotone).Readings)
			if n == 0 && u.Err == nil {
				u.Err = fmt.Errorf("size %s (%s) reads nothing", z.Size, run.Sex)
			}
			sizes, readings = sizes+1, readings+n
		}
	}
	u.For = fmt.Sprintf("%d readings at %d sizes", readings, sizes)
	if err := c.CheckSex(sizing.Both); err != nil {
		u.For += "; " + err.Error()
	}
	return u
}

// garmentUse plans a garment in both crafts at the sizes of the default chart.
func garmentUse(ref *sizing.Reference, g data.Garment) Use {
	u := Use{What: "garment " + g.ID}
	chart, err := ref.Chart(sizing.DefaultChart)
	if err != nil {
		u.Err = err
		return u
	}
	planned := 0
	for _, size := range []string{"2", "4", "6", "8", "10", "12", "14"} {
		place, err := chart.Place(size, sizing.Both)
		if err != nil {
			u.Err = err
			return u
		}
		f, err := ref.Finish(ref.BodyAt(place, sizing.Monotone), sizing.Spec{Garment: g.ID, Fit: "classic", Layer: "skin"})
		for _, craft := range plan.Crafts {
			if err == nil {
				_, err = plan.Make(f, plan.How{Craft: craft, Gauge: stitch.Gauge{StitchesPer10Cm: 20, RowsPer10Cm: 28}})
			}
			if err != nil {
				u.Err = fmt.Errorf("size %s: %w", size, err)
				return u
			}
			planned++
		}
	}
	u.For = fmt.Sprintf("%d plans, in knitting and crochet, sizes 2 to 14", planned)
	return u
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

// recordsOf are the records of a table in canonical form, one a line.
func recordsOf(raw []byte) (rows [][]string, lines []int) {
	r := csv.NewReader(bytes.NewReader(raw))
	r.FieldsPerRecord = -1
	rows, _ = r.ReadAll() // it was written by encoding/csv
	for i := range rows {
		lines = append(lines, i+1)
	}
	return rows, lines
}

// linesIn are the lines on which records stand in a file as it was given.
func linesIn(raw []byte, rows [][]string) map[string]int {
	at := make(map[string]int, len(rows))
	r := csv.NewReader(bytes.NewReader(raw))
	r.FieldsPerRecord = -1
	for {
		row, err := r.Read()
		if err != nil {
			return at
		}
		line, _ := r.FieldPos(0)
		at[strings.Join(row, "\x00")] = line
	}
}

func written(rows [][]string) []byte {
	var b bytes.Buffer
	_ = csv.NewWriter(&b).WriteAll(rows) // a buffer takes everything
	return b.Bytes()
}

// keyOf is the key of a row.
func keyOf(s *data.Schema, row []string) string {
	var parts []string
	for _, k := range s.Key {
		parts = append(parts, row[slices.Index(s.Names(), k)])
	}
	return strings.Join(parts, "\x00")
}
