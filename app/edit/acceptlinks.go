package edit

import (
	"slices"

	"quarterstep/model"
)

// AcceptLinks takes in links that were proposed (grading/propose), under IDs of
// their own. It is an error when one names an edge that is not there.
func AcceptLinks(links ...model.Link) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		for _, l := range links {
			l.ID = freeLinkID(p)
			p.Links = append(slices.Clone(p.Links), l)
		}
		return p, p.Validate()
	}
}
