package tell

import (
	"bytes"
	_ "embed"
	"html/template"
	"sync"
)

//go:embed document.html
var documentHTML string

// documentPage lays a document out as a page that needs no other file. It is parsed on
// first use: most runs of the program print something else.
var documentPage = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("document").Funcs(template.FuncMap{"safe": safeSVG}).Parse(documentHTML))
})

// safeSVG is a drawing of this program, its texts escaped.
func safeSVG(svg string) template.HTML { return template.HTML(svg) }

// writeHTML writes a document as one page for print, with nothing to fetch.
func writeHTML(out *bytes.Buffer, d Document) error { return documentPage().Execute(out, d) }
