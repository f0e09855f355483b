// Command growtuck reads children's body measurements by size, blends a
// child's own measurements into them, and works out the finished measurements
// of garments for crochet and knitting.
//
//	growtuck size 3                      what a size 3 measures
//	growtuck profile child.csv           which size each measurement is
//	growtuck blend child.csv             all measurements, from a few
//	growtuck garment cardigan child.csv  body + ease + adjustment
//
// It is a thin face over package sizing. Results go to standard output, notes
// and errors to standard error. It exits with 1 for input that is read and found
// wrong, and with 2 for wrong usage and for files that cannot be read or written.
package main

import (
	"os"
	"runtime/debug"
)

func main() {
	// A look-up is over with 6 MB in use: a collection on the way there would be
	// a fifth of its time. GOGC decides where it is set.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
