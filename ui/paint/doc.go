// Package paint draws the scenes of the Table into a picture, without a window
// or a graphics card.
//
// Promise: lines, dashes, halos and fills are smoothed at their edges; a line
// is as wide as its scene says to within a hundredth of its darkness; painting
// the same scene twice gives the same bytes. It is fast enough to redraw a whole
// pattern while a hand drags a line: see BenchmarkTable.
//
// How: a curve is broken into chords a seventh of a pixel true; each chord
// darkens the pixels near it by their distance from it and, where it is dashed, by
// how much of the pixel the pattern draws at its place along the line, which a table
// tells: no dash is drawn by itself. Ends and corners are looked at pixel by pixel.
// The chords of one line are gathered in a mask, the darkest counting, so that
// joints and crossings are not painted twice; the mask is laid on the picture once.
// The rows of the picture are shared between two workers, band by band.
//
// Units: device pixels; a scene's pixel sizes are multiplied by the factor of
// the screen. Pictures are premultiplied RGBA. Not here: what to draw
// (ui/scene), where it is looked at from (ui/view).
package paint
