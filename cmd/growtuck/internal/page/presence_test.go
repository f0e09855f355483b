package page

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A desktop's page is served while a tab is open, and ends some time after the last.
func TestDesktopStopsWithItsLastTab(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	d := &Desktop{Stop: stop, Stopped: ctx.Done(), lastTab: 200 * time.Millisecond, noTab: time.Hour}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /tab", d.tab)
	mux.HandleFunc("POST /stop", d.stop)
	server := httptest.NewServer(d.seen(mux))
	defer server.Close()
	tab := func() io.Closer {
		r, err := http.Get(server.URL + "/tab")
		require.NoError(t, err)
		require.Equal(t, "text/event-stream", r.Header.Get("Content-Type"))
		said := make([]byte, 8)
		_, err = io.ReadFull(r.Body, said)
		require.NoError(t, err)
		require.Equal(t, ": here\n\n", string(said))
		return r.Body
	}
	one, two := tab(), tab()
	require.NoError(t, one.Close())
	select {
	case <-ctx.Done():
		t.Fatal("stopped while a tab was open")
	case <-time.After(500 * time.Millisecond):
	}
	require.NoError(t, two.Close())
	again := tab() // as when a tab is loaded again
	select {
	case <-ctx.Done():
		t.Fatal("stopped while a tab was loaded again")
	case <-time.After(500 * time.Millisecond):
	}
	require.NoError(t, again.Close())
	<-ctx.Done()
}

// A tab that is open does not keep a page from stopping when it is told to.
func TestDesktopStopsWhenAsked(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	d := &Desktop{Stop: stop, Stopped: ctx.Done()}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /tab", d.tab)
	mux.HandleFunc("POST /stop", d.stop)
	server := httptest.NewServer(d.seen(mux))
	defer server.Close()
	tab, err := http.Get(server.URL + "/tab")
	require.NoError(t, err)
	r, err := http.Post(server.URL+"/stop", "", nil)
	require.NoError(t, err)
	said, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	require.Contains(t, string(said), "has stopped")
	<-ctx.Done()
	_, err = io.ReadAll(tab.Body) // ends
	require.NoError(t, err)
}
