package grading

import (
	"errors"
	"math"

	"quarterstep/grading/length"
	"quarterstep/grading/nest"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// lengthened is a piece's line with what the pattern's lengthenings put in. The
// zero amounts leave the edges, handles and lines the very same.
type lengthened struct {
	plain   []geom.Path // Base before
	before  []geom.Path // the line before
	base    []geom.Path // see Piece.Base
	edges   []geom.Path
	handles [][]geom.Point // see Piece.Handles
	put     []Put
	unlaid  string // see Piece.Unlaid
	line    length.Laid
	hem     length.Hemmed
}

// lengthen puts p's lengthenings into piece q. base is its line before the
// hand's corrections, hand the line with them, apexes the tips of its darts.
// Where one cannot be put in, none is.
func lengthen(p model.Pattern, q model.Piece, fit *nest.Fit, base []geom.Path, hand laid, apexes []geom.Point) lengthened {
	none := lengthened{plain: base, before: hand.edges, base: base, edges: hand.edges, handles: hand.handles}
	a := amounts(p, q, fit)
	if len(a.put) == 0 {
		return none
	}
	out := none
	err := out.lay(q, a, apexes)
	if err == nil {
		out.base, err = a.on(q, base)
	}
	if err != nil {
		none.unlaid = err.Error()
		var noRoom length.NoRoom
		if errors.As(err, &noRoom) {
			none.unlaid = noRoom.In(p.Unit)
		}
		return none
	}
	out.put = a.put
	out.handles = out.moveHandles(hand.handles)
	return out
}

// putIn is what the lengthenings ask of one piece.
type putIn struct {
	changes []length.Change
	hems    []float64 // by edge
	put     []Put
}

func amounts(p model.Pattern, q model.Piece, fit *nest.Fit) putIn {
	a := putIn{hems: make([]float64, len(q.Edges))}
	for _, l := range p.Lengths {
		if l.By == 0 {
			continue
		}
		for _, at := range l.Lines {
			if k := q.LineIndex(at.Line); at.Piece == q.ID && k >= 0 {
				a.changes = append(a.changes, length.Change{Line: fit.Lines(p.Target)[k], By: l.By, Name: l.Name})
				a.put = append(a.put, Put{Length: l.ID, Name: l.Name, By: l.By, Line: at.Line})
			}
		}
		for _, s := range l.Hems {
			if s.Piece != q.ID {
				continue
			}
			for _, e := range s.Edges {
				if j := q.EdgeIndex(e); j >= 0 {
					a.hems[j] += l.By
				}
			}
			a.put = append(a.put, Put{Length: l.ID, Name: l.Name, By: l.By})
		}
	}
	return a
}

// lay puts the amounts into l's line.
func (l *lengthened) lay(q model.Piece, a putIn, apexes []geom.Point) (err error) {
	if l.line, err = length.Lay(q, l.before, apexes, a.changes); err != nil {
		return err
	}
	if l.hem, err = length.Hem(q, l.line.Edges, a.hems); err != nil {
		return err
	}
	l.edges = l.hem.Edges
	return nil
}

// on is other edges of the same piece with the amounts put in.
func (a putIn) on(q model.Piece, edges []geom.Path) ([]geom.Path, error) {
	laid, err := length.Lay(q, edges, nil, a.changes)
	if err != nil {
		return nil, err
	}
	hemmed, err := length.Hem(q, laid.Edges, a.hems)
	return hemmed.Edges, err
}

// moveHandles is where the handles lie once the length was put in.
func (l *lengthened) moveHandles(handles [][]geom.Point) [][]geom.Point {
	beside := handlesBeside(l.line.Edges, l.hem.Edges)
	out := make([][]geom.Point, len(l.edges))
	for j := range out {
		out[j] = beside[j]
		if handles == nil || handles[j] == nil {
			continue
		}
		out[j] = make([]geom.Point, len(handles[j]))
		for k, p := range handles[j] {
			out[j][k] = l.line.At(p)
		}
		out[j][0], out[j][len(out[j])-1] = l.edges[j].Start(), l.edges[j].End()
	}
	return out
}

// notch is the share of its edge, 0 to 1, that a notch has now which had share
// before.
func (l *lengthened) notch(edge int, share float64) (float64, error) {
	if l.put == nil {
		return share, nil
	}
	was, err := l.before[edge].Length(arcTol)
	if err != nil {
		return 0, err
	}
	is, err := l.edges[edge].Length(arcTol)
	if err != nil || is == 0 {
		return 0, err
	}
	s := l.hem.Along(edge, l.line.Along(edge, share*was))
	return math.Min(1, math.Max(0, s/is)), nil
}

// path is a line drawn on the piece once the length was put in. Level lines go
// whole, with the paper at their middle; the grain grows in its own direction;
// of others every joint goes with its paper, and an end on a hem with the hem.
func (l *lengthened) path(kind model.LineKind, p geom.Path) geom.Path {
	if l.put == nil || len(p) == 0 {
		return p
	}
	switch kind {
	case model.Lengthen, model.BustLine, model.WaistLine, model.HipLine:
		mid := p.Start().Lerp(p.End(), 0.5)
		return p.Move(l.line.At(mid).Sub(mid))
	case model.Grain:
		dir := p.End().Sub(p.Start()).Unit()
		along := func(at geom.Point) geom.Vec { return dir.Scale(l.line.At(at).Sub(at).Dot(dir)) }
		return p.CarryEnds(along(p.Start()), along(p.End()), straightTol)
	}
	return l.toHem(l.joints(p))
}

// joints moves every joint of p with its paper; a curve's handles go with their
// joints, so that what was smooth stays smooth.
func (l *lengthened) joints(p geom.Path) geom.Path {
	out := make(geom.Path, len(p))
	for i, c := range p {
		a, b := l.line.At(c.P0).Sub(c.P0), l.line.At(c.P3).Sub(c.P3)
		moved := geom.Cubic{P0: c.P0.Add(a), P1: c.P1.Add(a), P2: c.P2.Add(b), P3: c.P3.Add(b)}
		if c.IsStraight(straightTol) {
			moved = geom.Line(moved.P0, moved.P3)
		}
		out[i] = moved
	}
	return out
}

// toHem has a line that ended on a hem go on to where the hem lies now.
func (l *lengthened) toHem(p geom.Path) geom.Path {
	if to := l.hem.LineEnd(p.End(), p.EndDir()); to != p.End() {
		p = reachTo(p, to)
	}
	back := p.Reverse()
	if to := l.hem.LineEnd(back.End(), back.EndDir()); to != back.End() {
		p = reachTo(back, to).Reverse()
	}
	return p
}

// reachTo is p with its end at to, straight on from where it ended.
func reachTo(p geom.Path, to geom.Point) geom.Path {
	last := p[len(p)-1]
	if last.IsStraight(straightTol) {
		return append(p[:len(p)-1:len(p)-1], geom.Line(last.P0, to))
	}
	return append(p[:len(p):len(p)], geom.Line(last.P3, to))
}
