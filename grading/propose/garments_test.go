package propose

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// corner is a corner of a made-up piece with the edge that starts there, drawn
// straight; step is by how much it moves from one size to the next.
type corner struct {
	at, step geom.Vec
	edge     string
	kind     model.EdgeKind
}

func c(x, y, dx, dy float64, edge string, kind ...model.EdgeKind) corner {
	return corner{geom.Vec{X: x, Y: y}, geom.Vec{X: dx, Y: dy}, edge, append(kind, model.Plain)[0]}
}

// made is a piece of straight edges in sizes 36 to 42, with 10 mm of allowance
// but at folds.
func made(name string, corners ...corner) model.Piece {
	q := model.Piece{ID: strings.ToLower(strings.ReplaceAll(name, " ", "-")), Name: name}
	for i, k := range corners {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprintf("p%d", i+1)})
		id := strings.ReplaceAll(k.edge, " ", "-")
		if id == "" {
			id = fmt.Sprintf("e%d", i+1)
		}
		e := model.Edge{ID: id, Name: k.edge, Kind: k.kind, Allowance: 10}
		if k.kind == model.Fold {
			e.Allowance = 0
		}
		q.Edges = append(q.Edges, e)
	}
	for s, size := range []string{"36", "38", "40", "42"} {
		o := model.Outline{Size: size}
		for i, k := range corners {
			next := corners[(i+1)%len(corners)]
			from, to := k.at.Add(k.step.Scale(float64(s))), next.at.Add(next.step.Scale(float64(s)))
			o.Edges = append(o.Edges, geom.Path{geom.Line(geom.Point(from), geom.Point(to))})
		}
		q.Nest = append(q.Nest, o)
	}
	return q
}

func pattern(t *testing.T, pieces ...model.Piece) model.Pattern {
	t.Helper()
	p := model.Pattern{Chart: chartOf(t, "en13402-women"), Pieces: pieces}
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	return p
}

// skirt is half a skirt, its fold at the left: 230 mm at the waist in size 36.
func skirt(name string) model.Piece {
	h := half(name)
	return made(h+" skirt",
		c(0, 0, 0, 0, "waistline"),
		c(230, 0, 10, 0, "side seam"),
		c(270, 600, 10, 5, "hem", model.Hem),
		c(0, 600, 0, 5, "centre "+h, model.Fold))
}

// garment is pieces and the links that are wanted of them.
type garment struct {
	pieces []model.Piece
	want   []string
}

func TestGarments(t *testing.T) {
	for name, g := range garments() {
		g.check(t, name)
	}
}

// check looks for the links of a garment.
func (g garment) check(t *testing.T, name string) {
	t.Helper()
	p := pattern(t, g.pieces...)
	var got []string
	for _, f := range Links(p) {
		got = append(got, terse(f.Link))
		t.Logf("%s: %s (misfit %.3f, sure %v)", name, f.Say(), f.Misfit, f.Sure)
	}
	slices.Sort(got)
	slices.Sort(g.want)
	if !slices.Equal(got, g.want) {
		t.Errorf("%s:\n got %s\nwant %s", name, strings.Join(got, "\n     "), strings.Join(g.want, "\n     "))
	}
}

