package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"growtuck/cmd/growtuck/internal/page"
)

// A question is a command that the page and other programs can ask by an
// address: its flags are the parameters, and it prints what the command does.
// It must read no file that a parameter names.
type question struct {
	name, summary string
	method        string
	media         string
	format        string // as --format
	positional    string // the parameter in place of the command's arguments; "" for none
	about         string // what the positional parameter is
	many, needed  bool   // of it
	body          string // what is posted, in words
	answer        any    // a document as it is answered
	hidden        []string
	// prepare adds the flags to the command and returns what runs it.
	prepare func(b *app, cmd *cobra.Command) func(args []string) error
}

// An asked is a question made ready once and asked many times: cobra keeps what
// it knows of flags for good, so that a command for each request would stay.
type asked struct {
	app *app
	cmd *cobra.Command
	run func(args []string) error
	out bytes.Buffer
}

// mostValues is how many values a parameter takes, those parted by commas
// among them: a short address must not ask for hours of work.
const mostValues = 100

// keptReady is how many of a question are kept to be asked again.
const keptReady = 16

// unanswered reports that what was given cannot be used, which the answer says
// too.
func unanswered(err error) bool {
	var u unusable
	return errors.As(err, &u)
}

// pageQuestion makes a question ready for the page.
func (a *app) pageQuestion(q question) page.Question {
	ready := make(chan *asked, keptReady)
	first := a.newAsked(q)
	ready <- first
	take := func() *asked {
		select {
		case x := <-ready:
			return x
		default:
			return a.newAsked(q)
		}
	}
	give := func(x *asked) {
		x.reset()
		select {
		case ready <- x:
		default:
		}
	}
	out := page.Question{Name: q.name, Method: q.method, Summary: q.summary, Media: q.media, Body: q.body, Answer: q.answer, Params: q.params(first.cmd)}
	out.Ask = func(values url.Values, body []byte) ([]byte, error) {
		x := take()
		defer give(x)
		args, err := x.set(q, values)
		if err != nil {
			return nil, err
		}
		x.app.stdin = bytes.NewReader(body)
		err = x.run(args)
		answer := bytes.Clone(x.out.Bytes())
		switch {
		case unanswered(err):
			return nil, &page.Unusable{Answer: answer, Err: err}
		case err != nil:
			return nil, err
		}
		return answer, nil
	}
	return out
}

func (a *app) newAsked(q question) *asked {
	x := &asked{cmd: &cobra.Command{Use: q.name}}
	x.app = &app{stdout: &x.out, stderr: io.Discard, format: q.format, unit: "cm", tables: a.tables, held: a.held}
	x.run = q.prepare(x.app, x.cmd)
	return x
}

// set puts the parameters into the flags, and returns those that stand for
// arguments.
func (x *asked) set(q question, values url.Values) ([]string, error) {
	var args []string
	var errs faults
	for _, name := range sortedKeys(values) {
		flag := x.cmd.Flags().Lookup(name)
		n := len(values[name])
		if flag != nil && repeats(flag) {
			n += strings.Count(strings.Join(values[name], ""), ",")
		}
		switch {
		case n > mostValues:
			errs = append(errs, &page.ParamError{Param: name, Err: fmt.Errorf("%s has %d values; at most %d are answered at once", name, n, mostValues)})
		case name == q.positional:
			if !q.many && len(values[name]) > 1 {
				errs = append(errs, &page.ParamError{Param: name, Err: fmt.Errorf("%s is given %d times", name, len(values[name]))})
			}
			args = values[name]
		case flag == nil || slices.Contains(q.hidden, name):
			errs = append(errs, &page.ParamError{Param: name, Err: fmt.Errorf("unknown parameter %q; known are %s", name, strings.Join(q.names(x.cmd), ", "))})
		case len(values[name]) > 1 && !repeats(flag):
			errs = append(errs, &page.ParamError{Param: name, Err: fmt.Errorf("%s is given %d times", name, len(values[name]))})
		default:
			for _, v := range values[name] {
				if err := x.cmd.Flags().Set(name, v); err != nil {
					errs = append(errs, &page.ParamError{Param: name, Err: fmt.Errorf("%s %q is no %s", name, v, typeWords[flag.Value.Type()])})
				}
			}
		}
	}
	if q.needed && strings.Join(args, "") == "" {
		errs = append(errs, &page.ParamError{Param: q.positional, Err: fmt.Errorf("%s is missing: %s", q.positional, q.about)})
	}
	if len(errs) > 0 {
		return nil, errs
	}
	return args, nil
}

// reset puts every flag back to what it is when it is not given.
func (x *asked) reset() {
	x.out.Reset()
	x.app.stdin = nil
	x.cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if !f.Changed {
			return
		}
		f.Changed = false
		if list, ok := f.Value.(pflag.SliceValue); ok {
			_ = list.Replace(nil) // no value, none to refuse
			return
		}
		_ = f.Value.Set(f.DefValue) // it was this before
	})
}

var typeWords = map[string]string{"bool": "truth value: true or false", "float64": "number", "float64Slice": "list of numbers", "stringSlice": "list parted by commas"}

func repeats(f *pflag.Flag) bool { _, ok := f.Value.(pflag.SliceValue); return ok }

func (q question) names(cmd *cobra.Command) []string {
	var all []string
	for _, p := range q.params(cmd) {
		all = append(all, p.Name)
	}
	return all
}

// params are the parameters as the flags describe themselves.
func (q question) params(cmd *cobra.Command) []page.Param {
	var all []page.Param
	if q.positional != "" {
		all = append(all, page.Param{Name: q.positional, About: q.about, Type: "string", Many: q.many, Required: q.needed})
	}
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if slices.Contains(q.hidden, f.Name) {
			return
		}
		p := page.Param{Name: f.Name, About: strings.ReplaceAll(f.Usage, "`", ""), Type: "string", Many: repeats(f)}
		switch f.Value.Type() {
		case "bool":
			p.Type = "boolean"
		case "float64":
			p.Type = "number"
		}
		if !p.Many {
			p.Default = f.DefValue
		}
		all = append(all, p)
	})
	return all
}

func sortedKeys(values url.Values) []string {
	var keys []string
	for k := range values {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// The media types of most answers.
const (
	mediaJSON = "application/json"
	mediaCSV  = "text/csv; charset=utf-8"
)

// get is a question that is answered with a document.
func get(name, summary string, answer any, prepare func(*app, *cobra.Command) func([]string) error) question {
	return question{name: name, summary: summary, method: http.MethodGet, media: mediaJSON, format: "json", answer: answer, prepare: prepare}
}
