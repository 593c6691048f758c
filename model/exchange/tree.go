package exchange

import (
	"bufio"
	"encoding/xml"
	"errors"
	"io"
	"strings"

	"quarterstep/assets/words"
)

// What a file may hold at most: far above any drawn nest, low enough that a
// broken or hostile file cannot fill the memory.
const (
	mostBytes    = 64 << 20
	mostElements = 200_000
	mostDepth    = 200
	longestName  = 1000 // bytes of a title, a label or an id; more of it names nothing
)

// kept are the attributes that say what is drawn; no others are kept.
var kept = map[string]bool{
	"id": true, "href": true, "d": true, "points": true, "transform": true, "style": true, "display": true,
	"viewBox": true, "preserveAspectRatio": true, "x": true, "y": true, "width": true, "height": true,
	"x1": true, "y1": true, "x2": true, "y2": true, "cx": true, "cy": true, "r": true, "rx": true, "ry": true,
}

// element is one element of the drawing with its attributes by local name.
// Label is kept apart because only the drawing program's own label counts.
type element struct {
	name  string
	attr  map[string]string
	label string
	title string // text of its title child
	bytes int    // of all that is kept of it
	kids  []*element
}

// readTree reads the elements of an SVG file; text other than titles is left
// out. Entities of a DOCTYPE are not replaced: they are used for namespaces
// only, in practice. Nothing outside the file is read, whatever it names.
func readTree(r io.Reader) (*element, error) {
	limited := &io.LimitedReader{R: r, N: mostBytes + 1}
	guard := &tagGuard{r: limited}
	buf := bufio.NewReader(guard)
	if head, _ := buf.Peek(2); len(head) == 2 && head[0] == 0x1f && head[1] == 0x8b {
		return nil, unusable(words.T("This drawing is compressed. Save it as plain SVG and bring it in again."))
	}
	d := xml.NewDecoder(buf)
	d.Strict = false
	d.Entity = xml.HTMLEntity
	d.CharsetReader = charset
	root, err := readElements(d)
	var plain Unusable
	switch {
	case limited.N <= 0:
		return nil, unusable(words.F("This drawing is larger than %d MB. Leave pictures out of it and save it again.", mostBytes>>20))
	case guard.tooDense:
		return nil, tooManyParts()
	case errors.As(err, &plain):
		return nil, err
	case err != nil || root == nil:
		return nil, unusable(words.T("This file is not an SVG drawing, or it is damaged. Save the drawing as plain SVG and bring it in again."))
	case root.name != "svg":
		return nil, unusable(words.F("This file is not an SVG drawing: it begins with “%s”. Save the drawing as plain SVG and bring it in again.", shorten(root.name)))
	}
	return root, nil
}

func tooManyParts() error {
	return unusable(words.T("This drawing has too many parts to read. Keep the cutting lines and their marks only and save it again."))
}

func readElements(d *xml.Decoder) (root *element, err error) {
	var open []*element
	skip, count := 0, 0
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return root, nil
		}
		if err != nil {
			return nil, words.Errorf("reading XML: %w", err)
		}
		switch t := tok.(type) {
		case xml.StartElement:
			if count++; count > mostElements || len(open)+skip > mostDepth {
				return nil, tooManyParts()
			}
			if skip > 0 || !drawn(t.Name) {
				skip++
				continue
			}
			e := newElement(t)
			if len(open) > 0 {
				top := open[len(open)-1]
				top.kids = append(top.kids, e)
			} else if root == nil {
				root = e
			}
			open = append(open, e)
		case xml.EndElement:
			if skip > 0 {
				skip--
			} else if len(open) > 0 {
				closeElement(open)
				open = open[:len(open)-1]
			}
		case xml.CharData:
			if skip == 0 && len(open) > 0 && open[len(open)-1].name == "title" {
				top := open[len(open)-1]
				top.title += string(t[:min(len(t), longestName-len(top.title))])
			}
		}
	}
}

// closeElement hands a title's text to the element it names.
func closeElement(open []*element) {
	if n := len(open); n > 1 && open[n-1].name == "title" {
		top := open[n-2]
		if top.title == "" {
			top.title = strings.ToValidUTF8(strings.Join(strings.Fields(open[n-1].title), " "), "")
			top.bytes += len(top.title)
		}
		top.kids = top.kids[:len(top.kids)-1]
	}
}

func drawn(n xml.Name) bool {
	return n.Space == "" || n.Space == "svg" || strings.HasSuffix(n.Space, "/svg")
}

func newElement(t xml.StartElement) *element {
	e := &element{name: t.Name.Local, attr: map[string]string{}}
	for _, a := range t.Attr {
		name := a.Name.Local
		switch {
		case name == "id" && len(a.Value) > longestName:
		case (a.Name.Space == "" || name == "href") && kept[name]:
			e.attr[name] = a.Value
			e.bytes += len(a.Value)
		case name == "label" && a.Name.Space != "" && len(a.Value) <= longestName:
			e.label = strings.Join(strings.Fields(a.Value), " ")
			e.bytes += len(e.label)
		}
	}
	return e
}

// hidden reports whether the element and all in it are not shown.
func (e *element) hidden() bool {
	if strings.TrimSpace(e.attr["display"]) == "none" {
		return true
	}
	for _, rule := range strings.Split(e.attr["style"], ";") {
		k, v, _ := strings.Cut(rule, ":")
		if strings.TrimSpace(k) == "display" && strings.HasPrefix(strings.TrimSpace(v), "none") {
			return true
		}
	}
	return false
}

// charset reads the two one-byte alphabets old drawing programs declare.
func charset(name string, r io.Reader) (io.Reader, error) {
	switch strings.ToLower(name) {
	case "us-ascii", "ascii", "utf8":
		return r, nil
	case "iso-8859-1", "latin1", "windows-1252":
		return &latin1{r: bufio.NewReader(r)}, nil
	}
	return nil, unusable(words.F("This drawing is written in the alphabet “%s”, which cannot be read here. Save it as UTF-8 and bring it in again.", shorten(name)))
}

// latin1 turns ISO 8859-1 into UTF-8.
type latin1 struct {
	r    *bufio.Reader
	rest []byte
}

func (l *latin1) Read(p []byte) (int, error) {
	n := 0
	for n < len(p) {
		if len(l.rest) > 0 {
			k := copy(p[n:], l.rest)
			l.rest, n = l.rest[k:], n+k
			continue
		}
		b, err := l.r.ReadByte()
		if err != nil {
			if n > 0 {
				return n, nil
			}
			return 0, err
		}
		l.rest = []byte(string(rune(b)))
	}
	return n, nil
}

// shorten keeps what is quoted from a file to a readable length.
func shorten(s string) string {
	r := []rune(strings.Join(strings.Fields(s), " "))
	if len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return string(r)
}
