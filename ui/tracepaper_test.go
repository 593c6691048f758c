package ui

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/ui/board"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme"
	"quarterstep/ui/view"
)

// printedPiece draws a piece in all its printed sizes as it is printed, each in
// its own dashes, perMM pixels to the mm: the picture, and where the piece's own
// (0, 0) lies on it.
func printedPiece(q model.Piece, perMM float64) (*image.Gray, geom.Vec) {
	b := nestBox(q)
	to := geom.Vec{X: scanMargin - b.Min.X, Y: scanMargin - b.Min.Y}
	img := image.NewRGBA(image.Rect(0, 0, int((b.Width()+2*scanMargin)*perMM), int((b.Height()+2*scanMargin)*perMM)))
	paint.Clear(img, color.NRGBA{243, 240, 232, 255})
	var l scene.Layer
	for i, o := range q.Nest {
		_, dash := scene.NestDash(i, len(q.Nest))
		px := make([]float64, len(dash))
		for k, d := range dash {
			px[k] = d * 0.25 * perMM // 0.25 mm of paper a px of the screen
		}
		l.Lines = append(l.Lines, scene.Line{Path: geom.Join(o.Edges...).Move(to), Width: scanLine * perMM, Dash: px, Ink: scene.InkWords, Alpha: 1})
	}
	paint.New(nil, theme.Light).Paint(img, paint.Screen{View: view.View{Scale: perMM}, Factor: 1}, l)
	g := image.NewGray(img.Rect)
	draw.Draw(g, g.Rect, img, image.Point{}, draw.Src)
	return g, to
}

// bib is a piece of five edges printed in four sizes, 5 mm apart where they are
// apart: a centre line on the fold that all share, a neckline, a shoulder, a
// bent side and a hem. Lengths are mm.
func bib(t *testing.T) (model.Piece, model.SizeChart) {
	t.Helper()
	q := model.Piece{ID: "bib", Name: "Bib", Cut: 1}
	for i, size := range []string{"34", "36", "38", "40"} {
		g := 5 * float64(i)
		neck, tip, shoulder, side, hem := geom.Pt(0, 30+0.8*g), geom.Pt(40+g, -g), geom.Pt(95+g, 14-g), geom.Pt(110+g, 120+g), geom.Pt(0, 120+g)
		q.Nest = append(q.Nest, model.Outline{Size: size, Edges: []geom.Path{
			{{P0: neck, P1: geom.Pt(22+g, 30+0.8*g), P2: geom.Pt(36+g, 18+0.6*g), P3: tip}},
			{geom.Line(tip, shoulder)},
			{{P0: shoulder, P1: geom.Pt(84+g, 45), P2: geom.Pt(86+g, 85+g), P3: side}},
			{geom.Line(side, hem)},
			{geom.Line(hem, neck)},
		}})
	}
	_, chart := demoPiece(t, "Front")
	return q, chart
}

// bibPerMM is how finely the bib is scanned: 127 pixels to the inch.
const bibPerMM = 5

// onBib is the window on a scan of the bib, straightened, with its piece as it
// was drawn and where it lies.
func onBib(t *testing.T) (*Window, model.Piece, geom.Vec) {
	t.Helper()
	q, chart := bib(t)
	g, at := printedPiece(q, bibPerMM)
	return onPaper(t, g, bibPerMM, chart, "34", "40"), q, at
}

// demoPiece is a piece of the demo blouse whose name begins so.
func demoPiece(t *testing.T, name string) (model.Piece, model.SizeChart) {
	t.Helper()
	p, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range p.Pieces {
		if strings.HasPrefix(q.Name, name) {
			return q, p.Chart
		}
	}
	t.Fatalf("the demo has no %s", name)
	return model.Piece{}, model.SizeChart{}
}

// onPaper is the window at the step Bring in with a straightened picture of the
// paper in hand, its lines ready to be followed, and the chart chosen with the
// sizes printed on it.
func onPaper(t *testing.T, g *image.Gray, perMM float64, chart model.SizeChart, from, to string) *Window {
	t.Helper()
	doc, err := session.New(model.Pattern{})
	if err != nil {
		t.Fatal(err)
	}
	w := Open(test.NewTempApp(t), doc, settings.Settings{}, "")
	w.aside = func(_ context.Context, work func()) { work() }
	lines, err := follow.Prepare(context.Background(), follow.Sheet{Gray: g, PerMM: perMM}, nil)
	if err != nil {
		t.Fatal(err)
	}
	ph := &photo{laid: laid{id: "photo-1"}, name: "paper", flat: scene.Levels(g), flatPer: perMM, flatWhole: perMM, lines: lines, prepared: true}
	w.paper.photos = append(w.paper.photos, ph)
	w.do("straighten paper", edit.AddPicture(model.Picture{ID: ph.id, Name: ph.name, File: "photo-1.jpg", PerMM: perMM}))
	w.do("choose the chart", edit.Chart(chart))
	l, _ := chart.Place(from)
	h, _ := chart.Place(to)
	w.photos.Lines.OnFrom(l)
	w.photos.Lines.OnTo(h)
	w.goTo(stepBringIn)
	w.setTool(board.Trace)
	w.win.Resize(fyne.NewSize(1440, 900))
	w.table.Fit()
	return w
}

// cornersOf are the corners of a printed size on the paper.
func cornersOf(t *testing.T, q model.Piece, size string, at geom.Vec) []geom.Point {
	t.Helper()
	o, ok := q.Printed(size)
	if !ok {
		t.Fatalf("%s is not printed in %s", q.Name, size)
	}
	var out []geom.Point
	for _, e := range o.Edges {
		out = append(out, e.Start().Add(at))
	}
	return out
}

// farOff is how far at most, in mm, a traced line lies from the printed one.
func farOff(t *testing.T, line model.TracedSize, q model.Piece, at geom.Vec) float64 {
	t.Helper()
	o, _ := q.Printed(line.Size)
	truth := geom.Join(o.Edges...).Move(at)
	var worst float64
	for _, e := range line.Edges {
		for k := range e {
			for i := range 9 {
				_, d, err := truth.NearestS(e[k].At(float64(i)/8), 0.01)
				if err != nil {
					t.Fatal(err)
				}
				worst = max(worst, d)
			}
		}
	}
	return worst
}

// bibFile is the scan of the bib as a project keeps it.
func bibFile(t *testing.T) []byte {
	t.Helper()
	q, _ := bib(t)
	g, _ := printedPiece(q, bibPerMM)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, g, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
