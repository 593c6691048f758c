package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/tile"
)

func square(name string) printing.Piece {
	ring := geom.Polyline(geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 100), geom.Pt(0, 100), geom.Pt(0, 0))
	return printing.Piece{
		Name: name, Outline: ring,
		Strokes: []printing.Stroke{
			{Path: ring, Width: 0.45, Layer: "Size 48", Cut: true, Dash: []float64{3, 2}},
			{Path: geom.Polyline(geom.Pt(50, 20), geom.Pt(50, 80)), Width: 0.25, Dash: []float64{8, 3}},
		},
		Labels: []printing.Label{{Text: name, At: geom.Pt(50, 50), Size: 7, Bold: true, Turn: math.Pi / 2}},
	}
}

// file is what these tests want of an SVG.
type file struct {
	Width  string `xml:"width,attr"`
	Height string `xml:"height,attr"`
	Box    string `xml:"viewBox,attr"`
	Title  string `xml:"title"`
	Groups []struct {
		Label string `xml:"label,attr"`
		Paths []struct {
			D      string `xml:"d,attr"`
			Stroke string `xml:"stroke,attr"`
			Dash   string `xml:"stroke-dasharray,attr"`
			Title  string `xml:"title"`
		} `xml:"path"`
		Words []struct {
			Turn string `xml:"transform,attr"`
			Text string `xml:",chardata"`
		} `xml:"text"`
	} `xml:"g"`
}

// One unit is one millimetre (SVG 1.1, 7.10: width and height over the view
// box), lines to cut are black and whole, all else blue, layers are groups, and
// words turn with their piece.
func TestDrawing(t *testing.T) {
	turned := geom.Translate(geom.Vec{X: 300, Y: 200}).Mul(geom.Rotate(math.Pi))
	pieces := []tile.Placed{{Piece: square("Front <1>"), At: geom.Identity()}, {Piece: square("Back"), At: turned}}
	var b bytes.Buffer
	if err := Write(&b, pieces, Options{Title: "Lantern cloak", Layer: "Always"}); err != nil {
		t.Fatal(err)
	}
	var f file
	if err := xml.Unmarshal(b.Bytes(), &f); err != nil {
		t.Fatal(err)
	}
	// From (0, 0) to (300, 200), and 5 mm all round.
	if f.Width != "310mm" || f.Height != "210mm" || f.Box != "-5 -5 310 210" || f.Title != "Lantern cloak" {
		t.Errorf("%+v", f)
	}
	if len(f.Groups) != 2 || f.Groups[0].Label != "Size 48" || f.Groups[1].Label != "Always" {
		t.Fatalf("groups %+v", f.Groups)
	}
	cut, marks := f.Groups[0].Paths, f.Groups[1].Paths
	if len(cut) != 2 || cut[0].Stroke != "#000000" || cut[0].Dash != "" || cut[0].Title != "Front <1>" || !strings.HasSuffix(cut[1].D, "Z") {
		t.Errorf("to cut: %+v", cut)
	}
	if len(marks) != 2 || marks[0].Stroke != "#0000ff" || marks[0].Dash != "8 3" {
		t.Errorf("marks: %+v", marks)
	}
	for i, want := range []string{"translate(50,50) rotate(90)", "translate(250,150) rotate(270)"} {
		if w := f.Groups[1].Words[i]; w.Turn != want {
			t.Errorf("the words %q stand at %s, want %s", w.Text, w.Turn, want)
		}
	}
	// The first corner of the turned square.
	first, _, _ := strings.Cut(strings.TrimPrefix(cut[1].D, "M"), " ")
	x, y, _ := strings.Cut(first, ",")
	px, err1 := strconv.ParseFloat(x, 64)
	py, err2 := strconv.ParseFloat(y, 64)
	if err := errors.Join(err1, err2); err != nil || geom.Pt(px, py).Dist(geom.Pt(300, 200)) > 1e-5 {
		t.Errorf("it begins at %s, %v", first, err)
	}
}

func TestRefusals(t *testing.T) {
	nowhere, thin, lost := square("Nowhere"), square("Thin"), square("Lost")
	nowhere.Strokes[1].Path = geom.Polyline(geom.Pt(math.NaN(), 0), geom.Pt(1, 1))
	thin.Strokes[0].Width = 0
	lost.Labels[0].Size = math.NaN()
	for _, p := range []printing.Piece{nowhere, thin, lost} {
		var b bytes.Buffer
		if err := Write(&b, []tile.Placed{{Piece: p, At: geom.Identity()}}, Options{}); err == nil || !strings.Contains(err.Error(), p.Name) || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", p.Name, err, b.Len())
		}
	}
	if err := Write(&bytes.Buffer{}, nil, Options{}); err != nil {
		t.Errorf("nothing to draw: %v", err)
	}
	full := errors.New("the disk is full")
	if err := Write(failing{full}, nil, Options{}); !errors.Is(err, full) {
		t.Errorf("onto a full disk: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
