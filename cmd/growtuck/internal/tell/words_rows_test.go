package tell

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/validate"
)

// Each fact about rows of the tables has its words, and with inches where they
// are asked for.
func TestRowFactsInWords(t *testing.T) {
	fact := sizing.NewFact
	told := map[string]bool{}
	for _, c := range []struct {
		fact sizing.Fact
		want string
	}{
		{fact("rows.cannot-open", "open ease.csv: file does not exist"), "the table cannot be opened: open ease.csv: file does not exist"},
		{fact("rows.no-header"), "no header"},
		{fact("rows.header", []string{"chart", "size"}), "chart,size"},
		{fact("rows.separator", ";"), `fields separated by ";"`},
		{fact("rows.commas"), "commas"},
		{fact("rows.save-as-csv"), "save the file as comma-separated values"},
		{fact("rows.columns-missing", []string{"basis"}), "no column basis"},
		{fact("rows.columns-strange", "body.csv", []string{"val"}), `columns that body.csv does not have: "val"`},
		{fact("rows.columns-differ", []string{"value"}, "body.csv", []string{"val"}), `no column value; columns that body.csv does not have: "val"`},
		{fact("rows.columns-twice"), "a column twice"},
		{fact("rows.utf-16"), "the file is in UTF-16"},
		{fact("rows.utf-8"), "UTF-8"},
		{fact("rows.returns-alone"), "lines that end in carriage returns"},
		{fact("rows.titles", "Chart,size"), `the header "Chart,size"`},
		{fact("rows.byte-order-mark"), "a byte order mark before the header"},
		{fact("rows.blank-before-header"), "blank lines before the header"},
		{fact("rows.none"), "none"},
		{fact("rows.carriage-returns", 2), "2 carriage returns, the first on this line"},
		{fact("rows.line-feeds"), "lines that end in LF alone"},
		{fact("rows.not-canonical", 1), "1 row not in canonical form, the first on this line"},
		{fact("rows.canonical"), "quotes only where needed, no blank lines, a line end after the last row"},
		{fact("rows.rewrite"), "growtuck rows --write rewrites the file"},
		{fact("rows.quote-open"), "a quote that is not closed, or text after a closing quote"},
		{fact("rows.bare-quote"), "a quote inside a cell that is not in quotes"},
		{fact("rows.quoting"), `cells with a comma or a quote in quotes, and quotes inside them doubled: "9 3/4"" wide"`},
		{fact("rows.fields", 13), "13 fields"},
		{fact("rows.fields-wanted", 2, []string{"chart", "size"}), "2: chart, size"},
		{fact("rows.quote-commas"), "put cells with a comma in quotes"},
		{fact("rows.belongs-before", 13), "the row belongs before line 13"},
		{fact("rows.order"), "rows in the order of the tables they name"},
		{fact("rows.out-of-order", 1), "1 row out of order"},
		{fact("rows.more", 2104), "2104 more findings of this rule"},
		{fact("rows.fix-these-first"), "fix those shown and check again"},
		{fact("rows.exception-unused", "R27"), "the known exception to R27 no longer fires"},
		{fact("rows.exception-reason", "girths are large"), "a finding for the exception to explain: girths are large"},
		{fact("rows.no-rule", "R99"), `"R99" is not a rule`},
		{fact("rows.rule-code"), "the code of a rule for tables, such as R20"},
		{fact("rows.no-table", "bodies.csv"), `"bodies.csv" is not a table`},
		{fact("rows.table-file"), "a file of the tables, as body.csv"},
		{fact("rows.exception-fix"), "put the value back, or remove the exception from exceptions.csv"},
		{fact("rows.cell", "4"), `"4"`},
		{fact("rows.cell-empty"), "is empty"},
		{fact("rows.cell-long", 3000), "is 3000 bytes long"},
		{fact("rows.not-utf8", "gr\xf6\xdfer"), "\"gr\\xf6\\xdfer\" is not UTF-8"},
		{fact("rows.save-utf8"), "save the file as UTF-8, or give --latin-1 if it is in Latin-1"},
		{fact("rows.unseen-character", "as\u00a0printed"), `"as\u00a0printed" contains an invisible character`},
		{fact("rows.plain-text"), "plain text on one line"},
		{fact("rows.space-around", "4 "), `"4 " has space around it`},
		{fact("rows.not-number", "NaN"), `"NaN" is not a plain number`},
		{fact("rows.number"), "digits with a decimal point, such as 24.5"},
		{fact("rows.not-allowed", "boys"), `"boys" is not allowed`},
		{fact("rows.empty-if", "", "scale", "band"), `"" is empty, and scale is band`},
		{fact("rows.empty-unless", "", "scale", "band"), `"" is empty, and scale is anything but band`},
		{fact("rows.not-above", "80", "height_low_cm"), `"80" is not above height_low_cm`},
		{fact("rows.less-than", "5", "low"), `"5" is below low`},
		{fact("rows.web-page", "https://example.org"), `"https://example.org" is a page of the web, which is not the document`},
		{fact("rows.other-source", "cdc-2000"), "cites cdc-2000"},
		{fact("rows.source-of-chart", "cpsc-1977"), "cpsc-1977, the source of the chart"},
		{fact("rows.formula", "=1+1"), `"=1+1" begins as a formula, which a spreadsheet works out`},
		{fact("rows.no-formula"), "text that begins with a letter, a digit or a bracket"},
		{fact("rows.placeholder", "TBD"), `"TBD" is a placeholder`},
		{fact("rows.where"), "page or table of the document"},
		{fact("rows.count-in-where", "n=57"), `"n=57" stands in the column where`},
		{fact("rows.no-count", "mean"), "a computed mean without the count of children"},
		{fact("rows.count"), "the number of children behind it, in column n"},
		{fact("rows.locator"), "the document's DOI, ISBN, ISSN or report number, or nothing"},
		{fact("rows.check-digit", "978-3-16-148410-1"), `"978-3-16-148410-1" is no ISBN or ISSN: its last digit does not agree with the others`},
		{fact("rows.review"), "how the value was confirmed: who read the source twice, or what agrees with it"},
		{fact("rows.one-of", []string{"m", "f", "both"}), "one of m, f, both"},
		{fact("rows.id"), "lowercase letters and digits, joined by - or _"},
		{fact("rows.places", []string{"hood", "knee"}), "places, separated by spaces: hood, knee"},
		{fact("rows.characters", 12), "at most 12 characters"},
		{fact("rows.above", 0.0), "above 0"},
		{fact("rows.at-least", 20), "at least 20"},
		{fact("rows.below", 3.0), "below 3"},
		{fact("rows.at-most", 2000), "at most 2000"},
		{fact("rows.all-of", []sizing.Fact{fact("rows.one-of", []string{"m", "f", "both"})}), "one of m, f, both"},
		{fact("rows.all-of", []sizing.Fact{fact("rows.id"), fact("rows.characters", 40)}), "lowercase letters and digits, joined by - or _, at most 40 characters"},
		{fact("rows.any-number"), "a number"},
		{fact("rows.number-within", []sizing.Fact{fact("rows.above", 0.0), fact("rows.at-most", 300.0)}), "a number above 0 and at most 300"},
		{fact("rows.some-text"), "some text"},
		{fact("rows.key-already", "cardigan", 3), "cardigan is already on line 3"},
		{fact("rows.keep-published"), "keep the one that the source has"},
		{fact("rows.fix", validate.CellEdit{Line: 3}), "remove line 3"},
		{fact("rows.fix", validate.CellEdit{Line: 3, Column: "unit", From: "cm", To: "kg"}), "set unit to kg"},
		{fact("rows.fix", validate.CellEdit{Line: 3, Column: "where", From: "p. 15 ", To: "p. 15"}), `set where to "p. 15"`},
		{fact("rows.fix", validate.CellEdit{Line: 3, Column: "note", From: "none"}), "leave note empty"},
		{fact("rows.remove-one"), "remove one"},
		{fact("rows.unknown", "vest", "garments.csv"), `"vest" is not in garments.csv`},
		{fact("rows.unknown-size", "craft", "5"), `chart craft has no size "5" in sizes.csv`},
		{fact("rows.correct-or-add"), "correct it, or add it there first"},
		{fact("rows.no-document", "published", "memory"), "published, but source memory is not a document: it has no edition"},
		{fact("rows.document-or-memory"), "a source that can be read, or basis memory"},
		{fact("rows.remembered", "craft-2018"), "memory, but source craft-2018 is a document"},
		{fact("rows.read-or-note"), "read the value there, or explain in note why not"},
		{fact("rows.in-unit", "chest girth", "kg"), "chest girth in kg"},
		{fact("rows.units", []string{"cm", "in"}), "cm or in"},
		{fact("rows.value", fact("amount", 9.75, "in")), "9.75 in"},
		{fact("rows.between", fact("amount", 480.0, "mm"), fact("amount", 570.0, "mm")), "between 480 mm and 570 mm"},
		{fact("rows.copy-near", fact("amount", 585.0, "mm")), "about 585 mm"},
		{fact("rows.value", sizing.Weight(16.85)), "16.85 kg"},
		{fact("rows.value", 0.3487), "0.3487"},
		{fact("rows.correct-or-note", "R20"), "correct it, or begin the note with R20: and why the source has it"},
		{fact("rows.column-unit", "in"), "the whole column reads as if it were in in"},
		{fact("rows.columns-sexes"), "boys and girls differ the other way round: their columns look exchanged"},
		{fact("rows.columns-swapped", "hip"), "the column reads as hip, and that as this: they look exchanged"},
		{fact("rows.column-shifted", "below"), "the whole column reads as that of the size below"},
		{fact("rows.as-surveyed"), "about what surveyed children of these sizes have"},
		{fact("rows.beyond-note"), "further off than a note explains: read the source again"},
		{fact("rows.note-says", "larger than the chest in the standard"), "the note says: larger than the chest in the standard"},
		{fact("rows.written", "23.1", "in"), "23.1 in"},
		{fact("rows.as-published"), "write the value as published"},
		{fact("rows.as-printed"), "write the value as it is printed"},
		{fact("rows.eighths"), "eighths of an inch, such as 9.75 or 9.125"},
		{fact("rows.two-places"), "at most two decimal places"},
		{fact("rows.four-places"), "at most four decimal places"},
		{fact("rows.half-cm"), "half centimetres, as the rest of the chart has"},
		{fact("rows.quarter-inches"), "quarter inches, as the rest of the chart has"},
		{fact("rows.less", fact("amount", 0.5, "in")), "0.5 in less"},
		{fact("rows.same"), "the same"},
		{fact("rows.more-or-less", -3.0), "−3"},
		{fact("rows.read-again", "R21"), "check the source (swapped digits, another size, another unit?), or begin the note with R21: and why it is so"},
		{fact("rows.gap", "cm", "4", "8"), "nothing in cm between size 4 and size 8"},
		{fact("rows.sizes-between", 1), "rows for the 1 size of the chart between them"},
		{fact("rows.read-both-again"), "check both against the source"},
		{fact("rows.without", "low", "high", "cm"), "low without high, in cm"},
		{fact("rows.both-statistics"), "both, as the source has them"},
		{fact("rows.both-units"), "both units, as at other sizes of the chart"},
		{fact("rows.change", fact("amount", -1.25, "in")), "−1.25 in"},
		{fact("rows.change", sizing.Weight(1.25)), "+1.25 kg"},
		{fact("rows.check-source"), "check it against the source"},
		{fact("rows.explain-change"), "begin the note with R29: and what was wrong before"},
		{fact("rows.gone"), "the row is missing"},
		{fact("rows.put-back"), "put it back, or explain in the change why it was removed"},
		{fact("rows.lower-first"), "the lower value first"},
		{fact("rows.whole-number"), "a whole number"},
		{fact("rows.fix-or-label", validate.CellEdit{Line: 7, Column: "position", From: "140", To: "104"}), "set position to 104, or correct the label"},
		{fact("rows.correct-label"), "correct the label or the position"},
		{fact("rows.on-scale", "years"), "a size on the scale of years"},
		{fact("rows.scales", []string{"months"}), "months"},
		{fact("rows.at-position", 140.0), "at 140"},
		{fact("rows.at-age", 42.0, "months"), "42 months"},
		{fact("rows.oldest"), "up to 36 months or 20 years"},
		{fact("rows.place-taken", 110.0), "at 110, like another size"},
		{fact("rows.own-place"), "a position of its own"},
		{fact("rows.one-age"), "one age without the other"},
		{fact("rows.both-ages"), "both or neither"},
		{fact("rows.ages", 3.0, 2.0), "ages 3 to 2"},
		{fact("rows.outside-ages", 1.0, 6.0, 8.0), "at 1 years, outside its ages 6 to 8"},
		{fact("rows.between-them"), "a position between them"},
		{fact("rows.label-ages"), "the ages in the label"},
		{fact("rows.low-use-high", 5.0, 10.5, 10.0), "low 5, use 10.5, high 10"},
		{fact("rows.in-that-order"), "low, use and high in that order"},
		{fact("rows.no-upper-end"), "no upper limit"},
		{fact("rows.upper-end"), "an upper limit; only oversized has none"},
		{fact("rows.near-low", 5), "within 5 of low"},
		{fact("rows.not-negative"), "0 or more"},
		{fact("rows.rule-fit-layer", "nappy", "any", "skin"), "rule nappy with fit any over skin"},
		{fact("rows.fit-over-skin"), "fit over skin, the others of any fit over clothes"},
		{fact("rows.rows", 1), "1 row"},
		{fact("rows.rows-wanted", 2, []string{"indoor", "winter"}), "2: indoor, winter"},
		{fact("rows.unit-beside", "in", "cm"), "in beside cm"},
		{fact("rows.one-unit-for-all"), "one unit throughout"},
		{fact("rows.more-than", 14.0, "classic"), "more than the 14 of classic"},
		{fact("rows.no-less-than", 2.0, "indoor"), "no less than the 2 of indoor"},
		{fact("rows.share-unit"), "share in %, all else in cm or in"},
		{fact("rows.share-range", 10.0, 95.0), "10 to 95 % of the body measurement"},
		{fact("rows.instead-in-role", "chest", "style"), "chest instead in a row of role style"},
		{fact("rows.option-in-role", "fold-back-cuffs", "style"), "option fold-back-cuffs in a row of role style"},
		{fact("rows.role-option"), "role option, or no option"},
		{fact("rows.mass-unit"), "mass in kg, all else in cm"},
		{fact("rows.of-kind", "neck girth", "length"), "neck girth is of kind length"},
		{fact("rows.kind", "girth"), "girth"},
		{fact("rows.follows", "mass", "widths"), "a mass follows widths"},
		{fact("rows.follows-wanted"), "widths or lengths; none for a mass"},
		{fact("rows.width-follows-lengths", "arm"), "a width of the arm follows lengths"},
		{fact("rows.widths"), "widths"},
		{fact("rows.measured-or-derived"), "a measurement that the survey has, or one worked out from them"},
		{fact("rows.part-from", "girth", "neck", "length"), "a girth from neck, which is a length"},
		{fact("rows.kind-or-share", "length"), "length; or a length that is a share of it"},
		{fact("rows.remove-or-use", validate.CellEdit{Line: 7}), "remove line 7, or add what uses it"},
		{fact("rows.source-uncited"), "no row cites the source"},
		{fact("rows.measurement-unused"), "no chart and no garment uses the measurement"},
		{fact("rows.size-empty"), "the size has no values"},
		{fact("rows.chart-empty"), "the chart has no sizes or no values"},
		{fact("rows.garment-empty"), "the garment has no parts"},
		{fact("rows.no-ease", "trousers", "upper"), "neither ease for garment trousers or group upper, nor an adjustment"},
		{fact("rows.ease-or-length"), "a row in ease.csv or lengths.csv"},
		{fact("rows.opening", "none"), "opening none"},
		{fact("rows.opening-wanted"), "front if it has a part front_opening, else none"},
		{fact("rows.look-at-formula"), "check the formula"},
		{fact("rows.not-read", "measured.wrist", "neck"), `"measured.wrist" is not neck of a chart, as basis read says`},
		{fact("rows.read-or-derived", "neck"), "chart.neck, or basis derived"},
		{fact("rows.statistic-of", "sd", "weight", "weight"), "sd of weight and weight"},
		{fact("rows.sd-or-r"), "sd of a measurement with itself, r of two"},
		{fact("rows.no-height"), "a height is missing"},
		{fact("rows.band-heights"), "the lowest and the highest of the band"},
		{fact("rows.heights", 115.0, 72.8), "heights 115 to 72.8"},
		{fact("rows.heights-from", 100.0, 80.0), "heights from 100, after a row that ends at 80"},
		{fact("rows.no-gaps"), "classes without gaps"},
		{fact("rows.spread", 0.393), "a spread of 0.393"},
		{fact("rows.spread-range", 0.25), "above 0 and at most 0.25"},
		{fact("rows.children", 926.0), "926 children"},
		{fact("rows.children-of", 98.0, "p50"), "the 98 of p50"},
		{fact("rows.near-ages", 1.4723), "about 1.47, going by the ages beside it"},
		{fact("rows.boys-and-girls", 441.0, 0.0), "about the 441 boys and 0 girls together"},
		{fact("rows.near-class-before", 0.393), "near the 0.393 of the class before"},
		{fact("rows.no-row-of-sex", "f"), "no row for sex f"},
		{fact("rows.each-sex", []string{"m", "f", "both"}), "m, f and both"},
		{fact("rows.of-boys", 0.393), "0.393 for boys"},
		{fact("rows.near-sex", 0.0443, "f"), "near the 0.0443 of sex f"},
		{fact("rows.percentiles", 0.0, 0.1419, 0.1698), "0, 0.1419 and 0.1698"},
		{fact("rows.percentiles-nearer"), "percentiles closer together"},
		{fact("rows.from-as-others", 83.0), "from 83, as others have"},
		{fact("rows.up-to-as-others", 185.0), "up to 185, as others have"},
		{fact("rows.nth-class", 2), "the 2nd class"},
		{fact("rows.class", 1), "class 1"},
		{fact("rows.from-to", 20.0, 16.0), "20 to 16"},
		{fact("rows.from-mm", 5.0), "from 5 mm"},
		{fact("rows.mm-class-ends", 4.5, "3"), "the 4.5 mm at which class 3 ends"},
		{fact("rows.stitches", 25.0), "25 stitches"},
		{fact("rows.fewer-than-class", 24.0, "3"), "fewer than the 24 of class 3"},
		{fact("rows.last"), "the last class"},
		{fact("rows.last-class", 7), "class 7 as the last"},
		{fact("rows.unit", "in"), "in"},
		{fact("rows.unit-read", "cm"), "cm, as the program reads it"},
		{fact("rows.near-builtin", 4.0), "near the 4 that is built in"},
		{fact("rows.practice-unused"), "the program does not use it"},
		{fact("rows.practice-used"), "a figure that it uses"},
		{fact("rows.basis-of-source", "judgement", "common-practice"), "judgement, and the source is common-practice"},
		{fact("rows.basis", "common practice"), "common practice"},
		{fact("rows.no-row"), "no row"},
	} {
		require.Equal(t, c.want, Style{}.Fact(c.fact))
		require.Equal(t, c.want, Style{Unit: "in"}.Fact(c.fact))
		told[c.fact.ID] = true
	}
	for _, c := range []struct {
		fact         sizing.Fact
		want, inches string
	}{
		{fact("rows.row-already", 2, sizing.Length(58.5)), "the row is already on line 2, with 58.5 cm", "the row is already on line 2, with 58.5 cm (23 in)"},
		{fact("rows.value", sizing.Length(58.505)), "58.505 cm", "58.505 cm (23 in)"},
		{fact("rows.value", sizing.Range{Low: 40, High: 210}), "40 to 210 cm", "40 to 210 cm (15.7 to 82.7 in)"},
		{fact("rows.below-that", sizing.Length(40.5), "chest"), "below the 40.5 cm of chest", "below the 40.5 cm (15.9 in) of chest"},
		{fact("rows.more-than-size", sizing.Length(50.5), "6m"), "more than the 50.5 cm of size 6m", "more than the 50.5 cm (19.9 in) of size 6m"},
		{fact("rows.less", sizing.Length(9.5)), "9.5 cm less", "9.5 cm (3.7 in) less"},
		{fact("rows.about", 38.5, []sizing.Fact{fact("rows.size-with", "12m", sizing.Length(31.5)), fact("rows.size-with", "24m", sizing.Length(45.5))}), "about 38.5, going by size 12m with 31.5 cm and size 24m with 45.5 cm", "about 38.5, going by size 12m with 31.5 cm (12.4 in) and size 24m with 45.5 cm (17.9 in)"},
		{fact("rows.size-with", "12m", sizing.Length(31.5)), "size 12m with 31.5 cm", "size 12m with 31.5 cm (12.4 in)"},
		{fact("rows.sd-of-mean", sizing.Length(53.8)), "well below the mean of 53.8 cm", "well below the mean of 53.8 cm (21.2 in)"},
		{fact("rows.sd-by-tails", sizing.Length(2.34), "p5", "p95"), "about 2.34 cm, going by p5 and p95", "about 2.34 cm (0.9 in), going by p5 and p95"},
		{fact("rows.copies", sizing.Length(53), fact("amount", 21.0, "in")), "53 cm and 21 in", "53 cm (20.9 in) and 21 in"},
		{fact("rows.nearest-half", sizing.Length(53.34)), "53.34 cm, to the nearest half", "53.34 cm (21 in), to the nearest half"},
		{fact("rows.off", sizing.Length(-0.34)), "−0.34 cm", "−0.34 cm (−0.1 in)"},
		{fact("rows.one-unit", sizing.Length(22), "in"), "22 cm, and nothing in in", "22 cm (8.7 in), and nothing in in"},
		{fact("rows.between-sexes", sizing.Length(52.82), sizing.Length(51.48)), "between boys with 52.82 cm and girls with 51.48 cm", "between boys with 52.82 cm (20.8 in) and girls with 51.48 cm (20.3 in)"},
		{fact("rows.leaves-drop", sizing.Length(26.5), sizing.Length(1.75)), "26.5 cm leaves 1.75 cm from shoulder to armpit, after half of cross back and the arm to underarm", "26.5 cm (10.4 in) leaves 1.75 cm (0.7 in) from shoulder to armpit, after half of cross back and the arm to underarm"},
		{fact("rows.drop-by-armhole", 4.25, 12.75, sizing.Length(8.5)), "4.25 to 12.8, an armhole depth of 8.5 cm", "4.25 to 12.8, an armhole depth of 8.5 cm (3.3 in)"},
		{fact("rows.length-at-height", sizing.Range{Low: 45.326, High: 59.639}, sizing.Length(115.335)), "45.3 to 59.6 cm at a height of 115.3 cm, as 98 of 100 children of 1975–77 have", "45.3 to 59.6 cm (17.8 to 23.5 in) at a height of 115.3 cm (45.4 in), as 98 of 100 children of 1975–77 have"},
		{fact("rows.mass-at-height", sizing.Weight(12.34), sizing.Weight(23.45), sizing.Length(109.95)), "12.3 to 23.4 kg at a height of 110 cm, as 98 of 100 children of 1975–77 have", "12.3 to 23.4 kg at a height of 110 cm (43.3 in), as 98 of 100 children of 1975–77 have"},
		{fact("rows.changed", sizing.Length(58.505), sizing.Length(58.5)), "58.505 cm; it was 58.5 cm", "58.505 cm (23 in); it was 58.5 cm (23 in)"},
		{fact("rows.change", sizing.Length(0.005)), "+0.005 cm", "+0.005 cm (0 in)"},
		{fact("rows.as-before", sizing.Length(18.5)), "18.5 cm, as before", "18.5 cm (7.3 in), as before"},
		{fact("rows.height", sizing.Length(14)), "a height of 14 cm", "a height of 14 cm (5.5 in)"},
		{fact("rows.at-most-either-way", sizing.Length(20)), "at most 20 cm either way", "at most 20 cm (7.9 in) either way"},
		{fact("rows.use-from", sizing.Length(17.8), 6.0), "17.8 cm from 6", "17.8 cm (7 in) from 6"},
		{fact("rows.for-clothes", sizing.Length(-2.5)), "-2.5 cm for clothes underneath", "-2.5 cm (-1 in) for clothes underneath"},
		{fact("rows.from", sizing.Length(0)), "from 0 cm", "from 0 cm (0 in)"},
		{fact("rows.growth-range", sizing.Length(2.5), sizing.Length(3)), "above 0 and at most 2.5 cm: half a year is about 3 cm of height", "above 0 and at most 2.5 cm (1 in): half a year is about 3 cm (1.2 in) of height"},
		{fact("rows.style-range", sizing.Length(12)), "not 0, and at most 12 cm either way", "not 0, and at most 12 cm (4.7 in) either way"},
		{fact("rows.as-other-garment", sizing.Length(0.2), "trousers", 28), "the 0.2 cm that garment trousers has for the same part and reason (line 28)", "the 0.2 cm (0.1 in) that garment trousers has for the same part and reason (line 28)"},
		{fact("rows.derived", sizing.Length(22)), "22 cm", "22 cm (8.7 in)"},
		{fact("rows.below-derived", sizing.Length(13.544), "neck"), "below the 13.54 cm of neck", "below the 13.54 cm (5.3 in) of neck"},
		{fact("rows.derived-at-height", 41.72624, 47.93946, sizing.Length(103.9)), "41.73 to 47.94 at a height of 103.9 cm, as 98 of 100 children of 1975–77 have", "41.73 to 47.94 at a height of 103.9 cm (40.9 in), as 98 of 100 children of 1975–77 have"},
		{fact("rows.first-class", sizing.Length(115)), "the first class is from 115 cm", "the first class is from 115 cm (45.3 in)"},
		{fact("rows.last-height-class", sizing.Length(160)), "the last class is up to 160 cm", "the last class is up to 160 cm (63 in)"},
		{fact("rows.builtin-used", sizing.Length(4)), "one: without it the built-in 4 cm is used", "one: without it the built-in 4 cm (1.6 in) is used"},
	} {
		require.Equal(t, c.want, Style{}.Fact(c.fact))
		require.Equal(t, c.inches, Style{Unit: "in"}.Fact(c.fact))
		told[c.fact.ID] = true
	}
	for id := range rowWords() {
		require.True(t, told[id], "%s is not tried here", id)
	}
}

