package app

import (
	"errors"
	"strings"
	"testing"
)

func TestLengthenByName(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	longer, err := Lengthen(p, []string{"above the waist=2cm", "Hem=-10mm"})
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Join(LengthText(longer), "\n")
	want := "Above the waist: 20 mm longer in Front bodice, Back bodice.\nHem: 10 mm shorter in Front bodice, Back bodice."
	if got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	for _, c := range []struct{ ask, want string }{
		{"Knee=3mm", `it has Above the waist, Below the waist, Sleeve, Hem`},
		{"Hem", "say it like Hem=20mm"},
		{"Hem=x", "Hem:"},
		{"Above the waist=-300mm", "cannot be made 300 mm shorter above the waist"},
	} {
		_, err := Lengthen(p, []string{c.ask})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want words like %q", c.ask, err, c.want)
		}
	}
	var none NoLength
	if _, err := Lengthen(p, []string{"Knee=3mm"}); !errors.As(err, &none) || len(none.Names) != 4 {
		t.Errorf("got %v", err)
	}
}

// The table of increments leads from the printed line to the new one, what is
// put into the length included.
func TestIncrementsHaveTheLength(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	if p, err = Lengthen(p, []string{"Above the waist=20mm", "Hem=30mm"}); err != nil {
		t.Fatal(err)
	}
	r, err := Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	q := p.Pieces[0]
	for k, inc := range r.Pieces[0].Points {
		from, ok := q.Printed(inc.From)
		if !ok {
			t.Fatalf("not printed in %q", inc.From)
		}
		at := from.Edges[k].Start().Add(q.FromAcrossAlong(inc.Across.Total+inc.Across.Length, inc.Along.Total+inc.Along.Length))
		if d := at.Dist(r.Pieces[0].Edges[k].Start()); d > 0.01 {
			t.Errorf("%s ends %.3f mm off the new line", inc.Name, d)
		}
	}
}
