package main

import (
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/emit"
	"seamwright/lang/problem"
)

// TestEveryCode holds `explain` to its word: the example of every code raises
// that code and nothing else, and its cure raises nothing.
func TestEveryCode(t *testing.T) {
	all := codes()
	if len(all) < 50 {
		t.Errorf("only %d codes are listed", len(all))
	}
	spelling := regexp.MustCompile(`^[LGSRF][1-9][0-9][0-9]$`)
	seen := map[problem.Code]bool{}
	for i := range all {
		info := &all[i]
		t.Run(string(info.Code), func(t *testing.T) {
			if !spelling.MatchString(string(info.Code)) || seen[info.Code] {
				t.Error("the code is misspelt, or used twice")
			}
			seen[info.Code] = true
			if info.Title == "" || info.Rule == "" || info.Source == "" {
				t.Error("title, rule or source is missing")
			}
			if info.Example == "" && strings.Contains(info.Rule, "no example") {
				return // it takes several files (the story files.txtar raises it), or no pattern can
			}
			if strings.HasPrefix(info.Example, "$ ") {
				commands(t, info)
				return
			}
			// A note is no fault: how a drawn unit is sewn, how the edge lies on the grain.
			noted := func(p problem.Problem) bool { return p.Severity == problem.Note && p.Code != info.Code }
			if got := slices.DeleteFunc(raised(t, info.Example), noted); len(got) == 0 {
				t.Error("the example raises nothing")
			} else {
				for _, p := range got {
					if p.Code != info.Code {
						t.Errorf("the example raises %s: %s", p.Code, p.Message)
					}
				}
			}
			for _, p := range slices.DeleteFunc(raised(t, info.Cured), noted) {
				t.Errorf("the cure raises %s: %s", p.Code, p.Message)
			}
		})
	}
}

// raised compiles and lays out a text, as check does, and returns every problem.
func raised(t *testing.T, text string) []problem.Problem {
	t.Helper()
	loader := newLoader()
	defer loader.Close()
	src := &problem.Source{Name: filepath.Join(t.TempDir(), "example.seam"), Text: text}
	p, ps := compiler.Compile(src, loader)
	if p == nil {
		return ps
	}
	return append(ps, emit.Check(p, emit.Options{})...)
}

// commands runs an example that is a list of commands, and its cure.
func commands(t *testing.T, info *problem.Info) {
	t.Helper()
	shell := func(lines string) (string, error) {
		script := "set -e\n" + strings.ReplaceAll("\n"+lines, "\n$ ", "\n")
		c := exec.Command("sh", "-c", script)
		c.Dir = t.TempDir()
		out, err := c.CombinedOutput()
		return string(out), err
	}
	out, err := shell(info.Example)
	word := ": error "
	if err == nil { // what goes on all the same is a warning
		word = ": warning "
	}
	if strings.Count(out, ": error ")+strings.Count(out, ": warning ") != 1 || !strings.Contains(out, word+string(info.Code)+": ") {
		t.Errorf("the example does not raise just this code: %v\n%s", err, out)
	}
	if out, err := shell(info.Cured); err != nil || strings.Contains(out, ": error ") || strings.Contains(out, ": warning ") {
		t.Errorf("the cure fails: %v\n%s", err, out)
	}
}
