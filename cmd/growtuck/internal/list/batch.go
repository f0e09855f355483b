package list

import (
	"context"
	"fmt"
	"io"
	"os"
	"slices"

	"growtuck/sizing"
)

// BatchOptions say what is written of each child.
type BatchOptions struct {
	Want    []string     // ids of measurements; nil for those that most garments take, or with a garment none
	Ranges  bool         // write the likely range of what was estimated
	Units   []string     // cm, in, or both
	Garment *sizing.Spec // to work out the finished measurements of, if any
	Format  Format
	Rejects string // file for the lines that are rejected; "" for none
	Replace bool   // the file of rejects may be replaced
}

// A Batch writes a line for each child of a list: its sizes, the measurements that
// are wanted and a garment's finished measurements.
type Batch struct {
	ref                     *sizing.Reference
	chart                   *sizing.Chart
	options                 BatchOptions
	needed                  []string // ids that the sizer works out
	heightIndex, chestIndex int      // among those
	parts                   []int    // among those, what the garment's parts are made from
	headers                 []string // of the columns that are worked out
	columns                 []outputColumn
}

// The columns that are always written.
var sizeColumns = []string{"size_by_height", "place_by_height", "size_by_chest", "place_by_chest", "check"}

// wantedByDefault are the widths and lengths that most garments take.
var wantedByDefault = []string{"height", "head", "chest", "waist", "hip", "upper_arm", "cross_back",
	"back_waist_length", "arm_length", "rise", "inside_leg"}

// An outputColumn is a column with a number in it.
type outputColumn struct {
	figure figure
	index  int     // among the measurements needed, or the garment's parts
	unit   float64 // in cm or kg
}

// A figure is which number of a measurement a column holds.
type figure uint8

const (
	valueFigure figure = iota
	lowFigure
	highFigure
	finishedFigure
)

// NewBatch works out the columns. It refuses columns that no child can have.
func NewBatch(ref *sizing.Reference, o BatchOptions) (*Batch, error) {
	chart, err := ref.Chart("child")
	if err != nil {
		return nil, err
	}
	if len(o.Want) == 0 && o.Garment == nil {
		o.Want = wantedByDefault
	}
	b := &Batch{ref: ref, chart: chart, options: o, headers: slices.Clone(sizeColumns)}
	for i, id := range o.Want {
		if slices.Contains(o.Want[:i], id) {
			continue
		}
		if err := b.addMeasurement(id); err != nil {
			return nil, err
		}
	}
	b.heightIndex, b.chestIndex = b.need("height"), b.need("chest")
	if o.Garment == nil {
		return b, nil
	}
	return b, b.addGarment()
}

// Columns are the names of the columns that are worked out.
func (b *Batch) Columns() []string { return b.headers }

func (b *Batch) addMeasurement(id string) error {
	m, err := b.ref.Measurement(id)
	if err != nil {
		return err
	}
	index := b.need(id)
	for _, unit := range b.options.Units {
		size := map[string]float64{"cm": 1, "in": sizing.CmPerInch}[unit]
		if m.Unit == "kg" {
			size = map[string]float64{"cm": 1, "in": sizing.KgPerPound}[unit]
			unit = map[string]string{"cm": "kg", "in": "lb"}[unit]
		}
		b.add(id+"_"+unit, outputColumn{valueFigure, index, size})
		if b.options.Ranges {
			b.add(id+"_low_"+unit, outputColumn{lowFigure, index, size})
			b.add(id+"_high_"+unit, outputColumn{highFigure, index, size})
		}
	}
	return nil
}

func (b *Batch) addGarment() error {
	finisher, err := b.ref.Finisher(*b.options.Garment)
	if err != nil {
		return err
	}
	for i, p := range finisher.Parts() {
		b.parts = append(b.parts, b.need(p.Measurement))
		for _, unit := range b.options.Units {
			size := map[string]float64{"cm": 1, "in": sizing.CmPerInch}[unit]
			b.add("finished_"+p.Part+"_"+unit, outputColumn{finishedFigure, i, size})
		}
	}
	if spec := b.options.Garment; spec.Seasons > 0 || spec.Wear > 0 {
		b.need("height")
	}
	place, err := b.chart.Place("4", sizing.Both)
	if err != nil {
		return err
	}
	_, err = b.ref.Finish(b.ref.BodyAt(place, sizing.Monotone), *b.options.Garment)
	return err
}

