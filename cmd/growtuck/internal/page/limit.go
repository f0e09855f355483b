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
	// readAtOnce is how many bodies are read at a time.
	readAtOnce = 32
)

// A limiter bounds the requests that are read and worked on at a time.
type limiter struct{ reading, working chan struct{} }

func newLimiter() limiter {
	return limiter{reading: make(chan struct{}, readAtOnce), working: make(chan struct{}, atOnce)}
}

// limited waits until the request's turn has come. The body is read
// before, and the answer sent after it, so that slow clients do not hold a slot.
func (l limiter) limited(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost && !l.read(r) {
			return
		}
		select {
		case l.working <- struct{}{}:
		case <-r.Context().Done(): // nobody waits for it
			return
		}
		a := bufferedResponse{ResponseWriter: w, status: http.StatusOK}
		func() {
			defer func() { <-l.working }()
			next(&a, r)
		}()
		w.WriteHeader(a.status)
		_, _ = a.body.WriteTo(w) // who asked may have gone
	}
}

// read reads a request's body; false where nobody waits for it any more.
func (l limiter) read(r *http.Request) bool {
	select {
	case l.reading <- struct{}{}:
		defer func() { <-l.reading }()
	case <-r.Context().Done():
		return false
	}
	body, err := io.ReadAll(r.Body)
	r.Body = io.NopCloser(io.MultiReader(bytes.NewReader(body), endOfBody{err}))
	return true
}

// endOfBody is the end of a body: how reading it ended.
type endOfBody struct{ err error }

func (b endOfBody) Read([]byte) (int, error) {
	if b.err == nil {
		return 0, io.EOF
	}
	return 0, b.err
}

// A bufferedResponse keeps an answer until it is whole.
type bufferedResponse struct {
	http.ResponseWriter
	status int
	body   bytes.Buffer
}

func (a *bufferedResponse) WriteHeader(status int) { a.status = status }

func (a *bufferedResponse) Write(p []byte) (int, error) { return a.body.Write(p) }
