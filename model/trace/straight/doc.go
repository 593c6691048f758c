// Package straight takes the places of a photo or scan to millimetres on the
// flat paper: by a scan's pixels to the inch, by a page of known size, by a
// cutting mat's grid, by things of known shape that lie anywhere, by places
// known otherwise, and by joining a picture to one already straightened.
//
// Promise: a Map takes out perspective and one radial lens term; Pixel undoes
// MM within 1e-6 pixels. Every way that makes a Map tells by its Misfit how
// well the places it went by agree, in mm. Clicks are only where to look: what
// is measured is the printed line or the cut edge itself, to a part of a pixel.
// Where nothing can be made out, the error says what to do.
//
// Units: pixels are continuous, the middle of the first at (0.5, 0.5), y down,
// as displayed; mm on the paper, x right, y down.
//
// Not here: paper that does not lie flat, which shows as misfit only; finding
// Quarterstep's own targets (package target); following lines (package follow).
package straight