// need has the sizer work out a measurement, and returns its index.
func (b *Batch) need(id string) int {
	if i := slices.Index(b.needed, id); i >= 0 {
		return i
	}
	b.needed = append(b.needed, id)
	return len(b.needed) - 1
}

func (b *Batch) add(header string, c outputColumn) {
	b.headers = append(b.headers, header)
	b.columns = append(b.columns, c)
}

// A BatchResult says how a batch went.
type BatchResult struct {
	Rejected int      // lines
	JSON     bool     // lines of JSON were written
	Sources  []string // ids of the sources that the columns rest on
}

// Run sizes a list and writes it. The context stops it between blocks; a run that
// is stopped or fails leaves no file of rejects.
func (b *Batch) Run(ctx context.Context, in *List, out io.Writer, to Listener) (*BatchResult, error) {
	inJSON, err := in.writesJSON(b.options.Format)
	if err != nil {
		return nil, err
	}
	path := b.options.Rejects
	if info, err := os.Stat(path); err == nil && in.file != nil && os.SameFile(info, in.file) {
		return nil, fmt.Errorf("%s is the list itself; name another file for rejected lines", path)
	}
	rejects, err := createRejects(path, b.options.Replace)
	if err != nil {
		return nil, err
	}
	for _, doubt := range in.doubts(b.ref) {
		to.Doubt(doubt)
	}
	r := &BatchResult{JSON: inJSON, Sources: b.sources()}
	if r.Rejected, err = b.size(ctx, in, inJSON, out, rejects, to); err != nil {
		rejects.discard()
		return nil, err
	}
	return r, rejects.commit()
}

// size takes the list through the sizers and writes it.
func (b *Batch) size(ctx context.Context, in *List, inJSON bool, out io.Writer, rejects *rejectsFile, to Listener) (rejected int, err error) {
	if err := rejects.write(in.header); err != nil {
		return 0, err
	}
	if !inJSON && in.options.Header {
		if _, err := out.Write(b.headerLine(in)); err != nil {
			return 0, err
		}
	}
	p := pipeline{list: in.lines, name: in.name, stop: ctx.Done()}
	p.handler = func() (handler, error) {
		sizer, err := b.newSizer(in, inJSON)
		if err != nil {
			return nil, err
		}
		r := newChildReader(b.ref, in)
		return func(b *block, line []byte) *LineError {
			if wrong := r.readLine(line); wrong != nil {
				return wrong
			}
			doubted, wrong := sizer.size(r)
			if wrong == nil {
				b.out = sizer.write(b.out, r, doubted)
			}
			return wrong
		}, nil
	}
	p.write = func(b *block) error {
		if rejected += b.rejected; b.rejected > 0 {
			to.Rejected(b.errors)
		}
		if err := rejects.write(b.rejects); err != nil {
			return err
		}
		if _, err := out.Write(b.out); err != nil {
			return err
		}
		to.Read(b.children, b.read)
		return nil
	}
	err = p.run()
	return rejected, err
}

// headerLine is the header of what is written as CSV.
func (b *Batch) headerLine(in *List) []byte {
	out := in.copiedHeader()
	for i, h := range b.headers {
		if i > 0 {
			out = append(out, byte(in.separator))
		}
		out = append(out, h...)
	}
	return append(out, '\n')
}

// sources are the ids of the sources of the columns.
func (b *Batch) sources() []string {
	var used []string
	if place, err := b.chart.Place("4", sizing.Both); err == nil {
		for _, id := range b.needed {
			if r, err := b.ref.Read(place, id, sizing.Monotone); err == nil {
				used = append(used, r.Sources...)
			}
		}
	}
	return used
}
