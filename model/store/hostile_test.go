package store

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"
)

// What a file that means harm may cost to refuse: all of these take less than
// two seconds of work; the rest is for machines that are busy besides.
const (
	longest    = 30 * time.Second
	mostMemory = 1 << 30 // bytes allocated in all, given back or not
)

// within puts JSON into a pattern in the place of part.
func within(part, json string) string {
	return `{"format":"quarterstep pattern","version":5,"pattern":{"chart":{"sizes":[{"name":"38"}]},"target":{"place":0},"` + part + `":` + json + `}}`
}

func list(n int, item string) string {
	return "[" + strings.TrimSuffix(strings.Repeat(item+",", n), ",") + "]"
}

// piece is a piece with JSON in the place of part.
func piece(part, json string) string {
	const line = `[0,0,0,0,9,9,9,9]`
	return `{"id":"a","points":[{"id":"1"},{"id":"2"}],"edges":[{"id":"1"},{"id":"2"}],"nest":[{"size":"38","edges":[[` +
		line + `],[[9,9,9,9,0,0,0,0]]]}],"` + part + `":` + json + `}`
}

// TestHostilePatterns: pattern.json made to fill the memory or to keep the
// program busy is refused in a sentence.
func TestHostilePatterns(t *testing.T) {
	const far = `[0,0,0,0,1e9,9,9,9]`
	names := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, `,"%d":1`, i)
		}
		return "{" + b.String()[1:] + "}"
	}
	wide := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, `,{"name":"s%d"}`, i)
		}
		return `{"sizes":[` + b.String()[1:] + `]}`
	}
	for _, c := range []struct{ say, json, want string }{
		{"pieces of two bytes", within("pieces", list(3_000_000, "{}")), "items in its lists"},
		{"numbers for pieces", within("pieces", list(3_000_000, "1")), "items in its lists"},
		{"nothing for pieces", within("pieces", list(2_000_000, "null")), "items in its lists"},
		{"lists for pieces", within("pieces", list(2_000_000, "[]")), "items in its lists"},
		{"links", within("links", list(2_000_000, "{}")), "items in its lists"},
		{"points", within("pieces", "["+piece("darts", list(3_000_000, "{}"))+"]"), "items in its lists"},
		{"corrections", within("pieces", "["+piece("hand", `{"moves":`+list(3_000_000, "{}")+"}")+"]"), "items in its lists"},
		{"points that may be read", within("pieces", "["+piece("darts", list(150_000, "{}"))+"]"), "marks or corrections of one kind"},
		{"notches that may be read", within("pieces", "["+piece("notches", list(150_000, `{"id":"1"}`))+"]"), "marks or corrections of one kind"},
		{"pieces that may be read", within("pieces", list(4000, "{}")), "4000 pieces"},
		{"10 000 sizes", within("chart", wide(10_000)), "items in its lists"},
		{"5000 sizes", within("chart", wide(5000)), "sizes on its chart"},
		{"names", within("limits", names(2_000_000)), "more than 1000000 names"},
		{"limits", within("limits", names(20_000)), "limits of checks"},
		{"a million deep", within("pieces", strings.Repeat("[", 1_000_000)), "deep"},
		{"objects in objects", within("note", strings.Repeat(`{"a":`, 1_000_000)), "deep"},
		{"a number beyond all bounds", within("target", `{"place":1e308}`), "off the chart"},
		{"a number that is none", within("target", `{"place":NaN}`), "spoilt"},
		{"a measure of a kilometre", within("target", `{"place":0,"body":{"bust":1e9}}`), "bust cannot be"},
		{"a place of a kilometre", within("pieces", "["+piece("lines", `[{"id":"1","kind":"grain","drawn":[{"path":[`+far+`]}]}]`)+"]"), "where no paper is"},
		{"a cut of a kilometre", within("pieces", "["+piece("cuts", `[{"id":"1","from":[0,0],"to":[1e9,0],"measure":"bust","share":1}]`)+"]"), "where no paper is"},
		{"a piece on the moon", within("pieces", "["+piece("at", `[1e300,0]`)+"]"), "place on the Table"},
		{"cut a billion times", within("pieces", "["+piece("cut", "1000000000")+"]"), "cut more than 1000 times"},
		{"a hundred thousand curves", within("pieces", "["+piece("lines", `[{"id":"1","kind":"grain","drawn":[{"path":`+list(100_000, "[0,0,0,0,0,0,0,0]")+`}]}]`)+"]"), "curves in a line"},
		{"an endless name", within("name", `"`+strings.Repeat("x", 5_000_000)+`"`), "longer than 1000 letters"},
		{"an endless note", within("note", `"`+strings.Repeat("x", 5_000_000)+`"`), "its note is longer"},
		{"a picture elsewhere", within("pictures", `[{"id":"1","file":"../../.profile","perMM":1}]`), `"../../.profile" cannot be`},
		{"a picture from the root", within("pictures", `[{"id":"1","file":"/etc/passwd","perMM":1}]`), `"/etc/passwd" cannot be`},
		{"a thousand faults", within("pictures", list(900, `{"id":"1","file":"../a","perMM":-1}`)), "faults more"},
	} {
		data := archive(t, "pattern.json", c.json)
		costs(t, c.say, func() {
			_, err := read(data)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s: %.300v", c.say, err)
			}
			if err != nil && len(err.Error()) > 8000 {
				t.Errorf("%s: %d letters of error", c.say, len(err.Error()))
			}
		})
	}
}

