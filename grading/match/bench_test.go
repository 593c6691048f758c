package match

import "testing"

// BenchmarkPieces matches whole sheets: four pieces in three or four sizes.
func BenchmarkPieces(b *testing.B) {
	for _, file := range []string{"blouse-eu-36-42.svg", "blouse-traced-eu-36-42.svg", "blouse-polygons-eu-38-42.svg"} {
		b.Run(file, func(b *testing.B) {
			s := readSheet(b, file, euChart())
			for b.Loop() {
				if _, _, err := Pieces(s, euChart()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
