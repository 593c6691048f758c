package paper

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
	"io"
	"math"

	"quarterstep/assets/words"
)

// WritePNG writes the flat picture without loss, with its pixels to the metre
// (W3C PNG, 11.3.4.3 pHYs), so that it is read back as a scan to scale.
func (f Flat) WritePNG(w io.Writer) error {
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, f.Colour); err != nil {
		return words.Errorf("writing the flat picture: %w", err)
	}
	const head = 8 + 25 // signature and IHDR, after which pHYs may stand
	per := uint32(math.Round(f.PerMM * 1000))
	body := []byte("pHYs")
	body = binary.BigEndian.AppendUint32(body, per)
	body = binary.BigEndian.AppendUint32(body, per)
	body = append(body, 1) // to the metre
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)-4))
	chunk = append(chunk, body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	for _, part := range [][]byte{b.Bytes()[:head], chunk, b.Bytes()[head:]} {
		if _, err := w.Write(part); err != nil {
			return words.Errorf("writing the flat picture: %w", err)
		}
	}
	return nil
}
