package paper

import "quarterstep/model/geom"

// Turned is the way to the paper with the paper turned to the right by quarter
// turns.
func (s Straight) Turned(quarters int) Straight {
	for range (quarters%4 + 4) % 4 {
		h, b := s.Map.H, s.Bounds
		s.Map.H = [9]float64{-h[3], -h[4], -h[5], h[0], h[1], h[2], h[6], h[7], h[8]}
		s.Bounds = geom.Box{Min: geom.Pt(-b.Max.Y, b.Min.X), Max: geom.Pt(-b.Min.Y, b.Max.X)}
	}
	return s
}
