// Package words holds what Quarterstep says, in every language it speaks.
//
// Promise: English stands in the code, where it is used, and is the key by which
// a translation is found; a text without a translation is shown in English,
// never as a code. Texts are gathered from the code into one catalogue a
// language, po/LANG.po (the portable object format of GNU gettext, which
// translators have programs for), by `make words`; a test holds that nothing a
// sewist sees is left out of it, that every language has all of it, and that a
// translation asks for the same figures as its original.
//
// How to say something:
//
//	words.T("Save")                                  a text as it stands
//	words.C("of a print", "Copies")                  the same, where English uses one word for two things
//	words.F("%s is %s wide", piece, width)           with figures
//	words.N(n, "%d page", "%d pages", n)             one or many
//	words.Errorf("reading %s: %w", path, err)        an error
//	words.Fault("Type inches like 1 3/8.")           an error that stands at package level
//	var names = []words.Text{"Bring in", "Sizes"}    texts kept at package level: names[0].String()
//
// Only literals are gathered: F(format, ...) with a format made elsewhere must be
// marked where it is written. Sentences are whole: a translation cannot mend
// what is put together from halves. Texts that are stored in a document or
// compared by the program are not for translating.
//
// The language is one for the whole program (Use), chosen when it starts; it may
// be asked for from any goroutine. Not here: how lengths and dates are written
// (model/measure asks Decimal), which language the sewist wants (app/settings),
// the texts of the command qstep itself, which stay English for scripts.
package words
