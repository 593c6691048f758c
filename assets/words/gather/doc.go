// Package gather finds the texts for translating in the code, and keeps the
// catalogues of package words in step with them.
//
// Promise: every literal given to words.T, C, F, N, Errorf, Error, Fault, or
// written as a words.Text, is gathered; every other literal of the code that
// reads like a sentence for a sewist is told as bare. Lines marked
// `// words: none` (on the line, above it, or above the function or declaration it stands in) are
// not for her. Not here: translating.
package gather
