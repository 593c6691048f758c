// Package panel holds everything around the Table: the guide rail, the Shelf,
// the Table's tools, the Size strip, the side panels, the status bar.
//
// A widget here keeps no document. It is given a view, a plain struct of words
// and figures as they are to be read, through SetView, as often as its owner
// likes, and reports what the sewist did through its On functions. A nil On
// function is allowed. Typed words go out as typed; the owner answers with an
// error in plain words, and the field says so in amber, with a capital and a
// full stop, and keeps the typed words.
//
// All lengths are Fyne's device-independent pixels; figures that people read
// are text made by the owner. All calls belong to the window's own goroutine.
package panel
