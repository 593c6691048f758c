package panel

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

func sampleIncrements() IncrementsView {
	return IncrementsView{
		Edges: []string{"Side seam", "Armhole", "Hem"}, EdgeNote: "Underarm to hem, 12 7/16 in",
		Gaps:    []GapView{{"34–36", "3/8"}, {"36–38", "3/8"}, {"38–40", "7/16"}},
		Follows: []string{"Steps", "Bust"}, Follow: 1, FollowNote: [2]string{"36 1/4 in at 40", "43 5/16 in at 48"},
		Past: "How far past 40", Choice: 1,
		Choices: []ChoiceView{
			{"By steps", "4 steps × 3/8", "1 1/2 in"},
			{"By chart", "4 1/2 steps × 3/8", "1 11/16 in"},
			{"By eye", "drag or type", "–"},
		},
		Note:  "By chart is 3/16 in wider.",
		Total: "1 11/16", Unit: "in", Point: 1,
		Points: []PointView{{"Underarm", "1 5/8", "1/4"}, {"Waist", "1 9/16", "5/16"}, {"Side hem", "1 3/4", "1/2"}},
		With:   "Move the back side seam with it", WithOn: true,
	}
}

func openIncrements(t *testing.T) *Increments {
	t.Helper()
	p := NewIncrements()
	p.SetView(sampleIncrements())
	open(t, NewSide(openFold("Increments", p)), SideWidth, 900)
	return p
}

func TestIncrementsShows(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openIncrements(t)
		mustShow(t, p, "Side seam", "Underarm to hem, 12 7/16 in", "34–36", "7/16", "Follows", "Bust", "43 5/16 in at 48",
			"How far past 40", "By chart", "1 11/16 in", "By chart is 3/16 in wider.", "Total to add", "Out", "Down",
			"Waist", "5/16", "Move the back side seam with it")
		if p.total.entry.Text != "1\u200911\u204416" {
			t.Errorf("the total reads %q", p.total.entry.Text)
		}
		p.total.entry.FocusGained()
		if p.total.entry.Text != "1 11/16" {
			t.Errorf("to be typed over, the total reads %q", p.total.entry.Text)
		}
		p.total.entry.FocusLost()
		v := sampleIncrements()
		v.Total, v.Choices[2].Figure, v.Gaps[1].Gap = "1 3/4", "1 23/32 in", "13/32"
		v.Points[1].Down, v.FollowNote[1], v.EdgeNote = "11/32", "44 in at 50", "Underarm to hem, 12 1/2 in"
		p.SetView(v)
		mustShow(t, p, "1 23/32 in", "13/32", "11/32", "44 in at 50", "Underarm to hem, 12 1/2 in")
		if p.total.entry.Text != "1\u20093\u20444" {
			t.Errorf("after a drag the total reads %q", p.total.entry.Text)
		}
		v.With, v.Note, v.Points = "", "", v.Points[:2]
		tall := p.MinSize().Height
		p.SetView(v)
		if p.MinSize().Height >= tall {
			t.Error("with less to say the panel is as tall as before")
		}
		for _, gone := range []string{"Side hem", "By chart is 3/16 in wider."} {
			if shows(p, gone) {
				t.Errorf("%q still shows", gone)
			}
		}
		p.SetView(IncrementsView{Empty: "Pick an edge on the Table."})
		if got := seen(p); len(got) != 1 || got[0] != "Pick an edge on the Table." {
			t.Errorf("with no edge it reads %q", got)
		}
	})
}

func TestIncrementsReports(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openIncrements(t)
		var did []string
		say := func(format string, a ...any) { did = append(did, fmt.Sprintf(format, a...)) }
		p.OnEdge = func(i int) { say("edge %d", i) }
		p.OnFollow = func(i int) { say("follow %d", i) }
		p.OnChoice = func(i int) { say("choice %d", i) }
		p.OnTotal = func(s string) error { say("total %s", s); return nil }
		p.OnStep = func(by int) { say("step %d", by) }
		p.OnWith = func(on bool) { say("with %v", on) }

		p.edges.list.SetSelected("Hem")
		p.SetView(sampleIncrements())
		test.Tap(p.after)
		test.Tap(p.before)
		p.follows.list.SetSelected("Steps")
		test.Tap(p.choices[2])
		retype(p.total, "1 3/4")
		press(p.total.entry, fyne.KeyReturn)
		test.Tap(p.less)
		test.Tap(p.more)
		test.Tap(p.with)
		want := "edge 2, edge 1, edge 2, follow 0, choice 2, total 1 3/4, step -1, step 1, with false"
		if got := strings.Join(did, ", "); got != want {
			t.Errorf("reported\n%s\nwant\n%s", got, want)
		}
	})
}

