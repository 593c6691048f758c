package nest

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// countdown is a context that ends when it is asked the n-th time, and notes how often
// it was asked and the longest time between two questions.
type countdown struct {
	context.Context
	n, asked int
	last     time.Time
	longest  time.Duration
}

func ending(n int) *countdown { return &countdown{Context: context.Background(), n: n} }

func (c *countdown) Err() error {
	now := time.Now()
	if c.asked > 0 {
		c.longest = max(c.longest, now.Sub(c.last))
	}
	c.last = now
	c.asked++
	if c.n > 0 && c.asked >= c.n {
		return context.Canceled
	}
	return nil
}

// shakyDisc is a round piece of so many edges, each size traced by a hand that shakes.
func shakyDisc(edges int) (model.Piece, model.SizeChart) {
	const curves, sizes = 6, 6
	c := model.SizeChart{ID: "c", Name: "Invented", Measures: []model.Measure{model.Bust}}
	q := model.Piece{ID: "d", Name: "Disc"}
	for k := range edges {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprint(k)})
		q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprint(k)})
	}
	for s := range sizes {
		c.Sizes = append(c.Sizes, model.ChartSize{Name: fmt.Sprint(s), Body: map[model.Measure]float64{model.Bust: 600 + 40*float64(s)}})
		at := func(i int) geom.Point {
			n := i % (edges * curves)
			sin, cos := math.Sincos(2 * math.Pi * float64(n) / float64(edges*curves))
			r := 300*(1+0.02*float64(s)) + math.Sin(1.7*float64(n)+float64(s))
			return geom.Pt(r*cos, r*sin)
		}
		o := model.Outline{Size: fmt.Sprint(s)}
		for k := range edges {
			var line []geom.Point
			for j := range curves + 1 {
				line = append(line, at(k*curves+j))
			}
			o.Edges = append(o.Edges, geom.Polyline(line...))
		}
		q.Nest = append(q.Nest, o)
	}
	return q, c
}

// TestReadingStops: wherever reading a nest has got to, it stops at the next question
// whether it is still wanted, and it asks that for every size of every edge.
func TestReadingStops(t *testing.T) {
	for _, edges := range []int{8, 60} {
		q, chart := shakyDisc(edges)
		whole := ending(0)
		began := time.Now()
		fit, err := NewUntil(whole, q, chart)
		took := time.Since(began)
		if err != nil {
			t.Fatal(err)
		}
		if whole.asked < edges*len(q.Nest)*3 {
			t.Errorf("%d edges in %d sizes: asked %d times whether it is wanted", edges, len(q.Nest), whole.asked)
		}
		t.Logf("%d edges, settled together %v: %v, asked %d times, at the most %v apart", edges, fit.shaken, took, whole.asked, whole.longest)
		for n := 1; n <= whole.asked; n += 1 + whole.asked/40 {
			c := ending(n)
			got, err := NewUntil(c, q, chart)
			if !errors.Is(err, context.Canceled) || got != nil || c.asked != n {
				t.Fatalf("ended at question %d of %d: asked %d times, %v", n, whole.asked, c.asked, err)
			}
		}
	}
}
