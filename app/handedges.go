package app

import (
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/handsheet"
)

// How well an edge is ruled straight, or two points go together, mm: about the
// width of a pencil line.
const pencil = 0.3

// edge says how edge j is drawn and where its notches go.
func (h hand) edge(j int) (handsheet.Edge, error) {
	mark, err := h.notchWords(j)
	return handsheet.Edge{Name: h.q.Edges[j].Name, How: h.how(j), Mark: mark}, err
}

func (h hand) how(j int) string {
	e := h.q.Edges[j]
	leader := h.leader(e.ID)
	byEye := func(id string) bool { return id == e.ID }
	switch {
	case h.stays():
		return words.T("Trace the printed line")
	case e.Kind == model.Fold:
		return words.T("On the fold: stays on its line")
	case e.Kind == model.Centre:
		return words.T("Centre line: stays on its line")
	case leader != "":
		return leader
	case slices.ContainsFunc(h.q.Hand.Shapes, func(s model.EdgeShape) bool { return byEye(s.Edge) }),
		slices.ContainsFunc(h.q.Hand.Shifts, func(s model.EdgeShift) bool { return byEye(s.Edge) }):
		return words.T("Changed by eye: draw it as the small drawing shows")
	case h.r.Edges[j].IsStraight(pencil):
		return words.T("Rule a straight line")
	}
	size := h.name
	for _, c := range h.q.Hand.Curves {
		if byEye(c.Edge) && c.Kind == model.PrintedCurve {
			size = c.Size
		}
	}
	if h.together(j) {
		return words.F("Trace the size %s curve, moved as a whole", size)
	}
	return words.F("Trace the size %s curve from each end in turn, and join the two where they run together", size)
}

// together reports that both ends of edge j go the same way.
func (h hand) together(j int) bool {
	k := (j + 1) % len(h.q.Points)
	by := func(i int) geom.Vec { return h.r.Edges[i].Start().Sub(h.from.Edges[i].Start()) }
	return by(j).Sub(by(k)).Len() <= pencil
}

// leader says which line an edge follows: "Trace the new neckline of Front"; empty
// where it follows none.
func (h hand) leader(edge string) string {
	for _, l := range h.p.Links {
		if l.Kind != model.SameLine || l.Follow.Piece != h.q.ID || !slices.Contains(l.Follow.Edges, edge) ||
			slices.ContainsFunc(h.all.Unlinked, func(u grading.Unlinked) bool { return u.Link == l.ID }) {
			continue
		}
		lead := h.p.Pieces[h.p.PieceIndex(l.Lead.Piece)]
		var names []string
		for _, id := range l.Lead.Edges {
			name := lead.Edges[lead.EdgeIndex(id)].Name
			if name == "" {
				name = words.T("line")
			}
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		return words.F("Trace the new %s of %s", allOf(names), lead.Name)
	}
	return ""
}

// notchWords says how far along the new edge j its notches are.
func (h hand) notchWords(j int) (string, error) {
	var marks []string
	for _, n := range h.r.Notches {
		if n.Edge != j {
			continue
		}
		const tol = 0.01
		on, err := geom.Measure(h.r.Edges[j], tol)
		if err != nil {
			return "", words.Errorf("placing the notches of %s: %w", h.q.Name, err)
		}
		s, _, err := h.r.Edges[j].NearestS(n.At, tol)
		if err != nil {
			return "", words.Errorf("placing the notches of %s: %w", h.q.Name, err)
		}
		if n.Double {
			marks = append(marks, words.F("double notch %s along from %d (%.0f %% of the way)", h.along(s), j+1, 100*s/on.Length()))
		} else {
			marks = append(marks, words.F("notch %s along from %d (%.0f %% of the way)", h.along(s), j+1, 100*s/on.Length()))
		}
	}
	return strings.Join(marks, "; "), nil
}

// along is a length along a line, as it can be laid off with a tape: to 1 mm
// or 1/16 in.
func (h hand) along(mm float64) string {
	if h.p.Unit == model.Inches {
		return Length(mm, h.p.Unit)
	}
	return measure.Format(mm, measure.WholeMM) + " mm"
}
