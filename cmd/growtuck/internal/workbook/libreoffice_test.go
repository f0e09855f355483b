//go:build libreoffice

package workbook_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/testdata/samples"
)

// LibreOffice works the same numbers out. It trusts values that are stored, so
// it is given copies without them.
func TestLibreOfficeAgrees(t *testing.T) {
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("LibreOffice is not installed; apt-get install libreoffice-calc-nogui")
	}
	ref := samples.Reference(t)
	dir := t.TempDir()
	type made struct {
		name string
		r    request
		own  map[string]float64
	}
	var all []made
	var paths []string
	for _, g := range garments {
		for i, ch := range changes {
			if i > 0 && g != "one-piece-hooded" && g != "hat" && g != "trousers" {
				continue
			}
			r := usual(g, "cm")
			f, err := excelize.OpenReader(bytes.NewReader(r.xlsx(t)))
			require.NoError(t, err)
			ch.ask(&r)
			own := applied(t, ref, f, ch, &r)
			require.NoError(t, f.UpdateLinkedValue())
			name := fmt.Sprintf("%s_%d", g, i)
			paths = append(paths, filepath.Join(dir, name+".xlsx"))
			require.NoError(t, f.SaveAs(paths[len(paths)-1]))
			require.NoError(t, f.Close())
			all = append(all, made{name, r, own})
		}
	}
	args := append([]string{"-env:UserInstallation=file://" + dir + "/profile", "--headless", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", "--outdir", dir}, paths...)
	out, err := exec.Command(soffice, args...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	for _, m := range all {
		t.Run(m.name, func(t *testing.T) {
			planned := usual(m.r.garment, "cm").content(t).Plan
			sheets := make(map[string][][]string)
			agree(t, ref, m.r, planned, m.own, func(sheet, cell string) (string, error) {
				if sheets[sheet] == nil {
					raw, err := os.ReadFile(filepath.Join(dir, m.name+"-"+sheet+".csv"))
					if err != nil {
						return "", err
					}
					r := csv.NewReader(bytes.NewReader(raw))
					r.FieldsPerRecord = -1
					if sheets[sheet], err = r.ReadAll(); err != nil {
						return "", err
					}
				}
				col, row, err := excelize.CellNameToCoordinates(cell)
				if err != nil || row > len(sheets[sheet]) {
					return "", fmt.Errorf("no row %d: %w", row, err)
				}
				return strings.TrimSpace(sheets[sheet][row-1][col-1]), nil
			})
		})
	}
}

// A suit's workbook is printed on a dozen pages at most: what is to work from, and what
// is to fill in.
func TestPrintedPages(t *testing.T) {
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("LibreOffice is not installed; apt-get install libreoffice-calc-nogui")
	}
	dir := t.TempDir()
	for _, unit := range []string{"cm", "in"} {
		file := filepath.Join(dir, unit+".xlsx")
		require.NoError(t, os.WriteFile(file, usual("one-piece-hooded", unit).xlsx(t), 0o600))
		out, err := exec.Command(soffice, "-env:UserInstallation=file://"+dir+"/profile", "--headless", "--convert-to", "pdf", "--outdir", dir, file).CombinedOutput()
		require.NoError(t, err, "%s", out)
		pdf, err := os.ReadFile(filepath.Join(dir, unit+".pdf"))
		require.NoError(t, err)
		pages := len(regexp.MustCompile(`/Type\s*/Page[^s]`).FindAll(pdf, -1))
		require.Positive(t, pages)
		require.LessOrEqual(t, pages, 12)
	}
}
