package edit

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

func waistcoat(t *testing.T) model.Pattern {
	t.Helper()
	c, _ := sizechart.ByID("us-misses")
	p, err := draft.Waistcoat(c, []string{"12", "14", "16"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// went lists, by piece and grade point, how far an edit moved the graded line.
func went(t *testing.T, before, after model.Pattern) map[string]geom.Vec {
	t.Helper()
	a, b := graded(t, before), graded(t, after)
	out := map[string]geom.Vec{}
	for i, q := range before.Pieces {
		for k, g := range q.Points {
			if v := b.Pieces[i].Edges[k].Start().Sub(a.Pieces[i].Edges[k].Start()); v.Len() > 1e-9 {
				out[q.ID+", "+g.Name] = v
			}
		}
	}
	return out
}

// Each style change moves the points it is about by its amount, on every piece
// that has them, along the edge it goes along, and no others; facings go along
// by their links.
func TestStyleChangesMoveTheirPoints(t *testing.T) {
	const by = 7.0
	blouse := made(t, blouse(t), Place(7))
	waistcoat := made(t, waistcoat(t), Place(8))
	for _, c := range []struct {
		p    model.Pattern
		kind StyleKind
		want map[string]string // point: the edge it goes along, > into it or < straight back from it
	}{
		{blouse, NarrowerShoulder, map[string]string{"front, shoulder tip": ">shoulder", "back, shoulder tip": ">shoulder"}},
		{blouse, WiderShoulder, map[string]string{"front, shoulder tip": "<shoulder", "back, shoulder tip": "<shoulder"}},
		{blouse, WiderNeckline, map[string]string{"front, neck point": ">shoulder by the neck", "back, neck point": ">shoulder by the neck"}},
		{blouse, DeeperNeckline, map[string]string{
			"front, front edge neck": ">front edge", "front, centre front neck": ">front edge", "back, centre back neck": ">centre back",
		}},
		{blouse, LowerUnderarm, map[string]string{
			"front, underarm": ">side above the dart", "back, underarm": ">side seam",
			"sleeve, back underarm": ">back sleeve seam", "sleeve, front underarm": ">front sleeve seam",
		}},
		{blouse, HigherUnderarm, map[string]string{
			"front, underarm": "<side above the dart", "back, underarm": "<side seam",
			"sleeve, back underarm": "<back sleeve seam", "sleeve, front underarm": "<front sleeve seam",
		}},
		{waistcoat, NarrowerShoulder, map[string]string{"front, shoulder tip": ">shoulder", "back, shoulder tip": ">shoulder"}},
		{waistcoat, DeeperNeckline, map[string]string{"front, foot of the V": ">front edge", "back, centre back neck": ">centre back"}},
	} {
		t.Run(c.p.Name+" "+string(c.kind), func(t *testing.T) {
			after := made(t, c.p, Style(c.kind, by, graded(t, c.p)))
			moved := went(t, c.p, after)
			for name, edge := range c.want {
				piece, point, _ := strings.Cut(name, ", ")
				dir := intoEdge(t, c.p, piece, point, edge[1:])
				if edge[0] == '<' {
					dir = dir.Scale(-1)
				}
				if d := moved[name].Sub(dir.Scale(by)).Len(); d > 1e-6 {
					t.Errorf("%s went %v, %g mm off %g mm along the %s", name, moved[name], d, by, edge[1:])
				}
				if d := math.Abs(moved[name].Len() - by); d > 1e-9 {
					t.Errorf("%s went %g mm too far", name, d)
				}
				delete(moved, name)
			}
			for name, v := range moved {
				if !strings.Contains(name, "facing") {
					t.Errorf("%s went %v as well", name, v)
				}
			}
			more := made(t, after, Style(c.kind, by, graded(t, after)))
			if all := Corrections(more); len(all) != 1 || all[0].What != string(c.kind)+", "+amount(c.p, 2*by) {
				t.Errorf("twice over: %q", listed(all))
			}
		})
	}
}

// intoEdge is the direction in which a graded edge leaves its end that is
// nearer to a grade point.
func intoEdge(t *testing.T, p model.Pattern, piece, point, edge string) geom.Vec {
	t.Helper()
	i := p.PieceIndex(piece)
	line := graded(t, p).Pieces[i].Edges
	k := slices.IndexFunc(p.Pieces[i].Points, func(g model.GradePoint) bool { return g.Name == point })
	j := slices.IndexFunc(p.Pieces[i].Edges, func(e model.Edge) bool { return e.Name == edge })
	if k < 0 || j < 0 {
		t.Fatalf("%s has no %s or no %s", piece, point, edge)
	}
	at := line[k].Start()
	if line[j].End().Dist(at) < line[j].Start().Dist(at) {
		return line[j].Reverse().StartDir()
	}
	return line[j].StartDir()
}

// A facing keeps the neckline it follows, to 0.01 mm, through a style change.
func TestFacingsFollowAStyleChange(t *testing.T) {
	for _, kind := range []StyleKind{WiderNeckline, DeeperNeckline} {
		p := made(t, blouse(t), Place(7))
		p = made(t, p, Style(kind, 9, graded(t, p)))
		r := graded(t, p)
		checked := 0
		for _, l := range p.Links {
			if l.Kind != model.SameLine || !strings.Contains(l.Follow.Piece, "facing") {
				continue
			}
			lead, follow := stretchLine(p, r, l.Lead), stretchLine(p, r, l.Follow)
			shift := follow.Start().Sub(lead.Start())
			for i := range 21 {
				at := follow[len(follow)*i/21].At(0.5)
				if _, _, d := lead.Move(shift).Nearest(at, 1e-6); d > 0.01 {
					t.Errorf("%s: the facing of link %s is %.3f mm off", kind, l.ID, d)
				}
			}
			checked++
		}
		if checked == 0 || len(r.Unlinked) > 0 {
			t.Errorf("%d facings checked, unlinked %v", checked, r.Unlinked)
		}
	}
}

func stretchLine(p model.Pattern, r grading.Result, s model.Stretch) geom.Path {
	i := p.PieceIndex(s.Piece)
	var out geom.Path
	for _, e := range s.Edges {
		line := r.Pieces[i].Edges[p.Pieces[i].EdgeIndex(e)]
		if s.Reverse {
			line = line.Reverse()
		}
		out = append(out, line...)
	}
	return out
}

func TestStyleChangesThatCannotBe(t *testing.T) {
	p := blouse(t)
	r := graded(t, p)
	q, id := front(t, p)
	for _, c := range []struct {
		name string
		p    model.Pattern
		e    func(model.Pattern) (model.Pattern, error)
		says string
	}{
		{"locked", made(t, p, LockPoint(q.ID, id("shoulder tip"), true)), Style(NarrowerShoulder, 5, r), "locked"},
		{"too far", p, Style(NarrowerShoulder, 400, r), "less room"},
		{"nothing", p, Style(NarrowerShoulder, 0, r), "above 0"},
		{"below nothing", p, Style(NarrowerShoulder, -3, r), "above 0"},
		{"no number", p, Style(NarrowerShoulder, math.NaN(), r), "above 0"},
		{"unknown", p, Style("Longer tail", 5, r), "above 0"},
		{"not graded", p, Style(NarrowerShoulder, 5, grading.Result{}), "not graded"},
		{"no such points", nameless(p), Style(LowerUnderarm, 5, r), "no piece has"},
	} {
		out, err := c.e(c.p)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
		if fmt.Sprint(Corrections(out)) != fmt.Sprint(Corrections(c.p)) {
			t.Errorf("%s: half of it was done", c.name)
		}
	}
	for _, k := range Styles {
		if _, ok := styleMoves[k]; !ok || len(Styles) != len(styleMoves) {
			t.Errorf("%s is listed and not made, or the other way round", k)
		}
	}
}

func nameless(p model.Pattern) model.Pattern {
	for i := range p.Pieces {
		p = p.WithPiece(i, func(q model.Piece) model.Piece {
			q.Points = append([]model.GradePoint(nil), q.Points...)
			for k := range q.Points {
				q.Points[k].Name = ""
			}
			return q
		})
	}
	return p
}
