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
