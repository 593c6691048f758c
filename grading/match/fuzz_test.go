package match

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/exchange"
)

// FuzzPieces: whatever drawing can be read gives pieces that are valid.
func FuzzPieces(f *testing.F) {
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "nests", "blouse-eu-36-42.svg"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(b))
	f.Fuzz(func(t *testing.T, svg string) {
		sheet, err := exchange.ReadSVG(strings.NewReader(svg), euChart())
		if err != nil {
			return
		}
		pieces, _, err := Pieces(sheet, euChart())
		if err != nil {
			return
		}
		if err := (model.Pattern{Chart: euChart(), Pieces: pieces}).Validate(); err != nil {
			t.Fatal(err)
		}
	})
}
