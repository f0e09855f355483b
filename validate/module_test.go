package validate_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Another module can use the packages: it names this one in its go.mod, with a
// replace for where it is. Nothing is fetched for it.
func TestOutsideModule(t *testing.T) {
	gocmd, err := exec.LookPath("go")
	if err != nil {
		t.Skip("the go command is missing")
	}
	root, err := filepath.Abs("..")
	require.NoError(t, err)
	own, err := os.ReadFile(filepath.Join(root, "go.mod"))
	require.NoError(t, err)
	sums, err := os.ReadFile(filepath.Join(root, "go.sum"))
	require.NoError(t, err)
	version := ""
	for line := range strings.Lines(string(own)) {
		if strings.HasPrefix(line, "go ") {
			version = strings.TrimSpace(line)
		}
	}
	module := "module example.com/knitwear\n\n" + version + "\n\nrequire growtuck v0.0.0\n\nreplace growtuck => " + root + "\n"
	dir := t.TempDir()
	for name, text := range map[string]string{"go.mod": module, "go.sum": string(sums), "main.go": outsideProgram, "draft.csv": outsideDraft} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	c := exec.Command(gocmd, "run", ".")
	c.Dir = dir
	c.Env = append(os.Environ(), "GOFLAGS=-mod=mod", "GOPROXY=off", "GOWORK=off")
	var stderr strings.Builder
	c.Stderr = &stderr
	out, err := c.Output()
	require.NoError(t, err, stderr.String())
	require.Equal(t, "chest of a size 5: 61.1 cm\nF01 at draft.csv:6:16\n", string(out))
}

const outsideDraft = `field,part,value,unit,note
garment,,pullover,,
fit,,classic,,
layer,,skin,,
size,,5,,
finished,chest,50,cm,narrower than the child
`

const outsideProgram = `package main

import (
	"fmt"
	"log"
	"os"

	"growtuck/sizing"
	"growtuck/validate"
)

func main() {
	ref, err := sizing.Default()
	if err != nil {
		log.Fatal(err)
	}
	chart, err := ref.Chart(sizing.DefaultChart)
	if err != nil {
		log.Fatal(err)
	}
	place, err := chart.Place("5", sizing.Both)
	if err != nil {
		log.Fatal(err)
	}
	chest, err := ref.Read(place, "chest", sizing.Monotone)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("chest of a size 5: %.1f cm\n", chest.Value)
	draft, err := os.Open("draft.csv")
	if err != nil {
		log.Fatal(err)
	}
	defer draft.Close()
	findings, err := validate.CheckDraft(ref, draft, "draft.csv", validate.Options{})
	if err != nil {
		log.Fatal(err)
	}
	for _, f := range findings {
		if f.Severity == validate.Stop {
			fmt.Println(f.Rule, "at", f.Place())
		}
	}
}
`
