package app

import (
	"math"
	"reflect"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading/propose"
	"quarterstep/model"
)

// A pattern named in German is understood as one named in English: the same
// links are found, the same girths measured, the same lines and hems go
// together, and it grades to the same lines.
func TestPatternsInGerman(t *testing.T) {
	for name, draw := range map[string]func() (model.Pattern, error){"blouse": DemoBlouse, "waistcoat": DemoWaistcoat} {
		english, err := draw()
		if err != nil {
			t.Fatal(err)
		}
		if err := words.Use("de"); err != nil {
			t.Fatal(err)
		}
		german, err := draw()
		understood(t, name, english, german, err)
		_ = words.Use("en")
	}
}

func understood(t *testing.T, name string, english, german model.Pattern, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	renamed := 0
	for i, q := range german.Pieces {
		for j := range q.Edges {
			if q.Edges[j].Name != english.Pieces[i].Edges[j].Name {
				renamed++
			}
		}
	}
	if renamed < 10 {
		t.Fatalf("%s: only %d edges have German names", name, renamed)
	}
	bare := func(p model.Pattern) []propose.Proposal {
		p.Links = nil
		return propose.Links(p)
	}
	a, b := bare(english), bare(german)
	if len(a) != len(b) {
		t.Errorf("%s: %d links are found, in German %d", name, len(a), len(b))
	}
	for i := range min(len(a), len(b)) {
		if terse(a[i].Link) != terse(b[i].Link) || a[i].Sure != b[i].Sure {
			t.Errorf("%s: %s (%v), in German %s (%v)", name, terse(a[i].Link), a[i].Sure, terse(b[i].Link), b[i].Sure)
		}
	}
	ra, err := Grade(english)
	if err != nil {
		t.Fatal(err)
	}
	rb, err := Grade(german)
	if err != nil {
		t.Fatal(err)
	}
	for i := range ra.Pieces {
		for k := range english.Pieces[i].Points {
			a, b := ra.Pieces[i].Points[k], rb.Pieces[i].Points[k]
			if a.Across.Follows != b.Across.Follows || a.Along.Follows != b.Along.Follows {
				t.Errorf("%s: %s goes by other measures in German, as %s", name, a.Name, b.Name)
			}
		}
		for j := range ra.Pieces[i].Edges {
			if d := ra.Pieces[i].Edges[j].Start().Dist(rb.Pieces[i].Edges[j].Start()); d > 1e-9 {
				t.Errorf("%s: %s, edge %d starts %g mm away in German", name, german.Pieces[i].Name, j+1, d)
			}
		}
	}
	ta, errA := GirthsOf(english, ra)
	tb, errB := GirthsOf(german, rb)
	if errA != nil || errB != nil || len(ta.Rows) != len(tb.Rows) || len(ta.Rows) == 0 {
		t.Fatalf("%s: %d girths, in German %d (%v, %v)", name, len(ta.Rows), len(tb.Rows), errA, errB)
	}
	for i := range ta.Rows {
		if math.Abs(ta.Rows[i].Target.Finished-tb.Rows[i].Target.Finished) > 1e-9 {
			t.Errorf("%s: %s is %.2f, in German %.2f", name, ta.Rows[i].Measure, ta.Rows[i].Target.Finished, tb.Rows[i].Target.Finished)
		}
	}
	la, lb := edit.LengthGroups(english), edit.LengthGroups(german)
	if len(la) != len(lb) {
		t.Errorf("%s: %d ways to lengthen, in German %d", name, len(la), len(lb))
	}
	for _, style := range edit.Styles {
		a, errA := edit.Style(style, 5, ra)(english)
		b, errB := edit.Style(style, 5, rb)(german)
		if (errA == nil) != (errB == nil) {
			t.Errorf("%s: %s gives %v, in German %v", name, style, errA, errB)
		}
		for i, q := range a.Pieces {
			if other := b.Pieces[i]; !reflect.DeepEqual(q.Hand.Moves, other.Hand.Moves) {
				t.Errorf("%s: %s moves %d points of %s, in German %d", name, style, len(q.Hand.Moves), q.Name, len(other.Hand.Moves))
			}
		}
	}
}

// terse is a link by the pieces and edges it names.
func terse(l model.Link) string {
	out := ""
	for _, s := range append(l.Leads(), l.Follow) {
		out += s.Piece
		for _, e := range s.Edges {
			out += " " + e
		}
		if s.Reverse {
			out += " back"
		}
		out += "; "
	}
	return out
}
