package settings

import "slices"

// Printed is what was last printed of a project: of every page, by its name, a
// mark of what was on it.
type Printed struct {
	Project string            `json:"project"` // path of its file
	Pages   map[string]string `json:"pages"`
}

// mostPrinted is how many projects' pages are remembered.
const mostPrinted = 12

// PagesOf is what was last printed of the project at path; nil for nothing.
func (s Settings) PagesOf(path string) map[string]string {
	for _, p := range s.Printed {
		if p.Project == path {
			return p.Pages
		}
	}
	return nil
}

// WithPrinted is s with pages printed of the project at path; pages of it that
// were printed before and not now stay as they were.
func (s Settings) WithPrinted(path string, pages map[string]string) Settings {
	all := map[string]string{}
	for name, mark := range s.PagesOf(path) {
		all[name] = mark
	}
	for name, mark := range pages {
		all[name] = mark
	}
	others := slices.DeleteFunc(slices.Clone(s.Printed), func(p Printed) bool { return p.Project == path })
	s.Printed = append([]Printed{{path, all}}, others[:min(len(others), mostPrinted-1)]...)
	return s
}
