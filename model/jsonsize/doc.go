// Package jsonsize looks over a JSON file before it is unpacked.
//
// Promise: Check goes through the bytes once, keeps nothing of them and refuses
// a file that has more items or names, or deeper ones, than its reader says it
// may. Unpacking makes a whole record of every item of a list, be it only two
// bytes long, so that a file of a few megabytes could else fill the memory.
//
// Units: items, names and levels; a list that is all of a file lies at level 1.
//
// Not here: whether the JSON is sound and what it says, which encoding/json and
// each reader tell.
package jsonsize
