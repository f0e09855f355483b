package page

import (
	"bytes"
	"errors"
	"net/http"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/validate"
)

// A problem says why a question has no answer, as RFC 9457, "Problem Details for HTTP
// APIs", has it.
type problem struct {
	Type     string             `json:"type" doc:"what kind of problem it is: the address of its description under /api/, or about:blank where the status says all"`
	Title    string             `json:"title" doc:"the kind of problem in words"`
	Status   int                `json:"status" doc:"the status of the answer"`
	Detail   string             `json:"detail" doc:"what is wrong, and what would be right"`
	Edition  string             `json:"edition" doc:"the edition of the tables that the answer rests on, with its checksum"`
	Errors   []fault            `json:"errors" doc:"each thing that is wrong with what was asked"`
	Doubts   []tell.DoubtRecord `json:"doubts" doc:"what is hardly to be believed of what was said of the child, with what may have been meant"`
	Findings []tell.Finding     `json:"findings" doc:"what the checks found in what was posted"`
}

// A fault is one thing that is wrong with what was asked.
type fault struct {
	Parameter string `json:"parameter" doc:"the parameter that is wrong; empty where none alone is, and where what was posted is"`
	Key       string `json:"key" doc:"of a parameter such as set or extra, what it says of: chest; empty for others"`
	Detail    string `json:"detail" doc:"what is wrong, and what would be right"`
}

const mediaProblem = "application/problem+json"

// kinds are the problems with an address of their own, by the part of it after #.
var kinds = map[string]string{
	"parameters": "The parameters cannot be followed",
	"posted":     "What was posted cannot be used",
	"no-result":  "There is no result for what was asked",
}

// problemOf is the problem of an error about what was asked.
func (s *site) problemOf(kind string, status int, err error) problem {
	p := problem{Type: "/api/#" + kind, Title: kinds[kind], Status: status, Edition: s.engine.Edition,
		Errors: []fault{}, Doubts: tell.DoubtRecords(tell.DoubtsOf(err)), Findings: []tell.Finding{}}
	var details []string
	for _, e := range work.Flatten(err) {
		f := fault{Detail: strings.TrimSpace(tell.Style{}.Error(e))}
		var asked *ask.Fault
		if errors.As(e, &asked) {
			f.Parameter, f.Key = asked.Field, asked.Key
		} else if doubts := tell.DoubtsOf(e); len(doubts) > 0 {
			f.Parameter, f.Key = "set", doubts[0].Measurement
			if f.Key == sizing.AgeField {
				f.Parameter, f.Key = "age", ""
			}
		}
		details = append(details, f.Detail)
		p.Errors = append(p.Errors, f)
	}
	p.Detail = strings.Join(details, "; ")
	return p
}

// unreadable is the problem of what was posted and cannot be used, with the findings
// that say why.
func (s *site) unreadable(findings []validate.Finding, err error) problem {
	p := s.problemOf("posted", http.StatusUnprocessableEntity, err)
	p.Findings = tell.Style{}.Findings(findings)
	return p
}

// refuse answers what is no question: with a problem under /api/, elsewhere in words.
func (s *site) refuse(w http.ResponseWriter, r *http.Request, status int, words string) {
	if !strings.HasPrefix(r.URL.Path, "/api/") {
		http.Error(w, words, status)
		return
	}
	s.writeProblem(w, problem{Type: "about:blank", Title: http.StatusText(status), Status: status, Detail: words, Edition: s.engine.Edition,
		Errors: []fault{}, Doubts: []tell.DoubtRecord{}, Findings: []tell.Finding{}})
}

func (s *site) writeProblem(w http.ResponseWriter, p problem) {
	var out bytes.Buffer
	if (tell.Document{JSON: p}).Write(&out, "json", 0) != nil { // texts and numbers alone: it does not fail
		http.Error(w, p.Detail, p.Status)
		return
	}
	s.version(w)
	writeAnswer(w, p.Status, mediaProblem, out.Bytes())
}
