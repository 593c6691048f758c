package picture

import (
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"errors"
	"hash/crc32"
	"image"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func load(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func read(b []byte) (Picture, error) { return Read(bytes.NewReader(b), int64(len(b))) }

// TestAsPillow holds size, turn and shades of every picture in testdata to what
// Pillow makes of it (truth.csv, written by make.py).
func TestAsPillow(t *testing.T) {
	r := csv.NewReader(bytes.NewReader(load(t, "truth.csv")))
	r.Comment, r.FieldsPerRecord = '#', -1
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 20 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	for _, row := range rows {
		p, err := read(load(t, row[0]))
		if err != nil {
			t.Errorf("%s: %v", row[0], err)
			continue
		}
		var want []int
		for _, f := range row[1:] {
			n, err := strconv.Atoi(f)
			if err != nil {
				t.Fatal(err)
			}
			want = append(want, n)
		}
		if got := p.Size(); got != image.Pt(want[0], want[1]) || p.Color.Rect.Size() != got {
			t.Errorf("%s: size %v and %v, Pillow %v", row[0], got, p.Color.Rect, want[:2])
			continue
		}
		n, m := 3, 2
		if want[1] > want[0] {
			n, m = 2, 3
		}
		for i, shade := range want[2:] {
			x, y := want[0]*(2*(i%n)+1)/(2*n), want[1]*(2*(i/n)+1)/(2*m)
			c := p.Color.RGBAAt(x, y)
			seen := 0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B)
			// 2: JPEG's inverse transform may differ by a level (T.81, F.2.1.5); 3: Y and its colour.
			if g := int(p.Gray.GrayAt(x, y).Y); abs(g-shade) > 2 || math.Abs(seen-float64(shade)) > 3 || c.A != 255 {
				t.Errorf("%s: field %d is %d and %v, Pillow %d", row[0], i, g, c, shade)
			}
		}
	}
}

func abs(n int) int { return max(n, -n) }

// TestDensityAndCamera holds what files say to what make.py had Pillow write.
func TestDensityAndCamera(t *testing.T) {
	for _, c := range []struct {
		file    string
		perInch [2]float64
		camera  string
		focal   float64
		format  string
	}{
		{"turn1.jpg", [2]float64{}, "Fennel F4", 26, "JPEG"},
		{"jfif-inch.jpg", [2]float64{200, 200}, "", 0, "JPEG"},
		{"jfif-uneven-turned.jpg", [2]float64{300, 200}, "Fennel F4", 26, "JPEG"},
		{"exif-centimetre.jpg", [2]float64{118 * 2.54, 118 * 2.54}, "Fennel F5", 31, "JPEG"},
		{"exif-unknown.jpg", [2]float64{}, "Fennel F4", 26, "JPEG"},
		{"progressive.jpg", [2]float64{150, 150}, "", 0, "JPEG"},
		{"metre.png", [2]float64{11811 * 0.0254, 11811 * 0.0254}, "", 0, "PNG"}, // Pillow rounds 300 to the inch to 11811 to the metre
		{"turned.png", [2]float64{3937 * 0.0254, 7874 * 0.0254}, "Fennel F4", 26, "PNG"},
		{"palette.png", [2]float64{}, "", 0, "PNG"},
		{"lzw.tif", [2]float64{300, 300}, "", 0, "TIFF"},
		{"fax.tif", [2]float64{400, 200}, "", 0, "TIFF"},
	} {
		p, err := read(load(t, c.file))
		if err != nil {
			t.Errorf("%s: %v", c.file, err)
			continue
		}
		if math.Abs(p.PerInch[0]-c.perInch[0]) > 1e-9 || math.Abs(p.PerInch[1]-c.perInch[1]) > 1e-9 ||
			p.Camera != c.camera || p.Focal35 != c.focal || p.Format != c.format {
			t.Errorf("%s: %v, %q, %g, %s; written %v", c.file, p.PerInch, p.Camera, p.Focal35, p.Format, c)
		}
	}
}

// TestRefusals holds every refusal to one sentence that says what to do.
func TestRefusals(t *testing.T) {
	ftyp := func(brand string) []byte { return []byte("\x00\x00\x00\x18ftyp" + brand + "\x00\x00\x00\x00mif1heic") }
	jpg, tif := load(t, "jfif-inch.jpg"), load(t, "lzw.tif")
	for _, c := range []struct {
		name string
		b    []byte
		want string
	}{
		{"empty", nil, "empty"},
		{"words", []byte("Dear Maren, the pattern is in the post"), "use a JPEG, PNG or TIFF"},
		{"heic", ftyp("heic"), "HEIC picture, which cannot be read: save it as JPEG first"},
		{"heif", ftyp("mif1"), "save it as JPEG first"},
		{"avif", ftyp("avif"), "AVIF picture, which cannot be read: save it as JPEG first"},
		{"film", ftyp("isom"), "film"},
		{"pdf", []byte("%PDF-1.7\n"), "PDF, which cannot be read: save it as JPEG first"},
		{"webp", []byte("RIFF\x10\x00\x00\x00WEBPVP8 "), "WebP"},
		{"cut JPEG", jpg[:len(jpg)*3/4], "ends too soon"},
		{"cut JPEG head", jpg[:12], "ends too soon"},
		{"cut PNG", load(t, "metre.png")[:120], "ends too soon"},
		{"cut TIFF", tif[:len(tif)/2], "TIFF"},
		{"packed JPEG in TIFF", load(t, "jpeg-inside.tif"), "packed in a way that cannot be read"},
		{"PNG of 10^9 pixels", hugePNG(40_000, 25_000), "at most 60 million fit"},
		{"PNG of 2^62 pixels", hugePNG(math.MaxInt32, math.MaxInt32), "at most 60 million fit"},
		{"PNG whose area wraps round", hugePNG(math.MaxUint32, math.MaxUint32), "at most 60 million fit"},
		{"JPEG of 4 10^9 pixels", hugeJPEG(jpg), "at most 60 million fit"},
		{"stamp", hugePNG(8, 8), "take it again, larger"},
		{"raw", rawTIFF(tif), "camera's raw file"},
	} {
		_, err := read(c.b)
		var u Unusable
		if !errors.As(err, &u) || !strings.Contains(u.Say, c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
			continue
		}
		if !strings.HasSuffix(u.Say, ".") || strings.Count(u.Say, ". ") > 0 || strings.ContainsAny(u.Say, "!\n") {
			t.Errorf("%s: not one plain sentence: %q", c.name, u.Say)
		}
	}
}

// hugePNG is a sound PNG header for w by h pixels, without the pixels.
func hugePNG(w, h uint32) []byte {
	b := []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR")
	b = binary.BigEndian.AppendUint32(b, w)
	b = binary.BigEndian.AppendUint32(b, h)
	b = append(b, 8, 2, 0, 0, 0)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[12:]))
}

