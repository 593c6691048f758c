package pdf_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/pdf"
	"quarterstep/printing/tile"
)

func marksOf(t *testing.T, plan tile.Plan, o pdf.Options) []pdf.Mark {
	t.Helper()
	marks, err := pdf.Marks(plan, o)
	if err != nil {
		t.Fatal(err)
	}
	return marks
}

// Of the pages, only those on which something else is printed have another
// mark: a notch more on one piece changes the sheets it lies on, and the date
// in the file changes none.
func TestMarksTellWhichPagesChanged(t *testing.T) {
	plan := planOf(t, wardrobe(2), setup(t, "A4"))
	o := options()
	before := marksOf(t, plan, o)
	var names []string
	seen := map[string]bool{}
	for _, m := range before {
		names = append(names, m.Page)
		if seen[m.Print] {
			t.Errorf("page %s has the mark of another", m.Page)
		}
		seen[m.Print] = true
	}
	if !slices.Equal(names, plan.PageNames()) {
		t.Errorf("marks of %v, pages %v", names, plan.PageNames())
	}
	if again := marksOf(t, plan, o); !slices.Equal(again, before) {
		t.Error("the same pages have other marks")
	}
	q := &plan.Pieces[3]
	notch := geom.Polyline(geom.Pt(0, 0), geom.Pt(6, 0))
	q.Piece.Strokes = append(slices.Clone(q.Piece.Strokes), printing.Stroke{Path: notch, Width: 0.25})
	var want, got []string
	for _, s := range plan.Sheets {
		if s.Window.Intersects(notch.Transform(q.At).Bounds().Grow(0.2)) {
			want = append(want, s.Name)
		}
	}
	for i, m := range marksOf(t, plan, o) {
		if m != before[i] {
			got = append(got, m.Page)
		}
	}
	if len(want) == 0 || !slices.Equal(got, want) {
		t.Errorf("pages %v changed, want %v", got, want)
	}
	q.Piece.Labels = append(slices.Clone(q.Piece.Labels), printing.Label{Text: "cut lining", Size: 4})
	if after := marksOf(t, plan, o); slices.Equal(after, before) {
		t.Error("words change no page")
	}
}

// The pages chosen are the ones written, as they would be among the rest.
func TestChosenPages(t *testing.T) {
	plan := planOf(t, wardrobe(2), setup(t, "A4"))
	all := readPDF(t, written(t, plan, options()), geom.Identity())
	o := options()
	o.Pages = []string{"B2", tile.CoverName, "A1"}
	some := readPDF(t, written(t, plan, o), geom.Identity())
	if len(some) != 3 {
		t.Fatalf("%d pages", len(some))
	}
	k := 0
	for i, name := range plan.PageNames() {
		if !slices.Contains(o.Pages, name) {
			continue
		}
		if a, b := all[i].drawn, some[k].drawn; len(a) != len(b) || len(a) == 0 {
			t.Errorf("page %s has %d lines, alone %d", name, len(a), len(b))
		}
		k++
	}
	o.Pages = []string{"Z9"}
	if err := pdf.Write(&bytes.Buffer{}, plan, o); err == nil || !strings.Contains(err.Error(), "no page Z9") {
		t.Errorf("page Z9: %v", err)
	}
}
