package pdf_test

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// A reader of the PDFs written here, made for these tests from the format's
// standard (ISO 32000-1, sections 7.5 for the file, 8 for the operators). It
// shares no code with the writer.

// readPage is a page as a viewer would draw it: mm, y down, from the upper left
// corner.
type readPage struct {
	wide, high float64
	drawn      []drawn
}

// drawn is one painted path.
type drawn struct {
	path   geom.Path
	closed bool
	op     string // S or f
	width  float64
	ink    printing.Ink
	dash   []float64 // mm
	phase  float64
	layer  string
	clips  [][]geom.Box // each a union, all of them hold
	origin geom.Point   // where (0, 0) of the innermost group lies
}

// visible reports whether q is inside all the clips, by in mm or more.
func (d drawn) visible(q geom.Point, in float64) bool {
	for _, union := range d.clips {
		hit := false
		for _, b := range union {
			hit = hit || b.Grow(-in).Contains(q)
		}
		if !hit {
			return false
		}
	}
	return true
}

// file gives the objects of a PDF by number, found through its
// cross-reference table.
type file struct {
	t    testing.TB
	data []byte
	at   map[int]int
}

func openPDF(t testing.TB, data []byte) file {
	t.Helper()
	m := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(data)
	if m == nil {
		t.Fatal("no startxref at the end of the file")
	}
	table, _ := strconv.Atoi(string(m[1]))
	if !bytes.HasPrefix(data[table:], []byte("xref\n0 ")) {
		t.Fatalf("startxref %d does not point at the table", table)
	}
	f := file{t: t, data: data, at: map[int]int{}}
	for i, row := range regexp.MustCompile(`(\d{10}) \d{5} ([nf]) `).FindAllSubmatch(data[table:], -1) {
		if offset, _ := strconv.Atoi(string(row[1])); string(row[2]) == "n" {
			f.at[i] = offset
			if want := fmt.Sprintf("%d 0 obj\n", i); !bytes.HasPrefix(data[offset:], []byte(want)) {
				t.Fatalf("object %d is not where the table says", i)
			}
		}
	}
	return f
}

func (f file) object(n int) []byte {
	from := f.at[n]
	return f.data[from : from+bytes.Index(f.data[from:], []byte("\nendobj"))]
}

func (f file) number(pattern string, in []byte) int {
	f.t.Helper()
	m := regexp.MustCompile(pattern).FindSubmatch(in)
	if m == nil {
		f.t.Fatalf("no %s", pattern)
	}
	n, _ := strconv.Atoi(string(m[1]))
	return n
}

func (f file) stream(n int) []byte {
	f.t.Helper()
	from := f.at[n]
	head := f.data[from : from+bytes.Index(f.data[from:], []byte("stream\n"))]
	start := from + len(head) + len("stream\n")
	z, err := zlib.NewReader(bytes.NewReader(f.data[start : start+f.number(`/Length (\d+)`, head)]))
	if err != nil {
		f.t.Fatal(err)
	}
	out, err := io.ReadAll(z)
	if err != nil {
		f.t.Fatal(err)
	}
	return out
}

// readPDF reads every page, as it comes out of a printer: geom.Identity
// is one that is true to scale.
func readPDF(t testing.TB, data []byte, printer geom.Affine) []readPage {
	t.Helper()
	f := openPDF(t, data)
	root := f.object(f.number(`/Root (\d+) 0 R`, data))
	pages := f.object(f.number(`/Pages (\d+) 0 R`, root))
	kids := regexp.MustCompile(`/Kids \[([^\]]*)\]`).FindSubmatch(pages)[1]
	box := regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	var out []readPage
	for _, m := range regexp.MustCompile(`(\d+) 0 R`).FindAllSubmatch(kids, -1) {
		n, _ := strconv.Atoi(string(m[1]))
		page := f.object(n)
		size := box.FindSubmatch(page)
		if size == nil {
			size = box.FindSubmatch(pages)
		}
		w, _ := strconv.ParseFloat(string(size[1]), 64)
		h, _ := strconv.ParseFloat(string(size[2]), 64)
		const mm = 25.4 / 72
		r := reader{t: t, page: readPage{wide: w * mm, high: h * mm}}
		r.state.ctm = printer.Mul(geom.Affine{A: mm, D: -mm, F: h * mm})
		r.run(f.stream(f.number(`/Contents (\d+) 0 R`, page)))
		out = append(out, r.page)
	}
	return out
}

type state struct {
	ctm    geom.Affine
	clips  [][]geom.Box
	width  float64
	stroke printing.Ink
	fill   printing.Ink
	dash   []float64
	phase  float64
}

type reader struct {
	t       testing.TB
	page    readPage
	state   state
	stack   []state
	nums    []float64
	array   []float64
	name    string
	path    geom.Path
	rects   []geom.Box
	from    geom.Point // of the subpath
	pen     geom.Point
	closed  bool
	clipped bool // W seen
	layer   string
}

