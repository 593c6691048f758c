package propose

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

var (
	anyPiece = []string{"Front", "Back", "Front", "Back", "Sleeve", "Front facing", "Side front", "Sleeve", "Top sleeve", "Cuff", "Collar", "Collar stand", "Waistband", "Front skirt", "Back skirt", "Back yoke", "Front facing", "Neck facing", "Back lining", "Front interfacing", "Pocket", "", "Piece 4"}
	anyEdge  = []string{"", "edge 3", "neckline", "shoulder", "armhole", "side seam", "side above the waist", "waist seam", "waistline", "hem", "centre front", "back cap", "front cap", "cap", "sleeve seam", "underarm seam", "yoke seam", "neck edge", "upper edge", "lower edge", "princess seam", "lower half of the dart cap", "outer edge"}
	anyPoint = []string{"", "neck point", "underarm", "side waist", "side hem", "crown", "front underarm", "shoulder tip"}
	anyKind  = []model.EdgeKind{model.Plain, model.Plain, model.Plain, model.Plain, model.Plain, model.Plain, model.Plain, model.Hem, model.Fold, model.Centre}
)

// anyPieces is pieces of the demo, some of them twice, with edges and pieces
// called otherwise, among pieces of any edges; sizes are left out by chance.
func anyPieces(t *rapid.T, demo []model.Piece) []model.Piece {
	var out []model.Piece
	for k := range rapid.IntRange(0, 7).Draw(t, "pieces") {
		q := rapid.SampledFrom(demo).Draw(t, "demo piece")
		if rapid.IntRange(0, 3).Draw(t, "round") == 0 {
			q = roundPiece(t, q.Nest)
		}
		q.ID = fmt.Sprintf("q%d", k)
		if rapid.IntRange(0, 3).Draw(t, "renamed") == 0 {
			q.Name = rapid.SampledFrom(anyPiece).Draw(t, "piece")
		}
		q.Edges, q.Points = slices.Clone(q.Edges), slices.Clone(q.Points)
		for range rapid.IntRange(0, 3).Draw(t, "changed edges") {
			j := rapid.IntRange(0, len(q.Edges)-1).Draw(t, "changed")
			q.Edges[j].Name = rapid.SampledFrom(anyEdge).Draw(t, "edge")
			q.Edges[j].Kind = rapid.SampledFrom(anyKind).Draw(t, "kind")
			q.Edges[j].Allowance = rapid.SampledFrom([]float64{0, 10, 15, 60}).Draw(t, "allowance")
			q.Points[j].Name = rapid.SampledFrom(anyPoint).Draw(t, "point")
		}
		out = append(out, q)
	}
	return out
}

// roundPiece is a piece without names in the same sizes.
func roundPiece(t *rapid.T, nest []model.Outline) model.Piece {
	var q model.Piece
	n := rapid.IntRange(2, 9).Draw(t, "edges")
	radius, grow := rapid.Float64Range(40, 300).Draw(t, "radius"), rapid.SampledFrom([]float64{0, 2, 10}).Draw(t, "grow")
	bend := rapid.SampledFrom([]float64{0, 0.1, -0.3}).Draw(t, "bend")
	turn := rapid.SampledFrom([]float64{1, -1}).Draw(t, "way round")
	for j := range n {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprintf("p%d", j)})
		q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprintf("e%d", j)})
	}
	for s, o := range nest {
		if s == 0 || rapid.IntRange(0, 4).Draw(t, "left out") > 0 {
			q.Nest = append(q.Nest, model.Outline{Size: o.Size, Edges: roundRing(n, radius+grow*float64(s), bend, turn)})
		}
	}
	if n > 3 && rapid.Bool().Draw(t, "dart") {
		q.Darts = []model.Dart{{ID: "d", From: "p1", To: fmt.Sprintf("p%d", rapid.IntRange(2, n-1).Draw(t, "leg")), Apex: []model.SizedPoint{{}}}}
	}
	return q
}

func roundRing(n int, radius, bend, turn float64) []geom.Path {
	at := func(j int) geom.Point {
		a := turn * 2 * math.Pi * float64(j%n) / float64(n)
		return geom.Pt(radius*math.Cos(a), 1.5*radius*math.Sin(a))
	}
	var out []geom.Path
	for j := range n {
		a, b := at(j), at(j+1)
		off := b.Sub(a).Perp().Scale(bend * float64(j%2))
		out = append(out, geom.Path{{P0: a, P1: a.Lerp(b, 1.0/3).Add(off), P2: a.Lerp(b, 2.0/3).Add(off), P3: b}})
	}
	return out
}

// Whatever the pattern: the proposals can all be taken in, one edge follows one
// line and is sewn once, no fold or centre line is sewn and no hem but a
// sleeve's, and nothing more is proposed then.
func TestProposalsOfAnyPattern(t *testing.T) {
	demo := demos(t)["blouse"]
	proposed := 0
	rapid.Check(t, func(t *rapid.T) {
		p := model.Pattern{Chart: demo.Chart, Pieces: anyPieces(t, demo.Pieces)}
		if err := p.Validate(); err != nil {
			t.Fatal(err)
		}
		found := Links(p)
		proposed += len(found)
		follows, sewn := map[end]int{}, map[end]int{}
		for _, f := range found {
			if f.What == "" || f.How == "" || !(f.Misfit >= 0) || math.IsInf(f.Misfit, 0) {
				t.Fatalf("proposal %+v", f)
			}
			if f.Link.Kind == model.Sewn {
				for _, s := range append(f.Link.Leads(), f.Link.Follow) {
					refuseUnsewn(t, p.Pieces[p.PieceIndex(s.Piece)], s)
				}
			}
			p.Links = append(p.Links, f.Link)
			count(f.Link, follows, sewn)
		}
		if err := p.Validate(); err != nil {
			t.Fatal(err)
		}
		for e, n := range follows {
			if n > 1 || sewn[e] > 0 {
				t.Fatalf("edge %v follows %d lines and is sewn %d times", e, n, sewn[e])
			}
		}
		for e, n := range sewn {
			if n > 1 {
				t.Fatalf("edge %v is sewn %d times", e, n)
			}
		}
		if more := Links(p); len(more) > 0 {
			t.Fatalf("then %q is proposed too", more[0].Say())
		}
	})
	t.Logf("%d links were proposed", proposed)
	if proposed < 25 {
		t.Errorf("only %d links were proposed in all", proposed)
	}
}

// count counts what a link asks of each edge; a leader that goes over both
// halves of the body is counted once.
func count(l model.Link, follows, sewn map[end]int) {
	met := map[end]bool{}
	for _, s := range append(l.Leads(), l.Follow) {
		for _, e := range ends(s) {
			met[e] = true
		}
	}
	if l.Kind == model.SameLine {
		for _, e := range ends(l.Follow) {
			follows[e]++
		}
		return
	}
	for e := range met {
		sewn[e]++
	}
}

func refuseUnsewn(t *rapid.T, q model.Piece, s model.Stretch) {
	for _, id := range s.Edges {
		k := q.Edges[q.EdgeIndex(id)].Kind
		if k == model.Fold || k == model.Centre || k == model.Hem && sortOf(q.Name) != sleeve {
			t.Fatalf("the %s %s of %s is sewn", k, id, q.Name)
		}
	}
}
