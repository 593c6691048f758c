package edit

import "quarterstep/assets/words"

var styleWords = map[StyleKind]words.Text{
	NarrowerShoulder: "Narrower shoulder",
	WiderShoulder:    "Wider shoulder",
	WiderNeckline:    "Wider neckline",
	DeeperNeckline:   "Deeper neckline",
	LowerUnderarm:    "Lower underarm and sleeve seam",
	HigherUnderarm:   "Higher underarm and sleeve seam",
}

// Said is what a style change is called in the language in use; one that a file
// brings and nobody knows is called as the file has it.
func (k StyleKind) Said() string {
	if said, ok := styleWords[k]; ok {
		return said.String()
	}
	return string(k)
}
