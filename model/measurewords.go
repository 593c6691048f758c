package model

import "quarterstep/assets/words"

var measureWords = map[Measure]words.Text{
	Steps:     "steps",
	Bust:      "bust",
	Waist:     "waist",
	Hip:       "hip",
	BackWaist: "back waist length",
	UpperArm:  "upper arm",
	Neck:      "neck",
	Shoulder:  "shoulder",
}

// Said is what a measure is called in the language in use, in the middle of a
// sentence; one that Quarterstep does not know is called as its chart has it.
func (m Measure) Said() string {
	if t, ok := measureWords[m]; ok {
		return t.String()
	}
	return string(m)
}
