package ui

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/app"
	"quarterstep/app/paper"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/target"
	"quarterstep/printing/tile"
	"quarterstep/ui/board"
)

// bareWindow is the window without a pattern, its work beside it done at once.
func bareWindow(t *testing.T) *Window {
	t.Helper()
	doc, err := session.New(model.Pattern{Unit: model.Centimetres})
	if err != nil {
		t.Fatal(err)
	}
	w := Open(test.NewTempApp(t), doc, settings.Settings{}, "")
	w.aside = func(_ context.Context, work func()) { work() }
	w.win.Resize(fyne.NewSize(1440, 900))
	return w
}

// pictureFile is a picture in a file of its own.
func pictureFile(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func pngOf(t *testing.T, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// cardsPhoto is a photo from straight above of four cards of targets about a
// square of 200 mm that begins at (100, 100), all in mm of the table, perMM
// pixels to the mm.
func cardsPhoto(perMM float64) *image.Gray {
	const wide, high = 400, 420
	g := image.NewGray(image.Rect(0, 0, int(wide*perMM), int(high*perMM)))
	at := [target.Parts]geom.Point{{X: 50, Y: 50}, {X: 350, Y: 50}, {X: 350, Y: 370}, {X: 50, Y: 370}}
	for i := range g.Pix {
		x, y := float64(i%g.Stride)+0.5, float64(i/g.Stride)+0.5
		g.Pix[i] = tableGrey(geom.Pt(x/perMM, y/perMM), at)
	}
	return g
}

// tableGrey is how light the table with the cards is at a place.
func tableGrey(p geom.Point, cards [target.Parts]geom.Point) uint8 {
	for part, mid := range cards {
		d := p.Sub(mid)
		if max(math.Abs(d.X), math.Abs(d.Y)) > target.CardSide/2 {
			continue
		}
		for k := range target.PerPart {
			code := target.Corners.Code(part, k)
			s, _ := target.SpotOf(code)
			if r := d.Sub(geom.Vec(s.On)).Scale(1 / s.Radius); r.Len() <= 1 && target.Dark(code, geom.Point(r)) {
				return 25
			}
		}
		return 240
	}
	x, y := p.X-100, p.Y-100
	inside := x > -0.3 && x < 200.3 && y > -0.3 && y < 200.3
	if inside && (min(math.Abs(x), math.Abs(x-200)) < 0.3 || min(math.Abs(y), math.Abs(y-200)) < 0.3) {
		return 40
	}
	return 150
}

// A photo with targets is made flat as it is opened, without a click: the square
// on it is 200 mm, and undo and redo take it back and forth.
func TestPhotoWithTargets(t *testing.T) {
	const perMM = 3.5
	w := bareWindow(t)
	w.openPhotos([]string{pictureFile(t, "table_top.png", pngOf(t, cardsPhoto(perMM)))})
	ph := w.photo()
	if ph == nil || ph.note != "" || !w.showsFlat(ph) || ph.ask.Reference != paper.Targets {
		t.Fatalf("the photo is %+v", ph)
	}
	m := ph.straight.Map
	if d := m.MM(geom.Pt(100*perMM, 100*perMM)).Dist(m.MM(geom.Pt(300*perMM, 100*perMM))); math.Abs(d-200) > 0.3 {
		t.Errorf("the square is %.2f mm", d)
	}
	v := w.photoView(w.doc.Pattern())
	if v.Title != "Corner targets" || v.Found != "4 of 4 found" || len(v.Targets) != 4 || len(v.Fields) != 2 || !strings.Contains(v.Says, "good enough to trace") {
		t.Errorf("the panel says %q, %q, %v, %q", v.Title, v.Found, v.Targets, v.Says)
	}
	w.showFlat(false)
	numbers := 0
	for _, k := range takenTrace(ph).Targets {
		numbers += k.Number
	}
	if numbers != 1+2+3+4 || w.sceneOf(w.doc.Pattern(), w.doc.Result()).Unscaled == "" {
		t.Error("the cards are not numbered on the photo as taken")
	}
	w.doc.Undo()
	if w.isFlat(ph) || len(w.paper.photos) != 1 {
		t.Error("undo left it flat")
	}
	w.doc.Redo()
	if !w.isFlat(ph) || len(w.paper.photos) != 1 {
		t.Error("redo did not make it flat")
	}
	// Cards printed at 97 % are noticed by one distance between them.
	if err := w.photos.OnMeasured(0, "29.1"); err != nil {
		t.Fatal(err)
	}
	if say, _ := w.straightSays(ph); !strings.Contains(say, "97 %") {
		t.Errorf("a sheet printed too small is said as %q", say)
	}
	if err := w.photos.OnMeasured(0, "2"); err == nil {
		t.Error("targets 2 cm apart were taken")
	}
}

// A scan is made flat as it is opened; a drawn length clicked on it and typed
// puts right the way it was stretched, and that alone.
func TestScanIsFlatAtOnce(t *testing.T) {
	w := bareWindow(t)
	q := scannedPiece(t)
	g, at := printedPiece(q, scanPerMM)
	w.openPhotos([]string{pictureFile(t, "scan.png", scanFile(t, g, scanPerMM))})
	ph := w.photo()
	if !w.showsFlat(ph) || ph.ask.Reference != paper.Scan {
		t.Fatalf("the scan is %+v", ph)
	}
	if v := w.photoView(w.doc.Pattern()); v.Title != "Scan" || !v.Measurable || v.Flatten != "" || v.Lines == nil {
		t.Errorf("the panel is %+v", v)
	}
	edges := q.Nest[len(q.Nest)-1].Edges
	a, b := edges[0].Start().Add(at), edges[1].End().Add(at)
	w.photos.OnMeasure()
	click := func(mm geom.Point) {
		p := w.doc.Pattern()
		w.table.OnPlace(mm.Add(p.Pictures[p.PictureIndex(ph.id)].At))
	}
	click(a)
	click(b)
	i := 0
	if math.Abs(b.Y-a.Y) > math.Abs(b.X-a.X) {
		i = 1
	}
	if len(ph.lengths[i].ends) != 2 || w.tracingNow() {
		t.Fatalf("clicked are %+v", ph.lengths)
	}
	if w.win.Canvas().Focused() == nil {
		t.Error("the length cannot be typed at once")
	}
	const stretched = 1.01
	long := a.Dist(b) * stretched
	if err := w.photos.OnLength(i, bareAmount(long, model.Centimetres)); err != nil {
		t.Fatal(err)
	}
	ends := ph.lengths[i].ends
	if d := ph.straight.Map.MM(ends[0]).Dist(ph.straight.Map.MM(ends[1])); math.Abs(d-long) > 0.1 {
		t.Errorf("the length of %.1f mm came out as %.1f", long, d)
	}
	if !w.tracingNow() || len(w.doc.Pattern().Pictures) != 1 {
		t.Errorf("after it the document has %d pictures", len(w.doc.Pattern().Pictures))
	}
	if err := w.photos.OnLength(1-i, "50"); err == nil {
		t.Error("a length was typed that nobody clicked")
	}
}

// partOf is a part of a picture, cut out from left to right.
func partOf(g *image.Gray, x0, x1 int) *image.Gray {
	out := image.NewGray(image.Rect(0, 0, x1-x0, g.Rect.Dy()))
	for y := range g.Rect.Dy() {
		copy(out.Pix[y*out.Stride:(y+1)*out.Stride], g.Pix[y*g.Stride+x0:y*g.Stride+x1])
	}
	return out
}

// openHalves opens the demo scan in two parts that overlap from left to right,
// px.
func openHalves(t *testing.T) (w *Window, whole *image.Gray, left int) {
	t.Helper()
	w = bareWindow(t)
	whole, _ = printedPiece(scannedPiece(t), scanPerMM)
	wide := whole.Rect.Dx()
	left = wide * 3 / 10
	w.openPhotos([]string{
		pictureFile(t, "left.png", scanFile(t, partOf(whole, 0, wide*7/10), scanPerMM)),
		pictureFile(t, "right.png", scanFile(t, partOf(whole, left, wide), scanPerMM)),
	})
	if len(w.paper.photos) != 2 || !w.isFlat(w.paper.photos[1]) {
		t.Fatal("the parts are not flat")
	}
	return w, whole, left
}

// sameAsWhole holds the joined picture to the whole that was cut.
func sameAsWhole(t *testing.T, w *Window, whole *image.Gray, left int) {
	t.Helper()
	lead, part := w.paper.photos[0], w.paper.photos[1]
	if w.photo() != lead || part.leads() != lead || !w.isFlat(lead) || len(w.doc.Pattern().Pictures) != 1 {
		t.Fatalf("joined: in hand is %s, %d pictures, note %q", w.photo().name, len(w.doc.Pattern().Pictures), part.note)
	}
	for _, px := range []geom.Point{{X: 20, Y: 20}, {X: 60, Y: 300}} {
		got := lead.joined[0].straight.Map.MM(px)
		want := lead.straight.Map.MM(px.Add(geom.Vec{X: float64(left)}))
		if got.Dist(want) > 0.1 {
			t.Errorf("pixel %v of the right part lies %.2f mm off", px, got.Dist(want))
		}
	}
	if wide := float64(lead.flat[0].Rect.Dx()) / lead.flatPer; math.Abs(wide-float64(whole.Rect.Dx())/scanPerMM) > 0.5 {
		t.Errorf("together they are %.1f mm wide", wide)
	}
	v := w.photoView(w.doc.Pattern())
	if len(v.Parts) != 2 || !strings.Contains(v.Parts[1].Words, "agree to within") {
		t.Errorf("the parts are said as %+v", v.Parts)
	}
	if cards := w.shelfPhotos(w.doc.Pattern()); len(cards) != 1 {
		t.Errorf("the Shelf shows %d cards", len(cards))
	}
}

// A part is joined by what both show, without a click; undo brings both back.
func TestPartsMeetByThemselves(t *testing.T) {
	w, whole, left := openHalves(t)
	w.photos.OnPhoto(1)
	w.photos.OnLead(1)
	sameAsWhole(t, w, whole, left)
	w.doc.Undo()
	if n := len(w.doc.Pattern().Pictures); n != 2 || len(w.paper.photos) != 2 || w.paper.photos[1].leads() != nil {
		t.Fatalf("undo left %d pictures of %d photos", n, len(w.paper.photos))
	}
	w.doc.Redo()
	if len(w.paper.photos) != 2 || w.paper.photos[1].leads() == nil {
		t.Error("redo did not join them")
	}
	w.paper.inHand = 1
	w.photos.OnLead(0)
	if len(w.doc.Pattern().Pictures) != 2 || w.paper.photos[1].leads() != nil {
		t.Errorf("taken apart they are %d pictures", len(w.doc.Pattern().Pictures))
	}
}

// A part is joined by two places clicked on both; a mark dragged elsewhere is
// refused in a sentence.
func TestPartsJoinedByMarks(t *testing.T) {
	w, whole, left := openHalves(t)
	lead, part := w.paper.photos[0], w.paper.photos[1]
	w.paper.inHand = 1
	part.lead = lead
	w.refresh()
	if !w.joining(part) || w.tracingNow() || w.photoView(w.doc.Pattern()).Lines != nil {
		t.Fatal("the parts do not lie side by side")
	}
	q := scannedPiece(t)
	_, at := printedPiece(q, scanPerMM)
	off := besideLead(part)
	shift := geom.Vec{X: -float64(left) / scanPerMM}
	n := 0
	for _, e := range q.Nest[0].Edges {
		mm := e[0].At(0.5).Add(at)
		if x := mm.X * scanPerMM; x < float64(left)+10 || x > float64(whole.Rect.Dx())*0.7-10 || n == 2 {
			continue
		}
		n++
		w.table.OnPlace(mm)
		w.table.OnPlace(mm)
		if len(part.marks.there) != n {
			t.Fatalf("a second click on the same photo counted: %+v", part.marks)
		}
		w.table.OnPlace(mm.Add(shift).Add(off))
	}
	if n < 2 {
		t.Fatal("the overlap has no two places to click")
	}
	sameAsWhole(t, w, whole, left)
	w.photos.OnPart(1)
	mark := part.flatMM(part.marks.here[0]).Add(besideLead(part))
	if !w.table.OnGrab(mark, 2) {
		t.Fatal("a mark cannot be taken hold of")
	}
	w.table.OnDragTraced(geom.Vec{X: 25, Y: 30}, board.DragEnd)
	if part.note == "" {
		t.Error("a mark on another place was taken without a word")
	}
}

// What cannot be used says why in one sentence, and can be taken away.
func TestPhotosThatCannotBeUsed(t *testing.T) {
	var whole bytes.Buffer
	if err := jpeg.Encode(&whole, image.NewGray(image.Rect(0, 0, 400, 300)), nil); err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"phone.heic": append([]byte{0, 0, 0, 24}, "ftypheic\x00\x00\x00\x00mif1heic"...),
		"text.jpg":   []byte("Dear diary, today I cut out a waistcoat."),
		"cut.jpg":    whole.Bytes()[:whole.Len()/2],
		"none.png":   nil,
		"huge.png":   hugePNG(),
	} {
		w := bareWindow(t)
		w.openPhotos([]string{pictureFile(t, name, data)})
		v := w.photoView(w.doc.Pattern())
		if v.Note == "" || strings.Count(v.Note, ". ") > 1 || !strings.HasPrefix(v.Note, name+": ") || !strings.HasSuffix(v.Note, ".") || strings.HasSuffix(v.Note, "..") || len(v.References) > 0 || v.Busy != "" {
			t.Errorf("%s: the panel says %q, %q", name, v.Note, v.Busy)
		}
		w.photos.OnRemove()
		if len(w.paper.photos) != 0 || len(w.doc.History()) != 0 {
			t.Errorf("%s: it cannot be taken away", name)
		}
	}
}

// hugePNG says that it has 60 000 by 60 000 pixels.
func hugePNG() []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 2, 2))); err != nil {
		panic(err)
	}
	data := b.Bytes()
	copy(data[16:24], []byte{0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60})
	return data
}

