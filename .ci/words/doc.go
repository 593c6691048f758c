// Command words gathers the texts for translating from the code and brings the
// catalogues in step: the template assets/words/po/quarterstep.pot and one file
// a language.
//
//	words                bring the catalogues in step
//	words -with F.po     taking in the translations of further files as well
//	words -missing       what has no translation yet, as a catalogue to fill in
//	words -bare          literals that read like texts and are not gathered
package main