func TestIncrementsRefuses(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openIncrements(t)
		p.OnTotal = func(string) error { return errUnread }
		retype(p.total, "lots")
		press(p.total.entry, fyne.KeyReturn)
		mustShow(t, p, unread)
		press(p.total.entry, fyne.KeyEscape)
		if shows(p, unread) || p.total.entry.Text != "1 11/16" {
			t.Errorf("after Escape it reads %q", p.total.entry.Text)
		}
		v := sampleIncrements()
		v.Fixed = true
		p.SetView(v)
		if !p.total.entry.Disabled() {
			t.Error("a fixed total can be typed")
		}
	})
}

// TestPointCells types into each cell of the table and reads the report.
func TestPointCells(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openIncrements(t)
		var did []string
		p.OnPoint = func(i int) {
			did = append(did, fmt.Sprintf("point %d", i))
			v := sampleIncrements()
			v.Point = i
			p.SetView(v)
		}
		p.OnOut = func(i int, s string) error { did = append(did, fmt.Sprintf("out %d %s", i, s)); return nil }
		p.OnDown = func(i int, s string) error { did = append(did, fmt.Sprintf("down %d %s", i, s)); return nil }
		tab := p.points
		out, down := tab.columns()
		row := func(i int) float32 { return tab.rowHeight() * (float32(i) + 1.5) }

		tapAt(tab, 5, row(0))
		if tab.editing {
			t.Error("a press on a name opens a field")
		}
		tapAt(tab, 5, tab.rowHeight()/2)
		tapAt(tab, out+4, row(2))
		if !tab.editing || tab.cell.entry.Text != "1 3/4" {
			t.Errorf("a press on a figure: editing %v, %q", tab.editing, tab.cell.entry.Text)
		}
		retype(tab.cell, "2")
		press(tab.cell.entry, fyne.KeyReturn)
		if tab.editing {
			t.Error("Enter leaves the field open")
		}
		tapAt(tab, down+4, row(1))
		if tab.cell.entry.Text != "5/16" {
			t.Errorf("the field under Down reads %q", tab.cell.entry.Text)
		}
		retype(tab.cell, "1/2")
		press(tab.cell.entry, fyne.KeyReturn)
		press(tab, fyne.KeyDown, fyne.KeyUp, fyne.KeyUp)
		want := "point 0, point 2, out 2 2, point 1, down 1 1/2, point 2, point 1, point 0"
		if got := strings.Join(did, ", "); got != want {
			t.Errorf("reported\n%s\nwant\n%s", got, want)
		}
	})
}

func TestPointCellRefuses(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(theme.New(false, 1))
	p := openIncrements(t)
	p.OnOut = func(int, string) error { return errUnread }
	out, _ := p.points.columns()
	tapAt(p.points, out+4, p.points.rowHeight()*1.5)
	retype(p.points.cell, "much")
	press(p.points.cell.entry, fyne.KeyReturn)
	if !p.points.editing || !shows(p, unread) {
		t.Error("refused words close the field or give no reason")
	}
	v := sampleIncrements()
	v.Points = nil
	p.SetView(v)
	if p.points.editing || shows(p, "much") {
		t.Error("the field stays when its row is gone")
	}
}

func samplePages() PagesView {
	v := PagesView{
		Columns: 6, Page: 8, Count: "16 pages", Summary: "6 across, 3 down. C5 and C6 left out.",
		Papers: []string{"A4, 210 × 297 mm", "Letter"}, Overlap: "10", Margin: "6", Unit: "mm",
		Shown:  []ToggleView{{Word: "New line, 48", On: true}, {Word: "Printed nest"}, {Word: "Notches, names", On: true}, {Word: "Joining buttons", On: true}},
		Sizes:  []ToggleView{{Word: "40"}, {Word: "48", On: true}},
		Pieces: []ToggleView{{Word: "Front", On: true}, {Word: "Back"}}, PiecesState: "1 of 2", SizesState: "48 only",
		Scale:    ScaleView{Square: "5 cm", Ask: "Measure the printed square, type what you read.", Unit: "mm", Say: "Prints 0.8 % narrow.", Look: true, Insist: true},
		Printers: []string{"Kitchen", "Library"}, Changed: ToggleView{Word: "Only the 3 pages that changed"}, Print: "Print 16 pages", Save: "Save PDF",
	}
	for i := range 18 {
		v.Pages = append(v.Pages, PageView{Name: fmt.Sprintf("%c%d", 'A'+i/6, i%6+1), Blank: i >= 16})
	}
	return v
}

