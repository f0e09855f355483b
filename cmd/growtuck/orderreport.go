package main

import (
	"fmt"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/order"
)

// An orderReport turns a plan into what is printed.
type orderReport struct {
	*app
	ref      *sizing.Reference
	list     string
	ids      []string
	children *order.List
	refused  int
	misfit   order.Misfit
	flags    orderFlags
	each     *eachRow // for a line for each child; nil for the plan
}

type orderRow struct {
	Size     string       `json:"size"`
	Children int          `json:"children"`
	Percent  tell.Figure  `json:"percent"`
	From     *tell.Figure `json:"from_cm"`
	To       *tell.Figure `json:"to_cm"`
	MadeFor  *tell.Figure `json:"made_for_cm"`
}

// An orderSize is a size with what it is made for.
type orderSize struct {
	orderRow
	Body map[string]tell.Figure `json:"body_cm"`
}

type fitRow struct {
	Measurement string `json:"measurement"`
	Name        string `json:"name"`
	TooSmall    offRow `json:"too_small"`
	TooBig      offRow `json:"too_big"`
}

type offRow struct {
	Children int         `json:"children"`
	Percent  tell.Figure `json:"percent"`
	MeanCm   tell.Figure `json:"mean_cm"`
	MostCm   tell.Figure `json:"most_cm"`
}

type orderDocument struct {
	Children    int          `json:"children"`
	LeftOut     int          `json:"left_out"`
	By          []string     `json:"by"`
	Chart       string       `json:"chart"`
	SmallWeight tell.Figure  `json:"small_weight"`
	Tolerance   tell.Figure  `json:"tolerance_cm"`
	Sizes       []orderSize  `json:"sizes"`
	Misfit      tell.Figure  `json:"misfit_per_child_cm"`
	Least       *tell.Figure `json:"least_possible_per_child_cm"`
	Method      string       `json:"method"`
	Fitted      int          `json:"fitted"`
	Fits        []fitRow     `json:"fits"`
	Sources     []string     `json:"sources"`
	Credits     []string     `json:"credits"`
}

// print works the plan out and prints it.
func (r *orderReport) print(offer []offered) error {
	if r.flags.cuts > 0 {
		return r.printCuts()
	}
	choice, offer, err := r.choose(offer)
	if err != nil {
		return err
	}
	labels, figures := make([]string, len(offer)), make([][]float64, len(offer))
	for i, o := range offer {
		labels[i], figures[i] = o.place.Label(), o.figures
	}
	plan, done, err := r.assign(labels, figures)
	if done || err != nil {
		return err
	}
	doc := r.document(plan)
	doc.Chart = r.flags.chart
	out := tell.Document{Heading: r.heading("sizes of chart " + r.flags.chart)}
	g := tell.Table{Columns: []tell.Column{{Head: "size"}, {Head: "to make", Right: true}, {Head: "of 100", Right: true}}}
	if len(r.ids) <= mostShown {
		for _, id := range r.ids {
			g.Columns = append(g.Columns, tell.Column{Head: id, Right: true})
		}
	}
	for i, o := range offer {
		if plan.Counts[i] == 0 && len(r.flags.sizes) == 0 {
			continue
		}
		row := r.sizeRow(labels[i], plan.Counts[i], o.figures)
		doc.Sizes = append(doc.Sizes, row)
		g.Rows = append(g.Rows, r.gridRow(row.orderRow, o.figures))
		for _, id := range r.ids {
			if m, err := r.ref.Read(o.place, id, sizing.Monotone); err == nil {
				out.Sources = append(out.Sources, m.Sources...)
			}
		}
	}
	if choice != nil {
		doc.Method = string(choice.Method)
		if choice.Method == order.Exchange {
			doc.Least = tell.Known(choice.Bound/float64(r.children.Len()), true)
		}
		out.Remarks = append(out.Remarks, methodWords(choice))
	}
	r.finish(&out, g, doc, plan)
	return r.app.print(out)
}

// assign gives every child a size. Where a line for each child is asked for, it
// prints them, and the report is done.
func (r *orderReport) assign(labels []string, figures [][]float64) (plan *order.Plan, done bool, err error) {
	plan, err = order.Assign(r.children, figures, r.misfit, r.flags.tolerance)
	if err != nil || r.each == nil {
		return plan, false, err
	}
	return plan, true, r.writeEach(r.each, labels, figures, plan)
}

// mostShown is how many measurements of each size fit into a table.
const mostShown = 4

// choose chooses from the offer if asked to; the choice is nil otherwise.
func (r *orderReport) choose(offer []offered) (*order.Choice, []offered, error) {
	if r.flags.best == 0 {
		return nil, offer, nil
	}
	var figures [][]float64
	for _, o := range offer {
		figures = append(figures, o.figures)
	}
	choice, err := order.Best(r.children, figures, r.flags.best, r.misfit)
	if err != nil {
		return nil, nil, err
	}
	var chosen []offered
	for _, i := range choice.Sizes {
		chosen = append(chosen, offer[i])
	}
	return choice, chosen, nil
}

