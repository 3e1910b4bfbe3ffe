// Package plane is plane geometry: points, lines, polygons, cuts, motions. No
// quilts in it, and no lengths: coordinates are plain numbers, and the caller
// knows whether they are grid squares or inches.
package plane
