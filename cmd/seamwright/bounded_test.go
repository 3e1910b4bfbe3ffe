package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// mostTime is how long the worst input may take, mostMemory how much it may need
// in MB. Both leave room for a busy machine.
const (
	mostTime   = 20 * time.Second
	mostMemory = 512
)

const fabrics = "fabric a \"lamp\" light #f0dca0\nfabric b \"tide\" dark #1f3440\n"

// TestWorstInput runs the real program on input made to hurt it. Each is one clear
// problem, or a few, within bounded time and memory.
func TestWorstInput(t *testing.T) {
	many := func(before string, n int, middle, after string) string {
		return before + strings.Repeat(middle, n) + after
	}
	section := "  section { 1 a at c; 2 b along n -- e }\n"
	for _, c := range []struct {
		name, text string
		code       int
		words      string // in what is told
	}{
		{"100,000 open parentheses", many(fabrics+"block t 4 x 4 finished 4in {\n  let v = ", 100_000, "(", "1"+strings.Repeat(")", 100_000)+"\n"+section+"}\n"), problems, "error L"},
		{"100,000 open braces", many(fabrics+"block t 4 x 4 finished 4in {", 100_000, " if true {", ""), problems, "error L"},
		{"100,000 minus signs", many(fabrics+"block t 4 x 4 finished 4in {\n  let v = ", 100_000, "- ", "1\n"+section+"}\n"), problems, "error L"},
		{"an endless loop", fabrics + "block t 4 x 4 finished 4in {\n  for i in 1..1000000000000 { let v = i }\n" + section + "}\n", problems, "error L"},
		{"loops in loops", fabrics + "block t 4 x 4 finished 4in {\n" + many("", 6, "  for i in 1..90000 {\n", "let v = 1") + strings.Repeat("}", 6) + section + "}\n", problems, "error L"},
		{"a unit in itself", fabrics + "unit u 2 x 2 { place u at sw }\nblock t 4 x 4 finished 4in { place u at sw }\n", problems, "u"},
		{"units that double, forty deep", doubling(40), problems, "error"},
		{"a size of zero", fabrics + "block t 4 x 4 finished 0in {\n" + section + "}\n", problems, "finished"},
		{"a negative size", fabrics + "block t 4 x 4 finished -4in {\n" + section + "}\n", problems, "finished"},
		{"a grid of zero", fabrics + "block t 0 x 4 finished 4in {\n" + section + "}\n", problems, "error"},
		{"a thousand sizes", fabrics + "block t 4 x 4 finished " + sizes(1000) + " {\n" + section + "}\n", problems, "error L"},
		{"an enormous number", fabrics + "block t 4 x 4 finished 4in {\n  let v = " + strings.Repeat("9", 400) + " * 9\n" + section + "}\n", problems, "error L"},
		{"a megabyte of letters", strings.Repeat("a", 1<<20), problems, "error L"},
		{"a megabyte of commas", "fabric" + strings.Repeat(",", 1<<20-10), problems, "error L"},
		{"a megabyte of open strings", strings.Repeat("\"\n", 1<<19), problems, "error L"},
		{"broken UTF-8", "block \xff\xfe\x80 4 x 4 finished 4in {}", problems, "error L"},
		{"two megabytes", strings.Repeat("fabric\n", 300_000), misuse, "F103"},
		{"nothing", "", problems, "F105"},
		{"a binary", "\x7fELF\x00\x00", misuse, "F104"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			if err := os.WriteFile(filepath.Join(dir, "worst.seam"), []byte(c.text), 0o666); err != nil {
				t.Fatal(err)
			}
			for _, verb := range []string{"build", "fmt"} {
				r := runIn(t, dir, verb, "worst.seam")
				if verb == "build" && (r.code != c.code || !strings.Contains(r.stderr, c.words)) {
					t.Errorf("%s: exit code %d, not %d, or not told as %q:\n%s", verb, r.code, c.code, c.words, first(r.stderr))
				}
				if r.code == ourFault || r.code < 0 {
					t.Errorf("%s breaks: exit code %d\n%s", verb, r.code, first(r.stderr))
				}
				if r.took > mostTime || r.memory > mostMemory {
					t.Errorf("%s takes %v and %.0f MB", verb, r.took, r.memory)
				}
				if len(r.stderr) > 200_000 {
					t.Errorf("%s tells %d bytes", verb, len(r.stderr))
				}
			}
			if _, err := os.Stat(filepath.Join(dir, "worst-out")); err == nil {
				t.Error("something was written")
			}
		})
	}
}

