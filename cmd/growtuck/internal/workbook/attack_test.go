//go:build linux

package workbook_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/workbook"
)

const (
	attackTypes = `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>`
	attackRels  = `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`
	attackBook  = `<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets></workbook>`
	attackLinks = `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/><Relationship Id="rId3" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/></Relationships>`
	mainSpace   = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
)

// attacks are workbooks made to take memory or time, by what they do.
func attacks() map[string]map[string]string {
	sheet := func(rows string) string {
		return `<?xml version="1.0"?><worksheet ` + mainSpace + `><sheetData>` + rows + `</sheetData></worksheet>`
	}
	texts := func(all string) string { return `<?xml version="1.0"?><sst ` + mainSpace + `>` + all + `</sst>` }
	styles := func(all string) string {
		return `<?xml version="1.0"?><styleSheet ` + mainSpace + `>` + all + `</styleSheet>`
	}
	cells := func(n int, cell string) string {
		var b strings.Builder
		for i := range n {
			if i%50 == 0 {
				if i > 0 {
					b.WriteString("</row>")
				}
				fmt.Fprintf(&b, `<row r="%d">`, i/50+1)
			}
			b.WriteString(cell)
		}
		return b.String() + "</row>"
	}
	const header = `<row r="1"><c r="A1" t="inlineStr"><is><t>measurement</t></is></c><c r="B1" t="inlineStr"><is><t>value</t></is></c><c r="C1" t="inlineStr"><is><t>unit</t></is></c></row>`
	const six = 6 << 20
	return map[string]map[string]string{
		"one long text that many cells name":    {"xl/sharedStrings.xml": texts("<si><t>" + strings.Repeat("x", six-200) + "</t></si>"), "xl/worksheets/sheet1.xml": sheet(cells(100_000, `<c t="s"><v>0</v></c>`))},
		"a text at the limit, many cells":       {"xl/sharedStrings.xml": texts("<si><t>" + strings.Repeat("x", 4000) + "</t></si>"), "xl/worksheets/sheet1.xml": sheet(cells(100_000, `<c t="s"><v>0</v></c>`))},
		"pieces of one text":                    {"xl/sharedStrings.xml": texts("<si>" + strings.Repeat("<r><t>xxxxxxxx</t></r>", 200_000) + "</si>"), "xl/worksheets/sheet1.xml": sheet(cells(50_000, `<c t="s"><v>0</v></c>`))},
		"a long inline text":                    {"xl/worksheets/sheet1.xml": sheet(`<row r="1"><c r="A1" t="inlineStr"><is><t>` + strings.Repeat("x", six-500) + `</t></is></c></row>`)},
		"many texts":                            {"xl/sharedStrings.xml": texts(strings.Repeat("<si><t/></si>", six/14))},
		"many styles":                           {"xl/styles.xml": styles("<cellXfs>" + strings.Repeat("<xf/>", six/6) + "</cellXfs>")},
		"deep styles":                           {"xl/styles.xml": styles(strings.Repeat("<a>", 700_000) + strings.Repeat("</a>", 700_000))},
		"many attributes":                       {"xl/styles.xml": styles("<xf" + strings.Repeat(` a="1"`, six/7) + "/>")},
		"huge dimensions":                       {"xl/worksheets/sheet1.xml": `<?xml version="1.0"?><worksheet ` + mainSpace + `><dimension ref="A1:XFD1048576"/><sheetData>` + header + `<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData></worksheet>`},
		"rows far down, each with a far cell":   {"xl/worksheets/sheet1.xml": sheet(strings.Repeat(`<row><c r="XFD1"><v>1</v></c></row>`, 100_000))},
		"many empty rows":                       {"xl/worksheets/sheet1.xml": sheet(strings.Repeat(`<row/>`, six/7))},
		"many merged cells":                     {"xl/worksheets/sheet1.xml": `<?xml version="1.0"?><worksheet ` + mainSpace + `><sheetData>` + header + `</sheetData><mergeCells>` + strings.Repeat(`<mergeCell ref="A2:XFD1048576"/>`, 150_000) + `</mergeCells></worksheet>`},
		"entities":                              {"xl/sharedStrings.xml": `<?xml version="1.0"?><!DOCTYPE sst [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;">]><sst><si><t>&c;</t></si></sst>`},
		"another encoding":                      {"xl/sharedStrings.xml": `<?xml version="1.0" encoding="UTF-7"?><sst/>`},
		"many sheets":                           {"xl/workbook.xml": strings.Replace(attackBook, "</sheets>", strings.Repeat(`<sheet name="x" sheetId="2" r:id="rId1"/>`, 50_000)+"</sheets>", 1)},
		"many sheets of one part":               {"xl/workbook.xml": manySheets(400)},
		"some sheets of one part, each counted": {"xl/workbook.xml": manySheets(50), "xl/worksheets/sheet1.xml": sheet(cells(100_000, `<c><v>12345678</v></c>`))},
		"many names":                            {"xl/workbook.xml": strings.Replace(attackBook, "</workbook>", "<definedNames>"+strings.Repeat(`<definedName name="x">Sheet1!$A$1</definedName>`, 100_000)+"</definedNames></workbook>", 1)},
		"many relations":                        {"xl/_rels/workbook.xml.rels": strings.Replace(attackLinks, "</Relationships>", strings.Repeat(`<Relationship Id="a" Type="b" Target="c"/>`, 140_000)+"</Relationships>", 1)},
		"a comment as long as the part":         {"xl/styles.xml": "<styleSheet><!--" + strings.Repeat("x", six-100) + "--></styleSheet>"},
		"far cells of many columns":             {"xl/worksheets/sheet1.xml": sheet(strings.Repeat(`<row>`+strings.Repeat(`<c/>`, 1000)+`</row>`, 1000))},
		"media that unpack to much":             {"xl/media/a.png": strings.Repeat("\x00", 15<<20)},
	}
}

