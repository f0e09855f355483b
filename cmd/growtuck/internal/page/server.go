package page

import (
	"bytes"
	"context"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"html/template"
	"log"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
	"growtuck/sizing"
)

//go:embed html
var html embed.FS

//go:embed static
var static embed.FS

// staticFiles are the files under /static/ and their media types.
var staticFiles = map[string]string{
	"page.css":   "text/css; charset=utf-8",
	"address.js": "text/javascript; charset=utf-8",
	"page.js":    "text/javascript; charset=utf-8",
	"kept.js":    "text/javascript; charset=utf-8",
	"mark.svg":   "image/svg+xml",

	"mark-192.png":         "image/png",
	"mark-512.png":         "image/png",
	"manifest.webmanifest": "application/manifest+json",
}

// An Engine is what the page is a face of.
type Engine struct {
	Reference *sizing.Reference
	Version   tell.Version                 // of the program
	Edition   string                       // of the tables
	Tables    func() (*data.Tables, error) // as they are, to propose rows for
}

// Options say how the page is served.
type Options struct {
	Loopback bool         // served to this machine alone: other host names are refused
	Log      func(string) // takes what goes wrong, never what was asked; nil: nobody is told
	Desktop  *Desktop     // opened from the desktop; nil: not
}

// A site is the page with what it needs to answer.
type site struct {
	engine    Engine
	questions []question
	downloads map[string]question
	pages     pages
	openapi   func() ([]byte, error)
	shared    bool // served to other machines too
	desktop   bool // stops when asked on the page
	limiter
}

// New returns the handler of the page.
func New(e Engine, o Options) (http.Handler, error) {
	s := &site{engine: e, questions: questions(e), downloads: downloads(), shared: !o.Loopback, desktop: o.Desktop != nil, limiter: newLimiter()}
	var err error
	if s.pages, err = parsePages(); err != nil {
		return nil, err
	}
	s.openapi = sync.OnceValues(s.describe)
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.limited(s.maker))
	mux.HandleFunc("GET /sizes", s.limited(s.designer))
	mux.HandleFunc("GET /children", s.limited(s.several))
	mux.HandleFunc("POST /children", s.limited(s.several))
	mux.HandleFunc("GET /rows", s.limited(s.contributor))
	mux.HandleFunc("POST /rows", s.limited(s.contributor))
	mux.HandleFunc("GET /files/{name}", s.limited(s.file))
	mux.HandleFunc("GET /files/sizes/{name}", s.limited(s.fileOfSizes))
	mux.HandleFunc("/api/", s.noQuestion)
	mux.HandleFunc("GET /api/openapi.json", s.limited(s.description))
	for _, q := range s.questions {
		address := "/api/" + q.name
		if q.name == "" {
			address += "{$}"
		}
		mux.HandleFunc(q.method+" "+address, s.limited(s.answer(q)))
	}
	for name, media := range staticFiles {
		h, err := staticFile(name, media)
		if err != nil {
			return nil, err
		}
		mux.HandleFunc("GET /static/"+name, h)
	}
	if o.Desktop != nil {
		mux.HandleFunc("GET /tab", o.Desktop.tab)
		mux.HandleFunc("POST /stop", o.Desktop.stop)
		return s.guard(o.Desktop.seen(mux), o), nil
	}
	return s.guard(mux, o), nil
}

func staticFile(name, media string) (http.HandlerFunc, error) {
	text, err := static.ReadFile("static/" + name)
	if err != nil {
		return nil, err
	}
	if strings.HasPrefix(media, "text/") {
		text = lean(text)
	}
	small := zipped(text)
	sum := sha256.Sum256(text)
	tag := hex.EncodeToString(sum[:12])
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", media)
		w.Header().Set("Cache-Control", "no-cache") // ask each time whether it is still the same
		w.Header().Set("Vary", "Accept-Encoding")
		if takesZipped(r) && len(small) < len(text) {
			w.Header().Set("Content-Encoding", "gzip")
			w.Header().Set("ETag", `"`+tag+`-gzip"`)
			http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(small))
			return
		}
		w.Header().Set("ETag", `"`+tag+`"`)
		http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(text))
	}, nil
}

// lean is a script or a style sheet as it is sent: lines without their indents, and without
// those that are a remark.
func lean(text []byte) []byte {
	var out bytes.Buffer
	for line := range bytes.Lines(text) {
		if line = bytes.TrimLeft(line, " "); !bytes.HasPrefix(line, []byte("// ")) {
			out.Write(line)
		}
	}
	return out.Bytes()
}

// Timeouts bound how long a client may take; 0 is what is usual.
type Timeouts struct{ Header, Read, Write, Idle, Stop time.Duration }

// maxHeaderBytes bounds a request's head, the address with its state included.
const maxHeaderBytes = 64 << 10

// Serve serves the handler until the context is done. Requests that have begun are
// then finished, and clients that keep them from it cut off: neither is a fault.
func Serve(ctx context.Context, l net.Listener, h http.Handler, t Timeouts, say func(string)) error {
	or := func(d, usual time.Duration) time.Duration {
		if d > 0 {
			return d
		}
		return usual
	}
	srv := &http.Server{
		Handler:           h,
		ReadHeaderTimeout: or(t.Header, 5*time.Second),
		ReadTimeout:       or(t.Read, 20*time.Second),
		WriteTimeout:      or(t.Write, 30*time.Second),
		IdleTimeout:       or(t.Idle, time.Minute),
		MaxHeaderBytes:    maxHeaderBytes,
		ErrorLog:          log.New(logWriter{say}, "", 0),
	}
	done := make(chan error, 1)
	go func() {
		<-ctx.Done()
		within, cancel := context.WithTimeout(context.Background(), or(t.Stop, 3*time.Second))
		defer cancel()
		err := srv.Shutdown(within)
		if errors.Is(err, context.DeadlineExceeded) {
			err = srv.Close()
		}
		done <- err
	}()
	if err := srv.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-done
}

// A logWriter passes on what net/http has to say: of connections, not of what was
// asked.
type logWriter struct{ say func(string) }

func (w logWriter) Write(p []byte) (int, error) {
	if w.say != nil {
		w.say(strings.TrimSpace(string(p)))
	}
	return len(p), nil
}

// pages are the views' templates, by their files.
type pages map[string]*template.Template

func parsePages() (pages, error) {
	all := pages{}
	for _, name := range []string{"maker.html", "designer.html", "several.html", "contributor.html"} {
		t, err := template.New(name).Funcs(template.FuncMap{"unitWord": tell.UnitWord}).ParseFS(html, "html/layout.html", "html/parts.html", "html/"+name)
		if err != nil {
			return nil, err
		}
		all[name] = t
	}
	return all, nil
}