// doubling is a chain of units, each of which places the next twice.
func doubling(deep int) string {
	var s strings.Builder
	s.WriteString(fabrics + "unit u0 1 x 1 { section { 1 a at c } }\n")
	for i := 1; i <= deep; i++ {
		fmt.Fprintf(&s, "unit u%d 2 x 1 { join n -- s; place u%d at sw; place u%d at s }\n", i, i-1, i-1)
	}
	fmt.Fprintf(&s, "block t 2 x 1 finished 8in { place u%d at sw }\n", deep)
	return s.String()
}

func sizes(n int) string {
	var all []string
	for i := range n {
		all = append(all, fmt.Sprintf("%din", i+1))
	}
	return strings.Join(all, ", ")
}

// A ran is what one run of the program did.
type ran struct {
	code           int
	stdout, stderr string
	took           time.Duration
	memory         float64 // peak, in MB
}

func runIn(t *testing.T, dir string, args ...string) ran {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 2*mostTime)
	defer cancel()
	c := exec.CommandContext(ctx, "seamwright", args...)
	var stdout, stderr bytes.Buffer
	c.Dir, c.Stdout, c.Stderr = dir, &stdout, &stderr
	begun := time.Now()
	if err := c.Run(); err != nil && c.ProcessState == nil {
		t.Fatal(err)
	}
	r := ran{code: c.ProcessState.ExitCode(), stdout: stdout.String(), stderr: stderr.String(), took: time.Since(begun)}
	if usage, ok := c.ProcessState.SysUsage().(*syscall.Rusage); ok {
		r.memory = float64(usage.Maxrss) / 1024
	}
	return r
}

func first(s string) string { return s[:min(len(s), 2000)] }

// TestInterrupt stops builds with Ctrl-C at every stage, those that ask between
// files and those that are over too soon to ask. What is there afterwards is the old
// results or the new ones, never a mixture.
func TestInterrupt(t *testing.T) {
	t.Run("asked", func(t *testing.T) { interrupt(t) })
	t.Run("brief", func(t *testing.T) { interrupt(t, "--format", "svg", "--only", "sheets,diagrams,tables") })
}

func interrupt(t *testing.T, flags ...string) {
	args := append([]string{"build", "boat.seam"}, flags...)
	dir := t.TempDir()
	file, out := filepath.Join(dir, "boat.seam"), filepath.Join(dir, "boat-out")
	version := func(edition int) {
		text := strings.NewReplacer("STARTER TITLE", "Boat", "starter_name", "boat", "edition   1", fmt.Sprintf("edition   %d", edition)).Replace(starter)
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	built := func(edition int) map[string]string {
		version(edition)
		if r := runIn(t, dir, args...); r.code != good {
			t.Fatalf("exit code %d: %s", r.code, r.stderr)
		}
		return tree(t, out)
	}
	old, now := built(1), built(2)
	old = built(1)
	before, after := 0, 0
	for delay := time.Duration(0); delay < 12*time.Millisecond; delay += 200 * time.Microsecond {
		version(2)
		c := exec.Command("seamwright", args...)
		c.Dir = dir
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(delay)
		c.Process.Signal(os.Interrupt)
		c.Wait()
		switch got := tree(t, out); {
		case same(got, old):
			before++
		case same(got, now):
			after++
		default:
			t.Fatalf("stopped after %v, the results are neither the old nor the new ones: %d files", delay, len(got))
		}
		old = built(1)
	}
	t.Logf("%d builds were stopped, %d were done before", before, after)
	if before == 0 {
		t.Error("no build was stopped")
	}
}

func same(a, b map[string]string) bool {
	if len(a) != len(b) {
		return false
	}
	for name, text := range a {
		if other, ok := b[name]; !ok || other != text {
			return false
		}
	}
	return true
}

// tree reads a folder, what is hidden included.
func tree(t *testing.T, folder string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := filepath.WalkDir(folder, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		got[path] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}
