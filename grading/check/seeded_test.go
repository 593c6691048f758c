package check_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/grading"
	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// change is an edit as the window makes it.
type change = func(model.Pattern) (model.Pattern, error)

// A fault is put in as a sewist would cause it: by an edit of the window, or in
// the drawing she brought in.
type fault struct {
	name  string
	of    func(*testing.T) model.Pattern
	by    []change
	codes string // what must be found, in alphabetical order, and nothing else
}

func blouseAt(place float64) func(*testing.T) model.Pattern {
	return func(t *testing.T) model.Pattern {
		return drafted(t, "en13402-women", draft.Blouse, place, "34", "36", "38", "40")
	}
}

func waistcoatAt(place float64) func(*testing.T) model.Pattern {
	return func(t *testing.T) model.Pattern {
		return drafted(t, "us-misses", draft.Waistcoat, place, "8", "10", "12", "14")
	}
}

func drafted(t *testing.T, chart string, draw func(model.SizeChart, []string) (model.Pattern, error), place float64, sizes ...string) model.Pattern {
	t.Helper()
	c, ok := sizechart.ByID(chart)
	if !ok {
		t.Fatal("no chart " + chart)
	}
	p, err := draw(c, sizes)
	if err != nil {
		t.Fatal(err)
	}
	p.Target.Place = place
	return p
}

// box is two plain pieces, 200 by 300 mm and 2 mm wider in the larger size, with
// straight edges; their sides are sewn together.
func box(place float64) func(*testing.T) model.Pattern {
	return func(*testing.T) model.Pattern {
		p := two()
		for i := range p.Pieces {
			p.Pieces[i].Nest[0].Edges, p.Pieces[i].Nest[1].Edges = oblong(200, 300), oblong(202, 302)
			p.Pieces[i].Edges[3].Kind = model.Fold
			p.Pieces[i].At = geom.Vec{X: 300 * float64(i)}
		}
		p.Links = []model.Link{join(model.Sewn)}
		p.Target.Place = place
		return p
	}
}

// plainBox is box without folds.
func plainBox(t *testing.T) model.Pattern {
	p := box(2)(t)
	for i := range p.Pieces {
		p.Pieces[i].Edges[3].Kind = model.Plain
	}
	return p
}

func oblong(wide, deep float64) []geom.Path {
	a, b, c, d := geom.Pt(0, 0), geom.Pt(wide, 0), geom.Pt(wide, deep), geom.Pt(0, deep)
	return []geom.Path{geom.Polyline(a, b), geom.Polyline(b, c), geom.Polyline(c, d), geom.Polyline(d, a)}
}

// redrawn changes a piece as it was brought in.
func redrawn(piece string, f func(model.Piece) model.Piece) change {
	return func(p model.Pattern) (model.Pattern, error) {
		return p.WithPiece(p.PieceIndex(piece), f), nil
	}
}

func inward(x, y float64) geom.Vec { return geom.Vec{X: x, Y: y} }

// turnedGrain draws the grain of one printed size askew.
func turnedGrain(size string, by float64) func(model.Piece) model.Piece {
	return func(q model.Piece) model.Piece {
		q.Lines = slices.Clone(q.Lines)
		for i, l := range q.Lines {
			if l.Kind != model.Grain {
				continue
			}
			l.Drawn = slices.Clone(l.Drawn)
			for j, d := range l.Drawn {
				if d.Size == size {
					l.Drawn[j].Path = d.Path.Transform(geom.Rotate(by))
				}
			}
			q.Lines[i] = l
		}
		return q
	}
}

// slidNotch draws the first notch of one printed size farther along its edge.
func slidNotch(size string, by float64) func(model.Piece) model.Piece {
	return func(q model.Piece) model.Piece {
		q.Notches = slices.Clone(q.Notches)
		n := &q.Notches[0]
		n.Spots = slices.Clone(n.Spots)
		for i := range n.Spots {
			if n.Spots[i].Size == size {
				n.Spots[i].S += by
			}
		}
		return q
	}
}

// scaled draws one printed size narrower, as a scan fed askew does.
func scaled(size string, by float64) func(model.Piece) model.Piece {
	return func(q model.Piece) model.Piece {
		q.Nest = slices.Clone(q.Nest)
		for i, o := range q.Nest {
			if o.Size != size {
				continue
			}
			o.Edges = slices.Clone(o.Edges)
			for j, e := range o.Edges {
				o.Edges[j] = e.Transform(geom.Affine{A: by, D: 1})
			}
			q.Nest[i] = o
		}
		return q
	}
}

// linked adds a link.
func linked(l model.Link) change {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Links = append(slices.Clone(p.Links), l)
		return p, nil
	}
}