// hugeJPEG is jpg with a frame that claims 65535 by 65535 pixels.
func hugeJPEG(jpg []byte) []byte {
	b := bytes.Clone(jpg)
	i := bytes.Index(b, []byte{0xff, 0xc0})
	copy(b[i+5:], []byte{0xff, 0xff, 0xff, 0xff})
	return b
}

// rawTIFF is tif with its first tag made to say that the picture is a small one
// of another (TIFF 6.0, NewSubfileType), as raw files have it.
func rawTIFF(tif []byte) []byte {
	b := bytes.Clone(tif)
	at := binary.LittleEndian.Uint32(b[4:])
	copy(b[at+2:], []byte{254, 0, 4, 0, 1, 0, 0, 0, 1, 0, 0, 0})
	return b
}

// Walking every displayed pixel meets every stored one once, and Stored tells
// the same place.
func TestTurnIsOneToOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := Turn(rapid.IntRange(0, 7).Draw(t, "turn"))
		w, h := rapid.IntRange(1, 9).Draw(t, "w"), rapid.IntRange(1, 9).Draw(t, "h")
		src := image.NewGray(image.Rect(0, 0, w, h))
		for i := range src.Pix {
			src.Pix[i] = uint8(i)
		}
		dst := turn.gray(src)
		seen := map[uint8]bool{}
		for y := range dst.Rect.Dy() {
			for x := range dst.Rect.Dx() {
				g := dst.GrayAt(x, y).Y
				seen[g] = true
				sx, sy := turn.Stored(float64(x)+0.5, float64(y)+0.5, dst.Rect.Size())
				if want := src.GrayAt(int(sx), int(sy)).Y; g != want {
					t.Fatalf("turn %d: (%d, %d) shows %d, Stored finds %d", turn, x, y, g, want)
				}
			}
		}
		if len(seen) != w*h {
			t.Fatalf("turn %d: %d of %d pixels shown", turn, len(seen), w*h)
		}
	})
}

func BenchmarkRead12(b *testing.B) {
	name := os.Getenv("QUARTERSTEP_PHOTO")
	if name == "" {
		b.Skip("QUARTERSTEP_PHOTO names no photo")
	}
	data, err := os.ReadFile(name)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := read(data); err != nil {
			b.Fatal(err)
		}
	}
}

// headOf is what the file of bytes b says of itself.
func headOf(b []byte) (said, error) {
	r := bytes.NewReader(b)
	f, err := sniff(r, r.Size())
	if err != nil {
		return said{}, err
	}
	return f.head(r, r.Size())
}
