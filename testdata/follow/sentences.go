package follow

import "fmt"

// sentences are those of the craft that say more than rows from end to end.
func (w *worker) sentences() []said {
	if w.said == nil {
		table := append(bothSentences(), knitSentences()...)
		if w.Craft == Crochet {
			table = append(bothSentences(), crochetSentences()...)
		}
		w.said = says(w.stitch, w.turning, table)
	}
	return w.said
}

// nothing is a sentence that changes no count.
func nothing(*worker, []int) error { return nil }

func bothSentences() []sentence {
	return []sentence{
		{"{n} {rows} in all, {n} of them with increases.", func(w *worker, n []int) error { w.promised = [2]int{n[0], n[1]}; return nil }},
		{"Widened in the first {n} {rows}, {n} of them with increases.", func(w *worker, n []int) error { w.widened = [2]int{n[0], n[1]}; return nil }},
		{"Place 4 markers, with {n} for half the front, {n} for the sleeve, {n} for the back, {n} for the sleeve and {n} for the other half of the front.", (*worker).lines},
		{"Place 4 markers, with {n} for the front, {n} for the sleeve, {n} for the back, {n} for the sleeve and {n} for the front.", (*worker).lines},
		{"Leave the front open for {n} {rows} more, then join and go on in rounds.", nothing},
		{"Leave the front open for {n} {rows}; then join: each row from there on is a round, turned as the rows are.", nothing},
		{"Leave the front open, yoke and on into the body.", nothing},
		{"The front is closed: work in rounds.", nothing},
		{"The front stays open for the first {n} {rows}; then join and go on in rounds.", nothing},
		{"Sew {n} buttons to the band, each behind a buttonhole.", func(w *worker, n []int) error {
			if n[0] != w.holes {
				return fmt.Errorf("%d buttons for %d buttonholes", n[0], w.holes)
			}
			return nil
		}},
		{"Poppers in the same places need no buttonholes.", nothing},
		{"Opening {x} cm: take the ", (*worker).zipper},
		{"For elastic work it twice as deep and fold it in.", nothing},
		{"Turn it RS out.", nothing},
		{"These {n} {rows} are a tuck: run a thread of another colour through the sts of the {line} before them, and one through those of the last of them.", (*worker).tuck},
		{"Sew the beginnings of both straps behind the waistband at the back, {x} cm apart, cross them, and sew {n} buttons inside the waistband in front, as far apart as the shoulders let them lie.", (*worker).strapButtons},
		{"Where the straps cross, catch one to the other, so that they do not slip off.", nothing},
		{"Of this edge ", (*worker).turned},
		{"Run a thread of another colour through the {n} {sts} of this {line} and leave it in: from here it is worked on later.", (*worker).marked},
		{"Cut the yarn, draw it through the sts of this {line} and pull tight.", nothing},
	}
}

// lines places the markers of a raglan.
func (w *worker) lines(n []int) error {
	w.markers = nil
	sum := 0
	for i, x := range n {
		sum += x
		if i < 4 {
			w.markers = append(w.markers, sum)
		}
	}
	if sum != w.live {
		return fmt.Errorf("the parts add up to %d of %d stitches", sum, w.live)
	}
	return nil
}
