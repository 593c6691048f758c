// Package assets holds the files that travel inside the program: fonts, icons,
// size charts and pictures of the steps, as they are on disk. It gives bytes and does not read them.
package assets
