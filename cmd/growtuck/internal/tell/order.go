package tell

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/list"
	"growtuck/sizing"
	"growtuck/sizing/order"
)

type orderRow struct {
	Size     string  `json:"size" doc:"label of the size, or number of the group"`
	Children int     `json:"children" doc:"how many children it fits best: how many to make"`
	Percent  Figure  `json:"percent" doc:"of a hundred children, how many"`
	From     *Figure `json:"from_cm" doc:"of a group, the least that its children measure, cm; null for a size"`
	To       *Figure `json:"to_cm" doc:"of a group, the most that its children measure, cm; null for a size"`
	MadeFor  *Figure `json:"made_for_cm" doc:"of a group, the measurement to make it for, cm; null for a size"`
}

// An orderSize is a size with what it is made for.
type orderSize struct {
	orderRow
	Body map[string]Figure `json:"body_cm" doc:"body measurements that the size is made for, cm, by id"`
}

type fitRow struct {
	Measurement string `json:"measurement" doc:"id of the body measurement"`
	Name        string `json:"name" doc:"name in words"`
	TooSmall    offRow `json:"too_small" doc:"where the size is smaller than the child"`
	TooBig      offRow `json:"too_big" doc:"where the size is bigger than the child"`
}

type offRow struct {
	Children int    `json:"children" doc:"how many children it is off for by more than the tolerance"`
	Percent  Figure `json:"percent" doc:"of a hundred children, how many"`
	MeanCm   Figure `json:"mean_cm" doc:"by how much on average for those, cm"`
	MostCm   Figure `json:"most_cm" doc:"by how much at most, cm"`
}

// An OrderDocument is an order as JSON shows it.
type OrderDocument struct {
	Children    int         `json:"children" doc:"how many children were given a size"`
	LeftOut     int         `json:"left_out" doc:"how many lines were rejected"`
	Doubted     int         `json:"doubted" doc:"for how many children something given can hardly be right"`
	By          []string    `json:"by" doc:"ids of the body measurements that a size has to fit"`
	Chart       string      `json:"chart" doc:"id of the chart of the sizes"`
	SmallWeight Figure      `json:"small_weight" doc:"how many centimetres too big count as much as one too small"`
	Tolerance   Figure      `json:"tolerance_cm" doc:"how many cm a size may be off"`
	Sizes       []orderSize `json:"sizes" doc:"the sizes or groups to make"`
	Misfit      Figure      `json:"misfit_per_child_cm" doc:"misfit that is left, a child, cm"`
	Least       *Figure     `json:"least_possible_per_child_cm" doc:"the least misfit that any choice can leave, a child, cm; null where sizes were not chosen"`
	Method      string      `json:"method" doc:"how the sizes were chosen"`
	Fitted      int         `json:"fitted" doc:"how many children have every measurement within the tolerance"`
	Fits        []fitRow    `json:"fits" doc:"how the sizes fit, by measurement"`
	Sources     []string    `json:"sources" doc:"ids of the sources that it rests on"`
	Credits     []string    `json:"credits" doc:"credit lines that the sources used ask for"`
}

// orderWords tells an order.
type orderWords struct {
	*list.OrderResult
	ref  *sizing.Reference
	unit string
}

// Order says what to make for a list, and the misfit that is left.
func (st Style) Order(ref *sizing.Reference, result *list.OrderResult) Document {
	t := orderWords{result, ref, st.Units()[0]}
	doc := t.document()
	rows := []orderRow{}
	for _, size := range doc.Sizes {
		rows = append(rows, size.orderRow)
	}
	return Document{Heading: t.heading(), Tables: []Table{t.sizeTable(), t.misfitTable(doc.Fits)}, Remarks: t.remarks(),
		Sources: doc.Sources, Credits: doc.Credits, Rows: rows, JSON: doc}
}

func (t *orderWords) heading() []string {
	what := "sizes of chart " + t.Options.Chart
	if t.Options.Cuts > 0 {
		what = count(len(t.Sizes), "groups")
	}
	var names []string
	for _, id := range t.Options.By {
		names = append(names, t.name(id))
	}
	return []string{
		fmt.Sprintf("%s of %s, %s", t.children(), filepath.Base(t.List), what),
		fmt.Sprintf("Least misfit in %s; a cm too small counts as %s too big", strings.Join(names, "; "), Figure(t.Options.SmallWeight)),
	}
}

// name is a measurement in words.
func (t *orderWords) name(id string) string {
	if m, err := t.ref.Measurement(id); err == nil {
		return m.Name
	}
	return id
}

func (t *orderWords) children() string { return count(t.Children.Len(), "children") }

// count writes a count with its noun.
func count(n int, noun string) string { return counted(strconv.Itoa(n), float64(n), noun) }

func (t *orderWords) percent(n int) Figure {
	return Figure(100 * float64(n) / float64(t.Children.Len()))
}

// mostShown is how many measurements of each size fit into a table.
const mostShown = 4

