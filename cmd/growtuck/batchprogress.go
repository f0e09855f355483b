package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"
)

// A progress shows on a terminal how far a long list is. nil shows nothing.
type progress struct {
	out      io.Writer
	size     int64 // bytes of the list, 0 where not known
	shown    time.Time
	children int
	visible  bool
}

// progressEvery is how often the bar moves.
const progressEvery = 200 * time.Millisecond

// newProgress shows progress where standard error is a terminal.
func (a *app) newProgress(list os.FileInfo) *progress {
	if !isTerminal(a.stderr) {
		return nil
	}
	p := &progress{out: a.stderr, shown: time.Now()}
	if list != nil {
		p.size = list.Size()
	}
	return p
}

func isTerminal(w io.Writer) bool {
	if results, ok := w.(*resultWriter); ok {
		w = results.to
	}
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && f.Name() != os.DevNull
}

// add counts the children of a block and moves the bar now and then.
func (p *progress) add(children int, read int64) {
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

// clear takes the bar away, so that a message can stand there.
func (p *progress) clear() {
	if p != nil && p.visible {
		fmt.Fprint(p.out, "\r\x1b[K")
		p.visible = false
	}
}
