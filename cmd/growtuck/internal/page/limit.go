package page

import (
	"bytes"
	"context"
	"io"
	"maps"
	"net/http"
	"sync/atomic"
	"time"
)

const (
	// atOnce is how many requests are worked on at a time; others wait for
	// their turn.
	atOnce = 8
	// workWithin is how long a request may wait and be worked on.
	workWithin = 15 * time.Second
	// heldBytes is how much of bodies that are still coming, and of answers that are
	// still being taken, is held at a time.
	heldBytes = 64 << 20
	// pieceWithin is how long a client may take for a piece of an answer, answerWithin
	// for all of it.
	pieceBytes   = 64 << 10
	pieceWithin  = 5 * time.Second
	answerWithin = 30 * time.Second
)

// A limiter bounds what requests take: turns to be worked on, time, and memory. Slow
// clients, however many, hold no turn.
type limiter struct {
	working          chan struct{}
	within           time.Duration
	reading, sending *budget
}

func newLimiter() limiter {
	return limiter{make(chan struct{}, atOnce), workWithin, &budget{most: heldBytes}, &budget{most: heldBytes}}
}

// A budget is how many bytes may be held.
type budget struct {
	most int64
	held atomic.Int64
}

// take takes n bytes, if there are so many.
func (b *budget) take(n int) bool {
	if b.held.Add(int64(n)) <= b.most {
		return true
	}
	b.give(n)
	return false
}

func (b *budget) give(n int) { b.held.Add(-int64(n)) }

// limited reads the body, waits until the request's turn has come, and sends the
// answer when the turn has gone to another. The request's context ends the work.
func (l limiter) limited(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost {
			held, ok := l.read(r)
			defer l.reading.give(held)
			if !ok {
				busy(w)
				return
			}
		}
		ctx, cancel := context.WithTimeout(r.Context(), l.within)
		defer cancel()
		select {
		case l.working <- struct{}{}:
		case <-ctx.Done(): // nobody waits for it, or too long
			busy(w)
			return
		}
		a := &bufferedResponse{header: w.Header().Clone(), status: http.StatusOK}
		done := make(chan any, 1)
		go func() {
			defer func() {
				<-l.working
				done <- recover()
			}()
			next(a, r.WithContext(ctx))
		}()
		select {
		case wrong := <-done:
			if wrong != nil {
				panic(wrong) // for the guard, which tells of it
			}
			l.send(w, a)
		case <-ctx.Done(): // the work ends by itself, and with it its turn
			busy(w)
		}
	}
}

// busy refuses a request for now. Who has gone does not see it.
func busy(w http.ResponseWriter) {
	w.Header().Set("Retry-After", "5")
	http.Error(w, "Too much is asked of this page at once. Try again in a moment.", http.StatusServiceUnavailable)
}

// read reads a request's body, and returns how much it holds; false where that would
// be too much beside what others hold.
func (l limiter) read(r *http.Request) (held int, ok bool) {
	var body bytes.Buffer
	piece := make([]byte, 32<<10)
	for {
		n, err := r.Body.Read(piece)
		if n > 0 && !l.reading.take(n) {
			return held, false
		}
		held += n
		body.Write(piece[:n])
		if err != nil {
			r.Body = io.NopCloser(io.MultiReader(&body, endOfBody{err}))
			return held, true
		}
	}
}

// send sends an answer. Who takes it too slowly is cut off.
func (l limiter) send(w http.ResponseWriter, a *bufferedResponse) {
	n := a.body.Len()
	if !l.sending.take(n) {
		busy(w)
		return
	}
	defer l.sending.give(n)
	maps.Copy(w.Header(), a.header)
	w.WriteHeader(a.status)
	conn := http.NewResponseController(w)
	last := time.Now().Add(answerWithin)
	for a.body.Len() > 0 {
		by := time.Now().Add(pieceWithin)
		if by.After(last) {
			by = last
		}
		_ = conn.SetWriteDeadline(by) // where there is no connection, none is slow
		if _, err := w.Write(a.body.Next(pieceBytes)); err != nil {
			return // who asked has gone
		}
		_ = conn.Flush()
	}
}

// endOfBody is the end of a body: how reading it ended.
type endOfBody struct{ err error }

func (b endOfBody) Read([]byte) (int, error) { return 0, b.err }

// A bufferedResponse keeps an answer until it is whole.
type bufferedResponse struct {
	header http.Header
	status int
	body   bytes.Buffer
}

// Header is the answer's own: the work may go on after another answer was sent.
func (a *bufferedResponse) Header() http.Header { return a.header }

// WriteHeader keeps the status.
func (a *bufferedResponse) WriteHeader(status int) { a.status = status }

func (a *bufferedResponse) Write(p []byte) (int, error) { return a.body.Write(p) }
