// Command relations computes, from records of measured children of two eras,
// what growtuck's estimated blend rests on, and judges it:
//
//	relations fit SURVEY.csv NHANES.csv.gz OUTDIR
//	relations weights SURVEY.csv
//	relations accuracy SURVEY.csv NHANES.csv.gz [-folds N] [-seed N]
//	relations predict data/README.md
//	relations followed FOLLOWED.csv
//
// Fit writes OUTDIR/relations.csv and OUTDIR/ratios.csv, each whole or not at
// all: data is the OUTDIR that refits all. Weights prints the rows of data/body.csv that hold the weights of the
// measured chart. Accuracy prints, as Markdown, how close estimates come to
// children the relations were not fitted to, of both eras, beside what the charts
// alone would say. Predict needs no records: it prints what the built-in relations
// themselves expect, beside the tables of data/README.md that accuracy made. Followed
// prints how close forecasts of growth come to children who were measured again and
// again, one or two years ahead: knowing the child once, also half a year or a year
// before, or without its age. The
// same records give the same bytes. They are read and never copied. Maintainers
// run the command when records, recipe or engine change; users never need it.
//
// Tests that need the records run when GROWTUCK_SURVEY, GROWTUCK_NHANES and
// GROWTUCK_FOLLOWED name their files.
//
// # The children who were followed
//
// Tuddenham and Snyder: Physical growth of California boys and girls from birth to
// eighteen years, University of California Publications in Child Development 1 (1954),
// appendix: 136 children born in 1928–29. FOLLOWED.csv has a child at an age a line,
// under a header naming at least child, sex, age_years, height_cm, weight_kg,
// sitting_height_cm and leg_girth_cm (the calf). Nothing, or 0, means not measured. No
// table is made from them; the spreads of data/growth.csv were settled by half of them.
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
// # The examinations
//
// US National Center for Health Statistics: National Health and Nutrition
// Examination Survey (NHANES), public-use files of body measures and demographics
// of the cycles 1999–2000 to 2011–2012 and 2015–2016. NHANES.csv.gz (or not
// packed) has one child a line under a header naming at least: cycle, as
// 2015-2016; sex (m or f); age_years; stature, arm_girth, waist and calf in
// centimetres; weight in kilograms. Nothing, or 0, means not measured. Children
// are counted alike: the examination weights are not used, so that figures are of
// the children examined and not of the population. 2013–2014 and what came after
// 2016 were kept away to test the tables on.
//
// The arm girth is that of the relaxed arm halfway down, upper_arm in the charts.
// The waist is taken just above the hip bone: the nearest in the charts is
// waist_navel, and it is not the same place.
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
// The rows of the other statistics say how the children examined since differ.
// Departures are again ln(value/centre), the centre being the median of chart
// measured at the child's height; bands are of [83, 100), [100, 115), [115, 130),
// [130, 150) and [150, 185) cm, ages from 2 to under 18 years.
//
//  5. low and high (a and b being weight) are the spread of the weight's departure
//     below the centre and above: minus its 10th percentile, and its 90th, over
//     1.2816. The lower half of today's children is about as light as in 1977, the
//     upper half much heavier; a single spread has too thin an upper tail. low is
//     that of the era with the lighter tenth, so that ranges hold both.
//  6. slope, shift and rest (a being upper_arm, waist_navel or calf, b weight) are
//     of the line of least squares of a's departure on the weight's, after slips
//     more than six robust standard deviations from it are dropped. shift is half
//     of the line's height at the centre's weight. At the same height and weight
//     arms, waists and calves are 1 to 4 % larger than in 1977, for thin, middle
//     and heavy children alike; that may be the years or the place of the tape,
//     and these records cannot tell which: each is taken for half. rest is the
//     root mean square about the line as it is then used, so that ranges hold
//     both. Bands with fewer than 150 children have none; the nearest band's hold
//     there.
//
// How a child is estimated from them: the weight's departure w stands for the
// build. A measurement i departs by shift + slope × w + e, where e has the spread
// rest, and correlations with the others' that are those of step 4 given weight.
// Where a has no row of step 6, slope is r × sd / sd of weight, rest is
// sd × √(1−r²), shift is 0: what 1977 alone has keeps its relation to height and
// weight. A weight that was not taken is what the others say of it, about the
// centre, with low and high as its spread; the shift counts by the share of the
// build that is known. So an estimate from the height alone is the median of 1977,
// which is the commonest build of today, and its range reaches up as far as today's
// children do.
//
// Nothing is capped because it is large: a child may be of any build. Only what
// the others contradict counts for less: what lies more than four of its spreads
// given the others (builds being taken to spread twice as far as heavy children's
// do) counts as if it lay there, and more than six, not at all. The weight alone
// is not held against the height.
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
// The survey's children are divided at random into N parts. For each, the relations
// are fitted to the children of the other parts and to all that were examined, put
// in the place of relations.csv, and the engine is asked for each child of the
// part, being told only some of what was measured on it. What it answers for the
// rest is compared with what was measured. Examined children of 2 to 12 years of
// the cycles 2011–2012 and 2015–2016 (of 2005–2006 for the calf, which was no
// longer taken after) are estimated by relations fitted to the other cycles, and
// reported for each third of their weight for height. The shipped medians have seen all children; how much that
// flatters is measured with medians of the other parts, and printed.
package main