func TestPages(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := NewPages()
		p.SetView(samplePages())
		open(t, NewSide(openFold("Pages", p)), SideWidth, 900)
		mustShow(t, p, "16 pages", "A1", "C4", "A4, 210 × 297 mm", "Tall", "Wide", "New line, 48", "Joining buttons", "1 of 2", "48 only", "Save PDF", "Test page", "5 cm", "Prints 0.8 % narrow.", "Kitchen", "Print 16 pages", "Only the 3 pages that changed")
		if shows(p, "C5") {
			t.Error("a blank page shows its name")
		}
		var did []string
		say := func(format string, a ...any) { did = append(did, fmt.Sprintf(format, a...)) }
		p.OnPage = func(i int) { say("page %d", i) }
		p.OnPaper = func(i int) { say("paper %d", i) }
		p.OnWide = func(w bool) { say("wide %v", w) }
		p.OnOverlap = func(s string) error { say("overlap %s", s); return nil }
		p.OnMargin = func(s string) error { say("margin %s", s); return errUnread }
		p.OnShown = func(i int, on bool) { say("shown %d %v", i, on) }
		p.OnSize = func(i int, on bool) { say("size %d %v", i, on) }
		p.OnSave = func() { say("save") }
		p.OnPiece = func(i int, on bool) { say("piece %d %v", i, on) }
		p.OnTestPage = func() { say("test page") }
		p.OnAcross = func(s string) error { say("across %s", s); return nil }
		p.OnDown = func(s string) error { say("down %s", s); return nil }
		p.OnInsist = func() { say("insist") }
		p.OnPrinter = func(i int) { say("printer %d", i) }
		p.OnChanged = func(on bool) { say("changed %v", on) }
		p.OnPrint = func() { say("print") }

		_, _, px, py := p.pages.cell()
		tapAt(p.pages, 3.5*px, 1.5*py)
		tapAt(p.pages, 5.5*px, 2.5*py) // blank
		press(p.pages, fyne.KeyRight, fyne.KeyUp)
		p.papers.list.SetSelected("Letter")
		tapAt(p.turn, p.turn.Size().Width-3, 5)
		retype(p.overlap, "12")
		press(p.overlap.entry, fyne.KeyReturn)
		retype(p.margin, "wide")
		p.margin.entry.FocusLost()
		test.Tap(p.shown.checks[1])
		if shows(p, "Back") {
			t.Error("the choice of pieces shows before it is asked for")
		}
		test.Tap(p.pieces.link)
		test.Tap(p.whichPieces.checks[1])
		test.Tap(p.sizes.link)
		test.Tap(p.whichSizes.checks[0])
		test.Tap(p.scale.test)
		retype(p.scale.across, "49.6")
		press(p.scale.across.entry, fyne.KeyReturn)
		retype(p.scale.down, "50")
		p.scale.down.entry.FocusLost()
		test.Tap(p.scale.insist)
		p.printers.list.SetSelected("Library")
		test.Tap(p.changed)
		test.Tap(p.print)
		test.Tap(p.save)
		want := "page 9, page 9, page 2, paper 1, wide true, overlap 12, margin wide, shown 1 true, piece 1 true, size 0 true, test page, across 49.6, down 50, insist, printer 1, changed true, print, save"
		if got := strings.Join(did, ", "); got != want {
			t.Errorf("reported\n%s\nwant\n%s", got, want)
		}
		mustShow(t, p, unread)

		v := samplePages()
		v.Busy = true
		p.SetView(v)
		if !p.save.Disabled() {
			t.Error("while the PDF is made it can be asked for again")
		}
	})
}

