package page

import (
	"io"
	"net/http"
	"sync"
	"time"
)

// How long a page that was opened from the desktop is served when nobody seems to
// look at it.
const (
	afterLastTab = time.Minute      // has been closed
	withoutTab   = 30 * time.Minute // that says it is open: scripts may be off
	heartbeat    = 15 * time.Second
)

// A Desktop is a page that was opened from the desktop, where nobody can press
// Ctrl+C. It stops when asked on the page, or when its last tab has been closed for
// a while.
type Desktop struct {
	Stop    func()          // ends the serving
	Stopped <-chan struct{} // closed when it ends

	lastTab, noTab time.Duration // 0 is what is usual
	mu             sync.Mutex
	open           int // tabs
	rest           *time.Timer
}

// wait stops the page after d, unless a tab opens or something is asked before.
func (d *Desktop) wait(after, usual time.Duration) {
	if after == 0 {
		after = usual
	}
	if d.rest == nil {
		d.rest = time.AfterFunc(after, d.Stop)
		return
	}
	d.rest.Reset(after)
}

// seen passes requests on: somebody is there.
func (d *Desktop) seen(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		d.mu.Lock()
		if d.open == 0 {
			d.wait(d.noTab, withoutTab)
		}
		d.mu.Unlock()
		next.ServeHTTP(w, r)
	})
}

// tab is asked by each tab of the page, and answered for as long as it is open.
func (d *Desktop) tab(w http.ResponseWriter, r *http.Request) {
	d.mu.Lock()
	d.open++
	if d.rest != nil {
		d.rest.Stop()
	}
	d.mu.Unlock()
	defer func() {
		d.mu.Lock()
		defer d.mu.Unlock()
		if d.open--; d.open == 0 {
			d.wait(d.lastTab, afterLastTab)
		}
	}()
	w.Header().Set("Content-Type", "text/event-stream")
	c := http.NewResponseController(w)
	_ = c.SetReadDeadline(time.Time{}) // else the end of the time to read ends the request
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	for {
		_ = c.SetWriteDeadline(time.Now().Add(2 * heartbeat))
		if _, err := io.WriteString(w, ": here\n\n"); err != nil || c.Flush() != nil {
			return
		}
		select {
		case <-beat.C:
		case <-r.Context().Done():
			return
		case <-d.Stopped:
			return
		}
	}
}

// stop ends the serving once it is answered.
func (d *Desktop) stop(w http.ResponseWriter, _ *http.Request) {
	writeAnswer(w, http.StatusOK, "text/html; charset=utf-8", []byte(stopped))
	go d.Stop()
}

const stopped = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Stopped – growtuck</title>
</head>
<body>
<h1>growtuck has stopped</h1>
<p>Nothing was stored. You can close this tab; to go on later, start growtuck again and go back in this tab’s history, or open an address that you kept with the new beginning.</p>
</body>
</html>
`
