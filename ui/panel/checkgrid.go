package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"quarterstep/ui/theme"
)

// checkGrid is a number of checks in columns.
type checkGrid struct {
	box    *fyne.Container
	checks []*check
	onTurn func(i int, on bool)
}

func newCheckGrid(columns int, onTurn func(int, bool)) *checkGrid {
	return &checkGrid{box: container.New(columnsThatFit(columns)), onTurn: onTurn}
}

func (g *checkGrid) set(views []ToggleView) {
	for len(g.checks) < len(views) {
		i := len(g.checks)
		c := newCheck("")
		c.onTurn = func(on bool) { g.onTurn(i, on) }
		g.checks = append(g.checks, c)
		g.box.Add(c)
	}
	for i, c := range g.checks {
		c.Hidden = i >= len(views)
		if !c.Hidden {
			c.setWord(views[i].Word)
			c.set(views[i].On)
		}
	}
	g.box.Hidden = len(views) == 0
}

// columnsThatFit sets things in equal columns, at most so many of them: fewer where
// the widest would not fit the side panel.
type columnsThatFit int

const columnGap = 4

func (most columnsThatFit) of(objects []fyne.CanvasObject) (shown []fyne.CanvasObject, cell fyne.Size, columns int) {
	for _, o := range objects {
		if o.Visible() {
			shown, cell = append(shown, o), cell.Max(o.MinSize())
		}
	}
	room := theme.Px(sideContent)
	for columns = int(most); columns > 1; columns-- {
		if float32(columns)*(cell.Width+columnGap)-columnGap <= room {
			break
		}
	}
	cell.Width = min(cell.Width, room)
	return shown, cell, columns
}

// MinSize is Fyne's.
func (most columnsThatFit) MinSize(objects []fyne.CanvasObject) fyne.Size {
	shown, cell, columns := most.of(objects)
	rows := float32((len(shown) + columns - 1) / columns)
	wide := float32(columns)
	return fyne.NewSize(wide*(cell.Width+columnGap)-columnGap, max(rows*(cell.Height+columnGap)-columnGap, 0))
}

// Layout is Fyne's.
func (most columnsThatFit) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	shown, cell, columns := most.of(objects)
	w := (size.Width - float32(columns-1)*columnGap) / float32(columns)
	for i, o := range shown {
		place(o, float32(i%columns)*(w+columnGap), float32(i/columns)*(cell.Height+columnGap), w, cell.Height)
	}
}