// sizeTable is the table of sizes, or of groups.
func (t *orderWords) sizeTable() Table {
	by := t.Options.By
	g := Table{Columns: []Column{{Head: "size"}, {Head: "to make", Right: true}, {Head: "of 100", Right: true}}}
	switch {
	case t.Options.Cuts > 0:
		g.Columns[0].Head = "group"
		g.Columns = append(g.Columns, Column{Head: "children from, " + t.unit, Right: true}, Column{Head: "to", Right: true}, Column{Head: "made for " + t.name(by[0]), Right: true})
	case len(by) <= mostShown:
		for _, id := range by {
			g.Columns = append(g.Columns, Column{Head: t.name(id), Right: true})
		}
	}
	for _, s := range t.ToMake() {
		lengths := s.BodyCm
		if t.Options.Cuts > 0 {
			lengths = []float64{s.LowCm, s.HighCm, s.BodyCm[0]}
		} else if len(by) > mostShown {
			lengths = nil
		}
		line := Row{Cells: []string{s.Label, strconv.Itoa(s.Children), whole(t.percent(s.Children))}}
		for _, cm := range lengths {
			line.Cells = append(line.Cells, LengthIn(cm, t.unit))
		}
		g.Rows = append(g.Rows, line)
	}
	return g
}

// whole prints a percentage for a table.
func whole(percent Figure) string { return strconv.FormatFloat(float64(percent), 'f', 0, 64) }

// misfitTable is the table of the misfit that is left.
func (t *orderWords) misfitTable(fits []fitRow) Table {
	g := Table{
		Caption: "Children for whom the size is off by more than " + quantity(t.Options.ToleranceCm, t.unit) + ", and by how much:",
		Columns: []Column{{Head: "measurement"},
			{Head: "too small", Right: true}, {Head: "of 100", Right: true}, {Head: "mean, " + t.unit, Right: true}, {Head: "most", Right: true},
			{Head: "too big", Right: true}, {Head: "of 100", Right: true}, {Head: "mean, " + t.unit, Right: true}, {Head: "most", Right: true}},
	}
	for _, fit := range fits {
		line := Row{Cells: []string{fit.Name}}
		for _, off := range []offRow{fit.TooSmall, fit.TooBig} {
			mean, most := "", ""
			if off.Children > 0 {
				mean, most = LengthIn(float64(off.MeanCm), t.unit), LengthIn(float64(off.MostCm), t.unit)
			}
			line.Cells = append(line.Cells, strconv.Itoa(off.Children), whole(off.Percent), mean, most)
		}
		g.Rows = append(g.Rows, line)
	}
	return g
}

func (t *orderWords) remarks() []string {
	remarks := []string{fmt.Sprintf("Within that in every measurement: %d of %s (%s %%).", t.Plan.Fitted, t.children(), whole(t.percent(t.Plan.Fitted)))}
	if t.Options.Cuts > 0 {
		remarks = append(remarks, "No other division into as many groups leaves less misfit.")
	} else if t.Choice != nil {
		remarks = append(remarks, methodWords(t.Choice))
	}
	if t.Rejected > 0 {
		remarks = append(remarks, fmt.Sprintf("Lines left out: %d.", t.Rejected))
	}
	if t.Doubted > 0 {
		remarks = append(remarks, fmt.Sprintf("Children with a measurement in doubt: %d; growtuck batch names them in its column check.", t.Doubted))
	}
	return remarks
}

// methodWords says how sizes were chosen and how far they may be from the best.
func methodWords(c *order.Choice) string {
	switch c.Method {
	case order.InOrder, order.Enumeration:
		return "No other choice of as many sizes leaves less misfit."
	}
	if c.Bound <= 0 {
		return "Found by exchanging one size for another; another choice may leave less misfit."
	}
	return fmt.Sprintf("Found by exchanging one size for another; another choice may leave less misfit, at most %.2g %% less.", 100*(c.Cost-c.Bound)/c.Cost)
}

// document is the order for JSON.
func (t *orderWords) document() OrderDocument {
	n := float64(t.Children.Len())
	doc := OrderDocument{Children: t.Children.Len(), LeftOut: t.Rejected, Doubted: t.Doubted, By: t.Options.By, SmallWeight: Figure(t.Options.SmallWeight),
		Tolerance: Figure(t.Options.ToleranceCm), Sizes: []orderSize{}, Misfit: Figure(t.Plan.Cost / n),
		Method: "nearest", Fitted: t.Plan.Fitted, Fits: []fitRow{}, Sources: InOrder(t.Sources)}
	doc.Credits = CreditLines(t.ref, doc.Sources)
	switch {
	case t.Options.Cuts > 0:
		doc.Method = string(order.InOrder)
	case t.Choice != nil:
		doc.Method = string(t.Choice.Method)
		doc.Least = Known(t.Choice.Bound/n, t.Choice.Method == order.Exchange)
	}
	if t.Options.Cuts == 0 {
		doc.Chart = t.Options.Chart
	}
	for _, s := range t.ToMake() {
		size := orderSize{orderRow{Size: s.Label, Children: s.Children, Percent: t.percent(s.Children)}, make(map[string]Figure)}
		for i, id := range t.Options.By {
			size.Body[id] = Figure(s.BodyCm[i])
		}
		if t.Options.Cuts > 0 {
			size.From, size.To, size.MadeFor = Known(s.LowCm, true), Known(s.HighCm, true), Known(s.BodyCm[0], true)
		}
		doc.Sizes = append(doc.Sizes, size)
	}
	for i, fit := range t.Plan.Fits {
		m, err := t.ref.Measurement(t.Options.By[i])
		if err != nil {
			continue // looked up before
		}
		off := func(c order.Count) offRow {
			return offRow{c.Children, t.percent(c.Children), Figure(c.MeanCm), Figure(c.MostCm)}
		}
		doc.Fits = append(doc.Fits, fitRow{m.ID, m.Name, off(fit.TooSmall), off(fit.TooBig)})
	}
	return doc
}