func rowWords() map[string]string {
	all := maps.Clone(rowFormWords)
	maps.Copy(all, rowSenseWords)
	maps.Copy(all, rowTableWords)
	return all
}

// What the rules for rows report has words with a place for every argument, and
// there are no other words.
func TestRowFactsHaveWords(t *testing.T) {
	files, err := filepath.Glob("../../../../validate/rows_*.go")
	require.NoError(t, err)
	words := rowWords()
	used := map[string]bool{}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			if f, ok := call.Fun.(*ast.SelectorExpr); !ok || f.Sel.Name != "NewFact" {
				return true
			}
			literal, ok := call.Args[0].(*ast.BasicLit)
			require.True(t, ok, "%s: an id is written out", name)
			id, err := strconv.Unquote(literal.Value)
			require.NoError(t, err)
			if !strings.HasPrefix(id, "rows.") {
				return true
			}
			template, ok := words[id]
			require.True(t, ok, "%s has no words", id)
			slots := map[int]bool{}
			fill(template, func(i int, _ string) string { slots[i] = true; return "" })
			require.Len(t, slots, len(call.Args)-1, "%s: %s", id, template)
			used[id] = true
			return true
		})
	}
	require.ElementsMatch(t, slices.Collect(maps.Keys(words)), slices.Collect(maps.Keys(used)))
}
