// Package follow works a pattern of knitting or crochet from its words, as someone
// with needles or a hook would: it counts the stitches on the work after every row,
// the rows of every section, and from the gauge in the words the centimetres. It has
// no part in making patterns, and knows nothing of how they are planned. Only tests
// import it.
//
// It is strict. A sentence that it cannot read is a fault, and so are a count that the
// row before it does not give, a row that leaves stitches over or wants more than there
// are, rows that are not numbered one after the other, a marker that was never placed,
// shaping in an edge stitch of turned rows, and stitches that are taken up where none
// were left.
package follow

import "fmt"

// A Pattern is what is to be followed.
type Pattern struct {
	Gauge    string // "Crochet, 16 stitches and 18 rows to 10 cm"
	Sections []Section
	// Growth is how room to grow is held and then let down, and Lengths what the lengths
	// that it names are called among the sizes.
	Growth  []string
	Lengths map[string]string
}

// A Section is a part of the pattern with its heading.
type Section struct {
	ID, Name       string
	Copies         int
	From, To, Rows int      // what the heading says
	Lines          []string // what is to be done
}

// A Fault is where the words cannot be followed, or contradict themselves.
type Fault struct {
	Section, Line, What string
}

func (f Fault) String() string { return fmt.Sprintf("%s: %s\n\t%s", f.Section, f.What, f.Line) }

// A Work is what came of a pattern.
type Work struct {
	Craft                        Craft
	StitchesPer10Cm, RowsPer10Cm float64
	RibStitches, RibRows         float64          // to 10 cm, of the ribbing
	Counts                       map[string][]int // of each section, the stitches after each of its rows
	Begins                       map[string]int   // stitches that a section goes on from, or makes first
	Short                        map[string]int   // of a section, the rows that are turned before their ends
	Underarms                    []int            // stitches made at each underarm
	Edges                        Edges
	Zipped                       bool
	OpenRows                     int  // rows of the front that are worked turned
	OpenHem                      bool // so is the hem
	Faults                       []Fault

	// Tucks are rows that lie in folds, by the section, Turned the centimetres of an edge
	// that are turned away, and Marked the row from which a section is worked on later.
	Tucks  map[string][]Tuck
	Turned map[string]float64
	Marked map[string]int
	// StrapHoles are the rows of the straps with a buttonhole.
	StrapHoles []int
	// Held are the rows that are held away now, and Worn the sizes once all were.
	Held map[string][]Tuck
	Worn map[string]float64
}

// A Tuck is rows of a section that follow one.
type Tuck struct{ After, Rows int }

// Edges are what is worked along the front edges.
type Edges struct {
	Stitches, Rows   int
	Picked, AlongRib int // of its stitches, those along the fabric and the ribbing
}

// Follow works a pattern.
func Follow(p Pattern) *Work {
	w := &worker{Work: Work{Counts: make(map[string][]int), Begins: make(map[string]int), Short: make(map[string]int),
		Tucks: make(map[string][]Tuck), Turned: make(map[string]float64), Marked: make(map[string]int), Held: make(map[string][]Tuck)}}
	if !w.readGauge(p.Gauge) {
		w.Faults = append(w.Faults, Fault{Line: p.Gauge, What: "no gauge can be read"})
		return &w.Work
	}
	for _, s := range p.Sections {
		w.section(s)
	}
	w.growth(p)
	return &w.Work
}
