package picture

import (
	"encoding/binary"
	"image"
	"io"
	"math"

	"quarterstep/assets/words"
)

// Every walk through a file's parts ends after this many, far more than a
// camera or scanner writes.
const (
	mostSegments = 1 << 10 // of a JPEG before its pixels
	mostChunks   = 1 << 16 // of a PNG
)

// jpegHead reads a JPEG's size (T.81, B.2.2), its pixels to the inch from JFIF
// (T.871, 10.1) and its EXIF part, and ends at the first scan.
func jpegHead(r io.ReaderAt, size int64) (said, error) {
	var s said
	var jfif [2]float64
	at := int64(2)
	for range mostSegments {
		var b [4]byte
		if _, err := r.ReadAt(b[:], at); err != nil || at+4 > size {
			return said{}, cutShort("JPEG")
		}
		if b[0] != 0xff {
			return said{}, damaged("JPEG")
		}
		kind, length := b[1], int64(binary.BigEndian.Uint16(b[2:]))
		switch {
		case kind == 0xff: // fill before a marker
			at++
			continue
		case kind == 0x01 || kind >= 0xd0 && kind <= 0xd7: // markers without a length
			at += 2
			continue
		case kind == 0xda || kind == 0xd9:
			s.settle(jfif)
			return s, nil
		}
		body := section(r, at+4, length-2, size)
		switch {
		case kind == 0xe0:
			jfif = jfifDensity(body)
		case kind == 0xe1 && len(body) > 6 && string(body[:6]) == "Exif\x00\x00" && !s.exif:
			s.tags = exifTags(body[6:])
		case isFrame(kind) && len(body) >= 5:
			s.size = image.Pt(int(binary.BigEndian.Uint16(body[3:])), int(binary.BigEndian.Uint16(body[1:])))
		}
		at += 2 + length
	}
	return said{}, damaged("JPEG")
}

// isFrame tells the start-of-frame markers SOF0 to SOF15 from the three others
// that share their range.
func isFrame(kind byte) bool {
	return kind >= 0xc0 && kind <= 0xcf && kind != 0xc4 && kind != 0xc8 && kind != 0xcc
}

// jfifDensity reads the density of an APP0 segment; 0 where it tells only the
// pixels' shape.
func jfifDensity(b []byte) [2]float64 {
	if len(b) < 12 || string(b[:5]) != "JFIF\x00" {
		return [2]float64{}
	}
	x, y := float64(binary.BigEndian.Uint16(b[8:])), float64(binary.BigEndian.Uint16(b[10:]))
	switch b[7] {
	case 1:
		return sane(x, y)
	case 2:
		return sane(x*2.54, y*2.54)
	}
	return [2]float64{}
}

// settle takes JFIF's density where EXIF says none. EXIF's own 72 means
// "unknown" (Exif 2.32, 4.6.5.1), and is written into JFIF as well by cameras.
func (s *said) settle(jfif [2]float64) {
	if s.perInch == ([2]float64{}) && !(s.unknownDensity && jfif == [2]float64{72, 72}) {
		s.perInch = jfif
	}
}

// pngHead reads a PNG's size, its pHYs chunk (pixels to the metre, W3C PNG
// 11.3.4.3) and its eXIf chunk.
func pngHead(r io.ReaderAt, size int64) (said, error) {
	var s said
	var phys [2]float64
	at := int64(8)
	for i := range mostChunks {
		var b [8]byte
		if _, err := r.ReadAt(b[:], at); err != nil || at+8 > size {
			return said{}, cutShort("PNG")
		}
		length, kind := int64(binary.BigEndian.Uint32(b[:])), string(b[4:])
		if (i == 0) != (kind == "IHDR") {
			return said{}, damaged("PNG")
		}
		body := func() []byte { return section(r, at+8, length, size) }
		switch kind {
		case "IHDR":
			if b := body(); len(b) >= 8 {
				s.size = image.Pt(int(binary.BigEndian.Uint32(b)), int(binary.BigEndian.Uint32(b[4:])))
			}
			if err := s.fits(); err != nil { // before its end is looked for
				return said{}, err
			}
		case "pHYs":
			if b := body(); len(b) >= 9 && b[8] == 1 {
				x, y := binary.BigEndian.Uint32(b), binary.BigEndian.Uint32(b[4:])
				phys = sane(float64(x)*0.0254, float64(y)*0.0254)
			}
		case "eXIf":
			s.tags = exifTags(body())
		case "IEND":
			if phys != ([2]float64{}) {
				s.perInch = phys
			}
			return s, nil
		}
		at += 12 + length
	}
	return said{}, damaged("PNG")
}

// section is up to 64 KiB of the file, short where the file ends.
func section(r io.ReaderAt, at, length, size int64) []byte {
	length = min(length, 1<<16, size-at)
	if length <= 0 {
		return nil
	}
	b := make([]byte, length)
	n, err := r.ReadAt(b, at)
	if err != nil && n < len(b) {
		return b[:n]
	}
	return b
}

// sane is x and y pixels to the inch, or unknown where no scanner or camera
// could mean them.
func sane(x, y float64) [2]float64 {
	const least, most = 10, 20_000
	if x < least || y < least || x > most || y > most || math.IsNaN(x) || math.IsNaN(y) {
		return [2]float64{}
	}
	return [2]float64{x, y}
}

// damaged is the refusal of a file whose first part is not as its kind
// prescribes.
func damaged(name string) error {
	return unusable(words.F("This %s is damaged: copy it again, or save it anew as JPEG or PNG.", name))
}
