package page

import (
	"bytes"
	"io"
	"net/http"
)

const (
	// atOnce is how many requests are worked on at a time; others wait for
	// their turn.
	atOnce = 8
	// takenAtOnce is how many bodies are taken in at a time.
	takenAtOnce = 32
)

// turns bound the requests that are taken in and worked on at a time.
type turns struct{ taking, working chan struct{} }

func newTurns() turns {
	return turns{taking: make(chan struct{}, takenAtOnce), working: make(chan struct{}, atOnce)}
}

// worked waits until the request's turn has come. What is posted is taken in
// before, and the answer sent after it: who sends or reads slowly keeps nobody
// else waiting.
func (t turns) worked(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost && !t.take(r) {
			return
		}
		select {
		case t.working <- struct{}{}:
		case <-r.Context().Done(): // nobody waits for it
			return
		}
		a := answering{ResponseWriter: w, status: http.StatusOK}
		func() {
			defer func() { <-t.working }()
			next(&a, r)
		}()
		w.WriteHeader(a.status)
		_, _ = a.body.WriteTo(w) // who asked may have gone
	}
}

// take takes a request's body in; false where nobody waits for it any more.
func (t turns) take(r *http.Request) bool {
	select {
	case t.taking <- struct{}{}:
		defer func() { <-t.taking }()
	case <-r.Context().Done():
		return false
	}
	body, err := io.ReadAll(r.Body)
	r.Body = io.NopCloser(io.MultiReader(bytes.NewReader(body), broken{err}))
	return true
}

// broken is the end of a body: how reading it ended.
type broken struct{ err error }

func (b broken) Read([]byte) (int, error) {
	if b.err == nil {
		return 0, io.EOF
	}
	return 0, b.err
}

// An answering keeps an answer until it is whole.
type answering struct {
	http.ResponseWriter
	status int
	body   bytes.Buffer
}

func (a *answering) WriteHeader(status int) { a.status = status }

func (a *answering) Write(p []byte) (int, error) { return a.body.Write(p) }
