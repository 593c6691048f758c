package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// ground is a coloured rectangle that follows the theme, to stand behind
// things.
type ground struct {
	widget.BaseWidget
	fill, stroke tone
	width        float32
	radius       float32
}

func newFill(fill tone) *ground {
	g := &ground{fill: fill}
	g.ExtendBaseWidget(g)
	return g
}

func newBox(fill, stroke tone, width, radius float32) *ground {
	g := &ground{fill: fill, stroke: stroke, width: width, radius: radius}
	g.ExtendBaseWidget(g)
	return g
}

func (g *ground) CreateRenderer() fyne.WidgetRenderer {
	r := canvas.NewRectangle(nil)
	d := &drawn{objects: []fyne.CanvasObject{r}}
	d.paint = func(p theme.Palette) {
		r.FillColor = g.fill(p)
		r.CornerRadius = g.radius
		if g.stroke != nil {
			r.StrokeColor, r.StrokeWidth = g.stroke(p), g.width
		}
	}
	d.min = func() fyne.Size { return fyne.Size{} }
	d.lay = func(size fyne.Size) { place(r, 0, 0, size.Width, size.Height) }
	return d.ready()
}
