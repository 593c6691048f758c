package scene

import "quarterstep/model/geom"

// Darts lists the darts on the Table: what to call each, and its two legs.
func Darts(in Input) (refs []Ref, legs []geom.Path) {
	if len(in.Sheets) > 0 {
		return nil, nil
	}
	for i, q := range in.Pattern.Pieces {
		r, ok := in.graded(i)
		if !ok {
			continue
		}
		m := in.place(q)
		if c, ok := in.Closed[q.ID]; ok {
			r = asClosed(r, c)
		}
		for _, d := range r.Darts {
			refs = append(refs, Ref{Piece: q.ID, Dart: d.ID})
			legs = append(legs, geom.Polyline(d.Leg1, d.Apex, d.Leg2).Transform(m))
		}
	}
	return refs, legs
}
