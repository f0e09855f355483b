// Mutate asks of the tests whether they notice. It draws changes of one token in the
// packages that compute (an operator, a sign, a bound, a constant, a condition turned
// round, two arguments exchanged, a statement left out), makes them one at a time, and
// runs the tests of the package they are in:
//
//	go run ./.ci/mutate [-n 200] [-seed 1] [-jobs 2] [-least 0] [-only PLACE] [PACKAGE...]
//
// No file is touched: the changed one is laid over it with go test -overlay. Tests that
// only compare with a file that the program wrote are left out: what the program said
// yesterday is no reason to believe it.
//
// Of what a plan computes there are tests further up too: each pattern is worked from its
// words alone, and checked as a draft. What the package's own tests do not notice is held
// against these, and counted apart.
//
// What no test notices is printed with its place. A change after which the program does
// the same can be noticed by none. Each that no test notices is therefore asked the 1,500
// drawn questions of TestAnswersAreSteady, and where every answer is the same, byte for byte,
// it "changes nothing": what is unnoticed is known to change an answer. Those that were
// looked at, and cannot change anything, are in equivalents.csv, each with the reason, and are not drawn.
// The exit status is 1 where less than -least % of those that change anything are
// noticed, by the package's own tests or further up.
package main

import (
	"context"
	_ "embed"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/signal"
	"slices"
	"strings"
	"sync"
)

// packages are those whose figures makers go by, and the one that checks them.
var packages = []string{"sizing", "sizing/stitch", "sizing/plan", "sizing/order", "validate"}

//go:embed equivalents.csv
var equivalents string

func main() {
	n := flag.Int("n", 200, "changes that compile")
	seed := flag.Uint64("seed", 1, "of the draw")
	jobs := flag.Int("jobs", 2, "tests at a time")
	least := flag.Float64("least", 0, "percent of them that must be noticed")
	only := flag.String("only", "", "only changes whose place contains this, all of them")
	flag.Parse()
	of := flag.Args()
	if len(of) == 0 {
		of = packages
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	share, err := run(ctx, of, *n, *seed, *jobs, *only)
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(2)
	}
	if 100*share < *least {
		os.Exit(1)
	}
}

func run(ctx context.Context, of []string, n int, seed uint64, jobs int, only string) (share float64, err error) {
	same, err := readEquivalents()
	if err != nil {
		return 0, err
	}
	var all []change
	stale := make(map[string]bool)
	for key := range same {
		if slices.ContainsFunc(of, func(p string) bool {
			return strings.HasPrefix(key, p+"/") && !strings.Contains(key[len(p)+1:strings.Index(key, "\n")], "/")
		}) {
			stale[key] = true
		}
	}
	for _, p := range of {
		changes, err := changesOf(p)
		if err != nil {
			return 0, err
		}
		for _, c := range changes {
			delete(stale, c.key())
			if _, none := same[c.key()]; !none && strings.Contains(c.place(), only) {
				all = append(all, c)
			}
		}
	}
	for key := range stale {
		return 0, errors.New("equivalents.csv: no such change: " + strings.ReplaceAll(key, "\n", " | "))
	}
	r := rand.New(rand.NewPCG(seed, seed))
	r.Shuffle(len(all), func(i, k int) { all[i], all[k] = all[k], all[i] })
	if only != "" {
		n = len(all)
	}
	fmt.Printf("%d changes of %s, %d drawn by seed %d\n", len(all), strings.Join(of, ", "), min(n, len(all)), seed)
	t, err := newTester(ctx, of)
	if err != nil {
		return 0, err
	}
	counts := t.tried(ctx, all, n, jobs)
	own, above := counts[isNoticed], counts[isNoticedAbove]
	tried := own + above + counts[isUnnoticed]
	if tried == 0 {
		return 0, errors.Join(errors.New("no change was tried"), ctx.Err())
	}
	share = float64(own+above) / float64(tried)
	fmt.Printf("of %d that change anything: %d noticed by the tests of their package (%.1f %%), %d further up, %d by none: %.1f %% noticed; %d more change nothing\n",
		tried, own, 100*float64(own)/float64(tried), above, counts[isUnnoticed], 100*share, counts[changesNothing])
	return share, nil
}

// tried tries changes in their order until n have compiled.
func (t *tester) tried(ctx context.Context, all []change, n, jobs int) map[outcome]int {
	counts := make(map[outcome]int)
	var wg sync.WaitGroup
	var mu sync.Mutex
	next := make(chan change)
	compiled := 0
	for range jobs {
		wg.Go(func() {
			for c := range next {
				o, what := t.try(ctx, c)
				mu.Lock()
				if ctx.Err() == nil {
					counts[o]++
					if o == doesNotCompile {
						compiled--
					}
					fmt.Printf("%-16s %s%s\n", o, c, what)
				}
				mu.Unlock()
			}
		})
	}
	for _, c := range all {
		mu.Lock()
		full := compiled >= n
		if !full {
			compiled++ // unless it does not
		}
		mu.Unlock()
		if full || ctx.Err() != nil {
			break
		}
		next <- c
	}
	close(next)
	wg.Wait()
	return counts
}

// readEquivalents are the reasons by [change.key].
func readEquivalents() (map[string]string, error) {
	rows, err := csv.NewReader(strings.NewReader(equivalents)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("equivalents.csv: %w", err)
	}
	same := make(map[string]string)
	for i, row := range rows[1:] {
		if len(row) != 5 || row[4] == "" {
			return nil, fmt.Errorf("equivalents.csv: row %d wants file, function, from, to and reason", i+2)
		}
		same[strings.Join(row[:4], "\n")] = row[4]
	}
	return same, nil
}
