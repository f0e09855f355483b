// Command links does nothing, with every module linked that growtuck links: what is
// left between the two is growtuck's own. Without arguments it ends at once; the code
// below keeps the linker from leaving the modules out.
package main

import (
	"encoding/csv"
	"encoding/json"
	"html/template"
	"image"
	"image/png"
	"net/http"
	"os"
	"regexp"

	"github.com/go-playground/validator/v10"
	"github.com/spf13/cobra"
	"github.com/xuri/excelize/v2"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/vector"
	"golang.org/x/term"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"rsc.io/qr"
)

func main() {
	if len(os.Args) < 2 {
		return
	}
	book, _ := excelize.OpenFile(os.Args[1])
	book.CalcCellValue("a", "A1")
	book.AddChart("a", "A1", &excelize.Chart{})
	book.SetConditionalFormat("a", "a", nil)
	book.Write(os.Stdout)
	validator.New().Struct(book)
	(&cobra.Command{}).Execute()
	opentype.Parse(goregular.TTF)
	opentype.Parse(gobold.TTF)
	vector.NewRasterizer(1, 1)
	term.IsTerminal(0)
	charmap.Windows1252.NewDecoder()
	unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewDecoder()
	qr.Encode("", 0)
	csv.NewReader(os.Stdin).Read()
	json.NewEncoder(os.Stdout).Encode(book)
	page, _ := template.New("").Parse(os.Args[1])
	page.Execute(os.Stdout, book)
	png.Encode(os.Stdout, image.NewRGBA(image.Rect(0, 0, 1, 1)))
	http.ListenAndServe(os.Args[1], nil)
	regexp.MustCompile(os.Args[1])
}
