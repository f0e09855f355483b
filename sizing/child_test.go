package sizing_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/testdata/bounded"
)

func TestReadChild(t *testing.T) {
	c, err := reference(t).ReadChild(strings.NewReader("\ufeff# measured on Sunday\r\nmeasurement,value,unit\r\nname,Ida,\r\nsex,f,\r\nage,4y6m,\r\nheight,43 1/2,in\r\nchest,\"53,5\",cm\r\nweight,37,lb\r\nhip,,cm\r\n"), "ida.csv")
	require.NoError(t, err)
	require.Equal(t, "Ida", c.Name)
	require.Equal(t, sizing.Girl, c.Sex)
	require.Equal(t, 4.5, c.AgeYears)
	require.InDelta(t, 110.49, c.Own["height"], 1e-9)
	require.InDelta(t, 53.5, c.Own["chest"], 1e-9)
	require.InDelta(t, 16.783, c.Own["weight"], 1e-3)
	require.NotContains(t, c.Own, "hip")
}

// Every fault is found in one run, at its place.
func TestReadChildFaults(t *testing.T) {
	_, err := reference(t).ReadChild(strings.NewReader("measurement,value,unit\nchset,53,cm\nhip,fifty,cm\nwaist,50,stone\nhip,55,cm\nneck,-3,cm\nage,999,\nsex,x,\n"), "child.csv")
	require.Error(t, err)
	require.Equal(t, strings.Join([]string{
		`child.csv:2:1: unknown measurement "chset"; did you mean "chest"?`,
		`child.csv:3:5: hip: "fifty" is not a measurement; write it as 24.5, 24.5 cm or 9 3/4 in`,
		`child.csv:4:10: waist: "50": "stone" is not a unit of length; use cm, mm, m, in or ft`,
		`child.csv:5:1: hip is given again; the first is on line 3`,
		`child.csv:6:6: neck: "-3": must be greater than 0`,
		`child.csv:7:5: age: age "999" is not between 0 and 20 years`,
		`child.csv:8:5: sex: sex "x" is not one of m, f, both`,
	}, "\n"), err.Error())
	var first *data.Error
	require.ErrorAs(t, err, &first)

	for name, text := range map[string]string{
		"empty":           "",
		"no header":       "chest,53,cm\n",
		"unclosed quote":  "measurement,value,unit\nchest,\"53,cm\n",
		"one field":       "measurement,value,unit\nchest\n",
		"far too long":    "measurement,value,unit\n" + strings.Repeat("chest,53,cm\n", 200000),
		"not a number":    "measurement,value,unit\nchest,NaN,cm\n",
		"infinite":        "measurement,value,unit\nchest,+Inf,cm\n",
		"huge":            "measurement,value,unit\nchest,530000,cm\n",
		"weight in cm":    "measurement,value,unit\nweight,16,cm\n",
		"only a comment":  "# nothing\n",
		"chest in kg":     "measurement,value,unit\nchest,53,kg\n",
		"a remark":        "measurement,value,unit\nchest,53,cm,but over a jumper\n",
		"a comma":         "measurement,value,unit\nheight,104,5,cm\n",
		"another unit":    "measurement,value,unit\nheight,110.5 cm,in\n",
		"another age":     "measurement,value,unit\nage,18 mo,years\n",
		"a formula":       "measurement,value,unit\nchest,=1+1,cm\n",
		"age in stone":    "measurement,value,unit\nage,4,stone\n",
		"age not a thing": "measurement,value,unit\nage,four,\n",
	} {
		_, err := reference(t).ReadChild(strings.NewReader(text), "child.csv")
		require.ErrorContains(t, err, "child.csv", name)
	}
}

