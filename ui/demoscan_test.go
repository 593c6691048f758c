package ui

import (
	"bytes"
	"encoding/binary"
	"flag"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"testing"

	"quarterstep/app"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme"
	"quarterstep/ui/view"
)

var update = flag.Bool("update", false, "draw the demo scan anew")

// The demo scan: one piece of the demo blouse in four sizes, as a scanner at
// scanPerInch would see it printed, each size in its own dashes.
const (
	demoScan    = "../testdata/scans/facing.png"
	scanPerInch = 150
	scanPerMM   = scanPerInch / 25.4
	scanMargin  = 12 // mm of paper round the piece
	scanLine    = 0.35
)

// scannedPiece is the piece of the demo scan, and where its own (0, 0) lies on
// the paper, mm.
func scannedPiece(t *testing.T) (model.Piece, geom.Vec, geom.Box) {
	t.Helper()
	p, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	best, least := -1, math.Inf(1)
	for i, q := range p.Pieces {
		b := nestBox(q)
		if size := b.Width() * b.Height(); len(q.Nest) >= 4 && size < least && len(q.Edges) == 4 {
			best, least = i, size
		}
	}
	if best < 0 {
		t.Fatal("the demo has no piece of four edges in four sizes")
	}
	q := p.Pieces[best]
	b := nestBox(q)
	to := geom.Vec{X: scanMargin - b.Min.X, Y: scanMargin - b.Min.Y}
	return q, to, geom.Box{Max: geom.Pt(b.Width()+2*scanMargin, b.Height()+2*scanMargin)}
}

func nestBox(q model.Piece) geom.Box {
	var b geom.Box
	for _, o := range q.Nest {
		for _, e := range o.Edges {
			b = b.Union(e.Bounds())
		}
	}
	return b
}

// drawScan is the demo scan in greys.
func drawScan(t *testing.T) *image.Gray {
	t.Helper()
	q, to, box := scannedPiece(t)
	w := newThumbPainter(t)
	img := image.NewRGBA(image.Rect(0, 0, int(box.Width()*scanPerMM), int(box.Height()*scanPerMM)))
	paint.Clear(img, color.NRGBA{243, 240, 232, 255})
	var l scene.Layer
	for i, o := range q.Nest {
		_, dash := scene.NestDash(i, len(q.Nest))
		px := make([]float64, len(dash))
		for k, d := range dash {
			px[k] = d * 0.25 * scanPerMM // 0.25 mm of paper a px of the screen
		}
		l.Lines = append(l.Lines, scene.Line{Path: geom.Join(o.Edges...).Move(to), Width: scanLine * scanPerMM, Dash: px, Ink: scene.InkWords, Alpha: 1})
	}
	w.Paint(img, paint.Screen{View: view.View{Scale: scanPerMM}, Factor: 1}, l)
	g := image.NewGray(img.Rect)
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			g.Set(x, y, img.At(x, y))
		}
	}
	return g
}

func newThumbPainter(t *testing.T) *paint.Painter {
	t.Helper()
	return paint.New(nil, theme.Light)
}

// scanFile is g as PNG that says how many pixels make a metre (PNG
// specification, 3rd ed., 11.3.4.3 pHYs).
func scanFile(t *testing.T, g *image.Gray) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, g); err != nil {
		t.Fatal(err)
	}
	const head = 8 + 25 // signature and IHDR
	chunk := []byte("pHYs")
	per := uint32(math.Round(scanPerMM * 1000))
	chunk = binary.BigEndian.AppendUint32(chunk, per)
	chunk = binary.BigEndian.AppendUint32(chunk, per)
	chunk = append(chunk, 1)
	out := append([]byte{}, b.Bytes()[:head]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(chunk)-4))
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, b.Bytes()[head:]...)
}

// The committed scan is what the demo draws now.
func TestDemoScanIsOfTheDemo(t *testing.T) {
	want := drawScan(t)
	if *update {
		if err := os.MkdirAll("../testdata/scans", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(demoScan, scanFile(t, want), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Open(demoScan)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	got, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	g, ok := got.(*image.Gray)
	if !ok || g.Rect != want.Rect || !bytes.Equal(g.Pix, want.Pix) {
		t.Error("the scan differs from the demo; draw it anew with -update")
	}
}
