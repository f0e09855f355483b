// Package proof says how much the tests go through. It is for tests.
//
// By default, go test ./... asks every question of a few cases: it is for
// everyone who changes something, and done within a minute. Where the
// environment has GROWTUCK_PROOF=1, the same tests go through every case, and
// those run that only make sense as a whole. .ci/proof sets it, so a change
// passes all of them before it lands.
package proof

import (
	"os"
	"testing"
)

// Whole reports whether tests go through every case.
func Whole() bool { return os.Getenv("GROWTUCK_PROOF") == "1" }

// Only skips a test that runs in the proof only, because others ask the same
// of fewer cases.
func Only(t testing.TB) {
	t.Helper()
	if !Whole() {
		t.Skip("runs in .ci/proof, and where GROWTUCK_PROOF=1")
	}
}
