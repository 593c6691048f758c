package paper

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A photo whose pixels were put down is read again where they are needed, from
// memory or, where its file is large, from where it lies, and says so when that
// is another file meanwhile.
func TestPixelsAreReadAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "page.png")
	write := func(grey uint8) {
		m := image.NewGray(image.Rect(0, 0, 60, 40))
		m.SetGray(7, 9, color.Gray{Y: grey})
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := png.Encode(f, m); err != nil {
			t.Fatal(err)
		}
	}
	write(200)
	p, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	grey := func() uint8 {
		full, done, err := p.hold(false)
		if err != nil {
			t.Fatal(err)
		}
		defer done()
		return full.Gray.GrayAt(7, 9).Y
	}
	if p.Picture.Size() != image.Pt(60, 40) || grey() != 200 {
		t.Fatalf("it is %v large, and shows %d", p.Picture.Size(), grey())
	}
	p.PutDown()
	if p.pixels.gray != nil || p.pixels.colour != nil {
		t.Error("put down, the pixels are still there")
	}
	write(100) // what was read counts
	if grey() != 200 || p.pixels.gray != nil {
		t.Errorf("read again it shows %d", grey())
	}
	if c, err := p.Colours(); err != nil || c.RGBAAt(7, 9).R != 200 || p.pixels.colour == nil {
		t.Errorf("in colours: %v, kept %v", err, p.pixels.colour != nil)
	}
	full, done, err := p.hold(true)
	if err != nil {
		t.Fatal(err)
	}
	p.PutDown()
	if p.pixels.colour != full.Color {
		t.Error("the pixels went while they were held")
	}
	done()
	done()
	if p.pixels.colour != nil || p.pixels.held != 0 {
		t.Error("the pixels stay though nobody holds them")
	}

	p.pixels.file = nil // as of a large file
	if _, _, err := p.hold(false); err == nil || !strings.Contains(err.Error(), "page.png was changed meanwhile") {
		t.Errorf("another file in its place: %v", err)
	}
	if err := os.Chtimes(path, time.Time{}, p.pixels.changed); err != nil {
		t.Fatal(err)
	}
	if grey() != 100 {
		t.Errorf("from its file it shows %d", grey())
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if _, err := p.Colours(); err == nil || !strings.Contains(err.Error(), "is not there") {
		t.Errorf("without its file: %v", err)
	}
}
