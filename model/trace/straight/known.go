package straight

import (
	"image"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// KnownLens is a lens learnt from one photo, kept for later photos of the same
// camera. It is stored against the longer side of the picture as the sensor saw
// it, so that it serves other sizes and turns; a picture cropped to another
// shape is taken as cropped on its shorter sides, as cameras do.
type KnownLens struct {
	Camera  string     `json:"camera"`
	Focal35 float64    `json:"focal35"` // mm on the 35 mm frame, 0 unknown
	K1      float64    `json:"k1"`
	Off     [2]float64 `json:"off"`   // of its middle from the picture's, in longer sides, on the sensor
	Scale   float64    `json:"scale"` // in longer sides
}

// Plausible is an error, in words that go on after the lens, where no camera can
// have it.
func (k KnownLens) Plausible() error {
	in := func(v, most float64) bool { return math.Abs(v) <= most }
	switch {
	case k.Camera == "" || len(k.Camera) > longestCamera:
		return words.Error("it has no camera that can be")
	case !(k.Focal35 >= 0) || !in(k.Focal35, 5000):
		return words.Errorf("its focal length cannot be %v mm", k.Focal35)
	case !in(k.K1, 1) || !in(k.Off[0], 1) || !in(k.Off[1], 1):
		return words.Error("it bends more than a lens can")
	case !(k.Scale > 0.01) || !in(k.Scale, 100):
		return words.Errorf("its scale cannot be %v", k.Scale)
	}
	return nil
}

const longestCamera = 200 // bytes of its maker and model

// Turned takes a place of the displayed picture of that size to the sensor's
// picture, as picture.Turn.Stored does; nil leaves places as they are.
type Turned func(x, y float64, size image.Point) (sx, sy float64)

// Learn keeps what a photo of the given size told of its lens.
func Learn(camera string, focal35 float64, l Lens, size image.Point, turn Turned) KnownLens {
	long := longSide(size)
	off := onSensor(turn, l.Centre, size).Sub(onSensor(turn, middle(size), size))
	return KnownLens{
		Camera: camera, Focal35: focal35, K1: l.K1,
		Off: [2]float64{off.X / long, off.Y / long}, Scale: l.Scale / long,
	}
}

// For is the lens for a photo of the given size.
func (k KnownLens) For(size image.Point, turn Turned) Lens {
	long := longSide(size)
	c := middle(size)
	// The sensor's ways across and down, as displayed: quarter turns and mirrors
	// are undone by looking where they take the picture's own ways.
	o := onSensor(turn, c, size)
	x := onSensor(turn, c.Add(geom.Vec{X: 1}), size).Sub(o)
	y := onSensor(turn, c.Add(geom.Vec{Y: 1}), size).Sub(o)
	off := geom.Vec{X: k.Off[0], Y: k.Off[1]}
	return Lens{
		K1: k.K1, Scale: k.Scale * long,
		Centre: c.Add(geom.Vec{X: off.Dot(x), Y: off.Dot(y)}.Scale(long)),
	}
}

// Serves reports whether the lens is that of a photo: the same camera, and the
// same focal length within 2 %, as zooming changes it.
func (k KnownLens) Serves(camera string, focal35 float64) bool {
	if k.Camera == "" || k.Camera != camera || (k.Focal35 == 0) != (focal35 == 0) {
		return false
	}
	return math.Abs(k.Focal35-focal35) <= 0.02*focal35
}

func onSensor(turn Turned, p geom.Point, size image.Point) geom.Point {
	if turn == nil {
		return p
	}
	x, y := turn(p.X, p.Y, size)
	return geom.Pt(x, y)
}

func middle(size image.Point) geom.Point {
	return geom.Pt(float64(size.X)/2, float64(size.Y)/2)
}

func longSide(size image.Point) float64 { return float64(max(size.X, size.Y)) }
