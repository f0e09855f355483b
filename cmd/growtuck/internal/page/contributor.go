package page

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/validate"
)

// A contributorView takes rows, or a draft, and shows what the checks say.
type contributorView struct {
	frame
	Text, Name string
	Kind       string // rows or draft, of what was posted; "" for nothing yet
	Posted     bool
	Fault      string
	Findings   []findingView
	Counts     string
	Sheet      string // the review sheet as it is written
	Values     *table
	Moves      *table
	Said       string
	Example    string
}

// exampleRows are made up, with faults, to show what the checks say.
const exampleRows = `chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note
craft,4,both,chest,given,68,cm,craft-2018,made up for this example,published,one reader,
craft,4,both,hipp,given,60,cm,craft-2018,made up for this example,published,one reader,
`

// contributor answers with the contributors' view, and checks what was posted.
func (s *site) contributor(w http.ResponseWriter, r *http.Request) {
	v := &contributorView{Example: exampleRows}
	status := http.StatusOK
	var form url.Values
	if r.Method == http.MethodPost {
		v.Posted = true
		var file string
		var err error
		form, file, err = postedForm(r, "rows")
		v.Text, v.Name = form.Get("rows"), file
		var big *http.MaxBytesError
		switch {
		case errors.As(err, &big) || len(v.Text) > maxForm:
			v.Fault, status = "That is more than 1 MiB. Divide the table, or use growtuck rows on it.", http.StatusRequestEntityTooLarge
			v.Text = ""
		case err != nil:
			v.Fault, status = err.Error(), http.StatusBadRequest
		default:
			s.checkPosted(v)
		}
	}
	v.frame = s.frame("contributor", "Check rows and drafts", s.readState(typedBefore(r, form)).Query(), nil)
	s.render(w, r, status, v)
}

// checkPosted checks a draft by the rules for drafts, and all else as rows.
func (s *site) checkPosted(v *contributorView) {
	v.Text = unix(v.Text)
	if strings.TrimSpace(v.Text) == "" {
		v.Fault = "Nothing was given: paste rows with their header line, or choose a file."
		return
	}
	if strings.HasPrefix(v.Text, "PK") {
		v.Text, v.Fault = "", "That is a workbook. Save its sheet Draft as CSV, or give the file to growtuck check."
		return
	}
	name := v.Name
	if name == "" {
		name = "pasted"
	}
	ref := s.engine.Reference
	if work.IsDraft([]byte(v.Text)) {
		v.Kind = "draft"
		findings, err := validate.CheckDraft(ref, strings.NewReader(v.Text), name, validate.Options{})
		v.found(append(findings, validate.Unreadable(err)...))
		return
	}
	v.Kind = "rows"
	tables, err := s.engine.Tables()
	if err != nil {
		v.Fault = err.Error()
		return
	}
	if table := validate.TableOf([]byte(v.Text)); table != "" && table != "body.csv" {
		v.Fault = "These are the columns of " + table + "; rows are proposed for body.csv."
		return
	}
	findings, err := validate.CheckRows(strings.NewReader(v.Text), name, tables)
	if err != nil {
		v.found(validate.Unreadable(err))
		return
	}
	v.found(findings)
	sheet, err := validate.ReviewRows(strings.NewReader(v.Text), name, tables)
	if err != nil {
		return // the findings say why
	}
	v.Sheet = string(tell.Review(sheet))
	v.review(sheet)
}

// maxShown bounds the findings and the lines of the sheet on the page.
const maxShown = 300

func (v *contributorView) found(findings []validate.Finding) {
	count := map[validate.Severity]int{}
	for _, f := range findings {
		count[f.Severity]++
	}
	v.Counts = fmt.Sprintf("%d to stop for, %s, %s", count[validate.Stop], tell.Counted(count[validate.Warn], "warnings"), tell.Counted(count[validate.Note], "notes"))
	if len(findings) > maxShown {
		v.Counts += fmt.Sprintf("; the first %d are shown", maxShown)
		findings = findings[:maxShown]
	}
	cautions, checks := findingViews(tell.Style{}, findings)
	v.Findings = append(checks, cautions...)
	if len(v.Findings) == 0 {
		v.Counts = "No problems found"
	}
	v.Said = v.Counts + "."
}

// review lays the review sheet out as tables.
func (v *contributorView) review(sheet *validate.Review) {
	v.Values = newTable(tell.ReviewedValues(sheet.Values[:min(len(sheet.Values), maxShown)]), "many", "New and changed values", "New and changed values, beside their neighbours in the chart.")
	v.Moves = newTable(tell.ReviewedMoves(sheet.Moves[:min(len(sheet.Moves), maxShown)]), "many", "Readings that would move", fmt.Sprintf("Readings that these rows would move by more than %g cm or kg.", validate.MovesFrom))
}
