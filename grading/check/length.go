package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/length"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// lengthsAlike is by how many mm the amounts put in at the two sides of a seam
// may differ: they are typed, so that any difference is meant to be none.
const lengthsAlike = 0.05

// lengths looks whether what is put into the length is put in on both sides of
// every link, and hems are moved all along.
func (l *looking) lengths() Checked {
	out := Checked{Check: "length"}
	var says []string
	for _, x := range l.p.Lengths {
		if x.By != 0 {
			says = append(says, longerBy(x.By, l.p)+" "+at(x.Name))
		}
	}
	if len(says) == 0 {
		return out
	}
	out.Title, out.Say = words.T("Length"), strings.Join(says, ", ")
	seen := map[string]bool{}
	for _, k := range l.p.Links {
		f, ok := l.oneSided(k)
		if key := f.Code + f.Say; ok && !seen[key] {
			seen[key] = true
			out.Findings = append(out.Findings, f)
		}
	}
	out.Findings = append(out.Findings, l.each(l.partHem)...)
	return out
}

// longerBy is "20 mm longer" or "20 mm shorter".
func longerBy(by float64, p model.Pattern) string {
	if by < 0 {
		return words.F("%s shorter", show(-by, p))
	}
	return words.F("%s longer", show(by, p))
}

// at is where a lengthening is, inside a sentence: "above the waist", "at the
// hem".
func at(name string) string {
	if where, ok := length.Where(name); ok {
		return where
	}
	return fmt.Sprintf(words.C("of a lengthening", "at the %s"), words.Small(name))
}

// oneSided finds a link of which one side is made longer by more than the other.
// Of a leader of several pieces each is sewn to a part of the follower that is
// not known here, so that those are left to the length of the seam.
func (l *looking) oneSided(k model.Link) (Finding, bool) {
	a, b, lead := l.p.PieceIndex(k.Lead.Piece), l.p.PieceIndex(k.Follow.Piece), k.Lead
	if a < 0 || b < 0 || len(k.And) > 0 {
		return Finding{}, false
	}
	here, there := l.putAcross(a, lead), l.putAcross(b, k.Follow)
	if math.Abs(total(here)-total(there)) <= lengthsAlike {
		return Finding{}, false
	}
	if math.Abs(total(there)) > math.Abs(total(here)) {
		a, b, here, there, lead = b, a, there, here, k.Follow
	}
	return l.oneSide(a, b, here, there, lead), true
}

// oneSide words the finding: piece a has more put in than b.
func (l *looking) oneSide(a, b int, here, there []grading.Put, seam model.Stretch) Finding {
	p, q := l.p.Pieces[a], l.p.Pieces[b]
	more := here[0]
	if i := slices.IndexFunc(here, func(x grading.Put) bool { return !hasPut(there, x.Length) }); i >= 0 {
		more = here[i]
	}
	longer, where := longerBy(total(here), l.p), at(more.Name)
	what, say := words.F("%s is %s, %s is not", p.Name, longer, q.Name), words.F("%s is %s %s, %s is not.", p.Name, longer, where, q.Name)
	if t := total(there); math.Abs(t) > lengthsAlike {
		only := show(math.Abs(t), l.p)
		what, say = words.F("%s is %s, %s only %s", p.Name, longer, q.Name, only), words.F("%s is %s %s, %s only %s.", p.Name, longer, where, q.Name, only)
	}
	j := p.EdgeIndex(seam.Edges[0])
	for _, e := range seam.Edges {
		if more.Line != "" && l.lineCrosses(a, more.Line, model.Stretch{Piece: p.ID, Edges: []string{e}}) {
			j = p.EdgeIndex(e)
		}
	}
	f := Finding{
		Code: "length-one-sided", Piece: p.ID, Edge: p.Edges[j].ID, Where: middle(l.r.Pieces[a].Edges[j]), By: total(here) - total(there), Look: true,
		What: what, Much: where, Say: say,
		Help: words.F("Make %s as long, or take it back.", q.Name),
		Action: Action{
			Do: EvenLength, Label: words.F("Make %s %s too", q.Name, longerBy(more.By, l.p)), Length: more.Length,
		},
	}
	if more.Line == "" {
		f.Code = "uneven-hem"
	}
	return f
}

