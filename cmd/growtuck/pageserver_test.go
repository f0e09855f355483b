package main

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/page"
	"growtuck/testdata/proof"
)

func TestPageHeaders(t *testing.T) {
	h := pageHandler(t)
	for _, target := range []string{"/", "/sizes", "/rows", "/api/charts", "/static/page.js", "/nothing"} {
		r := fetch(h, http.MethodGet, target, "")
		for name, want := range map[string]string{
			"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Resource-Policy": "same-origin",
		} {
			require.Equal(t, want, r.Header.Get(name), target)
		}
		policy := r.Header.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "script-src 'self'", "style-src 'self'", "form-action 'self'", "base-uri 'none'", "frame-ancestors 'none'"} {
			require.Contains(t, policy, want)
		}
		require.NotContains(t, policy, "unsafe")
		require.NotContains(t, policy, "*")
		if !strings.HasPrefix(target, "/static/") {
			require.Equal(t, "no-store", r.Header.Get("Cache-Control"), target)
		}
	}
}

func TestPageRefuses(t *testing.T) {
	h := pageHandler(t)
	form := "application/x-www-form-urlencoded"
	tests := []struct {
		about, method, target, body string
		headers                     []string
		status                      int
	}{
		{"another method", http.MethodPut, "/", "", nil, http.StatusMethodNotAllowed},
		{"another method", http.MethodDelete, "/rows", "", nil, http.StatusMethodNotAllowed},
		{"a post from elsewhere", http.MethodPost, "/rows", "rows=x", []string{"Content-Type", form, "Sec-Fetch-Site", "cross-site"}, http.StatusForbidden},
		{"a post from elsewhere", http.MethodPost, "/rows", "rows=x", []string{"Content-Type", form, "Origin", "http://example.org"}, http.StatusForbidden},
		{"a post from elsewhere", http.MethodPost, "/api/check", "x", []string{"Sec-Fetch-Site", "same-site"}, http.StatusForbidden},
		{"a post of its own", http.MethodPost, "/rows", "rows=x", []string{"Content-Type", form, "Sec-Fetch-Site", "same-origin", "Origin", "http://127.0.0.1:8474"}, http.StatusOK},
		{"no form", http.MethodPost, "/rows", "rows=x", []string{"Content-Type", "text/plain"}, http.StatusBadRequest},
		{"too much", http.MethodPost, "/api/rows", strings.Repeat("x", 5<<20), nil, http.StatusRequestEntityTooLarge},
		{"too much", http.MethodPost, "/rows", "rows=" + strings.Repeat("x", 5<<20), []string{"Content-Type", form}, http.StatusRequestEntityTooLarge},
		{"too much for a form", http.MethodPost, "/rows", "rows=" + strings.Repeat("x", 2<<20), []string{"Content-Type", form}, http.StatusRequestEntityTooLarge},
		{"a folder", http.MethodGet, "/static/", "", nil, http.StatusNotFound},
		{"a folder", http.MethodGet, "/files/", "", nil, http.StatusNotFound},
		{"a path out", http.MethodGet, "/static/../page.go", "", nil, http.StatusTemporaryRedirect},
		{"a template", http.MethodGet, "/html/layout.html", "", nil, http.StatusNotFound},
	}
	for _, test := range tests {
		require.Equal(t, test.status, fetch(h, test.method, test.target, test.body, test.headers...).StatusCode, "%s: %s %s", test.about, test.method, test.target)
	}

	r, err := http.NewRequest(http.MethodGet, "/?height=110", nil)
	require.NoError(t, err)
	r.Host = "growtuck.example.org" // a name that leads to this machine
	w := &answer{header: http.Header{}}
	h.ServeHTTP(w, r)
	require.Equal(t, http.StatusMisdirectedRequest, w.status)
	require.NotContains(t, w.body.String(), "110")
}

// Who reads the page from another machine is not told that it stays on theirs.
func TestPageSaysWhereItIsServed(t *testing.T) {
	const here, shared = "What you type stays here", "What you type goes to another machine"
	html := text(t, fetch(pageHandler(t), http.MethodGet, "/", ""))
	requireHas(t, html, here)
	requireHasNot(t, html, shared)
	a := &app{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard, format: "table", unit: "cm"}
	engine, err := a.pageEngine()
	require.NoError(t, err)
	h, err := page.New(engine, page.Options{})
	require.NoError(t, err)
	for _, target := range []string{"/", "/sizes", "/rows"} {
		html = text(t, fetch(h, http.MethodGet, target, ""))
		requireHas(t, html, shared)
		requireHasNot(t, html, here)
	}
}

// An answer is a response writer that keeps the status and the body.
type answer struct {
	header http.Header
	status int
	body   bytes.Buffer
}

func (a *answer) Header() http.Header         { return a.header }
func (a *answer) WriteHeader(status int)      { a.status = status }
func (a *answer) Write(p []byte) (int, error) { return a.body.Write(p) }

// served runs the page as the command does, and stops it in the end.
func served(t *testing.T, timeouts page.Timeouts) (address string, stop func() error) {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	h := pageHandler(t)
	go func() { done <- page.Serve(ctx, l, h, timeouts, func(string) {}) }()
	stop = sync.OnceValue(func() error {
		cancel()
		return <-done
	})
	t.Cleanup(func() { _ = stop() })
	return l.Addr().String(), stop
}

