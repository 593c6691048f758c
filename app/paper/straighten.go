package paper

import (
	"context"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/trace/straight"
)

// Reference is what a picture is made flat and to scale by.
type Reference string

// The references that are clicked or typed. Targets are found by themselves.
const (
	Scan Reference = "scan" // by the file's own scale, checked by drawn lengths
	Page Reference = "page" // a plain A4 or Letter page: its four corners
	Mat  Reference = "mat"  // a cutting mat: the corners of one square, or of several
)

// Request is what is known of a picture.
type Request struct {
	Reference Reference
	Clicks    [4]geom.Point    // px: the page's or the mat's corners, in any order
	Paper     straight.Paper   // for Page
	Cell      float64          // for Mat: mm of a square's side
	Across    int              // for Mat: squares between the clicks; 0 is 1
	Down      int              //
	Apart     [2]float64       // for Targets: mm between the cards 1 and 2, and 2 and 3; 0 not measured
	Seen      Sighting         // for Targets: what FindTargets told; they are looked for where it is left out
	Known     []straight.Known // lengths drawn on the picture
	Alike     Alike            // for Scan: another scan of the same kind, with such lengths
	Lenses    []straight.KnownLens
	Unit      measure.Unit // what lengths are said in
}

// Alike is a scan of the same scanner at the same pixels to the inch, on which a
// length was drawn: what it told of the scanner is true of this one too. The zero
// value is none.
type Alike struct {
	Name  string     // how it is called to the sewist
	Scale [2]float64 // see Straight
}

// Straight is a picture's way to the flat paper.
type Straight struct {
	Map    straight.Map
	Say    string              // how far it is to be trusted, a sentence
	Points int                 // how many places it goes by
	Scale  [2]float64          // of a scan: by what each way of it was made larger than the file says; 0 where nothing was drawn on it, or on one alike
	Off    float64             // by what share drawn lengths made the paper larger, see straight.Measured
	Bounds geom.Box            // of the paper in the picture, mm
	Covers []straight.Cover    // what lies on the paper in the picture, px
	Learnt *straight.KnownLens // to be kept for later photos; nil for none
}

// Straighten finds the way from a picture's pixels to the flat paper.
func (p *Photo) Straighten(ctx context.Context, r Request) (Straight, error) {
	var out Straight
	var err error
	switch r.Reference {
	case Scan:
		out, err = p.byScale(r)
	case Page:
		out, err = p.byPage(ctx, r)
	case Mat:
		out, err = p.byMat(ctx, r)
	case Targets:
		out, err = p.byTargets(ctx, r)
	default:
		err = words.Error("say what lies beside the piece")
	}
	if err != nil {
		return Straight{}, err
	}
	if (r.Reference == Page || r.Reference == Mat) && len(r.Known) > 0 {
		if err := out.check(r); err != nil {
			return Straight{}, err
		}
	}
	return out, out.bound(p)
}

func (p *Photo) byScale(r Request) (Straight, error) {
	per, of := p.Picture.PerInch, r.Alike
	if len(r.Known) > 0 || of.Scale[0] <= 0 || of.Scale[1] <= 0 || per[0] <= 0 || per[1] <= 0 {
		s, err := straight.FromScan(per, r.Known)
		out := Straight{Map: s.Map, Say: s.Say(r.Unit), Points: s.Misfit.Points}
		if len(r.Known) > 0 {
			out.Scale = [2]float64{1 + s.Off[0], 1 + s.Off[1]}
		}
		return out, err
	}
	s, err := straight.FromScan([2]float64{per[0] / of.Scale[0], per[1] / of.Scale[1]}, nil)
	return Straight{Map: s.Map, Say: of.say(), Scale: of.Scale}, err
}

