package scene

import (
	"slices"

	"quarterstep/model/geom"
)

// Rooms is where there was room for words last, by the ID of the piece: looking for it
// takes long where a line has thousands of curves.
type Rooms map[string]roomFound

// roomFound is the roomiest place within a line and beside what is in the way.
type roomFound struct {
	outline   geom.Path
	obstacles [][]geom.Point
	at        geom.Point
	room      float64
}

// roomiest is the function of that name, of the last time where nothing has changed.
func (r Rooms) roomiest(piece string, outline geom.Path, obstacles [][]geom.Point) (geom.Point, float64) {
	if was, ok := r[piece]; ok && slices.Equal(was.outline, outline) && slices.EqualFunc(was.obstacles, obstacles, slices.Equal[[]geom.Point]) {
		return was.at, was.room
	}
	at, room := roomiest(outline, obstacles)
	if r != nil {
		r[piece] = roomFound{outline, obstacles, at, room}
	}
	return at, room
}
