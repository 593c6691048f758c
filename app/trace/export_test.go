package trace

// Guides is guides, for tests that need the demo.
var Guides = guides
