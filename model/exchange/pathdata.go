package exchange

import (
	"quarterstep/model/geom"
)

// stroke is one run of a drawn line: open, or closed by the pen's own Z.
type stroke struct {
	path   geom.Path
	closed bool
}

// pen follows path data (SVG 1.1, 8.3) in user units.
type pen struct {
	scanner
	perUnit float64 // mm per user unit, for arcs
	done    []stroke
	now     stroke
	at      geom.Point
	start   geom.Point
	handle  geom.Point // last control point, for S and T
	last    byte       // last command in capitals
	cubics  int        // drawn so far
}

// parsePath reads path data into its runs. Trouble is where reading stopped,
// empty when all was read. Of data with more than mostCubics curves only so many
// are read, for the caller to refuse.
func parsePath(d string, perUnit float64) (runs []stroke, trouble string) {
	p := &pen{scanner: scanner{s: d}, perUnit: perUnit}
	var cmd byte
	for {
		p.space()
		if p.scanner.done() || p.cubics > mostCubics {
			break
		}
		from := p.i
		if c := p.s[p.i]; isLetter(c) {
			p.i++
			cmd = c
		} else if cmd == 0 || upper(cmd) == 'Z' {
			return nil, shorten(d[from:])
		}
		if upper(cmd) != 'M' && p.last == 0 || !p.command(cmd) {
			return nil, shorten(d[from:])
		}
		switch cmd { // further pairs of a moveto are lines
		case 'M':
			cmd = 'L'
		case 'm':
			cmd = 'l'
		}
	}
	p.lift()
	return p.done, ""
}

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }

func upper(c byte) byte {
	if c >= 'a' {
		return c - 'a' + 'A'
	}
	return c
}

// lift ends the run being drawn.
func (p *pen) lift() {
	if len(p.now.path) > 0 {
		p.done = append(p.done, p.now)
	}
	p.now = stroke{}
}

// command obeys one command with one set of numbers; false where they lack.
func (p *pen) command(cmd byte) bool {
	name := upper(cmd)
	base := geom.Vec{}
	if cmd != name {
		base = geom.Vec(p.at)
	}
	ok := true
	switch name {
	case 'M':
		var q geom.Point
		if q, ok = p.point(base); ok {
			p.lift()
			p.at, p.start = q, q
		}
	case 'Z':
		p.close()
	case 'A':
		ok = p.arc(base)
	case 'L', 'H', 'V':
		ok = p.straight(name, base)
	case 'C', 'S', 'Q', 'T':
		ok = p.curve(name, base)
	default:
		return false
	}
	p.last = name
	return ok
}

func (p *pen) point(base geom.Vec) (geom.Point, bool) {
	x, okX := p.number()
	y, okY := p.number()
	return geom.Pt(x, y).Add(base), okX && okY
}

func (p *pen) add(c geom.Cubic) {
	p.now.path = append(p.now.path, c)
	p.cubics++
	p.at = c.P3
}

func (p *pen) close() {
	if len(p.now.path) > 0 {
		p.now.closed = true
		p.lift()
	}
	p.at = p.start
}

func (p *pen) straight(name byte, base geom.Vec) bool {
	q, ok := p.at, false
	switch name {
	case 'L':
		q, ok = p.point(base)
	case 'H':
		q.X, ok = p.number()
		q.X += base.X
	case 'V':
		q.Y, ok = p.number()
		q.Y += base.Y
	}
	if ok {
		p.add(geom.Line(p.at, q))
	}
	return ok
}

func (p *pen) curve(name byte, base geom.Vec) bool {
	// The handle mirrored counts only after a command of the same family.
	c1 := p.at
	if name == 'S' && (p.last == 'C' || p.last == 'S') || name == 'T' && (p.last == 'Q' || p.last == 'T') {
		c1 = p.at.Add(p.at.Sub(p.handle))
	}
	ok := true
	if name == 'C' || name == 'Q' {
		c1, ok = p.point(base)
	}
	c2 := c1
	if name == 'C' || name == 'S' {
		var okC bool
		c2, okC = p.point(base)
		ok = ok && okC
	}
	q, okQ := p.point(base)
	if !ok || !okQ {
		return false
	}
	p.handle = c2
	if name == 'Q' || name == 'T' {
		p.add(geom.Cubic{P0: p.at, P1: p.at.Lerp(c1, 2.0/3), P2: q.Lerp(c1, 2.0/3), P3: q})
	} else {
		p.add(geom.Cubic{P0: p.at, P1: c1, P2: c2, P3: q})
	}
	return true
}

func (p *pen) arc(base geom.Vec) bool {
	rx, ok1 := p.number()
	ry, ok2 := p.number()
	tilt, ok3 := p.number()
	large, ok4 := p.flag()
	sweep, ok5 := p.flag()
	q, ok6 := p.point(base)
	if !(ok1 && ok2 && ok3 && ok4 && ok5 && ok6) {
		return false
	}
	for _, c := range endArc(p.at, q, rx, ry, tilt, large, sweep, p.perUnit) {
		p.add(c)
	}
	return true
}
