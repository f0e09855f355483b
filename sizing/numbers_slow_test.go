package sizing

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/unicode/norm"
)

// Every unit by every name that it has, by what it is (International System of Units;
// international yard and pound agreement, 1959): a foot is twelve inches, a stone fourteen
// pounds, a pound sixteen ounces.
func TestUnitsAreWhatTheyAre(t *testing.T) {
	for names, v := range map[string]float64{
		"cm, cms, centimetre, centimetres, centimeter, centimeters": 1, "mm, millimetre, millimetres, millimeter, millimeters": 0.1,
		"m, metre, metres, meter, meters": 100, `in, in., ins, inch, inches, ", ''`: 2.54, "ft, ft., foot, feet, '": 30.48,
	} {
		for _, name := range strings.Split(names, ", ") {
			for _, text := range []string{"3 " + name, "3" + name, "3 " + strings.ToUpper(name)} {
				got, err := ParseLength(text, "kg")
				require.NoError(t, err, text)
				require.InDelta(t, 3*v, float64(got), 1e-9, text)
			}
		}
	}
	for names, v := range map[string]float64{"kg, kgs, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes": 1, "g, gr, gram, grams, gramme, grammes": 0.001,
		"lb, lbs, pound, pounds": 0.45359237, "oz, ounce, ounces": 0.028349523125, "st, stone, stones": 6.35029318} {
		for _, name := range strings.Split(names, ", ") {
			got, err := ParseMeasured("kg", "3 "+name, "")
			require.NoError(t, err, name)
			require.InDelta(t, 3*v, got, 1e-9, name)
		}
	}
	for names, v := range map[string]float64{
		"y, yr, yrs, year, years, yo, y.o., years old, year old, year-old, years-old, yrs old, Y": 1,
		"m, mo, mos, mth, mths, mon, month, months, months old":                                   1. / 12, "w, wk, wks, week, weeks, weeks old": 7 / 365.25, "d, day, days": 1 / 365.25,
	} {
		for _, name := range strings.Split(names, ", ") {
			got, err := parseAge("3 "+name, "")
			require.NoError(t, err, name)
			require.InDelta(t, 3*v, got, 1e-9, name)
			got, err = parseAge("3", name) // beside it
			require.NoError(t, err, name)
			require.InDelta(t, 3*v, got, 1e-9, name)
		}
	}
}

// What is read is what was written, in whatever way people write it.
func TestWrittenAmountsAreReadBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 1))
	for range 1500 {
		n, d := rng.IntN(8), []int{2, 3, 4, 8, 16}[rng.IntN(5)]
		whole := 1 + rng.IntN(60)
		tenths := rng.IntN(10)
		ft, in := 1+rng.IntN(5), rng.IntN(12)
		blank := []string{"", " "}[rng.IntN(2)]
		sep := []string{".", ","}[rng.IntN(2)]
		tests := []struct {
			text string
			want float64
		}{
			{fmt.Sprintf("%d%s%d%scm", whole, sep, tenths, blank), float64(whole) + float64(tenths)/10},
			{fmt.Sprintf("%s%d%scm", sep, tenths, blank), float64(tenths) / 10},
			{fmt.Sprintf("%d%s%smm", whole, sep, blank), float64(whole) / 10},
			{fmt.Sprintf("%d ft%s%d in", ft, blank, in), 30.48*float64(ft) + 2.54*float64(in)},
			{fmt.Sprintf("%d'%s%d\"", ft, blank, in), 30.48*float64(ft) + 2.54*float64(in)},
			{fmt.Sprintf("%d ft, %d", ft, in), 30.48*float64(ft) + 2.54*float64(in)},
			{fmt.Sprintf("%d feet and %d inches", ft, in), 30.48*float64(ft) + 2.54*float64(in)},
			{fmt.Sprintf("%d m %d cm", ft, whole), float64(100*ft + whole)},
			{fmt.Sprintf("%dm%02d", ft, whole), float64(100*ft + whole)},
			{fmt.Sprintf("%d m %d mm", ft, tenths), float64(100*ft) + float64(tenths)/10},
			{fmt.Sprintf("%d cm%s%d mm", whole, blank, tenths), float64(whole) + float64(tenths)/10},
		}
		if n > 0 && n < d {
			part := float64(n) / float64(d)
			for _, text := range []string{"%d %d/%d in", "%d-%d/%d in", "%d  %d / %d in", "%d %d/%d\""} {
				tests = append(tests, struct {
					text string
					want float64
				}{fmt.Sprintf(text, whole, n, d), 2.54 * (float64(whole) + part)})
			}
			tests = append(tests, struct {
				text string
				want float64
			}{fmt.Sprintf("%d/%d in", n, d), 2.54 * part})
		}
		tt := tests[rng.IntN(len(tests))]
		sign := 1.0
		switch rng.IntN(5) {
		case 0:
			tt.text, sign = "-"+tt.text, -1
		case 1:
			tt.text = "+" + tt.text
		}
		got, err := ParseLength(tt.text, "")
		require.NoError(t, err, tt.text)
		require.InDelta(t, sign*tt.want, float64(got), 1e-9, tt.text)
	}
}

