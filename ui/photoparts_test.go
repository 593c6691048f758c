package ui

import (
	"context"
	"math"
	"strings"
	"testing"

	"quarterstep/app/paper"
	"quarterstep/model/geom"
)

// One place clicked on one photo, while the overlap is looked for, is given up for
// what is found: it has no place on the other to go with.
func TestHalfAMarkDoesNotShiftThoseFound(t *testing.T) {
	w, whole, left := openHalves(t)
	lead, part := w.paper.photos[0], w.paper.photos[1]
	w.paper.inHand = 1
	part.lead = lead
	part.marks.here = []geom.Point{{X: 40, Y: 40}}
	w.meet(part)
	sameAsWhole(t, w, whole, left)
}

// While the overlap is looked for nobody is asked to click.
func TestNoMarkIsAskedForMeanwhile(t *testing.T) {
	w, _, _ := openHalves(t)
	part := w.paper.photos[1]
	part.lead = w.paper.photos[0]
	part.job.words = meeting.String()
	if ask := partAsk(part); strings.Contains(ask, "click") {
		t.Errorf("meanwhile %q is asked", ask)
	}
	part.job.words = ""
	if ask := partAsk(part); !strings.Contains(ask, "Mark 1") {
		t.Errorf("then %q is asked", ask)
	}
}

// What a length drawn on the first part says of the targets is true of a part by
// the same targets, which else would not fit any longer.
func TestPartsFollowTheLengthOfTheFirst(t *testing.T) {
	const off = 0.04
	w, whole, left := openHalves(t)
	lead, part := w.paper.photos[0], w.paper.photos[1]
	w.paper.inHand = 1
	w.photos.OnLead(1)
	sameAsWhole(t, w, whole, left)
	first := paper.Part{Photo: lead.shot, Straight: lead.straight}
	first.Straight.Map, first.Straight.Off = lead.straight.Map.Larger(1+off), off
	parts := w.partsToJoin(lead, lead.joined)
	if parts[0].with {
		t.Error("a scan goes by the length drawn on another")
	}
	px := geom.Pt(60, 300)
	want := first.Straight.Map.MM(px.Add(geom.Vec{X: float64(left)}))
	if placed, err := layParts(context.Background(), first, parts); err == nil && placed[1].Straight.Map.MM(px).Dist(want) < 0.15 {
		t.Error("parts of two scales fit")
	}
	lead.ask, part.ask = paper.Request{Reference: paper.Targets}, paper.Request{Reference: paper.Targets}
	placed, err := layParts(context.Background(), first, w.partsToJoin(lead, lead.joined))
	if err != nil {
		t.Fatal(err)
	}
	if got := placed[1].Straight.Map.MM(px); got.Dist(want) > 0.15 {
		t.Errorf("the part lies %.2f mm off", got.Dist(want))
	}
}

// A drawn length is clicked on what the first photo itself shows.
func TestLengthOnAnotherPart(t *testing.T) {
	w, _, _ := openHalves(t)
	w.photos.OnPhoto(1)
	w.photos.OnLead(1)
	lead := w.photo()
	w.photos.OnMeasure()
	place := func(px geom.Point) {
		p := w.doc.Pattern()
		w.table.OnPlace(lead.flatMM(px).Add(p.Pictures[p.PictureIndex(lead.id)].At))
	}
	wide := float64(lead.shot.Picture.Size().X)
	place(geom.Pt(wide+40, 60))
	if len(w.paper.measure.first) != 0 {
		t.Error("an end was taken where the photo shows nothing")
	}
	place(geom.Pt(wide-40, 60))
	if len(w.paper.measure.first) != 1 {
		t.Error("an end on the photo was not taken")
	}
}

// A length of another kind than what was clicked, a slip of the unit, is refused;
// one that a printer or another page may have made is not.
func TestLengthFarFromThePicture(t *testing.T) {
	const perMM = 3.5
	w := bareWindow(t)
	w.openPhotos([]string{pictureFile(t, "table_top.png", pngOf(t, cardsPhoto(perMM)))})
	ph := w.photo()
	w.photos.OnMeasure()
	w.clickLength(ph, geom.Pt(100*perMM, 100*perMM))
	w.clickLength(ph, geom.Pt(300*perMM, 100*perMM))
	if ask := w.lengthAsk(); !strings.Contains(ask, "type") {
		t.Errorf("with both ends clicked, asked is %q", ask)
	}
	for _, bad := range []string{"2000", "20", "200 in"} {
		if err := w.photos.OnLength(0, bad); err == nil || !strings.Contains(err.Error(), "far from") {
			t.Errorf("%s mm for 200: %v", bad, err)
		}
	}
	if err := w.photos.OnLength(0, "206"); err != nil {
		t.Fatal(err)
	}
	ends := ph.lengths[0].ends
	if d := ph.straight.Map.MM(ends[0]).Dist(ph.straight.Map.MM(ends[1])); math.Abs(d-206) > 0.1 {
		t.Errorf("206 mm came out as %.2f", d)
	}
}

// The marks of a part that lies joined already are clicked anew: they go by the
// other photo, though the picture at the left shows the part too.
func TestMarksOfAJoinedPartClickedAnew(t *testing.T) {
	w, whole, left := openHalves(t)
	part := w.paper.photos[1]
	w.photos.OnPhoto(1)
	w.photos.OnLead(1)
	w.photos.OnPart(1)
	wide := float64(whole.Rect.Dx())
	for len(part.marks.here)+len(part.marks.there) > 0 {
		part.undoMark()
	}
	for i, px := range []geom.Point{{X: wide * 0.62, Y: 40}, {X: wide * 0.64, Y: 300}} {
		w.table.OnPlace(part.lead.flatMM(px))
		if len(part.marks.on) != i+1 || part.marks.on[i] != part.lead {
			t.Fatalf("mark %d is not on the first photo: %+v", i+1, part.marks)
		}
		w.table.OnPlace(part.flatMM(geom.Pt(px.X-float64(left), px.Y)).Add(besideLead(part)))
	}
	if part.note != "" {
		t.Fatalf("joined anew it says %q", part.note)
	}
	sameAsWhole(t, w, whole, left)
	w.photos.OnPart(1)
	if ask := partAsk(part); !strings.Contains(ask, "*Joined:*") {
		t.Errorf("joined, asked is %q", ask)
	}
	part.note = "Something is wrong."
	if ask := partAsk(part); !strings.Contains(ask, "*Not joined:*") {
		t.Errorf("not joined, asked is %q", ask)
	}
}
