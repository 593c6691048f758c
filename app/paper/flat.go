package paper

import (
	"bytes"
	"context"
	"image"
	"image/draw"
	"image/jpeg"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/model/trace/straight"
)

const (
	// finestPerMM is how many pixels to a millimetre are kept at most: a printed
	// line of 0.3 mm is two pixels wide, and its middle is found to a tenth.
	finestPerMM = 6
	// plainPerMM is the fewest that lines are followed on.
	plainPerMM = 4
	// coarsestPerMM is what lines can just be followed on.
	coarsestPerMM = 3.5
	// mostKept is how many pixels of one picture are kept at most.
	mostKept = 40_000_000
	quality  = 90
)

// Flat is a picture made flat: pixel (0, 0) begins at the upper left of the
// paper it shows, from where the tracing counts in mm.
type Flat struct {
	Colour *image.RGBA
	PerMM  float64
	From   geom.Point // mm of the reference at its upper left corner
	File   []byte     // as it is kept with the project: JPEG
	grays  *image.Gray
}

// Flatten makes a picture flat.
func (p *Photo) Flatten(ctx context.Context, s Straight, progress func(float64)) (Flat, error) {
	out := Flat{PerMM: p.fineness(s), From: s.Bounds.Min}
	if out.PerMM < coarsestPerMM {
		return Flat{}, words.Error("the picture shows too much paper at once to trace from: take it in parts")
	}
	full, done, err := p.hold(true)
	if err != nil {
		return Flat{}, err
	}
	defer done()
	if out.Colour, err = straight.FlattenColour(ctx, full.Color, s.Map, s.Bounds, out.PerMM, progress); err != nil {
		return Flat{}, err
	}
	return out.Keep()
}

// Keep is the flat picture with its File made of its colours.
func (f Flat) Keep() (Flat, error) {
	var file bytes.Buffer
	if err := jpeg.Encode(&file, f.Colour, &jpeg.Options{Quality: quality}); err != nil {
		return Flat{}, words.Errorf("keeping the picture: %w", err)
	}
	f.File, f.grays = file.Bytes(), f.gray()
	return f, nil
}

// fineness is how many pixels to a millimetre the flat picture gets: as many as
// the picture has in its middle, no finer than is of use, and not so many that
// it cannot be kept; a whole number to the metre, as files say it.
func (p *Photo) fineness(s Straight) float64 {
	size := p.Picture.Size()
	per := s.Map.PerMM(geom.Pt(float64(size.X)/2, float64(size.Y)/2))
	per = min(max(per, plainPerMM), finestPerMM)
	per = min(per, math.Sqrt(mostKept/(s.Bounds.Width()*s.Bounds.Height())))
	const rounding = 1e-6
	return math.Floor(per*1000+rounding) / 1000
}

// Kept reads a flat picture as it was kept with the project.
func Kept(file []byte, perMM float64) (Flat, error) {
	img, err := jpeg.Decode(bytes.NewReader(file))
	if err != nil {
		return Flat{}, words.Errorf("the picture kept with the pattern is spoilt: %w", err)
	}
	f := Flat{Colour: rgba(img), PerMM: perMM, File: file}
	f.grays = f.gray()
	return f, nil
}

func rgba(img image.Image) *image.RGBA {
	b := img.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Rect, img, b.Min, draw.Src)
	return out
}

// gray is the flat picture in greys.
func (f Flat) gray() *image.Gray {
	b := f.Colour.Rect
	out := image.NewGray(b)
	for i := range out.Pix {
		c := f.Colour.Pix[4*i : 4*i+3 : 4*i+3]
		// ITU-R BT.601 luma, as JPEG's own.
		out.Pix[i] = uint8((299*int(c[0]) + 587*int(c[1]) + 114*int(c[2]) + 500) / 1000)
	}
	return out
}

// Size is the paper the flat picture shows, in mm.
func (f Flat) Size() (across, down float64) {
	return float64(f.Colour.Rect.Dx()) / f.PerMM, float64(f.Colour.Rect.Dy()) / f.PerMM
}

// Lines makes ready to follow the printed lines of a flat picture: places are
// in mm from its upper left corner. It needs no Colour where the picture was kept.
func (f Flat) Lines(ctx context.Context, progress func(float64)) (*follow.Field, error) {
	grays := f.grays
	if grays == nil {
		grays = f.gray()
	}
	return follow.Prepare(ctx, follow.Sheet{Gray: grays, PerMM: f.PerMM}, progress)
}
