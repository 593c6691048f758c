package trace_test

import (
	"context"
	"math"
	"path/filepath"
	"sync"
	"testing"

	"quarterstep/app"
	"quarterstep/app/paper"
	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// scanned is the demo scan: one piece of the demo blouse in four sizes, drawn by
// ui/demoscan_test.go with 12 mm of paper round it.
var scanned = sync.OnceValues(func() (*follow.Field, error) {
	photo, err := paper.Open(filepath.Join("..", "..", "testdata", "scans", "facing.png"))
	if err != nil {
		return nil, err
	}
	ctx := context.Background()
	s, err := photo.Straighten(ctx, paper.Request{Reference: paper.Scan, Unit: "cm"})
	if err != nil {
		return nil, err
	}
	flat, err := photo.Flatten(ctx, s, nil)
	if err != nil {
		return nil, err
	}
	return flat.Lines(ctx, nil)
})

// printed is the piece on the demo scan, in mm of the paper.
func printed(t testing.TB) (model.Piece, model.SizeChart) {
	t.Helper()
	p, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	best, least, from := -1, math.Inf(1), geom.Point{}
	for i, q := range p.Pieces {
		var b geom.Box
		for _, o := range q.Nest {
			for _, e := range o.Edges {
				b = b.Union(e.Bounds())
			}
		}
		if size := b.Width() * b.Height(); len(q.Nest) >= 4 && len(q.Edges) == 4 && size < least {
			best, least, from = i, size, b.Min
		}
	}
	q := p.Pieces[best]
	to := geom.Pt(12, 12).Sub(from)
	for i := range q.Nest {
		for j, e := range q.Nest[i].Edges {
			q.Nest[i].Edges[j] = e.Move(to)
		}
	}
	return q, p.Chart
}

func hand(t testing.TB) trace.Hand {
	t.Helper()
	f, err := scanned()
	if err != nil {
		t.Fatal(err)
	}
	return trace.Hand{Lines: f, Reach: 2}
}

// traced is the true line of a printed size, begun at a corner and run either
// way.
func traced(o model.Outline, from int, back bool) model.TracedSize {
	n := len(o.Edges)
	s := model.TracedSize{Size: o.Size, Closed: true}
	for k := range n {
		e := o.Edges[(from+k)%n]
		if back {
			e = o.Edges[(from-k-1+2*n)%n].Reverse()
		}
		s.Corners, s.Edges = append(s.Corners, e.Start()), append(s.Edges, e)
	}
	return s
}

// worst is how far in mm a line lies from an edge at most.
func worst(line, edge geom.Path) float64 {
	var most float64
	for _, at := range line.Flatten(0.05) {
		most = max(most, off(edge, at))
	}
	return most
}

// off is how far a place lies from an edge, in mm.
func off(e geom.Path, at geom.Point) float64 {
	_, _, d := e.Nearest(at, 1e-3)
	return d
}
