package main

import (
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/bounded"
	"growtuck/testdata/proof"
)

// No address makes the page fail.
func FuzzPage(f *testing.F) {
	h := pageHandler(f)
	for _, seed := range []string{makerQuery, suitQuery + "&craft=knit&gauge=20x28/10cm", "sizes=3,4&chart=craft-head&curve=chest", "%zz;&=&&", "height=NaN&chest=Inf&weight=1e999", "size=-1&growth=-0&extra.chest=-900", "stretch=neck=&multiple=999999999n+7&stitches=1e-300&rows=0x10"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, query string) {
		defer bounded.By(t, 512<<20)()
		requireNoFailure(t, h, query)
	})
}

func requireNoFailure(t testing.TB, h http.Handler, query string) {
	t.Helper()
	for _, path := range []string{"/", "/sizes", "/files/draft.csv", "/api/size", "/api/profile", "/api/garment", "/api/plan", "/api/draw"} {
		u := url.URL{Scheme: "http", Host: "127.0.0.1:8474", Path: path, RawQuery: query}
		r := &http.Request{Method: http.MethodGet, URL: &u, Host: u.Host, Header: http.Header{}, Body: http.NoBody}
		w := &answer{header: http.Header{}, status: http.StatusOK}
		h.ServeHTTP(w, r)
		require.Less(t, w.status, 500, "%s?%s", path, query)
		if path == "/" || path == "/sizes" {
			require.NotContains(t, w.body.String(), "ZgotmplZ")
			require.NotContains(t, w.body.String(), "NaN ")
		}
	}
}

// Random entries, right and wrong, never make it fail.
func TestPageTakesAnything(t *testing.T) {
	h := pageHandler(t)
	rnd := rand.New(rand.NewPCG(1, 2))
	ref, err := sizing.Default()
	require.NoError(t, err)
	fields := []string{"tape", "sex", "age", "size", "widths", "lengths", "garment", "fit", "layer", "nappy", "growth", "option", "craft", "stitches", "rows", "over", "rib-stitches", "rib-rows",
		"before-stitches", "before-rows", "yoke", "multiple", "stretch", "hood", "closure", "turned", "yarn", "swatch", "extra.chest", "extra.sleeve_length", "chart", "sizes", "curve", "set", "gauge"}
	values := []string{"", "in", "cm", "m", "4y6m", "3", "5.5", "18m", "104cm", "one-piece-hooded", "hat", "loose", "winter", "yes", "2", "tunic", "knit", "16", "18,5", "4in", "raglan", "drop-shoulder",
		"6n+2", "1.5", "neck=1.4", "centre-panel", "buttons", "50g 125m", "10x10cm 4g", "-2", "0", "1e9", "NaN", "Inf", "½", "9 3/4", "9/0", "300", "0.001", "<b>", "\x00", "ÿ", strings.Repeat("9", 400), "craft-foot", "measured", "3,4,5", "16x18/10cm", "chest=53"}
	for _, m := range ref.Measurements() {
		fields = append(fields, m.ID, m.ID) // often measured
	}
	tries := 60
	if proof.Whole() {
		tries = 600
	}
	for range tries {
		q := url.Values{}
		for range rnd.IntN(14) {
			q.Add(fields[rnd.IntN(len(fields))], values[rnd.IntN(len(values))])
		}
		if rnd.IntN(2) == 0 {
			q.Set("height", fmt.Sprint(50+rnd.IntN(120)))
		}
		requireNoFailure(t, h, q.Encode())
	}
}

func BenchmarkPageEdit(b *testing.B) {
	h := pageHandler(b)
	for i := 0; b.Loop(); i++ {
		r := fetch(h, http.MethodGet, fmt.Sprintf("/?%s&waist=5%d", makerQuery, i%10), "")
		if r.StatusCode != http.StatusOK {
			b.Fatal(r.Status)
		}
	}
}
