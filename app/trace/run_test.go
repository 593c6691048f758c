package trace_test

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// clickable is a pattern with the demo scan on it, and the scan's lines.
func clickable(t testing.TB) (model.Pattern, trace.Sheet) {
	t.Helper()
	_, chart := printed(t)
	p := model.Pattern{Chart: chart, Pictures: []model.Picture{{ID: "photo-1", File: "photo-1.jpg", PerMM: 5.9}}}
	return p, trace.Sheet{Lines: hand(t).Lines, PerMM: [2]float64{5.906, 5.906}}
}

// list is the corners of a printed size, each clicked off by a sixth of a mm, as
// a clicks file has them; the shoulder is said to be straight, as the sizes lie
// 2 mm apart there.
func list(o model.Outline) string {
	var out []string
	for i, e := range o.Edges {
		at := e.Start().Add(geom.Vec{X: 0.15, Y: 0.1}.Scale(float64(1 - 2*(i%2))))
		out = append(out, fmt.Sprintf(`{"at":[%.2f,%.2f],"straight":%v}`, at.X, at.Y, i == 1))
	}
	return "[" + strings.Join(out, ",") + "]"
}

func read(t testing.TB, text string) trace.Clicks {
	t.Helper()
	c, err := trace.ReadClicks(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The demo scan traced by clicks, the largest two sizes proposed and put
// right where a corner is said: the piece is on the Shelf as it was printed,
// with its names and marks, and nothing is left on the way.
func TestAScanTracedByClicks(t *testing.T) {
	q, _ := printed(t)
	p, sheet := clickable(t)
	n := q.Nest
	near, last, corner := n[2].Edges[1].Start(), n[3].Edges[1].Start(), n[3].Edges[2].Start()
	text := fmt.Sprintf(`{"pieces":[{"name":"Facing","cut":2,"sizes":[
		{"size":%q,"corners":%s},{"size":%q,"corners":%s},{"size":%q,"propose":true,"corners":[{"corner":2,"at":[%.2f,%.2f]}]},
		{"size":%q,"propose":true,"corners":[{"corner":3,"at":[%.2f,%.2f]},{"corner":2,"at":[%.2f,%.2f]}]}],
		"edges":[{"edge":2,"name":"shoulder","allowance":"1 cm"}],
		"lines":[{"kind":"grain","from":[40,60],"to":[40,90]}],
		"notches":[{"at":[%.2f,%.2f],"size":%q}]}]}`,
		n[0].Size, list(n[0]), n[1].Size, list(n[1]), n[2].Size, near.X, near.Y, n[3].Size, corner.X, corner.Y, last.X, last.Y,
		q.Nest[0].Edges[1].Start().Lerp(q.Nest[0].Edges[1].End(), 0.5).X, q.Nest[0].Edges[1].Start().Lerp(q.Nest[0].Edges[1].End(), 0.5).Y, n[0].Size)
	got, says, err := read(t, text).Trace(context.Background(), p, "photo-1", sheet)
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Tracings) != 0 || len(got.Pieces) != 1 {
		t.Fatalf("%d tracings are left, %d pieces", len(got.Tracings), len(got.Pieces))
	}
	piece := got.Pieces[0]
	if piece.Name != "Facing" || piece.Cut != 2 || piece.Picture != "photo-1" || len(piece.Lines) != 1 || len(piece.Notches) != 1 {
		t.Errorf("the piece is %q, cut %d, of %s, %d lines, %d notches", piece.Name, piece.Cut, piece.Picture, len(piece.Lines), len(piece.Notches))
	}
	if e := piece.Edges[1]; e.Name != "shoulder" || e.Allowance != 10 {
		t.Errorf("edge 2 is %+v", e)
	}
	for i, o := range piece.Nest {
		if o.Size != n[i].Size {
			t.Fatalf("size %d is %s", i, o.Size)
		}
		for j, e := range o.Edges {
			if d := e.Start().Dist(n[i].Edges[j].Start()); d > 0.5 {
				t.Errorf("size %s: corner %d lies %.2f mm off", o.Size, j+1, d)
			}
		}
		if d := worst(o.Edges[3], n[i].Edges[3]); d > 0.15 {
			t.Errorf("size %s: its centre lies %.2f mm off", o.Size, d)
		}
	}
	for _, s := range says {
		if !strings.HasPrefix(s, "Facing, ") {
			t.Errorf("a doubt says %q", s)
		}
	}
}

// Places in pixels are the same places.
func TestClicksInPixels(t *testing.T) {
	q, _ := printed(t)
	p, sheet := clickable(t)
	sheet.PerMM = [2]float64{4, 8}
	var corners [][2]float64
	for _, e := range q.Nest[3].Edges {
		corners = append(corners, [2]float64{4 * e.Start().X, 8 * e.Start().Y})
	}
	b, err := json.Marshal(corners)
	if err != nil {
		t.Fatal(err)
	}
	c := read(t, fmt.Sprintf(`{"unit":"px","pieces":[{"sizes":[{"size":%q,"corners":%s}]}]}`, q.Nest[3].Size, b))
	got, _, err := c.Trace(context.Background(), p, "photo-1", sheet)
	if err != nil {
		t.Fatal(err)
	}
	if d := worst(got.Pieces[0].Nest[0].Edges[3], q.Nest[3].Edges[3]); d > 0.2 || got.Pieces[0].Name != "Piece 1" {
		t.Errorf("%s lies %.2f mm off", got.Pieces[0].Name, d)
	}
}

// One size and typed gaps; an edge on the fold and one by way of a point, both
// whatever is printed.
func TestOneSizeAndTypedGaps(t *testing.T) {
	p, _ := clickable(t)
	c := read(t, `{"pieces":[{"name":"Cuff","sizes":[{"size":"38","corners":[{"at":[10,10],"fold":true},[10,60],{"at":[90,60],"via":[[95,35]],"straight":true},[90,10]]}],
		"edges":[{"edge":1,"name":"centre"}],
		"gaps":[{"corner":3,"across":"5 mm","along":"-1/8 in"},{"corner":4,"across":"5 mm"}]}]}`)
	got, _, err := c.Trace(context.Background(), p, "photo-1", trace.Sheet{PerMM: [2]float64{1, 1}})
	if err != nil {
		t.Fatal(err)
	}
	q := got.Pieces[0]
	if q.Edges[0].Kind != model.Fold || q.Edges[0].Name != "centre" || len(q.Nest[0].Edges[2]) != 2 {
		t.Errorf("the piece is %+v", q.Edges)
	}
	if len(q.Gaps) != 2 || q.Gaps[0].Across != 5 || q.Gaps[0].Along != -25.4/8 {
		t.Errorf("the gaps are %+v", q.Gaps)
	}
}

func TestClicksThatCannotBeTraced(t *testing.T) {
	p, sheet := clickable(t)
	piece := func(sizes, more string) string {
		return `{"pieces":[{"name":"Cuff","sizes":[` + sizes + `]` + more + `}]}`
	}
	line := func(size, corners string) string { return `{"size":"` + size + `","corners":` + corners + `}` }
	four, five := `[[10,10],[10,60],[90,60],[90,10]]`, `[[10,10],[10,60],[50,62],[90,60],[90,10]]`
	for text, want := range map[string]string{
		piece(line("99", four), ""):                                                                                         "tracing Cuff, size 99 is not on the chart",
		piece(line("38", four)+`,{"size":"40","propose":true}`, ""):                                                         "tracing Cuff, size 40 cannot be proposed",
		piece(line("38", four)+","+line("40", five), ""):                                                                    "size 40 has 5 corners and size 38 has 4",
		piece(line("38", four), `,"notches":[{"at":[50,35],"size":"38"}]`):                                                  "a notch lies",
		piece(line("38", `[{"at":[10,10],"fold":true},[10,60],[90,60],[90,10]]`), `,"gaps":[{"corner":1,"across":"5 mm"}]`): "gap of corner 1",
	} {
		sheet.Lines = nil
		got, _, err := read(t, text).Trace(context.Background(), p, "photo-1", sheet)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s\n  gives %v, want %q", text, err, want)
		}
		if len(got.Pieces) != 0 {
			t.Errorf("%s: something was traced", text)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, _, err := read(t, piece(line("38", four), "")).Trace(ctx, p, "photo-1", sheet); err == nil {
		t.Error("tracing goes on once it is cancelled")
	}
	if _, _, err := read(t, piece(line("38", four), "")).Trace(context.Background(), p, "other", sheet); err == nil {
		t.Error("a piece is traced off no picture")
	}
}
