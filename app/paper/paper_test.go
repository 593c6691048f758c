package paper

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/model/trace/straight"
)

// paperPiece is a small piece in two sizes, 9 mm apart and more: an outline with
// one curve, in mm of the paper.
func paperPiece(size int) []geom.Path {
	d := 9 * float64(size)
	a, b, c, e := geom.Pt(30-d/2, 30-d/2), geom.Pt(130+d, 36-d/2), geom.Pt(150+d, 110+d), geom.Pt(30-d/2, 110+d)
	return []geom.Path{
		geom.Polyline(a, b),
		{{P0: b, P1: geom.Pt(124+d, 62), P2: geom.Pt(132+d, 84+d), P3: c}},
		geom.Polyline(c, e),
		geom.Polyline(e, a),
	}
}

// scanned draws the paper, its grain line with the piece, 190 by 150 mm as a scanner would at so many pixels to
// the millimetre: lines 0.4 mm wide, grey where a pixel is part of one.
func scanned(perMM float64) *image.Gray {
	g := image.NewGray(image.Rect(0, 0, int(190*perMM), int(150*perMM)))
	for i := range g.Pix {
		g.Pix[i] = 245
	}
	const half = 0.2
	lines := [][]geom.Path{paperPiece(0), paperPiece(1), {geom.Polyline(geom.Pt(95, 52), geom.Pt(95, 95))}}
	for _, edges := range lines {
		for _, e := range edges {
			pts := e.Flatten(0.005)
			for k := 1; k < len(pts); k++ {
				stroke(g, pts[k-1], pts[k], half, perMM)
			}
		}
	}
	return g
}

// stroke darkens the pixels within half mm of a straight line.
func stroke(g *image.Gray, a, b geom.Point, half, perMM float64) {
	box := geom.BoxOf(a, b).Grow(half + 1)
	v := b.Sub(a)
	for y := int(box.Min.Y * perMM); y <= int(box.Max.Y*perMM); y++ {
		for x := int(box.Min.X * perMM); x <= int(box.Max.X*perMM); x++ {
			p := geom.Pt((float64(x)+0.5)/perMM, (float64(y)+0.5)/perMM)
			t := min(max(p.Sub(a).Dot(v)/v.Dot(v), 0), 1)
			in := min(max((half-p.Dist(a.Add(v.Scale(t))))*perMM+0.5, 0), 1)
			dark := uint8(245 - 205*in)
			if dark < g.GrayAt(x, y).Y {
				g.SetGray(x, y, color.Gray{Y: dark})
			}
		}
	}
}

func pngFile(t *testing.T, g image.Image) string {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, g); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "scan.png")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// From a scan to a piece: scaled by a length drawn on it, made flat, kept and
// read again, its lines followed from corner to corner in two sizes, it is the
// piece that was drawn, within 0.15 mm.
func TestFromAScanToAPiece(t *testing.T) {
	const perMM = 5.906 // 150 to the inch
	photo, err := Open(pngFile(t, scanned(perMM)))
	if err != nil {
		t.Fatal(err)
	}
	px := func(p geom.Point) geom.Point { return geom.Pt(p.X*perMM, p.Y*perMM) }
	ctx := context.Background()
	s, err := photo.Straighten(ctx, Request{Reference: Scan, Unit: "cm", Known: []straight.Known{
		{From: px(geom.Pt(30, 30)), To: px(geom.Pt(30, 110)), MM: 80},
		{From: px(geom.Pt(30, 110)), To: px(geom.Pt(150, 110)), MM: 120},
	}})
	if err != nil {
		t.Fatal(err)
	}
	flat, err := photo.Flatten(ctx, s, nil)
	if err != nil {
		t.Fatal(err)
	}
	if w, h := flat.Size(); math.Abs(w-190) > 1 || math.Abs(h-150) > 1 {
		t.Errorf("the paper is %.1f by %.1f mm, not 190 by 150", w, h)
	}
	kept, err := Kept(flat.File, flat.PerMM)
	if err != nil {
		t.Fatal(err)
	}
	lines, err := kept.Lines(ctx, nil)
	if err != nil {
		t.Fatal(err)
	}
	p := model.Pattern{Chart: model.SizeChart{Sizes: []model.ChartSize{{Name: "38"}, {Name: "40"}}}}
	do := func(f func(model.Pattern) (model.Pattern, error)) {
		t.Helper()
		var err error
		if p, err = f(p); err != nil {
			t.Fatal(err)
		}
	}
	do(edit.AddPicture(model.Picture{ID: "f1", File: "f1.jpg", PerMM: flat.PerMM}))
	do(edit.StartTracing("t1", "f1", "Pocket", 2))
	for size, name := range []string{"38", "40"} {
		edges := paperPiece(size)
		for j := range edges {
			var along geom.Path
			if j > 0 {
				along = followed(t, lines, edges[j-1])
			}
			do(edit.AddCorner("t1", name, edges[j].Start(), along))
		}
		do(edit.CloseSize("t1", name, followed(t, lines, edges[3])))
	}
	do(edit.FinishTracing("t1", "pocket"))
	for size, o := range p.Pieces[0].Nest {
		for j, e := range o.Edges {
			for _, at := range e.Flatten(0.05) {
				if _, _, d := paperPiece(size)[j].Nearest(at, 1e-3); d > 0.15 {
					t.Fatalf("size %s, edge %d lies %.2f mm off the line that was drawn", o.Size, j+1, d)
				}
			}
		}
	}
}

