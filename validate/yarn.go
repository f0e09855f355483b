package validate

// A yarnClass is a weight class of the yarn trade and the stitches over 4 in
// that its yarns are usually worked to: stocking stitch, and single crochet
// (US terms). 0 means that no figure is printed.
type yarnClass struct {
	title                                     string
	knitLow, knitHigh, crochetLow, crochetTop float64
}

// yarnClasses are indexed by class: Craft Yarn Council, Standards & Guidelines
// for Crochet and Knitting, yarn weight chart, 2018; read in two copies. The
// crochet of class 0 is counted in double crochet there, so it is no bound for
// single crochet and is left out.
var yarnClasses = [8]yarnClass{
	{"lace", 33, 40, 0, 0},
	{"super fine", 27, 32, 21, 32},
	{"fine", 23, 26, 16, 20},
	{"light", 21, 24, 12, 17},
	{"medium", 16, 20, 11, 14},
	{"bulky", 12, 15, 8, 11},
	{"super bulky", 7, 11, 6, 9},
	{"jumbo", 0, 6, 0, 5},
}

const yarnSource = "craft-2018"