func garments() map[string]garment {
	bodice := func(name string) model.Piece {
		return made(name,
			c(0, 80, 0, 0, "neckline"),
			c(70, 0, 2, 0, "shoulder"),
			c(190, 40, 4, 0, "armhole"),
			c(240, 220, 10, 2, "side seam"),
			c(230, 420, 10, 4, "waist seam"),
			c(0, 420, 0, 4, "centre "+half(name), model.Fold))
	}
	band := func(name string, long, grows float64, lower, upper string, ends ...model.EdgeKind) model.Piece {
		k := append(ends, model.Plain, model.Plain)
		return made(name, c(0, 0, 0, 0, upper), c(long, 0, grows, 0, "right end", k[1]), c(long, 60, grows, 0, lower), c(0, 60, 0, 0, "left end", k[0]))
	}
	// Stitched, half the waist is 2 x (230 - 10) and grows by 20 a size; half
	// the neckline is what its two slanting lines lose at corners of 10 mm.
	s := newSheet(model.Pattern{Pieces: []model.Piece{bodice("Front bodice")}}, 0)
	halfNeck := 2 * s.length("36", []int{0})
	growsNeck := 2*s.length("38", []int{0}) - halfNeck

	return map[string]garment{
		"skirt and half a band": {
			[]model.Piece{skirt("Front"), skirt("Back"), band("Waistband", 440+10, 20, "lower edge", "upper edge", model.Plain, model.Fold)},
			[]string{"back-skirt[side-seam]+ front-skirt[side-seam]+", "front-skirt[waistline]+ back-skirt[waistline]- waistband[lower-edge]-"},
		},
		"skirt and a whole band with 30 mm to button": {
			[]model.Piece{skirt("Front"), skirt("Back"), band("Waistband", 880+20+30, 40, "waist edge", "fold line")},
			[]string{"back-skirt[side-seam]+ front-skirt[side-seam]+", "front-skirt[waistline]+ back-skirt[waistline]- back-skirt[waistline]+ front-skirt[waistline]- waistband[waist-edge]-"},
		},
		"dress with a waist seam": {
			[]model.Piece{bodice("Front bodice"), bodice("Back bodice"), skirt("Front"), skirt("Back")},
			[]string{
				"front-bodice[shoulder]+ back-bodice[shoulder]+", "back-bodice[side-seam]+ front-bodice[side-seam]+",
				"back-skirt[side-seam]+ front-skirt[side-seam]+",
				"front-bodice[waist-seam]+ front-skirt[waistline]-", "back-bodice[waist-seam]+ back-skirt[waistline]-",
			},
		},
		"collar cut on the fold": {
			[]model.Piece{bodice("Front bodice"), bodice("Back bodice"), band("Collar", halfNeck+10, growsNeck, "neck edge", "outer edge", model.Plain, model.Fold)},
			[]string{
				"front-bodice[shoulder]+ back-bodice[shoulder]+", "back-bodice[side-seam]+ front-bodice[side-seam]+",
				"front-bodice[neckline]+ back-bodice[neckline]- collar[neck-edge]-",
			},
		},
		"princess seams": {
			[]model.Piece{
				made("Front", c(0, 0, 0, 0, "neckline"), c(90, 0, 3, 0, "princess seam"), c(100, 400, 4, 4, "hem", model.Hem), c(0, 400, 0, 4, "centre front", model.Fold)),
				made("Side front", c(0, 0, 0, 0, "armhole"), c(120, 0, 6, 0, "side seam"), c(120, 400, 6, 4, "hem", model.Hem), c(-10, 400, -1, 4, "princess seam")),
			},
			[]string{"front[princess-seam]+ side-front[princess-seam]-"},
		},
		"back yoke": {
			[]model.Piece{
				made("Back yoke", c(0, 0, 0, 0, "neckline"), c(70, -10, 2, 0, "shoulder"), c(190, 20, 4, 0, "armhole"), c(195, 100, 5, 1, "yoke seam"), c(0, 100, 0, 1, "centre back", model.Fold)),
				made("Back", c(0, 100, 0, 1, "yoke seam"), c(195, 100, 5, 1, "armhole"), c(240, 220, 10, 2, "side seam"), c(230, 420, 10, 4, "hem", model.Hem), c(0, 420, 0, 4, "centre back", model.Fold)),
			},
			[]string{"back-yoke[yoke-seam]+ back[yoke-seam]-"},
		},
		"whole collar": {
			[]model.Piece{bodice("Front bodice"), bodice("Back bodice"), band("Collar", 2*halfNeck+20, 2*growsNeck, "neck edge", "outer edge")},
			[]string{
				"front-bodice[shoulder]+ back-bodice[shoulder]+", "back-bodice[side-seam]+ front-bodice[side-seam]+",
				"front-bodice[neckline]+ back-bodice[neckline]- back-bodice[neckline]+ front-bodice[neckline]- collar[neck-edge]-",
			},
		},
		"collar on a stand": {
			[]model.Piece{
				bodice("Front bodice"), bodice("Back bodice"),
				band("Collar stand", 2*halfNeck+20, 2*growsNeck, "neck edge", "upper edge"),
				band("Collar", 2*halfNeck-10, 2*growsNeck, "stand edge", "outer edge"),
			},
			[]string{
				"front-bodice[shoulder]+ back-bodice[shoulder]+", "back-bodice[side-seam]+ front-bodice[side-seam]+",
				"front-bodice[neckline]+ back-bodice[neckline]- back-bodice[neckline]+ front-bodice[neckline]- collar-stand[neck-edge]-",
				"collar-stand[upper-edge]+ collar[stand-edge]-",
			},
		},
		"trousers": {
			[]model.Piece{
				made("Trouser front", c(0, 0, 0, 0, "waistline"), c(200, 0, 8, 0, "outseam"), c(220, 1000, 8, 4, "hem", model.Hem), c(20, 1000, 0, 4, "inseam"), c(-40, 300, -2, 2, "crotch")),
				made("Trouser back", c(0, 0, 0, 0, "waistline"), c(220, 0, 8, 0, "outseam"), c(240, 1000, 8, 4, "hem", model.Hem), c(20, 1000, 0, 4, "inseam"), c(-40, 300, -2, 2, "crotch")),
			},
			[]string{"trouser-back[outseam]+ trouser-front[outseam]+", "trouser-front[inseam]+ trouser-back[inseam]+"},
		},
		"lining cut as the cloth, and its interfacing": {
			[]model.Piece{bodice("Front"), bodice("Front lining"), made("Front interfacing", c(0, 80, 0, 0, "neckline"), c(70, 0, 2, 0, "shoulder"), c(190, 40, 4, 0, "edge 3"), c(0, 200, 0, 0, "centre front", model.Fold))},
			[]string{
				"front[neckline shoulder armhole side-seam waist-seam]+ front-lining[neckline shoulder armhole side-seam waist-seam]+",
				"front[neckline shoulder]+ front-interfacing[neckline shoulder]+",
			},
		},
		"side dart that nobody marked": {
			[]model.Piece{
				made("Front", c(0, 80, 0, 0, "neckline"), c(70, 0, 2, 0, "shoulder"), c(190, 40, 4, 0, "armhole"),
					c(240, 220, 10, 2, "side seam"), c(240, 290, 10, 2, "side seam 2"), c(245, 304, 10, 2, "side seam 3"), c(240, 318, 10, 2, "side seam 4"),
					c(240, 450, 10, 4, "hem", model.Hem), c(0, 450, 0, 4, "centre front", model.Fold)),
				made("Back", c(0, 80, 0, 0, "neckline"), c(70, 0, 2, 0, "shoulder"), c(190, 40, 4, 0, "armhole"),
					c(240, 220, 10, 2, "side seam"), c(240, 422, 10, 4, "hem", model.Hem), c(0, 422, 0, 4, "centre back", model.Fold)),
			},
			[]string{"front[shoulder]+ back[shoulder]+", "back[side-seam]+ front[side-seam side-seam-4]+"},
		},
		"pocket and belt loops": {
			[]model.Piece{bodice("Front"), band("Pocket", 120, 0, "edge 3", "edge 1"), band("Belt loop", 120, 0, "edge 3", "edge 1")},
			nil,
		},
		"two without names": {
			[]model.Piece{
				made("A", c(0, 0, 0, 0, ""), c(100, 0, 2, 0, "edge 2"), c(100, 300, 2, 7, "edge 3"), c(0, 320, 0, 3, "edge 4")),
				made("B", c(0, 0, 0, 0, "edge 1"), c(70, 0, 5, 0, "edge 2"), c(70, 300, 5, 7, "edge 3"), c(0, 300, 0, 7, "edge 4")),
			},
			nil, // several edges of B are as long
		},
		"two without names that can only be meant for each other": {
			[]model.Piece{
				made("A", c(0, 0, 0, 0, ""), c(100, 0, 0, 0, "edge 2"), c(100, 300, 0, 7, "edge 3"), c(0, 320, 0, 7, "edge 4")),
				made("B", c(0, 0, 0, 0, "edge 1"), c(70, 0, 0, 0, "edge 2"), c(70, 314, 0, 7, "edge 3"), c(0, 300, 0, 7, "edge 4")),
			},
			[]string{"a[edge-2]+ b[edge-4]-"},
		},
	}
}

// terse is a link in short: the leaders, then the follower, + along and -
// against their outlines.
func terse(l model.Link) string {
	var out []string
	for _, s := range append(l.Leads(), l.Follow) {
		way := "+"
		if s.Reverse {
			way = "-"
		}
		out = append(out, fmt.Sprintf("%s[%s]%s", s.Piece, strings.Join(s.Edges, " "), way))
	}
	return strings.Join(out, " ")
}
