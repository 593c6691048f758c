// Package assets holds the files that travel inside the program: fonts, icons
// and size charts, as they are on disk. It gives bytes and does not read them.
package assets
