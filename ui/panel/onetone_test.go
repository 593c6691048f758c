package panel

import (
	"image"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
	"quarterstep/ui/theme/palette"
)

// inOneTone dresses the panels in black on white alone, so that what is told by hue or
// lightness only is not told (WCAG 2.2, success criterion 1.4.1 "Use of Color").
func inOneTone(t *testing.T) {
	t.Helper()
	light, own := palette.Light, theme.Light
	t.Cleanup(func() { palette.Light, theme.Light = light, own })
	p := palette.OneTone()
	palette.Light, theme.Light = p, p
	test.NewTempApp(t).Settings().SetTheme(theme.New(false, 1))
}

// taken is an object's picture.
func taken(t *testing.T, o fyne.CanvasObject, w, h float32) *image.NRGBA {
	t.Helper()
	img, ok := open(t, o, w, h).Canvas().Capture().(*image.NRGBA)
	if !ok {
		t.Fatal("the window's picture is of another kind")
	}
	return img
}

// tellApart holds that no two states look the same but for their colours: they differ
// by a sign of 5 by 5 px, or by as much in form, weight or words.
func tellApart(t *testing.T, of string, states map[string]*image.NRGBA) {
	t.Helper()
	const least = 25
	for a, p := range states {
		for b, q := range states {
			if n := differ(p, q); a < b && n < least {
				t.Errorf("%s: without colours %q and %q differ by %.0f px², want %d", of, a, b, n, least)
			}
		}
	}
}

func differ(a, b *image.NRGBA) float64 {
	n := 0.0
	for i := 0; i < len(a.Pix) && i < len(b.Pix); i += 4 {
		n += math.Abs(float64(a.Pix[i])-float64(b.Pix[i])) / 255
	}
	return n
}

// How a thing stands is told in the panels, on the Shelf and on the rail by form, sign
// or weight, not by colour alone. The words are the same in every state here.
func TestPanelStatesWithoutColour(t *testing.T) {
	inOneTone(t)
	shot := func(o fyne.CanvasObject) *image.NRGBA { return taken(t, inset(0, 0, 12, 12, o), 330, 60) }
	states := map[string]map[string]*image.NRGBA{}
	put := func(of, name string, o fyne.CanvasObject) {
		if states[of] == nil {
			states[of] = map[string]*image.NRGBA{}
		}
		states[of][name] = shot(o)
	}
	for name, s := range map[string]State{"not started": NotStarted, "under way": UnderWay, "done": Done, "look at": LookAt} {
		put("a state's sign", name, newMark(s.icon(), 14, inkSoft))
		c := newCard(nil)
		c.set(CardView{Name: "Sleeve", State: s, How: "so"}, false)
		put("a card of the Shelf", name, c)
		b := newStepButton(3, nil)
		b.set(StepView{Name: "Grade", State: "so", Mark: s, Enabled: true}, false)
		if s != UnderWay { // a step is under way where it is present
			put("a step of the rail", name, b)
		}
	}
	here := newStepButton(3, nil)
	here.set(StepView{Name: "Grade", State: "so", Enabled: true}, true)
	put("a step of the rail", "present", here)
	for name, on := range map[string]bool{"so": false, "chosen": true} {
		c := newCard(nil)
		c.set(CardView{Name: "Sleeve", State: Done, How: "so"}, on)
		put("a card in hand", name, c)
		ch := newChoice(nil)
		ch.set(ChoiceView{Name: "By chart", How: "so", Figure: "1"}, on)
		put("a choice", name, ch)
		b := newToolButton(theme.Pointer, "Move", "", nil)
		b.setChosen(on)
		put("a tool", name, b)
		two := newTwoWay("in", "cm", "")
		two.set(on)
		put("in or cm", name, two)
		k := newCheck("Nest")
		k.set(on)
		put("a check", name, k)
		l := newLinkRow(nil)
		l.set(LinkView{What: "Sleeve cap fits the armhole", How: "9 mm", Look: on})
		put("a link, fitting or not", name, l)
		f := newFinding(0, nil, nil)
		f.set(FindingView{What: "Cap is too full", HowMuch: "29 mm"}, on)
		put("a finding", name, f)
		h := newFoldHead("Checks", nil)
		h.state, h.look = "2", on
		put("a folded panel", name, h)
		n := newNote(280)
		n.set("As it is.", on)
		put("a note", name, n)
	}
	for i, name := range []string{"a page", "the page in hand", "left out"} {
		m := newPageMap(200)
		m.set(1, []PageView{{Name: "A1", Blank: i == 2}}, map[int]int{1: 0}[i]-map[bool]int{true: 1}[i != 1])
		put("a page on the map", name, m)
	}
	for of, all := range states {
		tellApart(t, of, all)
	}
}

// A field that cannot be read has a sign of its own: its outline alone would be told
// from that of the keyboard by its colour only.
func TestRefusedFieldWithoutColour(t *testing.T) {
	inOneTone(t)
	states := map[string]*image.NRGBA{}
	for name, prepare := range map[string]func(*field){
		"so": func(*field) {}, "with the keyboard": func(f *field) { f.focused = true },
		"refused": func(f *field) { f.refused = true },
	} {
		f := newField("mm", nil)
		f.set("9.5")
		prepare(f)
		states[name] = taken(t, f, 140, 36)
	}
	tellApart(t, "a field", states)
}