// What is just within each bound is read, and what is just past it is not: there are
// 12 inches in a foot, 100 cm in a metre and so on; amounts end at ten metres, or for what
// is measured at millimetres taken for centimetres; a metre and one digit may be either of
// two; after a part there is no larger one, and only the last has decimals.
func TestBoundsOfWhatIsRead(t *testing.T) {
	long := strings.Repeat("0", 38)
	for text, want := range map[string]float64{
		"3 ft 11.9 in": 121.666, "3 ft 12 in": -1, "3 ft 12": -1, "1 m 99 cm": 199, "1 m 100 cm": -1, "110 cm 9 mm": 110.9, "110 cm 10 mm": -1,
		"1m9": -1, "1m09": 109, "1m10": 110, "1m0": 100, "1 m 9 cm": 109, "1.5 m 10 cm": -1, "1.0 m 10 cm": 110, "5 cm 2 ft": -1, "5 in 2 ft": -1, "2 ft 3 ft": -1, "3 ft 7 in 5": -1,
		"5 mm 3": -1, "3 in 4 mm": -1, "1 ft 4 cm": -1, "2 m 5 mm": 200.5, "2 m 3 in": -1, "1000": 1000, "1000.01": -1, "-1000.01": -1, long + "53": 53, long + "053": -1,
		"4/4 in": -1, "3/4 in": 1.905, "5/4 in": -1, "1/0 in": -1, "9 3/4/5 in": -1, "1.5/2 in": -1, "1 1.5/2 in": -1, "a 1/2 in": -1, "1.5 1/2 in": -1, "5..5": -1, "5.,5": -1, ".": -1, "5 . 5": -1, "12.": 12, "5.": 5, "5, cm": 5, "12. cm": 12, "12, cm": 12, "12.cm": 12,
		"3 ft .5 in": 92.71, "3 ft 0.5": 92.71, "3 ft. 5": 104.14, "3 ft ,5 in": 92.71, "2 kg": -1, "- 5": -5, "+ 5": 5, "+-5": -1, "-+5": -1, "5-": 5, "5 &": 5,
	} {
		got, err := ParseLength(text, "cm")
		if want == -1 {
			require.Error(t, err, text)
			continue
		}
		require.NoError(t, err, text)
		require.InDelta(t, want, float64(got), 1e-9, text)
	}
	for text, want := range map[string]float64{
		"5 lb 15 oz": 5.9375 * 0.45359237, "5 lb 16 oz": -1, "5 st 13": 83 * 0.45359237, "5 st 14": -1, "16 kg 999 g": 16.999, "16 kg 1000 g": -1, "2 st 3 oz": -1, "3 cm": -1,
		"200000": 200000, "200000.1": -1, "-200000": -200000, "-200000.1": -1,
	} {
		got, err := ParseMeasured("kg", text, "kg")
		if want == -1 {
			require.Error(t, err, text)
			continue
		}
		require.NoError(t, err, text)
		require.InDelta(t, want, got, 1e-9, text)
	}
	for text, want := range map[string]float64{
		"4y11m": 4 + 11./12, "4y12m": -1, "3m4w": 0.25 + 28/365.25, "3m5w": -1, "2w6d": 20 / 365.25, "2w7d": -1, "4;11": 4 + 11./12, "4;12": -1, "4:6": 4.5, "4;6;3": -1, "4;6.5": -1, "4;": -1, "1.5y 6m": -1, "1.0y 6m": 1.5,
		"6m 1y": -1, "1y 1y": -1, "1y 2w": 1 + 14/365.25, "3d 4": -1, "4 5": -1, "240": 240, "241": -1, "0": -1, "-1": -1, "0y1m": 1. / 12, "4y6": 4.5, "4y6m3": 4.5 + 21/365.25,
	} {
		got, err := parseAge(text, "")
		if want == -1 {
			require.Error(t, err, text)
			continue
		}
		require.NoError(t, err, text)
		require.InDelta(t, want, got, 1e-9, text)
	}
	for _, tt := range []struct {
		text, unit string
		want       error
	}{{"4y", "months", &BesideError{"4y", "years", "months"}}, {"18m", "years", &BesideError{"18m", "months", "years"}}, {"4y6m", "m", nil}, {"4y6m", "Y", nil}, {"4;6", "m", nil}, {"4;6", "w", &BesideError{"4;6", "years", "weeks"}}} {
		_, err := parseAge(tt.text, tt.unit)
		if tt.want == nil {
			require.NoError(t, err, tt.text)
		} else {
			require.EqualError(t, err, "age "+tt.want.Error())
		}
	}
	_, err := parseAge("4", "cm")
	require.ErrorContains(t, err, "is not years or months")
	for _, tt := range []struct {
		text, unit string
		want       string
	}{{"53 cm", "in", "has the unit cm, and in is beside it"}, {"53", "in", ""}, {"5 ft 3", "in", ""}, {"5 ft 3", "ft", ""}, {"53 cm", " CM ", ""}, {"53 cm", "furlong", ""}, {"53 kg", "cm", "not a unit of length"}, {"53", "kg", `"kg" is not a unit of length; use cm, mm, m, in or ft`}, {"53", "", `"" is not a unit of length`}} {
		v, err := ParseBeside("cm", tt.text, tt.unit)
		if tt.want == "" {
			require.NoError(t, err, tt.text)
			require.Positive(t, v)
		} else {
			require.ErrorContains(t, err, tt.want)
			require.Zero(t, v)
		}
	}
	_, err = ParseMeasured("kg", "5 ft", "kg")
	require.EqualError(t, err, `"5 ft": "ft" is not a unit of weight; use kg, g, lb, oz or st`)
	for text, want := range map[string]string{"53 cn": "use cm, mm, m, in or ft", "53 cmn": "did you mean cm?", "53 inche": "did you mean in?", "53 kgx": "use cm, mm", "53 qqqqq": "use cm, mm"} {
		_, err := ParseLength(text, "cm")
		require.ErrorContains(t, err, want, text)
	}
	for text, want := range map[string]float64{"24.5": 24.5, "-3": -3, "9 3/4": 9.75, "+7": 7, "½": 0.5} {
		v, err := ParseNumber(text)
		require.NoError(t, err)
		require.Equal(t, want, v)
	}
	for _, text := range []string{"3 cm", "", "3 4 x", "3 ft 4"} {
		_, err := ParseNumber(text)
		require.ErrorAs(t, err, new(*UnreadError), text)
	}
	for word, want := range map[string]string{" Inches ": "in", "Years": "years", "mos.": "months", "cm.": "cm", "Furlong": "Furlong", "STONE": "st", "M": "m"} {
		require.Equal(t, want, UnitName(word))
	}
}

