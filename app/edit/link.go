package edit

import (
	"fmt"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// Link makes a link: follow is sewn to, or follows, the stretches of leads, of
// which only a seam may have several. A seam begins with the ease of its print,
// and nothing gives way. It is an error in plain words where a stretch is not
// there, a line would follow itself, or an edge of follow follows a line already.
func Link(kind model.LinkKind, leads []model.Stretch, follow model.Stretch) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		if len(leads) == 0 {
			return p, words.Error("a link needs two lines")
		}
		l := model.Link{ID: freeLinkID(p), Kind: kind, Lead: leads[0], Follow: follow}
		if len(leads) > 1 {
			l.And = slices.Clone(leads[1:])
		}
		for _, lead := range leads {
			if lead.Piece == follow.Piece && slices.ContainsFunc(lead.Edges, func(e string) bool { return slices.Contains(follow.Edges, e) }) {
				return p, words.Error("an edge cannot be linked with itself")
			}
			if kind == model.SameLine && lead.Piece == follow.Piece {
				return p, words.Error("a line cannot follow another of its own piece")
			}
		}
		if kind == model.SameLine {
			for _, other := range p.Links {
				if other.Kind == model.SameLine && other.Follow.Piece == follow.Piece && slices.ContainsFunc(other.Follow.Edges, func(e string) bool { return slices.Contains(follow.Edges, e) }) {
					return p, words.Error("that edge follows another line already; unlink it first")
				}
			}
		}
		p.Links = append(slices.Clone(p.Links), l)
		return p, p.Validate()
	}
}

// freeLinkID is an ID no link of p has.
func freeLinkID(p model.Pattern) string {
	for n := len(p.Links) + 1; ; n++ {
		id := fmt.Sprintf("link-%d", n)
		if !slices.ContainsFunc(p.Links, func(l model.Link) bool { return l.ID == id }) {
			return id
		}
	}
}

// Unlink takes a link off; the lines stay as they are drawn without it.
func Unlink(id string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		k, err := linkIndex(p, id)
		if err != nil {
			return p, err
		}
		p.Links = slices.Delete(slices.Clone(p.Links), k, k+1)
		return p, nil
	}
}

// SetEase asks a seam for from low to high mm of ease, whatever the print has.
func SetEase(id string, low, high float64) func(model.Pattern) (model.Pattern, error) {
	return onSeam(id, func(l model.Link) (model.Link, error) {
		if high < low {
			return l, words.Error("the least ease wanted is more than the most")
		}
		l.Ease, l.Room, l.EaseFixed = low, high-low, true
		return l, nil
	})
}

// EaseAsPrinted asks a seam for the ease of its print again.
func EaseAsPrinted(id string) func(model.Pattern) (model.Pattern, error) {
	return onSeam(id, func(l model.Link) (model.Link, error) {
		l.Ease, l.Room, l.EaseFixed = 0, 0, false
		return l, nil
	})
}

// SetRefit says what of a seam's follower gives way so that it keeps its ease.
func SetRefit(id string, r model.Refit) func(model.Pattern) (model.Pattern, error) {
	return onSeam(id, func(l model.Link) (model.Link, error) {
		l.Refit = r
		return l, nil
	})
}

// onSeam changes a sewn link.
func onSeam(id string, f func(model.Link) (model.Link, error)) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		k, err := linkIndex(p, id)
		if err != nil {
			return p, err
		}
		if p.Links[k].Kind != model.Sewn {
			return p, words.Error("only a seam has ease; this line follows another")
		}
		l, err := f(p.Links[k])
		if err != nil {
			return p, err
		}
		p.Links = slices.Clone(p.Links)
		p.Links[k] = l
		return p, p.Validate()
	}
}

func linkIndex(p model.Pattern, id string) (int, error) {
	k := slices.IndexFunc(p.Links, func(l model.Link) bool { return l.ID == id })
	if k < 0 {
		return 0, words.Error("the pattern has no such link")
	}
	return k, nil
}
