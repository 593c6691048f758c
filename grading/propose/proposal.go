package propose

import (
	"cmp"
	"fmt"
	"slices"

	"quarterstep/model"
)

// Proposal is a link that the pattern seems to have.
type Proposal struct {
	Link model.Link
	// What is the link in plain words, and How what print says of it: "Front
	// facing follows the neckline of Front", "within 0.1 mm in print".
	What, How string
	// Misfit is how far, at worst of the printed sizes and in mm, a follower
	// lies off its leader's line; of a seam, how far its ease is off the mean
	// of the sizes.
	Misfit float64
	// Sure says that names and print agree, and on nothing else.
	Sure bool
}

// Say is the whole proposal in one line.
func (f Proposal) Say() string { return f.What + ", " + f.How }

// Links is every link that p seems to have and has not, those that follow a
// line first. It never fails: a piece that cannot be measured has none.
func Links(p model.Pattern) []Proposal {
	f := finder{p: p, taken: takenIn(p.Links)}
	for i := range p.Pieces {
		f.sheets = append(f.sheets, newSheet(p, i))
	}
	f.copies()
	f.shoulders()
	f.sides()
	f.caps()
	f.sleeveSeams()
	f.waists()
	f.yokes()
	f.bands()
	f.namesakes()
	f.unnamed()
	f.number()
	return f.found
}

// finder gathers proposals.
type finder struct {
	p      model.Pattern
	sheets []*sheet
	taken  taken
	found  []Proposal
}

// number gives the links IDs that the pattern has not.
func (f *finder) number() {
	used := map[string]bool{}
	for _, l := range f.p.Links {
		used[l.ID] = true
	}
	n := len(f.p.Links) + 1
	for i := range f.found {
		for used[fmt.Sprintf("link-%d", n)] {
			n++
		}
		f.found[i].Link.ID = fmt.Sprintf("link-%d", n)
		n++
	}
}

// take takes in those candidates of one kind that leave each other alone, the
// best first; they are found in the order they came. It says how many.
func (f *finder) take(all []candidate) int {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(all[a].cost, all[b].cost) })
	var taken []int
	for _, i := range order {
		if !f.taken.has(all[i].Link) {
			f.taken.add(all[i].Link)
			taken = append(taken, i)
		}
	}
	slices.Sort(taken)
	for _, i := range taken {
		f.found = append(f.found, all[i].Proposal)
	}
	return len(taken)
}

// candidate is a proposal with what speaks against it.
type candidate struct {
	Proposal
	cost float64
}
