//go:build !nobooks

package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"io/fs"
	"maps"
	"slices"
	"sort"
	"strings"

	"github.com/xuri/excelize/v2"
)

// contentTypes is the part whose entries excelize writes in the order of a map.
const contentTypes = "[Content_Types].xml"

// A zipWriter writes the parts of a workbook in the order of their names, and
// the entries of the list of content types sorted, so that the same workbook
// has the same bytes: excelize takes both in the order of a map.
type zipWriter struct {
	*zip.Writer
	held map[string]*bytes.Buffer
	all  bool // parts are held back; else the list of content types alone
}

// newZipWriter holds the parts back until all are there.
func newZipWriter(w io.Writer) excelize.ZipWriter {
	return &zipWriter{zip.NewWriter(w), make(map[string]*bytes.Buffer), true}
}

// newPlainZipWriter lets parts through as they come, for long workbooks of one
// sheet, whose order is certain.
func newPlainZipWriter(w io.Writer) excelize.ZipWriter {
	return &zipWriter{zip.NewWriter(w), make(map[string]*bytes.Buffer), false}
}

func (z *zipWriter) Create(name string) (io.Writer, error) {
	if !z.all && name != contentTypes {
		return z.Writer.Create(name)
	}
	z.held[name] = new(bytes.Buffer)
	return z.held[name], nil
}

func (z *zipWriter) AddFS(fsys fs.FS) error { return z.Writer.AddFS(fsys) }

func (z *zipWriter) Close() error {
	for _, name := range slices.Sorted(maps.Keys(z.held)) {
		w, err := z.Writer.Create(name)
		if err != nil {
			return err
		}
		part := z.held[name].Bytes()
		if name == contentTypes {
			part = []byte(sortedTypes(string(part)))
		}
		if strings.HasPrefix(name, "xl/charts/chart") {
			part = placesAsNumbers(part)
		}
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return z.Writer.Close()
}

// placesAsNumbers has the places of a scatter chart be numbers, which excelize refers
// to as texts: a spreadsheet would count them 1, 2, 3.
func placesAsNumbers(chart []byte) []byte {
	var out []byte
	for {
		before, rest, found := bytes.Cut(chart, []byte("<c:xVal>"))
		out = append(out, before...)
		if !found {
			return out
		}
		places, rest, _ := bytes.Cut(rest, []byte("</c:xVal>"))
		out = append(out, "<c:xVal>"...)
		out = append(out, bytes.ReplaceAll(places, []byte("c:strRef>"), []byte("c:numRef>"))...)
		out = append(out, "</c:xVal>"...)
		chart = rest
	}
}

// sortedTypes sorts the elements of the list, which are of one depth.
func sortedTypes(doc string) string {
	start := strings.Index(doc, "<Types")
	open := strings.Index(doc[max(start, 0):], ">") + max(start, 0)
	end := strings.LastIndex(doc, "</Types>")
	if start < 0 || open < start || end < open {
		return doc
	}
	entries := strings.Split(strings.ReplaceAll(doc[open+1:end], "><", ">\n<"), "\n")
	for i := len(entries) - 1; i > 0; i-- { // a closing tag belongs to its element
		if strings.HasPrefix(entries[i], "</") {
			entries[i-1] += entries[i]
			entries = append(entries[:i], entries[i+1:]...)
		}
	}
	sort.Strings(entries)
	return doc[:open+1] + strings.Join(entries, "") + doc[end:]
}
