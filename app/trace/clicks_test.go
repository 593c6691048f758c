package trace_test

import (
	"strings"
	"testing"

	"quarterstep/app/trace"
)

const pocket = `{"unit": "px", "reach": 1.5, "pieces": [{"name": "Pocket", "cut": 2,
  "sizes": [
    {"size": "38", "corners": [[30, 30], {"at": [130, 36], "via": [[124, 62]], "straight": true}, {"corner": 3, "at": [150, 110]}, {"at": [30, 110], "fold": true}]},
    {"size": "40", "propose": true, "corners": [{"corner": 2, "at": [148, 28]}]}],
  "edges": [{"edge": 4, "name": "centre", "kind": "fold", "allowance": "1 cm"}],
  "lines": [{"kind": "grain", "from": [95, 50], "to": [95, 95]}],
  "notches": [{"at": [30, 60], "size": "38", "double": true}],
  "darts": [{"name": "dart", "from": [1, 2], "apex": [3, 4], "to": [5, 6]}]}]}`

func TestClicksAreRead(t *testing.T) {
	c, err := trace.ReadClicks(strings.NewReader(pocket))
	if err != nil {
		t.Fatal(err)
	}
	q := c.Pieces[0]
	s := q.Sizes[0].Corners
	if c.Unit != "px" || c.Reach != 1.5 || q.Name != "Pocket" || q.Cut != 2 || len(s) != 4 {
		t.Errorf("read is %+v", c)
	}
	if s[0].At != (trace.Place{X: 30, Y: 30}) || s[1].Via[0] != (trace.Place{X: 124, Y: 62}) || !s[1].Straight || s[0].Straight || !s[3].Fold {
		t.Errorf("the corners are %+v", s)
	}
	if next := q.Sizes[1]; !next.Propose || next.Corners[0].Corner != 2 || next.Corners[0].At.X != 148 {
		t.Errorf("the proposed size is %+v", next)
	}
	if q.Edges[0].Allowance != 10 || q.Darts[0].Apex.Y != 4 || !q.Notches[0].Double || q.Lines[0].To.Y != 95 {
		t.Errorf("the marks are %+v, %+v, %+v, %+v", q.Edges, q.Darts, q.Notches, q.Lines)
	}
}

// What is wrong with a clicks file is told by its piece, size and corner.
func TestClicksThatCannotBe(t *testing.T) {
	three := `"corners":[[0,0],[9,0],[9,9]]`
	one := func(more string) string {
		return `{"pieces":[{"name":"Cuff","sizes":[{"size":"38",` + three + `}]` + more + `}]}`
	}
	sizes := func(list string) string { return `{"pieces":[{"name":"Cuff","sizes":[` + list + `]}]}` }
	for text, want := range map[string]string{
		``:                       "cut short",
		`{"pieces":[`:            "cut short",
		`{"pieces":]`:            "no JSON at byte 11",
		`{} {}`:                  "follows after its end",
		`{"pieces":[]}`:          "no pieces",
		`{"pieces":3}`:           "pieces cannot be a number",
		`{"peices":[]}`:          `unknown field "peices"`,
		`{"unit":"inch"}`:        "unit is mm or px",
		`{"reach":-1}`:           "reach is between",
		`{"pieces":[{"cut":2}]}`: "piece 1, no size is clicked",
		one(`,"cut":-1`):         "Cuff, it cannot be cut -1 times",
		sizes(`{` + three + `}`): "it has no name",
		sizes(`{"size":"38"}`):   "Cuff, size 38: it has 0 corners",
		sizes(`{"size":"38",` + three + `},{"size":"38",` + three + `}`):                    "size 38 is clicked twice",
		sizes(`{"size":"38","propose":true}`):                                               "size 38: the first size cannot be proposed",
		sizes(`{"size":"38",` + three + `},{"size":"40","propose":true,"corners":[[1,2]]}`): `size 40: correction 1 does not say which "corner"`,
		sizes(`{"size":"38","corners":[[0,0],[9,0],{"corner":2,"at":[9,9]}]}`):              "size 38: corner 2 stands in place 3",
		sizes(`{"size":"38","corners":[[0,0],[9,0],[9]]}`):                                  "[9] is no place",
		sizes(`{"size":"38","corners":[[0,0],[9,0],[9,1e300]]}`):                            "lies on no picture",
		sizes(`{"size":"38","corners":[[0,0],[9,0],{"straight":true}]}`):                    "a corner has no place",
		sizes(`{"size":"38","corners":[[0,0],[9,0],{"at":[9,9],"vai":[]}]}`):                `unknown field "vai"`,
		one(`,"edges":[{"edge":4}]`):                                                        "edge 4: there are 3 edges",
		one(`,"edges":[{"edge":1,"kind":"zip"}]`):                                           `not "zip"`,
		one(`,"edges":[{"edge":1,"allowance":"wide"}]`):                                     "is no length",
		one(`,"edges":[{"edge":1,"allowance":"-1cm"}]`):                                     "below nothing",
		one(`,"lines":[{"kind":"seam"}]`):                                                   `not "seam"`,
		one(`,"lines":[{"kind":"grain"}]`):                                                  "line 1 needs two ends", one(`,"darts":[{"from":[1,2]}]`): "dart 1 needs three places",
		one(`,"notches":[{"at":[1,1],"size":"40"}]`):                                           "notch 1 is of size 40, which is not clicked",
		one(`,"darts":[{"size":"40","from":[1,1],"apex":[2,2],"to":[3,3]}]`):                   "dart 1 is of size 40",
		one(`,"gaps":[{"corner":9}]`):                                                          "gap of corner 9",
		sizes(`{"size":"38",` + three + `},{"size":"40",` + three + `}],"gaps":[{"corner":1}`): "one size only",
	} {
		if _, err := trace.ReadClicks(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s\n  gives %v, want %q", text, err, want)
		}
	}
	if _, err := trace.ReadClicks(strings.NewReader(strings.Repeat(" ", 9<<20))); err == nil || !strings.Contains(err.Error(), "larger than") {
		t.Errorf("9 MB are read: %v", err)
	}
}

// Whatever a clicks file holds, it is read or told in one line, and what is read
// is within bounds.
func FuzzReadClicks(f *testing.F) {
	f.Add(pocket)
	f.Add(`{"pieces":[{"sizes":[{"size":"38","corners":[[0,0],[9,0],[9,9]]}],"gaps":[{"corner":1,"across":5,"along":"3/8 in"}]}]}`)
	f.Add(`{"pieces":[{"sizes":[{"size":"38","corners":[[0,0],{"at":null},[9,9]]}]}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		c, err := trace.ReadClicks(strings.NewReader(text))
		if err != nil {
			return
		}
		for _, q := range c.Pieces {
			for _, s := range q.Sizes {
				for _, k := range s.Corners {
					if !(k.At.X >= -1e6 && k.At.X <= 1e6 && k.At.Y >= -1e6 && k.At.Y <= 1e6) {
						t.Fatalf("a corner at %v was read", k.At)
					}
				}
			}
		}
	})
}
