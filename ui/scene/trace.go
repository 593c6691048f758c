package scene

import (
	"fmt"
	"math"

	"quarterstep/model/geom"
)

// Trace is what is being traced from a photo, or marked on it, on the Table.
type Trace struct {
	Lines   []TracedLine
	Marks   []Line       // grain, notches and the like, in their own inks
	Live    geom.Path    // the line to the pointer
	Next    []geom.Point // corners proposed and not confirmed yet
	Corners []TraceCorner
	Doubts  []geom.Point // where another line was nearly as good
	Targets []TraceTarget
	Frame   []geom.Path // what joins the targets or the clicks
	Hint    geom.Point
	Aim     bool // Hint is where a click would go
}

// TracedLine is the line of one size.
type TracedLine struct {
	Path   geom.Path
	Size   string
	I, N   int  // its place among the sizes, for its ink
	InHand bool // the size being traced
	Asked  bool // proposed and not confirmed yet
}

// TraceCorner is a corner of the line in hand; Round is a point on a curve.
type TraceCorner struct {
	At       geom.Point
	Round    bool
	Selected bool
}

// TraceTarget is a target found on a photo, or a place clicked: its number, and
// half its side on the Table.
type TraceTarget struct {
	At     geom.Point
	Half   float64
	Number int      // 0 for none
	Picked bool     // the keys move it
	Side   geom.Vec // where its number stands from it; zero is left
}

// trace draws what is traced: the sizes done in their inks, the one in hand as
// the new line, what is proposed in dashes, and what is doubtful in amber.
func (l *Layer) trace(in Input, t Trace) {
	for _, k := range t.Lines {
		line := Line{Path: k.Path, Width: 1.8, Round: true, Ink: NestInk(k.I, k.N), Alpha: 1}
		switch {
		case k.Asked:
			l.halo(k.Path, 5)
			line.Width, line.Dash, line.Ink = 2.2, []float64{6, 4}, InkAccent
		case k.InHand:
			l.halo(k.Path, 6)
			line.Width, line.Ink = 2.6, InkAccent
		default:
			l.halo(k.Path, 4)
		}
		l.Lines = append(l.Lines, line)
		l.traceNumber(k)
	}
	l.Lines = append(l.Lines, t.Marks...)
	for _, path := range t.Frame {
		l.Lines = append(l.Lines, Line{Path: path, Width: 1.3, Dash: []float64{7, 4}, Ink: InkAccent, Alpha: 1})
	}
	if len(t.Live) > 0 {
		l.halo(t.Live, 5)
		l.Lines = append(l.Lines, Line{Path: t.Live, Width: 2.2, Dash: []float64{3, 4}, Round: true, Ink: InkAccent, Alpha: 1})
	}
	for _, k := range t.Targets {
		l.traceTarget(in, k)
	}
	for _, d := range t.Doubts {
		l.Dots = append(l.Dots, Dot{At: d, Radius: 9, Mark: LookAt})
	}
	for _, c := range t.Corners {
		h := Handle{At: c.At}
		if c.Round {
			h.Shape = Curve
		}
		if c.Selected {
			h.State = Selected
		}
		l.Handles = append(l.Handles, h)
	}
	for _, p := range t.Next {
		l.Handles = append(l.Handles, Handle{At: p, Shape: Bend})
	}
	if t.Aim {
		l.Handles = append(l.Handles, Handle{At: t.Hint, Shape: Bend, State: Selected})
	}
}

// halo is the light rim under a line drawn over a photo.
func (l *Layer) halo(path geom.Path, width float64) {
	l.Lines = append(l.Lines, Line{Path: path, Width: width, Round: true, Ink: InkRaised, Alpha: 0.7})
}

// traceNumber writes a traced line's size beside its beginning.
func (l *Layer) traceNumber(k TracedLine) {
	if len(k.Path) == 0 || k.Size == "" {
		return
	}
	at, _ := along(k.Path[:1], 0.3)
	ink := NestInk(k.I, k.N)
	if k.InHand || k.Asked {
		ink = InkAccentWords
	}
	l.Texts = append(l.Texts, Text{Words: k.Size, At: at, Size: 12, Bold: true, Ink: ink, Halo: InkRaised})
}

// traceTarget draws the four corners of a frame round a target, and its number
// in a disc beside it.
func (l *Layer) traceTarget(in Input, k TraceTarget) {
	h := max(k.Half, 10/in.Scale)
	arm := h * 0.45
	for _, c := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		at := geom.Pt(k.At.X+c[0]*h, k.At.Y+c[1]*h)
		l.Lines = append(l.Lines, Line{
			Path:  geom.Polyline(geom.Pt(at.X-c[0]*arm, at.Y), at, geom.Pt(at.X, at.Y-c[1]*arm)),
			Width: 3, Ink: InkAccent, Alpha: 1,
		})
	}
	if k.Picked {
		l.Handles = append(l.Handles, Handle{At: k.At, State: Selected})
	}
	if k.Number > 0 {
		side := geom.Vec{X: -1, Y: -0.5}
		if !k.Side.IsZero() {
			side = k.Side
		}
		side = side.Unit()
		side = side.Scale(h*in.Scale/max(math.Abs(side.X), math.Abs(side.Y)) + 16)
		l.Dots = append(l.Dots, Dot{At: k.At, DX: side.X, DY: side.Y, Radius: 12, Ink: InkAccent})
		l.Texts = append(l.Texts, Text{Words: fmt.Sprint(k.Number), At: k.At, DX: side.X, DY: side.Y, Size: 13, Bold: true, Ink: InkOnAccent})
	}
}
