package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"seamwright/lang/problem"
)

// flagSet begins the verb's flags.
func (c *call) flagSet() *flag.FlagSet {
	c.flags = flag.NewFlagSet(c.verb.name, flag.ContinueOnError)
	c.flags.Usage = func() {}
	c.flags.SetOutput(io.Discard)
	return c.flags
}

// parse reads the flags, which may stand before, between and after the names; "--"
// ends them. Where it reports false the verb ends with the code: help was asked
// for, or a flag is wrong.
func (c *call) parse() (code int, ok bool) {
	var names []string
	for rest := c.args; len(rest) > 0; {
		before := rest
		switch err := c.flags.Parse(rest); {
		case errors.Is(err, flag.ErrHelp):
			c.help()
			return good, false
		case err != nil:
			return c.misused("%s", c.wrongFlag(err)), false
		}
		rest = c.flags.Args()
		if read := len(before) - len(rest); read > 0 && before[read-1] == "--" {
			names = append(names, rest...)
			break
		}
		if len(rest) > 0 {
			names, rest = append(names, rest[0]), rest[1:]
		}
	}
	c.args = names
	return good, true
}

// wrongFlag words an error of the flag package, and says what was meant.
func (c *call) wrongFlag(err error) string {
	name, unknown := strings.CutPrefix(err.Error(), "flag provided but not defined: -")
	if !unknown {
		return strings.ReplaceAll(err.Error(), " -", " --")
	}
	var names []string
	c.flags.VisitAll(func(f *flag.Flag) { names = append(names, f.Name) })
	message := fmt.Sprintf("%s has no flag --%s", c.verb.name, name)
	if near := problem.Nearest(name, names); near != "" {
		message += fmt.Sprintf("; did you mean --%s?", near)
	}
	return message
}

func (c *call) help() {
	fmt.Fprintf(c.stdout, "seamwright %s %s\n\n%s\n", c.verb.name, c.verb.args, c.verb.long)
	first := true
	c.flags.VisitAll(func(f *flag.Flag) {
		if first {
			fmt.Fprintln(c.stdout)
			first = false
		}
		value, usage := flag.UnquoteUsage(f)
		fmt.Fprintf(c.stdout, "  --%s %s\n%s", f.Name, value, indent(wrap(usage, 72)))
	})
	fmt.Fprintf(c.stdout, "\nExample:\n    %s\n", c.verb.example)
}

// words is a flag that takes words divided by commas, and may be given again.
func words(into *[]string) func(string) error {
	return func(s string) error {
		*into = append(*into, strings.Split(s, ",")...)
		return nil
	}
}