// The same child, as people and programs save a table.
func TestChildAsItIsSaved(t *testing.T) {
	const plain = "measurement,value,unit\nname,Zoë,\nsex,f,\nage,4y6m,\nheight,110.5,cm\nchest,53.5,cm\n"
	ref := reference(t)
	want, err := ref.ReadChild(strings.NewReader(plain), "z")
	require.NoError(t, err)
	for name, text := range map[string]string{
		"mark and CR LF":          "\ufeff" + strings.ReplaceAll(plain, "\n", "\r\n"),
		"CR":                      strings.ReplaceAll(plain, "\n", "\r"),
		"no last line end":        strings.TrimSpace(plain),
		"UTF-16 LE":               "\xff\xfe" + utf16Text(plain, 0, 1),
		"UTF-16 BE":               "\xfe\xff" + utf16Text(plain, 1, 0),
		"UTF-16 without a mark":   utf16Text(plain, 0, 1),
		"UTF-16 and CR LF":        "\xff\xfe" + utf16Text(strings.ReplaceAll(plain, "\n", "\r\n"), 0, 1),
		"tabs":                    strings.ReplaceAll(plain, ",", "\t"),
		"semicolons and commas":   strings.ReplaceAll(strings.ReplaceAll(plain, ",", ";"), ".5", ",5"),
		"the separator is said":   "sep=;\r\n" + strings.ReplaceAll(plain, ",", ";"),
		"titles in capitals":      strings.Replace(plain, "measurement,value,unit", " Measurement ,VALUE, Unit ", 1),
		"titles in another order": "unit,value,measurement\n,Zoë,name\n,f,sex\n,4y6m,age\ncm,110.5,height\ncm,53.5,chest\n",
		"a column of remarks":     "measurement,value,unit,remark\nname,Zoë,,\nsex,f,,\nage,4½,,about\nheight,110.5,cm,\nchest,53.5,cm,over a shirt\n",
		"no column of units":      "measurement,value\nname,Zoë\nsex,girl\nage,4;6\nheight,1.105 m\nchest,53.5\n",
		"names in words":          "measurement,value,unit\nName,Zoë,\nSex,F,\nAge,4½ years,\nHeight,１１０．５,cm\nChest girth,53 1⁄2,CM\n",
		"feet and inches":         "measurement,value,unit\nname,Zoë,\nsex,f,\nage,4y6m,\nheight,3'7 1/2\",in\nchest,53.5,cm\n",
	} {
		got, err := ref.ReadChild(strings.NewReader(text), "z")
		require.NoError(t, err, name)
		require.InDelta(t, want.Own["height"], got.Own["height"], 0.05, name)
		got.Own["height"] = want.Own["height"]
		got.Where = want.Where
		require.Equal(t, want, got, name)
	}
	_, err = ref.ReadChild(strings.NewReader(strings.Replace(plain, "ë", "\xeb", 1)), "z.csv")
	require.EqualError(t, err, `z.csv:2: is not in UTF-8; in Latin-1 it reads "name,Zoë,"; save it in UTF-8`)
	_, err = ref.ReadChild(strings.NewReader("measurement,value,unit\nheight,110,5,cm\n"), "z.csv")
	require.EqualError(t, err, `z.csv:2:14: "cm" has no column: the header has 3; a number with a comma is quoted: "110,5"`)
	_, err = ref.ReadChild(strings.NewReader("measurement,value,unit\n"+strings.Repeat("hips,1,cm\n", 1000)), "z.csv")
	require.Equal(t, 101, strings.Count(err.Error(), "\n")+1)
	require.ErrorContains(t, err, "\nz.csv: and 900 more")
}

// utf16Text is a text in UTF-16, its two bytes shifted as told.
func utf16Text(s string, low, high int) string {
	var b []byte
	for _, r := range s {
		two := [2]byte{}
		two[low], two[high] = byte(r), byte(r>>8)
		b = append(b, two[:]...)
	}
	return string(b)
}

func FuzzReadChild(f *testing.F) {
	f.Add("measurement,value,unit\nheight,110,cm\nchest,53,cm\nsex,m,\nage,4.5,\n")
	f.Add("measurement,value,unit\nheight,43 1/2,in\nweight,37,lb\n# x\n\"a\n")
	ref, err := sizing.Default()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		defer bounded.By(t, 8<<20)()
		c, err := ref.ReadChild(strings.NewReader(text), "f")
		if err != nil {
			return
		}
		chart, _ := ref.Chart("child")
		if _, err := ref.Profile(chart, c); err != nil {
			t.Error(err)
		}
		b, err := ref.Estimate(c)
		if err != nil {
			return
		}
		for _, r := range b.Readings {
			if !(r.Value > 0) {
				t.Errorf("%s estimated at %g", r.Measurement.ID, r.Value)
			}
		}
	})
}
