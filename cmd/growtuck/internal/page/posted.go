package page

import (
	"cmp"
	"errors"
	"io"
	"mime"
	"net/http"
	"net/url"
	"strings"
)

// postedForm reads a form that was posted; the text of a file stands in the place of the
// field that it is given in place of.
func postedForm(r *http.Request, field string) (form url.Values, file string, err error) {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "multipart/form-data" && kind != "application/x-www-form-urlencoded" {
		return nil, "", errors.New("that is not a form; programs post to the addresses under /api/")
	}
	if kind != "multipart/form-data" {
		err := r.ParseForm()
		return r.PostForm, "", err
	}
	parts, err := r.MultipartReader()
	if err != nil {
		return nil, "", err
	}
	form = make(url.Values)
	for {
		part, err := parts.NextPart()
		if err == io.EOF {
			return form, file, nil
		}
		if err != nil {
			return form, file, err
		}
		text, err := io.ReadAll(part)
		if err != nil {
			return form, file, err
		}
		switch name := part.FormName(); {
		case name == "file" && len(text) > 0:
			form.Set(field, string(text))
			file = part.FileName()
		case name != "file" && !form.Has(name):
			form.Set(name, string(text))
		}
	}
}

// typedBefore is the query of what was typed in the other views: in the address, or posted
// along by the page's script.
func typedBefore(r *http.Request, form url.Values) string {
	return cmp.Or(r.URL.RawQuery, form.Get("asked"))
}

// unix ends lines as this program does.
func unix(text string) string { return strings.ReplaceAll(text, "\r\n", "\n") }
