package main

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/paired"
)

// BenchmarkStart runs commands as processes beside a program that links the same
// modules and does nothing, and beside one that links none. What is compared is the
// time of the processor, which holds where others use the machine too.
func BenchmarkStart(b *testing.B) {
	folder := b.TempDir()
	build := func(name, source string) string {
		binary := filepath.Join(folder, name)
		out, err := exec.Command("go", "build", "-o", binary, source).CombinedOutput()
		require.NoError(b, err, string(out))
		return binary
	}
	growtuck, links, bare := build("growtuck", "."), build("links", "./testdata/links"), build("bare", "./testdata/bare")
	process := func(args ...string) func() time.Duration {
		return func() time.Duration {
			c := exec.Command(args[0], args[1:]...)
			require.NoError(b, c.Run())
			return c.ProcessState.UserTime() + c.ProcessState.SystemTime()
		}
	}
	for _, tt := range []struct{ name, args string }{
		{"size", "size 3"},
		{"suit", "plan one-piece-hooded --size 18m --craft crochet --gauge 14x16/10cm"},
		{"check", "check ../../testdata/drafts/pram-suit.csv"},
	} {
		run := process(append([]string{growtuck}, strings.Fields(tt.args)...)...)
		b.Run(tt.name+"/links", func(b *testing.B) { paired.Bench(b, run, process(links)) })
		b.Run(tt.name+"/bare", func(b *testing.B) { paired.Bench(b, run, process(bare)) })
	}
}
