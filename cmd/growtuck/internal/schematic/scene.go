package schematic

// An item is one thing that is drawn: a path or a text, in units of the view box.
// The class is the end of that in the style sheet. Items of one part follow each
// other.
type item struct {
	class string
	part  string

	path  *path
	fill  bool
	width float64 // of the line; 0: none
	dash  bool

	text   string
	letter string // in bold, before the text
	at     point
	size   float64
	bold   bool
	anchor string // middle, end; else start
}

// A scene is all that is drawn on a sheet.
type scene struct {
	wide, high  float64
	title, desc string
	items       []item
	names       map[string]string // of parts, in words
}

func (s *scene) add(i item) { s.items = append(s.items, i) }

func (s *scene) stroke(class string, width float64, p *path) {
	s.add(item{class: class, path: p, width: width})
}

func (s *scene) words(text string, at point, size float64) {
	s.add(item{class: "words", text: text, at: at, size: size})
}

// textWide is how wide the item's text is.
func (i item) textWide() float64 {
	wide := textWidth(i.text, i.bold)
	if i.letter != "" {
		wide += textWidth(i.letter+" ", true)
	}
	return wide * i.size
}

// left is where the item's text begins.
func (i item) left() float64 {
	switch i.anchor {
	case "middle":
		return i.at.x - i.textWide()/2
	case "end":
		return i.at.x - i.textWide()
	}
	return i.at.x
}
