package panel

import "quarterstep/ui/theme"

// PhotoView is the photo or scan in hand, how it is made flat and to scale, and
// the lines that are traced from it.
type PhotoView struct {
	Empty string // shown with the button that brings one in when there is none

	Photos []string
	Photo  int
	Busy   string  // what is being done beside the window; empty for nothing
	Share  float64 // how far it is, 0 to 1
	Note   string  // why it cannot be used, or what is missing

	Title      string // what it is made flat by, "Corner targets"
	Found      string // "4 of 4 found"
	References []string
	Reference  int
	Targets    []bool         // found or clicked, one after another; empty for none needed
	Clicked    int            // places clicked, to be clicked again
	Fields     []MeasuredView // that go with the reference, at most two
	Ask        string         // what is to be done
	Says       string         // "They agree to within 0.4 mm, good enough to trace."
	SaysLook   bool
	Measurable bool           // a drawn length can be clicked
	Measuring  bool           // one is being clicked
	Cardable   bool           // a bank card on the paper can be clicked as a check
	Carding    bool           // it is being clicked
	Lengths    []MeasuredView // drawn lengths clicked, across and down; empty for none
	LengthSay  string         // "In the picture it is 10.02 cm. Type ..."
	Flatten    string         // "Straighten this photo"; empty while it cannot be, or was
	Flat       bool           // it has been straightened
	Shown      bool           // the straightened picture is shown
	Dimmed     bool
	Traced     bool // something was traced from it, so that it stays as it lies

	Leads   []string // whose piece it may show another part of; empty where none
	Lead    int
	JoinAll string     // "Join all 4 photos into one piece"; empty where it cannot be
	Joining bool       // it is shown beside what it is joined to
	Parts   []PartView // that lie on its flat picture; empty for it alone

	Lines *LinesView // nil until it is flat
}

// MeasuredView is a distance measured on the paper.
type MeasuredView struct {
	Name, Text, Unit string
	Off              bool // it cannot be typed yet
}

// PartView is a photo on a flat picture of several, and how well it fits.
type PartView struct{ Name, Words string }

// LinesView is what is traced: one row for every printed size.
type LinesView struct {
	Piece  string
	Cuts   []string
	Cut    int
	Charts []string
	Chart  int
	Sizes  []string // of the chart
	From   int      // smallest printed size, -1 for none
	To     int
	Ways   []string // which of them are traced
	Way    int
	Done   string
	Rows   []TraceRowView
	Row    int
	Follow bool
	Finish string // "Finish size 40"; empty with nothing to finish
	Next   string // "Propose size 38"; empty where nothing can be
	Point  bool   // a point can be taken back
	Marks  []MarkView
	Mark   int    // the mark that the next clicks make, -1 for none
	Shelf  string // "Put Back bodice on the Shelf"; empty until it can be
	Begun  bool   // there is a piece that can be given up
	Note   string // what is still missing, or doubtful
}

// TraceRowView is one size's line.
type TraceRowView struct {
	Size  string
	I, N  int // its place among the printed sizes, for its colour
	Width float64
	Dash  []float64 // px drawn, left out, ...; empty is solid
	Words string    // "15 points, still open"
	State State
}

// MarkView is one kind of mark: "Grain", "Notch".
type MarkView struct {
	Name theme.Name
	Word string
	Hint string
}
