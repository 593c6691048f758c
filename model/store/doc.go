// Package store writes and reads the project file, NAME.qstep.
//
// Promise: what is written reads back as the same pattern, to the last bit of
// every number; the same pattern gives the same bytes. Saving replaces the
// file whole or not at all. What is read has passed Pattern.Validate. A file
// that cannot be used is an error in plain words and nothing else happens. How
// much a file may list, hold and unpack to is bounded before the memory is
// taken; names of entries lead nowhere outside the file.
//
// # The file
//
// A zip archive with
//
//	pattern.json     the pattern, UTF-8
//	pictures/NAME    photos and scans that belong to it, as they came; may lack
//
// Other entries are passed over. pattern.json is one object:
//
//	format   "quarterstep pattern"
//	version  5; a reader refuses a higher one than it knows
//	home     in a copy kept for recovery: the path of the file it is a copy of
//	pattern  the pattern
//
// Every length is in millimetres, x to the right and y down as the paper lies.
// A point or a movement is [x, y]. A path is a list of cubic Bézier curves,
// each [x0, y0, x1, y1, x2, y2, x3, y3]: start, two handles, end; each starts
// where the one before ends. Numbers are the shortest decimals that name the
// float64 exactly. Names not listed here are passed over; a value that is
// empty, false or 0 may be left out. What the values mean, and which must
// differ or be there, is at the types of package model and Pattern.Validate.
//
// pattern:
//
//	name, note  words
//	unit        "cm" or "in": how lengths are shown
//	chart       id, name, source, status: words; measures: names in the order
//	            shown; sizes: list, smallest first, of
//	            name, code (second name), body: {measure: mm}
//	target      place on the chart (0 the first size), method "chart" or
//	            "steps", wearer
//	pieces      list of pieces
//	links       list of: id, kind ("same line" or "sewn together"), lead and
//	            follow (each piece: ID; edges: IDs as walked; reverse), and
//	            (list of further leads), ease and room in mm, easeFixed, refit
//	lengths     list of: id, name, by in mm, lines (list of piece, line: IDs),
//	            hems (list of stretches as in links)
//	limits      of checks, by name
//	pictures    list of: id, name, file (among pictures/), perMM (pixels), at
//	            (movement), faded (0 to 1), off (mm)
//	tracings    list of: id, picture (ID), name, cut, edges (as of a piece),
//	            sizes: list of size, corners (points), edges (paths), closed;
//	            lines (as of a piece), notches: list of at, size, double;
//	            darts: list of name, from, apex, to (points), size
//
// piece:
//
//	id, name    words
//	cut         how many to cut
//	at          movement from the piece's coordinates to the Table's
//	picture     ID of the picture it was traced from
//	points      list of: id, name, smooth, across, along (measures), locked
//	edges       list, as many as points, edge i from point i to the next, of:
//	            id, name, kind ("", "fold", "centre", "hem"), allowance
//	nest        list, smallest size first, of: size, edges: one path per edge
//	lines       list of: id, name, kind ("grain", "lengthen", "bust", "waist",
//	            "hip", "fold", "dart", "inner"), drawn: list of size, path
//	notches     list of: id, edge (ID), double, spots: list of size, s (mm from
//	            the edge's start)
//	darts       list of: id, name, from, to (point IDs), across, along
//	            (measures), takeUpKept, trued, apex: list of size, at (point)
//	hand        moves: list of point (ID), by (movement); shapes: list of
//	            edge (ID), by (one movement per inner control point)
//
// A mark without size serves all sizes.
//
// # A next version
//
// A change an old reader would get wrong takes a new version: add the function
// that turns the old JSON into the new one to migrations and keep a file of the
// old version in testdata.
//
// Not here: other formats (model/exchange), where files lie (app/settings).
package store