// say is what a scan goes by that has no drawn length itself.
func (a Alike) say() string {
	worst := 0.0
	for _, k := range a.Scale {
		worst = max(worst, math.Abs(k-1))
	}
	if worst < 0.0005 {
		return words.F("By the length drawn on %s, scanned alike: to scale.", a.Name)
	}
	return words.F("By the length drawn on %s, scanned alike: put right by %s %%.", a.Name, words.Figure(100*worst, 1))
}

// ScannedAlike reports whether two pictures are scans that say the same of their
// scale, as those of one scanner do.
func (p *Photo) ScannedAlike(o *Photo) bool {
	return p.IsScan() && o.IsScan() && p.Picture.PerInch == o.Picture.PerInch && p.Picture.Format == o.Picture.Format
}

func (p *Photo) byPage(ctx context.Context, r Request) (Straight, error) {
	full, done, err := p.hold(true)
	if err != nil {
		return Straight{}, err
	}
	defer done()
	shot := p.shot(r)
	shot.Color = full.Color
	s, err := straight.FromSheet(ctx, full.Gray, r.Clicks, r.Paper, shot)
	return Straight{Map: s.Map, Say: s.Say(r.Unit), Points: s.Misfit.Points, Covers: []straight.Cover{pageCover(r.Clicks)}}, err
}

func (p *Photo) byMat(ctx context.Context, r Request) (Straight, error) {
	full, done, err := p.hold(true)
	if err != nil {
		return Straight{}, err
	}
	defer done()
	shot := p.shot(r)
	shot.Color = full.Color
	m, err := straight.FromMat(ctx, full.Gray, straight.Grid{Corners: r.Clicks, Across: r.Across, Down: r.Down, Cell: r.Cell}, shot)
	if err != nil {
		return Straight{}, err
	}
	out := Straight{Map: m.Map, Say: m.Misfit.Say(r.Unit), Points: m.Misfit.Points}
	out.learn(p)
	return out, nil
}

func (p *Photo) shot(r Request) straight.Shot {
	return straight.Shot{Focal35: p.Picture.Focal35, Lens: p.lensFor(r.Lenses)}
}

// learn keeps the lens of a photo by whose reference it is well known.
func (s *Straight) learn(p *Photo) {
	if p.Picture.Camera == "" || s.Map.Lens.K1 == 0 {
		return
	}
	k := straight.Learn(p.Picture.Camera, p.Picture.Focal35, s.Map.Lens, p.Picture.Size(), p.Picture.Turn.Stored)
	s.Learnt = &k
}

// check holds the map to the lengths drawn on the picture: it says what they
// mean, and goes by them.
func (s *Straight) check(r Request) error {
	d, err := straight.Measure(s.Map, r.Known)
	if err != nil {
		return err
	}
	s.Map, s.Off, s.Say = d.Map, d.Off, s.Say+" "+d.Say(r.Unit)
	return nil
}

const (
	// leastPerMM is the fewest pixels to a millimetre at which paper counts as
	// seen: towards the horizon of a photo taken aslant it runs out.
	leastPerMM = 2.0
	// farthest is how far, in mm, the paper of one picture may reach.
	farthest = 4000
)

// bound finds how much paper the picture shows, by a grid of its pixels.
func (s *Straight) bound(p *Photo) error {
	const parts = 24
	size := p.Picture.Size()
	var box geom.Box
	for i := range parts + 1 {
		for j := range parts + 1 {
			px := geom.Pt(float64(size.X)*float64(i)/parts, float64(size.Y)*float64(j)/parts)
			mm := s.Map.MM(px)
			if !mm.Finite() || math.Abs(mm.X) > farthest || math.Abs(mm.Y) > farthest || !(s.Map.PerMM(px) >= leastPerMM) {
				continue
			}
			box = box.Union(geom.BoxOf(mm))
		}
	}
	if !(box.Width() >= 20) || !(box.Height() >= 20) {
		return words.Error("the picture shows too little of the paper, or too small: take it from nearer by")
	}
	s.Bounds = box
	return nil
}
