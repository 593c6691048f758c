package app

import (
	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading/propose"
	"quarterstep/model"
)

// LinkUp takes in every link p seems to have of which there is no doubt, and
// says a sentence of each, and of each doubtful one that it was left out.
func LinkUp(p model.Pattern) (model.Pattern, []string, error) {
	var links []model.Link
	var linked, left []string
	for _, f := range propose.Links(p) {
		if f.Sure {
			links, linked = append(links, f.Link), append(linked, words.F("Linked: %s.", f.Say()))
		} else {
			left = append(left, words.F("Not linked, look whether it is so: %s.", f.Say()))
		}
	}
	p, err := edit.AcceptLinks(links...)(p)
	return p, append(linked, left...), err
}
