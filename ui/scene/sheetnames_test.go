package scene

import (
	"testing"

	"quarterstep/model/geom"
)

// A page has its name on it where it is shown large enough for it, and in any
// case while it is in hand; larger words need a larger page.
func TestPageNamesNeedRoom(t *testing.T) {
	page := Page{Name: "B2", Box: geom.Box{Max: geom.Pt(210, 297)}}
	for _, tt := range []struct {
		scale, words float64
		inHand, want bool
	}{
		{0.5, 1, false, true},
		{0.1, 1, false, false},
		{0.1, 1, true, true},
		{0.2, 1, false, true},
		{0.2, 1.5, false, false},
	} {
		in := Input{Scale: tt.scale, Words: tt.words, Sheets: []Page{page}, Names: true}
		if tt.inHand {
			in.Page = page.Name
		}
		named := false
		for _, text := range Static(in, nil).Texts {
			named = named || text.Words == page.Name
		}
		if named != tt.want {
			t.Errorf("%+v: named %v", tt, named)
		}
	}
}

// A page left out is drawn, and says so where it is shown large enough.
func TestPagesLeftOutSayWhatFits(t *testing.T) {
	page := Page{Name: "C5", Box: geom.Box{Max: geom.Pt(210, 297)}, Blank: true}
	for _, tt := range []struct {
		scale float64
		want  int
	}{{0.6, 2}, {0.3, 1}, {0.05, 0}} {
		got := Static(Input{Scale: tt.scale, Sheets: []Page{page}}, nil)
		if len(got.Texts) != tt.want || len(got.Lines) != 1 {
			t.Errorf("at %g px/mm it has %d words and %d lines", tt.scale, len(got.Texts), len(got.Lines))
		}
	}
}
