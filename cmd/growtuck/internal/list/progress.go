package list

import (
	"fmt"
	"io"
	"strings"
	"time"
)

// A Progress shows on a terminal how far a long list has been read. nil shows
// nothing.
type Progress struct {
	out      io.Writer
	size     int64 // bytes of the list, 0 where not known
	shown    time.Time
	children int
	visible  bool
}

// progressEvery is how often the bar is drawn.
const progressEvery = 200 * time.Millisecond

// NewProgress shows the progress of a list of a size in bytes, 0 where it is not
// known.
func NewProgress(terminal io.Writer, size int64) *Progress {
	return &Progress{out: terminal, size: size, shown: time.Now()}
}

// Add counts the children of a block and moves the bar now and then.
func (p *Progress) Add(children int, read int64) {
	if p == nil {
		return
	}
	p.children += children
	if time.Since(p.shown) < progressEvery {
		return
	}
	p.shown, p.visible = time.Now(), true
	fmt.Fprintf(p.out, "\r\x1b[K%s", bar(p.children, read, p.size))
}

// bar is the line that shows progress.
func bar(children int, read, size int64) string {
	if size <= 0 {
		return fmt.Sprintf("%d children", children)
	}
	const width = 30
	part := min(1, float64(read)/float64(size))
	full := int(part * width)
	return fmt.Sprintf("[%s%s] %3d %%, %d children", strings.Repeat("#", full), strings.Repeat(".", width-full), int(part*100), children)
}

// Clear removes the bar, to make room for a message.
func (p *Progress) Clear() {
	if p != nil && p.visible {
		fmt.Fprint(p.out, "\r\x1b[K")
		p.visible = false
	}
}
