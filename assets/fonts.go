package assets

import _ "embed" // for the font files

// LatoRegular and LatoBold are the two fonts of the window and of printed
// pages, TrueType, under the SIL Open Font Licence (fonts/LICENSE-Lato-OFL.txt).
var (
	//go:embed fonts/Lato-Regular.ttf
	LatoRegular []byte
	//go:embed fonts/Lato-Bold.ttf
	LatoBold []byte
)
