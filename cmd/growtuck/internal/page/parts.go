package page

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"hash/fnv"
	"html/template"
	"net/http"
	"strconv"
	"strings"
)

// shownHeader is the header by which the page's script says which parts it shows:
// id=mark of each, comma-separated. The answer is then the parts that differ. A part that
// is folded away, by that word in place of its mark, is asked for when it is opened.
const (
	shownHeader = "Growtuck-Shown"
	folded      = "folded"
)

// parts writes the parts of a view that follow its entries. A part is an element with
// an id and the mark of what is in it; it may have parts inside.
type parts struct {
	templates *template.Template
	written   []part // so far, at the depth that is being written
}

type part struct {
	id, mark string
	html     template.HTML
	inside   []part
}

// Live writes a part by a template.
func (p *parts) Live(id, class, name string, data any) (template.HTML, error) {
	return p.write(id, class, name, data, "")
}

// Entries writes a part of inputs. It differs where it has other inputs: what is typed
// into them is the browser's.
func (p *parts) Entries(id, class, name string, fields []field) (template.HTML, error) {
	var names strings.Builder
	for _, f := range fields {
		names.WriteString(f.ID + " ")
	}
	return p.write(id, class, name, fields, names.String()+"-")
}

func (p *parts) write(id, class, name string, data any, about string) (template.HTML, error) {
	around := p.written
	p.written = nil
	var out bytes.Buffer
	if err := p.templates.ExecuteTemplate(&out, name, data); err != nil {
		return "", err
	}
	inside, text := p.written, out.String()
	if about == "" {
		about = text
		for _, x := range inside { // they have marks of their own
			about = strings.Replace(about, string(x.html), x.id, 1)
		}
	}
	h := fnv.New64a()
	_, _ = h.Write([]byte(about)) // never fails
	mark := strconv.FormatUint(h.Sum64(), 36)
	if class != "" {
		class = ` class="` + class + `"`
	}
	all := template.HTML(fmt.Sprintf(`<div id="%s"%s data-live="%s">%s</div>`, id, class, mark, text)) // of our templates, which escape
	p.written = append(around, part{id, mark, all, inside})
	return all, nil
}

// changed are the parts that a browser does not show as they are. For what such a part has
// inside that is shown already, a place is kept.
func changed(all []part, shown map[string]string) []byte {
	same := func(x part) bool { return shown[x.id] == x.mark || shown[x.id] == folded }
	var out bytes.Buffer
	for _, x := range all {
		if same(x) {
			out.Write(changed(x.inside, shown))
			continue
		}
		text := string(x.html)
		for _, in := range x.inside {
			if same(in) {
				text = strings.Replace(text, string(in.html), `<div id="`+in.id+`" data-same></div>`, 1)
			}
		}
		out.WriteString(text)
	}
	return out.Bytes()
}

// shownParts are the parts that a request says its browser shows; nil where it asks
// for the whole view.
func shownParts(r *http.Request) map[string]string {
	said := r.Header.Get(shownHeader)
	if said == "" {
		return nil
	}
	shown := make(map[string]string)
	for _, one := range strings.Split(said, ",") {
		id, mark, _ := strings.Cut(one, "=")
		shown[id] = mark
	}
	return shown
}

// render writes a view whole, or the parts of it that its browser does not show.
func (s *site) render(w http.ResponseWriter, r *http.Request, status int, v interface{ written() *parts }) {
	var out bytes.Buffer
	p := v.written()
	shown := shownParts(r)
	if err := p.templates.ExecuteTemplate(&out, "layout.html", v); err != nil {
		panic(err) // a slip in a template; guard says so
	}
	text := out.Bytes()
	if shown != nil {
		text = changed(p.written, shown)
	}
	w.Header().Set("Vary", "Accept-Encoding, "+shownHeader)
	if takesZipped(r) {
		text = zipped(text)
		w.Header().Set("Content-Encoding", "gzip")
	}
	writeAnswer(w, status, "text/html; charset=utf-8", text)
}

func takesZipped(r *http.Request) bool {
	return strings.Contains(r.Header.Get("Accept-Encoding"), "gzip")
}

func zipped(text []byte) []byte {
	var out bytes.Buffer
	z := gzip.NewWriter(&out)
	_, _ = z.Write(text) // into memory: it does not fail
	_ = z.Close()
	return out.Bytes()
}
