package main

import (
	"flag"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"strings"

	"seamwright/lang/problem"
)

// A verb is one command.
type verb struct {
	name    string
	args    string // what follows the flags, for the usage line
	short   string // one line for the list
	long    string // a few lines for --help
	example string
	run     func(*call) int
}

// A call is a verb as it was asked for.
type call struct {
	env
	verb   *verb
	flags  *flag.FlagSet
	memory memory
	units  string // metric, inch: first in what is built, instead of the patterns' own; "" where they stay
}

// run finds the verb, runs it and returns the exit code. A panic anywhere below
// is a fault of ours, and is told as one.
func run(e env, all []verb) (code int) {
	defer func(asked []string) {
		if r := recover(); r != nil {
			crash(e, asked, r, debug.Stack())
			code = ourFault
		}
	}(e.args)
	if len(e.args) == 0 {
		overview(e.stderr, all)
		return misuse
	}
	name := e.args[0]
	switch name {
	case "help", "--help", "-h":
		if len(e.args) > 1 && name == "help" {
			e.args = []string{e.args[1], "--help"}
			return run(e, all)
		}
		overview(e.stdout, all)
		return good
	case "--version":
		fmt.Fprintln(e.stdout, version())
		return good
	}
	for i := range all {
		if all[i].name == name {
			e.args = e.args[1:]
			return all[i].run(&call{env: e, verb: &all[i]})
		}
	}
	fmt.Fprintf(e.stderr, "seamwright: there is no verb %q%s\n", name, unknownVerb(name, all))
	return misuse
}

func unknownVerb(name string, all []verb) string {
	if strings.HasSuffix(name, ".seam") {
		return fmt.Sprintf("; to compile it: seamwright build %s", name)
	}
	names := make([]string, len(all))
	for i := range all {
		names[i] = all[i].name
	}
	if near := problem.Nearest(name, names); near != "" {
		return fmt.Sprintf("; did you mean %s?", near)
	}
	return "; the verbs are " + strings.Join(names, ", ")
}

func overview(w io.Writer, all []verb) {
	fmt.Fprint(w, "seamwright compiles quilt block patterns to foundation sheets.\n\n    seamwright VERB FILE...\n\n")
	for i := range all {
		fmt.Fprintf(w, "  %-10s%s\n", all[i].name, all[i].short)
	}
	fmt.Fprint(w, "\n`seamwright VERB --help` tells more. Begin with: seamwright new boat\n")
}

// misused tells of a wrong command line.
func (c *call) misused(format string, args ...any) int {
	fmt.Fprintf(c.stderr, "seamwright: "+format+"\n", args...)
	fmt.Fprintf(c.stderr, "  `seamwright %s --help` shows how it is used\n", c.verb.name)
	return misuse
}

// crash says what to report of a fault of ours.
func crash(e env, asked []string, what any, stack []byte) {
	fmt.Fprintf(e.stderr, `seamwright: this is a fault of the program, not of your pattern: nothing of yours was changed.
Please report it, with the pattern if you can and with what follows:
  %s, %s %s/%s
  arguments: %s
  %v

%s`, version(), runtime.Version(), runtime.GOOS, runtime.GOARCH, strings.Join(asked, " "), what, stack)
}

// version is the program's own, as the Go tool recorded it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "seamwright (built from source)"
	}
	return "seamwright " + info.Main.Version
}
