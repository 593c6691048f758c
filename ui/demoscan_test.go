package ui

import (
	"bytes"
	"encoding/binary"
	"flag"
	"hash/crc32"
	"image"
	"image/png"
	"math"
	"os"
	"testing"

	"quarterstep/app"
	"quarterstep/model"
	"quarterstep/model/geom"
)

var update = flag.Bool("update", false, "draw the scans anew")

const (
	scanPerMM  = 150 / 25.4 // 150 pixels to the inch
	scanMargin = 12         // mm of paper round the piece
	scanLine   = 0.35
)

// scans are the committed scans, as a scanner would see a piece printed, each
// size in its own dashes.
func scans(t *testing.T) map[string][]byte {
	facing, _ := printedPiece(scannedPiece(t), scanPerMM)
	q, _ := bib(t)
	g, _ := printedPiece(q, bibPerMM)
	return map[string][]byte{
		"../testdata/scans/facing.png": scanFile(t, facing, scanPerMM),
		"../testdata/scans/bib.png":    scanFile(t, g, bibPerMM),
	}
}

// scannedPiece is the least of the demo's pieces of four edges in four sizes.
func scannedPiece(t *testing.T) model.Piece {
	t.Helper()
	p, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	best, least := -1, math.Inf(1)
	for i, q := range p.Pieces {
		b := nestBox(q)
		if size := b.Width() * b.Height(); len(q.Nest) >= 4 && size < least && len(q.Edges) == 4 {
			best, least = i, size
		}
	}
	if best < 0 {
		t.Fatal("the demo has no piece of four edges in four sizes")
	}
	return p.Pieces[best]
}

func nestBox(q model.Piece) geom.Box {
	var b geom.Box
	for _, o := range q.Nest {
		for _, e := range o.Edges {
			b = b.Union(e.Bounds())
		}
	}
	return b
}

// scanFile is g as PNG that says how many pixels make a metre (PNG
// specification, 3rd ed., 11.3.4.3 pHYs).
func scanFile(t *testing.T, g *image.Gray, perMM float64) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, g); err != nil {
		t.Fatal(err)
	}
	const head = 8 + 25 // signature and IHDR
	chunk := []byte("pHYs")
	per := uint32(math.Round(perMM * 1000))
	chunk = binary.BigEndian.AppendUint32(chunk, per)
	chunk = binary.BigEndian.AppendUint32(chunk, per)
	chunk = append(chunk, 1)
	out := append([]byte{}, b.Bytes()[:head]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(chunk)-4))
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, b.Bytes()[head:]...)
}

// The committed scans are what is drawn now.
func TestScansAreOfTheirPieces(t *testing.T) {
	for name, want := range scans(t) {
		if *update {
			if err := os.WriteFile(name, want, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		got, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(grey(t, got), grey(t, want)) {
			t.Errorf("%s differs from its piece; draw it anew with -update", name)
		}
	}
}

// grey is the pixels of a scan.
func grey(t *testing.T, file []byte) []byte {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	g, ok := img.(*image.Gray)
	if !ok {
		t.Fatalf("a scan is %T", img)
	}
	return g.Pix
}