// pagePhoto is an A4 page on a dark table seen from straight above.
func pagePhoto() *image.Gray {
	const perMM = 3
	g := image.NewGray(image.Rect(0, 0, 380*perMM, 420*perMM))
	for y := range g.Rect.Dy() {
		for x := range g.Rect.Dx() {
			v := uint8(70)
			if x >= 60*perMM && x < 270*perMM && y >= 50*perMM && y < 347*perMM {
				v = 235
			}
			g.SetGray(x, y, color.Gray{Y: v})
		}
	}
	return g
}

// Four rough clicks on a page make a photo flat; a wrong one is said, and dragging
// it to its corner mends it; the photo can be turned.
func TestClickedPage(t *testing.T) {
	w := bareWindow(t)
	w.openPhotos([]string{pictureFile(t, "page.png", pngOf(t, pagePhoto()))})
	ph := w.photo()
	if w.isFlat(ph) || ph.ask.Reference != paper.Page {
		t.Fatalf("the photo is %+v", ph.ask)
	}
	if v := w.photoView(w.doc.Pattern()); !strings.Contains(v.Ask, "If nothing does") {
		t.Errorf("of a photo without targets the panel says %q", v.Ask)
	}
	corners := []geom.Point{{X: 180, Y: 150}, {X: 810, Y: 150}, {X: 810, Y: 1041}, {X: 180, Y: 1041}}
	for i, c := range corners {
		if i == 3 {
			c = geom.Pt(500, 600)
		}
		w.table.OnPlace(ph.onTable(c.Add(geom.Vec{X: 2, Y: -2})))
	}
	if ph.note == "" || w.isFlat(ph) {
		t.Fatalf("a click in the middle of the page is no corner: %q", ph.note)
	}
	wrong := ph.onTable(ph.clicks[3])
	if !w.table.OnGrab(wrong, 4) {
		t.Fatal("a click cannot be taken hold of")
	}
	to := ph.onTable(corners[3])
	w.table.OnDragTraced(geom.Vec{}, board.DragStart)
	w.table.OnDragTraced(to.Sub(wrong), board.DragMove)
	w.table.OnDragTraced(to.Sub(wrong), board.DragEnd)
	if !w.isFlat(ph) || ph.note != "" {
		t.Fatalf("the mended click did not make it flat: %q", ph.note)
	}
	d := ph.straight.Map.MM(corners[0]).Dist(ph.straight.Map.MM(corners[1]))
	if math.Abs(d-210) > 0.3 {
		t.Errorf("the page is %.2f mm wide", d)
	}
	wide, high := ph.flat[0].Rect.Dx(), ph.flat[0].Rect.Dy()
	w.turnPhoto()
	if got := ph.flat[0].Rect; math.Abs(float64(got.Dx()-high)) > 2 || math.Abs(float64(got.Dy()-wide)) > 2 {
		t.Errorf("turned it is %v, before %d by %d", got, wide, high)
	}
	if len(w.doc.Pattern().Pictures) != 1 {
		t.Errorf("the document has %d pictures", len(w.doc.Pattern().Pictures))
	}
	for i, c := range corners {
		if back := ph.pixel(ph.onTable(c)); back.Dist(c) > 1e-6 {
			t.Errorf("corner %d of the turned photo comes back as %v", i+1, back)
		}
	}
	if found := foundCorners(ph); len(found) != 4 {
		t.Error("the corners found are not shown")
	}
}

