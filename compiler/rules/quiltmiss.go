package rules

import (
	"fmt"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// QuiltMiss: seams of neighboring blocks meet, or keep well apart.
func (catalogue) QuiltMiss() Rule {
	apart := inches("near_miss", nearMiss) // as of R104, whose limit it is
	return Rule{
		Info: problem.Info{
			Code:   "R119",
			Title:  "seams of two blocks of a quilt almost meet",
			Rule:   "Where the blocks of a quilt are joined, seam ends on the two sides either meet or lie more than 1/2 in apart, finished, as across the joins of a block. Blocks that are turned, reversed or of different kinds often miss each other by a little.",
			Source: "common practice, no source",
			Example: `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 8 x 8 finished 6in {
  section A {
    1 sail at (1, 4)
    2 hull along (0, 4.125) -- (8, 4.125)
  }
}
quilt "Regatta" {
  row ketch, ketch turn 180deg
}
`,
			Cured: `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 8 x 8 finished 6in {
  section A {
    1 sail at (1, 4)
    2 hull along (0, 4.125) -- (8, 4.125)
  }
}
quilt "Regatta" {
  row ketch, ketch
}
`,
		},
		Pattern: func(p *pattern.Pattern, ls Limits, report func(Finding)) {
			for i := range p.Quilts {
				if l := p.Quilts[i].Layout; l != nil {
					quiltMisses(p, &p.Quilts[i], ls.length(apart), report)
				}
			}
		},
	}
}

// A miss is two seam ends that almost meet, on a join of a quilt.
type miss struct {
	join *pattern.QuiltJoin
	a, b *pattern.QuiltEnd
}

// quiltMisses reports once for each place of the text: the first miss of a block
// that is written there, and how many more there are.
func quiltMisses(p *pattern.Pattern, q *pattern.Quilt, apart pattern.Length, report func(Finding)) {
	var order []pattern.Source
	at := map[pattern.Source][]miss{}
	for i := range q.Layout.Joins {
		j := &q.Layout.Joins[i]
		for _, m := range missesOf(j, apart) {
			of := q.Source
			for _, e := range [2]*pattern.QuiltEnd{m.b, m.a} {
				if placed, ok := e.Part.Placed(); ok && e.Kind != pattern.OfQuilt {
					of = q.Layout.Placed[placed].Source
				}
			}
			if len(at[of]) == 0 {
				order = append(order, of)
			}
			at[of] = append(at[of], m)
		}
	}
	for _, of := range order {
		all := at[of]
		m := all[0]
		f := Finding{
			Severity: problem.Warning,
			At:       of,
			Message: fmt.Sprintf("in the quilt `%s` %s and %s end %s apart on the two sides of a join",
				q.Title, endWords(p, q.Layout, m.a), endWords(p, q.Layout, m.b), told(p, abs(m.a.Along-m.b.Along))),
			Help: fmt.Sprintf("turn one of the blocks, set sashing between them, or draw their seams so that they meet or end more than %s apart", told(p, apart)),
		}
		if n := len(all) - 1; n == 1 {
			f.Message += "; there is 1 more such place"
		} else if n > 1 {
			f.Message += fmt.Sprintf("; there are %d more such places", n)
		}
		report(f)
	}
}

// missesOf lists the seam ends of a join that nothing meets and that come near one
// of the other side.
func missesOf(j *pattern.QuiltJoin, apart pattern.Length) (all []miss) {
	var alone []*pattern.QuiltEnd
	met, last := 0, pattern.Length(math.Inf(-1))
	for k := range j.Ends {
		e := &j.Ends[k]
		for met < len(j.Points) && j.Points[met] < e.Along-matchSlack {
			met++
		}
		if met < len(j.Points) && j.Points[met] <= e.Along+matchSlack {
			continue
		}
		if n := len(alone); n > 0 && alone[n-1].Left == e.Left && e.Along-last <= matchSlack {
			continue // two seams that end at one point are one
		}
		alone, last = append(alone, e), e.Along
	}
	for k, a := range alone {
		for _, b := range alone[k+1:] {
			if b.Along-a.Along > apart+slack {
				break
			}
			if a.Left != b.Left {
				all = append(all, miss{j, a, b})
			}
		}
	}
	return all
}

// matchSlack is how far apart seam ends may be computed and still be at one point
// of a quilt's join: ten times what sizes lose in rounding, and less than a thread.
const matchSlack pattern.Length = 1e-4

// endWords names a seam that ends on a join of a quilt.
func endWords(p *pattern.Pattern, l *pattern.Layout, e *pattern.QuiltEnd) string {
	placed, ok := e.Part.Placed()
	if !ok || e.Kind == pattern.OfQuilt {
		return "a join of the quilt"
	}
	at := &l.Placed[placed]
	b := &p.Blocks[at.Block]
	s := &b.Sizes[at.Size]
	what := ""
	if e.Kind == pattern.OfBlock {
		what = fmt.Sprintf("join %d", s.Joins[e.Index].Number)
	} else {
		d := &s.Drawings[s.Copies[e.Copy].Drawing]
		what = "the seam of " + label(d, &d.Pieces[e.Index])
	}
	return fmt.Sprintf("%s in `%s`, block %d of row %d,", what, b.Name, at.In, at.Row)
}

func abs(l pattern.Length) pattern.Length { return pattern.Length(math.Abs(float64(l))) }
