package main

import (
	"fmt"
	"io"
	"strings"

	"seamwright/lang/problem"
)

// explain tells what codes mean.
func explain(c *call) int {
	c.flagSet()
	if code, ok := c.parse(); !ok {
		return code
	}
	all := codes()
	if len(c.args) == 0 {
		for i := range all {
			fmt.Fprintf(c.stdout, "%s  %s\n", all[i].Code, all[i].Title)
		}
		return good
	}
	exit := good
	for n, arg := range c.args {
		info := findCode(all, arg)
		if info == nil {
			fmt.Fprintf(c.stderr, "seamwright: %s\n", unknownCode(arg, all))
			exit = misuse
			continue
		}
		if n > 0 {
			fmt.Fprintln(c.stdout)
		}
		tellCode(c.stdout, info)
	}
	return exit
}

func findCode(all []problem.Info, arg string) *problem.Info {
	for i := range all {
		if strings.EqualFold(string(all[i].Code), arg) {
			return &all[i]
		}
	}
	return nil
}

// unknownCode words the failure; codes are too short for a guess by spelling, so
// it offers those that begin alike.
func unknownCode(arg string, all []problem.Info) string {
	var like []string
	for i := range all {
		code := string(all[i].Code)
		if len(arg) > 1 && len(like) < 5 && len(code) == len(arg) && strings.EqualFold(code[:len(code)-1], arg[:len(arg)-1]) {
			like = append(like, code)
		}
	}
	s := fmt.Sprintf("there is no code %q; ", arg)
	if len(like) > 0 {
		return s + "did you mean " + strings.Join(like, ", ") + "?"
	}
	return s + "`seamwright explain` lists them all"
}

// tellCode writes all that is known of a code.
func tellCode(w io.Writer, info *problem.Info) {
	fmt.Fprintf(w, "%s: %s\n\n%s\n", info.Code, info.Title, wrap(info.Rule, 78))
	if info.Source != "" {
		fmt.Fprintf(w, "\nSource: %s\n", wrap(info.Source, 78))
	}
	if len(info.Limits) > 0 {
		fmt.Fprintf(w, "\nSettings of a pattern that move its limits, with the usual values:\n\n%s", indent(strings.Join(info.Limits, "\n")))
	}
	if info.Example != "" {
		fmt.Fprintf(w, "\nThe smallest example:\n\n%s", indent(info.Example))
	}
	if info.Cured != "" {
		fmt.Fprintf(w, "\nMended:\n\n%s", indent(info.Cured))
	}
}

func indent(text string) string {
	var b strings.Builder
	for _, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		if line != "" {
			b.WriteString("    ")
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

// wrap breaks text into lines of at most width characters; lines that are
// broken already stay so where a blank line divides them.
func wrap(text string, width int) string {
	var out []string
	for _, para := range strings.Split(text, "\n\n") {
		line := ""
		for _, word := range strings.Fields(para) {
			if line != "" && len(line)+1+len(word) > width {
				out = append(out, line)
				line = ""
			}
			if line != "" {
				line += " "
			}
			line += word
		}
		out = append(out, line, "")
	}
	return strings.TrimRight(strings.Join(out, "\n"), "\n")
}