// Digits of every script are figures: in each the ten stand in their order (The Unicode
// Standard, 4.6). Fractions, raised, lowered and wide letters are what their compatibility
// decomposition says (Unicode Standard Annex 15).
func TestFiguresOfEveryScript(t *testing.T) {
	run := 0
	for r := rune(0x80); r <= unicode.MaxRune; r++ {
		if !unicode.Is(unicode.Nd, r) {
			run = 0
			continue
		}
		require.Equal(t, string(rune('0'+run%10)), PlainFigures(string(r)), "%U", r)
		run++
	}
	for _, r := range "¼½¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘⅙⅚⅐⅑⅒⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉！＂＃％＋．／０５９：ＡＺａｚ～㎝㎜㎏" {
		want := strings.ReplaceAll(norm.NFKC.String(string(r)), "⁄", "/")
		require.Equal(t, want, PlainFigures(string(r)), "%c", r)
		if strings.ContainsRune("¼½⅔⅒⁰¹²⁹", r) { // a whole number before it stays one
			require.Equal(t, "4 "+want, PlainFigures("4"+string(r)))
			require.Equal(t, "0 "+want, PlainFigures("0"+string(r)))
			require.Equal(t, "9 "+want, PlainFigures("9"+string(r)))
			require.Equal(t, "a"+want, PlainFigures("a"+string(r)))
			require.Equal(t, ":"+want, PlainFigures(":"+string(r)))
			require.Equal(t, "/"+want, PlainFigures("/"+string(r)))
			require.Equal(t, want+want, PlainFigures(string(r)+string(r)))
			require.Equal(t, "cm"+want, PlainFigures("㎝"+string(r)))
		}
	}
	for text, want := range map[string]string{"1\u00a02": "1 2", "1\u20092": "1 2", "‐‑–—−": "-----", "3’7”": `3'7"`, "1⁄2": "1/2", "1٬000": "1000", "\u200e5": "5", "é": "é", "plain ~ text": "plain ~ text", "\x7f": "\x7f", "½\u007f": "1/2\u007f", "\u0085x": " x"} {
		require.Equal(t, want, PlainFigures(text), "%q", text)
	}
}