// TestPageMapHolds: the map stays within its width however many sheets lie
// across.
func TestPageMapHolds(t *testing.T) {
	test.NewTempApp(t)
	for _, columns := range []int{1, 2, 6, 12, 30} {
		m := newPageMap(mapWidth)
		m.set(columns, make([]PageView, columns*2), -1)
		w, h, px, py := m.cell()
		if end := px * float32(columns); end > mapWidth+0.01 {
			t.Errorf("%d sheets across take %v of %v px", columns, end, mapWidth)
		}
		if w <= 0 || h <= 0 || w >= px || h >= py {
			t.Errorf("%d across: a sheet of %v by %v every %v by %v", columns, w, h, px, py)
		}
	}
}

func TestChecks(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := NewChecks()
		open(t, p, 300, 900)
		mustShow(t, p, "Nothing to check yet.")
		var did []string
		say := func(format string, a ...any) { did = append(did, fmt.Sprintf(format, a...)) }
		p.OnShow = func(i int) { say("show %d", i) }
		p.OnDo = func(i int) { say("do %d", i) }
		p.OnCopy = func(s string) { say("copy %s", s) }
		v := ChecksView{
			Findings: []FindingView{
				{"Cap is too full", "29 mm of ease, 25 at most wanted", "Take the fullness out of the height.", "Lower the cap 4 mm"},
				{What: "Cuff is short", Help: "Lengthen the cuff."},
			},
			Chosen: 0,
			Fine:   []FineView{{"Side seams", "front 316.0, back 316.8 mm"}},
		}
		p.SetView(v)
		mustShow(t, p, "1 Cap is too full", "29 mm of ease, 25 at most wanted", "2 Cuff is short", "Show", "Side seams", "front 316.0, back 316.8 mm", "Lower the cap 4 mm")
		if shows(p, "Lengthen the cuff.") {
			t.Error("a finding that is not in hand says what would help")
		}
		test.Tap(p.rows[1].show)
		test.Tap(p.rows[0].do)
		test.Tap(p.copy)
		want := []string{
			"show 1", "do 0",
			"copy Look at this, 1: Cap is too full. 29 mm of ease, 25 at most wanted. Take the fullness out of the height.\n" +
				"Look at this, 2: Cuff is short. Lengthen the cuff.\nFine: Side seams: front 316.0, back 316.8 mm\n",
		}
		if !slices.Equal(did, want) {
			t.Errorf("did %q", did)
		}
		v.Chosen = 1
		p.SetView(v)
		mustShow(t, p, "Lengthen the cuff.")
		if shows(p, "Lower the cap 4 mm") || !p.rows[1].do.Hidden {
			t.Error("the finding let go of still offers its help, or one without an edit offers one")
		}
		p.SetView(ChecksView{Empty: "Everything meets.", Chosen: -1})
		mustShow(t, p, "Everything meets.")
		if shows(p, "2  Cuff is short") || shows(p, "Side seams") {
			t.Error("what is no longer checked still shows")
		}
	})
}

func TestLimitsOfChecks(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := NewChecks()
		open(t, p, 300, 900)
		grown, usual, typed := 0, -1, ""
		p.OnGrown = func() { grown++ }
		p.OnUsual = func(i int) { usual = i }
		p.OnLimit = func(i int, text string) error {
			typed = fmt.Sprintf("%d %s", i, text)
			if text == "lots" {
				return errUnread
			}
			return nil
		}
		p.SetView(ChecksView{Chosen: -1, Fine: []FineView{{"Hems", "even all along"}}, Limits: []LimitView{
			{"Seams may differ by", "1.6", "mm", "Threads no. 200 (published)", ""},
			{"Corners may be off square by", "4", "°", "By eye (our own choice)", "2.5°"},
		}})
		if shows(p, "Seams may differ by") {
			t.Error("the limits show unasked")
		}
		test.Tap(p.limits.open)
		mustShow(t, p, "Seams may differ by", "Threads no. 200 (published)", "mm", "°", "As usual, 2.5°", "Hide limits")
		if p.limits.rows[0].usual.Visible() || grown != 1 {
			t.Errorf("a usual limit offers the usual one, or the window was told %d times", grown)
		}
		retype(p.limits.rows[1].field, "3")
		press(p.limits.rows[1].field.entry, fyne.KeyReturn)
		test.Tap(p.limits.rows[1].usual)
		if typed != "1 3" || usual != 1 {
			t.Errorf("typed %q, usual %d", typed, usual)
		}
		retype(p.limits.rows[0].field, "lots")
		press(p.limits.rows[0].field.entry, fyne.KeyReturn)
		mustShow(t, p, unread)
	})
}
