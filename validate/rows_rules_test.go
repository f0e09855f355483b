package validate

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// A ruleCase puts one rule to the test: proposed body rows, or our own tables
// with something replaced. want is a part of what the rule says; "" means that
// it must say nothing.
type ruleCase struct {
	rule, name string
	rows       string   // of a proposal, without the header
	raw        string   // the same, with whatever header it has
	edits      []string // table, old, new, and so on
	want       string
}

const bodyHead = "chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\n"

// craft is a proposed row of the trade chart.
func craft(size, measurement, value, unit, note string) string {
	return "craft," + size + ",both," + measurement + ",given," + value + "," + unit + ",craft-2018,p. 15,published,read twice," + note + "\n"
}

func measured(size, sex, measurement, statistic, value string) string {
	unit := "cm"
	if measurement == "weight" {
		unit = "kg"
	}
	return "measured," + size + "," + sex + "," + measurement + "," + statistic + "," + value + "," + unit + ",cpsc-1977,n=98,computed,read twice,\n"
}

var ruleCases = []ruleCase{
	{rule: "R01", name: "renamed column", raw: strings.Replace(bodyHead, "value", "val", 1), want: `no column value; columns that body.csv does not have: ["val"]; expected chart,size,sex,`},
	{rule: "R01", name: "semicolons", raw: strings.ReplaceAll(bodyHead, ",", ";"), want: `fields separated by ";"; expected commas; save the file as comma-separated values`},
	{rule: "R01", name: "tabs", raw: strings.ReplaceAll(bodyHead, ",", "\t"), want: `fields separated by "\t"; expected commas`},
	{rule: "R01", name: "other order", raw: "size,chart" + bodyHead[len("chart,size"):], want: "columns twice or in another order"},
	{rule: "R01", name: "empty", raw: "", want: "no header; expected chart,"},
	{rule: "R01", name: "a table is gone", edits: []string{"ease.csv", "", "-"}, want: "ease.csv: stop R01: the table cannot be opened"},
	{rule: "R01", name: "header in quotes", raw: `"chart",` + bodyHead[len("chart,"):]},

	{rule: "R02", name: "byte order mark", raw: "\ufeff" + bodyHead, want: "p.csv:1:1: warn R02: a byte order mark before the header; expected none; growtuck rows --write rewrites the file"},
	{rule: "R02", name: "carriage returns", raw: strings.ReplaceAll(bodyHead+craft("4", "chest", "58.5", "cm", ""), "\n", "\r\n"), want: "p.csv:1: warn R02: 2 carriage returns, the first on this line"},
	{rule: "R02", name: "needless quotes", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft", `"craft"`, 1), want: "p.csv:2: warn R02: 1 rows not in canonical form"},
	{rule: "R02", name: "blank line", rows: craft("4", "chest", "58.5", "cm", "") + "\n" + craft("4", "waist", "54.5", "cm", ""), want: "p.csv:4: warn R02"},
	{rule: "R02", name: "no line end", rows: strings.TrimSuffix(craft("4", "chest", "58.5", "cm", ""), "\n"), want: "a line end after the last row"},
	{rule: "R02", name: "needed quotes", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "p. 15", `"p. 15, ""baby"""`, 1)},

	{rule: "R03", name: "field too many", rows: "x," + craft("4", "chest", "58.5", "cm", ""), want: "p.csv:2: stop R03: 13 fields; expected 12: chart, size,"},
	{rule: "R03", name: "quote not closed", rows: `craft,"4,both` + "\n", want: "R03: a quote that is not closed, or text after a closing quote"},
	{rule: "R03", name: "bare quote", rows: `craft,4" ,both` + "\n", want: "p.csv:2:8: stop R03: a quote inside a cell that is not in quotes"},
	{rule: "R03", name: "comma in quotes", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "p. 15", `"p. 15, 16"`, 1)},

	{rule: "R04", name: "NaN", rows: craft("4", "chest", "NaN", "cm", ""), want: `p.csv:2:26: stop R04: value: "NaN" is no plain number; expected digits with a point, as 24.5`},
	{rule: "R04", name: "infinite", rows: craft("4", "chest", "+Inf", "cm", ""), want: `"+Inf" is no plain number`},
	{rule: "R04", name: "exponent", rows: craft("4", "chest", "5.85e1", "cm", ""), want: `"5.85e1" is no plain number`},
	{rule: "R04", name: "decimal comma", rows: craft("4", "chest", `"58,5"`, "cm", ""), want: `"58,5" is no plain number`},
	{rule: "R04", name: "space", rows: craft("4 ", "chest", "58.5", "cm", ""), want: `size: "4 " has space around it; expected "4"`},
	{rule: "R04", name: "no-break space", rows: craft("4", "chest", "58.5", "cm", "as\u00a0printed"), want: "holds a character that cannot be seen"},
	{rule: "R04", name: "line end", rows: craft("4", "chest", "58.5", "cm", "\"as\nprinted\""), want: "plain text on one line"},
	{rule: "R04", name: "not UTF-8", rows: craft("4", "chest", "58.5", "cm", "gr\xf6\xdfer"), want: "is not UTF-8; save the file as UTF-8"},
	{rule: "R04", name: "too long", rows: craft("4", "chest", "58.5", "cm", strings.Repeat("x", 3000)), want: "is 3000 bytes long; expected at most 2000"},
	{rule: "R04", name: "noughts after the point", rows: craft("4", "chest", "58.50", "cm", "")},

	{rule: "R05", name: "not in the list", rows: measured("104", "boys", "chest", "p50", "53.7"), want: `sex: "boys" is not allowed; expected one of m, f, both`},
	{rule: "R05", name: "nought", rows: craft("4", "chest", "0", "cm", ""), want: `value: "0" is not allowed; expected a number above 0 and at most 300`},
	{rule: "R05", name: "negative", rows: craft("4", "chest", "-58.5", "cm", ""), want: `value: "-58.5" is not allowed`},
	{rule: "R05", name: "huge", rows: craft("4", "chest", "5850", "cm", ""), want: `value: "5850" is not allowed`},
	{rule: "R05", name: "empty", rows: craft("4", "chest", "", "cm", ""), want: "value: is empty; expected a number above 0 and at most 300"},
	{rule: "R05", name: "columns together", edits: []string{"sizes.csv", "craft,16,years,16,", "craft,16,years,,"}, want: `position: "" is empty, and scale is anything but band`},
	{rule: "R05", name: "columns in order", edits: []string{"ratios.csv", "m,chest,83,100,", "m,chest,83,80,"}, want: `height_high_cm: "80" is not above height_low_cm`},
	{rule: "R05", name: "all allowed", rows: measured("104", "m", "chest", "p50", "53.7")},

	{rule: "R06", name: "row twice", rows: craft("4", "chest", "58.5", "cm", "") + craft("4", "chest", "58.5", "cm", ""), want: "p.csv:3: stop R06: craft 4 chest: the row is already on line 2, with 58.5 cm; take one away"},
	{rule: "R06", name: "key twice", rows: craft("4", "chest", "58.5", "cm", "") + craft("4", "chest", "59", "cm", ""), want: "keep the one that the source has"},
	{rule: "R06", name: "in another table", edits: []string{"garments.csv", "vest,Vest,", "cardigan,Vest,"}, want: "garments.csv:4:1: stop R06: id: cardigan is already on line 3; take one away"},
	{rule: "R06", name: "another unit", rows: craft("4", "chest", "58.5", "cm", "") + craft("4", "chest", "23", "in", "")},

	{rule: "R07", name: "chart", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft,", "kraft,", 1), want: `p.csv:2:1: stop R07: chart: "kraft" is not in charts.csv; expected one of craft, craft-head,`},
	{rule: "R07", name: "size", rows: craft("5", "chest", "61", "cm", ""), want: `size: chart craft has no size "5" in sizes.csv; expected one of 3m, 6m,`},
	{rule: "R07", name: "measurement", rows: craft("4", "bust", "58.5", "cm", ""), want: `measurement: "bust" is not in measurements.csv`},
	{rule: "R07", name: "source", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft-2018", "craft-2019", 1), want: `source: "craft-2019" is not in sources.csv`},
	{rule: "R07", name: "in another table", edits: []string{"parts.csv", "pullover,chest,", "pulover,chest,"}, want: `garment: "pulover" is not in garments.csv`},
	{rule: "R07", name: "all there", rows: craft("4", "chest", "58.5", "cm", "")},

	{rule: "R08", name: "sizes in another order", rows: craft("6", "chest", "63.5", "cm", "") + craft("4", "chest", "58.5", "cm", ""), want: "p.csv:3: warn R08: the row should stand before line 2"},
	{rule: "R08", name: "in another table", edits: []string{"sources.csv", "memory,\"Rec", "a-memory,\"Rec"}, want: "sources.csv:7: warn R08"},
	{rule: "R08", name: "in order", rows: craft("4", "chest", "58.5", "cm", "") + craft("6", "chest", "63.5", "cm", "")},

	{rule: "R09", name: "published by nobody", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft-2018", "memory", 1), want: "basis: published, but source memory is no document: it has no edition; expected a source that can be read, or basis memory"},
	{rule: "R09", name: "remembered from a document", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "published", "memory", 1), want: "memory, but source craft-2018 is a document"},
	{rule: "R09", name: "remembered", rows: strings.NewReplacer("craft-2018", "memory", "published", "memory").Replace(craft("4", "chest", "58.5", "cm", ""))},

	{rule: "R10", name: "review to come", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "read twice", "TBD", 1), want: `review: "TBD" says nothing; expected how the value was confirmed`},
	{rule: "R10", name: "where nowhere", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "p. 15", "?", 1), want: `where: "?" says nothing; expected page, table or count of children`},
	{rule: "R10", name: "both said", rows: craft("4", "chest", "58.5", "cm", "")},

	{rule: "R11", name: "a girth in kg", rows: craft("4", "chest", "58.5", "kg", ""), want: "unit: chest girth in kg; expected cm or in"},
	{rule: "R11", name: "a weight in cm", rows: strings.Replace(measured("104", "m", "weight", "p50", "16.8"), ",kg,", ",cm,", 1), want: "unit: weight in cm; expected kg"},
	{rule: "R11", name: "a weight in kg", rows: measured("104", "m", "weight", "p50", "16.8")},

	{rule: "R12", name: "a tenth of an inch", rows: craft("4", "chest", "23.1", "in", ""), want: "value: 23.1 in; expected eighths of an inch"},
	{rule: "R12", name: "thousandths", rows: craft("4", "chest", "58.505", "cm", ""), want: "value: 58.505 cm; expected at most two places"},
	{rule: "R12", name: "off the chart's grid", rows: craft("4", "chest", "58.4", "cm", ""), want: "craft 4 chest: 58.4 cm; expected half centimetres, as the rest of the chart has"},
	{rule: "R12", name: "on the grid", rows: craft("4", "chest", "58", "cm", "")},
	{rule: "R12", name: "hundredths in the survey", rows: measured("104", "m", "chest", "p50", "53.71")},

	{rule: "R20", name: "smaller than the size below", rows: craft("8", "chest", "60", "cm", ""), want: "craft 8 chest: 60 cm; expected more than the 63.5 cm of size 6 (3.5 cm less); correct it, or say in note why the source has it so"},
	{rule: "R20", name: "no larger", rows: craft("8", "chest", "63.5", "cm", ""), want: "(the same)"},
	{rule: "R20", name: "larger than the size above", rows: craft("8", "chest", "72", "cm", ""), want: "craft 10 chest: 71 cm; expected more than the 72 cm of size 8"},
	{rule: "R20", name: "explained", rows: craft("8", "chest", "60", "cm", "so printed"), want: "note R20: craft 8 chest: 60 cm; expected more than the 63.5 cm of size 6 (3.5 cm less); the note says: so printed"},
	{rule: "R20", name: "larger", rows: craft("8", "chest", "67.5", "cm", "")},

	{rule: "R21", name: "swapped digits", rows: craft("6", "waist", "75", "cm", ""), want: "craft 6 waist: 75 cm; expected about 57, going by size 4 with 54.5 cm and size 8 with 59.5 cm (+18)"},
	{rule: "R21", name: "at the end", rows: craft("16", "waist", "96.5", "cm", ""), want: "R21: craft 16 waist: 96.5 cm"},
	{rule: "R21", name: "half a centimetre", rows: craft("6", "waist", "57.5", "cm", "")},

	{rule: "R22", name: "another size's inches", rows: craft("4", "chest", "25", "in", ""), want: "stop R22: craft 4 chest: 58.5 cm and 25 in; expected 63.5 cm, to the nearest half (-5.00 cm)"},
	{rule: "R22", name: "rounded the wrong way", rows: craft("4", "chest", "58", "cm", ""), want: "warn R22: craft 4 chest: 58 cm and 23 in; expected 58.42 cm"},
	{rule: "R22", name: "rounded", rows: craft("4", "chest", "58.5", "cm", "as printed")},

	{rule: "R23", name: "quarter above the median", rows: measured("104", "both", "chest", "p25", "53.4"), want: "stop R23: measured 104 chest p25: 53.4 cm; expected below the 53.3 cm of p50"},
	{rule: "R23", name: "quarter below the median", rows: measured("104", "both", "chest", "p25", "52.2")},

	{rule: "R24", name: "a size left out", rows: craft("4", "calf", "22", "cm", "") + craft("8", "calf", "25.5", "cm", ""), want: "craft 8 calf: nothing in cm between size 4 and size 8; expected rows for the 1 sizes of the chart between them"},
	{rule: "R24", name: "one end of a range", rows: strings.Replace(craft("4", "calf", "22", "cm", ""), "given", "low", 1), want: "craft 4 calf low: low without high, in cm"},
	{rule: "R24", name: "one unit at one size", rows: craft("4", "calf", "22", "cm", "") + craft("6", "calf", "24", "cm", "") + craft("6", "calf", "9.5", "in", ""), want: "craft 4 calf: 22 cm, and nothing in in"},
	{rule: "R24", name: "all there", rows: craft("4", "calf", "22", "cm", "") + craft("6", "calf", "24", "cm", "")},

	{rule: "R25", name: "waist above chest", rows: craft("4", "waist", "59", "cm", ""), want: "craft 4 waist: 59 cm; expected below the 58.5 cm of chest"},
	{rule: "R25", name: "waist below chest", rows: craft("4", "waist", "55", "cm", "")},

	{rule: "R26", name: "arm too short", rows: craft("6", "neck_to_wrist", "46", "cm", ""), want: "craft 6 neck_to_wrist: 46 cm leaves 4 cm from shoulder to armpit, after half of cross back and the arm to underarm; expected 6.25 to 18.8"},
	{rule: "R26", name: "arm a little longer", rows: craft("6", "neck_to_wrist", "53", "cm", "")},

	{rule: "R27", name: "no child's calf", rows: craft("8", "calf", "36", "cm", ""), want: "craft 8 calf: 36 cm; expected 22.2 to 31.5 cm at a height of 128 cm, as 98 of 100 children have"},
	{rule: "R27", name: "a child's calf", rows: craft("8", "calf", "26", "cm", "")},

	{rule: "R28", name: "outside both", rows: measured("104", "both", "chest", "p50", "54.4"), want: "measured 104 chest p50: 54.4 cm; expected between boys with 53.7 cm and girls with 52.8 cm"},
	{rule: "R28", name: "between", rows: measured("104", "both", "chest", "p50", "53.4")},

	{rule: "R29", name: "another value", rows: craft("4", "chest", "60", "cm", ""), want: "warn R29: craft 4 chest: 60 cm; it was 58.5 cm (+1.5 cm); say in note what was wrong before"},
	{rule: "R29", name: "another value, explained", rows: craft("4", "chest", "60", "cm", "misread before"), want: "note R29: craft 4 chest: 60 cm; it was 58.5 cm (+1.5 cm); the note says: misread before"},
	{rule: "R29", name: "the same value", rows: craft("4", "chest", "58.5", "cm", "")},

	{rule: "R40", name: "no such column", edits: []string{"derivations.csv", "child.trunk - child.back", "child.trunck - child.back"}, want: `derivations.csv:59:18: stop R40: formula: rise: no measurement "trunck" in the formula`},
	{rule: "R40", name: "no formula", edits: []string{"derivations.csv", "2.4*measured.hand_breadth", "2.4 hands"}, want: `"2.4 hands" is no term`},
	{rule: "R40", name: "legs of half the height", edits: []string{"derivations.csv", "0.97*measured.height - 0.97*", "0.97*measured.height - 0.79*"}, want: "expected 43."},
	{rule: "R40", name: "read from another measurement", edits: []string{"derivations.csv", ",measured.neck,", ",measured.wrist,"}, want: `"measured.wrist" is not neck of a chart, as basis read says`},
	{rule: "R40", name: "a little more", edits: []string{"derivations.csv", "2.4*measured.hand_breadth", "2.41*measured.hand_breadth"}},

	{rule: "R41", name: "swapped digits", edits: []string{"sizes.csv", "measured,104,height,104,", "measured,104,height,140,"}, want: "measured 104: at 140; expected 104"},
	{rule: "R41", name: "another scale", edits: []string{"sizes.csv", "craft,3m,months,3,", "craft,3m,years,3,"}, want: "craft 3m: a size on the scale of years; expected months"},
	{rule: "R41", name: "ages turned round", edits: []string{"sizes.csv", "2-3,years,2.5,2,3", "2-3,years,2.5,3,2"}, want: "ages 3 to 2; expected the lower first"},
	{rule: "R41", name: "elsewhere in its band", edits: []string{"sizes.csv", "2-3,years,2.5,2,3", "2-3,years,2.7,2,3"}, want: "craft-foot 2-3: at 2.7; expected 2.5"},
	{rule: "R41", name: "another note", edits: []string{"sizes.csv", "US shoe 5-9", "US shoes 5-9"}},

	{rule: "R42", name: "use above high", edits: []string{"ease.csv", "fit,upper,classic,skin,chest,5,10,7.5,", "fit,upper,classic,skin,chest,5,10,10.5,"}, want: "low 5, use 10.5, high 10; expected low, use and high in that order"},
	{rule: "R42", name: "classes in another order", edits: []string{"ease.csv", "fit,upper,classic,skin,chest,5,10,7.5,", "fit,upper,classic,skin,chest,5,15,14,"}, want: "fit upper loose skin chest: 12.5 cm; expected more than the 14 of classic"},
	{rule: "R42", name: "two units", edits: []string{"ease.csv", "fit,upper,classic,skin,chest,5,10,7.5,cm", "fit,upper,classic,skin,chest,5,10,7.5,in"}, want: "in beside cm; expected one unit for all"},
	{rule: "R42", name: "a little more", edits: []string{"ease.csv", "fit,upper,classic,skin,chest,5,10,7.5,", "fit,upper,classic,skin,chest,5,10,8,"}},

	{rule: "R43", name: "a share in cm", edits: []string{"lengths.csv", "hat,hat_height,share,,38,%", "hat,hat_height,share,,38,cm"}, want: "hat hat_height share: share in cm; expected share in %, all else in cm or in"},
	{rule: "R43", name: "growth of a hand in one season", edits: []string{"lengths.csv", "socks,foot_length,growth,,0.5,", "socks,foot_length,growth,,5.0,"}, want: "socks foot_length growth: 5 cm; expected above 0 and at most 2.5 cm"},
	{rule: "R43", name: "unlike another garment", edits: []string{"lengths.csv", "trousers,rise,growth,,0.5,", "trousers,rise,growth,,0.2,"}, want: "one-piece rise growth: 0.5 cm; expected the 0.2 cm that garment trousers has"},
	{rule: "R43", name: "another share", edits: []string{"lengths.csv", "hat,hat_height,share,,38,%", "hat,hat_height,share,,40,%"}},

	{rule: "R47", name: "a class left out", edits: []string{"yarns.csv", "1,super fine,27,32,21,32,2.25,3.25,2.25,3.5,", "8,super fine,27,32,21,32,2.25,3.25,2.25,3.5,"}, want: "class 8: after 1 classes; expected class 1"},
	{rule: "R47", name: "more stitches of thicker yarn", edits: []string{"yarns.csv", "4,medium,16,20,", "4,medium,16,25,"}, want: "class 4: 25 stitches; expected fewer than the 24 of class 3"},
	{rule: "R47", name: "needles with a gap", edits: []string{"yarns.csv", "4,medium,16,20,11,14,4.5,", "4,medium,16,20,11,14,5,"}, want: "class 4: from 5 mm; expected the 4.5 mm at which class 3 ends"},
	{rule: "R47", name: "ends turned round", edits: []string{"yarns.csv", "4,medium,16,20,", "4,medium,20,16,"}, want: "class 4: 20 to 16; expected the lower first"},
	{rule: "R47", name: "one stitch less", edits: []string{"yarns.csv", "4,medium,16,20,", "4,medium,16,19,"}},

	{rule: "R07", name: "an exception to no rule", edits: []string{"exceptions.csv", "R21,body.csv", "R99,body.csv"}, want: `exceptions.csv:9:1: stop R07: rule: "R99" is not a rule; expected the code of a rule`},
	{rule: "R07", name: "an exception in no table", edits: []string{"exceptions.csv", "R21,body.csv", "R21,bodies.csv"}, want: `exceptions.csv:9:5: stop R07: table: "bodies.csv" is not a table`},
	{rule: "R48", name: "a figure for nothing", edits: []string{"practice.csv", "hem_depth,4,", "hem_height,4,"}, want: "hem_height: the program does not use it"},
	{rule: "R48", name: "another unit", edits: []string{"practice.csv", "hem_depth,4,cm,", "hem_depth,1.5,in,"}, want: "hem_depth: in; expected cm, as the program reads it"},
	{rule: "R48", name: "lower above upper", edits: []string{"practice.csv", "bridge_share_low,8,", "bridge_share_low,13,"}, want: "bridge_share_low: 13; expected below the 12 of bridge_share_high"},
	{rule: "R48", name: "source and basis", edits: []string{"practice.csv", "common-practice,common practice", "common-practice,judgement"}, want: "judgement, and the source is common-practice; expected common practice"},
	{rule: "R48", name: "a figure left out", edits: []string{"practice.csv", "hem_depth,4,cm,depth of a ribbed hem,common-practice,common practice,\n", ""}, want: "hem_depth: no row; expected one: without it the built-in 4 cm is used"},
	{rule: "R48", name: "inches for cm", edits: []string{"practice.csv", "hem_depth,4,", "hem_depth,1.6,"}, want: "hem_depth: 1.6 cm; expected near the 4 that is built in"},
	{rule: "R48", name: "a deeper hem", edits: []string{"practice.csv", "hem_depth,4,", "hem_depth,6,"}},
	{rule: "R48", name: "a zipper more", edits: []string{"practice.csv", "button_spacing,6,", "stocked_zipper_26,26,in,length of zipper that shops commonly stock,memory,memory,\nbutton_spacing,6,"}},
	{rule: "R48", name: "an edition without them", edits: []string{"practice.csv", "", "-"}},

	{rule: "R44", name: "a girth that is a length", edits: []string{"measurements.csv", "neck,neck girth,girth,", "neck,neck girth,length,"}, want: "neck: neck girth is of kind length; expected girth"},
	{rule: "R44", name: "a part that goes round a length", edits: []string{"parts.csv", "back_waist_length,length\n", "back_waist_length,girth\n"}, want: "a girth from back_waist_length, which is a length"},
	{rule: "R44", name: "a length that is a share of a girth", edits: []string{"parts.csv", "hat,hat_height,crown to brim,", "hat,hat_height,from crown to brim,"}},

	{rule: "R45", name: "spread of a fifth more children", edits: []string{"relations.csv", "m,chest,chest,sd,83,115,0.0393,", "m,chest,chest,sd,83,115,0.3930,"}, want: "m chest chest: a spread of 0.393; expected above 0 and at most 0.25"},
	{rule: "R45", name: "boys unlike girls", edits: []string{"relations.csv", "m,weight,head,r,83,115,0", "m,weight,head,r,83,115,-0"}, want: "m weight head: -0."},
	{rule: "R45", name: "ratio out of step", edits: []string{"ratios.csv", "m,chest,115,130,0.4387,0.4931,", "m,chest,115,130,0.3487,0.4931,"}, want: "m chest 115: 0.3487; expected near the 0.4715 of the class before"},
	{rule: "R45", name: "ratio in step", edits: []string{"ratios.csv", "m,chest,115,130,0.4387,0.4931,", "m,chest,115,130,0.4378,0.4931,"}},

	{rule: "R46", name: "a source for nothing", edits: []string{"sources.csv", "craft-2018,", "craft-2017,A,B,C,,D,E,no\ncraft-2018,"}, want: "craft-2017: the source is cited by no row"},
	{rule: "R46", name: "a size without values", edits: []string{"sizes.csv", "craft,16,years,16,", "craft,15,years,15,,,\ncraft,16,years,16,"}, want: "craft 15: the size has no values"},
	{rule: "R46", name: "trousers of the upper body", edits: []string{"garments.csv", "trousers,Trousers,lower,", "trousers,Trousers,upper,"}, want: "neither ease for garment trousers or group upper, nor an adjustment"},
	{rule: "R46", name: "another title", edits: []string{"garments.csv", "trousers,Trousers,lower,", "trousers,Long trousers,lower,"}},

	{rule: "X02", name: "an exception that is none any more", rows: craft("2", "hip", "54", "cm", "") + craft("2", "hip", "21.25", "in", ""), want: "p.csv: warn X02: craft 2 hip: the known exception to R27 no longer fires"},
	{rule: "X02", name: "an exception of an edition without them", edits: []string{"exceptions.csv", "", "-", "body.csv", "craft,2,both,hip,given,56,cm", "craft,2,both,hip,given,54,cm", "body.csv", "craft,2,both,hip,given,22,in", "craft,2,both,hip,given,21.25,in"}, want: "the known exception to R27 no longer fires; expected the rule to find what the exception explains: the trade chart's girths are large at the small end, as the note on the chart says; put the value back, or take the exception out of exceptions.csv"},
	{rule: "X02", name: "an exception that stands", rows: craft("2", "hip", "56", "cm", "")},
}

