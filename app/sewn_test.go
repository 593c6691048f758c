package app

import (
	"math"
	"path/filepath"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/propose"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// Every nest at hand that nobody drew with the program, with the links found in
// it, each seam let give way by what is first offered for it: at every size from
// three below the print to eight above, each seam has the ease of its print
// within 0.01 mm on the stitching line, measured anew on the line drawn by
// geom.OffsetOutline, or it is said why not; and no follower lies farther than
// 0.01 mm from its leader.
func TestNestsAreSewnTogetherInEverySize(t *testing.T) {
	files, err := filepath.Glob("../testdata/nests/*.svg")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d nests: %v", len(files), err)
	}
	for _, file := range files {
		b, err := BringInByAnyChart(file, sizechart.Builtin())
		if err != nil {
			t.Fatal(err)
		}
		p := b.Pattern
		for _, l := range propose.Links(p) {
			p.Links = append(p.Links, l.Link)
		}
		var g grading.Grader
		printed := p.Pieces[0].Nest
		first, _ := p.Chart.Place(printed[0].Size)
		last, _ := p.Chart.Place(printed[len(printed)-1].Size)
		giveWay(t, &g, &p, float64(min(last+4, len(p.Chart.Sizes)-1)))
		solved, said := 0, 0
		for place := max(first-3, 0); place <= min(last+8, len(p.Chart.Sizes)-1); place++ {
			p.Target.Place = float64(place)
			r, err := g.Grade(p)
			if err != nil {
				t.Fatal(err)
			}
			for _, u := range r.Unlinked {
				t.Errorf("%s, size %s: a link %s", p.Name, r.Size, u.Why)
			}
			for k, l := range p.Links {
				if l.Kind == model.SameLine {
					if d := apart(t, p, r, l); d > 0.01 {
						t.Errorf("%s, size %s: a follower lies %.4f mm off its leader", p.Name, r.Size, d)
					}
					continue
				}
				s := seamOf(t, r, l.ID)
				switch {
				case s.Why != "":
					said++
				case p.Links[k].Refit == model.NoRefit:
				default:
					solved++
					if ease := stitchedEase(t, p, r, l); math.Abs(ease-s.Aim) > 0.01 {
						t.Errorf("%s, size %s, %s: %.4f mm of ease, wanted %.4f", p.Name, r.Size, l.ID, ease, s.Aim)
					}
				}
			}
		}
		t.Logf("%s: %d links, %d seams solved, %d said", filepath.Base(file), len(p.Links), solved, said)
		if solved < 5*said || solved == 0 {
			t.Errorf("%s: %d seams solved, of %d it is said why not", filepath.Base(file), solved, said)
		}
	}
}

// giveWay lets every seam of p that is off at a place give way by the first
// remedy.
func giveWay(t *testing.T, g *grading.Grader, p *model.Pattern, place float64) {
	t.Helper()
	p.Target.Place = place
	r, err := g.Grade(*p)
	if err != nil {
		t.Fatal(err)
	}
	for k, l := range p.Links {
		if l.Kind != model.Sewn {
			continue
		}
		if all := grading.Remedies(*p, r, l); len(all) > 0 {
			p.Links[k].Refit = all[0].Refit
		}
	}
}

func seamOf(t *testing.T, r grading.Result, id string) grading.Seam {
	t.Helper()
	for _, s := range r.Seams {
		if s.Link == id {
			return s
		}
	}
	t.Fatalf("nothing is known of seam %s", id)
	return grading.Seam{}
}

// stitchedEase is a link's ease on stitching lines drawn for the purpose.
func stitchedEase(t *testing.T, p model.Pattern, r grading.Result, l model.Link) float64 {
	t.Helper()
	long := func(s model.Stretch) float64 {
		i := p.PieceIndex(s.Piece)
		in := make([]float64, len(p.Pieces[i].Edges))
		for j, e := range p.Pieces[i].Edges {
			in[j] = -e.Allowance
		}
		lines, err := geom.OffsetOutline(r.Pieces[i].Edges, in, 1e-4)
		if err != nil {
			t.Fatal(err)
		}
		var total float64
		for _, id := range s.Edges {
			mm, err := lines[p.Pieces[i].EdgeIndex(id)].Length(1e-5)
			if err != nil {
				t.Fatal(err)
			}
			total += mm
		}
		return total
	}
	ease := long(l.Follow)
	for _, s := range l.Leads() {
		ease -= long(s)
	}
	return ease
}

// apart is how far a follower lies from its leader moved as a stiff sheet.
func apart(t *testing.T, p model.Pattern, r grading.Result, l model.Link) float64 {
	t.Helper()
	along := func(s model.Stretch) []geom.Point {
		i := p.PieceIndex(s.Piece)
		var line geom.Path
		for _, id := range s.Edges {
			e := r.Pieces[i].Edges[p.Pieces[i].EdgeIndex(id)]
			if s.Reverse {
				e = e.Reverse()
			}
			line = append(line, e...)
		}
		m, err := geom.Measure(line, 1e-5)
		if err != nil {
			t.Fatal(err)
		}
		out := make([]geom.Point, 41)
		for k := range out {
			out[k] = m.At(m.Length() * float64(k) / 40)
		}
		return out
	}
	from, to := along(l.Lead), along(l.Follow)
	lay, _ := geom.RigidFit(from, to)
	worst := 0.0
	for k := range from {
		worst = math.Max(worst, lay.Apply(from[k]).Dist(to[k]))
	}
	return worst
}
