package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/bounded"
)

// FuzzArguments puts any text where the flags of the commands take words,
// numbers and lists. No file is named by it.
func FuzzArguments(f *testing.F) {
	const how = " --craft knit --gauge 22x30/10cm"
	forms := []string{
		"size 3 --only %s", "size 3 --unit in --sex %s", "blend --set %s", "blend --set height=100 --set %s --format csv", "blend --set chest=53 --age %s",
		"blend --set chest=53 --widths %s --lengths 3", "profile --set chest=%s", "garment hat --size %s", "garment cardigan --size 3 --extra %s --format json",
		"garment one-piece-hooded --size 3 --growth %s", "plan hat --size 3 --craft crochet --gauge %s", "plan pullover --size 3 --rib %s" + how,
		"plan pullover --size 3 --stretch %s" + how, "plan cardigan --size 3 --zippers %s" + how, "plan hat --size 3 --yarn %s" + how, "plan hat --size 3 --swatch %s" + how,
		"plan pullover --sizes %s" + how, "plan pullover --size 3 --multiple %s" + how, "plan pullover --size 3 --done %s" + how,
		"plan pullover --size 3 --done yoke=3 --longer %s" + how, "plan hat --size 3 --yarn 50g125m --swatch 10x10cm4g --margin %s" + how,
	}
	for i := range forms {
		for _, arg := range odd {
			if len(arg) < 100 {
				f.Add(byte(i), arg)
			}
		}
	}
	for i, good := range []string{"chest,waist", "f", "chest=53", "chest=20 1/4 in", "3y6m", "2", "53", "18m", "body_length=2in", "1.5", "18x24/10cm", "24x30/10cm", "neck=1.5",
		"12,14,16", "50g 125m", "10x10cm 4g", "2,4,6", "6n+2", "yoke=12", "sleeve=2cm", "0.2"} {
		f.Add(byte(i), good)
	}
	f.Fuzz(func(t *testing.T, form byte, arg string) {
		defer bounded.By(t, 512<<20)()
		args := strings.Fields(forms[int(form)%len(forms)])
		i := slices.IndexFunc(args, func(a string) bool { return strings.Contains(a, "%s") })
		args[i-1] += "=" + strings.Replace(args[i], "%s", arg, 1) // never a file or a flag of its own
		args = slices.Delete(args, i, i+1)
		code, stdout, stderr := try(t, "", args...)
		require.Contains(t, []int{0, exitBadInput, exitUsage}, code, args)
		require.NotContains(t, stdout, "NaN", args)
		if code != 0 {
			require.NotEmpty(t, stderr, args)
			require.Empty(t, stdout, args)
		}
	})
}
