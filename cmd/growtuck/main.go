// Command growtuck reads children's body measurements by size, blends a
// child's own measurements into them, and works out the finished measurements
// of garments for crochet and knitting.
//
//	growtuck size 3                      what a size 3 measures
//	growtuck profile child.csv           which size each measurement is
//	growtuck blend child.csv             all measurements, from a few
//	growtuck garment cardigan child.csv  body + ease + adjustment
//	growtuck plan cardigan child.csv     stitches and rows, to be worked
//	growtuck check draft.csv             what will not fit or add up
//
// A command asks (package ask), works (package work, over sizing, plan and validate)
// and tells (package tell). Results go to standard output, notes
// and errors to standard error. It exits with 1 for input that is read and found
// wrong, and with 2 for wrong usage and for files that cannot be read or written.
package main

import (
	"os"
	"runtime/debug"
)

func main() {
	// Looking up a size takes 6 MB in all: collecting garbage on the way would add a
	// fifth to its time. GOGC decides if it is set.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	args := os.Args[1:]
	if fromDesktop(args) {
		args = []string{"page", "--open"}
	}
	os.Exit(run(args, os.Stdin, os.Stdout, os.Stderr))
}
