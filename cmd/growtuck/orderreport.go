package main

import (
	"fmt"
	"strconv"
	"strings"

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
	out := report{heading: r.heading("sizes of chart " + r.flags.chart)}
	g := grid{columns: []column{{head: "size"}, {head: "to make", right: true}, {head: "of 100", right: true}}}
	if len(r.ids) <= mostShown {
		for _, id := range r.ids {
			g.columns = append(g.columns, column{head: id, right: true})
		}
	}
	for i, o := range offer {
		if plan.Counts[i] == 0 && len(r.flags.sizes) == 0 {
			continue
		}
		row := r.sizeRow(labels[i], plan.Counts[i], o.figures)
		doc.Sizes = append(doc.Sizes, row)
		g.rows = append(g.rows, r.gridRow(row.orderRow, o.figures))
		for _, id := range r.ids {
			if m, err := r.ref.Read(o.place, id, sizing.Monotone); err == nil {
				out.sources = append(out.sources, m.Sources...)
			}
		}
	}
	if choice != nil {
		doc.Method = string(choice.Method)
		if choice.Method == order.Exchange {
			doc.Least = known(choice.Bound/float64(r.children.Len()), true)
		}
		out.remarks = append(out.remarks, methodWords(choice))
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
	g := grid{columns: []column{{head: "group"}, {head: "to make", right: true}, {head: "of 100", right: true},
		{head: "children from, " + r.first(), right: true}, {head: "to", right: true}, {head: "made for " + r.ids[0], right: true}}}
	for i, group := range groups {
		row := r.sizeRow(labels[i], group.Children, figures[i])
		row.From, row.To, row.MadeFor = known(group.Low, true), known(group.High, true), known(group.Size, true)
		doc.Sizes = append(doc.Sizes, row)
		g.rows = append(g.rows, r.gridRow(row.orderRow, []float64{group.Low, group.High, group.Size}))
	}
	out := report{heading: r.heading(counted(len(groups), "group", "groups"))}
	out.remarks = append(out.remarks, "No other cuts into as many groups leave less misfit.")
	r.finish(&out, g, doc, plan)
	return r.app.print(out)
}

// first is the unit of tables.
func (r *orderReport) first() string { return r.inTable()[0] }

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
		fmt.Sprintf("Least misfit in %s; a cm too small counts as %s too big", strings.Join(names, "; "), figure(r.misfit.Small)),
	}
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func (r *orderReport) percent(n int) figure {
	return figure(100 * float64(n) / float64(r.children.Len()))
}

func (r *orderReport) sizeRow(size string, n int, figures []float64) orderSize {
	row := orderSize{orderRow{Size: size, Children: n, Percent: r.percent(n)}, make(map[string]figure)}
	for i, id := range r.ids {
		row.Body[id] = figure(figures[i])
	}
	return row
}

func (r *orderReport) gridRow(o orderRow, figures []float64) row {
	line := row{cells: []string{o.Size, strconv.Itoa(o.Children), whole(o.Percent)}}
	if len(figures) > mostShown {
		return line
	}
	for _, cm := range figures {
		line.cells = append(line.cells, lengthIn(cm, r.first()))
	}
	return line
}

// whole prints a percentage for a table.
func whole(percent figure) string { return strconv.FormatFloat(float64(percent), 'f', 0, 64) }

func (r *orderReport) document(plan *order.Plan) orderDocument {
	doc := orderDocument{Children: r.children.Len(), LeftOut: r.refused, By: r.ids, SmallWeight: figure(r.misfit.Small),
		Tolerance: figure(r.flags.tolerance), Sizes: []orderSize{}, Misfit: figure(plan.Cost / float64(r.children.Len())),
		Method: "nearest", Fitted: plan.Fitted, Fits: []fitRow{}}
	for i, fit := range plan.Fits {
		m, err := r.ref.Measurement(r.ids[i])
		if err != nil {
			continue // looked up before
		}
		off := func(c order.Count) offRow {
			return offRow{c.Children, r.percent(c.Children), figure(c.MeanCm), figure(c.MostCm)}
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
func (r *orderReport) finish(out *report, g grid, doc orderDocument, plan *order.Plan) {
	out.sources = inOrder(out.sources)
	out.credits = creditLines(r.ref, out.sources)
	doc.Sources, doc.Credits = out.sources, out.credits
	rows := []orderRow{}
	for _, size := range doc.Sizes {
		rows = append(rows, size.orderRow)
	}
	out.rows, out.document = rows, doc
	unit := r.first()
	tolerance := quantity(r.flags.tolerance, unit)
	misfit := grid{
		caption: "Children in whom the size is off by more than " + tolerance + ", and by how much:",
		columns: []column{{head: "measurement"},
			{head: "too small", right: true}, {head: "of 100", right: true}, {head: "mean, " + unit, right: true}, {head: "most", right: true},
			{head: "too big", right: true}, {head: "of 100", right: true}, {head: "mean, " + unit, right: true}, {head: "most", right: true}},
	}
	for _, fit := range doc.Fits {
		line := row{cells: []string{fit.Name}}
		for _, off := range []offRow{fit.TooSmall, fit.TooBig} {
			mean, most := "", ""
			if off.Children > 0 {
				mean, most = lengthIn(float64(off.MeanCm), unit), lengthIn(float64(off.MostCm), unit)
			}
			line.cells = append(line.cells, strconv.Itoa(off.Children), whole(off.Percent), mean, most)
		}
		misfit.rows = append(misfit.rows, line)
	}
	out.grids = []grid{g, misfit}
	out.remarks = append([]string{fmt.Sprintf("In %d of %s (%s %%) no measurement is off by more.",
		plan.Fitted, counted(r.children.Len(), "child", "children"), whole(r.percent(plan.Fitted)))}, out.remarks...)
	if r.refused > 0 {
		out.remarks = append(out.remarks, fmt.Sprintf("Lines left out: %d.", r.refused))
	}
}
