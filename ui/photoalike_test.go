package ui

import (
	"math"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// A length drawn on one scan puts right another of the same resolution, brought in
// before it was typed or after; taken back, both go by their own scale again. The
// same picture brought in twice is said to be so.
func TestALengthIsCarriedToScansAlike(t *testing.T) {
	w := bareWindow(t)
	q := scannedPiece(t)
	g, at := printedPiece(q, scanPerMM)
	first := pictureFile(t, "scan.png", scanFile(t, g, scanPerMM))
	g.Pix[0]++
	other := pictureFile(t, "other.png", scanFile(t, g, scanPerMM))
	w.openPhotos([]string{first, other})
	a, b := w.paper.photos[0], w.paper.photos[1]
	w.choosePhoto(0)
	edges := q.Nest[len(q.Nest)-1].Edges
	from, to := edges[0].Start().Add(at), edges[1].End().Add(at)
	w.photos.OnMeasure()
	for _, mm := range []geom.Point{from, to} {
		p := w.doc.Pattern()
		w.table.OnPlace(mm.Add(p.Pictures[p.PictureIndex(a.id)].At))
	}
	i := 0
	if math.Abs(to.Y-from.Y) > math.Abs(to.X-from.X) {
		i = 1
	}
	if err := w.photos.OnLength(i, bareAmount(from.Dist(to)*1.01, model.Centimetres)); err != nil {
		t.Fatal(err)
	}
	long := func(ph *photo) float64 {
		m := ph.straight.Map
		return m.MM(geom.Pt(100, 100)).Dist(m.MM(geom.Pt(400, 500)))
	}
	plain := math.Hypot(300, 400) / scanPerMM
	if math.Abs(long(a)/plain-1) < 0.001 || math.Abs(long(b)-long(a)) > 1e-6 {
		t.Errorf("the scans are %.3f and %.3f mm, by the file %.3f", long(a), long(b), plain)
	}
	if !strings.Contains(b.straight.Say, "drawn on photo 1") {
		t.Errorf("of the other is said %q", b.straight.Say)
	}
	if say, _ := w.straightSays(a); !strings.Contains(say, "other scan") {
		t.Errorf("of the first is said %q", say)
	}
	w.openPhotos([]string{other})
	c := w.photo()
	if math.Abs(long(c)-long(a)) > 1e-6 {
		t.Errorf("one brought in later is %.3f mm", long(c))
	}
	if v := w.photoView(w.doc.Pattern()); !strings.Contains(v.Note, "same picture as photo 2") {
		t.Errorf("of the same picture is said %q", v.Note)
	}
	w.choosePhoto(0)
	if v := w.photoView(w.doc.Pattern()); v.Note != "" {
		t.Errorf("of the first is noted %q", v.Note)
	}
	if err := w.photos.OnLength(i, ""); err != nil {
		t.Fatal(err)
	}
	for k, ph := range []*photo{a, b, c} {
		if math.Abs(long(ph)-plain) > 0.01 {
			t.Errorf("without the length scan %d is %.3f mm, not %.3f", k+1, long(ph), plain)
		}
	}
}
