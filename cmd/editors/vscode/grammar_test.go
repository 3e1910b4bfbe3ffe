package vscode_test

import (
	"encoding/json"
	"os"
	"regexp"
	"strings"
	"testing"
)

// A rule is one of a TextMate grammar. Only what ours uses is known here: unknown
// fields are an error, so that the grammar can't outgrow its test. Its expressions
// are such as Go's engine and Oniguruma read alike.
type rule struct {
	Name          string             `json:"name"`
	Match         string             `json:"match"`
	Captures      map[string]capture `json:"captures"`
	Begin         string             `json:"begin"`
	BeginCaptures map[string]capture `json:"beginCaptures"`
	End           string             `json:"end"`
	Include       string             `json:"include"`
	Patterns      []*rule            `json:"patterns"`

	match, end *regexp.Regexp
}

type capture struct {
	Name string `json:"name"`
}

type grammar struct {
	Name       string           `json:"name"`
	ScopeName  string           `json:"scopeName"`
	FileTypes  []string         `json:"fileTypes"`
	Patterns   []*rule          `json:"patterns"`
	Repository map[string]*rule `json:"repository"`
}

func readGrammar(t *testing.T) *grammar {
	t.Helper()
	text, err := os.ReadFile("syntaxes/seam.tmLanguage.json")
	if err != nil {
		t.Fatal(err)
	}
	dec := json.NewDecoder(strings.NewReader(string(text)))
	dec.DisallowUnknownFields()
	g := new(grammar)
	if err := dec.Decode(g); err != nil {
		t.Fatal(err)
	}
	g.compile(t, g.Patterns)
	for _, r := range g.Repository {
		g.compile(t, []*rule{r})
	}
	return g
}

func (g *grammar) compile(t *testing.T, rules []*rule) {
	t.Helper()
	for _, r := range rules {
		if r.Include != "" && g.Repository[strings.TrimPrefix(r.Include, "#")] == nil {
			t.Fatalf("%s is included and not there", r.Include)
		}
		if source := r.Match + r.Begin; source != "" {
			r.match = regexp.MustCompile(source)
		}
		if r.End != "" {
			r.end = regexp.MustCompile(r.End)
		}
		g.compile(t, r.Patterns)
	}
}

// flat lists the rules that are tried in a place, includes in their stead.
func (g *grammar) flat(rules []*rule) (all []*rule) {
	for _, r := range rules {
		if r.Include != "" {
			r = g.Repository[strings.TrimPrefix(r.Include, "#")]
		}
		if r.match != nil {
			all = append(all, r)
		} else {
			all = append(all, g.flat(r.Patterns)...)
		}
	}
	return all
}

// scopes returns the innermost scope of every byte of a text, "" where there is none.
func (g *grammar) scopes(text string) []string {
	all := make([]string, len(text))
	var open []*rule
	start := 0
	for _, line := range strings.SplitAfter(text, "\n") {
		for at := 0; at < len(line); {
			inner := g.Patterns
			if len(open) > 0 {
				inner = open[len(open)-1].Patterns
			}
			best, found := (*rule)(nil), []int(nil)
			for _, r := range g.flat(inner) {
				if m := find(r.match, line, at); m != nil && (found == nil || m[0] < found[0]) {
					best, found = r, m
				}
			}
			if len(open) > 0 {
				if m := find(open[len(open)-1].end, line, at); m != nil && (found == nil || m[0] <= found[0]) {
					open = open[:len(open)-1]
					at = m[1]
					continue
				}
			}
			if best == nil {
				break
			}
			paint(all[start:], found[0], found[1], best.Name)
			for n, c := range merged(best) {
				if i := int(n[0] - '0'); found[2*i] >= 0 {
					paint(all[start:], found[2*i], found[2*i+1], c.Name)
				}
			}
			if best.end != nil {
				open = append(open, best)
			}
			at = found[1]
		}
		start += len(line)
	}
	return all
}

func merged(r *rule) map[string]capture {
	if r.end != nil {
		return r.BeginCaptures
	}
	return r.Captures
}

// find looks for an expression from a place on. All words are eaten whole, so that
// a place is never within one, and the bounds of words are where the line is cut.
func find(e *regexp.Regexp, line string, at int) []int {
	if at > 0 && strings.HasPrefix(e.String(), "^") {
		return nil
	}
	m := e.FindStringSubmatchIndex(line[at:])
	for i := range m {
		if m[i] >= 0 {
			m[i] += at
		}
	}
	return m
}

func paint(all []string, from, to int, name string) {
	if name == "" {
		return
	}
	for i := from; i < to; i++ {
		all[i] = name
	}
}
