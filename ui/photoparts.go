package ui

import (
	"context"
	"slices"

	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// joinedPart is a photo that lies on the flat picture of another, and how.
type joinedPart struct {
	ph       *photo
	straight paper.Straight
}

// partMarks are places of the paper clicked on a part and on what it is joined
// to; the first belongs to the first, and so on.
type partMarks struct {
	here  []geom.Point // px
	there []geom.Point // px of the photos on
	on    []*photo
}

// pairs is how many places are clicked on both.
func (m partMarks) pairs() int { return min(len(m.here), len(m.there)) }

// besideParts is how far apart, in mm, a part lies beside the others while they
// are joined.
const besideParts = 40

// leads is the photo on whose flat picture this one lies; nil for none.
func (ph *photo) leads() *photo {
	if ph.lead != nil && slices.ContainsFunc(ph.lead.joined, func(k joinedPart) bool { return k.ph == ph }) {
		return ph.lead
	}
	return nil
}

// joining reports whether the Table shows a part beside what it is joined to.
func (w *Window) joining(ph *photo) bool {
	return w.step == stepBringIn && ph != nil && ph.lead != nil && ph.solved && ph.lead.solved &&
		len(ph.flat) > 0 && len(ph.lead.flat) > 0 && !(ph.asTaken && ph.leads() == nil)
}

// leadNames are the photos that the photo in hand may show another part of, as
// the panel lists them: itself first.
func (w *Window) leadNames(ph *photo) (names []string, leads []*photo, chosen int) {
	if ph.shot == nil || len(ph.joined) > 0 {
		return nil, nil, 0
	}
	names, leads = []string{words.T("A piece of its own")}, []*photo{nil}
	for i, other := range w.paper.photos {
		if other == ph || other.shot == nil || other.lead != nil {
			continue
		}
		if other == ph.lead {
			chosen = len(names)
		}
		names = append(names, words.F("Another part of photo %d", i+1))
		leads = append(leads, other)
	}
	if len(names) == 1 {
		return nil, nil, 0
	}
	return names, leads, chosen
}

// chooseLead says that the photo in hand shows another part of a photo's piece,
// or a piece of its own.
func (w *Window) chooseLead(i int) {
	ph := w.photo()
	_, leads, chosen := w.leadNames(ph)
	if i == chosen || i >= len(leads) {
		return
	}
	w.letGo()
	if ph.leads() != nil {
		w.takeApart(ph)
		w.straighten(ph)
	}
	w.paper.toJoin = nil
	ph.lead, ph.marks, ph.note = leads[i], partMarks{}, ""
	if ph.lead != nil && ph.solved && ph.lead.solved {
		w.meet(ph)
	}
	w.refresh()
	w.table.Fit()
}

// meeting is what a part is said to be in while its overlap is looked for.
const meeting words.Text = "Looking where the parts meet"

// meet looks for the places of a part's overlap by itself.
func (w *Window) meet(ph *photo) {
	lead := ph.lead
	placed, on := lead.parts()
	own, shot := ph.straight, ph.shot
	if ph.byLengthsOf(lead) {
		own = own.ByLengthsOf(lead.straight)
	}
	w.beside(ph, meeting.String(), func(ctx context.Context, progress func(float64)) (func(), error) {
		marks, ok, err := shot.Meet(ctx, placed, own, progress)
		if err != nil {
			return nil, err
		}
		return func() {
			if ph.lead != lead || ph.marks.pairs() > 0 {
				return
			}
			if !ok {
				w.notMet(ph)
				return
			}
			ph.marks = partMarks{} // a place may be clicked on one photo only
			for _, m := range marks {
				ph.marks.here = append(ph.marks.here, m.Here)
				ph.marks.there, ph.marks.on = append(ph.marks.there, m.There), append(ph.marks.on, on[m.On])
			}
			w.join(ph)
		}, nil
	})
}

// parts are all that lie on a photo's flat picture, itself first.
func (ph *photo) parts() (placed []paper.Part, on []*photo) {
	placed, on = []paper.Part{{Photo: ph.shot, Straight: ph.straight}}, []*photo{ph}
	for _, k := range ph.joined {
		placed, on = append(placed, paper.Part{Photo: k.ph.shot, Straight: k.straight}), append(on, k.ph)
	}
	return placed, on
}

// partToJoin is a part with what it takes to lay it on those before it.
type partToJoin struct {
	ph    *photo
	shot  *paper.Photo
	own   paper.Straight
	marks []paper.Mark
	laid  *paper.Straight // where it lies already; nil to be found
	with  bool            // goes by the drawn lengths of the first
	scan  paper.Request   // of a scan without a drawn length of its own
	turns int             // quarter turns of it
	unit  measure.Unit
}

// byLengthsOf reports whether what was drawn on the first part is true of this
// one too: it lies by the same kind of thing, and has no drawn length itself.
func (ph *photo) byLengthsOf(lead *photo) bool {
	a, b := ph.ask, lead.ask
	return a.Reference == b.Reference && a.Paper == b.Paper && a.Cell == b.Cell && a.Reference != paper.Scan &&
		ph.seen.Layout == lead.seen.Layout && ph.straight.Off == 0 && len(ph.known()) == 0
}

// partsToJoin are parts to be laid anew on their lead, in their order.
func (w *Window) partsToJoin(lead *photo, joined []joinedPart) []partToJoin {
	order := map[*photo]int{}
	var out []partToJoin
	for i, k := range joined {
		order[k.ph] = i + 1
		q := partToJoin{ph: k.ph, shot: k.ph.shot, own: k.ph.straight, unit: measure.Unit(w.doc.Pattern().Unit), with: k.ph.byLengthsOf(lead)}
		if k.ph.ask.Reference == paper.Scan && len(k.ph.known()) == 0 && len(lead.known()) > 0 && k.ph.shot.ScannedAlike(lead.shot) {
			q.scan, q.turns = w.request(k.ph), k.ph.turns
			q.scan.Alike.Name = words.F("photo %d", slices.Index(w.paper.photos, lead)+1)
		}
		for n := range k.ph.marks.pairs() {
			q.marks = append(q.marks, paper.Mark{On: order[k.ph.marks.on[n]], There: k.ph.marks.there[n], Here: k.ph.marks.here[n]})
		}
		out = append(out, q)
	}
	return out
}

// layParts lays parts on the first, one after another.
func layParts(ctx context.Context, first paper.Part, parts []partToJoin) ([]paper.Part, error) {
	placed := []paper.Part{first}
	for _, q := range parts {
		s := q.laid
		if s == nil {
			own := q.own
			if q.with {
				own = own.ByLengthsOf(first.Straight)
			}
			if q.scan.Reference == paper.Scan && first.Straight.Scale[0] > 0 {
				q.scan.Alike.Scale = first.Straight.Scale
				again, err := q.shot.Straighten(ctx, q.scan)
				if err != nil {
					return nil, err
				}
				own = again.Turned(q.turns)
			}
			found, err := q.shot.Join(ctx, placed, own, q.marks, q.unit)
			if err != nil {
				return nil, err
			}
			s = &found
		}
		placed = append(placed, paper.Part{Photo: q.shot, Straight: *s})
	}
	return placed, nil
}

// joinedParts are parts as they were laid, without the first.
func joinedParts(parts []partToJoin, laid []paper.Part) []joinedPart {
	var out []joinedPart
	for i, q := range parts {
		out = append(out, joinedPart{q.ph, laid[i+1].Straight})
	}
	return out
}

// join lays a part on the others by its marks, and makes one flat picture of all.
func (w *Window) join(ph *photo) {
	lead := ph.lead
	if lead == nil || ph.marks.pairs() < 2 {
		return
	}
	joined := slices.Clone(lead.joined)
	if ph.leads() == nil {
		joined = append(joined, joinedPart{ph: ph})
	}
	parts := w.partsToJoin(lead, joined)
	for i, k := range joined {
		if k.ph != ph && !slices.Contains(k.ph.marks.on, ph) {
			parts[i].laid = &joined[i].straight
		}
	}
	first := paper.Part{Photo: lead.shot, Straight: lead.straight}
	w.beside(ph, words.T("Joining the parts"), func(ctx context.Context, progress func(float64)) (func(), error) {
		placed, err := layParts(ctx, first, parts)
		if err != nil {
			return nil, err
		}
		flat, err := paper.FlattenParts(ctx, placed, progress)
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(flat.Colour)
		return func() {
			if ph.lead != lead || lead.shot == nil {
				return
			}
			if i := slices.Index(w.paper.photos, lead); i >= 0 && w.photo() == ph {
				w.letGo()
				w.paper.inHand = i
			}
			now := laid{straight: lead.straight, solved: true, joined: joinedParts(parts, placed)}
			w.keepFlat(lead, now, flat, levels, words.F("join %s to %s", ph.name, lead.name))
			w.joinNext(lead)
		}, nil
	})
}

// takeApart takes a part off the flat picture it lies on; the rest is made flat
// without it.
func (w *Window) takeApart(ph *photo) {
	lead := ph.leads()
	if lead == nil {
		return
	}
	lead.joined = slices.DeleteFunc(slices.Clone(lead.joined), func(k joinedPart) bool { return k.ph == ph || slices.Contains(k.ph.marks.on, ph) })
	ph.lead, ph.marks = nil, partMarks{}
	for _, other := range w.paper.photos {
		if slices.Contains(other.marks.on, ph) {
			other.marks = partMarks{}
		}
	}
	w.straighten(lead)
}

// besideLead is where a part lies on the Table beside what it is joined to.
func besideLead(ph *photo) geom.Vec {
	return geom.Vec{X: float64(ph.lead.flat[0].Rect.Dx())/ph.lead.flatPer + besideParts}
}

// clickPart is a click on a part or on what it is joined to.
func (w *Window) clickPart(ph *photo, at geom.Point) {
	off := besideLead(ph)
	m := &ph.marks
	if at.X > off.X-besideParts/2 {
		if len(m.here) > len(m.there) {
			w.say(words.T("Now click the same place on the other photo, at the left."))
			return
		}
		m.here = append(m.here, ph.partPx(w.cornerNear(ph, at.Add(off.Scale(-1)))))
	} else {
		if len(m.there) > len(m.here) {
			w.say(words.T("Now click the same place on the other photo, at the right."))
			return
		}
		on, px := ph.lead.under(w.cornerNear(ph.lead, at), ph)
		if on == nil {
			w.say(words.T("There is no photo at this place."))
			return
		}
		m.there, m.on = append(m.there, px), append(m.on, on)
	}
	if len(m.here) == len(m.there) && m.pairs() >= 2 {
		w.join(ph)
	}
	w.refresh()
}

// cornerNear is the corner of printed lines near a place of a flat picture, mm,
// else the place itself.
func (w *Window) cornerNear(ph *photo, mm geom.Point) geom.Point {
	const most = 2 // mm
	if ph.lines != nil {
		if c, ok := ph.lines.Corner(mm, min(w.table.Reach(), most)); ok {
			return c
		}
	}
	return mm
}

// partPx is a place of a photo's own flat picture, mm, in its px.
func (ph *photo) partPx(mm geom.Point) geom.Point {
	return ph.straight.Map.Pixel(mm.Add(geom.Vec(ph.from)))
}

// under is the photo that a flat picture shows at a place, mm, and its px there:
// the one whose edge is farthest. A part is joined to those before it alone.
func (ph *photo) under(mm geom.Point, before *photo) (on *photo, px geom.Point) {
	placed, photos := ph.parts()
	best := 0.0
	for i, q := range placed {
		if photos[i] == before {
			break
		}
		at := q.Straight.Map.Pixel(mm.Add(geom.Vec(ph.from)))
		size := q.Photo.Picture.Size()
		edge := min(at.X, at.Y, float64(size.X)-at.X, float64(size.Y)-at.Y)
		if edge > best {
			best, on, px = edge, photos[i], at
		}
	}
	return on, px
}

// markOnLead is where a mark lies on the flat picture that a part is joined to.
func (ph *photo) markOnLead(i int) geom.Point {
	placed, photos := ph.lead.parts()
	k := max(slices.Index(photos, ph.marks.on[i]), 0)
	return placed[k].Straight.Map.MM(ph.marks.there[i]).Add(geom.Vec(ph.lead.from).Scale(-1))
}

// partsOnTable lays a part beside what it is joined to, with the marks on both.
func (w *Window) partsOnTable(in *scene.Input, ph *photo) {
	off := besideLead(ph)
	in.Photos = []scene.Photo{
		{Levels: ph.lead.flat, PerMM: ph.lead.flatPer},
		{Levels: ph.flat, PerMM: ph.flatPer, At: geom.Point(off)},
	}
	t := &scene.Trace{}
	for i := range ph.marks.there {
		t.Targets = append(t.Targets, scene.TraceTarget{At: ph.markOnLead(i), Number: i + 1})
	}
	for i, px := range ph.marks.here {
		t.Targets = append(t.Targets, scene.TraceTarget{At: ph.flatMM(px).Add(off), Number: i + 1})
	}
	in.Trace = t
}

// tryMarks offers the marks on both photos to be taken hold of.
func (w *Window) tryMarks(ph *photo, try func(*geom.Point, geom.Point, func(geom.Point) geom.Point, func())) {
	off := besideLead(ph)
	then := func() {
		if len(ph.marks.here) == len(ph.marks.there) {
			w.join(ph)
		}
	}
	for i := range ph.marks.here {
		try(&ph.marks.here[i], ph.flatMM(ph.marks.here[i]).Add(off), func(at geom.Point) geom.Point {
			return ph.partPx(at.Add(off.Scale(-1)))
		}, then)
	}
	for i := range ph.marks.there {
		was := ph.marks.there[i]
		try(&ph.marks.there[i], ph.markOnLead(i), func(at geom.Point) geom.Point {
			on, px := ph.lead.under(at, ph)
			if on == nil {
				return was
			}
			ph.marks.on[i] = on
			return px
		}, then)
	}
}

// partAsk is what to click of a part.
func partAsk(ph *photo) string {
	m := ph.marks
	if ph.job.words != "" && m.pairs() >= 2 {
		return ""
	}
	if len(m.here) == len(m.there) && m.pairs() >= 2 && (ph.note != "" || ph.leads() == nil) {
		return words.T("*Not joined:* drag a mark to mend it, or click one more place on both")
	}
	if len(m.here) == len(m.there) && m.pairs() >= 2 {
		return words.T("*Joined:* drag a mark to mend it, or click one more place on both")
	}
	n := m.pairs() + 1
	switch {
	case ph.job.words == meeting.String() && len(m.here)+len(m.there) == 0:
		return words.T("Finding by itself where the photos meet. This takes a while")
	case len(m.there) > len(m.here):
		return words.F("*Mark %d:* click the same place on the right photo", n)
	case len(m.here) > len(m.there):
		return words.F("*Mark %d:* click the same place on the left photo", n)
	}
	return words.F("*Mark %d:* click a place that both photos show, then the same place on the other", n)
}

// undoMark takes the last mark back.
func (ph *photo) undoMark() {
	m := &ph.marks
	switch {
	case len(m.here) > len(m.there):
		m.here = m.here[:len(m.here)-1]
	case len(m.there) > len(m.here):
		m.there, m.on = m.there[:len(m.there)-1], m.on[:len(m.on)-1]
	case len(m.here) > 0:
		m.here = m.here[:len(m.here)-1]
	}
}

// partViews are the photos on the flat picture of the one in hand, and how far
// each is to be trusted.
func (w *Window) partViews(ph *photo) []panel.PartView {
	if len(ph.joined) == 0 {
		return nil
	}
	number := func(q *photo) string { return words.F("Photo %d", slices.Index(w.paper.photos, q)+1) }
	out := []panel.PartView{{Name: number(ph), Words: words.T("The first, the others go by it.")}}
	for _, k := range ph.joined {
		out = append(out, panel.PartView{Name: number(k.ph), Words: k.straight.Say})
	}
	return out
}

// choosePart takes the i-th photo on the flat picture in hand in hand.
func (w *Window) choosePart(i int) {
	if ph := w.photo(); ph != nil && i > 0 && i <= len(ph.joined) {
		w.choosePhoto(slices.Index(w.paper.photos, ph.joined[i-1].ph))
	}
}
