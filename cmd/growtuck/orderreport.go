package main

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
	Size     string  `json:"size"`
	Children int     `json:"children"`
	Percent  figure  `json:"percent"`
	From     *figure `json:"from_cm"`
	To       *figure `json:"to_cm"`
	MadeFor  *figure `json:"made_for_cm"`
}

// An orderSize is a size with what it is made for.
type orderSize struct {
	orderRow
	Body map[string]figure `json:"body_cm"`
}

type fitRow struct {
	Measurement string `json:"measurement"`
	Name        string `json:"name"`
	TooSmall    offRow `json:"too_small"`
	TooBig      offRow `json:"too_big"`
}

type offRow struct {
	Children int    `json:"children"`
	Percent  figure `json:"percent"`
	MeanCm   figure `json:"mean_cm"`
	MostCm   figure `json:"most_cm"`
}

type orderDocument struct {
	Children    int         `json:"children"`
	LeftOut     int         `json:"left_out"`
	By          []string    `json:"by"`
	Chart       string      `json:"chart"`
	SmallWeight figure      `json:"small_weight"`
	Tolerance   figure      `json:"tolerance_cm"`
	Sizes       []orderSize `json:"sizes"`
	Misfit      figure      `json:"misfit_per_child_cm"`
	Least       *figure     `json:"least_possible_per_child_cm"`
	Method      string      `json:"method"`
	Fitted      int         `json:"fitted"`
	Fits        []fitRow    `json:"fits"`
	Sources     []string    `json:"sources"`
	Credits     []string    `json:"credits"`
}

// An orderTeller makes the report of an order.
type orderTeller struct {
	*list.OrderResult
	ref  *sizing.Reference
	unit string
}

// orderReport says what to make for a list, and the misfit that is left.
func (a *app) orderReport(ref *sizing.Reference, result *list.OrderResult) report {
	t := orderTeller{result, ref, a.inTable()[0]}
	doc := t.document()
	out := report{heading: t.heading(), grids: []grid{t.sizeGrid(), t.misfitGrid(doc.Fits)}, remarks: t.remarks(), sources: doc.Sources, credits: doc.Credits, document: doc}
	rows := []orderRow{}
	for _, size := range doc.Sizes {
		rows = append(rows, size.orderRow)
	}
	out.rows = rows
	return out
}

func (t *orderTeller) heading() []string {
	what := "sizes of chart " + t.Options.Chart
	if t.Options.Cuts > 0 {
		what = counted(len(t.Sizes), "group", "groups")
	}
	var names []string
	for _, id := range t.Options.By {
		if m, err := t.ref.Measurement(id); err == nil {
			names = append(names, m.Name)
		}
	}
	return []string{
		fmt.Sprintf("%s of %s, %s", t.children(), filepath.Base(t.List), what),
		fmt.Sprintf("Least misfit in %s; a cm too small counts as %s too big", strings.Join(names, "; "), figure(t.Options.SmallWeight)),
	}
}

func (t *orderTeller) children() string { return counted(t.Children.Len(), "child", "children") }

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func (t *orderTeller) percent(n int) figure {
	return figure(100 * float64(n) / float64(t.Children.Len()))
}

// mostShown is how many measurements of each size fit into a table.
const mostShown = 4

// sizeGrid is the table of sizes, or of groups.
func (t *orderTeller) sizeGrid() grid {
	by := t.Options.By
	g := grid{columns: []column{{head: "size"}, {head: "to make", right: true}, {head: "of 100", right: true}}}
	switch {
	case t.Options.Cuts > 0:
		g.columns[0].head = "group"
		g.columns = append(g.columns, column{head: "children from, " + t.unit, right: true}, column{head: "to", right: true}, column{head: "made for " + by[0], right: true})
	case len(by) <= mostShown:
		for _, id := range by {
			g.columns = append(g.columns, column{head: id, right: true})
		}
	}
	for _, s := range t.ToMake() {
		lengths := s.BodyCm
		if t.Options.Cuts > 0 {
			lengths = []float64{s.LowCm, s.HighCm, s.BodyCm[0]}
		} else if len(by) > mostShown {
			lengths = nil
		}
		line := row{cells: []string{s.Label, strconv.Itoa(s.Children), whole(t.percent(s.Children))}}
		for _, cm := range lengths {
			line.cells = append(line.cells, lengthIn(cm, t.unit))
		}
		g.rows = append(g.rows, line)
	}
	return g
}