func followed(t *testing.T, f *follow.Field, e geom.Path) geom.Path {
	t.Helper()
	got, err := f.Follow(e.Start(), e.End(), nil, follow.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return got.Path
}

func TestPicturesThatCannotBeUsed(t *testing.T) {
	folder := t.TempDir()
	heic := filepath.Join(folder, "a.heic")
	if err := os.WriteFile(heic, append([]byte{0, 0, 0, 24}, "ftypheic\x00\x00\x00\x00mif1heic"...), 0o600); err != nil {
		t.Fatal(err)
	}
	cut := filepath.Join(folder, "cut.png")
	var b bytes.Buffer
	if err := png.Encode(&b, scanned(2)); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(cut, b.Bytes()[:b.Len()/2], 0o600); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		heic: "JPEG", cut: "cut.png", filepath.Join(folder, "gone.jpg"): "is not there", folder: "is a folder",
	} {
		if _, err := Open(path); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", path, err)
		}
	}
	photo, err := Open(pngFile(t, scanned(5)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := photo.Straighten(context.Background(), Request{}); err == nil {
		t.Error("a picture was made flat by nothing")
	}
	if _, err := photo.Straighten(context.Background(), Request{Reference: Scan}); err == nil {
		t.Error("a scan without a scale was scaled")
	}
	if _, err := Kept([]byte("not a picture"), 5); err == nil {
		t.Error("a spoilt picture was read")
	}
	if !IsPicture("A.JPG") || IsPicture("nest.svg") {
		t.Error("pictures are told by their names")
	}
}

// A lens is remembered for the photos of its camera, and only its newest.
func TestLensesAreRemembered(t *testing.T) {
	a := straight.KnownLens{Camera: "phone", Focal35: 26, K1: 0.01, Scale: 1}
	b := straight.KnownLens{Camera: "phone", Focal35: 26, K1: 0.02, Scale: 1}
	c := straight.KnownLens{Camera: "other", Focal35: 26, K1: 0.03, Scale: 1}
	all := Lenses(Lenses(Lenses(nil, a), c), b)
	if len(all) != 2 || all[0].K1 != 0.03 || all[1].K1 != 0.02 {
		t.Errorf("remembered are %+v", all)
	}
	p := Photo{}
	p.Picture.Camera, p.Picture.Focal35 = "phone", 26
	p.Picture.Gray = image.NewGray(image.Rect(0, 0, 40, 30))
	if l := p.lensFor(all); l == nil || l.K1 != 0.02 {
		t.Errorf("the photo gets %+v", l)
	}
	p.Picture.Camera = "new"
	if l := p.lensFor(all); l != nil {
		t.Errorf("an unknown camera gets %+v", l)
	}
}
