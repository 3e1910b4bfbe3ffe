package solver

import (
	"fmt"
	"math/rand"
	"reflect"
	"slices"
	"testing"

	"seamwright/compiler/plane"
)

// TestJoins: polygons that tile an outline are joined without being cut, in the
// order that the oracle allows.
func TestJoins(t *testing.T) {
	for k, f := range families {
		r := rand.New(rand.NewSource(int64(200 + k)))
		for i := range 40 * *long {
			b := f.random(r, 2+r.Intn(7))
			joins, p, w := Joins(b.outline, b.faces, 0)
			c := checker{t: t, name: fmt.Sprintf("%s, block %d", f.name, i), block: b, p: p, o: newOracle(b.faces)}
			if c.o.solve() == 0 {
				if len(w) == 0 || joins != nil {
					c.failf("joins %v for what can't be sewn", joins)
				}
				continue
			}
			plan := Plan{Joins: joins}
			for i := range b.faces {
				plan.Sections = append(plan.Sections, Section{Patches: []int{i}, Outline: p.Polygon(i)})
			}
			for _, j := range joins {
				plan.Depth = max(plan.Depth, j.Level)
			}
			c.sewn(plan)
		}
	}
}

// TestLongSeamsLast: four squares in a row and a strip below. The strip's seam is
// longest and is sewn last, and the row in two levels.
func TestLongSeamsLast(t *testing.T) {
	var faces []plane.Polygon
	for x := range 4 {
		q := box(1, 1)
		for i := range q {
			q[i] = q[i].Add(pt(float64(x), 1))
		}
		faces = append(faces, q)
	}
	faces = append(faces, box(4, 1))
	joins, _, _ := Joins(box(4, 2), faces, 0)
	if len(joins) != 4 || joins[3].Level != 3 || joins[3].A.Dist(joins[3].B) != 4 {
		t.Errorf("%+v", joins)
	}
}

// TestFaultyTiling: no joins where the polygons don't tile.
func TestFaultyTiling(t *testing.T) {
	joins, p, w := Joins(box(4, 4), []plane.Polygon{box(2, 4)}, 0)
	if joins != nil || len(p.Faults) != 1 || p.Faults[0].Kind != Uncovered || p.Faults[0].Area != 8 || w != nil {
		t.Errorf("%+v %+v %+v", joins, p.Faults, w)
	}
}

// TestDeterministic: the same input gives the same plan.
func TestDeterministic(t *testing.T) {
	for _, b := range []block{largeRandom(300, 0, 50), largeRandom(300, 8, 20), compass(16), grid(9)} {
		lines := b.lines()
		w := Wishes{MaxPieces: 4, First: []int{3}, Together: [][]int{{0, 1}}}
		first := Build(b.outline, lines, 0)
		plan, wished := first.Plan(Wishes{}), first.Plan(w)
		for range 3 {
			again := Build(b.outline, slices.Clone(lines), 0)
			if !reflect.DeepEqual(again.Plan(Wishes{}), plan) || !reflect.DeepEqual(again.Plan(w), wished) {
				t.Fatalf("%d patches: two plans", len(b.faces))
			}
		}
	}
}

// TestRepeatsAlike: eight equal wedges are divided alike and sewn in the same
// order.
func TestRepeatsAlike(t *testing.T) {
	b := compass(8)
	plan := Build(b.outline, b.lines(), 0).Plan(Wishes{})
	kinds := map[string]int{}
	for _, s := range plan.Sections {
		name := ""
		for i := range s.Patches {
			name += fmt.Sprintf("%.4f ", s.Seams[i].Len())
		}
		kinds[fmt.Sprintf("%.4f %s", s.Outline.Area(), name)]++
	}
	// The rays end in corners and in the middle of sides, so there are four
	// kinds of wedge at most, each with its half.
	if len(kinds) > 4 {
		t.Errorf("%d sections of %d kinds: %v", len(plan.Sections), len(kinds), kinds)
	}
}
