package main

// The help of the commands that read lists.

const batchHelp = `batch reads a list of children, one on each line, and writes a line for each in
the same order: the size by height (for lengths) and the size by chest (for
widths), each as the nearest size of the chart and to a tenth of a size, both
empty where the chart has none, for example between the baby sizes and those in
years; then the measurements, with those not taken estimated; with --garment also
the finished measurements of a garment. The column check names what can hardly be
right, with what was likely meant, such as chest=53cm: growtuck blend says why.

Estimates use the survey of measured babies and children of about 87 to 181 cm (girls to
175): smaller children, babies too, and taller ones are rejected.

The list is CSV (separated by commas, semicolons or tabs) with a header, or a line
of JSON for each child; without a file it is standard input. Columns are named
sex, age, or as growtuck measurements lists them: height, chest_in,
"arm length (cm)". Other columns, such as id and name, are copied unchanged.
A cell may be empty. The output has the form of the input; --format json turns CSV
into lines of JSON. A list separated by semicolons gets decimal commas. Numbers are
written in cm and kg; --unit in writes inches and pounds instead, --unit both all
of them.

A line that cannot be used is named on standard error, with its number and its
column but not its content, and rejected: --rejects FILE keeps such lines,
unchanged, under the header of the list. The file gets its name when the whole
list has been read, and is created even if no line was rejected.

Each line is sized on its own, so a list can be split anywhere between lines:
--header=false with --columns reads and writes a piece without a header.

Exit status: 0 if every child was sized, 1 if a line was rejected, 2 if the list
could not be read or written to its end.`

const orderHelp = `order reads a list of children as growtuck batch does, or the output of batch in
one unit, gives every child the size of a chart that fits best, and reports how
many of each size to make and what misfit is left: for how many children the size
is too small or too big in each measurement by more than --tolerance, and by how
much.

The best size has the least misfit: the sum, over the measurements of --by, of how
many centimetres it is off. A centimetre too small counts --small-weight times one
too big: a garment that is too big can be taken in and grown into, one that is too
small is useless. All are body measurements: the ease added is the same.

By default all sizes of the chart are offered. --sizes names the sizes to choose
from. --best K chooses at most K sizes that leave the list the least misfit, with
--halves also from the sizes halfway between. --cuts K uses no chart: it cuts the
list at the best places along the one measurement of --by, and gives the
measurement to make each group for.

--each prints a line for each child instead, as growtuck batch does: the size, and
in each measurement how many centimetres it is larger than the child.

A line that cannot be used is named on standard error and left out. Exit status: 0
if every child was sized, 1 if a line was rejected, 2 if the list could not be read
to its end.`
