// Package safekeeping keeps a sewist's work where a crash, a slip or a second
// window cannot take it, in a folder of its own on this machine.
//
// Promise: what was noted is on disk within a second (Journal), and offered
// again after the window that noted it ended without closing the journal, and
// only then (Left). Before a project file is saved over, KeepEarlier puts a copy
// of it by; of these the latest two stay, and the oldest and newest of those up to
// ten minutes, an hour, a day, a week and more old. A file that one window
// holds (Claim) is known to be held in every other of the same person on this machine.
//
// Errors of the disk are sentences (store.Fault). Not here: saving the document
// itself (app/session), and asking the sewist (ui).
package safekeeping
