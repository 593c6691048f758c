package propose

import (
	"regexp"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/glossary"
)

// role is what an edge is for.
type role string

// words: none
const (
	unknown   role = ""
	hem       role = "hem"
	fold      role = "fold" // or a centre line
	dartCap   role = "dart cap"
	neck      role = "neckline"
	shoulder  role = "shoulder"
	armhole   role = "armhole"
	side      role = "side seam"
	waist     role = "waist"
	sleeveCap role = "cap"
	armSeam   role = "sleeve seam"
	yoke      role = "yoke seam"
	bandEdge  role = "long edge" // of a cuff, collar or band
	free      role = "free edge" // finished, or a facing's inner edge
)

// said is a role as one speaks of it.
func (r role) said() string { return saidRoles[r].String() }

var saidRoles = map[role]words.Text{
	hem:       "hem",
	fold:      "fold",
	dartCap:   "dart cap",
	neck:      "neckline",
	shoulder:  "shoulder",
	armhole:   "armhole",
	side:      "side seam",
	waist:     "waist",
	sleeveCap: "cap",
	armSeam:   "sleeve seam",
	yoke:      "yoke seam",
	bandEdge:  "long edge",
	free:      "free edge",
}

// sort is what a piece is.
type sort string

const (
	odd       sort = ""
	body      sort = "body"
	sleeve    sort = "sleeve"
	cuff      sort = "cuff"
	collar    sort = "collar"
	waistband sort = "waistband"
	yokePiece sort = "yoke"
	lower     sort = "skirt" // or trousers
)

// layer is what of the garment a piece belongs to.
type layer string

const (
	cloth  layer = ""
	lining layer = "lining"
	facing layer = "facing"
	inside layer = "interfacing"
)

// has reports that a name holds one of the words, be it within another.
func has(name string, words ...string) bool {
	for _, w := range words {
		if strings.Contains(name, w) {
			return true
		}
	}
	return false
}

// plain is a name in lower-case English words with single spaces for whatever parts it.
func plain(name string) string {
	return strings.Join(strings.FieldsFunc(glossary.English(name), func(r rune) bool { return strings.ContainsRune(" -_,.:;/()", r) }), " ")
}

// layerOf reads a piece's name: "Front facing" is of the facings.
func layerOf(name string) layer {
	switch n := plain(name); {
	case has(n, "interfac", "interlin", "fusing", "canvas"):
		return inside
	case has(n, "underlin", "lining"):
		return lining
	case has(n, "facing", "facings"):
		return facing
	}
	return cloth
}

// sortOf reads a piece's name; "Front bodice" and "Back" are of the body.
//
// words: none
func sortOf(name string) sort {
	switch n := plain(name); {
	case has(n, "pocket", "binding", "placket", "gusset"), word(n, "flap", "belt", "loop", "loops", "tab", "fly", "strap", "straps", "tie", "ties"):
		return odd
	case has(n, "waistband", "waist band"):
		return waistband
	case has(n, "cuff", "sleeve band", "sleeveband"):
		return cuff
	case has(n, "collar", "neckband", "neck band"), word(n, "stand"), n == "band":
		return collar
	case has(n, "sleeve"):
		return sleeve
	case has(n, "yoke"):
		return yokePiece
	case has(n, "skirt", "trouser", "pants", "shorts", "culotte"), word(n, "leg"):
		return lower
	case has(n, "front", "back", "bodice", "side", "panel"):
		return body
	}
	return odd
}

// half is "front" or "back" where a name says so, of an edge or a piece.
func half(name string) string {
	n := plain(name)
	f, b := word(n, "front"), word(n, "back")
	switch {
	case f && !b:
		return "front"
	case b && !f:
		return "back"
	}
	return ""
}

// word reports that one of the words stands in a name by itself.
func word(name string, words ...string) bool {
	for _, w := range words {
		if strings.Contains(" "+name+" ", " "+w+" ") {
			return true
		}
	}
	return false
}

// words: none
var dartWords = regexp.MustCompile(`\bdart (cap|leg|take up|end)\b|\bhalf of the dart\b`)

// roleOf reads an edge's kind and name on a piece of that sort.
//
// words: none
func roleOf(e model.Edge, s sort) role {
	switch e.Kind {
	case model.Fold, model.Centre:
		return fold
	case model.Hem:
		return hem
	}
	n := plain(e.Name)
	switch {
	case dartWords.MatchString(n):
		return dartCap
	case s == sleeve:
		return sleeveRole(n)
	case s == cuff, s == collar, s == waistband:
		return bandEdge
	case has(n, "outer edge", "inner edge", "free edge", "finished", "opening"):
		return free
	case has(n, "shoulder"):
		return shoulder
	case has(n, "armhole", "arm hole", "armscye", "scye"):
		return armhole
	case has(n, "yoke"):
		return yoke
	case n == "side", has(n, "side seam", "sideseam", "side above", "side below", "outseam", "outside leg", "underarm seam"):
		return side
	case has(n, "hem"):
		return hem
	case has(n, "centre back", "centre front", "center back", "center front"), n == "centre", n == "fold":
		return fold
	case has(n, "neck", "stand top"):
		return neck
	case has(n, "waist"):
		return waist
	}
	return unknown
}

// words: none
func sleeveRole(n string) role {
	switch {
	case word(n, "cap"), has(n, "sleeve head", "sleevehead", "crown", "armhole"):
		return sleeveCap
	case has(n, "hem", "wrist", "lower edge", "bottom"):
		return hem
	case has(n, "underarm", "under arm", "sleeve seam", "inseam", "inside seam"):
		return armSeam
	}
	return unknown
}

// numbered is an edge that nobody named: "", or "edge 3".
var numbered = regexp.MustCompile(`^(edge \d+)?$`)

// seamWord is in the names of edges that are sewn to their namesakes.
//
// words: none
var seamWord = regexp.MustCompile(`\b(seam|princess|inseam|outseam|inside leg|inner leg|outside leg|panel|gore|forearm|elbow)\b`)

// own is an edge that is sewn to its own copy, or to no other piece, whatever
// its name shares with another's.
//
// words: none
var own = regexp.MustCompile(`\b(crotch|rise|centre|center|fold|hem|dart|free|inner edge|outer edge)\b`)

// sides are the words that tell the two sides of one seam apart.
var sideWords = regexp.MustCompile(`\b(front|back|left|right|upper|under|top|side|the|of)\b`)

// bare is a name without the words that tell the two sides of one seam apart:
// "front princess seam" and "side princess seam" are both "princess seam".
func bare(name string) string {
	return strings.Join(strings.Fields(sideWords.ReplaceAllString(plain(name), " ")), " ")
}
