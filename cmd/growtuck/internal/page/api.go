package page

import (
	"bytes"
	"errors"
	"io"
	"net/http"
	"net/url"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
)

// A fault is one thing that is wrong with what was asked, as the API says it.
type fault struct {
	Parameter string `json:"parameter" doc:"the parameter that is wrong; empty where none alone is"`
	Message   string `json:"message" doc:"what is wrong, and what would be right"`
}

type faultDocument struct {
	Errors []fault            `json:"errors" doc:"all that is wrong with what was asked"`
	Doubts []tell.DoubtRecord `json:"doubts" doc:"what is hardly to be believed of what was said of the child, with what may have been meant"`
}

// answer answers a question under /api/.
func (s *site) answer(q question) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		values, err := url.ParseQuery(r.URL.RawQuery)
		if err != nil {
			writeFaults(w, http.StatusBadRequest, errors.New("the address cannot be read: %, & and ; in values are written %25, %26 and %3B"))
			return
		}
		var body []byte
		if q.body != "" {
			if body, err = io.ReadAll(r.Body); err != nil {
				writeBodyFault(w, err)
				return
			}
		}
		out, err := s.ask(q, values, body)
		var cannot *unusable
		switch {
		case errors.As(err, &cannot):
			writeAnswer(w, http.StatusUnprocessableEntity, q.media, cannot.answer)
		case err != nil:
			writeFaults(w, http.StatusBadRequest, err)
		default:
			writeAnswer(w, http.StatusOK, q.media, out)
		}
	}
}

func writeAnswer(w http.ResponseWriter, status int, media string, body []byte) {
	w.Header().Set("Content-Type", media)
	w.WriteHeader(status)
	_, _ = w.Write(body) // who asked may have gone
}

// writeBodyFault says why what was posted was not read.
func writeBodyFault(w http.ResponseWriter, err error) {
	var big *http.MaxBytesError
	if errors.As(err, &big) {
		writeFaults(w, http.StatusRequestEntityTooLarge, errors.New("more than 4 MiB were posted"))
		return
	}
	writeFaults(w, http.StatusBadRequest, errors.New("what was posted broke off"))
}

func writeFaults(w http.ResponseWriter, status int, err error) {
	doc := faultDocument{Doubts: tell.DoubtRecords(tell.DoubtsOf(err))}
	for _, e := range work.Flatten(err) {
		f := fault{Message: strings.TrimSpace(e.Error())}
		var p *ask.Fault
		if errors.As(e, &p) {
			f.Parameter = p.Field
		} else if doubts := tell.DoubtsOf(e); len(doubts) > 0 {
			f.Parameter = "set"
			if doubts[0].Measurement == sizing.AgeField {
				f.Parameter = "age"
			}
		}
		doc.Errors = append(doc.Errors, f)
	}
	var out bytes.Buffer
	if (tell.Document{JSON: doc}).Write(&out, "json", 0) != nil { // strings alone: it does not fail
		http.Error(w, "bad request", status)
		return
	}
	writeAnswer(w, status, "application/json", out.Bytes())
}

// file answers with a file of the page. Its address is the page's own.
func (s *site) file(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	q, ok := s.downloads[name]
	if !ok {
		http.NotFound(w, r)
		return
	}
	st := s.readState(r.URL.RawQuery)
	out, err := s.fileOf(st, q)
	if err != nil {
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		w.WriteHeader(http.StatusBadRequest)
		_, _ = io.WriteString(w, "This address does not give "+q.summary+":\n"+err.Error()+"\n")
		return
	}
	file := name
	if _, err := s.engine.Reference.Parts(st.Garment); err == nil { // not every file takes the garment, which may be any text
		file = st.Garment + "-" + name
	}
	w.Header().Set("Content-Disposition", `attachment; filename="`+file+`"`)
	writeAnswer(w, http.StatusOK, q.media, out)
}

// fileOf makes a file of a state.
func (s *site) fileOf(st *state, q question) ([]byte, error) {
	if !q.takes("size") { // it takes one for widths and one for lengths
		for _, name := range []string{"widths", "lengths"} {
			if size := st.raw.Get("size"); size != "" && !st.raw.Has(name) {
				st.raw.Set(name, size)
			}
		}
	}
	r, faults := s.request(st, q.fields)
	if len(faults) > 0 {
		return nil, faults
	}
	if st.Value("tape") == "in" {
		r.Unit = "in"
	}
	return q.respond(s, r, nil)
}