// run interprets a content stream.
func (r *reader) run(s []byte) {
	token := regexp.MustCompile(`^(?:[-+]?[\d.]+|/[^\s\[\]()<>/]+|[A-Za-z'"*]+\d?\*?|\[|\])`)
	inArray := false
	for i := 0; i < len(s); {
		switch c := s[i]; {
		case c <= ' ':
			i++
			continue
		case c == '(':
			i = skipString(s, i)
			continue
		}
		tok := token.Find(s[i:])
		if tok == nil {
			r.t.Fatalf("content stream not understood at %q", s[i:min(len(s), i+30)])
		}
		i += len(tok)
		word := string(tok)
		switch x, err := strconv.ParseFloat(word, 64); {
		case err == nil && inArray:
			r.array = append(r.array, x)
		case err == nil:
			r.nums = append(r.nums, x)
		case word == "[":
			inArray, r.array = true, nil
		case word == "]":
			inArray = false
		case word[0] == '/':
			r.name = word
		default:
			r.do(word)
			r.nums = r.nums[:0]
		}
	}
	if len(r.stack) != 0 {
		r.t.Fatalf("%d groups left open", len(r.stack))
	}
}

func skipString(s []byte, i int) int {
	for depth := 0; ; i++ {
		switch s[i] {
		case '\\':
			i++
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return i + 1
			}
		}
	}
}

func (r *reader) at(i int) geom.Point { return r.state.ctm.Apply(geom.Pt(r.nums[i], r.nums[i+1])) }

// scale is mm to the unit of the current group, where it is the same both ways.
func (r *reader) scale() float64 { return r.state.ctm.ApplyVec(geom.Vec{X: 1}).Len() }

func (r *reader) do(op string) {
	s := &r.state
	switch op {
	case "q":
		r.stack = append(r.stack, *s)
	case "Q":
		*s = r.stack[len(r.stack)-1]
		r.stack = r.stack[:len(r.stack)-1]
	case "cm":
		n := r.nums
		s.ctm = s.ctm.Mul(geom.Affine{A: n[0], B: n[1], C: n[2], D: n[3], E: n[4], F: n[5]})
	case "w":
		s.width = r.nums[0] * r.scale()
	case "d":
		s.dash = nil
		for _, d := range r.array {
			s.dash = append(s.dash, d*r.scale())
		}
		s.phase = r.nums[0] * r.scale()
	case "G":
		s.stroke = printing.Ink{R: r.nums[0], G: r.nums[0], B: r.nums[0]}
	case "RG":
		s.stroke = printing.Ink{R: r.nums[0], G: r.nums[1], B: r.nums[2]}
	case "g":
		s.fill = printing.Ink{R: r.nums[0], G: r.nums[0], B: r.nums[0]}
	case "rg":
		s.fill = printing.Ink{R: r.nums[0], G: r.nums[1], B: r.nums[2]}
	case "m", "l", "c", "re", "h":
		r.build(op)
	case "S", "f", "n", "W":
		r.paint(op)
	case "BDC":
		r.layer = r.name
	case "EMC":
		r.layer = ""
	case "BT", "ET", "Tf", "Td", "Tj", "J", "j":
	default:
		r.t.Fatalf("operator %s is not one this writer should use", op)
	}
}

func (r *reader) build(op string) {
	switch op {
	case "m":
		r.from = r.at(0)
		r.pen = r.from
	case "l":
		r.path = append(r.path, geom.Line(r.pen, r.at(0)))
		r.pen = r.at(0)
	case "c":
		r.path = append(r.path, geom.Cubic{P0: r.pen, P1: r.at(0), P2: r.at(2), P3: r.at(4)})
		r.pen = r.at(4)
	case "h":
		r.closed = true
		if r.pen != r.from {
			r.path = append(r.path, geom.Line(r.pen, r.from))
		}
		r.pen = r.from
	case "re":
		a := r.at(0)
		b := r.state.ctm.Apply(geom.Pt(r.nums[0]+r.nums[2], r.nums[1]+r.nums[3]))
		box := geom.BoxOf(a, b)
		r.rects = append(r.rects, box)
		r.path = append(r.path, geom.Polyline(box.Min, geom.Pt(box.Max.X, box.Min.Y), box.Max, geom.Pt(box.Min.X, box.Max.Y), box.Min)...)
	}
}

func (r *reader) paint(op string) {
	s := &r.state
	switch op {
	case "W":
		r.clipped = true
		return
	case "n":
		if r.clipped {
			s.clips = append(append([][]geom.Box(nil), s.clips...), r.rects)
		}
	default:
		r.page.drawn = append(r.page.drawn, drawn{
			path: r.path, closed: r.closed, op: op, width: s.width, ink: s.stroke, dash: s.dash,
			phase: s.phase, layer: r.layer, clips: s.clips, origin: s.ctm.Apply(geom.Point{}),
		})
	}
	r.path, r.rects, r.clipped, r.closed = nil, nil, false, false
}