func hasPut(all []grading.Put, id string) bool {
	return slices.ContainsFunc(all, func(x grading.Put) bool { return x.Length == id })
}

func total(all []grading.Put) (mm float64) {
	for _, x := range all {
		mm += x.By
	}
	return mm
}

// putAcross is what was put into piece i across a stretch of it: at lines that
// cross its edges, and at hems beside its ends.
func (l *looking) putAcross(i int, s model.Stretch) []grading.Put {
	var out []grading.Put
	for _, x := range l.r.Pieces[i].Put {
		if x.Line != "" && l.lineCrosses(i, x.Line, s) || x.Line == "" && l.hemBeside(i, x.Length, s) {
			out = append(out, x)
		}
	}
	return out
}

// lineCrosses reports that a line drawn on piece i, carried on both ways, runs
// across a stretch.
func (l *looking) lineCrosses(i int, line string, s model.Stretch) bool {
	r := l.r.Pieces[i]
	for _, drawn := range r.Lines {
		if drawn.ID != line || len(drawn.Path) == 0 {
			continue
		}
		box := r.Outline().Bounds()
		reach := drawn.Path.End().Sub(drawn.Path.Start()).Unit().Scale(box.Width() + box.Height())
		mid := drawn.Path.Start().Lerp(drawn.Path.End(), 0.5)
		whole := geom.Polyline(mid.Add(reach.Scale(-1)), mid.Add(reach))
		for _, e := range s.Edges {
			if j := l.p.Pieces[i].EdgeIndex(e); j >= 0 && len(geom.Intersect(whole, r.Edges[j], lineTol)) > 0 {
				return true
			}
		}
	}
	return false
}

// hemBeside reports that a stretch of piece i ends at a hem that a lengthening
// moves, without being of it.
func (l *looking) hemBeside(i int, id string, s model.Stretch) bool {
	q := l.p.Pieces[i]
	moved := l.movedHem(q, id)
	for _, e := range s.Edges {
		j := q.EdgeIndex(e)
		if j < 0 || moved[j] {
			return false
		}
		n := len(q.Edges)
		if moved[(j+1)%n] || moved[(j+n-1)%n] {
			return true
		}
	}
	return false
}

// movedHem is which edges of q a lengthening moves.
func (l *looking) movedHem(q model.Piece, id string) []bool {
	out := make([]bool, len(q.Edges))
	for _, x := range l.p.Lengths {
		for _, h := range x.Hems {
			if x.ID != id || h.Piece != q.ID {
				continue
			}
			for _, e := range h.Edges {
				if j := q.EdgeIndex(e); j >= 0 {
					out[j] = true
				}
			}
		}
	}
	return out
}

// partHem finds hems of which a lengthening moves a part only: a step in the
// line where the rest runs on.
func (l *looking) partHem(q model.Piece, r grading.Piece) []Finding {
	var out []Finding
	n := len(q.Edges)
	for _, x := range r.Put {
		if x.Line != "" {
			continue
		}
		moved := l.movedHem(q, x.Length)
		for j := range q.Edges {
			next := (j + 1) % n
			if moved[j] == moved[next] || q.Edges[j].Kind != model.Hem || q.Edges[next].Kind != model.Hem {
				continue
			}
			out = append(out, Finding{
				Code: "uneven-hem", Piece: q.ID, Edge: q.Edges[j].ID, Point: q.Points[next].ID, Where: r.Edges[next].Start(), By: math.Abs(x.By), Look: true,
				What: words.F("Hem of %s is uneven", q.Name), Much: words.F("a step of %s", show(math.Abs(x.By), l.p)),
				Say:    words.F("The hem of %s is %s in one part only: the %s stays.", q.Name, longerBy(x.By, l.p), edgeName(q, map[bool]int{true: next, false: j}[moved[j]])),
				Help:   words.T("Move the hem all along."),
				Action: Action{Do: EvenLength, Label: words.T("Move the hem all along"), Length: x.Length},
			})
		}
	}
	return out
}
