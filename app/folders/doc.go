// Package folders lets a sewist find a file and say where one is to go: what a
// folder holds, where sticks and drives are, and what a name or path that she
// types means. Paths are the system's own, those of Windows drives included.
//
// Promise: nothing here opens, writes or removes a file; the one thing made is a
// folder, when asked for. A folder that cannot be read is an error and leaves
// the Chooser where it was. Reading a folder may take as long as the disk or the
// network takes, so the window does it beside its own work.
//
// Not here: how it looks (ui/panel), what is done with the file (ui).
package folders
