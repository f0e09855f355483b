package workbook

import (
	"encoding/xml"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// Spreadsheet programs turn what looks like a date into one:
// 5-6, or 4.5 where days are written so. What is stored then is a number of
// days, and how the cell looks is all that tells.

// dateStyles are the cell styles of the workbook that show dates or times.
func (f *File) dateStyles() map[string]bool {
	dates := make(map[string]bool)
	in, err := openPart(f.parts, "xl/styles.xml")
	if err != nil {
		return dates // a workbook without styles has no dates
	}
	defer in.Close()
	formats := make(map[string]string)
	d := xml.NewDecoder(in)
	cells, style := false, 0
	for {
		token, err := d.Token()
		if err != nil {
			return dates
		}
		switch e := token.(type) {
		case xml.StartElement:
			switch {
			case e.Name.Local == "numFmt":
				formats[attribute(e, "numFmtId")] = attribute(e, "formatCode")
			case e.Name.Local == "cellXfs":
				cells = true
			case e.Name.Local == "xf" && cells:
				id := attribute(e, "numFmtId")
				if code, own := formats[id]; own && showsDate(code) || !own && builtInDate(id) {
					dates[strconv.Itoa(style)] = true
				}
				style++
			}
		case xml.EndElement:
			if e.Name.Local == "cellXfs" {
				return dates
			}
		}
	}
}

// builtInDate reports a number format of the standard that shows dates or
// times, in any language.
func builtInDate(id string) bool {
	n, err := strconv.Atoi(id)
	return err == nil && (14 <= n && n <= 22 || 27 <= n && n <= 36 || 45 <= n && n <= 47 || 50 <= n && n <= 58)
}

// asWritten are the literal pieces of a number format, and those in brackets,
// which are colours, languages and conditions.
var asWritten = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`"[^"]*"|\\.|_.|\*.|\[[^\]]*\]`) })

func showsDate(code string) bool {
	code = asWritten().ReplaceAllString(code, "")
	return !strings.EqualFold(code, "general") && strings.ContainsAny(strings.ToLower(code), "ymdhs")
}

// truthMessage says that a cell holds TRUE or FALSE.
const truthMessage = "is TRUE or FALSE, not a value; write what was measured or counted, or yes or no as text"

// dateMessage says that a spreadsheet program turned what was typed into a date.
const dateMessage = "is a date: spreadsheet programs turn 5-6 or 4.5 into one. Format the cell as text and enter the value again"
