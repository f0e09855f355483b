package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A linked module is one whose code is in the command.
type linked struct{ Path, Version, Dir string }

func (m linked) title() string { return m.Path + " " + m.Version }

// linkedModules asks the go command which modules the command is built of for an
// operating system.
func linkedModules(t *testing.T, system string) []linked {
	gocmd, err := exec.LookPath("go")
	if err != nil {
		t.Skip("the go command is missing")
	}
	list := exec.Command(gocmd, "list", "-deps", "-json=Module", ".")
	list.Env = append(os.Environ(), "GOOS="+system)
	list.Stderr = os.Stderr
	out, err := list.Output()
	require.NoError(t, err)
	var all []linked
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p struct {
			Module *struct {
				linked
				Main bool
			}
		}
		if err := d.Decode(&p); err == io.EOF {
			break
		} else {
			require.NoError(t, err)
		}
		if p.Module != nil && !p.Module.Main && !slices.Contains(all, p.Module.linked) {
			all = append(all, p.Module.linked)
		}
	}
	return all
}

const ruler = "------------------------------------------------------------------------\n"

// NOTICES has the licence of every module that is linked into the command.
// -update writes it, for the systems that the command is built for.
func TestNoticesAreWhole(t *testing.T) {
	modules := linkedModules(t, runtime.GOOS)
	require.NotEmpty(t, modules)
	if *update {
		for _, system := range []string{"linux", "darwin", "windows"} {
			for _, m := range linkedModules(t, system) {
				if !slices.Contains(modules, m) {
					modules = append(modules, m)
				}
			}
		}
		require.NoError(t, os.WriteFile("NOTICES", []byte(notices(t, modules)), 0o644))
	}
	text, err := os.ReadFile("NOTICES")
	require.NoError(t, err)
	for _, m := range modules {
		_, after, ok := strings.Cut(string(text), "\n"+m.title()+"\n")
		require.True(t, ok, "%s is linked and has no notice: go test ./cmd/growtuck -run Notices -update", m.title())
		require.Contains(t, after, "opyright")
	}
}

// notices puts modules with the same licence text together.
func notices(t *testing.T, modules []linked) string {
	slices.SortFunc(modules, func(a, b linked) int { return strings.Compare(a.Path, b.Path) })
	var texts []string
	under := map[string][]string{}
	add := func(title, dir string) {
		found, err := filepath.Glob(filepath.Join(dir, "LICEN[SC]E*"))
		require.NoError(t, err)
		require.NotEmpty(t, found, "%s has no licence file", title)
		more, err := filepath.Glob(filepath.Join(dir, "NOTICE*"))
		require.NoError(t, err)
		var text strings.Builder
		for _, path := range append(found, more...) {
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			text.WriteString(strings.ReplaceAll(strings.TrimSpace(string(b)), "\r", "") + "\n")
		}
		if under[text.String()] == nil {
			texts = append(texts, text.String())
		}
		under[text.String()] = append(under[text.String()], title)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	add("Go standard library and runtime", strings.TrimSpace(string(root)))
	for _, m := range modules {
		add(m.title(), m.Dir)
	}
	var b strings.Builder
	b.WriteString("The growtuck command is built of its own code (see LICENSE) and of the modules\nbelow, each under the licence that follows its name.\n")
	for _, text := range texts {
		fmt.Fprintf(&b, "\n%s%s\n%s\n%s", ruler, strings.Join(under[text], "\n"), ruler, text)
	}
	return b.String()
}
