package picture

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// FuzzRead: whatever the bytes, reading ends with a picture or with one
// Unusable sentence.
func FuzzRead(f *testing.F) {
	files, err := filepath.Glob(filepath.Join("testdata", "*.*"))
	if err != nil || len(files) < 20 {
		f.Fatalf("%d pictures to begin with: %v", len(files), err)
	}
	for _, name := range files {
		b, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		if s, err := headOf(b); err == nil && s.size.X*s.size.Y > 1_000_000 {
			return // sound, and would only take time
		}
		p, err := read(b)
		if err != nil {
			if u := (Unusable{}); !errors.As(err, &u) || u.Say == "" {
				t.Fatalf("error of type %T: %v", err, err)
			}
			return
		}
		if s := p.Size(); min(s.X, s.Y) < leastPixels || p.Color.Rect.Size() != s || len(p.Gray.Pix) != s.X*s.Y {
			t.Fatalf("a picture of %v and %v", s, p.Color.Rect)
		}
		if p.PerInch[0] < 0 || p.PerInch[1] < 0 || (p.PerInch[0] == 0) != (p.PerInch[1] == 0) {
			t.Fatalf("%v pixels to the inch", p.PerInch)
		}
	})
}

// FuzzExif: whatever the bytes, the tags read are ones that can be used.
func FuzzExif(f *testing.F) {
	for _, name := range []string{"lzw.tif", "fax.tif"} {
		f.Add(load(f, name))
	}
	f.Add(load(f, "turn6.jpg")[12+18:])
	f.Add(load(f, "exif-centimetre.jpg")[12+18:])
	f.Fuzz(func(t *testing.T, b []byte) {
		s := exifTags(b)
		if s.turn > 7 || len(s.camera) > 130 || s.focal35 < 0 || s.perInch[0] > 20_000 || s.perInch[1] < 0 {
			t.Fatalf("%+v", s)
		}
	})
}
