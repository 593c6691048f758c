package edit

import (
	"testing"

	"quarterstep/grading/propose"
	"quarterstep/model"
)

// The demo's links are taken in as they are found, all at once or one by one,
// under IDs no other link has; the pattern before is as it was.
func TestAcceptLinks(t *testing.T) {
	whole := blouse(t)
	bare := whole
	bare.Links = whole.Links[:1:1]
	var links []model.Link
	for _, f := range propose.Links(bare) {
		links = append(links, f.Link)
	}
	if len(links) < 8 {
		t.Fatalf("only %d links are found", len(links))
	}
	all, err := AcceptLinks(links...)(bare)
	if err != nil {
		t.Fatal(err)
	}
	if len(all.Links) != 1+len(links) || len(bare.Links) != 1 || all.Validate() != nil {
		t.Errorf("%d links, want %d; before %d", len(all.Links), 1+len(links), len(bare.Links))
	}
	one := bare
	for i := len(links) - 1; i >= 0; i-- {
		if one, err = AcceptLinks(links[i])(one); err != nil {
			t.Fatal(err)
		}
	}
	if len(one.Links) != len(all.Links) {
		t.Errorf("one by one %d links, at once %d", len(one.Links), len(all.Links))
	}
	gone := links[0]
	gone.Follow.Edges = []string{"no such edge"}
	if _, err := AcceptLinks(gone)(bare); err == nil {
		t.Error("a link to an edge that is not there was taken in")
	}
}