// The fewest letters to insert, delete or replace (Levenshtein, Soviet Physics Doklady 10,
// 1966), found by trying all ways. What is nearest takes the fewest, and at most a third of
// the letters.
func TestNearestByTryingAllWays(t *testing.T) {
	var ways func(a, b string) int
	ways = func(a, b string) int {
		if a == "" || b == "" {
			return len(a) + len(b)
		}
		least := ways(a[1:], b[1:])
		if a[0] != b[0] {
			least++
		}
		return min(least, ways(a[1:], b)+1, ways(a, b[1:])+1)
	}
	rng := rand.New(rand.NewPCG(21, 1))
	word := func() string {
		b := make([]byte, 1+rng.IntN(6))
		for i := range b {
			b[i] = "abc"[rng.IntN(3)]
		}
		return string(b)
	}
	for range 500 {
		a, b := word(), word()[1:]
		require.Equal(t, ways(a, b), distance(a, b), "%q %q", a, b)
		known := []string{word(), word(), word()}
		want, least := "", 99
		for _, k := range known {
			if d := ways(a, k); d < least && (d <= 1 || 3*d <= len(k)+1) {
				want, least = k, d
			}
		}
		require.Equal(t, want, Nearest(a, known), "%q %q", a, known)
	}
	for _, tt := range []struct{ name, known, want string }{
		{"Upper Arm", "upper_arm", "upper_arm"}, {"upper-arm", "upper_arm", "upper_arm"}, {"x", "ab", ""}, {"xb", "ab", "ab"}, {"xyc", "abc", ""}, {"xycde", "abcde", "abcde"}, {"xyzde", "abcde", ""}, {"xyzdefgh", "abcdefgh", "abcdefgh"},
		{strings.Repeat("a", 100), strings.Repeat("a", 100), strings.Repeat("a", 100)}, {strings.Repeat("a", 101), strings.Repeat("a", 101), ""},
	} {
		require.Equal(t, tt.want, Nearest(tt.name, []string{tt.known}), tt.name)
	}
	for names, want := range map[string]string{"": "", "chest": "chest", "chest,waist": "chest and waist", "chest,waist,hip": "chest, waist and hip"} {
		var list []string
		if names != "" {
			list = strings.Split(names, ",")
		}
		require.Equal(t, want, listed(list))
	}
}

// What cannot be read is answered with what was likely meant, if that can be read: what
// says little is left out, letters typed for digits are digits, thousands are put together,
// a range has a middle.
func TestWhatWasLikelyMeant(t *testing.T) {
	for text, want := range map[string]string{
		"about 53": "53", "53 (in shoes)": "53", "(53)": "53", "≈53 cm": "53 cm", "53 or so": "53", "53ish": "53", "c. 53": "53", "53 ?!": "53", "height = 53": "53", "height: 53 cm est.": "53 cm", "'53'": "53", "[53]": "53",
		"11O": "110", "O.5": "0.5", "24,O": "24,0", "l10": "110", "I10": "110", "1|0": "110", "5o": "50", "ol": "", "1.1e2": "110", "1.1E+2": "110", "2e5": "200000", "5e-1": "0.5", "1e2x": "",
		"1.105,5": "1105.5", "1,105.5": "1105.5", "1_105": "1105", "1'105": "1105", "1 105.5": "1105.5", "1 105": "1105", "10 05": "", "1 10": "", "43+1/2": "43 1/2", "110-112": "111", "110 to 112 cm": "111 cm", "110 - 113": "111.5", "112-110": "", "5-11": "", "5-10": "7.5", "5-5": "",
		"n/a": "nothing where it was not taken", "NONE": "nothing where it was not taken", " -- ": "nothing where it was not taken", "fifty": "", "~ ": "",
		strings.Repeat("~", 78) + "53": "53", strings.Repeat("~", 79) + "53": "",
	} {
		got := likeliest(text, func(s string) bool { _, err := parseDigitsOrFraction(strings.TrimSuffix(s, " cm")); return err == nil })
		require.Equal(t, want, got, "%q", text)
	}
}
