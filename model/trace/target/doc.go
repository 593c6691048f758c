// Package target finds Quarterstep's own printed targets in a photo.
//
// A target is a ring with a checker of two by two in its middle and up to eight
// dots between, which tell targets apart. Find needs no clicks and nothing
// known of the photo. Promise: a target that lies as much as 35 degrees aslant
// and is 40 pixels or more across is found, its middle to 0.3 pixels;
// where there is no target none is found. Which code is printed where, on strips
// or on cards, is said here as well (SpotOf), for those who print them and those
// who find them.
//
// Units: pixels are continuous, the middle of the first at (0.5, 0.5), y down,
// as displayed; within a target, radii of its ring, x right, y down; on a strip,
// card or sheet, mm.
package target
