package main

import (
	"fmt"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/edition"
	"seamwright/emit/letter"
	"seamwright/lang/problem"
)

// answerLetter finds the likely cause of what a maker writes, and words a reply.
func answerLetter(c *call) int {
	f := c.flagSet()
	var l letter.Letter
	f.IntVar(&l.Edition, "edition", 0, "the `number` of the edition that the maker holds")
	f.StringVar(&l.Mark, "mark", "", "the `mark` at the upper right of the maker's sheet")
	f.StringVar(&l.Block, "block", "", "the block's `name`, where the pattern has several")
	f.Func("size", "the finished `width` that the maker sews", one(&l.Size))
	f.Func("rule", "what the printed 6-inch rule measures, a `length` such as \"5 13/16in\"", one(&l.Rule))
	f.Func("rule-cm", "what the printed 15-cm rule measures, a `length`", one(&l.RuleCm))
	f.Func("measures", "what the block measures, a `length`, or two with an x between them", two(&l.Measures))
	f.StringVar(&l.Space, "space", "", "a `space` that its patch did not cover, such as B3")
	f.Func("cut", "how that patch was cut, two `lengths` with an x between them", two(&l.Cut))
	reply := f.Bool("reply", false, "only the reply, to be sent as it is")
	if code, ok := c.parse(); !ok {
		return code
	}
	if len(c.args) != 1 {
		return c.misused("answer needs the name of one pattern")
	}
	r := &reporter{call: c, format: "text"}
	records, p, ok := c.known(r, c.args[0])
	if !ok {
		return r.end()
	}
	if l.Cut[0] > 0 && l.Space == "" {
		return c.misused("--cut says how a patch was cut: add --space, where it went")
	}
	a, err := letter.Write(l, records, p)
	if err != nil {
		fmt.Fprintf(c.stderr, "seamwright: %v\n", err)
		return misuse
	}
	if !*reply {
		for i, cause := range a.Causes {
			fmt.Fprintf(c.stdout, "%d. %s\n   %s\n", i+1, cause.What, cause.Figures)
		}
		if len(a.Causes) == 0 {
			fmt.Fprintln(c.stdout, "Nothing was measured, so no cause can be found: `seamwright answer --help` lists what a letter may tell.")
		}
		fmt.Fprint(c.stdout, "\nThe reply:\n\n")
	}
	fmt.Fprint(c.stdout, wrapped(a.Reply))
	return good
}

// known are the records of all editions that were released, the newest last, and
// the pattern that the last is made from. Where nothing was released that is the
// pattern as it is; what is raised but not released yet nobody holds.
func (c *call) known(r *reporter, name string) ([]*edition.Record, *pattern.Pattern, bool) {
	all, fault := readEditions(name)
	if fault != nil {
		r.tell([]problem.Problem{*fault})
		return nil, nil, false
	}
	var records []*edition.Record
	if all != nil {
		for _, n := range all.Numbers() {
			records = append([]*edition.Record{all.Get(n)}, records...)
		}
	}
	p, _, ps := c.compile(name)
	if len(records) > 0 { // whatever has become of the text since
		if p == nil || p.About.Edition != records[len(records)-1].Edition {
			p = nil
		}
		return records, p, true
	}
	if r.tell(errorsOf(ps)) {
		return nil, nil, false
	}
	if len(p.Blocks) == 0 {
		fmt.Fprintf(c.stderr, "seamwright: %s has no block, so nobody can have sewn it\n", name)
		r.worst(misuse)
		return nil, nil, false
	}
	now, paper := emit.Record(p)
	if r.tell(errorsOf(paper)) {
		return nil, nil, false
	}
	return []*edition.Record{now}, p, true
}

// one is a flag that takes a length.
func one(into *pattern.Length) func(string) error {
	return func(s string) error {
		l, err := length(s)
		*into = l
		return err
	}
}

// two is a flag that takes a length, or two with an x between them.
func two(into *[2]pattern.Length) func(string) error {
	return func(s string) error {
		a, b, both := strings.Cut(s, "x")
		if err := one(&into[0])(a); err != nil || !both {
			return err
		}
		return one(&into[1])(b)
	}
}

// mailWidth is how many characters a line of a mail has (common practice).
const mailWidth = 76

// wrapped breaks the lines of a text for a mail.
func wrapped(s string) string {
	var b strings.Builder
	for _, line := range strings.Split(strings.TrimSuffix(s, "\n"), "\n") {
		if line == "" {
			b.WriteByte('\n')
			continue
		}
		b.WriteString(strings.ReplaceAll(wrap(glued(line), mailWidth), glue, " ") + "\n")
	}
	return b.String()
}

// glue stands for a blank at which no line is broken.
const glue = "\x01"

// glued keeps numbers with their units and fractions.
func glued(line string) string {
	words := strings.Fields(line)
	var b strings.Builder
	for i, w := range words {
		digit := i > 0 && words[i-1][len(words[i-1])-1] >= '0' && words[i-1][len(words[i-1])-1] <= '9'
		unit := strings.HasPrefix(w, "%") || strings.TrimRight(w, ".,;:)") == "in" || strings.TrimRight(w, ".,;:)") == "cm" || w[0] >= '0' && w[0] <= '9' && strings.Contains(w, "/")
		switch {
		case digit && unit:
			b.WriteString(glue)
		case i > 0:
			b.WriteByte(' ')
		}
		b.WriteString(w)
	}
	return b.String()
}
