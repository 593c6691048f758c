package store

import (
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/jsonsize"
)

// File is what a project file holds.
type File struct {
	Pattern model.Pattern
	// Pictures are photos and scans by name ("front.jpg"), bytes as they came.
	Pictures map[string][]byte
	// Home is set in a copy kept for recovery: the path of the file it is a
	// copy of, empty when that was never saved.
	Home string
}

// What a file may hold at most, in bytes, so that a spoilt or hostile one
// cannot fill the memory.
const (
	maxPattern  = 32 << 20
	maxPictures = 512 << 20
	maxEntries  = 1000
	maxListing  = 4 << 20 // of the archive's own list of its entries
	mostGrown   = 4       // times as much as the file itself its pictures may unpack to: they are packed already
	grownSlack  = 16 << 20
)

// MostPicture is how many bytes a picture of a file may have.
const MostPicture = 128 << 20

// patternSize is how much pattern.json may hold: its lists by how deep they lie,
// pieces at the third level, what a piece has at the fifth, curves at the ninth.
var patternSize = jsonsize.Most{Items: []int{5000, 5000, 5000, 10_000, 200_000, 200_000, 1_000_000, 1_000_000, 8_000_000}, Names: 1_000_000}

// Faults of a file that have nothing to do with what its pattern says.
var (
	ErrNotOurs = words.Fault("it is not a Quarterstep file")
	ErrTooBig  = words.Fault("it holds more than a Quarterstep file can")
	ErrNewer   = words.Fault("it was saved by a newer Quarterstep; open it with that one")
)

// pictureName is an error when name cannot be a picture's.
func pictureName(name string) error {
	if !model.PictureFile(name) {
		return words.Errorf("%q cannot be the name of a picture", name)
	}
	return nil
}
