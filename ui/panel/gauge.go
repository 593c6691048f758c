package panel

import (
	"image"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme"
	"quarterstep/ui/view"
)

// GaugeView is an amount on a line of amounts, with the stretch that is wanted.
type GaugeView struct {
	From, To  float64
	Ticks     []GaugeTick
	Low, High float64 // what is wanted
	Now       float64
	Figure    string // of Now
	Look      bool   // Now is not as wanted
}

// GaugeTick is a mark of the line with its word.
type GaugeTick struct {
	At   float64
	Word string
}

// gauge draws a GaugeView.
type gauge struct {
	widget.BaseWidget
	view GaugeView
}

const (
	gaugeHeight = 52
	gaugeLine   = 27 // the line, from the top
)

func newGauge() *gauge {
	g := &gauge{}
	g.ExtendBaseWidget(g)
	return g
}

func (g *gauge) set(v GaugeView) {
	if !reflect.DeepEqual(g.view, v) {
		g.view = v
		g.Refresh()
	}
}

// at is where an amount lies across; what is beyond the line stays at its end.
func (g *gauge) at(amount float64) float64 {
	v := g.view
	share := min(max((amount-v.From)/max(v.To-v.From, 1e-9), 0), 1)
	return 5 + share*float64(g.Size().Width-10)
}

func (g *gauge) draw(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	if size := g.Size(); size.Width > 0 {
		screen := paint.Screen{View: view.View{Scale: 1}, Factor: float64(w) / float64(size.Width)}
		paint.New(nil, theme.Now()).Paint(img, screen, g.line(), g.band(), g.diamond())
	}
	return img
}

// line is the line of amounts with its ticks.
func (g *gauge) line() scene.Layer {
	var out scene.Layer
	v, y := g.view, float64(theme.Px(gaugeLine))
	add := func(x0, y0, x1, y1 float64) {
		path := geom.Polyline(geom.Pt(x0, y0), geom.Pt(x1, y1))
		out.Lines = append(out.Lines, scene.Line{Path: path, Width: 1.4, Ink: scene.InkEdge, Alpha: 1})
	}
	add(g.at(v.From), y, g.at(v.To), y)
	for _, t := range v.Ticks {
		add(g.at(t.At), y-4, g.at(t.At), y+4)
	}
	return out
}

// band is the stretch that is wanted.
func (g *gauge) band() scene.Layer {
	y := float64(theme.Px(gaugeLine))
	return shape(rect(g.at(g.view.Low)-1, y-7, g.at(g.view.High)+1, y+7), scene.InkAccentTint, scene.InkAccent)
}

// diamond is the amount of now.
func (g *gauge) diamond() scene.Layer {
	x, y := g.at(g.view.Now), float64(theme.Px(gaugeLine))
	fill, line := scene.InkAccent, scene.InkRaised
	if g.view.Look {
		fill, line = scene.InkLookFill, scene.InkLookLine
	}
	const r = 8
	return shape(geom.Polyline(geom.Pt(x, y-r), geom.Pt(x+r, y), geom.Pt(x, y+r), geom.Pt(x-r, y), geom.Pt(x, y-r)), fill, line)
}

func shape(outline geom.Path, fill, line scene.Ink) scene.Layer {
	return scene.Layer{
		Fills: []scene.Fill{{Outline: outline, Ink: fill, Alpha: 1}},
		Lines: []scene.Line{{Path: outline, Width: 1.4, Round: true, Ink: line, Alpha: 1}},
	}
}

// CreateRenderer is Fyne's.
func (g *gauge) CreateRenderer() fyne.WidgetRenderer {
	raster := canvas.NewRaster(g.draw)
	wanted, figure := newWords(words.C("ease", "wanted"), theme.Caption, accentInk), newBold("", theme.Body, ink)
	var ticks []*saying
	d := &drawn{}
	d.paint = func(theme.Palette) {
		d.objects = []fyne.CanvasObject{raster, wanted, figure}
		figure.set(g.view.Figure, pickTone(g.view.Look, amberInk, accentInk), true)
		for i, t := range g.view.Ticks {
			if i == len(ticks) {
				ticks = append(ticks, newWords("", theme.Caption, inkSoft))
			}
			ticks[i].setText(t.Word)
			d.objects = append(d.objects, ticks[i])
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(200, theme.Px(gaugeHeight)) }
	d.lay = func(size fyne.Size) {
		place(raster, 0, 0, size.Width, size.Height)
		over := func(o *saying, at float64, y float32) (x0, x1 float32) {
			w := o.MinSize().Width
			x := min(max(float32(at)-w/2, 0), size.Width-w)
			placeLine(o, x, y, w)
			return x, x + w
		}
		a, b := over(figure, g.at(g.view.Now), 1)
		c, e := over(wanted, g.at((g.view.Low+g.view.High)/2), 1)
		wanted.Hidden = c < b+6 && e > a-6
		for i, t := range g.view.Ticks {
			over(ticks[i], g.at(t.At), gaugeLine+8)
		}
	}
	return d.ready()
}
