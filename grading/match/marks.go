package match

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// linesOf gathers a piece's lines over its sizes: those of the same kind and
// name, in the order drawn, are one line. Their directions are made to agree
// with the first size's. Where sizes share a cutting line, a mark of any of them
// is the mark of all, once.
func linesOf(raw exchange.RawPiece) []model.Line {
	var out []model.Line
	at := map[string]int{}
	nth := map[string]int{}
	for _, l := range raw.Lines {
		if l.Kind == exchange.Notch {
			continue
		}
		key := string(l.Kind) + "|" + strings.ToLower(l.Name)
		layer := key + "|" + strings.Join(l.Sizes(), "/")
		nth[layer]++
		key = fmt.Sprintf("%s|%d", key, nth[layer])
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, model.Line{ID: fmt.Sprintf("l%d", i+1), Name: l.Name, Kind: l.Kind})
		}
		p := l.Path
		if d := out[i].Drawn; len(d) > 0 && opposed(d[0].Path, p) {
			p = p.Reverse()
		}
		for _, size := range markSizes(raw, l) {
			if !slices.ContainsFunc(out[i].Drawn, func(d model.SizedPath) bool { return d.Size == size }) {
				out[i].Drawn = append(out[i].Drawn, model.SizedPath{Size: size, Path: p})
			}
		}
	}
	return out
}

// markSizes is the sizes a mark is kept for: the first of each cutting line it
// is drawn for; "" where it serves all.
func markSizes(raw exchange.RawPiece, l exchange.RawLine) []string {
	if l.Size == "" {
		return []string{""}
	}
	var out []string
	for _, o := range raw.Outlines {
		if drawnFor(l, o.Sizes()) {
			out = append(out, o.Size)
		}
	}
	if len(out) == 0 {
		return []string{l.Size}
	}
	return out
}

// drawnFor reports whether a mark is drawn for one of those sizes, or for all.
func drawnFor(l exchange.RawLine, sizes []string) bool {
	return l.Size == "" || slices.ContainsFunc(l.Sizes(), func(s string) bool { return slices.Contains(sizes, s) })
}

// opposed reports whether b is a walked the other way.
func opposed(a, b geom.Path) bool {
	u, v := a.End().Sub(a.Start()), b.End().Sub(b.Start())
	return u.Dot(v) < 0
}

const (
	// offEdge is how far in mm from the cutting line a notch may be drawn.
	offEdge = 12.0
	// pairWithin is how near in mm two notches on an edge are a double one.
	pairWithin = 10.0
)

// spot is a notch of one size.
type spot struct {
	edge   int
	s      float64 // mm along the edge
	share  float64 // of the edge's length
	double bool
}

// notches places the drawn notches on the edges and matches them across the
// sizes by edge and order along it.
func (n *nest) notches(lines []exchange.RawLine) []model.Notch {
	perEdge := make([][]model.Notch, len(n.tracks))
	shares := make([][]float64, len(n.tracks)) // of the first size that has it
	for i, r := range n.rings {
		for e, spots := range n.spots(i, lines) {
			taken := map[int]bool{}
			for _, sp := range spots {
				k := nearestFree(shares[e], taken, sp.share)
				if k < 0 {
					k = len(perEdge[e])
					perEdge[e] = append(perEdge[e], model.Notch{Edge: fmt.Sprintf("e%d", e+1)})
					shares[e] = append(shares[e], sp.share)
				}
				taken[k] = true
				m := &perEdge[e][k]
				m.Double = m.Double || sp.double
				m.Spots = append(m.Spots, model.Spot{Size: r.size, S: sp.s})
			}
		}
	}
	var out []model.Notch
	for _, e := range perEdge {
		for _, m := range e {
			m.ID = fmt.Sprintf("n%d", len(out)+1)
			out = append(out, m)
		}
	}
	return out
}

// sameNotch is how far apart the shares of the same notch in two sizes may lie.
const sameNotch = 0.12

func nearestFree(shares []float64, taken map[int]bool, share float64) int {
	best, least := -1, sameNotch
	for k, s := range shares {
		if d := math.Abs(s - share); !taken[k] && d < least {
			best, least = k, d
		}
	}
	return best
}

// spots is the notches of ring i by edge, in order along it. Where sizes share
// the ring and each has its notches drawn, those of the first count.
func (n *nest) spots(i int, lines []exchange.RawLine) [][]spot {
	r := n.rings[i]
	out := make([][]spot, len(n.tracks))
	size := notchedSize(r, lines)
	for _, l := range lines {
		if l.Kind != exchange.Notch || !drawnFor(l, []string{size}) {
			continue
		}
		s, ok := r.notchPlace(l.Path)
		if !ok {
			if l.Size != "" {
				n.doubt(i, l.Path.Start(), words.T("A notch lies off the cutting line and was left out."))
			}
			continue
		}
		e := n.intervalOf(i, s)
		start, end := n.tracks[e].at[i].s, n.tracks[(e+1)%len(n.tracks)].at[i].s
		sp := spot{edge: e, s: r.ahead(start, s)}
		sp.share = sp.s / r.ahead(start, end)
		out[e] = append(out[e], sp)
	}
	for e := range out {
		out[e] = paired(out[e])
	}
	return out
}

// notchedSize is the first size of a ring that has notches of its own.
func notchedSize(r *ring, lines []exchange.RawLine) string {
	for _, size := range r.sizes() {
		for _, l := range lines {
			if l.Kind == exchange.Notch && l.Size != "" && drawnFor(l, []string{size}) {
				return size
			}
		}
	}
	return r.size
}

// notchPlace is where a notch meets the ring: where it crosses it, else where
// its nearest end or its middle lies nearest.
func (r *ring) notchPlace(p geom.Path) (float64, bool) {
	if x := geom.Intersect(r.path, p, ringTol); len(x) > 0 {
		return r.m.To(x[0].IA, x[0].TA), true
	}
	best, least := 0.0, offEdge
	for _, q := range []geom.Point{p.Start(), p.End(), p[len(p)/2].At(0.5)} {
		if k, t, d := r.path.Nearest(q, ringTol); d < least {
			best, least = r.m.To(k, t), d
		}
	}
	return best, least < offEdge
}

// paired sorts notches along their edge and makes one double of two neighbours.
func paired(spots []spot) []spot {
	sort.Slice(spots, func(a, b int) bool { return spots[a].s < spots[b].s })
	var out []spot
	for _, sp := range spots {
		if last := len(out) - 1; last >= 0 && !out[last].double && sp.s-out[last].s < pairWithin {
			out[last].s, out[last].share = (out[last].s+sp.s)/2, (out[last].share+sp.share)/2
			out[last].double = true
			continue
		}
		out = append(out, sp)
	}
	return out
}
