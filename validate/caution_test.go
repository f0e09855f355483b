package validate_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/samples"
	"growtuck/validate"
)

// Each caution begins and ends where the text that it is from does: EN 14682:2014,
// ASTM F1816-18 and 16 CFR 1120, 16 CFR 1501, 1615 and 1616, EN 71-2:2020, CEN/TR
// 16792:2014, the American Academy of Pediatrics; figures marked so in the words are
// from memory, those of the trade are common practice.
func TestCautionsAtTheirBounds(t *testing.T) {
	ref := samples.Reference(t)
	for _, tt := range []struct {
		garment, height, age, rows string
		rule, expected             string // the id of what was expected; "" where the rule is silent
	}{
		// Hood and neck: none under 7 or up to 134 cm, no free ends to 14.
		{"pullover", "110", "6.99", "cord,neck,10,cm", "C01", "care.neck-young"},
		{"pullover", "140", "6.99", "cord,neck,10,cm", "C01", "care.neck-young"},
		{"pullover", "134", "9", "tie,hood,1,cm", "C01", "care.neck-young"},
		{"pullover", "134.1", "7", "drawstring,hood,1,cm", "C01", "care.neck-older"},
		{"pullover", "160", "14", "cord,neck,10,cm", "C01", "care.neck-older"},
		{"pullover", "160", "14.1", "cord,neck,10,cm", "C01", ""},
		{"hat", "110", "5", "tie,brim,30,cm", "C01", "care.neck-accessory"},
		// Waist: 3 in out of the channel in sizes to 16, 14 cm to 14 years.
		{"pullover", "110", "5", "drawstring,waist,7.5,cm", "C02", ""},
		{"pullover", "110", "5", "drawstring,waist,7.6,cm", "C02", "care.waist-cord"},
		{"pullover", "160", "14.1", "drawstring,waist,20,cm", "C02", "care.waist-cord-us"},
		{"pullover", "165", "16", "drawstring,waist,20,cm", "C02", "care.waist-cord-us"},
		{"pullover", "165", "16.1", "drawstring,waist,20,cm", "C02", ""},
		{"trousers", "110", "5", "drawstring,waist,14,cm", "C02", ""},
		{"trousers", "160", "14", "drawstring,waist,14.1,cm", "C02", "care.waist-cord-en"},
		{"trousers", "160", "14.1", "drawstring,waist,20,cm", "C02", ""},
		{"dress", "110", "5", "tie,waist,36,cm", "C02", ""},
		{"dress", "110", "5", "tie,waist,36.1,cm", "C02", "care.sash"},
		{"dress", "110", "5", "tie,back,1,cm", "C02", "care.back-tie"},
		{"pullover", "110", "5", "toggle,waist,2,cm", "C02", "care.toggle"},
		{"pullover", "165", "16", "toggle,waist,2,cm", "C02", "care.toggle"},
		// Ends of sleeves and legs: wholly inside, however short.
		{"pullover", "160", "14", "drawstring,cuff,1,cm", "C02", "care.limb-end"},
		{"trousers", "110", "5", "cord,ankle,1,cm", "C02", "care.limb-end"},
		{"trousers", "160", "14.1", "cord,ankle,1,cm", "C02", ""},
		{"one-piece", "110", "5", "cord,hem,1,cm", "C02", "care.hem-cord"},
		{"pullover", "110", "5", "cord,hem,7,cm", "C02", ""},
		{"mittens", "95", "3", "cord,hand,90,cm", "C02", "care.accessory-string"},
		{"mittens", "160", "14.1", "cord,hand,90,cm", "C02", ""},
		// Small parts: under 3 years, of any kind, smaller than the cylinder is deep.
		{"pullover", "92", "2.99", "button,front,1.5,cm", "C03", "care.small-part"},
		{"pullover", "92", "3", "button,front,1.5,cm", "C03", ""},
		{"hat", "92", "2", "pompom,hood,5.6,cm", "C03", "care.small-part"},
		{"hat", "92", "2", "pompom,hood,5.7,cm", "C03", ""},
		{"pullover", "92", "2", "toggle,waist,3,cm", "C03", "care.small-part"},
		{"pullover", "92", "2", "ear,hood,3,cm", "C03", "care.small-part"},
		// Sleep: infants' sizes apart, to size 14.
		{"one-piece", "70", "0.75", "wear,,sleep,", "C06", "care.sleepwear-infant"},
		{"one-piece", "72", "0.76", "wear,,sleep,", "C06", "care.sleepwear"},
		{"one-piece", "160", "14", "wear,,sleep,", "C06", "care.sleepwear"},
		{"one-piece", "160", "14.1", "wear,,sleep,", "C06", ""},
		// Harnesses: whatever the layer is called.
		{"one-piece", "84", "1.8", "", "C07", ""},
		{"one-piece", "84", "1.8", "layer,,indoor,", "C07", "care.car-seat"},
		{"one-piece", "84", "1.8", "yarn,,5,class", "C07", "care.car-seat"},
		{"one-piece", "84", "1.8", "yarn,,4,class", "C07", ""},
		{"pullover", "84", "1.8", "wear,,car,", "C07", "care.car-seat"},
		{"pullover", "150", "11.9", "layer,,winter,", "C07", "care.car-seat"},
		{"pullover", "150", "12", "layer,,winter,", "C07", ""},
		{"trousers", "84", "1.8", "layer,,winter,", "C07", ""},
		// Heads covered in an infant's sleep.
		{"hat", "74", "0.99", "", "C09", "care.infant-sleep"},
		{"hat", "74", "1", "", "C09", ""},
		{"hat", "92", "2.9", "wear,,sleep,", "C09", "care.infant-sleep"},
		// Parts of dress-up clothes that stand out at the head.
		{"hat", "110", "5", "wear,,dress-up, ear,hood,4.9,cm", "C11", "care.head-part-small"},
		{"hat", "110", "5", "wear,,dress-up, ear,hood,5,cm", "C11", "care.head-part-large"},
		// Strands inside.
		{"pullover", "110", "14", "float,sleeve,1,cm", "C12", ""},
		{"pullover", "110", "14", "float,sleeve,1.1,cm", "C12", "care.float"},
		{"pullover", "110", "14.1", "float,sleeve,3,cm", "C12", ""},
		{"mittens", "92", "2.99", "", "C12", "care.float"},
		{"mittens", "92", "3", "", "C12", ""},
		// The zipper's lower end.
		{"one-piece", "84", "1.8", "zipper,front,40,cm opening,front,40,cm", "C13", "care.zipper-below"},
		{"one-piece", "84", "1.8", "sex,,f, zipper,front,40,cm opening,front,40,cm", "C13", ""},
		{"one-piece", "84", "1.8", "zipper,front,15,cm opening,front,15,cm finished,body_length,30,cm", "C13", ""},
		{"cardigan", "84", "1.8", "zipper,front,30,cm", "C13", ""},
	} {
		layer := "layer,,skin,\n"
		if strings.HasPrefix(tt.rows, "layer") {
			layer = ""
		}
		draft := head + "garment,," + tt.garment + ",\nfit,,classic,\n" + layer + "body,height," + tt.height + ",cm\nage,," + tt.age + ",years\n" + strings.ReplaceAll(tt.rows, " ", "\n") + "\n"
		what := tt.garment + ", " + tt.age + " years, " + tt.height + " cm: " + tt.rows
		found := ofRule(check(t, ref, draft), tt.rule)
		if tt.expected == "" {
			require.Empty(t, found, what)
			continue
		}
		require.True(t, slices.ContainsFunc(found, func(f validate.Finding) bool { return f.Expected.ID == tt.expected }), "%s: %v", what, found)
		for _, f := range found {
			require.Equal(t, validate.Note, f.Severity, "a caution is no verdict")
			require.True(t, f.Caution(), what)
			require.NotEmpty(t, f.Source, what)
		}
	}
}
