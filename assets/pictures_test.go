package assets

import (
	"io/fs"
	"path"
	"testing"

	"quarterstep/assets/words"
)

// TestPicturesInEveryLanguage: each language has every picture of the help.
func TestPicturesInEveryLanguage(t *testing.T) {
	english, err := fs.Glob(Pictures, "pictures/*.png")
	if err != nil || len(english) < 8 {
		t.Fatalf("%d pictures, %v", len(english), err)
	}
	for _, l := range words.Languages() {
		for _, file := range english {
			if l.Code == "en" {
				continue
			}
			in := path.Join("pictures", l.Code, path.Base(file))
			if _, err := fs.Stat(Pictures, in); err != nil {
				t.Errorf("%s lacks %s: make pictures", l.Name, in)
			}
		}
	}
}