func same(id string, lead, follow model.Stretch) model.Link {
	return model.Link{ID: id, Kind: model.SameLine, Lead: lead, Follow: follow}
}

func of(piece string, edges ...string) model.Stretch {
	return model.Stretch{Piece: piece, Edges: edges}
}

func once(q model.Piece) model.Piece {
	q.Nest = q.Nest[:1:1]
	return q
}

// lengthened puts length into one line of one piece alone.
func lengthened(piece, line string, by float64) change {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Lengths = append(slices.Clone(p.Lengths), model.Lengthening{
			ID: "longer", Name: "Above the waist", By: by, Lines: []model.PieceLine{{Piece: piece, Line: line}},
		})
		return p, nil
	}
}

func setLink(id string, f func(*model.Link)) change {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Links = slices.Clone(p.Links)
		for i := range p.Links {
			if p.Links[i].ID == id {
				f(&p.Links[i])
			}
		}
		return p, nil
	}
}

var faults = []fault{
	{"front side seam short at the underarm", blouseAt(5), []change{edit.MovePoint("front", "underarm", inward(0, 3))}, "seam"},
	{"back shoulder long", blouseAt(5), []change{edit.MovePoint("back", "neck-point", inward(-3, -1))}, "seam"},
	{"cap raised by hand", blouseAt(5), []change{edit.MovePoint("sleeve", "crown", inward(0, -9))}, "seam"},
	{"less ease wanted in the cap", blouseAt(5), []change{setLink("cap", func(l *model.Link) { l.Ease, l.Room = 5, 5 })}, "seam"},
	{"sleeve hem widened, the cuff not", blouseAt(5), []change{edit.MovePoint("sleeve", "front-hem", inward(6, 0))}, "seam"},
	{"side let down at the back hem", blouseAt(5), []change{edit.MovePoint("back", "side-hem", inward(0, 7))}, "seam uneven-hem"},
	{"side of the waistcoat let down", waistcoatAt(5), []change{edit.MovePoint("back", "side-hem", inward(0, 4))}, "seam"},
	{"centre back hem let down", blouseAt(5), []change{edit.MovePoint("back", "centre-back-hem", inward(0, 7))}, "uneven-hem"},
	{"kink at the centre front neck", blouseAt(5), []change{edit.MoveControl("front", "neckline", 1, inward(-4, 14))}, "kink"},
	{"kink at the side waist", blouseAt(5), []change{edit.MoveControl("back", "side-above-the-hip", 1, inward(8, 0))}, "kink"},
	{"side bends to and fro", box(2), []change{
		edit.MoveControl("f", "fside seam", 1, inward(5, 0)), edit.MoveControl("f", "fside seam", 2, inward(-5, 0)),
	}, "new-bend"},
	{"neckline off square at the fold", blouseAt(5), []change{edit.MoveControl("back", "neckline", 1, inward(0, 4))}, "off-square"},
	{"hem off square at the fold", blouseAt(5), []change{edit.MoveControl("back", "hem", 2, inward(0, 6))}, "off-square"},
	{"top bends over the side seam", plainBox, []change{
		edit.MoveControl("f", "ftop", 1, inward(0, 14)), edit.MoveControl("f", "ftop", 2, inward(0, 14)),
	}, "join"},
	{"armhole bends over the shoulder", blouseAt(5), []change{edit.MoveControl("back", "armhole", 1, inward(8, 0))}, "join new-bend seam"},
	{"fold moved in", blouseAt(5), []change{edit.MoveEdge("back-facing", "centre-back", inward(4, 0))}, "centre-moved"},
	{"grain of the largest size askew", blouseAt(5), []change{redrawn("sleeve", turnedGrain("40", 0.06))}, "grain-turned"},
	{"by steps where the chart grows", blouseAt(7), []change{edit.Place(8), edit.SetLimit("far", 4), edit.Method(model.BySteps)}, "by-steps ease"},
	{"four steps past the print", blouseAt(7), []change{edit.Place(8)}, "far"},
	{"waist let out at the side", waistcoatAt(5), []change{edit.MovePoint("front", "side-waist", inward(6, 0))}, "ease"},
	{"dart leg moved", blouseAt(5), []change{edit.MovePoint("front", "lower-dart-leg", inward(-4, 0))}, "dart-legs"},
	{"largest cuff drawn short", blouseAt(5), []change{redrawn("cuff", scaled("40", 0.96))}, "seam"},
	{"ease asked of a plain seam", blouseAt(5), []change{setLink("sleeve-seam", func(l *model.Link) { l.Ease, l.EaseFixed = 4, true })}, "seam"},
	{"front edge moved out", waistcoatAt(5), []change{edit.MoveEdge("front", "front-edge", inward(-5, 0))}, "centre-moved crosses-print"},
	{"sleeve seam longer at the back", blouseAt(5), []change{edit.MovePoint("sleeve", "back-hem", inward(0, 4))}, "seam"},
	{"front longer below the waist than the back", blouseAt(5), []change{lengthened("front", "lengthen-above-the-waist", 20)}, "length-one-sided seam"},
	{"double notch drawn astray in one size", blouseAt(5), []change{redrawn("sleeve", slidNotch("38", 8))}, "notch"},
	{"printed once", box(3), []change{redrawn("f", once), redrawn("b", once)}, "one-size"},
	{"an edge of a link is gone", box(2), []change{linked(same("x", of("f", "gone"), of("b", "btop")))}, "link"},
	{"pieces that follow each other", box(2), []change{
		linked(same("x", of("f", "ftop"), of("b", "btop"))), linked(same("y", of("b", "bhem"), of("f", "fhem"))),
	}, "link"},
	{"hem pulled through the top", box(2), []change{
		edit.MoveControl("f", "fhem", 1, inward(0, -500)), edit.MoveControl("f", "fhem", 2, inward(0, -500)),
	}, "crosses-itself"},
	{"edge pulled together", box(2), []change{edit.MovePoint("f", "fat side seam", inward(-205, 0))}, "edge-lost"},
	{"edge turned about", box(2), []change{edit.MovePoint("f", "fat side seam", inward(-230, 0))}, "crosses-itself edge-turned"},
	{"edge moved into the print", box(2), []change{edit.MovePoint("f", "fat hem", inward(-6, 0))}, "crosses-print"},
	{"allowances wider than the piece", box(2), []change{redrawn("f", func(q model.Piece) model.Piece {
		q.Edges = slices.Clone(q.Edges)
		for j := range q.Edges {
			q.Edges[j].Allowance = 20
		}
		return q
	}), edit.MovePoint("f", "fat side seam", inward(-170, 0)), edit.MovePoint("f", "fat hem", inward(-170, 0))}, "no-seam"},
	{"shifted in by more than there is", box(2), []change{edit.ShiftEdge("f", "fhem", -400)}, "unlaid"},
}

