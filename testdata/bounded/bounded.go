// Package bounded fails fuzz targets of which one input takes too much memory. It is
// for tests.
package bounded

import (
	"runtime/metrics"
	"testing"
)

// By counts what is allocated from when it is called until what it returns is called,
// in the first line of a target:
//
//	defer bounded.By(t, 64<<20)()
//
// and fails the test where that is more than so many bytes, whether it was given back
// or not. What tests beside it allocate counts too, so a bound is a few times what the
// most that is let in takes.
func By(t testing.TB, most uint64) (counted func()) {
	before := allocated()
	return func() {
		t.Helper()
		if n := allocated() - before; n > most {
			t.Errorf("one input allocated %d kB; at most %d are allowed", n>>10, most>>10)
		}
	}
}

func allocated() uint64 {
	sample := []metrics.Sample{{Name: "/gc/heap/allocs:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}
