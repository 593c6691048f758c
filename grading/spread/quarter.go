package spread

import (
	"math"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

// bodyPoints is the grade points of a bodice quarter that its cut lines go by.
type bodyPoints struct{ centre, neck, tip, arm, waist, hem int }

var errBodice = words.Fault("name its grade points first: neck point, shoulder tip, underarm, and the waist or hem at the side")

func (p *proposal) bodyPoints() (bodyPoints, error) {
	if !p.hasCentre() {
		return bodyPoints{}, errCentre
	}
	b := bodyPoints{
		centre: p.point("centre", "neck"), neck: p.point("neck", "point"), tip: p.point("shoulder", "tip"), arm: p.point("underarm"),
		waist: p.point("waist", "-centre", "-dart"), hem: p.point("side", "hem"),
	}
	if b.waist < 0 {
		b.waist = b.hem
	}
	if b.hem < 0 {
		b.hem = b.waist
	}
	if min(b.centre, b.neck, b.tip, b.arm, b.waist) < 0 {
		return b, errBodice
	}
	return b, nil
}

// bodice proposes lines through the neck, the shoulder and the armhole for a
// quarter of the bust, and two for the back waist length, one in the armhole and
// one between bust and waist.
func (p *proposal) bodice() error {
	b, err := p.bodyPoints()
	if err != nil {
		return err
	}
	centre, neckline := p.place(b.centre)
	neck, _ := p.place(b.neck)
	tip, shoulder := p.place(b.tip)
	_, bust := p.place(b.arm)
	_, waist := p.place(b.waist)
	if err := p.add(row{words.T("neck"), quarterStatus, model.Bust, neckShare}, p.upright(centre, neck, bust)...); err != nil {
		return err
	}
	if err := p.add(row{words.T("shoulder"), quarterStatus, model.Bust, shoulderShare}, p.upright(neck, tip, bust)...); err != nil {
		return err
	}
	if err := p.sideCut(b); err != nil {
		return err
	}
	r := p.lengthRow()
	r.name = words.T("armhole, for the length")
	if err := p.add(r, p.level(max(neckline, shoulder), bust, neck)...); err != nil {
		return err
	}
	r.name = words.T("waist, for the length")
	return p.add(r, p.level(bust, waist, neck)...)
}

// lengthRow is each of two lines that share the back waist length.
func (p *proposal) lengthRow() row {
	if p.chart.Has(model.BackWaist) {
		return row{"", lengthStatus, model.BackWaist, 0.5}
	}
	return row{"", stepStatus, model.Steps, lengthPerSize}
}

// sideCut proposes the line from the armhole to the hem. Where the side is cut
// in farther than the armhole, no line along the centre reaches the hem; then it
// runs aslant, from the armhole half way to the underarm to just inside the side
// at the hem, and its share is that much less that the part slides across by the
// whole of it.
func (p *proposal) sideCut(b bodyPoints) error {
	r := row{words.T("armhole"), quarterStatus, model.Bust, sideShare}
	arm, bust := p.place(b.arm)
	hem, low := p.place(b.hem)
	hollow := p.narrowest(b.tip, b.arm)
	side := p.narrowest(b.arm, b.hem)
	if side-hollow > 10 {
		return p.add(r, p.upright(hollow, side, bust+10)...)
	}
	from := p.at((hollow+arm)/2, bust)
	to := p.at(hem-(arm-hollow)/4, low)
	dir := to.Sub(from)
	r.share *= math.Abs(dir.Unit().Dot(p.centre))
	return p.add(r, [2]geom.Point{from, to})
}

// narrowest is the least mm across of the outline between two grade points, the
// way round that does not pass the centre.
func (p *proposal) narrowest(i, k int) float64 {
	path := p.between(p.start[i], p.start[k])
	if p.stillIn(p.start[i], p.start[k]) > 0 {
		path = p.between(p.start[k], p.start[i])
	}
	least := math.Inf(1)
	for _, q := range path.Flatten(0.1) {
		least = min(least, geom.Vec(q).Dot(p.side))
	}
	return least
}

var errSkirt = words.Fault("name its grade points first: centre waist, side waist and side hem")

// skirt proposes two lines from the waist to the hem that share a quarter of the
// hip.
func (p *proposal) skirt() error {
	if !p.hasCentre() {
		return errCentre
	}
	in, out, hem := p.point("centre", "waist"), p.point("side", "waist"), p.point("side", "hem")
	if min(in, out, hem) < 0 {
		return errSkirt
	}
	centre, _ := p.place(in)
	side, top := p.place(out)
	_, low := p.place(hem)
	middle := (top + low) / 2
	r := row{words.T("waist and hem, by the centre"), quarterStatus, model.Hip, quarter / 2}
	if err := p.add(r, p.upright(centre, (centre+side)/2, middle)...); err != nil {
		return err
	}
	r.name = words.T("waist and hem, by the side")
	return p.add(r, p.upright((centre+side)/2, side, middle)...)
}

var errSleeve = words.Fault("name its grade points first: crown and the two underarms")

// sleeve proposes a line on either side of the crown, which share a quarter of
// the bust's step for the upper arm, and one across the cap for its height.
func (p *proposal) sleeve() error {
	crown := p.point("crown")
	var arms []int
	for i := range p.piece.Points {
		if i != crown && strings.Contains(glossary.English(p.piece.Points[i].Name), "underarm") {
			arms = append(arms, i)
		}
	}
	if len(arms) != 2 {
		return errSleeve
	}
	middle, top := p.place(crown)
	for _, i := range arms {
		out, low := p.place(i)
		r := row{words.F("half of the sleeve at the %s", p.piece.Points[i].Name), quarterStatus, model.Bust, quarter / 2}
		if err := p.add(r, p.upright(middle, out, low+10)...); err != nil {
			return err
		}
	}
	_, low := p.place(arms[0])
	return p.add(row{words.T("cap, for its height"), stepStatus, model.Bust, capShare}, p.level(top, low, middle)...)
}
