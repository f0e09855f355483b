package page

import (
	"context"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What takes too long is answered all the same, is told to stop, and takes no turn of
// others' once it has.
func TestWorkEnds(t *testing.T) {
	l := newLimiter()
	l.within = 20 * time.Millisecond
	stopped := make(chan error, 1)
	h := l.limited(func(_ http.ResponseWriter, r *http.Request) {
		<-r.Context().Done()
		stopped <- context.Cause(r.Context())
	})
	w := httptest.NewRecorder()
	h(w, httptest.NewRequest(http.MethodGet, "/", nil))
	require.Equal(t, http.StatusServiceUnavailable, w.Code)
	require.ErrorIs(t, <-stopped, context.DeadlineExceeded)

	// Who hangs up stops it too.
	l.within = time.Hour
	ctx, hangUp := context.WithCancel(t.Context())
	go hangUp()
	l.limited(func(_ http.ResponseWriter, r *http.Request) {
		<-r.Context().Done()
		stopped <- context.Cause(r.Context())
	})(httptest.NewRecorder(), httptest.NewRequestWithContext(ctx, http.MethodGet, "/", nil))
	require.ErrorIs(t, <-stopped, context.Canceled)
	for range atOnce { // all turns are free
		l.working <- struct{}{}
	}
}

// Bodies and answers are held up to so many bytes; what is beyond is refused, not kept.
func TestHeldBytesAreBounded(t *testing.T) {
	l := newLimiter()
	l.reading.most, l.sending.most = 1000, 1000
	answer := strings.Repeat("x", 900)
	h := l.limited(func(w http.ResponseWriter, r *http.Request) {
		_, _ = io.Copy(io.Discard, r.Body)
		_, _ = io.WriteString(w, answer)
	})
	try := func(body string) int {
		w := httptest.NewRecorder()
		h(w, httptest.NewRequest(http.MethodPost, "/", strings.NewReader(body)))
		return w.Code
	}
	require.Equal(t, http.StatusOK, try(answer))
	require.Equal(t, http.StatusServiceUnavailable, try(answer+answer))
	require.True(t, l.sending.take(500)) // a client that does not take its answer
	require.Equal(t, http.StatusServiceUnavailable, try(""))
	l.sending.give(500)
	require.Equal(t, http.StatusOK, try(answer))
	require.Zero(t, l.reading.held.Load())
	require.Zero(t, l.sending.held.Load())
}

// Clients that do not take their answers hold no turn.
func TestSlowReadersHoldNoTurn(t *testing.T) {
	l := newLimiter()
	l.sending.most = 1 << 30
	s := httptest.NewServer(l.limited(func(w http.ResponseWriter, _ *http.Request) { _, _ = w.Write(make([]byte, 8<<20)) }))
	defer s.Close()
	defer s.CloseClientConnections()
	for range 3 * atOnce {
		c, err := net.Dial("tcp", s.Listener.Addr().String())
		require.NoError(t, err)
		defer c.Close()
		_, err = io.WriteString(c, "GET / HTTP/1.1\r\nHost: x\r\n\r\n")
		require.NoError(t, err)
	}
	r, err := http.Get(s.URL)
	require.NoError(t, err)
	n, err := io.Copy(io.Discard, r.Body)
	require.NoError(t, err)
	require.EqualValues(t, 8<<20, n)
	require.NoError(t, r.Body.Close())
}
