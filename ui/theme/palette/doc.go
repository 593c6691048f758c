// Package palette holds the colours of the Quarterstep window as plain values,
// one set for light and one for dark. It knows no window toolkit, so that the
// Table's painter can use it without one. It does not choose between the sets.
//
// The values are those of assets/tokens.json, opaque, in sRGB; a test holds the
// two together.
package palette