// Every fault is found by its own check and by no other.
func TestEveryFaultIsFoundAndNothingElse(t *testing.T) {
	if len(faults) < 30 {
		t.Errorf("only %d faults are put in", len(faults))
	}
	for _, f := range faults {
		p := f.of(t)
		if got := looks(t, p); got != "" {
			t.Errorf("%s: before the fault it finds %s", f.name, got)
			continue
		}
		for _, e := range f.by {
			var err error
			if p, err = e(p); err != nil {
				t.Fatalf("%s: %v", f.name, err)
			}
		}
		if got := looks(t, p); got != f.codes {
			t.Errorf("%s: found %q, want %q\n%s", f.name, got, f.codes, said(t, p))
		}
	}
}

// looks is the codes of what is found to look at, each once, in alphabetical
// order.
func looks(t *testing.T, p model.Pattern) string {
	t.Helper()
	codes := map[string]bool{}
	for _, f := range found(t, p) {
		codes[f.Code] = true
	}
	return strings.Join(slices.Sorted(maps.Keys(codes)), " ")
}

func said(t *testing.T, p model.Pattern) string {
	t.Helper()
	var b strings.Builder
	for _, f := range found(t, p) {
		b.WriteString("    " + f.Code + ": " + f.Say + "\n")
	}
	return b.String()
}

func found(t *testing.T, p model.Pattern) []check.Finding {
	t.Helper()
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	var out []check.Finding
	for _, f := range check.Findings(p, r) {
		if f.Look {
			out = append(out, f)
		}
	}
	return out
}

// The clean demos show nothing to look at, from three steps below their print to
// eight above, as far as their charts go, but that they are far past it.
func TestTheCleanDemosShowNothing(t *testing.T) {
	for _, draw := range []func(float64) func(*testing.T) model.Pattern{blouseAt, waistcoatAt} {
		p := draw(0)(t)
		first, _ := p.Chart.Place(p.Pieces[0].Nest[0].Size)
		last, _ := p.Chart.Place(p.Pieces[0].Nest[3].Size)
		for place := max(first-3, 0); place <= min(last+8, len(p.Chart.Sizes)-1); place++ {
			p.Target.Place = float64(place)
			want := ""
			if place > last+3 {
				want = "far"
			}
			if got := looks(t, p); got != want {
				t.Errorf("%s, size %s: found %q, want %q\n%s", p.Name, p.Chart.Sizes[place].Name, got, want, said(t, p))
			}
		}
	}
}
