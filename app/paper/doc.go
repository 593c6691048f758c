// Package paper brings photos and scans of a pattern in: it reads the picture,
// makes it flat and to scale by what lies beside the piece, and makes ready to
// follow its printed lines.
//
// Promise: every step says in a sentence how far it is to be trusted; a picture
// that cannot be used gives one sentence and nothing else happens. What is kept
// with the project is as fine as a tenth of a millimetre needs and no finer.
//
// Long steps take a context and report how far they are, 0 to 1; they are meant
// for the background. Units: pixels are continuous (see model/trace/straight),
// paper in mm. Not here: the traced piece itself (app/edit), and the window.
package paper
