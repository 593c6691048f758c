// Package stopwatch measures where the time of the window goes.
//
// Promise: it is off unless the environment names a file in QUARTERSTEP_FRAMES,
// and then costs a comparison for each Lap. When it is on, every stretch of
// work of the window's goroutine becomes one line of that file: events, drawing
// and handing the picture over between two idle moments, which is what a sewist
// has to wait for a frame.
//
// A line is
//
//	when wall cpu own work thread name=ms/ms name=ms/ms ...
//
// when is in ms since 1970, the others are in ms: wall the time the goroutine
// was not to be reached, cpu what its thread and all others of the process
// computed meanwhile (0 where the system does not say), own the part of wall
// spent in laps, work the part of cpu computed during them, thread the most that
// the window's own thread computed in one turn, and then each lap by its name, its
// time and what that thread computed in it, without the laps within it. A turn is
// looking at what the hand did, answering and drawing; the first begins with Watch,
// before which there is no window to be reached. A stretch may have several,
// for the toolkit may leave what it is asked to do for later. On a machine that is
// busy with other things work and thread tell more than own and wall: the window
// that kept the hand waiting because it worked, and not because it waited for a
// processor, has that much thread.
//
// It does not tell waiting for the screen from handing a picture over: a driver
// that waits for the screen's next refresh shows that in wall, not in own.
//
// Laps belong to the goroutine of the window.
package stopwatch
