package spread

import (
	"quarterstep/model/geom"
)

// carried is how far each control point of each edge moves per mm of spread at
// one cut; an edge that stays where it is has none.
type carried [][]geom.Vec

// carry works out how the printed line goes with cut l.
func (o *outline) carry(l cutLine) (carried, error) {
	out := make(carried, len(o.edges))
	for j := range o.edges {
		if o.stretch[j].whole() {
			out[j] = o.carryStraight(l, j)
			continue
		}
		var err error
		if out[j], err = o.carryCurve(l, j); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// carryStraight carries an edge of a straight stretch: evenly between the two
// ends of the stretch.
func (o *outline) carryStraight(l cutLine, j int) []geom.Vec {
	st := o.stretch[j]
	from, to := o.edges[st.first].Start(), o.edges[st.last].End()
	v0, v1 := o.share(l, o.start[st.first]), o.share(l, o.start[st.last+1])
	if v0 == 0 && v1 == 0 {
		return nil
	}
	chord := to.Sub(from)
	ctl := o.edges[j].Controls()
	out := make([]geom.Vec, len(ctl))
	for k, p := range ctl {
		w := p.Sub(from).Dot(chord) / chord.Dot(chord)
		out[k] = l.travel.Scale(v0 + w*(v1-v0))
	}
	return out
}

// carryCurve carries a curved edge: see the package's doc.
func (o *outline) carryCurve(l cutLine, j int) ([]geom.Vec, error) {
	c := o.course(l, j)
	turn0, turn1 := o.turn(l, j, true), o.turn(l, j, false)
	if c.rest() && c.start == 0 && turn0.IsZero() && turn1.IsZero() {
		return nil, nil
	}
	edge := o.edges[j]
	length := max(o.start[j+1]-o.start[j], lineTol)
	out := make([]geom.Vec, 3*len(edge)+1)
	var s float64
	for i := range len(edge) + 1 {
		u := min(s/length, 1)
		if i == len(edge) {
			u = 1
		}
		at, slope := l.travel.Scale(c.value(u)), l.travel.Scale(c.slope(u)/length)
		switch i {
		case 0:
			slope = o.endSlope(j, true, slope, turn0)
		case len(edge):
			slope = o.endSlope(j, false, slope, turn1)
		}
		out[3*i] = at
		if i > 0 {
			h := edge[i-1].P3.Dist(edge[i-1].P2)
			out[3*i-1] = at.Add(slope.Scale(-h))
		}
		if i == len(edge) {
			break
		}
		out[3*i+1] = at.Add(slope.Scale(edge[i].P0.Dist(edge[i].P1)))
		part, err := edge[i].Length(lineTol)
		if err != nil {
			return nil, err
		}
		s += part
	}
	return out, nil
}

// endSlope is how the handle at an end of curved edge j goes, per mm of its
// length: it stretches with slope but does not turn, unless a straight edge
// that it runs smoothly on from turns, by turn.
func (o *outline) endSlope(j int, start bool, slope, turn geom.Vec) geom.Vec {
	dir, turned := o.edges[j].EndDir(), o.turned[j][1]
	if start {
		dir, turned = o.edges[j].StartDir(), o.turned[j][0]
	}
	if turned {
		return turn
	}
	return dir.Scale(slope.Dot(dir))
}