// costs holds work to the time and the memory it may take.
func costs(t *testing.T, say string, work func()) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	began := time.Now()
	work()
	took := time.Since(began)
	runtime.ReadMemStats(&after)
	if used := after.TotalAlloc - before.TotalAlloc; took > longest || used > mostMemory {
		t.Errorf("%s: took %v and %d MB", say, took, used>>20)
	}
}

// TestHostileArchives: archives made to unpack to more than there is are refused
// before the memory is gone.
func TestHostileArchives(t *testing.T) {
	good, err := encode(sample())
	if err != nil {
		t.Fatal(err)
	}
	zeros := packed(t, "pictures/zeros", 1<<30)
	var entries []string
	for i := range 10_000 {
		entries = append(entries, fmt.Sprintf("a%d", i), "")
	}
	listing := append([]string{strings.Repeat("long", 10_000), ""}, entries...)
	for _, c := range []struct {
		say  string
		data []byte
		is   error
	}{
		{"a gigabyte of zeros", zeros, ErrTooBig},
		{"zeros for a pattern", packed(t, "pattern.json", 1<<26), ErrTooBig},
		{"10 000 entries", archive(t, entries...), ErrTooBig},
		{"a list longer than the file may have", archive(t, strings.Split(strings.Repeat(strings.Repeat("x", 60_000)+" ", 150), " ")[:150]...), ErrTooBig},
		{"long names", archive(t, listing...), ErrTooBig},
		{"entries over each other", overlapping(archive(t, append([]string{"pictures/0", strings.Repeat("0123456789", 3_000_000)}, pictures(500)...)...)), ErrTooBig},
		{"pictures elsewhere only", archive(t, "pictures/../../.profile", "x", "/etc/passwd", "x", `pictures/C:\x`, "x", "pattern.json", string(good)), nil},
	} {
		costs(t, c.say, func() {
			f, err := read(c.data)
			if !errors.Is(err, c.is) {
				t.Errorf("%s: %.300v", c.say, err)
			}
			if len(f.Pictures) > 0 {
				t.Errorf("%s: %d pictures", c.say, len(f.Pictures))
			}
		})
	}
}

// packed is an archive of one entry that unpacks to n zeros.
func packed(t *testing.T, name string, n int) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.Create(name)
	for part := make([]byte, 1<<20); err == nil && n > 0; n -= len(part) {
		_, err = w.Write(part)
	}
	if err != nil || z.Close() != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pictures(n int) []string {
	var out []string
	for i := range n {
		out = append(out, fmt.Sprintf("pictures/%d", i+1), "")
	}
	return out
}

// overlapping makes every entry of an archive that of its first one: in its
// list (APPNOTE 4.3.12) each has the first one's checksum, sizes and place.
func overlapping(data []byte) []byte {
	mark := []byte("PK\x01\x02")
	first := bytes.Index(data, mark)
	for at := first; bytes.HasPrefix(data[at:], mark); {
		copy(data[at+10:at+12], data[first+10:])
		copy(data[at+16:at+28], data[first+16:])
		copy(data[at+42:at+46], data[first+42:])
		length := func(i int) int { return int(binary.LittleEndian.Uint16(data[at+i:])) }
		at += 46 + length(28) + length(30) + length(32)
	}
	return data
}
