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

// removeOnSignal removes the file when the program is told to stop, and stops it.
func (g *guard) removeOnSignal(name string) {
	g.waiting.Go(func() {
		select {
		case s := <-g.signals:
			_ = remove(name)
			stopBy(s)
		case <-g.finished:
		}
	})
}

// end lets signals through again, including one that came meanwhile.
func (g *guard) end() {
	signal.Stop(g.signals)
	close(g.finished)
	g.waiting.Wait()
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
