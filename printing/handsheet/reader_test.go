package handsheet_test

import (
	"bytes"
	"io"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	pdfmodel "github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"quarterstep/assets"
	"quarterstep/model/geom"
)

// said is a line of words on a page, and the box from its baseline to the height
// of its capitals, mm from the page's lower left corner.
type said struct {
	text string
	box  geom.Box
}

// readPage is what these tests want of a page: its words, and its boxes that
// are drawn and not filled.
type readPage struct {
	wide, high float64 // mm
	words      []said
	boxes      []geom.Box // mm, y up
}

func (p readPage) text() string {
	var b strings.Builder
	for _, w := range p.words {
		b.WriteString(w.text + "\n")
	}
	return b.String()
}

const perPoint = 25.4 / 72 // ISO 32000-1, 8.3.2.3

// readPDF validates the file strictly and reads its pages with pdfcpu, an
// outside reader of the format.
func readPDF(t testing.TB, data []byte) []readPage {
	t.Helper()
	api.DisableConfigDir()
	conf := pdfmodel.NewDefaultConfiguration()
	conf.ValidationMode = pdfmodel.ValidationStrict
	ctx, err := api.ReadAndValidate(bytes.NewReader(data), conf)
	if err != nil {
		t.Fatal(err)
	}
	dims, err := api.PageDims(bytes.NewReader(data), conf)
	if err != nil {
		t.Fatal(err)
	}
	var out []readPage
	for i, d := range dims {
		r, err := pdfcpu.ExtractPageContent(ctx, i+1)
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		p := readPage{wide: d.Width * perPoint, high: d.Height * perPoint}
		p.read(t, string(content))
		out = append(out, p)
	}
	return out
}

var (
	shown  = regexp.MustCompile(`(?s)/F(\S+) (\S+) Tf ET\nq\n\S+ g\n\S+ \S+ \S+ \S+ (\S+) (\S+) cm\n+BT (\S+) \S+ Td \(((?:\\.|[^\\)])*)\) ?Tj`)
	framed = regexp.MustCompile(`(\S+) (\S+) (\S+) (\S+) re\nS\n`)
)

func (p *readPage) read(t testing.TB, s string) {
	t.Helper()
	num := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x * perPoint
	}
	const capital = 0.72 // letter heights
	bold := ""           // the first words of a page name the piece, in bold
	for _, m := range shown.FindAllStringSubmatch(s, -1) {
		if bold == "" {
			bold = m[1]
		}
		text, size := plain(m[6]), num(m[2])
		at := geom.Pt(num(m[3])+num(m[5]), num(m[4]))
		wide := width(t, m[1] == bold, text) * size
		p.words = append(p.words, said{text, geom.BoxOf(at, at.Add(geom.Vec{X: wide, Y: capital * size}))})
	}
	if n := strings.Count(s, "Tj"); n != len(p.words) {
		t.Fatalf("%d lines of words were read of %d", len(p.words), n)
	}
	for _, m := range framed.FindAllStringSubmatch(s, -1) {
		at := geom.Pt(num(m[1]), num(m[2]))
		p.boxes = append(p.boxes, geom.BoxOf(at, at.Add(geom.Vec{X: num(m[3]), Y: num(m[4])})))
	}
}

var fonts = sync.OnceValues(func() (both [2]*sfnt.Font, err error) {
	if both[0], err = sfnt.Parse(assets.LatoRegular); err != nil {
		return both, err
	}
	both[1], err = sfnt.Parse(assets.LatoBold)
	return both, err
})

// width is how long text is, in letter heights, by the font's own table.
func width(t testing.TB, bold bool, text string) float64 {
	t.Helper()
	both, err := fonts()
	if err != nil {
		t.Fatal(err)
	}
	f := both[0]
	if bold {
		f = both[1]
	}
	const em = 1000
	var buf sfnt.Buffer
	sum := fixed.Int26_6(0)
	for _, r := range text {
		g, err := f.GlyphIndex(&buf, r)
		if err != nil {
			t.Fatal(err)
		}
		a, err := f.GlyphAdvance(&buf, g, fixed.I(em), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		sum += a
	}
	return float64(sum) / 64 / em
}

// plain reads the writer's strings: UTF-16, big end first, with backslashes
// before what stands for itself (7.3.4.2).
func plain(s string) string {
	var raw []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' {
			i++
			if s[i] == 'r' {
				raw = append(raw, '\r')
				continue
			}
		}
		raw = append(raw, s[i])
	}
	units := make([]uint16, len(raw)/2)
	for i := range units {
		units[i] = uint16(raw[2*i])<<8 | uint16(raw[2*i+1])
	}
	return string(utf16.Decode(units))
}
