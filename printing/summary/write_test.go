package summary

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"pgregory.net/rapid"

	"quarterstep/assets"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
	"quarterstep/printing/tile"
)

func options(paper string) Options {
	p, _ := tile.ParsePaper(paper)
	return Options{Paper: p, Regular: assets.LatoRegular, Bold: assets.LatoBold}
}

func square(name string, side float64) Drawing {
	return Drawing{Name: name, Cut: "Cut 2", Outline: geom.Polyline(geom.Pt(0, 0), geom.Pt(side, 0), geom.Pt(side, side), geom.Pt(0, side), geom.Pt(0, 0))}
}

func long() Summary {
	s := Summary{Title: "Lantern cloak (invented)", Line: "Size 48, by chart", Date: "29 November 2026"}
	for i := range 9 {
		s.Pieces = append(s.Pieces, square(fmt.Sprint("Piece ", i+1), 200+50*float64(i)))
	}
	t := Part{Title: "Measures", Table: Table{Head: []string{"Place", "Said", "Garment"}, Amounts: 1}}
	for i := range 80 {
		t.Table.Rows = append(t.Table.Rows, []string{fmt.Sprint("place ", i), strings.Repeat("a sentence that goes on ", i%7), "118.5 cm"})
	}
	s.Parts = []Part{t, {Title: "Nothing to say"}, {Title: "Before you cut", Points: []string{strings.Repeat("Mind this. ", 60), "And 🧵 this 한글."}}}
	return s
}

// The same summary gives the same bytes, on either paper, on as many pages as
// it takes; a date or a part changes them.
func TestTheSameSummaryGivesTheSameBytes(t *testing.T) {
	for _, paper := range []string{"a4", "letter"} {
		var a, b, c bytes.Buffer
		if err := errors.Join(Write(&a, long(), options(paper)), Write(&b, long(), options(paper))); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Error("other bytes the second time")
		}
		if n := bytes.Count(a.Bytes(), []byte("/Type /Page\n")); n < 3 {
			t.Errorf("%d pages on %s", n, paper)
		}
		other := long()
		other.Date = ""
		if err := Write(&c, other, options(paper)); err != nil || bytes.Equal(a.Bytes(), c.Bytes()) {
			t.Errorf("without its date: %v", err)
		}
		if !bytes.Contains(a.Bytes(), []byte("/PrintScaling /None")) {
			t.Error("it may be scaled")
		}
		// pdfcpu is an outside reader of the format (ISO 32000-1).
		api.DisableConfigDir()
		conf := model.NewDefaultConfiguration()
		conf.ValidationMode = model.ValidationStrict
		if err := api.Validate(bytes.NewReader(a.Bytes()), conf); err != nil {
			t.Error(err)
		}
	}
}

// However much there is to say, every block comes once and in order, none runs
// off its page, and what is kept with the next never ends a page.
func TestBlocksFillPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &document{wide: 182, high: 297}
		var blocks []block
		n := rapid.IntRange(0, 200).Draw(t, "n")
		for range n {
			blocks = append(blocks, block{high: rapid.Float64Range(1, 60).Draw(t, "high")})
		}
		for i := range blocks[:max(0, n-1)] {
			blocks[i].keep = rapid.IntRange(0, 9).Draw(t, "keep") == 0 && (i == 0 || !blocks[i-1].keep)
		}
		k := 0
		for page, all := range d.laidOut(blocks) {
			sum := 0.0
			for _, b := range all {
				if k >= n || b.high != blocks[k].high {
					t.Fatalf("block %d is not in its place", k)
				}
				k++
				sum += b.high
			}
			if sum > d.room(page)+1e-9 {
				t.Fatalf("page %d holds %.1f mm of %.1f", page, sum, d.room(page))
			}
			if len(all) > 0 && all[len(all)-1].keep && k < n {
				t.Fatalf("page %d ends with what goes with the next", page)
			}
			if page > 0 && len(all) == 0 {
				t.Fatalf("page %d is empty", page)
			}
		}
		if k != n {
			t.Fatalf("%d blocks of %d", k, n)
		}
	})
}

// The columns of any table lie beside each other within the page, and every
// cell has the room its words need, wrapped where they must be.
func TestColumnsHoldTheirWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, err := page.New(page.Options{Wide: 210, High: 297, Regular: assets.LatoRegular, Bold: assets.LatoBold})
		if err != nil {
			t.Fatal(err)
		}
		d := &document{Document: f, wide: 182, high: 297}
		n := rapid.IntRange(1, 6).Draw(t, "columns")
		cell := rapid.StringMatching(`([a-z]{1,12} ){0,9}[a-z0-9.]{0,9}`)
		tab := Table{Amounts: rapid.IntRange(0, n-1).Draw(t, "amounts")}
		for range n {
			tab.Head = append(tab.Head, rapid.StringMatching(`[A-Z][a-z]{0,9}`).Draw(t, "head"))
		}
		for range rapid.IntRange(1, 5).Draw(t, "rows") {
			var row []string
			for i := range n {
				if i >= n-tab.Amounts {
					row = append(row, "118.5 cm")
				} else {
					row = append(row, cell.Draw(t, "cell"))
				}
			}
			tab.Rows = append(tab.Rows, row)
		}
		c := d.columnsOf(tab)
		x := 0.0
		for i := range c.at {
			if math.Abs(c.at[i]-x) > 1e-9 || c.wide[i] < cellAir*math.Min(1, c.size/textSize)-1e-9 {
				t.Fatalf("column %d lies at %.2f, %.2f wide; the one before ends at %.2f", i, c.at[i], c.wide[i], x)
			}
			x += c.wide[i]
		}
		// At worst five columns want all they may have, and the sixth its least.
		least := (d.wide - leastRow) / (5 * mostWords * d.wide)
		if x > d.wide+1e-6 || c.size < (least-1e-9)*textSize {
			t.Fatalf("the columns are %.2f mm wide of %.2f, letters of %.2f mm", x, d.wide, c.size)
		}
	})
}

// What cannot be drawn is refused in one sentence, with nothing written.
func TestRefusals(t *testing.T) {
	spoilt := long()
	spoilt.Pieces[3].Outline = geom.Polyline(geom.Pt(0, 0), geom.Pt(math.NaN(), 1))
	bare := long()
	bare.Pieces[2].Outline = nil
	ragged := long()
	ragged.Parts[0].Table.Rows[1] = []string{"one"}
	noFont := options("a4")
	noFont.Bold = nil
	for _, c := range []struct {
		s    Summary
		o    Options
		want string
	}{
		{spoilt, options("a4"), "Piece 4"},
		{bare, options("a4"), "Piece 3 has no line"},
		{ragged, options("a4"), "Measures has a row of 1 cells for 3"},
		{long(), options("100x100mm"), "too small"},
		{long(), noFont, "bold font"},
	} {
		var out bytes.Buffer
		if err := Write(&out, c.s, c.o); err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") || out.Len() > 0 {
			t.Errorf("%v, %d bytes, want %q", err, out.Len(), c.want)
		}
	}
	full := errors.New("the disk is full")
	if err := Write(failing{full}, long(), options("a4")); !errors.Is(err, full) {
		t.Errorf("onto a full disk: %v", err)
	}
	if err := Write(&bytes.Buffer{}, Summary{}, options("a4")); err != nil {
		t.Errorf("nothing to say: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
