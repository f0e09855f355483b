package page

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
)

// apiVersion is the version of the API: the first number changes when a question, a
// parameter or a field of an answer goes or means another thing, the second when one is
// added.
const apiVersion = "2.0"

// The headers of every answer under /api/.
const (
	programHeader = "Growtuck-Version"
	editionHeader = "Growtuck-Edition"
)

// version puts what an answer rests on into its head.
func (s *site) version(w http.ResponseWriter) {
	w.Header().Set(programHeader, s.engine.Version.Program)
	w.Header().Set(editionHeader, s.engine.Edition)
}

// answer answers a question under /api/.
func (s *site) answer(q question) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		values, err := url.ParseQuery(r.URL.RawQuery)
		if err != nil {
			s.writeProblem(w, s.problemOf("parameters", http.StatusBadRequest, errors.New("the address cannot be read: %, & and ; in values are written %25, %26 and %3B")))
			return
		}
		var body []byte
		if q.body != "" {
			if body, err = readPosted(r.Body, q.most()); err != nil {
				s.writeBodyProblem(w, r, q.most(), err)
				return
			}
		}
		out, err := s.ask(r.Context(), q, values, body)
		if err != nil && q.method == http.MethodGet {
			err = s.blame(r.Context(), q, values, err)
		}
		var cannot *unusable
		var asked *ask.Fault
		var several ask.Faults
		switch {
		case errors.As(err, &cannot):
			s.writeProblem(w, s.unreadable(cannot.findings, cannot.err))
		case errors.As(err, &asked), errors.As(err, &several):
			s.writeProblem(w, s.problemOf("parameters", http.StatusBadRequest, err))
		case err != nil:
			s.writeProblem(w, s.problemOf("no-result", http.StatusUnprocessableEntity, err))
		default:
			s.version(w)
			writeAnswer(w, http.StatusOK, q.media, s.editioned(q, out))
		}
	}
}

// editioned puts the edition of the tables into an answer that is a JSON object.
func (s *site) editioned(q question, out []byte) []byte {
	quoted, err := json.Marshal(s.engine.Edition)
	rest, is := bytes.CutPrefix(out, []byte("{\n"))
	if q.media != mediaJSON || !is || err != nil {
		return out
	}
	return slices.Concat([]byte("{\n  \"edition\": "), quoted, []byte(",\n"), rest)
}

// ask answers a question with its parameters, or what was posted.
func (s *site) ask(ctx context.Context, q question, query url.Values, body []byte) ([]byte, error) {
	values, faults := ask.FromQuery(q.fields, query)
	if len(faults) > 0 {
		return nil, faults
	}
	r, faults := ask.Read(s.engine.Reference, q.fields, values, sizing.Child{})
	if len(faults) > 0 {
		return nil, faults
	}
	r.Context = ctx
	answer, err := q.respond(s, r, body)
	switch {
	case errors.Is(err, ask.ErrNoChild):
		err = &ask.Fault{Field: "set", Err: errors.New("no child; give measurements as set=chest=53cm, or a size")}
	case errors.Is(err, work.ErrNothingToFind), errors.Is(err, sizing.ErrNothingKnown):
		err = &ask.Fault{Field: "set", Err: err}
	}
	return answer, err
}

// mostBlamed bounds how often a question is asked again to find out what is to blame.
const mostBlamed = 40

// blame finds the parameter that an error comes of, where one value alone left out
// gives an answer.
func (s *site) blame(ctx context.Context, q question, query url.Values, err error) error {
	var known *ask.Fault
	if errors.As(err, &known) || len(tell.DoubtsOf(err)) > 0 {
		return err
	}
	tried := 0
	for _, name := range slices.Sorted(maps.Keys(query)) {
		for i, value := range query[name] {
			if tried++; tried > mostBlamed || ctx.Err() != nil {
				return err
			}
			rest := maps.Clone(query)
			if rest[name] = slices.Delete(slices.Clone(query[name]), i, i+1); len(rest[name]) == 0 {
				delete(rest, name)
			}
			if _, without := s.ask(ctx, q, rest, nil); without == nil {
				key, _, paired := strings.Cut(value, "=")
				if !paired {
					key = ""
				}
				return &ask.Fault{Field: name, Key: key, Err: err}
			}
		}
	}
	return err
}

func writeAnswer(w http.ResponseWriter, status int, media string, body []byte) {
	w.Header().Set("Content-Type", media)
	w.WriteHeader(status)
	_, _ = w.Write(body) // who asked may have gone
}

// errTooMuch says that more was posted than is read.
var errTooMuch = errors.New("too much was posted")

func readPosted(in io.Reader, most int64) ([]byte, error) {
	body, err := io.ReadAll(io.LimitReader(in, most+1))
	if err == nil && int64(len(body)) > most {
		err = errTooMuch
	}
	return body, err
}

// writeBodyProblem says why what was posted was not read.
func (s *site) writeBodyProblem(w http.ResponseWriter, r *http.Request, most int64, err error) {
	var big *http.MaxBytesError
	if errors.As(err, &big) || err == errTooMuch {
		s.refuse(w, r, http.StatusRequestEntityTooLarge, fmt.Sprintf("more than %d MiB were posted", most>>20))
		return
	}
	s.refuse(w, r, http.StatusBadRequest, "what was posted broke off")
}

// An indexDocument says what is answered under /api/.
type indexDocument struct {
	API         string          `json:"api" doc:"version of the API"`
	Description string          `json:"description" doc:"address of the description by OpenAPI"`
	Questions   []indexQuestion `json:"questions" doc:"what can be asked"`
	Problems    []indexProblem  `json:"problems" doc:"the kinds of problems, by the part of their type after #"`
}

type indexQuestion struct {
	Method  string `json:"method" doc:"GET, or POST where something is given to be read"`
	Path    string `json:"path" doc:"the address"`
	Summary string `json:"summary" doc:"what is answered"`
	Example string `json:"example" doc:"the address with parameters"`
}

type indexProblem struct {
	ID    string `json:"id" doc:"id of the kind of problem"`
	Title string `json:"title" doc:"the kind of problem in words"`
}

// index lists what can be asked.
func index(s *site, _ *ask.Request, _ []byte) ([]byte, error) {
	d := indexDocument{API: apiVersion, Description: "/api/openapi.json"}
	for _, q := range s.questions {
		d.Questions = append(d.Questions, indexQuestion{q.method, "/api/" + q.name, q.summary, "/api/" + q.name + q.example.query()})
	}
	for _, id := range []string{"parameters", "posted", "no-result"} {
		d.Problems = append(d.Problems, indexProblem{id, kinds[id]})
	}
	return document(d)
}

// noQuestion answers an address under /api/ that is no question, or is asked by another
// method than it takes.
func (s *site) noQuestion(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/api/")
	var names []string
	for _, q := range s.questions {
		if q.name == name {
			allowed := q.method
			if allowed == http.MethodGet {
				allowed = "GET, HEAD"
			}
			w.Header().Set("Allow", allowed)
			s.refuse(w, r, http.StatusMethodNotAllowed, fmt.Sprintf("/api/%s takes %s, not %s", name, allowed, r.Method))
			return
		}
		names = append(names, q.name)
	}
	words := (&sizing.UnknownError{Kind: "question", Name: name, Nearest: sizing.Nearest(name, names), Known: names}).Error()
	s.refuse(w, r, http.StatusNotFound, words+"; /api/ lists them")
}
