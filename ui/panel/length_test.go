package panel

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

func sampleLength() LengthView {
	return LengthView{
		Say: "How much longer, with a minus sign shorter.", Hand: 0, Unit: "mm", Undo: true,
		Groups: []LengthGroupView{
			{"Above the waist", "20", []FigureView{{"Front bodice", "20 mm longer"}, {"Back bodice", "20 mm longer"}}},
			{"Sleeve", "0", []FigureView{{"Sleeve", "as printed"}}},
		},
		Title: "Lengths on paper", Paper: []FigureView{{"Centre back", "66.6, now 68.6 cm"}},
	}
}

func openLength(t *testing.T) *Length {
	t.Helper()
	p := NewLength()
	p.SetView(sampleLength())
	open(t, NewSide(openFold("Length", p)), SideWidth, 900)
	return p
}

func TestLengthShows(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openLength(t)
		mustShow(t, p, "Above the waist", "Front bodice", "20 mm longer", "as printed", "Centre back", "66.6, now 68.6 cm", "Add a line", "Take all of it back")
		if p.rows[0].field.entry.Text != "20" || p.rows[1].field.entry.Text != "0" {
			t.Errorf("the fields read %q and %q", p.rows[0].field.entry.Text, p.rows[1].field.entry.Text)
		}
		tall := p.MinSize().Height
		v := sampleLength()
		v.Groups, v.Paper, v.Title, v.Undo, v.Hand = v.Groups[1:], nil, "", false, -1
		p.SetView(v)
		if shows(p, "Above the waist") || shows(p, "Take all of it back") || shows(p, "Lengths on paper") || p.MinSize().Height >= tall {
			t.Errorf("with less to show it reads %q", seen(p))
		}
		p.SetView(sampleLength())
		if p.MinSize().Height != tall {
			t.Errorf("filled again it is %v high, was %v", p.MinSize().Height, tall)
		}
		v = sampleLength()
		v.Note = "There is not that much paper."
		p.SetView(v)
		mustShow(t, p, "There is not that much paper.")
	})
}

func TestLengthReports(t *testing.T) {
	p := openLength(t)
	var said []string
	p.OnGroup = func(i int) { said = append(said, "group "+string(rune('0'+i))) }
	p.OnLength = func(i int, text string) error {
		said = append(said, string(rune('0'+i))+" by "+text)
		if text == "-900" {
			return errors.New("there is not that much paper")
		}
		return nil
	}
	p.OnAdd, p.OnTakeBack = func() { said = append(said, "add") }, func() { said = append(said, "back") }
	p.rows[1].name.press()
	p.rows[1].field.entry.SetText("15")
	p.rows[1].field.commit()
	p.rows[0].field.entry.SetText("-900")
	p.rows[0].field.commit()
	p.add.Tapped(&fyne.PointEvent{})
	p.back.Tapped(&fyne.PointEvent{})
	want := []string{"group 1", "1 by 15", "0 by -900", "add", "back"}
	if !slices.Equal(said, want) {
		t.Errorf("it said %q, want %q", said, want)
	}
	if !shows(p, "There is not that much paper.") || !strings.Contains(p.rows[0].field.entry.Text, "-900") {
		t.Errorf("the refusal reads %q", seen(p))
	}
}
