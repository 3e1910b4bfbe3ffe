// Package solver answers what can be sewn: given an outline and the lines drawn
// in it, which patches are there, can they be sewn with straight seams alone,
// and in how few sections. It knows plane geometry and nothing of quilts,
// texts or paper; what goes in are coordinates, what comes out are indices.
//
//	p := solver.Build(outline, lines, near)   // or Tile(outline, polygons, near)
//	if len(p.Faults) > 0 { ... }              // loose ends, patches that are not convex
//	if w := p.Unsewable(); len(w) > 0 { ... } // where it fails and what would cure it
//	plan := p.Plan(solver.Wishes{MaxPieces: 20})
//	plan, open := p.PlanPartial(wishes, may)  // where seams may be sewn in two goes
//
// Words: a patch is one area between lines; a seam is a whole straight run of
// drawn edges; a part is any set of patches that cutting along seams can
// produce; a join sews two parts along one straight stretch of a seam that
// runs right through; a section is a part that can be built by adding one
// patch at a time.
//
// A plan takes about 15 µs a patch, up to tens of thousands of them, more where
// seams cross everywhere; THEORY.md 11 has the figures, and BenchmarkSolver
// measures them. Small blocks are solved at best; of large ones the plan says
// how far from it it may be.
//
// Every answer is deterministic: the same input gives the same output, in the
// same order. Why the methods are right is told in THEORY.md, and the tests hold
// them to a search that uses none of it.
package solver
