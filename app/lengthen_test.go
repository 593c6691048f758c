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
