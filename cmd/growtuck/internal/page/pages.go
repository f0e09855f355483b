package page

import (
	"embed"
	"html/template"
)

//go:embed html
var html embed.FS

// pages are the views' templates, by their files.
type pages map[string]*template.Template

func parsePages() (pages, error) {
	all := pages{}
	for _, name := range []string{"maker.html", "designer.html", "contributor.html"} {
		t, err := template.New(name).Funcs(template.FuncMap{"inWords": inWords}).ParseFS(html, "html/layout.html", "html/parts.html", "html/"+name)
		if err != nil {
			return nil, err
		}
		all[name] = t
	}
	return all, nil
}
