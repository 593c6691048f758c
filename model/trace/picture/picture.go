package picture

import (
	"image"
	"io"

	"quarterstep/assets/words"
)

// MostPixels is the largest picture that is read. A 50-megapixel phone fits;
// the picture takes five bytes a pixel, about as much again while it is read.
const MostPixels = 60_000_000

// leastPixels is the shorter side that something can be traced from.
const leastPixels = 16

// Picture is a photo or scan as displayed.
type Picture struct {
	Gray    *image.Gray // what lines are followed on, at (0, 0)
	Color   *image.RGBA // what is shown, at (0, 0), without see-through places
	PerInch [2]float64  // pixels to the inch across and down, as the file claims; 0 unknown
	Camera  string      // maker and model, "" unknown
	Focal35 float64     // focal length in mm on the 35 mm frame, 0 unknown
	Format  string      // "JPEG", "PNG" or "TIFF"
	Turn    Turn        // how the stored pixels were turned to be displayed
	Extent  image.Point // pixels across and down as displayed; what Size says where Gray is left out
}

// Size is the picture's width and height in pixels, as displayed.
func (p Picture) Size() image.Point {
	if p.Gray == nil {
		return p.Extent
	}
	return p.Gray.Rect.Size()
}

// Unusable says why a file cannot be used, in one sentence for the sewist.
type Unusable struct{ Say string }

func (u Unusable) Error() string { return u.Say }

func unusable(say string) error { return Unusable{say} }

// said is what a file says of itself before its pixels are unpacked.
type said struct {
	size     image.Point // as stored
	negative bool        // unpacked, black and white come out swapped
	tags                 // its camera, turn and pixels to the inch
}

// Read reads the picture in the size bytes of r. Any error is an Unusable.
func Read(r io.ReaderAt, size int64) (Picture, error) { return unpacked(r, size, true) }

// ReadGray is Read without colours, which take four fifths of the memory.
func ReadGray(r io.ReaderAt, size int64) (Picture, error) { return unpacked(r, size, false) }

func unpacked(r io.ReaderAt, size int64, colours bool) (Picture, error) {
	f, err := sniff(r, size)
	if err != nil {
		return Picture{}, err
	}
	s, err := f.head(r, size)
	if err != nil {
		return Picture{}, err
	}
	if err := s.fits(); err != nil {
		return Picture{}, err
	}
	img, err := f.decode(io.NewSectionReader(r, 0, size))
	if err != nil {
		return Picture{}, f.broken(err)
	}
	if img.Bounds().Size() != s.size {
		return Picture{}, unusable(words.F("This %s says two different sizes of itself: save it again as JPEG or PNG.", f.name))
	}
	return s.picture(f.name, img, colours), nil
}

// fits refuses a picture too large or too small to trace.
func (s said) fits() error {
	w, h := s.size.X, s.size.Y
	if w <= 0 || h <= 0 {
		return unusable(words.T("The picture has no pixels: save it again as JPEG or PNG."))
	}
	if h > MostPixels/w {
		return unusable(words.F("The picture is %d by %d pixels; at most %d million fit: save it smaller.", w, h, MostPixels/1_000_000))
	}
	if min(w, h) < leastPixels {
		return unusable(words.F("The picture is only %d by %d pixels: take it again, larger.", w, h))
	}
	return nil
}

// picture turns the stored pixels to how they are displayed.
func (s said) picture(format string, img image.Image, colours bool) Picture {
	if g, ok := img.(*image.Gray); ok && s.negative {
		for i := range g.Pix {
			g.Pix[i] = 255 - g.Pix[i]
		}
	}
	var shown *image.RGBA
	if colours || !hasGreys(img) {
		shown = flatten(img)
	}
	p := Picture{
		Gray:    s.turn.gray(greys(img, shown)), // first, as what was unpacked may go then
		PerInch: s.perInch, Camera: s.camera, Focal35: s.focal35, Format: format, Turn: s.turn,
	}
	if p.Extent = p.Gray.Rect.Size(); colours {
		p.Color = s.turn.rgba(shown)
	}
	if s.turn.sideways() {
		p.PerInch[0], p.PerInch[1] = p.PerInch[1], p.PerInch[0]
	}
	return p
}
