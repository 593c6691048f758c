// Package theme dresses the window: the look's colours, sizes, fonts and icons
// as a Fyne theme. Sizes are Fyne's device-independent pixels; the text scale
// multiplies the sizes of text and of what must hold text, nothing else.
//
// It does not draw widgets, and it does not choose between light and dark. What
// needs the colours without a window imports the package palette below it.
package theme
