package paper

import (
	"context"

	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
)

// CheckCard holds a picture made flat to a bank card that lies on the paper, by
// its four corners in px, in any order, and says what it tells. It is a rough
// check and changes nothing.
func (p *Photo) CheckCard(ctx context.Context, s Straight, corners [4]geom.Point) (string, error) {
	full, done, err := p.hold(true)
	if err != nil {
		return "", err
	}
	defer done()
	d, err := straight.CheckCard(ctx, full.Gray, full.Color, s.Map, corners)
	if err != nil {
		return "", err
	}
	return d.SayCard(), nil
}
