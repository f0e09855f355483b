// Command relations computes, from a survey of measured children, what
// growtuck's estimated blend rests on, and judges it:
//
//	relations fit SURVEY.csv OUTDIR
//	relations weights SURVEY.csv
//	relations accuracy SURVEY.csv [-folds N] [-seed N]
//	relations predict data/README.md
//
// Fit writes OUTDIR/relations.csv and OUTDIR/ratios.csv, each whole or not at
// all. Weights prints the rows of data/body.csv that hold the weights of the
// measured chart. Accuracy prints, as Markdown, how close estimates come to
// children the relations were not fitted to, beside what the charts alone would
// say. Predict needs no survey: it prints what the built-in relations themselves
// expect, beside the table of data/README.md that accuracy made. The same survey
// gives the same bytes. The records of the survey are read and never copied.
// Maintainers run the command when the survey, the recipe or
// the engine changes; users never need it.
//
// Tests that need the survey run when GROWTUCK_SURVEY names its file.
//
// # The survey
//
// Snyder, Schneider, Owings, Reynolds, Golomb and Schork: Anthropometry of
// Infants, Children, and Youths to Age 18 for Product Safety Design,
// UM-HSRI-77-17, 1977, of which NIST published the individual records
// (AnthroKids): 3,900 children of two years and over. SURVEY.csv has one child a
// line under a header naming at least these columns, in any order: sex (m or
// f), age_years, weight_kg, and, in centimetres, stature, sitting_height,
// head_circumference, neck, shoulder_breadth_biacromial, chest, waist_natural,
// waist_umbilicus_level, hips, upper_arm, forearm, wrist, upper_thigh, calf,
// ankle, shoulder_elbow_length, elbow_hand_length, acromion_radiale_length,
// radiale_stylion_length, suprasternale_height, waist_height, hand_length,
// hand_breadth, foot_length, foot_breadth. Nothing, or 0, means not measured.
//
// The tables in data were computed from two thirds of the records, drawn at
// random; the last third was kept away to test them on. The whole file therefore
// gives slightly different figures.
//
// # Two measurements the survey lacks
//
// Arm length is the two bones from shoulder to wrist, measured on a third of the
// children. For the others it is shoulder to elbow and elbow to fingertip less
// the hand, times the median ratio of the two for their sex. Inside leg is 0.97
// of standing less sitting height.
//
// # relations.csv
//
// The columns are sex, measurement_a, measurement_b, statistic, height_low_cm,
// height_high_cm, value, n, source, basis. For each of the sexes m, f and both:
//
//  1. The centre of a measurement at a height is the median of children of that
//     height: a monotone curve through the medians of 6 cm classes centred on
//     86, 92 ... 182 cm, as in the survey's chart.
//  2. The residual of a child is ln(value/centre). Outside the class medians
//     there is none; one more than six robust standard deviations from the
//     median is dropped as a slip, and a child with two such is dropped whole.
//  3. Rows with statistic sd give the root mean square of the residuals in a
//     band of heights [low, high), a and b being the same. Girths and weight
//     spread much further in tall children than in small ones. Read between
//     bands, the spread is linear from the middle of one to the middle of the
//     next, so that no estimate jumps.
//  4. Rows with statistic r give the correlation of the residuals, each divided
//     by its spread, in a band of heights; girths go together less closely in
//     small children. They are read between bands as spreads are. Many
//     measurements were taken on a third of the children, and some pairs never
//     on the same child (n is 0), so the correlations are fitted together: the
//     multivariate normal distribution of mean zero under which what was
//     measured is likeliest, found by expectation and maximisation. First that
//     of all heights, ten made-up children with unrelated residuals being
//     added; then that of each band, forty made-up children being added whose
//     residuals vary as those of all heights do. Each matrix is positive
//     definite as written.
//
// A measurement i is then estimated from the measurements M of a child of known
// height as centre × exp(e), where e is the mean of i's residual given those of
// M; its variance given M yields the likely range.
//
// # ratios.csv
//
// The columns are sex, measurement, height_low_cm, height_high_cm, p1, p50, p99,
// n, source, basis: percentiles of measurement over height in bands of heights
// [low, high). (Weight is in kilograms per centimetre.) Neighbouring bands are
// joined until they hold sixty children. The table is for judging whether a
// measurement is plausible, not how a garment should fit.
//
// # Weights
//
// The rows are the quartiles of the children's weights in each class of height
// (see above) and sex that has ten or more, by linear interpolation between
// order statistics, to two decimals.
//
// # Accuracy
//
// The children are divided at random into N parts. For each, the relations are
// fitted to the children of the other parts, put in the place of relations.csv,
// and the engine is asked for each child of the part, being told only some of
// what was measured on it. What it answers for the rest is compared with what
// was measured. The shipped medians have seen all children; how much that
// flatters is measured with medians of the other parts, and printed.
package main
