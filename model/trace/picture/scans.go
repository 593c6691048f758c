package picture

import (
	"image"
	"image/jpeg"
	"io"

	"quarterstep/assets/words"
)

// mostScans is how many times a JPEG may go over its pixels. Progressive ones do
// so a dozen times; each further time may cost a hundred bytes of the file and
// all of the picture's pixels of work.
const mostScans = 200

var errScans = words.Fault("a JPEG that goes over its pixels too often")

func decodeJPEG(r io.Reader) (image.Image, error) { return jpeg.Decode(&scanGuard{r: r}) }

// scanGuard passes a JPEG on until too many scans have begun. Inside a scan the
// byte that begins a marker is always followed by a zero (T.81, F.1.2.3), so that
// no marker is missed.
type scanGuard struct {
	r      io.Reader
	marker bool // the byte before begins a marker
	scans  int
}

// Read passes on what lies before the scan too many.
func (g *scanGuard) Read(p []byte) (int, error) {
	if g.scans > mostScans {
		return 0, errScans
	}
	n, err := g.r.Read(p)
	for i, c := range p[:n] {
		if g.marker && c == 0xda {
			if g.scans++; g.scans > mostScans {
				return i, errScans
			}
		}
		g.marker = c == 0xff
	}
	return n, err
}
