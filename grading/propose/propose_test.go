package propose

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

func chartOf(t testing.TB, id string) model.SizeChart {
	t.Helper()
	c, ok := sizechart.ByID(id)
	if !ok {
		t.Fatalf("no chart %s", id)
	}
	return c
}

func demos(t testing.TB) map[string]model.Pattern {
	t.Helper()
	blouse, err := draft.Blouse(chartOf(t, "en13402-women"), []string{"36", "38", "40", "42"})
	if err != nil {
		t.Fatal(err)
	}
	waistcoat, err := draft.Waistcoat(chartOf(t, "us-misses"), []string{"12", "14", "16", "18"})
	if err != nil {
		t.Fatal(err)
	}
	return map[string]model.Pattern{"blouse": blouse, "waistcoat": waistcoat}
}

// promises is links as what they promise: which edges, walked which way by each
// other. It does not count which end a seam is walked from, nor whether edges
// that follow on each other follow in one link or several.
func promises(links []model.Link) []string {
	together := map[string][]string{}
	for _, l := range links {
		if l.Kind == model.Sewn {
			key := "sewn " + walked(l)
			together[key] = nil
			continue
		}
		way := "along"
		if l.Lead.Reverse != l.Follow.Reverse {
			way = "against"
		}
		key := fmt.Sprintf("%s follows %s %s", l.Follow.Piece, l.Lead.Piece, way)
		together[key] = append(together[key], l.Lead.Edges...)
		for _, e := range l.Follow.Edges {
			together[key] = append(together[key], "/"+e)
		}
	}
	var out []string
	for k, v := range together {
		slices.Sort(v)
		out = append(out, k+" "+strings.Join(v, " "))
	}
	slices.Sort(out)
	return out
}

func walked(l model.Link) string {
	if l.Lead.Reverse && len(l.And) == 0 {
		l.Lead, l.Follow = turn(l.Lead), turn(l.Follow)
	}
	var b strings.Builder
	for _, s := range append(l.Leads(), l.Follow) {
		fmt.Fprintf(&b, "%s %v %v; ", s.Piece, s.Edges, s.Reverse)
	}
	return b.String()
}

func turn(s model.Stretch) model.Stretch {
	s.Edges = slices.Clone(s.Edges)
	slices.Reverse(s.Edges)
	s.Reverse = !s.Reverse
	return s
}

func linksOf(found []Proposal) []model.Link {
	var out []model.Link
	for _, f := range found {
		out = append(out, f.Link)
	}
	return out
}

func compare(t *testing.T, name string, found []Proposal, want []model.Link) {
	t.Helper()
	got, wanted := promises(linksOf(found)), promises(want)
	for _, w := range wanted {
		if !slices.Contains(got, w) {
			t.Errorf("%s: not found: %s", name, w)
		}
	}
	for _, g := range got {
		if !slices.Contains(wanted, g) {
			t.Errorf("%s: not there: %s", name, g)
		}
	}
}

// shaken is p with every joint of its printed lines moved by up to mm across
// and along, as a hand that traces shakes, and the handles with it.
func shaken(p model.Pattern, mm float64, seed uint64) model.Pattern {
	rnd := rand.New(rand.NewPCG(seed, 1))
	by := func() geom.Vec { return geom.Vec{X: mm * (2*rnd.Float64() - 1), Y: mm * (2*rnd.Float64() - 1)} }
	p.Pieces = slices.Clone(p.Pieces)
	for i, q := range p.Pieces {
		nest := slices.Clone(q.Nest)
		for k, o := range nest {
			nest[k].Edges = shakenRing(o.Edges, by)
		}
		p.Pieces[i].Nest = nest
	}
	return p
}

func shakenRing(edges []geom.Path, by func() geom.Vec) []geom.Path {
	out := make([]geom.Path, len(edges))
	first := by()
	from := first
	for k, e := range edges {
		out[k] = slices.Clone(e)
		for i := range out[k] {
			to := by()
			if k == len(edges)-1 && i == len(e)-1 {
				to = first
			}
			c := &out[k][i]
			c.P0, c.P1, c.P2, c.P3 = c.P0.Add(from), c.P1.Add(from), c.P2.Add(to), c.P3.Add(to)
			from = to
		}
	}
	return out
}

// Lines drawn by a hand that is off by 0.3 mm say the same, as often as tried.
func TestShakenLinksAreFoundAgain(t *testing.T) {
	for name, p := range demos(t) {
		want := p.Links
		p.Links = nil
		for seed := range uint64(20) {
			q := shaken(p, 0.3, seed)
			if err := q.Validate(); err != nil {
				t.Fatal(err)
			}
			compare(t, fmt.Sprintf("%s, hand %d", name, seed), Links(q), want)
		}
	}
}

// What is linked is not proposed again, and what the links leave is.
func TestLinkedEdgesAreLeftAlone(t *testing.T) {
	for name, p := range demos(t) {
		if found := Links(p); len(found) > 0 {
			t.Errorf("%s: %q is proposed although all is linked", name, found[0].Say())
		}
		all := p.Links
		for i, l := range all {
			p.Links = slices.Delete(slices.Clone(all), i, i+1)
			compare(t, fmt.Sprintf("%s without %s", name, l.ID), Links(p), []model.Link{l})
		}
	}
}

// Every link the demos declare is found again from names and print, in its
// direction, and nothing else.
func TestDemosLinksAreFoundAgain(t *testing.T) {
	for name, p := range demos(t) {
		want := p.Links
		p.Links = nil
		found := Links(p)
		compare(t, name, found, want)
		for _, f := range found {
			t.Logf("%s: %s (misfit %.3f, sure %v)", name, f.Say(), f.Misfit, f.Sure)
			if !f.Sure {
				t.Errorf("%s: not sure of %q", name, f.Say())
			}
		}
	}
}
