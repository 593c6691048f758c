package model

import (
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// joinsWithin is how far, in mm, a traced edge may end from its corner.
const joinsWithin = 1e-6

func (c *checker) pictures() {
	ids := idSet{}
	for i, q := range c.p.Pictures {
		place := or(q.Name, words.Text("picture"), i)
		if why := ids.refuses(q.ID); why != "" {
			c.add(3, "", place, why)
		}
		if !PictureFile(q.File) {
			c.add(16, "", place, words.F("it has no file, or one whose name %q cannot be", c.shown(q.File)))
		}
		if !ordinary(q.PerMM) || q.PerMM < 0.01 || q.PerMM > 1000 {
			c.add(16, "", place, words.F("it cannot have %v pixels to a millimetre", q.PerMM))
		}
		if !finiteVec(q.At) || !ordinary(q.Faded) || q.Faded < 0 || q.Faded > 1 || !ordinary(q.Off) || q.Off < 0 {
			c.add(16, "", place, words.T("its place or its dimming is no number that can be"))
		}
	}
	for _, q := range c.p.Pieces {
		if q.Picture != "" && c.p.PictureIndex(q.Picture) < 0 {
			c.add(16, "", q.Name, words.T("the picture it was traced from is not there"))
		}
	}
}

// PictureFile reports whether name can be that of a picture's file: one that
// leads to no other folder, whatever the system.
func PictureFile(name string) bool {
	return name != "" && len(name) <= longestFile && !strings.HasPrefix(name, ".") && !strings.ContainsAny(name, "/\\:\x00")
}

const longestFile = 200 // bytes

func (c *checker) tracings() {
	ids := idSet{}
	for i, t := range c.p.Tracings {
		place := or(t.Name, words.Text("tracing"), i)
		if why := ids.refuses(t.ID); why != "" {
			c.add(3, "", place, why)
		}
		if c.p.PictureIndex(t.Picture) < 0 {
			c.add(16, "", place, words.T("the picture it is traced from is not there"))
		}
		if t.Cut < 0 {
			c.add(16, "", place, words.F("it cannot be cut %d times", t.Cut))
		}
		for _, s := range t.Printed {
			if _, ok := c.p.Chart.Place(s); s != "" && !ok {
				c.add(16, "", place, words.T("it is printed in a size the chart has not"))
			}
		}
		met := map[string]bool{}
		for _, s := range t.Sizes {
			if _, ok := c.p.Chart.Place(s.Size); !ok || met[s.Size] {
				c.add(16, s.Size, place, words.T("it is traced in a size the chart has not, or twice"))
			}
			met[s.Size] = true
			if why := s.fault(); why != "" {
				c.add(16, s.Size, place, why)
			}
		}
		for _, n := range t.Notches {
			if !n.At.Finite() {
				c.add(16, n.Size, place, words.T("a notch lies nowhere"))
			}
		}
		for _, d := range t.Darts {
			if !d.From.Finite() || !d.Apex.Finite() || !d.To.Finite() {
				c.add(16, d.Size, place, words.T("a dart lies nowhere"))
			}
		}
		for _, l := range t.Lines {
			for _, d := range l.Drawn {
				if d.Path.Validate() != nil {
					c.add(16, d.Size, place, words.T("a line on it is not whole"))
				}
			}
		}
	}
}

// fault is what is wrong with a traced line; empty where nothing is.
func (s TracedSize) fault() string {
	want := max(len(s.Corners)-1, 0)
	if s.Closed {
		want = len(s.Corners)
	}
	if len(s.Edges) != want || s.Closed && want < 2 {
		return words.F("its line has %d corners and %d edges", len(s.Corners), len(s.Edges))
	}
	for i, e := range s.Edges {
		if len(e) == 0 || e.Validate() != nil {
			return words.F("its edge %d is not whole", i+1)
		}
		if e.Start().Dist(s.Corners[i]) > joinsWithin || e.End().Dist(s.Corners[(i+1)%len(s.Corners)]) > joinsWithin {
			return words.F("its edge %d does not end at its corners", i+1)
		}
	}
	for _, k := range s.Corners {
		if !k.Finite() {
			return words.T("a corner lies nowhere")
		}
	}
	return ""
}

// Line is the traced edges as one path, as far as they go.
func (s TracedSize) Line() geom.Path {
	var out geom.Path
	for _, e := range s.Edges {
		out = append(out, e...)
	}
	return out
}
