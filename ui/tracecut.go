package ui

import (
	"fmt"
	"slices"

	"quarterstep/app/edit"
	"quarterstep/app/trace"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// traceCuts are the ways a piece is cut, as the panel lists them.
var traceCuts = []struct {
	number int
	fold   bool
}{{1, false}, {1, true}, {2, false}, {2, true}, {3, false}, {4, false}, {6, false}, {8, false}}

func cutWords() []string {
	var out []string
	for _, c := range traceCuts {
		way := fmt.Sprint(c.number)
		if c.fold {
			way = words.F("%s on the fold", way)
		}
		out = append(out, way)
	}
	return out
}

// foldMark asks for the edge on the fold.
const foldMark = "fold"

// hasFold reports whether an edge of a tracing was said to lie on the fold.
func hasFold(k model.Tracing) bool {
	return slices.ContainsFunc(k.Edges, func(e model.Edge) bool { return e.Kind == model.Fold })
}

// chosenCut is the way of the list that a piece is cut.
func chosenCut(number int, fold bool) int {
	for i, c := range traceCuts {
		if c.number == number && c.fold == fold {
			return i
		}
	}
	return 0
}

// chooseCut says how the piece is cut. On the fold, the edge that lies on it is
// asked for, if it was not said; off it, the edge that was is let go.
func (w *Window) chooseCut(i int) {
	t := &w.paper.trace
	k, ok := w.tracing()
	c := traceCuts[i]
	switch {
	case !ok && c.fold:
		w.say(words.T("Trace a size first, then choose the fold: it asks for the edge that lies on it."))
	case ok:
		w.do(words.F("cut %s", cutWords()[i]), w.cutAs(k, c.number, c.fold))
		if c.fold && !hasFold(k) {
			t.mark, t.aiming = markMaking{kind: foldMark}, false
		}
	}
	if !ok {
		t.cut = c.number
	}
	w.refresh()
}

// cutAs says how often a piece is cut; off the fold, no edge of it lies there.
func (w *Window) cutAs(k model.Tracing, number int, fold bool) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p, err := edit.NameTracing(k.ID, k.Name, number)(p)
		if err != nil || fold {
			return p, err
		}
		for j, e := range k.Edges {
			if e.Kind != model.Fold {
				continue
			}
			if p, err = edit.FoldTracedEdge(k.ID, k.Sizes[0].Size, j, false)(p); err != nil {
				return p, err
			}
		}
		return p, nil
	}
}

// markFold says that the edge nearest to a place lies on the fold.
func markFold(id, size string, at []geom.Point) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		k := p.TracingIndex(id)
		if k < 0 {
			return p, words.Error("nothing is traced yet")
		}
		line, _ := trace.LineOf(p.Tracings[k], size)
		j, ok := trace.EdgeNear(line, at[0])
		if !ok {
			return p, words.Errorf("the line of size %s has no edge there; trace it first", size)
		}
		return edit.FoldTracedEdge(id, size, j, true)(p)
	}
}