func manySheets(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `<sheet name="x%d" sheetId="%d" r:id="rId1"/>`, i, i+2)
	}
	return strings.Replace(attackBook, "</sheets>", b.String()+"</sheets>", 1)
}

// attackFile packs an attack.
func attackFile(t *testing.T, parts map[string]string) []byte {
	all := map[string]string{"[Content_Types].xml": attackTypes, "_rels/.rels": attackRels, "xl/workbook.xml": attackBook, "xl/_rels/workbook.xml.rels": attackLinks,
		"xl/styles.xml": "<styleSheet " + mainSpace + "/>", "xl/sharedStrings.xml": "<sst " + mainSpace + "/>", "xl/worksheets/sheet1.xml": "<worksheet " + mainSpace + "><sheetData/></worksheet>"}
	for name, text := range parts {
		all[name] = text
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range all {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(text))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

// lying says of every part of an archive that it unpacks to ten bytes.
func lying(raw []byte) []byte {
	raw = bytes.Clone(raw)
	for _, h := range []struct {
		sign string
		at   int
	}{{"PK\x01\x02", 24}, {"PK\x03\x04", 22}} {
		for i := 0; i+h.at+4 < len(raw); i++ {
			if string(raw[i:i+4]) == h.sign {
				binary.LittleEndian.PutUint32(raw[i+h.at:], 10)
			}
		}
	}
	return raw
}

const openEnv = "GROWTUCK_TEST_OPEN"

// The process that reads one attack; its peak of memory is measured from outside.
func TestOpenInAProcess(t *testing.T) {
	path := os.Getenv(openEnv)
	if path == "" {
		t.Skip("started by TestAttacksTakeBoundedMemory")
	}
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	w, err := workbook.Open(f, "f.xlsx")
	if err == nil {
		_, err = w.Child()
	}
	if err != nil {
		fmt.Println("said:", err)
	}
	status, err := os.ReadFile("/proc/self/status")
	require.NoError(t, err)
	_, peak, _ := strings.Cut(string(status), "VmHWM:")
	fmt.Println("peak:", strings.Fields(peak)[0])
}

// Whatever is in a workbook, the process that reads it takes no more memory than is
// stated, and what it says is short.
func TestAttacksTakeBoundedMemory(t *testing.T) {
	files := make(map[string][]byte)
	for name, parts := range attacks() {
		files[name] = attackFile(t, parts)
	}
	files["lying sizes"] = lying(files["many styles"])
	dir := t.TempDir()
	most := int64(0)
	for name, raw := range files {
		require.LessOrEqual(t, len(raw), workbook.MaxBytes, name)
		path := filepath.Join(dir, "attack.xlsx")
		require.NoError(t, os.WriteFile(path, raw, 0o600))
		cmd := exec.Command(os.Args[0], "-test.run=^TestOpenInAProcess$", "-test.v")
		cmd.Env = append(os.Environ(), openEnv+"="+path, "GOGC=400") // as the program sets it
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s: %s", name, out)
		_, after, _ := strings.Cut(string(out), "peak: ") // of this program alone: what began it is larger
		peak, err := strconv.ParseInt(strings.Fields(after)[0], 10, 64)
		require.NoError(t, err)
		peak <<= 10
		require.LessOrEqual(t, peak, int64(workbook.MaxMemory), "%s (%d bytes): %s", name, len(raw), out)
		require.NotContains(t, string(out), "CharsetReader")
		require.NotContains(t, string(out), "is damaged: runtime error", name)
		said, _, _ := strings.Cut(string(out), "peak:")
		require.Less(t, len(said), 600, name)
		most = max(most, peak)
		t.Logf("%-40s %8d bytes: peak %3d MB, %.100s", name, len(raw), peak>>20, strings.TrimPrefix(strings.Split(string(out)+"\n", "\n")[1], "said: "))
	}
	t.Logf("at most %d MB", most>>20)
}
