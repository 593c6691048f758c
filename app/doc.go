// Package app is what a user can do with a pattern, without widgets: bring a
// nest in, grade it, look it over, hand it on, print it. The window and the
// qstep command both go through here.
//
// Units: millimetres. Not here: the open document and its history
// (app/session), settings (app/settings), drawing on screen (package ui).
package app
