// words: none, these are of the command qstep.
package trace

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/jsonsize"
	"quarterstep/model/measure"
)

// Clicks is a file of clicks: pieces as a hand would trace them off one flat
// picture.
type Clicks struct {
	Unit   string    `json:"unit"`  // of all places: "mm", or "px" of the picture; "mm" if left out
	Reach  float64   `json:"reach"` // mm a click may be from what it means; 0 is UsualReach
	Pieces []Clicked `json:"pieces"`
}

// Clicked is one piece.
type Clicked struct {
	Name    string         `json:"name"`
	Cut     int            `json:"cut"` // 0 is 1
	Sizes   []ClickedSize  `json:"sizes"`
	Edges   []ClickedEdge  `json:"edges"`
	Lines   []ClickedLine  `json:"lines"`
	Notches []ClickedNotch `json:"notches"`
	Darts   []ClickedDart  `json:"darts"`
	Gaps    []ClickedGap   `json:"gaps"`
}

// ClickedSize is the line of one size: its corners in order, or what is to be
// put right of the line that is proposed.
type ClickedSize struct {
	Size    string          `json:"size"`
	Propose bool            `json:"propose"`
	Corners []ClickedCorner `json:"corners"`
}

// ClickedCorner is a corner and how the edge from it to the next one goes.
type ClickedCorner struct {
	Corner   int     `json:"corner"` // which one is put right, from 1; 0 where all are clicked in order
	At       Place   `json:"at"`
	Via      []Place `json:"via"`      // points on the way
	Straight bool    `json:"straight"` // whatever is printed
	Fold     bool    `json:"fold"`     // straight, and placed on the fold
}

// ClickedEdge says what an edge is; edge 1 goes from corner 1 of the size
// clicked first.
type ClickedEdge struct {
	Edge      int            `json:"edge"`
	Name      string         `json:"name"`
	Kind      model.EdgeKind `json:"kind"`
	Allowance Amount         `json:"allowance"`
}

// ClickedLine is a mark: grain, lengthen, bust, waist or hip line.
type ClickedLine struct {
	Kind model.LineKind `json:"kind"`
	From Place          `json:"from"`
	To   Place          `json:"to"`
	Size string         `json:"size"` // of which it is; empty for all
}

// ClickedNotch is a notch on the line of a size.
type ClickedNotch struct {
	At     Place  `json:"at"`
	Size   string `json:"size"`
	Double bool   `json:"double"`
}

// ClickedDart is a dart by its two leg ends and its point.
type ClickedDart struct {
	Name string `json:"name"`
	Size string `json:"size"`
	From Place  `json:"from"`
	Apex Place  `json:"apex"`
	To   Place  `json:"to"`
}

// ClickedGap is how far a corner moves to the next size up, of a piece clicked
// in one size.
type ClickedGap struct {
	Corner int    `json:"corner"`
	Across Amount `json:"across"`
	Along  Amount `json:"along"`
}

// Place is a place of the picture, written [x, y].
type Place geom.Point

// UnmarshalJSON reads [x, y].
func (p *Place) UnmarshalJSON(b []byte) error {
	var xy []float64
	if err := json.Unmarshal(b, &xy); err != nil || len(xy) != 2 {
		return fmt.Errorf("%s is no place; write it [x, y]", short(b))
	}
	if math.Abs(xy[0]) > mostPlace || math.Abs(xy[1]) > mostPlace {
		return fmt.Errorf("%s lies on no picture", short(b))
	}
	*p = Place{X: xy[0], Y: xy[1]}
	return nil
}

// UnmarshalJSON reads a corner, or [x, y] for one with nothing else to say.
func (c *ClickedCorner) UnmarshalJSON(b []byte) error {
	if b = bytes.TrimSpace(b); len(b) > 0 && b[0] == '[' {
		return c.At.UnmarshalJSON(b)
	}
	type plain ClickedCorner
	read := struct {
		*plain
		At *Place `json:"at"`
	}{plain: (*plain)(c), At: nil}
	if err := strictly(b, &read); err != nil {
		return err
	}
	if read.At == nil {
		return errors.New(`a corner has no place: "at"`)
	}
	c.At = *read.At
	return nil
}

// Amount is a length in mm, written as a sewist types it: "1 cm", "3/8 in"; a
// bare number is mm.
type Amount float64

// UnmarshalJSON reads a length.
func (a *Amount) UnmarshalJSON(b []byte) error {
	var text string
	if err := json.Unmarshal(b, &text); err != nil {
		text = string(b)
	}
	l, err := measure.Parse(text, measure.Millimetres)
	if err != nil || !(math.Abs(l.MM()) <= mostAmount) {
		return fmt.Errorf(`%s is no length; write it "1 cm" or "3/8 in"`, short(b))
	}
	*a = Amount(l.MM())
	return nil
}

func short(b []byte) string {
	const most = 40
	if len(b) > most {
		return string(b[:most]) + "..."
	}
	return string(b)
}

// Bounds of a clicks file.
const (
	mostBytes   = 8 << 20
	mostPieces  = 200
	mostSizes   = 100
	mostCorners = 200
	mostVia     = 100
	mostMarks   = 1000
	mostPlace   = 1e6 // mm or px
	mostAmount  = 1e4 // mm
)

// clicksSize is how much a clicks file may hold: its lists by how deep they lie,
// pieces at the second level, sizes and marks at the fourth, corners at the
// sixth.
var clicksSize = jsonsize.Most{Items: []int{mostPieces + 1, mostPieces + 1, 20_000, 20_000, 100_000, 100_000, 500_000}, Names: 500_000}

// UsualReach is how far in mm a click may be from what it means where nothing
// is said.
const UsualReach = 0.8

// ReadClicks reads a clicks file. An error is one sentence that says where in
// the file it is wrong.
func ReadClicks(r io.Reader) (Clicks, error) {
	const doing = "reading the clicks"
	data, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return Clicks{}, fmt.Errorf("%s: %w", doing, err)
	}
	if len(data) > mostBytes {
		return Clicks{}, fmt.Errorf("%s: the file is larger than %d MB", doing, mostBytes>>20)
	}
	if err := jsonsize.Check(data, clicksSize); err != nil {
		return Clicks{}, fmt.Errorf("%s: %w", doing, err)
	}
	var c Clicks
	if err := strictly(data, &c); err != nil {
		return Clicks{}, fmt.Errorf("%s: %w", doing, plainly(err))
	}
	if err := c.check(); err != nil {
		return Clicks{}, fmt.Errorf("%s: %w", doing, err)
	}
	return c, nil
}

// strictly reads one JSON value that has no names but those known.
func strictly(data []byte, to any) error {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(to); err != nil {
		return err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return errors.New("something follows after its end")
	}
	return nil
}

// plainly says an error of the JSON reader in a sentence.
func plainly(err error) error {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		return errors.New("the file is cut short")
	case errors.As(err, &syntax):
		return fmt.Errorf("it is no JSON at byte %d", syntax.Offset)
	case errors.As(err, &kind):
		return fmt.Errorf("%s cannot be a %s", kind.Field, kind.Value)
	}
	return errors.New(strings.TrimPrefix(err.Error(), "json: "))
}
