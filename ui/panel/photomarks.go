package panel

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// shareBar is how far something is, as a bar.
type shareBar struct {
	widget.BaseWidget
	share float64
}

func newShareBar() *shareBar {
	b := &shareBar{}
	b.ExtendBaseWidget(b)
	return b
}

func (b *shareBar) set(share float64) {
	if b.share != share {
		b.share = share
		b.Refresh()
	}
}

func (b *shareBar) CreateRenderer() fyne.WidgetRenderer {
	back, front := canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	back.CornerRadius, front.CornerRadius = 4, 4
	d := &drawn{objects: []fyne.CanvasObject{back, front}}
	d.paint = func(p theme.Palette) { back.FillColor, front.FillColor = p.Button, p.Accent }
	d.min = func() fyne.Size { return fyne.NewSize(60, 8) }
	d.lay = func(s fyne.Size) {
		place(back, 0, 0, s.Width, s.Height)
		place(front, 0, 0, s.Width*float32(min(max(b.share, 0), 1)), s.Height)
	}
	return d.ready()
}

// targetRow shows which of the places a photo is straightened by are there.
type targetRow struct {
	widget.BaseWidget
	found []bool
}

func newTargetRow() *targetRow {
	r := &targetRow{}
	r.ExtendBaseWidget(r)
	return r
}

func (r *targetRow) set(found []bool) {
	r.found = found
	r.Refresh()
}

func (r *targetRow) CreateRenderer() fyne.WidgetRenderer {
	d := &drawn{}
	d.paint = func(theme.Palette) {
		d.objects = d.objects[:0]
		for i, ok := range r.found {
			name, t := theme.Ring, tone(inkSoft)
			if ok {
				name, t = theme.Tick, ink
			}
			d.objects = append(d.objects, newBox(raisedFill, separatorInk, 1.2, theme.ControlRadius),
				newBold(fmt.Sprint(i+1), theme.Body, ink), newMark(name, 15, t))
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(100, max(32, theme.Px(32))) }
	d.lay = func(s fyne.Size) {
		n := len(r.found)
		w := (s.Width - float32(8*(n-1))) / float32(max(n, 1))
		for i := range n {
			x := float32(i) * (w + 8)
			place(d.objects[3*i], x, 0, w, s.Height)
			middle(d.objects[3*i+1], x+w/2-theme.Px(18), theme.Px(14), s.Height)
			middle(d.objects[3*i+2], x+w/2+theme.Px(4), theme.Px(15), s.Height)
		}
	}
	return d.ready()
}
