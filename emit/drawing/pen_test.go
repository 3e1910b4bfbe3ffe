package drawing

import (
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
)

// A pen that draws again gives the same fresh things, and what it gives never
// overlaps.
func TestPenDrawsAgain(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		pen := &Pen{}
		for round := range rapid.IntRange(1, 4).Draw(rt, "rounds") {
			var runs [][]pattern.Pos
			var paths []*Path
			for i := range rapid.IntRange(0, 60).Draw(rt, "runs") {
				points := pen.Points(rapid.IntRange(0, 700).Draw(rt, "points"))
				for k, p := range points {
					if p != (pattern.Pos{}) {
						rt.Fatalf("round %d, run %d: point %d is not fresh: %v", round, i, k, p)
					}
					points[k] = pattern.Pos{X: pattern.Length(i + 1)}
				}
				path := pen.Path(SewingLine, points)
				if path.Closed || path.Pairs || path.Circle != 0 {
					rt.Fatalf("round %d: a path is not fresh: %+v", round, *path)
				}
				path.Closed, path.Pairs, path.Circle = true, true, 1
				runs, paths = append(runs, points), append(paths, path)
			}
			for i, points := range runs {
				for _, p := range points {
					if p.X != pattern.Length(i+1) || len(paths[i].Points) != len(points) {
						rt.Fatalf("round %d: run %d was written over", round, i)
					}
				}
			}
			pen.Again()
		}
	})
}
