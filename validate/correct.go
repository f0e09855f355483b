package validate

import (
	"bytes"
	"encoding/csv"
	"io"
	"slices"
	"strings"

	"growtuck/data/table"
	"growtuck/sizing"
)

// mostCorrections bounds how many slips of one draft are put right.
const mostCorrections = 20

// Correct puts right the likeliest slip of a draft, and the likeliest of what is left,
// until no one change leaves less to say. It returns the text with these rows changed
// and all else as it was, what it changed, and what is said of the result, as
// [CheckDraft] has it.
func Correct(ref *sizing.Reference, text []byte, name string, opts Options) (corrected []byte, done, left []Finding, err error) {
	corrected = plainly(text)
	for range mostCorrections {
		left, err = CheckDraft(ref, bytes.NewReader(corrected), name, opts)
		if len(left) == 0 || !left[0].Likeliest() {
			break
		}
		done = append(done, left[0])
		corrected = rewrite(corrected, left[0].RowEdits())
	}
	return corrected, done, left, err
}

// plainly is the text of a draft in UTF-8, with commas and our titles; a text that has
// them, or is no draft, stays as it is.
func plainly(text []byte) []byte {
	t, err := table.Open(bytes.NewReader(text), "", MaxDraftBytes)
	if err != nil || t.Header(draftColumns, 3) != nil {
		return text
	}
	if !t.UTF16 && !t.Returns && t.Separator == ',' && slices.Equal(t.Titles, draftColumns[:min(len(t.Titles), len(draftColumns))]) {
		return text
	}
	out := rowText(Row{draftColumns[0], draftColumns[1], draftColumns[2], draftColumns[3], draftColumns[4]}, len(draftColumns), "\n")
	for {
		row, err := t.Next()
		switch {
		case err == io.EOF:
			return out
		case err != nil:
			return text
		}
		c := row.Texts()
		out = append(out, rowText(Row{c[0], c[1], c[2], c[3], c[4]}, len(draftColumns), "\n")...)
	}
}

// rewrite changes rows of a draft's text.
func rewrite(text []byte, edits []RowEdit) []byte {
	body, mark := bytes.CutPrefix(text, []byte("\ufeff"))
	var out bytes.Buffer
	if mark {
		out.WriteString("\ufeff")
	}
	end := "\n"
	if bytes.Contains(body, []byte("\r\n")) {
		end = "\r\n"
	}
	starts := []int{0}
	for i, b := range body {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	r := csv.NewReader(bytes.NewReader(body))
	r.Comment, r.FieldsPerRecord, r.TrimLeadingSpace, r.LazyQuotes = '#', -1, true, true
	written := 0
	for {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil || len(cells) == 0 {
			continue
		}
		line, _ := r.FieldPos(0)
		from, to := starts[line-1], int(r.InputOffset())
		out.Write(body[written:from])
		written = to
		record := body[from:to]
		for _, e := range edits {
			if e.Line == line && e.From != (Row{}) {
				record = nil
				if e.To != (Row{}) {
					record = rowText(e.To, len(cells), end)
				}
			}
		}
		out.Write(record)
		for _, e := range edits {
			if e.Line == line && e.From == (Row{}) {
				if !bytes.HasSuffix(record, []byte("\n")) {
					out.WriteString(end)
				}
				out.Write(rowText(e.To, len(draftColumns), end))
			}
		}
	}
	out.Write(body[written:])
	return out.Bytes()
}

// rowText is a row as a line, with as many cells as it had or needs.
func rowText(r Row, cells int, end string) []byte {
	all := []string{r.Field, r.Part, r.Value, r.Unit, r.Note}
	n := max(3, min(cells, len(all)))
	for i := n; i < len(all); i++ {
		if all[i] != "" {
			n = i + 1
		}
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	_ = w.Write(all[:n]) // a strings.Builder takes all
	w.Flush()
	return []byte(strings.TrimSuffix(b.String(), "\n") + end)
}
