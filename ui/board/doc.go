// Package board is the Table as a Fyne widget: it shows a scene, lets a mouse
// and a keyboard move about in it, and says what the hand did.
//
// Promise: it holds no document. What it shows is what SetScene gave it last;
// what the hand does is reported by the On... functions and changes nothing
// until SetScene is called again, which it may be from within them. While a
// point is dragged only the pieces that change are drawn anew.
//
// Units: places and movements reported are millimetres, in the coordinates of
// the piece for a drag and of the Table for the pointer. Pixels are the
// toolkit's. All methods belong to the goroutine of the window.
package board
