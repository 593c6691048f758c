package main

import (
	"encoding/json"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// facing is the piece of the demo blouse on the demo scan, in mm of the scan,
// which ui/demoscan_test.go draws with 12 mm of paper round it.
func facing(t *testing.T) model.Piece {
	t.Helper()
	p, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	var q model.Piece
	for _, k := range p.Pieces {
		if strings.Contains(strings.ToLower(k.Name), "facing") {
			q = k
		}
	}
	if len(q.Nest) != 4 {
		t.Fatalf("the demo has no facing in four sizes")
	}
	var box geom.Box
	for _, o := range q.Nest {
		for _, e := range o.Edges {
			box = box.Union(e.Bounds())
		}
	}
	for i := range q.Nest {
		for j, e := range q.Nest[i].Edges {
			q.Nest[i].Edges[j] = e.Move(geom.Pt(12, 12).Sub(box.Min))
		}
	}
	return q
}

// clicked is a clicks file with the corners of all sizes of a piece, each a
// quarter of a mm off, its shoulders said to be straight.
func clicked(t *testing.T, q model.Piece, more map[string]any) string {
	t.Helper()
	var sizes []any
	for _, o := range q.Nest {
		var corners []any
		for i, e := range o.Edges {
			at := [2]float64{e.Start().X + 0.2*float64(i%2), e.Start().Y + 0.15}
			corners = append(corners, map[string]any{"at": at, "straight": i == 1})
		}
		sizes = append(sizes, map[string]any{"size": o.Size, "corners": corners})
	}
	piece := map[string]any{"name": "Front facing", "cut": 2, "sizes": sizes}
	for k, v := range more {
		piece[k] = v
	}
	b, err := json.Marshal(map[string]any{"pieces": []any{piece}})
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// From a scan to a graded PDF without a window: made flat, traced by clicks in
// four sizes, checked, graded past the printed sizes with its picture kept, and
// printed.
func TestFromAScanToAPDF(t *testing.T) {
	folder := t.TempDir()
	file := func(name string) string { return filepath.Join(folder, name) }
	q := facing(t)
	write(t, file("clicks.json"), clicked(t, q, map[string]any{
		"edges": []any{map[string]any{"edge": 4, "name": "centre front", "kind": "fold"}},
		"lines": []any{map[string]any{"kind": "grain", "from": [2]float64{40, 60}, "to": [2]float64{40, 90}}},
	}))
	done(t, "straighten", demoScan, "-o", file("f.png"))
	out := done(t, "trace", file("f.png"), "--clicks", file("clicks.json"), "--chart", women, "-o", file("p.qstep"))
	if !strings.HasPrefix(out, "Front facing: printed in sizes 34, 36, 38, 40; 4 grade points.\n") {
		t.Errorf("trace says %q", out)
	}
	f, err := app.OpenFile(file("p.qstep"))
	if err != nil {
		t.Fatal(err)
	}
	got := f.Pattern.Pieces[0]
	if len(f.Pictures) != 1 || len(f.Pattern.Pictures) != 1 || len(f.Pictures[f.Pattern.Pictures[0].File]) == 0 || got.Picture != f.Pattern.Pictures[0].ID {
		t.Errorf("of pictures it has %+v and %d files", f.Pattern.Pictures, len(f.Pictures))
	}
	if size := f.Pattern.Chart.Sizes[int(f.Pattern.Target.Place)].Name; size != "40" {
		t.Errorf("it is aimed at size %s, not at the largest printed", size)
	}
	const tol = 0.4 // mm: clicks are off by a quarter
	for i, o := range got.Nest {
		for _, at := range o.Edges[1].Flatten(0.05) {
			if _, _, d := q.Nest[i].Edges[1].Nearest(at, 1e-3); d > tol {
				t.Fatalf("size %s: the shoulder lies %.2f mm off at %v", o.Size, d, at)
			}
		}
	}
	done(t, "check", file("p.qstep"))
	done(t, "grade", file("p.qstep"), "--to", "46", "-o", file("q.qstep"))
	if g, err := app.OpenFile(file("q.qstep")); err != nil || len(g.Pictures) != 1 {
		t.Errorf("graded it has %d pictures (%v)", len(g.Pictures), err)
	}
	out = done(t, "print", file("q.qstep"), "--size", "46", "--paper", "a4", "-o", file("o.pdf"))
	if n, _ := pages(t, read(t, file("o.pdf"))); n < 1 || !strings.Contains(out, "pages.") {
		t.Errorf("print says %q, of %d pages", out, n)
	}
}

// Several files of clicks make several pieces; one size and typed gaps are
// graded by their steps.
func TestTraceSeveralFiles(t *testing.T) {
	folder := t.TempDir()
	file := func(name string) string { return filepath.Join(folder, name) }
	write(t, file("a.json"), `{"pieces":[{"name":"Cuff","sizes":[{"size":"38","corners":[{"at":[10,10],"straight":true},{"at":[10,60],"straight":true},{"at":[90,60],"straight":true},{"at":[90,10],"straight":true}]}],
		"gaps":[{"corner":3,"across":"4 mm"},{"corner":4,"across":"4 mm"}]}]}`)
	write(t, file("b.json"), clicked(t, facing(t), nil))
	out := done(t, "trace", demoScan, "--clicks", file("a.json"), "--clicks", file("b.json"), "--chart", women, "--no-links", "-o", file("p.qstep"))
	if !strings.Contains(out, "Cuff: printed in size 38 only") || !strings.Contains(out, "Front facing: printed in sizes 34,") {
		t.Errorf("trace says %q", out)
	}
	p, err := app.Open(file("p.qstep"))
	if err != nil {
		t.Fatal(err)
	}
	p.Target = model.Target{Place: p.Target.Place + 1, Method: model.BySteps} // 42, two sizes up
	r, err := app.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Pieces[0].Edges[2].Start(); math.Abs(got.X-98) > 0.05 || math.Abs(got.Y-60) > 0.05 {
		t.Errorf("in size 42 corner 3 is at %v, not two gaps of 4 mm across", got)
	}
}

func TestTraceRefusals(t *testing.T) {
	folder := t.TempDir()
	file := func(name string) string { return filepath.Join(folder, name) }
	drawPNG(t, file("photo.png"), 300, 300, func(x, y float64) float64 { return 200 })
	write(t, file("ok.json"), clicked(t, facing(t), nil))
	write(t, file("cut.json"), `{"pieces":[`)
	write(t, file("off.json"), `{"pieces":[{"name":"Cuff","sizes":[{"size":"99","corners":[[10,10],[10,60],[90,60]]}]}]}`)
	for _, c := range []struct {
		code int
		want string
		args []string
	}{
		{exitUsage, "--clicks is missing", []string{demoScan, "--chart", women, "-o", "OUT"}},
		{exitUsage, "--chart is missing", []string{demoScan, "--clicks", file("ok.json"), "-o", "OUT"}},
		{exitUsage, "wants 1 file", []string{"--clicks", file("ok.json"), "--chart", women, "-o", "OUT"}},
		{exitInput, "gone.json is not there", []string{demoScan, "--clicks", file("gone.json"), "--chart", women, "-o", "OUT"}},
		{exitInput, "cut.json: reading the clicks: the file is cut short", []string{demoScan, "--clicks", file("cut.json"), "--chart", women, "-o", "OUT"}},
		{exitInput, "tracing Cuff, size 99 is not on the chart", []string{demoScan, "--clicks", file("off.json"), "--chart", women, "-o", "OUT"}},
		{exitInput, "photo.png is not flat and to scale yet", []string{file("photo.png"), "--clicks", file("ok.json"), "--chart", women, "-o", "OUT"}},
	} {
		refused(t, folder, c.code, c.want, append([]string{"trace"}, c.args...)...)
	}
	if s := qstep("help", "trace"); s.code != exitDone || !strings.Contains(s.out, `"propose": true`) {
		t.Error("help says nothing of trace")
	}
}