func TestPageServesAndStops(t *testing.T) {
	address, stop := served(t, page.Timeouts{})
	r, err := http.Get("http://" + address + "/?" + makerQuery)
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, r.StatusCode)
	require.Contains(t, text(t, r), "64.0")
	require.NoError(t, r.Body.Close())
	http.DefaultClient.CloseIdleConnections()
	require.NoError(t, stop())
	_, err = net.DialTimeout("tcp", address, time.Second)
	require.Error(t, err)
}

// Who sends slowly is cut off, and does not keep others waiting.
func TestPageCutsSlowClients(t *testing.T) {
	address, _ := served(t, page.Timeouts{Header: 50 * time.Millisecond, Read: 100 * time.Millisecond})
	for _, begin := range []string{"GET / HT", "POST /api/rows HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 1000\r\n\r\nchart"} {
		var slow []net.Conn
		for range 20 {
			c, err := net.Dial("tcp", address)
			require.NoError(t, err)
			defer c.Close()
			_, err = io.WriteString(c, begin)
			require.NoError(t, err)
			slow = append(slow, c)
		}
		r, err := http.Get("http://" + address + "/api/version")
		require.NoError(t, err)
		require.Equal(t, http.StatusOK, r.StatusCode)
		require.NoError(t, r.Body.Close())
		for _, c := range slow {
			_, err := io.ReadAll(c) // ends, with or without an answer
			require.NotErrorIs(t, err, os.ErrDeadlineExceeded)
		}
	}
}

// Who sends a body slowly takes no turn from others, however long that lasts.
func TestPageWorksBesideSlowBodies(t *testing.T) {
	address, stop := served(t, page.Timeouts{Read: time.Hour, Stop: time.Millisecond})
	for range 100 {
		c, err := net.Dial("tcp", address)
		require.NoError(t, err)
		defer c.Close()
		_, err = io.WriteString(c, "POST /rows HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 1000\r\nExpect: 100-continue\r\n\r\n")
		require.NoError(t, err)
		require.NoError(t, c.SetReadDeadline(time.Now().Add(20*time.Second)))
		begun := make([]byte, 12) // it is asked for its body, so it is being read
		_, err = io.ReadFull(c, begun)
		require.NoError(t, err)
		require.Equal(t, "HTTP/1.1 100", string(begun))
	}
	client := http.Client{Timeout: 20 * time.Second}
	r, err := client.Get("http://" + address + "/sizes")
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, r.StatusCode)
	require.NoError(t, r.Body.Close())
	r, err = client.Post("http://"+address+"/rows", "application/x-www-form-urlencoded", strings.NewReader("rows=chart"))
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, r.StatusCode)
	require.NoError(t, r.Body.Close())
	http.DefaultClient.CloseIdleConnections()
	require.NoError(t, stop(), "clients that are stuck do not make stopping a fault")
}

// Under load no answer fails, and neither goroutines nor memory stay behind.
func TestPageIsSteady(t *testing.T) {
	h := pageHandler(t)
	targets := []string{"/?" + makerQuery, "/sizes", "/static/page.js", "/api/garments", "/api/charts", "/rows", "/nothing", "/api/blend?set=height%3D110", "/api/plan?craft=crochet&gauge=16x18/10cm&" + suitQuery, "/api/size?size=4", "/api/garment?garment=hat&size=4&option=x", "/files/draft.csv?" + makerQuery}
	load := func(requests int) {
		var wg sync.WaitGroup
		next := make(chan string)
		for range 32 {
			wg.Go(func() {
				for target := range next {
					if r := fetch(h, http.MethodGet, target, ""); r.StatusCode >= 500 {
						t.Errorf("%s: %s", target, r.Status)
					}
				}
			})
		}
		for i := range requests {
			next <- targets[i%len(targets)]
		}
		close(next)
		wg.Wait()
	}
	measure := func() (int, uint64) {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return runtime.NumGoroutine(), m.HeapAlloc
	}
	requests := 240
	if proof.Whole() {
		requests = 2000
	}
	load(120) // what is made once is made
	routines, heap := measure()
	load(requests)
	after, grown := measure()
	t.Logf("goroutines %d → %d, heap %d → %d kB", routines, after, heap>>10, grown>>10)
	require.LessOrEqual(t, after, routines)
	require.Less(t, grown, heap+2<<20)
}

func TestPageCommand(t *testing.T) {
	code, _, stderr := try(t, noChild, "page", "now")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "page takes no arguments")
	code, _, stderr = try(t, noChild, "page", "--listen", "nowhere:http:80")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "--listen 127.0.0.1:0 takes a free port")

	var out, errs bytes.Buffer
	a := &app{stdin: strings.NewReader(""), stdout: &out, stderr: &errs, format: "table", unit: "cm"}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	require.NoError(t, a.servePage(ctx, "127.0.0.1:0", false))
	require.Regexp(t, `^Open http://127\.0\.0\.1:\d+/ in a browser`, out.String())
	require.Empty(t, errs.String())
	require.NoError(t, a.servePage(ctx, "0.0.0.0:0", false))
	require.Contains(t, errs.String(), "can be reached from other machines")
}
