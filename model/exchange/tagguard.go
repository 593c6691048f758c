package exchange

import (
	"io"

	"quarterstep/assets/words"
)

// mostAttributes is how many attributes one tag may have. The XML library holds
// all of a tag before anyone can look at it, at some fifty bytes for each two
// bytes of a file that means harm.
const mostAttributes = 1000

// errCrowded ends the reading of a tag with too many attributes.
var errCrowded = words.Fault("a tag with too many attributes")

// tagGuard passes an XML file on until a tag has too many attributes. Between
// the marks of a tag every attribute begins with a letter after a space, a
// quote or an equals sign, outside quotes; a < always begins anew, since inside
// a tag it is an error even between quotes (XML 1.0, 2.4).
type tagGuard struct {
	r        io.Reader
	inTag    bool
	opened   bool // the byte before began the tag
	parted   bool // the byte before parts attributes
	quote    byte
	attrs    int
	tooDense bool
}

// Read passes on what lies before the tag with too many attributes.
func (g *tagGuard) Read(p []byte) (int, error) {
	if g.tooDense {
		return 0, errCrowded
	}
	n, err := g.r.Read(p)
	for i, c := range p[:n] {
		if g.step(c); g.attrs > mostAttributes {
			g.tooDense = true
			return i, errCrowded
		}
	}
	return n, err
}

func (g *tagGuard) step(c byte) {
	opened, parted := g.opened, g.parted
	g.opened, g.parted = false, false
	switch {
	case c == '<':
		g.inTag, g.opened, g.quote, g.attrs = true, true, 0, 0
	case !g.inTag:
	case opened && (c == '!' || c == '?'): // a comment or the like: no attributes are kept of it
		g.inTag = false
	case g.quote != 0:
		if c == g.quote {
			g.quote, g.parted = 0, true
		}
	case c == '>':
		g.inTag = false
	case c == '"' || c == '\'':
		g.quote = c
	case c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '=' || c == '/':
		g.parted = true
	case parted:
		g.attrs++
	}
}
