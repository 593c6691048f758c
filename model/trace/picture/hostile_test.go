package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

// pngOf is a PNG of 8-bit shades of grey (W3C PNG, clause 5) with packed pixels.
func pngOf(w, h uint32, packed []byte, before ...[]byte) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	out := append([]byte("\x89PNG\r\n\x1a\n"), chunkOf("IHDR", append(head, 8, 0, 0, 0, 0))...)
	out = append(out, slices.Concat(before...)...)
	return append(append(out, chunkOf("IDAT", packed)...), chunkOf("IEND", nil)...)
}

func chunkOf(kind string, data []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	out = append(append(out, kind...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

// zeros is n zeros, packed to a thousandth.
func zeros(t *testing.T, n int) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	for part := make([]byte, 1<<20); n > 0; n -= len(part) {
		if _, err := z.Write(part[:min(n, len(part))]); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// tag is an entry of a TIFF's list, its value or place a whole number.
type tag struct{ id, count, value uint32 }

// tiffOf is a TIFF (TIFF 6.0, section 2) whose list names next as the list after
// it; rest follows the list.
func tiffOf(next uint32, rest []byte, tags ...tag) []byte {
	le := binary.LittleEndian
	out := append([]byte("II*\x00"), 8, 0, 0, 0)
	out = le.AppendUint16(out, uint16(len(tags)))
	for _, t := range tags {
		out = le.AppendUint16(out, uint16(t.id))
		out = le.AppendUint16(out, 4)
		out = le.AppendUint32(le.AppendUint32(out, t.count), t.value)
	}
	return append(le.AppendUint32(out, next), rest...)
}

// scanned is a progressive JPEG that goes over its pixels n times more: its first
// scan, up to the marker after it, stands there so often.
func scanned(t *testing.T, n int) []byte {
	t.Helper()
	b := load(t, "progressive.jpg")
	from := bytes.Index(b, []byte{0xff, 0xda})
	to := from + 2
	for !(b[to] == 0xff && b[to+1] != 0) {
		to++
	}
	return slices.Concat(b[:to], bytes.Repeat(b[from:to], n), b[to:])
}

// TestHostilePictures: pictures made to fill the memory or to keep the program
// busy are refused in a sentence, or read as what they are.
func TestHostilePictures(t *testing.T) {
	const longest, mostMemory = 30 * time.Second, 200 << 20 // two seconds of work at most; the rest for machines that are busy
	const list = 8 + 2 + 9*12 + 4                           // where what follows a list of nine tags begins
	page := func(side, packing, rows, at, size uint32) []tag {
		return []tag{{256, 1, side}, {257, 1, side}, {258, 1, 8}, {259, 1, packing}, {262, 1, 1}, {273, 1, at}, {277, 1, 1}, {278, 1, rows}, {279, 1, size}}
	}
	gigabyte := zeros(t, 1<<30)
	for _, c := range []struct {
		name, say string
		file      []byte
	}{
		{"a PNG of 2^31 pixels a side", "at most 60 million", pngOf(1<<31-1, 1<<31-1, nil)},
		{"a PNG wider than a number can be", "at most 60 million", pngOf(1<<32-1, 1<<32-1, nil)},
		{"a PNG with a gigabyte behind its pixels", "damaged", pngOf(100, 100, gigabyte)},
		{"a PNG of a million chunks", "damaged", pngOf(100, 100, nil, bytes.Repeat(chunkOf("tEXt", nil), 1_000_000))},
		{"a PNG of two heads", "damaged", pngOf(100, 100, nil, chunkOf("IHDR", make([]byte, 13)))},
		{"a JPEG of 65535 pixels a side", "at most 60 million", hugeJPEG(load(t, "jfif-inch.jpg"))},
		{"a JPEG of many scans", "packed in a way", scanned(t, 100_000)},
		{"a JPEG of some scans", "", scanned(t, 100)},
		{"a TIFF in a ring", "too soon", tiffOf(8, nil, page(100, 1, 100, list, 10_000)...)},
		{"a TIFF that unpacks to a gigabyte", "", tiffOf(0, gigabyte, page(100, 8, 100, list, uint32(len(gigabyte)))...)},
		{"a TIFF of 2^31 pixels a side", "at most 60 million", tiffOf(0, nil, page(1<<31, 1, 1, 8, 8)...)},
		{"a TIFF with its size twice", "damaged", tiffOf(0, make([]byte, 10_000), append([]tag{{256, 1, 100}, {257, 1, 100}}, page(1<<20, 1, 100, 8, 8)...)...)},
		{"a TIFF of tiles of nothing", "damaged", tiffOf(0, nil, tag{256, 1, 7000}, tag{257, 1, 7000}, tag{258, 1, 8}, tag{259, 1, 1}, tag{262, 1, 1}, tag{277, 1, 1}, tag{322, 1, 1}, tag{323, 1, 1}, tag{324, 1 << 30, 8}, tag{325, 1 << 30, 8})},
		{"a TIFF of one huge tile", "damaged", tiffOf(0, nil, tag{256, 1, 100}, tag{257, 1, 100}, tag{258, 1, 8}, tag{259, 1, 1}, tag{262, 1, 1}, tag{277, 1, 1}, tag{322, 1, 1 << 20}, tag{323, 1, 1 << 20}, tag{324, 1, 8}, tag{325, 1, 8})},
		{"a TIFF of small shreds", "damaged", tiffOf(0, bytes.Repeat([]byte{0x81, 0}, 5_000_000), page(100, 32773, 100, list, 1<<31-1)...)},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		p, err := read(c.file)
		took := time.Since(began)
		runtime.ReadMemStats(&after)
		var u Unusable
		if c.say == "" && err != nil || c.say != "" && (!errors.As(err, &u) || !strings.Contains(u.Say, c.say)) {
			t.Errorf("%s: read as %v, %v; want %q", c.name, p.Size(), err, c.say)
		}
		if used := after.TotalAlloc - before.TotalAlloc; took > longest || used > mostMemory {
			t.Errorf("%s: took %v and %d MB", c.name, took, used>>20)
		}
	}
}
