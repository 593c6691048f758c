package draft

import (
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// garment is everything that makes a pattern of a chart.
type garment struct {
	name, note string
	unit       model.Unit
	parts      []part
	links      []model.Link
	columns    [][]int // how the parts lie on the Table
	draft      func(b body) ([]sheet, error)
}

// Drafted is one piece's cutting line at a place of the chart.
type Drafted struct {
	Piece string // piece ID
	Edges []geom.Path
}

// at drafts one place of the chart.
func (g garment) at(chart model.SizeChart, place float64) ([]Drafted, error) {
	sheets, err := g.sheets(chart, place)
	if err != nil {
		return nil, err
	}
	out := make([]Drafted, len(sheets))
	for i, s := range sheets {
		out[i] = Drafted{g.parts[i].id, s.edges}
	}
	return out, nil
}

func (g garment) sheets(chart model.SizeChart, place float64) ([]sheet, error) {
	b, err := bodyAt(chart, place)
	if err != nil {
		return nil, words.Errorf("drafting the %s: %w", g.name, err)
	}
	out, err := g.draft(b)
	if err != nil {
		return nil, words.Errorf("drafting the %s in size %s: %w", g.name, chart.NameAt(place), err)
	}
	return out, nil
}

// pattern drafts the named sizes as a printed nest, smallest first.
func (g garment) pattern(chart model.SizeChart, sizes []string) (model.Pattern, error) {
	if len(sizes) == 0 {
		return model.Pattern{}, words.Errorf("drafting the %s: name at least one size", g.name)
	}
	nests := make([][]sheet, len(g.parts))
	last := 0
	for _, size := range sizes {
		place, ok := chart.Place(size)
		if !ok {
			return model.Pattern{}, words.Errorf("drafting the %s: the chart %s has no size %s", g.name, chart.Name, size)
		}
		sheets, err := g.sheets(chart, float64(place))
		if err != nil {
			return model.Pattern{}, err
		}
		for k, s := range sheets {
			nests[k] = append(nests[k], s)
		}
		last = place
	}
	p := model.Pattern{Name: said()[g.name], Note: g.note, Unit: g.unit, Chart: chart, Links: g.links}
	p.Target.Place = float64(last)
	for k, part := range g.parts {
		p.Pieces = append(p.Pieces, part.piece(lengthMeasure(chart), sizes, nests[k]))
	}
	layOut(p.Pieces, g.columns)
	return p, nil
}

// layOut puts the pieces in columns side by side, a hand's breadth apart.
func layOut(pieces []model.Piece, columns [][]int) {
	const gap = 60
	x := 0.0
	for _, column := range columns {
		y, wide := 0.0, 0.0
		for _, k := range column {
			var box geom.Box
			for _, o := range pieces[k].Nest {
				for _, e := range o.Edges {
					box = box.Union(e.Bounds())
				}
			}
			pieces[k].At = geom.Vec{X: x - box.Min.X, Y: y - box.Min.Y}
			y += box.Height() + gap
			wide = max(wide, box.Width())
		}
		x += wide + gap
	}
}

// edges is a stretch of a piece by the names of its edges.
func edges(piece string, names ...string) model.Stretch {
	s := model.Stretch{Piece: piece}
	for _, n := range names {
		s.Edges = append(s.Edges, id(n))
	}
	return s
}

// backwards is the stretch walked against its outline.
func backwards(s model.Stretch) model.Stretch {
	s.Reverse = true
	return s
}

func sameLine(name string, lead, follow model.Stretch) model.Link {
	return model.Link{ID: name, Kind: model.SameLine, Lead: lead, Follow: follow}
}

func sewn(name string, lead, follow model.Stretch, ease float64) model.Link {
	return model.Link{ID: name, Kind: model.Sewn, Lead: lead, Follow: follow, Ease: ease, EaseFixed: true}
}
