package ui

import "quarterstep/assets/words"

// counts say how many there are of what the window counts.
// words: none
var counts = map[string]func(n int) string{
	"change":     func(n int) string { return words.N(n, "%d change", "%d changes", n) },
	"correction": func(n int) string { return words.N(n, "%d correction", "%d corrections", n) },
	"cut line":   func(n int) string { return words.N(n, "%d cut line", "%d cut lines", n) },
	"edge":       func(n int) string { return words.N(n, "%d edge", "%d edges", n) },
	"gap":        func(n int) string { return words.N(n, "%d gap", "%d gaps", n) },
	"link":       func(n int) string { return words.N(n, "%d link", "%d links", n) },
	"page":       func(n int) string { return words.N(n, "%d page", "%d pages", n) },
	"photo":      func(n int) string { return words.N(n, "%d photo", "%d photos", n) },
	"piece":      func(n int) string { return words.N(n, "%d piece", "%d pieces", n) },
	"place":      func(n int) string { return words.N(n, "%d place", "%d places", n) },
	"point":      func(n int) string { return words.N(n, "%d point", "%d points", n) },
	"target":     func(n int) string { return words.N(n, "%d target", "%d targets", n) },
	"typed gap":  func(n int) string { return words.N(n, "%d typed gap", "%d typed gaps", n) },
}

// count is "1 piece", "7 pieces"; what is counted is one of counts.
func count(n int, what string) string { return counts[what](n) }
