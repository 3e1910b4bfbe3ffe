package plane

// Mitred returns the polygon with every side moved outwards by a distance
// (inwards where negative) and prolonged to its neighbours. Corners answer one
// to one. Parts of the result that cross each other, at reflex corners or at
// large distances, are not removed.
func (p Polygon) Mitred(by float64) Polygon {
	by = -by // the outside is on the right of a side
	n := len(p)
	out := make(Polygon, n)
	for i := range p {
		a, b := p.Side((i+n-1)%n).Dir(), p.Side(i).Dir()
		// The bisector k(na + nb) has the distance by from both sides where
		// k = by / (1 + a.b): na, nb are the normals to the left.
		k := by / (1 + a.Dot(b))
		out[i] = p[i].Add(Point{-(a.Y + b.Y), a.X + b.X}.Mul(k))
	}
	return out
}

// Blunted returns the polygon moved outwards by a distance, every corner that
// would reach farther than reach from its own corner cut off square to its
// bisector at that reach.
func (p Polygon) Blunted(by, reach float64) Polygon {
	out := make(Polygon, 0, len(p)+4)
	for i, tip := range p.Mitred(by) {
		if tip.Dist(p[i]) <= reach {
			out = append(out, tip)
			continue
		}
		axis := Line{p[i], tip}.Dir()
		flat := p[i].Add(axis.Mul(reach))
		cut := Line{flat, flat.Add(Point{-axis.Y, axis.X})}
		n := len(p)
		a, b := p.Side((i+n-1)%n).Dir(), p.Side(i).Dir()
		if s, ok := cut.Meet(Line{tip, tip.Add(a)}); ok {
			out = append(out, s)
		}
		if s, ok := cut.Meet(Line{tip, tip.Add(b)}); ok {
			out = append(out, s)
		}
	}
	return out
}
