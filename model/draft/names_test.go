package draft

import (
	"testing"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/sizechart"
)

// Every name of the demos can be said in every language, and the drawing does
// not depend on the language.
func TestNamesAreSaid(t *testing.T) {
	chart, _ := sizechart.ByID("en13402-women")
	english, err := Blouse(chart, []string{"38", "40"})
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range words.Languages() {
		if err := words.Use(l.Code); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { _ = words.Use("en") })
		for _, make := range []func(model.SizeChart, []string) (model.Pattern, error){Blouse, Waistcoat} {
			p, err := make(chart, []string{"38", "40"})
			if err != nil {
				t.Fatal(err)
			}
			for i, q := range p.Pieces {
				names := []string{p.Name, q.Name}
				for k, e := range q.Edges {
					names = append(names, e.Name, q.Points[k].Name)
				}
				for _, m := range q.Lines {
					names = append(names, m.Name)
				}
				for _, d := range q.Darts {
					names = append(names, d.Name)
				}
				for _, n := range names {
					if n == "" {
						t.Errorf("%s: something of piece %d has no name", l.Code, i+1)
					}
				}
			}
		}
		p, err := Blouse(chart, []string{"38", "40"})
		if err != nil {
			t.Fatal(err)
		}
		for i, q := range p.Pieces {
			for k, e := range q.Edges {
				if want := english.Pieces[i].Edges[k]; e.ID != want.ID || q.Nest[0].Edges[k].End() != english.Pieces[i].Nest[0].Edges[k].End() {
					t.Errorf("%s: edge %s of %s is drawn otherwise than in English", l.Code, e.ID, q.ID)
				}
				if l.Code != "en" && e.Name == english.Pieces[i].Edges[k].Name {
					t.Errorf("%s: %s of %s is not translated", l.Code, e.Name, q.ID)
				}
			}
		}
	}
}
