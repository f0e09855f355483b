package save

import (
	"os"
	"os/signal"
	"sync"
)

// A guard holds back signals that stop the program, until what is being written
// has been removed or is in its place.
type guard struct {
	signals  chan os.Signal
	finished chan struct{}
	waiting  sync.WaitGroup

	mu    sync.Mutex
	names []string // to remove
}

func newGuard(signals []os.Signal) *guard {
	g := &guard{signals: make(chan os.Signal, 1), finished: make(chan struct{})}
	for _, s := range signals {
		if !signal.Ignored(s) { // in the background of a shell that is so
			signal.Notify(g.signals, s)
		}
	}
	return g
}

// create creates a file that is removed when the program is told to stop, which then
// stops. No signal comes in between.
func (g *guard) create(create func() (*os.File, error)) (*os.File, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	f, err := create()
	if err != nil {
		return nil, err
	}
	if g.names = append(g.names, f.Name()); len(g.names) == 1 {
		g.waiting.Go(g.removeOnSignal)
	}
	return f, nil
}

// step does something in a folder that is removed when the program is told to stop.
func (g *guard) step(do func() error) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	return do()
}

func (g *guard) removeOnSignal() {
	select {
	case s := <-g.signals:
		g.mu.Lock() // for good: nothing is created any more
		for _, name := range g.names {
			_ = os.RemoveAll(name)
		}
		stopBy(s)
	case <-g.finished:
	}
}

// hold holds signals back until the end, removing nothing any more. A signal that came
// before has stopped the program.
func (g *guard) hold() {
	select {
	case <-g.finished:
	default:
		close(g.finished)
	}
	g.waiting.Wait()
}

// end lets signals through again, including one that came meanwhile.
func (g *guard) end() {
	signal.Stop(g.signals)
	g.hold()
	select {
	case s := <-g.signals:
		stopBy(s)
	default:
	}
}

// exitStopped is the exit code where the program cannot send itself a signal.
const exitStopped = 2

// stopBy ends the program as the signal would have.
func stopBy(s os.Signal) {
	signal.Reset(s)
	if self, err := os.FindProcess(os.Getpid()); err != nil || self.Signal(s) != nil {
		os.Exit(exitStopped)
	}
	select {} // until it arrives
}