// printCuts cuts the list along one measurement.
func (r *orderReport) printCuts() error {
	groups, err := order.Cut(r.children.Column(0), r.flags.cuts, r.misfit)
	if err != nil {
		return err
	}
	labels, figures := make([]string, len(groups)), make([][]float64, len(groups))
	for i, group := range groups {
		labels[i], figures[i] = strconv.Itoa(i+1), []float64{group.Size}
	}
	plan, done, err := r.assign(labels, figures)
	if done || err != nil {
		return err
	}
	doc := r.document(plan)
	doc.Method = string(order.InOrder)
	g := tell.Table{Columns: []tell.Column{{Head: "group"}, {Head: "to make", Right: true}, {Head: "of 100", Right: true},
		{Head: "children from, " + r.first(), Right: true}, {Head: "to", Right: true}, {Head: "made for " + r.ids[0], Right: true}}}
	for i, group := range groups {
		row := r.sizeRow(labels[i], group.Children, figures[i])
		row.From, row.To, row.MadeFor = tell.Known(group.Low, true), tell.Known(group.High, true), tell.Known(group.Size, true)
		doc.Sizes = append(doc.Sizes, row)
		g.Rows = append(g.Rows, r.gridRow(row.orderRow, []float64{group.Low, group.High, group.Size}))
	}
	out := tell.Document{Heading: r.heading(counted(len(groups), "group", "groups"))}
	out.Remarks = append(out.Remarks, "No other cuts into as many groups leave less misfit.")
	r.finish(&out, g, doc, plan)
	return r.app.print(out)
}

// first is the unit of tables.
func (r *orderReport) first() string { return r.style().Units()[0] }

func (r *orderReport) heading(what string) []string {
	who := counted(r.children.Len(), "child", "children")
	var names []string
	for _, id := range r.ids {
		if m, err := r.ref.Measurement(id); err == nil {
			names = append(names, m.Name)
		}
	}
	return []string{
		fmt.Sprintf("%s of %s, %s", who, r.list, what),
		fmt.Sprintf("Least misfit in %s; a cm too small counts as %s too big", strings.Join(names, "; "), tell.Figure(r.misfit.Small)),
	}
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func (r *orderReport) percent(n int) tell.Figure {
	return tell.Figure(100 * float64(n) / float64(r.children.Len()))
}

func (r *orderReport) sizeRow(size string, n int, figures []float64) orderSize {
	row := orderSize{orderRow{Size: size, Children: n, Percent: r.percent(n)}, make(map[string]tell.Figure)}
	for i, id := range r.ids {
		row.Body[id] = tell.Figure(figures[i])
	}
	return row
}

func (r *orderReport) gridRow(o orderRow, figures []float64) tell.Row {
	line := tell.Row{Cells: []string{o.Size, strconv.Itoa(o.Children), whole(o.Percent)}}
	if len(figures) > mostShown {
		return line
	}
	for _, cm := range figures {
		line.Cells = append(line.Cells, tell.LengthIn(cm, r.first()))
	}
	return line
}

// whole prints a percentage for a table.
func whole(percent tell.Figure) string { return strconv.FormatFloat(float64(percent), 'f', 0, 64) }

func (r *orderReport) document(plan *order.Plan) orderDocument {
	doc := orderDocument{Children: r.children.Len(), LeftOut: r.refused, By: r.ids, SmallWeight: tell.Figure(r.misfit.Small),
		Tolerance: tell.Figure(r.flags.tolerance), Sizes: []orderSize{}, Misfit: tell.Figure(plan.Cost / float64(r.children.Len())),
		Method: "nearest", Fitted: plan.Fitted, Fits: []fitRow{}}
	for i, fit := range plan.Fits {
		m, err := r.ref.Measurement(r.ids[i])
		if err != nil {
			continue // looked up before
		}
		off := func(c order.Count) offRow {
			return offRow{c.Children, r.percent(c.Children), tell.Figure(c.MeanCm), tell.Figure(c.MostCm)}
		}
		doc.Fits = append(doc.Fits, fitRow{m.ID, m.Name, off(fit.TooSmall), off(fit.TooBig)})
	}
	return doc
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

// finish adds what every report of an order has: the misfit.
func (r *orderReport) finish(out *tell.Document, g tell.Table, doc orderDocument, plan *order.Plan) {
	out.Sources = tell.InOrder(out.Sources)
	out.Credits = tell.CreditLines(r.ref, out.Sources)
	doc.Sources, doc.Credits = out.Sources, out.Credits
	rows := []orderRow{}
	for _, size := range doc.Sizes {
		rows = append(rows, size.orderRow)
	}
	out.Rows, out.JSON = rows, doc
	unit := r.first()
	tolerance := tell.Quantity(r.flags.tolerance, unit)
	misfit := tell.Table{
		Caption: "Children in whom the size is off by more than " + tolerance + ", and by how much:",
		Columns: []tell.Column{{Head: "measurement"},
			{Head: "too small", Right: true}, {Head: "of 100", Right: true}, {Head: "mean, " + unit, Right: true}, {Head: "most", Right: true},
			{Head: "too big", Right: true}, {Head: "of 100", Right: true}, {Head: "mean, " + unit, Right: true}, {Head: "most", Right: true}},
	}
	for _, fit := range doc.Fits {
		line := tell.Row{Cells: []string{fit.Name}}
		for _, off := range []offRow{fit.TooSmall, fit.TooBig} {
			mean, most := "", ""
			if off.Children > 0 {
				mean, most = tell.LengthIn(float64(off.MeanCm), unit), tell.LengthIn(float64(off.MostCm), unit)
			}
			line.Cells = append(line.Cells, strconv.Itoa(off.Children), whole(off.Percent), mean, most)
		}
		misfit.Rows = append(misfit.Rows, line)
	}
	out.Tables = []tell.Table{g, misfit}
	out.Remarks = append([]string{fmt.Sprintf("In %d of %s (%s %%) no measurement is off by more.",
		plan.Fitted, counted(r.children.Len(), "child", "children"), whole(r.percent(plan.Fitted)))}, out.Remarks...)
	if r.refused > 0 {
		out.Remarks = append(out.Remarks, fmt.Sprintf("Lines left out: %d.", r.refused))
	}
}
