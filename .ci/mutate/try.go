package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// An outcome is what the tests say of a change.
type outcome string

const (
	isNoticed      outcome = "noticed"
	isNoticedAbove outcome = "noticed above"
	isUnnoticed    outcome = "unnoticed"
	changesNothing outcome = "changes nothing"
	doesNotCompile outcome = "does not compile"
)

// golden are tests that compare with files that the program wrote.
const golden = "Proportions|FieldTable|FrozenTables"

// withRapid are the packages whose tests draw cases, and would keep a file of a case that fails.
var withRapid = []string{"sizing", "sizing/stitch", "sizing/plan", "validate"}

// A stage is some tests of a package.
type stage struct {
	pkg       string
	run, skip string // by name, both may be empty
	above     bool   // tests of another package than the changed one
}

// stagesOf are the tests that a change is held against, those that say it soonest first.
func stagesOf(pkg string) []stage {
	switch pkg {
	case "sizing/stitch", "sizing/plan":
		return []stage{{pkg: pkg, skip: golden},
			{pkg: "cmd/growtuck/internal/work", run: "Follow|EveryWay|Hold|Sampled|Fold|Tuck", skip: "FollowerNotices", above: true},
			{pkg: "validate", run: "PlansAreClean|Samples", above: true}}
	case "validate": // TestOutsideModule builds what is not laid over
		const long = "SeededFaultsInTables|EachRowRule"
		return []stage{{pkg: pkg, skip: golden + "|OutsideModule|TooBig|Deep|BrokenTable|Fuzz|" + long}, {pkg: pkg, run: long}}
	}
	return []stage{{pkg: pkg, skip: golden}}
}

var failed = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)|^panic: (test timed out)`)

// answers is the test that writes what the program answers to drawn questions.
var answers = stage{pkg: "cmd/growtuck", run: "AnswersAreSteady"}

// A tester runs the tests of packages.
type tester struct {
	within  map[stage]time.Duration // what a run that ends may take
	answers string                  // of the program with nothing changed
}

// newTester runs the tests of the packages as they are, which must pass.
func newTester(ctx context.Context, packages []string) (t *tester, err error) {
	t = &tester{within: make(map[stage]time.Duration)}
	start := time.Now()
	if t.answers, err = t.answered(ctx); err != nil {
		return nil, err
	}
	t.within[answers] = 6*time.Since(start) + 40*time.Second
	for _, p := range packages {
		for _, s := range stagesOf(p) {
			if _, ok := t.within[s]; ok {
				continue
			}
			start := time.Now()
			if out, err := t.test(ctx, s, "-count=1"); err != nil {
				return nil, fmt.Errorf("the tests of %s fail with nothing changed: %w\n%s", s.pkg, err, out)
			}
			t.within[s] = 6*time.Since(start) + 40*time.Second
		}
	}
	return t, nil
}

func (t *tester) test(ctx context.Context, s stage, args ...string) (string, error) {
	all := []string{"test", "-vet=off", "-failfast", "-run", s.run, "-skip", s.skip}
	if within, ok := t.within[s]; ok {
		all = append(all, "-timeout", within.String())
	}
	all = append(all, "./"+s.pkg)
	if slices.Contains(withRapid, s.pkg) {
		all = append(all, "-rapid.nofailfile")
	}
	args = append(all, args...)
	out, err := exec.CommandContext(ctx, "go", args...).CombinedOutput()
	return string(out), err
}

// try makes the change, in the build alone, and runs the tests. what is the test that notices.
func (t *tester) try(ctx context.Context, c change) (o outcome, what string) {
	dir, err := os.MkdirTemp("", "mutate-")
	if err != nil {
		return doesNotCompile, ": " + err.Error()
	}
	defer os.RemoveAll(dir)
	overlay, err := c.overlay(dir)
	if err != nil {
		return doesNotCompile, ": " + err.Error()
	}
	for _, s := range stagesOf(c.pkg) {
		out, err := t.test(ctx, s, "-overlay", overlay)
		var exit *exec.ExitError
		switch {
		case err == nil:
			continue
		case !errors.As(err, &exit), strings.Contains(out, "[build failed]"), strings.Contains(out, "[setup failed]"):
			return doesNotCompile, ""
		}
		if m := failed.FindStringSubmatch(out); m != nil {
			what = ": by " + m[1] + m[2]
		}
		if s.above {
			return isNoticedAbove, what
		}
		return isNoticed, what
	}
	if said, err := t.answered(ctx, "-overlay", overlay); err == nil && said == t.answers {
		return changesNothing, ""
	}
	return isUnnoticed, ""
}

// answered is what the program answers to the questions that its test draws.
func (t *tester) answered(ctx context.Context, args ...string) (string, error) {
	dir, err := os.MkdirTemp("", "mutate-")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "answers")
	if out, err := t.test(ctx, answers, append(args, "-count=1", "-args", "-answers="+path)...); err != nil {
		return "", fmt.Errorf("the program's answers: %w\n%s", err, out)
	}
	said, err := os.ReadFile(path)
	return string(said), err
}

// overlay writes the changed file, and the list that lays it over the one it changes.
func (c change) overlay(dir string) (list string, err error) {
	src, err := os.ReadFile(c.file)
	if err != nil {
		return "", err
	}
	changed := filepath.Join(dir, filepath.Base(c.file))
	text := slices.Concat(src[:c.start], []byte(c.with), src[c.end:])
	if err := os.WriteFile(changed, text, 0o600); err != nil {
		return "", err
	}
	whole, err := filepath.Abs(c.file)
	if err != nil {
		return "", err
	}
	json, err := json.Marshal(map[string]map[string]string{"Replace": {whole: changed}})
	if err != nil {
		return "", err
	}
	list = filepath.Join(dir, "overlay.json")
	return list, os.WriteFile(list, json, 0o600)
}
