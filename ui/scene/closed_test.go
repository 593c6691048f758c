package scene_test

import (
	"math"
	"testing"

	"quarterstep/grading/dart"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// shut is the sample's front with its dart closed.
func shut(t *testing.T) scene.Input {
	t.Helper()
	in := blouse(t, 4)
	q, r := in.Pattern.Pieces[0], in.Result.Pieces[0]
	d, err := dart.Read(q, q.Darts[0], r.Darts[0].Apex)
	if err != nil {
		t.Fatal(err)
	}
	c, err := d.Close(r.Edges)
	if err != nil {
		t.Fatal(err)
	}
	in.Closed = map[string]dart.Closed{q.ID: c}
	return in
}

func TestSceneOfAClosedDart(t *testing.T) {
	in := shut(t)
	in.Select, in.Seam = scene.Ref{Piece: "front", Edge: "side seam"}, true
	golden(t, "closed", "static\n"+dump(scene.Static(in, []string{"front"}))+"active\n"+dump(scene.Active(in, []string{"front"})))
}

// What lies on the Table where a dart is closed is what the piece's own places
// are taken to, by the edge or grade point they belong to.
func TestPlacesOfAClosedPiece(t *testing.T) {
	in := shut(t)
	q, open := in.Pattern.Pieces[0], in.Result.Pieces[0].Edges
	lying := in.Edges(0)
	turned := 0
	for k, e := range q.Edges {
		if e.ID == "dart cap" {
			continue
		}
		at := in.PlaceOf(scene.Ref{Piece: q.ID, Edge: e.ID})
		for c, p := range open[k].Controls() {
			if off := at.Apply(p).Dist(lying[k].Controls()[c]); off > 1e-9 {
				t.Errorf("%s lies %g mm from its place", e.ID, off)
			}
		}
		if g := in.PlaceOf(scene.Ref{Piece: q.ID, Point: q.Points[k].ID}); g != at {
			t.Errorf("%s is not where its edge is", q.Points[k].Name)
		}
		if at != in.Place(q.ID) {
			turned++
		}
	}
	if turned == 0 {
		t.Error("nothing was turned")
	}
	up, low := q.PointIndex("dart-up"), q.PointIndex("dart-low")
	if gap := lying[up].Start().Dist(lying[low].Start()); gap > math.Abs(in.Closed[q.ID].Step)+1e-9 {
		t.Errorf("the legs are %g mm apart", gap)
	}
	if other := in.PlaceOf(scene.Ref{Piece: "facing", Edge: "outer"}); other != in.Place("facing") {
		t.Error("another piece is turned")
	}
}

func TestDartsOnTheTable(t *testing.T) {
	for name, in := range map[string]scene.Input{"open": blouse(t, 4), "closed": shut(t)} {
		refs, legs := scene.Darts(in)
		if len(refs) != 1 || refs[0] != (scene.Ref{Piece: "front", Dart: "dart"}) {
			t.Fatalf("%s: darts %v", name, refs)
		}
		m := in.Place("front")
		if apex := m.Apply(in.Result.Pieces[0].Darts[0].Apex); legs[0][0].P3 != apex {
			t.Errorf("%s: its apex is drawn at %v, not %v", name, legs[0][0].P3, apex)
		}
		mouth := legs[0].Start().Dist(legs[0].End())
		if open := name == "open"; open != (mouth > 10) {
			t.Errorf("%s: the legs end %.1f mm apart", name, mouth)
		}
	}
	in := blouse(t, 4)
	in.Sheets = []scene.Page{{Name: "A1", Box: geom.Box{Max: geom.Pt(1, 1)}}}
	if refs, _ := scene.Darts(in); len(refs) != 0 {
		t.Error("darts can be taken in hand on the pages")
	}
}
