package main

import (
	"bytes"
	"compress/gzip"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

const nhanesHead = "cycle,sex,age_years,stature,weight,arm_girth,waist,calf\n"

func TestReadNHANES(t *testing.T) {
	children, err := readNHANES(strings.NewReader(nhanesHead+
		"2005-2006,f,8,128.5,27.5,20.1,58.4,26\n"+
		"2015-2016,m,4,104,17,,0,\n"+
		"2015-2016,m,1,80,11,15,45,\n"+ // too young
		"2015-2016,m,5,,17,,,\n"), "nhanes.csv")
	require.NoError(t, err)
	require.Len(t, children, 2, "neither the infant nor the child without a height")
	require.Equal(t, []string{"2005-2006", "f"}, []string{children[0].cycle, children[0].sex})
	require.Equal(t, []float64{128.5, 27.5, 20.1, 58.4, 26}, []float64{children[0].height, children[0].value("weight"),
		children[0].value("upper_arm"), children[0].value("waist_navel"), children[0].value("calf")})
	require.True(t, math.IsNaN(children[0].value("chest")), "not examined")
	for _, id := range []string{"upper_arm", "waist_navel", "calf"} {
		require.True(t, math.IsNaN(children[1].value(id)), id)
	}
}

func TestReadNHANESRefuses(t *testing.T) {
	for name, tc := range map[string]struct{ file, want string }{
		"empty":  {"", "nhanes.csv:1: no header"},
		"column": {"cycle,sex\n", `nhanes.csv:1: the header has no column "age_years"`},
		"nobody": {nhanesHead, "no child of two years or more with a height"},
		"sex":    {nhanesHead + "2005-2006,x,8,128,27,20,58,26\n", `nhanes.csv:2:11: sex: "x"; want m or f`},
		"words":  {nhanesHead + "2005-2006,m,8,128,heavy,20,58,26\n", `weight: "heavy"; want a positive number`},
		"ragged": {nhanesHead + "2005-2006,m\n", "wrong number of fields"},
	} {
		_, err := readNHANES(strings.NewReader(tc.file), "nhanes.csv")
		require.ErrorContains(t, err, tc.want, name)
		var fault *data.Error
		require.ErrorAs(t, err, &fault, name)
	}
}

// The file may be packed.
func TestOpenNHANES(t *testing.T) {
	text := nhanesHead + "2005-2006,f,8,128.5,27.5,20.1,58.4,26\n"
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	_, err := z.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	dir := t.TempDir()
	plain, gz, bad := filepath.Join(dir, "a.csv"), filepath.Join(dir, "a.csv.gz"), filepath.Join(dir, "b.csv.gz")
	require.NoError(t, os.WriteFile(plain, []byte(text), 0o600))
	require.NoError(t, os.WriteFile(gz, packed.Bytes(), 0o600))
	require.NoError(t, os.WriteFile(bad, []byte(text), 0o600))
	for _, path := range []string{plain, gz} {
		children, err := openNHANES(path)
		require.NoError(t, err)
		require.Len(t, children, 1)
	}
	_, err = openNHANES(bad)
	require.ErrorContains(t, err, "b.csv.gz")
	_, err = openNHANES(filepath.Join(dir, "none.csv"))
	require.ErrorIs(t, err, os.ErrNotExist)
}

func TestBandLines(t *testing.T) {
	median := func(sex, id string, height float64) float64 { return map[string]float64{"weight": 20, "calf": 25}[id] }
	var children []child
	for i := range 400 {
		c := unmeasured(120)
		c.age = 8
		w := 0.3 * float64(i%21-10) / 10
		wobble := []float64{-0.03, -0.01, 0.01, 0.03}[i%4]
		c.values[variableIndex("weight")] = 20 * math.Exp(w)
		c.values[variableIndex("calf")] = 25 * math.Exp(0.04+0.5*w+wobble)
		if i == 7 {
			c.values[variableIndex("calf")] = 250 // a slip
		}
		children = append(children, c)
	}
	lines := bandLines(children, "m", "calf", median)
	require.Len(t, lines, 1, "bands with too few children have none")
	require.Equal(t, band{115, 130}, lines[0].band)
	require.Equal(t, 399, lines[0].n)
	require.InDelta(t, 0.5, lines[0].slope, 0.01)
	require.InDelta(t, 0.02, lines[0].shift, 0.001, "half of the shift is taken")
	require.InDelta(t, math.Sqrt(0.0005+0.02*0.02), lines[0].rest, 0.001, "the rest holds the other half")
}

func TestThirds(t *testing.T) {
	median := func(sex, id string, height float64) float64 { return 20 }
	var children []child
	for i := range 9 {
		c := unmeasured(120)
		c.values[variableIndex("weight")] = float64(30 - i)
		children = append(children, c)
	}
	children = append(children, unmeasured(120))
	require.Equal(t, []string{"heavy", "heavy", "heavy", "middle", "middle", "middle", "thin", "thin", "thin", ""}, thirdsOf(children, median))
}
