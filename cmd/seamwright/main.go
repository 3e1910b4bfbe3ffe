package main

import (
	"io"
	"os"

	"seamwright/compiler/parallel"
)

func main() {
	parallel.GrowStack(len(os.Args))
	os.Exit(run(env{os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv}, verbs()))
}

// An env is all that a command knows of the world.
type env struct {
	args           []string
	stdin          io.Reader
	stdout, stderr io.Writer
	getenv         func(string) string
}

// The exit codes, a contract with scripts.
const (
	good     = 0   // done; warnings, if any, were told
	problems = 1   // the pattern has errors, or with --strict warnings
	misuse   = 2   // a wrong command line, unreadable input, or a place that can't be written
	ourFault = 3   // a mistake in this program
	stopped  = 130 // stopped with Ctrl-C; the shells' number for it
)
