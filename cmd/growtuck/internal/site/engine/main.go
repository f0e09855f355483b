package main

import (
	"fmt"
	"growtuck/cmd/growtuck/internal/page"
	"growtuck/sizing"
)

func main() {
	ref, err := sizing.Default()
	fmt.Println(err)
	h, err := page.New(page.Engine{Reference: ref}, page.Options{})
	fmt.Println(h, err)
}