// The sheets of targets are written as they are by the command, on the paper the
// sewist prints on.
func TestTargetSheetsAreWritten(t *testing.T) {
	w := bareWindow(t)
	for _, set := range []target.Set{target.Strips, target.Corners} {
		path := filepath.Join(t.TempDir(), "targets.pdf")
		w.writeTargets(path, set, w.targetPaper())
		got, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var want bytes.Buffer
		if err := app.WriteTargetSheet(&want, set, w.targetPaper(), tile.Printer{}); err != nil {
			t.Fatal(err)
		}
		if !bytes.HasPrefix(got, []byte("%PDF")) || len(got) != want.Len() {
			t.Errorf("the %s are %d bytes, not %d", set, len(got), want.Len())
		}
		if !w.dialogOpen {
			t.Fatalf("nothing says what to do with the %s", set)
		}
		w.asked.no()
	}
	if w.targetPaper().Name != "A4" {
		t.Errorf("they are for %s", w.targetPaper().Name)
	}
}

// Three parts in any order are joined by one press, also where the second does not
// meet the first but by the third.
func TestAllPartsAreJoined(t *testing.T) {
	w := bareWindow(t)
	whole, _ := printedPiece(scannedPiece(t), scanPerMM)
	wide := whole.Rect.Dx()
	var paths []string
	starts := []int{0, wide * 55 / 100, wide * 25 / 100}
	for i, end := range []int{wide * 50 / 100, wide, wide * 80 / 100} {
		paths = append(paths, pictureFile(t, "part.png", scanFile(t, partOf(whole, starts[i], end), scanPerMM)))
	}
	w.openPhotos(paths)
	if v := w.photoView(w.doc.Pattern()); v.JoinAll != "Join all 3 photos into one piece" {
		t.Fatalf("offered is %q", v.JoinAll)
	}
	w.photos.OnJoinAll()
	lead := w.paper.photos[0]
	if len(lead.joined) != 2 || w.photo() != lead || len(w.doc.Pattern().Pictures) != 1 {
		t.Fatalf("%d parts are joined, in hand is %s, %q", len(lead.joined), w.photo().name, w.photo().note)
	}
	for _, k := range lead.joined {
		left := starts[slices.Index(w.paper.photos, k.ph)]
		px := geom.Pt(30, 200)
		want := lead.straight.Map.MM(px.Add(geom.Vec{X: float64(left)}))
		if got := k.straight.Map.MM(px); got.Dist(want) > 0.15 {
			t.Errorf("the part from %d on lies %.2f mm off", left, got.Dist(want))
		}
	}
	if v := w.photoView(w.doc.Pattern()); v.JoinAll != "" || len(v.Parts) != 3 {
		t.Errorf("after it, offered is %q, parts are %v", v.JoinAll, v.Parts)
	}
}

