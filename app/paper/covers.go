package paper

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
	"quarterstep/model/trace/target"
)

// stripLong is how long a strip is at most, in mm: that of an A4 sheet.
const stripLong = 297.0

// spare is what a cover is drawn larger by, each way, in mm: paper cut askew,
// and the shadow beside it.
const spare = 3.0

// outline is a strip or card as it is cut out, in mm from its middle.
func (p part) outline() geom.Box {
	wide, high := target.StripWidth, stripLong
	switch {
	case p.sheet && p.set == target.Corners:
		wide, high = 2*target.CardSide, 2*target.CardSide
	case p.sheet:
		wide = target.Parts * target.StripWidth
	case p.set == target.Corners:
		wide, high = target.CardSide, target.CardSide
	}
	return geom.Box{Min: geom.Pt(-wide/2, -high/2), Max: geom.Pt(wide/2, high/2)}.Grow(spare)
}

// cover is what a strip or card hides of a photo. The places of its group count
// from its middle.
func (p part) cover(m straight.Map) straight.Cover {
	from, to := make([]geom.Point, len(p.group)), make([]geom.Point, len(p.group))
	for i, k := range p.group {
		from[i], to[i] = k.MM, m.MM(k.Pixel)
	}
	t, _ := geom.RigidFit(from, to)
	return around(m, p.outline(), t)
}

// around is a box of mm, laid by t, in a photo.
func around(m straight.Map, b geom.Box, t geom.Affine) straight.Cover {
	var out straight.Cover
	for _, mm := range []geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
		px := m.Pixel(t.Apply(mm))
		if !px.Finite() {
			return nil
		}
		out = append(out, px)
	}
	return out
}

// coversOf are what strips, cards or a sheet of them hide of a photo.
func coversOf(m straight.Map, parts []part) []straight.Cover {
	var out []straight.Cover
	for _, p := range parts {
		out = append(out, p.cover(m))
	}
	return out
}

// singleCovers are what targets cut out one by one, or cards of which only the
// middles are seen, hide of a photo.
func singleCovers(m straight.Map, s Sighting) []straight.Cover {
	const rim = 1.3 // of its radius that is white about a target
	var out []straight.Cover
	for _, f := range s.Found {
		spot, ok := target.SpotOf(f.Code)
		if !ok {
			continue
		}
		half := spot.Radius*rim + spare
		if spot.Middle() {
			half = target.CardSide / 2
		}
		b := geom.Box{Min: geom.Pt(-half, -half), Max: geom.Pt(half, half)}
		out = append(out, around(m, b, geom.Translate(geom.Vec(m.MM(f.Centre)))))
	}
	return out
}

// pageCover is what a page beside the piece hides of a photo, by its corners in
// any order.
func pageCover(corners [4]geom.Point) straight.Cover {
	mid := geom.BoxOf(corners[:]...).Centre()
	angle := func(p geom.Point) float64 { return math.Atan2(p.Y-mid.Y, p.X-mid.X) }
	slices.SortFunc(corners[:], func(a, b geom.Point) int { return cmp.Compare(angle(a), angle(b)) })
	return corners[:]
}
