package cutting

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
)

// ways lists every way of filling a strip of a height to which nothing more can be
// added.
func ways(needs []Need, height, width pattern.Length) (all [][]int) {
	type size struct {
		need int
		w    pattern.Length
	}
	var sizes []size
	for i, n := range needs {
		if n.Size.H <= height {
			sizes = append(sizes, size{i, n.Size.W})
		}
		if n.Size.W <= height && n.Size.W != n.Size.H {
			sizes = append(sizes, size{i, n.Size.H})
		}
	}
	counts := make([]int, len(needs))
	var add func(from int, left pattern.Length)
	add = func(from int, left pattern.Length) {
		full := true
		for k, s := range sizes {
			if s.w > left {
				continue
			}
			full = false
			if k >= from {
				counts[s.need]++
				add(k, left-s.w)
				counts[s.need]--
			}
		}
		if full {
			all = append(all, append([]int(nil), counts...))
		}
	}
	add(0, width)
	return all
}

// optimum asks the solver for the least length of strips, all ways given.
func optimum(t *testing.T, solver string, needs []Need, width pattern.Length) (least pattern.Length, proved bool) {
	heights := map[pattern.Length]bool{}
	for _, n := range needs {
		heights[n.Size.W], heights[n.Size.H] = true, true
	}
	rows := make([]strings.Builder, len(needs))
	var cost, whole strings.Builder
	n := 0
	for h := range heights {
		for _, way := range ways(needs, h, width) {
			n++
			fmt.Fprintf(&cost, " + %v x%d\n", float64(h), n)
			fmt.Fprintf(&whole, " x%d\n", n)
			for i, k := range way {
				if k > 0 {
					fmt.Fprintf(&rows[i], " + %d x%d\n", k, n)
				}
			}
		}
	}
	text := "Minimize\n" + cost.String() + "Subject To\n"
	for i := range rows {
		text += rows[i].String() + fmt.Sprintf(" >= %d\n", needs[i].Count)
	}
	text += "General\n" + whole.String() + "End\n"
	in, out := filepath.Join(t.TempDir(), "cut.lp"), filepath.Join(t.TempDir(), "cut.txt")
	if err := os.WriteFile(in, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if told, err := exec.Command(solver, "--lp", in, "--cuts", "--tmlim", "4", "-o", out).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, told)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	value := regexp.MustCompile(`Objective: +\S+ = ([0-9.e+]+)`).FindSubmatch(data)
	if value == nil || !strings.Contains(string(data), "INTEGER OPTIMAL") {
		return 0, false
	}
	f, err := strconv.ParseFloat(string(value[1]), 64)
	return pattern.Length(f), err == nil
}

// Orders such as a quilt makes, against the optimum that another program (glpsol of
// GLPK) proves from all ways of filling a strip.
func TestPlansAgainstExactSolver(t *testing.T) {
	solver, err := exec.LookPath("glpsol")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("glpsol is missing: install glpk-utils")
		}
		t.Skip("no glpsol")
	}
	r := rand.New(rand.NewPCG(4, 40))
	over, below, n := 0.0, 0.0, 0
	for range 16 {
		var needs []Need
		for range 2 + r.IntN(3) {
			eighths := func() pattern.Length { return pattern.Length(28+r.IntN(70)) / 8 }
			needs = append(needs, Need{pattern.Size{W: eighths(), H: eighths()}, 4 + r.IntN(40)})
		}
		least, proved := optimum(t, solver, needs, 40)
		if !proved {
			continue
		}
		bound, all := columns(needs, 40, 0.125)
		if bound > least+1e-6 || total(all) < least-1e-6 {
			t.Errorf("%v: bound %v, optimum %v, plan %v", needs, bound, least, total(all))
		}
		over += float64(total(all)/least) - 1
		below += 1 - float64(bound/least)
		n++
	}
	t.Logf("%d cases proved: plans %.2f %% over the optimum on average, bounds %.2f %% below", n, 100*over/float64(n), 100*below/float64(n))
	if n < 6 || over/float64(n) > 0.02 {
		t.Errorf("%d cases, %.2f %% over the optimum on average", n, 100*over/float64(n))
	}
}