func TestEachRowRule(t *testing.T) {
	fired, quiet := map[string]bool{}, map[string]bool{}
	for _, tt := range ruleCases {
		t.Run(tt.rule+" "+tt.name, func(t *testing.T) {
			var said []string
			for _, f := range findingsOf(t, tt) {
				if f.Rule == tt.rule {
					said = append(said, f.String())
				}
			}
			if tt.want == "" {
				require.Empty(t, said)
				quiet[tt.rule] = true
				return
			}
			require.Contains(t, strings.Join(said, "\n"), tt.want)
			fired[tt.rule] = true
		})
	}
	for _, r := range RowRules() {
		require.True(t, fired[r.Code], "%s has no case in which it fires", r.Code)
		require.True(t, quiet[r.Code], "%s has no case in which it must not fire", r.Code)
	}
}

func findingsOf(t *testing.T, tt ruleCase) []Finding {
	t.Helper()
	if tt.edits != nil {
		files := ownTables(t)
		for e := tt.edits; len(e) > 0; e = e[3:] {
			if e[1] == "" {
				delete(files, e[0])
				continue
			}
			old := string(files[e[0]].Data)
			require.Contains(t, old, e[1])
			files[e[0]] = &fstest.MapFile{Data: []byte(strings.Replace(old, e[1], e[2], 1))}
		}
		findings, err := CheckTables(files, "", nil)
		require.NoError(t, err)
		return findings
	}
	own, err := data.Load(data.Embedded())
	require.NoError(t, err)
	raw := tt.raw
	if tt.rows != "" {
		raw = bodyHead + tt.rows
	}
	findings, err := CheckRows(strings.NewReader(raw), "p.csv", own)
	require.NoError(t, err)
	return findings
}

// ownTables returns our own tables as files that can be changed. Their change
// log is checked by data.Changes.
func ownTables(tb testing.TB) fstest.MapFS {
	tb.Helper()
	files := fstest.MapFS{}
	entries, err := fs.ReadDir(data.Embedded(), ".")
	require.NoError(tb, err)
	for _, e := range entries {
		if e.Name() == "changes.csv" {
			continue
		}
		raw, err := fs.ReadFile(data.Embedded(), e.Name())
		require.NoError(tb, err)
		files[e.Name()] = &fstest.MapFile{Data: raw}
	}
	return files
}

func TestRowRulesAreListedOnce(t *testing.T) {
	seen := map[string]bool{}
	last := ""
	for _, r := range RowRules() {
		require.False(t, seen[r.Code], r.Code)
		seen[r.Code] = true
		require.Less(t, last, r.Code, "in order of code")
		last = r.Code
		require.NotEmpty(t, r.Title)
		require.NotContains(t, r.Title, "\n")
	}
	own, err := data.Load(data.Embedded())
	require.NoError(t, err)
	for _, e := range own.Exceptions {
		require.True(t, seen[e.Rule], e.Rule)
	}
}
