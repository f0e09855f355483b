package workbook

import (
	"image"
	"sync"

	"growtuck/cmd/growtuck/internal/schematic"
)

// The picture is drawn finer than it is shown, for print.
var pictureMost = image.Point{X: 800, Y: 760} // pixels

const pictureScale = 0.8

// picture lays out the garment drawn to scale, and beside it what each letter
// measures now.
func (l *layout) picture() *sheet {
	s := &sheet{name: pictureName, widths: []float64{9, 46, 12, 4, 88}, unprinted: true}
	s.heading("The garment", "Drawn to scale, lying flat, as it was when this was made: a girth is drawn as half of it. The list follows what is filled in; sizes are whole girths, "+unitNote+".")
	s.head = s.header("in the picture", "part", "finished")
	drawn := schematic.Finished(l.Finished, l.Plan.How, l.Unit)
	drawn.Labels = nil // which change with the cells
	for i, line := range l.lines() {
		finished := l.finished(line)
		s.add(text(drawn.Letters[line.Part.Part]), styled(line.Part.Name, stWrap),
			calc(on(easeName, fixed(easeRounded, easeFirst+i)), rounded(finished, l.Unit), stRounded))
	}
	if n := len(s.rows); n > s.head {
		s.conds = append(s.conds, lengths(area(3, s.head+1, 3, n), stInchesRounded))
	}
	if s.picture = aside(drawn, l.Unit); s.picture != nil {
		s.place = at(5, s.head)
	}
	return s
}

// aside draws a panel on another core, while the cells are laid out. It is nil where
// the panel cannot be drawn.
func aside(drawn schematic.Panel, unit string) func() []byte {
	if drawn.Err() != nil {
		return nil
	}
	made := make(chan []byte, 1)
	go func() {
		png, _ := drawn.PNG(pictureMost, schematic.SVGOptions{Unit: unit})
		made <- png
	}()
	return sync.OnceValue(func() []byte { return <-made })
}
