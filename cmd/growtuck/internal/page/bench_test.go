package page

import (
	"net/http"
	"net/http/httptest"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/testdata/samples"
)

// BenchmarkEdit is the server's time for an edit: the parts of a view that an entry changes.
func BenchmarkEdit(b *testing.B) {
	h, err := New(Engine{Reference: samples.Reference(b), Version: tell.Version{Program: "bench"}, Tables: nil}, Options{})
	require.NoError(b, err)
	for name, address := range map[string]string{
		"maker": "/?sex=m&age=22m&height=89.5&chest=50.5&garment=one-piece-hooded&layer=winter&growth=1&stitches=16&rows=18&hip=",
		"sizes": "/sizes?sizes=2,3,4.5,104cm,6&garment=one-piece-hooded&stitches=16&rows=18&fit=classic&extra.chest=",
	} {
		b.Run(name, func(b *testing.B) {
			n := 0
			for b.Loop() {
				n++
				r := httptest.NewRequest(http.MethodGet, "http://localhost"+address+strconv.FormatFloat(50+float64(n%100)/10, 'f', 1, 64), nil)
				r.Header.Set(shownHeader, "r-bar=x")
				r.Header.Set("Accept-Encoding", "gzip")
				w := httptest.NewRecorder()
				h.ServeHTTP(w, r)
				require.Equal(b, http.StatusOK, w.Code)
			}
		})
	}
}
