package length_test

import (
	"testing"

	"quarterstep/grading"
)

// BenchmarkGrade grades the blouse as a drag of its lengthen line does, and
// without anything put in to compare.
func BenchmarkGrade(b *testing.B) {
	for _, by := range []struct {
		name string
		mm   float64
	}{{"as printed", 0}, {"20 mm longer", 20}} {
		b.Run(by.name, func(b *testing.B) {
			p, err := blouse()
			if err != nil {
				b.Fatal(err)
			}
			p = longer(p, above, by.mm)
			var g grading.Grader
			for b.Loop() {
				if _, err := g.Grade(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
