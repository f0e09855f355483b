package page

import (
	"fmt"
	"net"
	"net/http"
	"runtime/debug"
	"slices"
)

// contentPolicy lets the page have its own files and nothing else: no inline
// script or style, nothing from elsewhere, no frame round it.
const contentPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

var methods = []string{http.MethodGet, http.MethodHead, http.MethodPost}

const (
	maxBody = 4 << 20 // what is posted
	maxForm = 1 << 20 // of it, what a view takes, which shows it again
)

// guard puts the checks that every request passes, and the headers that every
// answer has, round the handler.
func (s *site) guard(next http.Handler, o Options) http.Handler {
	p := http.NewCrossOriginProtection()
	p.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.refuse(w, r, http.StatusForbidden, "This comes from another page; nothing is taken from there.")
	}))
	checked := p.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", contentPolicy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=()")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Cache-Control", "no-store")
		defer s.recovered(w, r, o.Log)
		switch {
		case o.Loopback && !ownHost(r.Host):
			s.refuse(w, r, http.StatusMisdirectedRequest, "This page is served to this machine alone: open it as localhost or 127.0.0.1.")
		case !slices.Contains(methods, r.Method):
			h.Set("Allow", "GET, HEAD, POST")
			s.refuse(w, r, http.StatusMethodNotAllowed, "Want GET, HEAD or POST.")
		default:
			r.Body = http.MaxBytesReader(w, r.Body, maxBody)
			checked.ServeHTTP(w, r)
		}
	})
}

// ownHost reports whether a request names this machine by a loopback address or
// as localhost. Another name that leads here belongs to a page from elsewhere.
func ownHost(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	}
	if n := len(name); n > 2 && name[0] == '[' && name[n-1] == ']' {
		name = name[1 : n-1]
	}
	ip := net.ParseIP(name)
	return name == "localhost" || ip != nil && ip.IsLoopback()
}

// recovered answers where a request went wrong by our fault, and says where in
// the program, not what was asked.
func (s *site) recovered(w http.ResponseWriter, r *http.Request, say func(string)) {
	v := recover()
	if v == nil {
		return
	}
	if v == http.ErrAbortHandler {
		panic(v)
	}
	if say != nil {
		say(fmt.Sprintf("fault in %s (%T)\n%s", r.URL.Path, v, debug.Stack()))
	}
	s.refuse(w, r, http.StatusInternalServerError, "Something went wrong in the program. Nothing was lost: the address holds what you typed.")
}
