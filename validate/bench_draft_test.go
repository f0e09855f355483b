package validate_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/samples"
	"growtuck/validate"
)

// Checking a draft does not grow by things that are made again for each rule.
func TestCheckingADraftAllocatesLittle(t *testing.T) {
	ref := samples.Reference(t)
	text, err := os.ReadFile(filepath.Join(draftFolder, "pram-suit.csv"))
	require.NoError(t, err)
	require.Less(t, testing.AllocsPerRun(5, func() {
		_, err := validate.CheckDraft(ref, bytes.NewReader(text), "pram-suit.csv", options())
		require.NoError(t, err)
	}), 2400.0) // 1,840; 2,220 with the race detector
}

// BenchmarkCheckDraft reads and checks the pram suit, its child's table
// included.
func BenchmarkCheckDraft(b *testing.B) {
	ref := samples.Reference(b)
	text, err := os.ReadFile(filepath.Join(draftFolder, "pram-suit.csv"))
	require.NoError(b, err)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := validate.CheckDraft(ref, bytes.NewReader(text), "pram-suit.csv", options()); err != nil {
			b.Fatal(err)
		}
	}
}
