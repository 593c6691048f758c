package pdf_test

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	pdfmodel "github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/pdf"
	"quarterstep/printing/tile"
)

// Strict validation by an outside reader, pdfcpu, and what it reads back of the
// wishes to the printing program.
func TestFileIsValid(t *testing.T) {
	api.DisableConfigDir()
	a0 := setup(t, "A0")
	side := setup(t, "letter")
	side.Landscape = true
	for name, s := range map[string]tile.Setup{"a4": setup(t, "A4"), "a0": a0, "landscape": side, "longest": setup(t, "610x5000mm"), "roll": setup(t, "roll 914 mm"), "projector": setup(t, "projector"), "common": setup(t, "A4 or Letter")} {
		plan := planOf(t, wardrobe(2), s)
		data := written(t, plan, options())
		conf := pdfmodel.NewDefaultConfiguration()
		conf.ValidationMode = pdfmodel.ValidationStrict
		if err := api.Validate(bytes.NewReader(data), conf); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		prefs, version, err := api.ViewerPreferences(bytes.NewReader(data), conf)
		if err != nil {
			t.Fatal(err)
		}
		if version.String() != "1.7" || prefs == nil || prefs.PrintScaling == nil || *prefs.PrintScaling != pdfmodel.PrintScalingNone {
			t.Errorf("%s: version %s, preferences %+v", name, version, prefs)
		}
		dims, err := api.PageDims(bytes.NewReader(data), conf)
		if err != nil {
			t.Fatal(err)
		}
		w, h := plan.Setup.Size()
		for i, d := range dims {
			if math.Abs(d.Width-w*72/25.4) > 0.005 || math.Abs(d.Height-h*72/25.4) > 0.005 {
				t.Errorf("%s: page %d is %g x %g points", name, i+1, d.Width, d.Height)
			}
		}
	}
}

func TestSameBytes(t *testing.T) {
	s := setup(t, "A4")
	first := written(t, planOf(t, wardrobe(3), s), options())
	for range 5 {
		if !bytes.Equal(first, written(t, planOf(t, wardrobe(3), s), options())) {
			t.Fatal("the same plan gave other bytes")
		}
	}
	o := options()
	o.Date = time.Date(2026, 3, 4, 5, 6, 7, 0, time.UTC)
	if dated := written(t, planOf(t, wardrobe(3), s), o); !bytes.Contains(dated, []byte("D:20260304050607")) || bytes.Contains(first, []byte("D:2026")) {
		t.Error("the date given is not the date in the file")
	}
}

// Each stroke is drawn in the layer it names, and the lines without one in
// none.
func TestLayers(t *testing.T) {
	plan := planOf(t, coloured(wardrobe(3)), setup(t, "A2"))
	data := written(t, plan, options())
	for _, s := range sizes[:3] {
		utf16 := "\xFE\xFF"
		for _, c := range "Size " + s {
			utf16 += "\x00" + string(c)
		}
		if n := bytes.Count(data, []byte("/OCG /Name ("+utf16+")")); n != 1 {
			t.Errorf("layer of size %s is there %d times", s, n)
		}
	}
	want := map[printing.Ink]string{}
	for _, p := range plan.Pieces {
		for _, st := range p.Piece.Strokes {
			want[st.Ink] = st.Layer
		}
	}
	names := map[string]string{"": "", "/OC0": "Size 36", "/OC1": "Size 38", "/OC2": "Size 40"}
	drawn := 0
	for _, p := range readPDF(t, data, geom.Identity()) {
		for _, d := range p.drawn {
			if layer, ours := want[d.ink]; ours {
				drawn++
				if names[d.layer] != layer {
					t.Errorf("a line of layer %q is drawn in %q", layer, names[d.layer])
				}
			}
		}
	}
	if drawn < len(want) {
		t.Errorf("%d strokes drawn of %d", drawn, len(want))
	}
}

func TestRefused(t *testing.T) {
	ok := geom.Polyline(geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(50, 50))
	bad := geom.Path{geom.Line(geom.Pt(0, 0), geom.Pt(50, 0))}
	bad[0].P1.X = math.NaN()
	cases := []struct {
		name, want string
		stroke     printing.Stroke
	}{
		{"no number", "Jerkin", printing.Stroke{Path: bad, Width: 0.3}},
		{"torn", "Jerkin", printing.Stroke{Path: geom.Path{ok[0], ok[0]}, Width: 0.3}},
		{"no width", "width", printing.Stroke{Path: ok}},
		{"endless width", "width", printing.Stroke{Path: ok, Width: math.Inf(1)}},
		{"dash backwards", "dash", printing.Stroke{Path: ok, Width: 0.3, Dash: []float64{2, -1}}},
		{"dashes of nothing", "dashes", printing.Stroke{Path: ok, Width: 0.3, Dash: []float64{0, 0}}},
		{"no colour", "colour", printing.Stroke{Path: ok, Width: 0.3, Ink: printing.Ink{G: math.NaN()}}},
	}
	base := planOf(t, []printing.Piece{{Name: "Jerkin", Strokes: []printing.Stroke{{Path: ok, Width: 0.3}}}}, setup(t, "A4"))
	for _, c := range cases {
		plan := base
		plan.Pieces = []tile.Placed{{Piece: printing.Piece{Name: "Jerkin", Strokes: []printing.Stroke{c.stroke}}, At: geom.Identity()}}
		err := pdf.Write(&bytes.Buffer{}, plan, options())
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "Jerkin") {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	for name, l := range map[string]printing.Label{
		"no size": {Text: "Cut 2"}, "no place": {Text: "Cut 2", Size: 5, At: geom.Pt(math.NaN(), 0)},
		"turned for ever": {Text: "Cut 2", Size: 5, Turn: math.Inf(1)}, "endless": {Text: "Cut 2", Size: math.Inf(1)},
	} {
		plan := base
		plan.Pieces = []tile.Placed{{Piece: printing.Piece{Name: "Jerkin", Labels: []printing.Label{l}}, At: geom.Identity()}}
		if err := pdf.Write(&bytes.Buffer{}, plan, options()); err == nil || !strings.Contains(err.Error(), "Jerkin") || !strings.Contains(err.Error(), "Cut 2") {
			t.Errorf("words with %s: %v", name, err)
		}
	}
	for name, font := range map[string][]byte{"none": nil, "rubbish": []byte("not a font"), "cut": options().Bold[:5000]} {
		o := options()
		o.Bold = font
		if err := pdf.Write(&bytes.Buffer{}, base, o); err == nil || !strings.Contains(err.Error(), "bold font") {
			t.Errorf("%s font: %v", name, err)
		}
	}
	if err := pdf.Write(&bytes.Buffer{}, tile.Plan{}, options()); err == nil {
		t.Error("a plan without paper is written")
	}
	if err := pdf.Write(fullDisk{}, base, options()); !errors.Is(err, errFull) {
		t.Errorf("a full disk: %v", err)
	}
}

var errFull = errors.New("disk full")

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }
