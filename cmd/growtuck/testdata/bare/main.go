// Command bare does nothing: what starting any program costs.
package main

func main() {}
