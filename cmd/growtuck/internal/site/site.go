// Package site writes the page as a folder of files that any web server can
// serve: the page's handlers compiled to WebAssembly, a service worker that asks
// them, and a first page that says what is happening until they can answer.
package site

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/save"
)

//go:embed static
var static embed.FS

// engines are the programs of the site, with the build tags of each: the first has no
// library of workbooks, which the second is fetched for.
var engines = map[string]string{"engine": "nobooks", "books": ""}

// firstPages are what is seen before the program can answer, by their addresses.
var firstPages = map[string]string{"/": "index.html", "/sizes": "sizes/index.html", "/children": "children/index.html", "/rows": "rows/index.html"}

// early are the page's own files that its first pages show.
var early = []string{"static/page.css", "static/mark.svg", "static/mark-192.png", "static/mark-512.png", "static/manifest.webmanifest"}

// Write writes the site of the page into a folder. It compiles the program from its
// source, in the folder of its module, with the go command.
func Write(dir string, page http.Handler, source string, replace bool) error {
	files, err := compile(source)
	if err != nil {
		return err
	}
	for address, name := range firstPages {
		if files[name], err = firstPage(page, address); err != nil {
			return err
		}
	}
	for _, name := range early {
		if files[name], err = ask(page, "/"+name); err != nil {
			return err
		}
	}
	if files["start.js"], err = static.ReadFile("static/start.js"); err != nil {
		return err
	}
	if files["worker.js"], err = worker(files); err != nil {
		return err
	}
	return write(dir, files, replace)
}

// compile makes the programs, packed, and the file that runs them.
func compile(source string) (map[string][]byte, error) {
	root, err := goSays(source, "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	runner, err := os.ReadFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{"wasm_exec.js": runner}
	work, err := os.MkdirTemp("", "growtuck-site-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(work)
	for name, tags := range engines {
		out := filepath.Join(work, name)
		// Without inlining the program is a sixth smaller.
		if _, err := goSays(source, "build", "-trimpath", "-tags="+tags, "-gcflags=all=-l", "-ldflags=-s -w", "-o", out, "./cmd/growtuck/internal/site/engine"); err != nil {
			return nil, err
		}
		program, err := os.ReadFile(out)
		if err != nil {
			return nil, err
		}
		var packed bytes.Buffer
		z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
		if err != nil {
			return nil, err
		}
		if _, err := z.Write(program); err != nil {
			return nil, err
		}
		if err := z.Close(); err != nil {
			return nil, err
		}
		files[name+".wasm.gz"] = packed.Bytes()
	}
	return files, nil
}

// goSays runs the go command in a folder, for a browser, and returns what it prints.
func goSays(dir string, args ...string) (string, error) {
	cmd := exec.Command("go", args...)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	var complaint strings.Builder
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	switch {
	case errors.Is(err, exec.ErrNotFound):
		return "", errors.New("a site is compiled from the program's source by the go command, which is not installed")
	case err != nil:
		return "", fmt.Errorf("go %s: %w\n%s", args[0], err, complaint.String())
	}
	return strings.TrimSpace(string(out)), nil
}

// Source is the folder of the program's source: that of the module round a folder.
func Source(dir string) (string, error) {
	module, err := goSays(dir, "list", "-m", "-f", "{{.Path}} {{.Dir}}")
	if err != nil {
		return "", err
	}
	path, source, _ := strings.Cut(module, " ")
	if path != "growtuck" {
		return "", fmt.Errorf("a site is compiled from the program's source: run this in a clone of growtuck, not in module %s", path)
	}
	return source, nil
}

// ask is what the page answers at an address.
func ask(page http.Handler, address string) ([]byte, error) {
	r := httptest.NewRequest(http.MethodGet, "http://localhost"+address, nil)
	w := httptest.NewRecorder()
	page.ServeHTTP(w, r)
	if w.Code != http.StatusOK {
		return nil, fmt.Errorf("the page answers %d at %s", w.Code, address)
	}
	return w.Body.Bytes(), nil
}

// firstPage is a view of the page with the script that starts the program in place
// of its own.
func firstPage(page http.Handler, address string) ([]byte, error) {
	view, err := ask(page, address)
	if err != nil {
		return nil, err
	}
	html, ok := string(view), true
	change := func(old, with string) {
		before, after, found := strings.Cut(html, old)
		html, ok = before+with+after, ok && found
	}
	policy := "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'"
	up := strings.Repeat("../", strings.Count(firstPages[address], "/"))
	if up == "" {
		policy += "; base-uri 'none'"
	}
	head := `<meta http-equiv="Content-Security-Policy" content="` + policy + `">` + "\n"
	if up != "" {
		head += `<base href="` + up + `">` + "\n"
	}
	change("<head>\n", "<head>\n"+head)
	for {
		before, after, found := strings.Cut(html, `<script src="static/`)
		if !found {
			break
		}
		_, after, _ = strings.Cut(after, "</script>\n")
		html = before + after
	}
	change("</head>", "<script src=\"start.js\" defer></script>\n</head>")
	change(`<main id="main" tabindex="-1">`, `<main id="main" tabindex="-1">
<p class="trouble" id="starting" role="status">Starting …</p>
<noscript><p class="trouble">Without scripts this site can show its form and no answers: the program itself runs in the page. The same program on your own machine, growtuck page, answers without scripts.</p></noscript>`)
	if !ok {
		return nil, fmt.Errorf("the page at %s has no place for the script that starts the program", address)
	}
	return []byte(html), nil
}

// worker is the service worker with the sums of the files that it fetches, and an
// edition that changes with any file of the site.
func worker(files map[string][]byte) ([]byte, error) {
	type kept struct {
		SHA256 string `json:"sha256"`
		Bytes  int    `json:"bytes"`
	}
	text, err := static.ReadFile("static/worker.js")
	if err != nil {
		return nil, err
	}
	all, fetched := sha256.New(), make(map[string]kept)
	all.Write(text)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		sum := sha256.Sum256(files[name])
		fmt.Fprintf(all, "%s %x\n", name, sum)
		if strings.HasSuffix(name, ".wasm.gz") || !strings.Contains(name, "/") && strings.HasSuffix(name, ".js") {
			fetched[name] = kept{hex.EncodeToString(sum[:]), len(files[name])}
		}
	}
	fetched["worker.js"] = kept{}
	list, err := json.Marshal(fetched)
	if err != nil {
		return nil, err
	}
	return []byte(strings.NewReplacer(`"EDITION"`, `"`+hex.EncodeToString(all.Sum(nil)[:8])+`"`, "FILES", string(list)).Replace(string(text))), nil
}

func write(dir string, files map[string][]byte, replace bool) error {
	var all []save.File
	for _, name := range slices.Sorted(maps.Keys(files)) {
		all = append(all, save.File{Path: filepath.Join(dir, filepath.FromSlash(name)), Content: files[name]})
	}
	return save.All(dir, all, replace)
}
