// Package geom is the plane geometry of paper patterns: points, movements,
// cubic curves and the paths made of them.
//
// Units: millimetres everywhere, x to the right and y down as the paper lies;
// angles in radians; curvature in 1/mm, positive where the curve bends
// clockwise as seen on the paper.
//
// Promise: an approximation takes its tolerance as the last argument, in mm,
// and keeps within it or returns an error. Nothing here is rounded, and no
// setting is kept in the package.
//
// Not here: pixels, PDF points, sizes, pieces.
package geom