// whole prints a percentage for a table.
func whole(percent figure) string { return strconv.FormatFloat(float64(percent), 'f', 0, 64) }

// misfitGrid is the table of the misfit that is left.
func (t *orderTeller) misfitGrid(fits []fitRow) grid {
	g := grid{
		caption: "Children in whom the size is off by more than " + quantity(t.Options.ToleranceCm, t.unit) + ", and by how much:",
		columns: []column{{head: "measurement"},
			{head: "too small", right: true}, {head: "of 100", right: true}, {head: "mean, " + t.unit, right: true}, {head: "most", right: true},
			{head: "too big", right: true}, {head: "of 100", right: true}, {head: "mean, " + t.unit, right: true}, {head: "most", right: true}},
	}
	for _, fit := range fits {
		line := row{cells: []string{fit.Name}}
		for _, off := range []offRow{fit.TooSmall, fit.TooBig} {
			mean, most := "", ""
			if off.Children > 0 {
				mean, most = lengthIn(float64(off.MeanCm), t.unit), lengthIn(float64(off.MostCm), t.unit)
			}
			line.cells = append(line.cells, strconv.Itoa(off.Children), whole(off.Percent), mean, most)
		}
		g.rows = append(g.rows, line)
	}
	return g
}

func (t *orderTeller) remarks() []string {
	remarks := []string{fmt.Sprintf("In %d of %s (%s %%) no measurement is off by more.", t.Plan.Fitted, t.children(), whole(t.percent(t.Plan.Fitted)))}
	if t.Options.Cuts > 0 {
		remarks = append(remarks, "No other cuts into as many groups leave less misfit.")
	} else if t.Choice != nil {
		remarks = append(remarks, methodWords(t.Choice))
	}
	if t.Rejected > 0 {
		remarks = append(remarks, fmt.Sprintf("Lines left out: %d.", t.Rejected))
	}
	return remarks
}

// methodWords says how sizes were chosen and how far they may be from the best.
func methodWords(c *order.Choice) string {
	switch c.Method {
	case order.InOrder, order.Enumeration:
		return "No other set of as many of the sizes leaves less misfit."
	}
	if c.Bound <= 0 {
		return "Found by exchanging one size for another; another set may leave less misfit."
	}
	return fmt.Sprintf("Found by exchanging one size for another; another set may leave less misfit, at most %.2g %% less.", 100*(c.Cost-c.Bound)/c.Cost)
}

// document is the order for JSON.
func (t *orderTeller) document() orderDocument {
	n := float64(t.Children.Len())
	doc := orderDocument{Children: t.Children.Len(), LeftOut: t.Rejected, By: t.Options.By, SmallWeight: figure(t.Options.SmallWeight),
		Tolerance: figure(t.Options.ToleranceCm), Sizes: []orderSize{}, Misfit: figure(t.Plan.Cost / n),
		Method: "nearest", Fitted: t.Plan.Fitted, Fits: []fitRow{}, Sources: inOrder(t.Sources)}
	doc.Credits = creditLines(t.ref, doc.Sources)
	switch {
	case t.Options.Cuts > 0:
		doc.Method = string(order.InOrder)
	case t.Choice != nil:
		doc.Method = string(t.Choice.Method)
		doc.Least = known(t.Choice.Bound/n, t.Choice.Method == order.Exchange)
	}
	if t.Options.Cuts == 0 {
		doc.Chart = t.Options.Chart
	}
	for _, s := range t.ToMake() {
		size := orderSize{orderRow{Size: s.Label, Children: s.Children, Percent: t.percent(s.Children)}, make(map[string]figure)}
		for i, id := range t.Options.By {
			size.Body[id] = figure(s.BodyCm[i])
		}
		if t.Options.Cuts > 0 {
			size.From, size.To, size.MadeFor = known(s.LowCm, true), known(s.HighCm, true), known(s.BodyCm[0], true)
		}
		doc.Sizes = append(doc.Sizes, size)
	}
	for i, fit := range t.Plan.Fits {
		m, err := t.ref.Measurement(t.Options.By[i])
		if err != nil {
			continue // looked up before
		}
		off := func(c order.Count) offRow {
			return offRow{c.Children, t.percent(c.Children), figure(c.MeanCm), figure(c.MostCm)}
		}
		doc.Fits = append(doc.Fits, fitRow{m.ID, m.Name, off(fit.TooSmall), off(fit.TooBig)})
	}
	return doc
}
