//go:build libreoffice

package workbook_test

import (
	"bytes"
	"fmt"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/sizing/plan"
	"growtuck/testdata/samples"
)

// From a child to finished measurements and counts, by LibreOffice from our own
// workbook and by the engine. LibreOffice takes seconds to start, so a workbook
// costs what many take longer than one. It opens and writes the file too.
func BenchmarkLibreOfficeRecalculates(b *testing.B) {
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		b.Skip("LibreOffice is not installed; apt-get install libreoffice-calc-nogui")
	}
	dir := b.TempDir()
	r := usual("one-piece-hooded", "cm")
	f, err := excelize.OpenReader(bytes.NewReader(r.xlsx(b)))
	require.NoError(b, err)
	require.NoError(b, f.UpdateLinkedValue())
	const many = 21
	var paths []string
	for i := range many {
		paths = append(paths, filepath.Join(dir, fmt.Sprintf("%d.xlsx", i)))
		require.NoError(b, f.SaveAs(paths[i]))
	}
	require.NoError(b, f.Close())
	convert := func(paths []string) time.Duration {
		start := time.Now()
		args := append([]string{"-env:UserInstallation=file://" + dir + "/profile", "--headless", "--convert-to", "csv", "--outdir", dir}, paths...)
		out, err := exec.Command(soffice, args...).CombinedOutput()
		require.NoError(b, err, "%s", out)
		return time.Since(start)
	}
	convert(paths[:1]) // makes the profile
	ref := samples.Reference(b)
	for b.Loop() {
		one, all := convert(paths[:1]), convert(paths)
		start := time.Now()
		const rounds = 200
		for range rounds {
			body, err := ref.Estimate(r.child)
			require.NoError(b, err)
			finished, err := ref.Finish(body, r.making)
			require.NoError(b, err)
			_, err = plan.Make(finished, r.how)
			require.NoError(b, err)
		}
		engine := time.Since(start) / rounds
		book := (all - one) / (many - 1)
		b.ReportMetric(float64(book.Microseconds())/1000, "LibreOffice-ms/child")
		b.ReportMetric(float64(engine.Microseconds())/1000, "engine-ms/child")
		b.ReportMetric(float64(book)/float64(engine), "ratio")
	}
}