// A picture kept with the project is read again when it is shown, and can be
// turned.
func TestKeptPictureIsTurned(t *testing.T) {
	w := bareWindow(t)
	whole, _ := printedPiece(scannedPiece(t), scanPerMM)
	w.openPhotos([]string{pictureFile(t, "page.png", scanFile(t, whole, scanPerMM))})
	path := filepath.Join(t.TempDir(), "kept.qstep")
	if err := w.doc.Save(path); err != nil {
		t.Fatal(err)
	}
	again, err := session.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	w.take(again)
	w.goTo(stepBringIn)
	ph := w.photo()
	if ph == nil || !w.showsFlat(ph) || ph.shot != nil || ph.lines == nil {
		t.Fatalf("the kept picture is %+v", ph)
	}
	was := ph.flat[0].Rect
	w.turnPhoto()
	if got := ph.flat[0].Rect; got.Dx() != was.Dy() || got.Dy() != was.Dx() || !w.isFlat(ph) || len(w.doc.Pattern().Pictures) != 1 {
		t.Errorf("turned it is %v, before %v", got, was)
	}
	w.doc.Undo()
	if !w.isFlat(ph) || ph.flat[0].Rect != was {
		t.Errorf("undo gives %v", ph.flat)
	}
}

// Parts that share nothing are not joined anywhere: the panel asks for clicks.
func TestPartsThatDoNotMeet(t *testing.T) {
	w := bareWindow(t)
	whole, _ := printedPiece(scannedPiece(t), scanPerMM)
	wide := whole.Rect.Dx()
	w.openPhotos([]string{
		pictureFile(t, "left.png", scanFile(t, partOf(whole, 0, wide*45/100), scanPerMM)),
		pictureFile(t, "right.png", scanFile(t, partOf(whole, wide*55/100, wide), scanPerMM)),
	})
	w.photos.OnJoinAll()
	ph := w.paper.photos[1]
	if w.photo() != ph || ph.leads() != nil || !w.joining(ph) || !strings.Contains(w.photoView(w.doc.Pattern()).Note, "click two places") {
		t.Errorf("in hand is %s, joined %v, note %q", w.photo().name, ph.leads() != nil, ph.note)
	}
	if len(w.doc.Pattern().Pictures) != 2 || len(w.paper.toJoin) > 0 {
		t.Errorf("the document has %d pictures", len(w.doc.Pattern().Pictures))
	}
}
