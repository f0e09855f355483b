package validate

import (
	"strconv"
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

const bodyHead = "chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note,n\n"

// oldNote is that of the row of the waist at size 2.
const oldNote = "the same as at 24 months in the standard; R25: equal to the chest in the standard: 21 in"

// craft is a proposed row of the trade chart.
func craft(size, measurement, value, unit, note string) string {
	return "craft," + size + ",both," + measurement + ",given," + value + "," + unit + ",craft-2018,p. 15,published,read twice," + note + ",\n"
}

func measured(size, sex, measurement, statistic, value string) string {
	unit := "cm"
	if measurement == "weight" {
		unit = "kg"
	}
	return "measured," + size + "," + sex + "," + measurement + "," + statistic + "," + value + "," + unit + ",cpsc-1977,individual records,computed,read twice,,98\n"
}

// calves are a proposed column of the trade chart, sizes 2 to 12.
func calves(values ...float64) string {
	rows := ""
	for i, v := range values {
		rows += craft(strconv.Itoa(2*i+2), "calf", strconv.FormatFloat(v, 'f', -1, 64), "cm", "")
	}
	return rows
}

var ruleCases = []ruleCase{
	{rule: "R01", name: "renamed column", raw: strings.Replace(bodyHead, "value", "val", 1), want: "rows.columns-differ [value] body.csv [val]; expected rows.header [chart size sex"},
	{rule: "R01", name: "vertical bars", raw: strings.ReplaceAll(bodyHead, ",", "|"), want: "rows.separator |; expected rows.commas; rows.save-as-csv"},
	{rule: "R01", name: "a column twice", raw: "chart," + bodyHead, want: "rows.columns-twice; expected rows.header [chart size sex"},
	{rule: "R01", name: "empty", raw: "", want: "rows.no-header; expected rows.header [chart size sex"},
	{rule: "R01", name: "a table is gone", edits: []string{"ease.csv", "", "-"}, want: "ease.csv: stop R01: rows.cannot-open"},
	{rule: "R01", name: "header in quotes", raw: `"chart",` + bodyHead[len("chart,"):]},

	{rule: "R02", name: "byte order mark", raw: "\ufeff" + bodyHead, want: "p.csv:1:1: warn R02: rows.byte-order-mark; expected rows.none; rows.rewrite"},
	{rule: "R02", name: "UTF-16", raw: "\xff\xfe" + strings.Join(strings.Split(bodyHead, ""), "\x00") + "\x00", want: "p.csv:1: warn R02: rows.utf-16; expected rows.utf-8; rows.rewrite"},
	{rule: "R02", name: "returns", raw: strings.ReplaceAll(bodyHead+craft("4", "chest", "58.5", "cm", ""), "\n", "\r"), want: "p.csv:1: warn R02: rows.returns-alone; expected rows.line-feeds; rows.rewrite"},
	{rule: "R02", name: "semicolons", raw: strings.NewReplacer(",", ";", "58.5", "58,5").Replace(bodyHead + craft("4", "chest", "58.5", "cm", "")), want: "p.csv:1: warn R02: rows.separator ;; expected rows.commas; rows.rewrite"},
	{rule: "R02", name: "tabs", raw: strings.ReplaceAll(bodyHead, ",", "\t"), want: "p.csv:1: warn R02: rows.separator \t; expected rows.commas; rows.rewrite"},
	{rule: "R02", name: "titles", raw: strings.Replace(bodyHead, "size", " Size", 1), want: "p.csv:1:1: warn R02: rows.titles chart, Size,sex"},
	{rule: "R02", name: "other order", raw: "size,chart" + bodyHead[len("chart,size"):], want: "rows.titles size,chart,sex"},
	{rule: "R02", name: "carriage returns", raw: strings.ReplaceAll(bodyHead+craft("4", "chest", "58.5", "cm", ""), "\n", "\r\n"), want: "p.csv:1: warn R02: rows.carriage-returns 2; expected rows.line-feeds; rows.rewrite"},
	{rule: "R02", name: "needless quotes", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft", `"craft"`, 1), want: "p.csv:2: warn R02: rows.not-canonical 1; expected rows.canonical; rows.rewrite"},
	{rule: "R02", name: "blank line", rows: craft("4", "chest", "58.5", "cm", "") + "\n" + craft("4", "waist", "54.5", "cm", ""), want: "p.csv:4: warn R02: rows.not-canonical 1; expected rows.canonical; rows.rewrite"},
	{rule: "R02", name: "no line end", rows: strings.TrimSuffix(craft("4", "chest", "58.5", "cm", ""), "\n"), want: "rows.not-canonical 1; expected rows.canonical; rows.rewrite"},
	{rule: "R02", name: "needed quotes", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "p. 15", `"p. 15, ""baby"""`, 1)},

	{rule: "R03", name: "field too many", rows: "x," + craft("4", "chest", "58.5", "cm", ""), want: "p.csv:2: stop R03: rows.fields 14; expected rows.fields-wanted 13 [chart size"},
	{rule: "R03", name: "quote not closed", rows: `craft,"4,both` + "\n", want: "R03: rows.quote-open; expected rows.quoting"},
	{rule: "R03", name: "bare quote", rows: `craft,4" ,both` + "\n", want: "p.csv:2:8: stop R03: rows.bare-quote; expected rows.quoting"},
	{rule: "R03", name: "comma in quotes", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "p. 15", `"p. 15, 16"`, 1)},

	{rule: "R04", name: "NaN", rows: craft("4", "chest", "NaN", "cm", ""), want: "p.csv:2:26: stop R04: value: rows.not-number NaN; expected rows.number"},
	{rule: "R04", name: "infinite", rows: craft("4", "chest", "+Inf", "cm", ""), want: "value: rows.not-number +Inf; expected rows.number"},
	{rule: "R04", name: "exponent", rows: craft("4", "chest", "5.85e1", "cm", ""), want: "value: rows.not-number 5.85e1; expected rows.number"},
	{rule: "R04", name: "decimal comma", rows: craft("4", "chest", `"58,5"`, "cm", ""), want: "value: rows.not-number 58,5; expected rows.number"},
	{rule: "R04", name: "space", rows: craft("4 ", "chest", "58.5", "cm", ""), want: "size: rows.space-around 4 ; expected rows.cell 4"},
	{rule: "R04", name: "no-break space", rows: craft("4", "chest", "58.5", "cm", "as\u00a0printed"), want: "note: rows.unseen-character as"},
	{rule: "R04", name: "line end", rows: craft("4", "chest", "58.5", "cm", "\"as\nprinted\""), want: `note: rows.unseen-character as`},
	{rule: "R04", name: "not UTF-8", rows: craft("4", "chest", "58.5", "cm", "gr\xf6\xdfer"), want: "note: rows.not-utf8 gr\xf6\xdfer; rows.save-utf8"},
	{rule: "R04", name: "too long", rows: craft("4", "chest", "58.5", "cm", strings.Repeat("x", 3000)), want: "note: rows.cell-long 3000; expected rows.at-most 2000"},
	{rule: "R04", name: "zeros after the point", rows: craft("4", "chest", "58.50", "cm", "")},

	{rule: "R05", name: "not in the list", rows: measured("104", "boys", "chest", "p50", "53.7"), want: "sex: rows.not-allowed boys; expected rows.all-of [rows.one-of [m f both]]"},
	{rule: "R05", name: "zero", rows: craft("4", "chest", "0", "cm", ""), want: "value: rows.not-allowed 0; expected rows.number-within [rows.above 0 rows.at-most 3000]"},
	{rule: "R05", name: "negative", rows: craft("4", "chest", "-58.5", "cm", ""), want: "value: rows.not-allowed -58.5; expected rows.number-within [rows.above 0 rows.at-most 3000]"},
	{rule: "R05", name: "huge", rows: craft("4", "chest", "5850", "cm", ""), want: "value: rows.not-allowed 5850; expected rows.number-within [rows.above 0 rows.at-most 3000]"},
	{rule: "R05", name: "empty", rows: craft("4", "chest", "", "cm", ""), want: "value: rows.cell-empty; expected rows.number-within [rows.above 0 rows.at-most 3000]"},
	{rule: "R05", name: "columns together", edits: []string{"sizes.csv", "craft,16,years,16,", "craft,16,years,,"}, want: "position: rows.empty-unless  scale band"},
	{rule: "R05", name: "columns in order", edits: []string{"ratios.csv", "m,chest,83,100,", "m,chest,83,80,"}, want: "height_high_cm: rows.not-above 80 height_low_cm"},
	{rule: "R05", name: "all allowed", rows: measured("104", "m", "chest", "p50", "53.7")},

	{rule: "R06", name: "row twice", rows: craft("4", "chest", "58.5", "cm", "") + craft("4", "chest", "58.5", "cm", ""), want: "p.csv:3: stop R06: craft 4 chest: rows.row-already 2 58.5; rows.fix {p.csv 3 [craft 4 both chest given cm]"},
	{rule: "R06", name: "key twice", rows: craft("4", "chest", "58.5", "cm", "") + craft("4", "chest", "59", "cm", ""), want: "craft 4 chest: rows.row-already 2 58.5; rows.keep-published"},
	{rule: "R06", name: "in another table", edits: []string{"garments.csv", "vest,Vest,", "cardigan,Vest,"}, want: "garments.csv:4:1: stop R06: id: rows.key-already cardigan 3; rows.remove-one"},
	{rule: "R06", name: "another unit", rows: craft("4", "chest", "58.5", "cm", "") + craft("4", "chest", "23", "in", "")},

	{rule: "R07", name: "chart", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft,", "kraft,", 1), want: "p.csv:2:1: stop R07: chart: rows.unknown kraft charts.csv; expected rows.one-of [craft craft-head"},
	{rule: "R07", name: "size", rows: craft("5", "chest", "61", "cm", ""), want: "size: rows.unknown-size craft 5; expected rows.one-of [3m 6m"},
	{rule: "R07", name: "measurement", rows: craft("4", "bust", "58.5", "cm", ""), want: "measurement: rows.unknown bust measurements.csv"},
	{rule: "R07", name: "source", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft-2018", "craft-2019", 1), want: "source: rows.unknown craft-2019 sources.csv"},
	{rule: "R07", name: "in another table", edits: []string{"parts.csv", "pullover,chest,", "pulover,chest,"}, want: "garment: rows.unknown pulover garments.csv; rows.correct-or-add"},
	{rule: "R07", name: "all there", rows: craft("4", "chest", "58.5", "cm", "")},

	{rule: "R08", name: "sizes in another order", rows: craft("6", "chest", "63.5", "cm", "") + craft("4", "chest", "58.5", "cm", ""), want: "p.csv:3: warn R08: rows.belongs-before 2; expected rows.order (rows.out-of-order 1); rows.rewrite"},
	{rule: "R08", name: "in another table", edits: []string{"sources.csv", "memory,\"Rec", "a-memory,\"Rec"}, want: "sources.csv:7: warn R08: rows.belongs-before 6; expected rows.order (rows.out-of-order 1); rows.rewrite"},
	{rule: "R08", name: "in order", rows: craft("4", "chest", "58.5", "cm", "") + craft("6", "chest", "63.5", "cm", "")},

	{rule: "R09", name: "published by nobody", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft-2018", "memory", 1), want: "basis: rows.no-document published memory; expected rows.document-or-memory"},
	{rule: "R09", name: "remembered from a document", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "published", "memory", 1), want: "basis: rows.remembered craft-2018; rows.read-or-note"},
	{rule: "R09", name: "remembered", rows: strings.NewReplacer("craft-2018", "memory", "published", "memory").Replace(craft("4", "chest", "58.5", "cm", ""))},

	{rule: "R10", name: "review to come", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "read twice", "TBD", 1), want: "review: rows.placeholder TBD; expected rows.review"},
	{rule: "R10", name: "where nowhere", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "p. 15", "?", 1), want: "where: rows.placeholder ?; expected rows.where"},
	{rule: "R10", name: "a page of the web", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "p. 15", "https://www.example.org/chart", 1), want: "where: rows.web-page https://www.example.org/chart; expected rows.where"},
	{rule: "R10", name: "a count where the place is", rows: strings.Replace(measured("104", "m", "chest", "p50", "53.7"), "individual records,computed,read twice,,98", "\"p. 3, n=98\",computed,read twice,,", 1), want: "n: rows.count-in-where n=98; rows.fix {p.csv 2 [measured 104 m chest p50 cm] n  98}"},
	{rule: "R10", name: "worked out of nobody knows how many", rows: strings.Replace(measured("104", "m", "chest", "p50", "53.7"), ",,98", ",,", 1), want: "n: rows.no-count p50; expected rows.count"},
	{rule: "R10", name: "counted", rows: measured("104", "m", "chest", "p50", "53.7")},
	{rule: "R24", name: "other children", rows: strings.Replace(measured("104", "m", "chest", "p75", "55.2"), ",,98", ",,89", 1), want: "measured 104 m chest p75: rows.children 89; expected rows.children-of 98 p50"},
	{rule: "R12", name: "part of a child", rows: strings.Replace(measured("104", "m", "chest", "p50", "53.7"), ",,98", ",,98.5", 1), want: "n: rows.children 98.5; expected rows.whole-number"},
	{rule: "R10", name: "a document on the web", edits: []string{"sources.csv", ",no,UM-HSRI-77-17", ",no,https://example.org/report.pdf"}, want: "warn R10: cpsc-1977: rows.web-page https://example.org/report.pdf; expected rows.locator"},
	{rule: "R10", name: "the address of a DOI", edits: []string{"sources.csv", ",no,UM-HSRI-77-17", ",no,https://doi.org/10.1234/ab-5"}, want: "rows.not-allowed https://doi.org/10.1234/ab-5; expected rows.locator; rows.fix {sources.csv 4 [cpsc-1977] locator https://doi.org/10.1234/ab-5 10.1234/ab-5}"},
	{rule: "R10", name: "a digit of an ISBN", edits: []string{"sources.csv", ",no,UM-HSRI-77-17", ",no,ISBN 978-3-16-148410-1"}, want: "rows.check-digit ISBN 978-3-16-148410-1"},
	{rule: "R10", name: "an ISBN", edits: []string{"sources.csv", ",no,UM-HSRI-77-17", ",no,ISBN 978-3-16-148410-0"}},
	{rule: "R10", name: "an ISSN", edits: []string{"sources.csv", ",no,UM-HSRI-77-17", ",no,ISSN 0378-5955"}},
	{rule: "R10", name: "a report number", edits: []string{"sources.csv", ",no,UM-HSRI-77-17", ",no,UM-HSRI-77-18"}},
	{rule: "R05", name: "more mm than a body has", rows: craft("4", "chest", "3001", "mm", ""), want: "value: rows.not-allowed 3001; expected rows.number-within"},
	{rule: "R05", name: "more cm than a body has", rows: craft("4", "chest", "585", "cm", ""), want: "value: rows.not-allowed 585; expected rows.at-most 300"},
	{rule: "R22", name: "mm beside cm", rows: craft("4", "chest", "58.5", "cm", "") + craft("4", "chest", "595", "mm", ""), want: "rows.copies 58.5 amount 595 mm"},
	{rule: "R22", name: "mm as cm say", rows: craft("4", "chest", "58.5", "cm", "") + craft("4", "chest", "585", "mm", "")},
	{rule: "R23", name: "tails crossed", rows: measured("104", "m", "chest", "p3", "49.2") + measured("104", "m", "chest", "p10", "48.7"), want: "measured 104 m chest p3: rows.value 49.2; expected rows.below-that 48.7 p10"},
	{rule: "R23", name: "mean for sd", rows: measured("104", "m", "chest", "mean", "53.8") + measured("104", "m", "chest", "sd", "53.2"), want: "measured 104 m chest sd: rows.value 53.2; expected rows.sd-of-mean 53.8"},
	{rule: "R23", name: "sd of another", rows: measured("104", "m", "chest", "mean", "53.8") + measured("104", "m", "chest", "sd", "9.1"), want: "expected rows.sd-by-tails"},
	{rule: "R23", name: "mean off", rows: measured("104", "m", "chest", "mean", "57.8"), want: "measured 104 m chest mean: rows.value 57.8; expected rows.between"},
	{rule: "R23", name: "mean and sd", rows: measured("104", "m", "chest", "mean", "53.8") + measured("104", "m", "chest", "sd", "2.3")},
	{rule: "R04", name: "a formula", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "read twice", "=HYPERLINK(1)", 1), want: "review: rows.formula =HYPERLINK(1); expected rows.no-formula"},
	{rule: "R04", name: "a mark of direction", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "read twice", "read \u202etwice", 1), want: "review: rows.unseen-character"},
	{rule: "R02", name: "blank lines at the end", rows: craft("4", "chest", "58.5", "cm", "") + "\n\n", want: "p.csv:3: warn R02: rows.not-canonical 1"},
	{rule: "R09", name: "another source than the chart's", rows: strings.Replace(craft("4", "chest", "58.5", "cm", ""), "craft-2018", "cdc-2000", 1), want: "source: rows.other-source cdc-2000; expected rows.source-of-chart craft-2018; rows.correct-or-note R09"},
	{rule: "R09", name: "another source, explained", rows: strings.Replace(craft("4", "chest", "58.5", "cm", "R09: cited there"), "craft-2018", "cdc-2000", 1)},
	{rule: "R10", name: "both said", rows: craft("4", "chest", "58.5", "cm", "")},

	{rule: "R11", name: "a girth in kg", rows: craft("4", "chest", "58.5", "kg", ""), want: "unit: rows.in-unit chest girth kg; expected rows.units [cm mm in]"},
	{rule: "R11", name: "a weight in cm", rows: strings.Replace(measured("104", "m", "weight", "p50", "16.8"), ",kg,", ",cm,", 1), want: "unit: rows.in-unit weight cm; expected rows.units [kg lb oz]"},
	{rule: "R11", name: "a weight in kg", rows: measured("104", "m", "weight", "p50", "16.8")},

	{rule: "R12", name: "a tenth of an inch", rows: craft("4", "chest", "23.1", "in", ""), want: "value: rows.written 23.1 in; expected rows.eighths; rows.as-published"},
	{rule: "R12", name: "thousandths", rows: craft("4", "chest", "58.505", "cm", ""), want: "value: rows.written 58.505 cm; expected rows.two-places; rows.as-published"},
	{rule: "R12", name: "off the chart's grid", rows: craft("4", "chest", "58.4", "cm", ""), want: "craft 4 chest: rows.value 58.4; expected rows.half-cm; rows.as-printed"},
	{rule: "R12", name: "on the grid", rows: craft("4", "chest", "58", "cm", "")},
	{rule: "R12", name: "hundredths in the survey", rows: measured("104", "m", "chest", "p50", "53.71")},

	{rule: "R20", name: "smaller than the size below", rows: craft("8", "chest", "60", "cm", ""), want: "craft 8 chest: rows.value 60; expected rows.more-than-size 63.5 6 (rows.less 3.5); rows.correct-or-note"},
	{rule: "R20", name: "no larger", rows: craft("8", "chest", "63.5", "cm", ""), want: "craft 8 chest: rows.value 63.5; expected rows.more-than-size 63.5 6 (rows.same); rows.correct-or-note"},
	{rule: "R20", name: "larger than the size above", rows: craft("8", "chest", "72", "cm", ""), want: "craft 10 chest: rows.value 71; expected rows.more-than-size 72 8 (rows.less 1); rows.correct-or-note"},
	{rule: "R20", name: "explained", rows: craft("8", "chest", "60", "cm", "R20 R29: so printed"), want: "note R20: craft 8 chest: rows.value 60; expected rows.more-than-size 63.5 6 (rows.less 3.5); rows.note-says so printed"},
	{rule: "R20", name: "another rule explained", rows: craft("8", "chest", "60", "cm", "R21 R29: so printed"), want: "warn R20: craft 8 chest: rows.value 60; expected rows.more-than-size 63.5 6 (rows.less 3.5); rows.correct-or-note R20"},
	{rule: "R20", name: "no rule named", rows: craft("8", "chest", "60", "cm", "so printed"), want: "warn R20: craft 8 chest"},
	{rule: "R20", name: "further off than a note explains", rows: craft("8", "chest", "50", "cm", "R20: so printed"), want: "warn R20: craft 8 chest: rows.value 50; expected rows.more-than-size 63.5 6 (rows.less 13.5); rows.beyond-note"},
	{rule: "R20", name: "explained by the row before", rows: craft("6", "calf", "24", "cm", "R20: so printed") + craft("8", "calf", "23", "cm", ""), want: "warn R20: craft 8 calf"},
	{rule: "R20", name: "larger", rows: craft("8", "chest", "67.5", "cm", "")},

	{rule: "R21", name: "swapped digits", rows: craft("6", "waist", "75", "cm", ""), want: "craft 6 waist: rows.value 75; expected rows.about 57 [rows.size-with 4 54.5 rows.size-with 8 59.5] (rows.more-or-less 18); rows.read-again"},
	{rule: "R21", name: "at the end", rows: craft("16", "waist", "96.5", "cm", ""), want: "R21: craft 16 waist: rows.value 96.5; expected rows.about 71.5 [rows.size-with 14 67.5]"},
	{rule: "R21", name: "half a centimetre", rows: craft("6", "waist", "57.5", "cm", "")},

	{rule: "R22", name: "another size's inches", rows: craft("4", "chest", "25", "in", ""), want: "stop R22: craft 4 chest: rows.copies 58.5 amount 25 in; expected rows.nearest-half 63.5 (rows.off -5); rows.read-both-again"},
	{rule: "R22", name: "rounded the wrong way", rows: craft("4", "chest", "58", "cm", ""), want: "warn R22: craft 4 chest: rows.copies 58 amount 23 in; expected rows.nearest-half 58.42"},
	{rule: "R22", name: "rounded", rows: craft("4", "chest", "58.5", "cm", "as printed")},

	{rule: "R23", name: "quarter above the median", rows: measured("104", "both", "chest", "p25", "53.4"), want: "stop R23: measured 104 chest p25: rows.value 53.4; expected rows.below-that 53.3 p50; rows.read-both-again"},
	{rule: "R23", name: "quarter below the median", rows: measured("104", "both", "chest", "p25", "52.2")},

	{rule: "R24", name: "a size left out", rows: craft("4", "calf", "22", "cm", "") + craft("8", "calf", "25.5", "cm", ""), want: "craft 8 calf: rows.gap cm 4 8; expected rows.sizes-between 1"},
	{rule: "R24", name: "one end of a range", rows: strings.Replace(craft("4", "calf", "22", "cm", ""), "given", "low", 1), want: "craft 4 calf low: rows.without low high cm; expected rows.both-statistics"},
	{rule: "R24", name: "one unit at one size", rows: craft("4", "calf", "22", "cm", "") + craft("6", "calf", "24", "cm", "") + craft("6", "calf", "9.5", "in", ""), want: "craft 4 calf: rows.one-unit 22 in; expected rows.both-units"},
	{rule: "R24", name: "all there", rows: craft("4", "calf", "22", "cm", "") + craft("6", "calf", "24", "cm", "")},

	{rule: "R25", name: "waist above chest", rows: craft("4", "waist", "59", "cm", ""), want: "craft 4 waist: rows.value 59; expected rows.below-that 58.5 chest; rows.correct-or-note"},
	{rule: "R25", name: "waist below chest", rows: craft("4", "waist", "55", "cm", "")},

	{rule: "R26", name: "arm too short", rows: craft("6", "neck_to_wrist", "46", "cm", ""), want: "craft 6 neck_to_wrist: rows.leaves-drop 46 4; expected rows.drop-by-armhole 6.25 18.75 12.5; rows.correct-or-note"},
	{rule: "R26", name: "arm a little longer", rows: craft("6", "neck_to_wrist", "53", "cm", "")},

	{rule: "R27", name: "no child's calf", rows: craft("8", "calf", "36", "cm", ""), want: "craft 8 calf: rows.value 36; expected rows.length-at-height {22.2"},
	{rule: "R27", name: "a child's calf", rows: craft("8", "calf", "26", "cm", "")},

	{rule: "R28", name: "outside both", rows: measured("104", "both", "chest", "p50", "54.4"), want: "measured 104 chest p50: rows.value 54.4; expected rows.between-sexes 53.7 52.8"},
	{rule: "R28", name: "between", rows: measured("104", "both", "chest", "p50", "53.4")},

	{rule: "R29", name: "another value", rows: craft("4", "chest", "60", "cm", ""), want: "warn R29: craft 4 chest: rows.changed 60 58.5 (rows.change 1.5); rows.explain-change"},
	{rule: "R29", name: "another value, explained", rows: craft("4", "chest", "60", "cm", "R29: misread before"), want: "note R29: craft 4 chest: rows.changed 60 58.5 (rows.change 1.5); rows.note-says misread before"},
	{rule: "R29", name: "another value, with a note that was there", rows: craft("2", "waist", "55.5", "cm", oldNote), want: "warn R29: craft 2 waist: rows.changed 55.5 53.5"},
	{rule: "R25", name: "another value, with a note that was there", rows: craft("2", "waist", "54.5", "cm", oldNote), want: "warn R25: craft 2 waist: rows.value 54.5"},
	{rule: "R29", name: "the same value", rows: craft("4", "chest", "58.5", "cm", "")},

	{rule: "R30", name: "inches in a column of cm", rows: calves(7.9, 8.7, 9.6, 10.6, 11.4, 12.2), want: "craft 2 calf: rows.column-unit in; expected rows.as-surveyed; rows.correct-or-note R30"},
	{rule: "R30", name: "centimetres", rows: calves(20, 22, 24.5, 27, 29, 31)},

	{rule: "R40", name: "no such column", edits: []string{"derivations.csv", "0.41*child.trunk,", "0.41*child.trunck,"}, want: `stop R40: formula: rise: no measurement "trunck" in the formula`},
	{rule: "R40", name: "no formula", edits: []string{"derivations.csv", "2.4*measured.hand_breadth", "2.4 hands"}, want: `formula: hand: "2.4 hands" is not a term; write factor*chart.measurement`},
	{rule: "R40", name: "legs of half the height", edits: []string{"derivations.csv", "0.97*measured.height - 0.97*", "0.97*measured.height - 0.79*"}, want: "measured 110 inside_leg: rows.derived 58.1455; expected rows.derived-at-height 43."},
	{rule: "R40", name: "read from another measurement", edits: []string{"derivations.csv", "child,years,head,measured.head,", "child,years,head,measured.wrist,"}, want: "formula: rows.not-read measured.wrist head; expected rows.read-or-derived head"},
	{rule: "R40", name: "a little more", edits: []string{"derivations.csv", "2.4*measured.hand_breadth", "2.41*measured.hand_breadth"}},

	{rule: "R41", name: "swapped digits", edits: []string{"sizes.csv", "measured,104,height,104,", "measured,104,height,140,"}, want: "measured 104: rows.at-position 140; expected rows.value 104; rows.fix-or-label {sizes.csv 57 [measured 104] position 140 104}"},
	{rule: "R41", name: "another scale", edits: []string{"sizes.csv", "craft,3m,months,3,", "craft,3m,years,3,"}, want: "craft 3m: rows.on-scale years; expected rows.scales [months]; rows.fix-or-label {sizes.csv 2 [craft 3m] scale years months}"},
	{rule: "R41", name: "ages turned round", edits: []string{"sizes.csv", "2-3,years,2.5,2,3", "2-3,years,2.5,3,2"}, want: "craft-foot 2-3: rows.ages 3 2; expected rows.lower-first"},
	{rule: "R41", name: "elsewhere in its band", edits: []string{"sizes.csv", "2-3,years,2.5,2,3", "2-3,years,2.7,2,3"}, want: "craft-foot 2-3: rows.at-position 2.7; expected rows.value 2.5; rows.fix-or-label {sizes.csv 24 [craft-foot 2-3] position 2.7 2.5}"},
	{rule: "R41", name: "another note", edits: []string{"sizes.csv", "US shoe 5-9", "US shoes 5-9"}},

	{rule: "R42", name: "use above high", edits: []string{"ease.csv", "fit,upper,classic,skin,chest,5,10,7.5,", "fit,upper,classic,skin,chest,5,10,10.5,"}, want: "fit upper classic skin chest: rows.low-use-high 5 10.5 10; expected rows.in-that-order"},
	{rule: "R42", name: "classes in another order", edits: []string{"ease.csv", "fit,upper,classic,skin,chest,5,10,7.5,", "fit,upper,classic,skin,chest,5,15,14,"}, want: "fit upper loose skin chest: rows.value 12.5; expected rows.more-than 14 classic"},
	{rule: "R42", name: "two units", edits: []string{"ease.csv", "fit,upper,classic,skin,chest,5,10,7.5,cm", "fit,upper,classic,skin,chest,5,10,7.5,in"}, want: "fit upper classic skin chest: rows.unit-beside in cm; expected rows.one-unit-for-all"},
	{rule: "R42", name: "a little more", edits: []string{"ease.csv", "fit,upper,classic,skin,chest,5,10,7.5,", "fit,upper,classic,skin,chest,5,10,8,"}},

	{rule: "R43", name: "a share in cm", edits: []string{"lengths.csv", "hat,hat_height,share,,38,%", "hat,hat_height,share,,38,cm"}, want: "hat hat_height share: rows.in-unit share cm; expected rows.share-unit"},
	{rule: "R43", name: "growth of a hand in one season", edits: []string{"lengths.csv", "socks,foot_length,growth,,0.5,", "socks,foot_length,growth,,5.0,"}, want: "socks foot_length growth: rows.value 5; expected rows.growth-range 2.5 3"},
	{rule: "R43", name: "growth of a hand in one season, excepted", edits: []string{"lengths.csv", "socks,foot_length,growth,,0.5,", "socks,foot_length,growth,,5.0,",
		"exceptions.csv", "R27,body.csv,craft 2 chest,", "R43,lengths.csv,socks foot_length growth,slippers that are felted\nR27,body.csv,craft 2 chest,"}},
	{rule: "R43", name: "unlike another garment", edits: []string{"lengths.csv", "trousers,rise,growth,,0.5,", "trousers,rise,growth,,0.2,"}, want: "one-piece rise growth: rows.value 0.5; expected rows.as-other-garment 0.2 trousers 28"},
	{rule: "R43", name: "instead, always", edits: []string{"lengths.csv", "cardigan,front_opening,style,,-5,cm,the front neck is about 5 cm deeper than the nape,common-practice,common practice,", "cardigan,front_opening,style,,-5,cm,the front neck is about 5 cm deeper than the nape,common-practice,common practice,trunk"}, want: "cardigan front_opening style: rows.instead-in-role trunk style; expected rows.role-option"},
	{rule: "R43", name: "another share", edits: []string{"lengths.csv", "hat,hat_height,share,,38,%", "hat,hat_height,share,,40,%"}},

	{rule: "R47", name: "a class left out", edits: []string{"yarns.csv", "1,super fine,27,32,21,32,2.25,3.25,2.25,3.5,", "8,super fine,27,32,21,32,2.25,3.25,2.25,3.5,"}, want: "class 8: rows.nth-class 2; expected rows.class 1"},
	{rule: "R47", name: "more stitches of thicker yarn", edits: []string{"yarns.csv", "4,medium,16,20,", "4,medium,16,25,"}, want: "class 4: rows.stitches 25; expected rows.fewer-than-class 24 3"},
	{rule: "R47", name: "needles with a gap", edits: []string{"yarns.csv", "4,medium,16,20,11,14,4.5,", "4,medium,16,20,11,14,5,"}, want: "class 4: rows.from-mm 5; expected rows.mm-class-ends 4.5 3"},
	{rule: "R47", name: "ends turned round", edits: []string{"yarns.csv", "4,medium,16,20,", "4,medium,20,16,"}, want: "class 4: rows.from-to 20 16; expected rows.lower-first"},
	{rule: "R47", name: "one stitch less", edits: []string{"yarns.csv", "4,medium,16,20,", "4,medium,16,19,"}},

	{rule: "R07", name: "an exception to no rule", edits: []string{"exceptions.csv", "R21,body.csv", "R99,body.csv"}, want: "exceptions.csv:9:1: stop R07: rule: rows.no-rule R99; expected rows.rule-code"},
	{rule: "R07", name: "an exception in no table", edits: []string{"exceptions.csv", "R21,body.csv", "R21,bodies.csv"}, want: "exceptions.csv:9:5: stop R07: table: rows.no-table bodies.csv; expected rows.table-file"},
	{rule: "R48", name: "a figure for nothing", edits: []string{"practice.csv", "hem_depth,4,", "hem_height,4,"}, want: "hem_height: rows.practice-unused; expected rows.practice-used"},
	{rule: "R48", name: "another unit", edits: []string{"practice.csv", "hem_depth,4,cm,", "hem_depth,1.5,in,"}, want: "hem_depth: rows.unit in; expected rows.unit-read cm"},
	{rule: "R48", name: "lower above upper", edits: []string{"practice.csv", "bridge_share_low,8,", "bridge_share_low,13,"}, want: "bridge_share_low: rows.value 13; expected rows.below-that 12 bridge_share_high"},
	{rule: "R48", name: "source and basis", edits: []string{"practice.csv", "common-practice,common practice", "common-practice,judgement"}, want: "neck_drop: rows.basis-of-source judgement common-practice; expected rows.basis common practice"},
	{rule: "R48", name: "a figure left out", edits: []string{"practice.csv", "hem_depth,4,cm,depth of a ribbed hem,common-practice,common practice,\n", ""}, want: "hem_depth: rows.no-row; expected rows.builtin-used 4"},
	{rule: "R48", name: "inches for cm", edits: []string{"practice.csv", "hem_depth,4,", "hem_depth,1.6,"}, want: "hem_depth: rows.value 1.6; expected rows.near-builtin 4"},
	{rule: "R48", name: "a deeper hem", edits: []string{"practice.csv", "hem_depth,4,", "hem_depth,6,"}},
	{rule: "R48", name: "a zipper more", edits: []string{"practice.csv", "button_spacing,6,", "stocked_zipper_26,26,in,length of zipper that shops commonly stock,memory,memory,\nbutton_spacing,6,"}},

	{rule: "R44", name: "a girth that is a length", edits: []string{"measurements.csv", "neck,neck girth,girth,", "neck,neck girth,length,"}, want: "neck: rows.of-kind neck girth length; expected rows.kind girth"},
	{rule: "R44", name: "a part that goes round a length", edits: []string{"parts.csv", "nape_to_waist,length\n", "nape_to_waist,girth\n"}, want: "dress body_length: rows.part-from girth nape_to_waist length; expected rows.kind-or-share length"},
	{rule: "R44", name: "a length that is a share of a girth", edits: []string{"parts.csv", "hat,hat_height,crown to brim,", "hat,hat_height,from crown to brim,"}},

	{rule: "R45", name: "spread of a fifth more children", edits: []string{"relations.csv", "m,chest,chest,sd,83,115,0.0393,", "m,chest,chest,sd,83,115,0.3930,"}, want: "m chest chest: rows.spread 0.393; expected rows.spread-range 0.25"},
	{rule: "R45", name: "boys unlike girls", edits: []string{"relations.csv", "m,weight,head,r,83,115,0", "m,weight,head,r,83,115,-0"}, want: "m weight head: rows.of-boys -0.3058; expected rows.near-sex 0.3682 f"},
	{rule: "R45", name: "ratio out of step", edits: []string{"ratios.csv", "m,chest,115,130,0.4387,0.4931,", "m,chest,115,130,0.3487,0.4931,"}, want: "m chest 115: rows.value 0.3487; expected rows.near-class-before 0.4715"},
	{rule: "R45", name: "ratio in step", edits: []string{"ratios.csv", "m,chest,115,130,0.4387,0.4931,", "m,chest,115,130,0.4378,0.4931,"}},

	{rule: "R45", name: "a power exchanged", edits: []string{"heights.csv", "m,213.5,standing,1.46645", "m,213.5,standing,4.16645"}, want: "m 213.5 standing: rows.value 4.16645; expected rows.near-ages"},
	{rule: "R46", name: "a source for nothing", edits: []string{"sources.csv", "craft-2018,", "craft-2017,A,B,C,,D,E,no,\ncraft-2018,"}, want: "craft-2017: rows.source-uncited; rows.remove-or-use"},
	{rule: "R46", name: "a size without values", edits: []string{"sizes.csv", "craft,16,years,16,", "craft,15,years,15,,,\ncraft,16,years,16,"}, want: "craft 15: rows.size-empty; rows.remove-or-use"},
	{rule: "R46", name: "trousers of the upper body", edits: []string{"garments.csv", "trousers,Trousers,lower,", "trousers,Trousers,upper,"}, want: "trousers thigh: rows.no-ease trousers upper; expected rows.ease-or-length"},
	{rule: "R46", name: "another title", edits: []string{"garments.csv", "trousers,Trousers,lower,", "trousers,Long trousers,lower,"}},

	{rule: "X02", name: "an exception that is none any more", rows: craft("2", "hip", "54", "cm", "") + craft("2", "hip", "21.25", "in", ""), want: "p.csv: warn X02: craft 2 hip: rows.exception-unused R27; expected rows.exception-reason the trade chart's girths are large at the small end, as the note on the chart says; rows.exception-fix"},
	{rule: "X02", name: "an exception of an edition without them", edits: []string{"exceptions.csv", "", "-", "body.csv", "craft,2,both,hip,given,56,cm", "craft,2,both,hip,given,54,cm", "body.csv", "craft,2,both,hip,given,22,in", "craft,2,both,hip,given,21.25,in"}, want: "craft 2 hip: rows.exception-unused R27; expected rows.exception-reason the trade chart's girths are large at the small end, as the note on the chart says; rows.exception-fix"},
	{rule: "X02", name: "an exception that stands", rows: craft("2", "hip", "56", "cm", "")},
}

func TestEachRowRule(t *testing.T) {
	fired, quiet, edited := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, tt := range ruleCases {
		t.Run(tt.rule+" "+tt.name, func(t *testing.T) {
			var said []string
			for _, f := range findingsOf(t, tt) {
				if f.Rule == tt.rule {
					said = append(said, f.String())
				}
				for _, e := range f.CellEdits() {
					requireSettled(t, tt, f, e)
					edited[f.Rule] = true
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
	for _, rule := range []string{"R04", "R06", "R11", "R41", "R44", "R46"} {
		require.True(t, edited[rule], "%s proposes no edit", rule)
	}
}

func findingsOf(t *testing.T, tt ruleCase) []Finding {
	t.Helper()
	if tt.edits != nil {
		files := editedTables(t, tt)
		return findingsIn(t, files)
	}
	own := ownData(t)
	raw := tt.raw
	if tt.rows != "" {
		raw = bodyHead + tt.rows
	}
	findings, err := CheckRows(strings.NewReader(raw), "p.csv", own)
	require.NoError(t, err)
	return findings
}

// editedTables are the frozen tables with the replacements of a case.
func editedTables(t *testing.T, tt ruleCase) fstest.MapFS {
	t.Helper()
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
