package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"io"
	"strings"
	"unicode"

	"quarterstep/assets/words"
)

// tags is what the TIFF tags of a file tell, as EXIF carries them too.
type tags struct {
	exif           bool // tags were found
	turn           Turn
	perInch        [2]float64
	unknownDensity bool // the density written is the one that means unknown
	camera         string
	focal35        float64
}

// The tags that are read (TIFF 6.0, section 8; Exif 2.32, 4.6; DNG 1.4).
const (
	tagSubfile     = 254
	tagWidth       = 256
	tagHeight      = 257
	tagPacking     = 259
	tagPhotometric = 262
	tagMaker       = 271
	tagModel       = 272
	tagOrientation = 274
	tagXResolution = 282
	tagYResolution = 283
	tagUnit        = 296
	tagTileWidth   = 322
	tagTileHeight  = 323
	tagExif        = 34665
	tagFocal35     = 41989
	tagRaw         = 50706
)

// mostEntries is how many tags of one list are looked at.
const mostEntries = 512

// directory is one list of TIFF tags: where each tag's entry of twelve bytes
// lies.
type directory struct {
	r     io.ReaderAt
	size  int64
	order binary.ByteOrder
	entry map[uint16][12]byte
}

// exifTags reads the tags of an EXIF part. Tags that are damaged are left out.
func exifTags(b []byte) tags {
	d, ok := openTags(bytes.NewReader(b), int64(len(b)))
	if !ok {
		return tags{}
	}
	t := d.tags()
	if t.perInch == [2]float64{72, 72} { // "when the resolution is unknown, 72 is designated", Exif 2.32
		t.perInch, t.unknownDensity = [2]float64{}, true
	}
	return t
}

// openTags reads the first list of tags behind a TIFF header.
func openTags(r io.ReaderAt, size int64) (directory, bool) {
	h := section(r, 0, 8, size)
	if len(h) < 8 {
		return directory{}, false
	}
	d := directory{r: r, size: size, order: binary.LittleEndian}
	switch string(h[:4]) {
	case "II*\x00":
	case "MM\x00*":
		d.order = binary.BigEndian
	default:
		return directory{}, false
	}
	return d.list(int64(d.order.Uint32(h[4:])))
}

// list reads the list of tags at a place of the file.
func (d directory) list(at int64) (directory, bool) {
	n := section(d.r, at, 2, d.size)
	if at < 8 || len(n) < 2 {
		return directory{}, false
	}
	count := min(int64(d.order.Uint16(n)), mostEntries)
	body := section(d.r, at+2, 12*count, d.size)
	d.entry = make(map[uint16][12]byte)
	for ; len(body) >= 12; body = body[12:] {
		tag := d.order.Uint16(body)
		if _, twice := d.entry[tag]; !twice {
			d.entry[tag] = [12]byte(body)
		}
	}
	return d, true
}

// tags reads what matters here of a list and of the EXIF list it names.
func (d directory) tags() tags {
	t := tags{exif: true, camera: camera(d.text(tagMaker), d.text(tagModel))}
	if o := d.number(tagOrientation); o >= 1 && o <= 8 {
		t.turn = Turn(o - 1)
	}
	inch := 1.0
	switch d.number(tagUnit) {
	case 1:
		inch = 0
	case 3:
		inch = 2.54
	}
	t.perInch = sane(d.ratio(tagXResolution)*inch, d.ratio(tagYResolution)*inch)
	if sub, ok := d.list(int64(d.number(tagExif))); ok {
		if f := sub.number(tagFocal35); f >= 4 && f <= 3000 {
			t.focal35 = float64(f)
		}
	}
	return t
}

// number is a tag's first whole number of one, two or four bytes, 0 without.
func (d directory) number(tag uint16) uint32 {
	e := d.entry[tag]
	kind, count := d.order.Uint16(e[2:]), d.order.Uint32(e[4:])
	width := map[uint16]uint32{1: 1, 3: 2, 4: 4}[kind]
	if width == 0 || count == 0 {
		return 0
	}
	value := e[8:]
	if count > 4/width {
		value = section(d.r, int64(d.order.Uint32(value)), 4, d.size)
	}
	switch {
	case len(value) < 4:
		return 0
	case kind == 1:
		return uint32(value[0])
	case kind == 3:
		return uint32(d.order.Uint16(value))
	}
	return d.order.Uint32(value)
}

// ratio is a tag's first fraction, 0 without.
func (d directory) ratio(tag uint16) float64 {
	e, ok := d.entry[tag]
	if !ok || d.order.Uint16(e[2:]) != 5 {
		return 0
	}
	b := section(d.r, int64(d.order.Uint32(e[8:])), 8, d.size)
	if len(b) < 8 || d.order.Uint32(b[4:]) == 0 {
		return 0
	}
	return float64(d.order.Uint32(b)) / float64(d.order.Uint32(b[4:]))
}

// text is a tag's words, cut at 64 bytes, with nothing in it that cannot be
// shown.
func (d directory) text(tag uint16) string {
	e, ok := d.entry[tag]
	if !ok || d.order.Uint16(e[2:]) != 2 {
		return ""
	}
	n := d.order.Uint32(e[4:])
	b := e[8:]
	if n > 4 {
		b = section(d.r, int64(d.order.Uint32(e[8:])), int64(min(n, 64)), d.size)
	} else {
		b = b[:n]
	}
	s, _, _ := strings.Cut(string(b), "\x00")
	s = strings.Map(func(r rune) rune {
		if r == unicode.ReplacementChar || !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, s)
	return strings.TrimSpace(s)
}

// camera joins maker and model, once where the model names the maker too.
func camera(maker, model string) string {
	if strings.HasPrefix(strings.ToLower(model), strings.ToLower(maker)) {
		return model
	}
	return strings.TrimSpace(maker + " " + model)
}

// tiffHead reads a TIFF's first picture: its size and tags.
func tiffHead(r io.ReaderAt, size int64) (said, error) {
	d, ok := openTags(r, size)
	if !ok {
		return said{}, cutShort("TIFF")
	}
	_, raw := d.entry[tagRaw]
	if raw || d.number(tagSubfile)&1 != 0 {
		return said{}, saveAs(words.T("a camera's raw file"))
	}
	if tile := int64(d.number(tagTileWidth)) * int64(d.number(tagTileHeight)); tile > MostPixels {
		return said{}, damaged("TIFF")
	}
	s := said{tags: d.tags()}
	// A fax-packed picture whose 0 is black shows its black runs white (TIFF
	// 6.0, PhotometricInterpretation); the unpacking library does not turn it.
	packing := d.number(tagPacking)
	s.negative = (packing == 3 || packing == 4) && d.number(tagPhotometric) == 1
	s.size = image.Pt(int(d.number(tagWidth)), int(d.number(tagHeight)))
	return s, nil
}
