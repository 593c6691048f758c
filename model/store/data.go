package store

import (
	"encoding/json"

	"quarterstep/assets/words"
)

// The types below are pattern.json as package store writes it; they mirror the
// model, which may move without them.
type (
	patternData struct {
		Name     string             `json:"name,omitempty"`
		Note     string             `json:"note,omitempty"`
		Unit     string             `json:"unit,omitempty"`
		Chart    chartData          `json:"chart"`
		Target   targetData         `json:"target"`
		Pieces   []pieceData        `json:"pieces,omitempty"`
		Links    []linkData         `json:"links,omitempty"`
		Lengths  []lengthData       `json:"lengths,omitempty"`
		Pictures []pictureData      `json:"pictures,omitempty"`
		Tracings []tracingData      `json:"tracings,omitempty"`
		Limits   map[string]float64 `json:"limits,omitempty"`
	}
	chartData struct {
		ID       string     `json:"id,omitempty"`
		Name     string     `json:"name,omitempty"`
		Source   string     `json:"source,omitempty"`
		Status   string     `json:"status,omitempty"`
		Measures []string   `json:"measures,omitempty"`
		Sizes    []sizeData `json:"sizes"`
	}
	sizeData struct {
		Name string             `json:"name"`
		Code string             `json:"code,omitempty"`
		Body map[string]float64 `json:"body,omitempty"`
	}
	targetData struct {
		Place  float64            `json:"place"`
		Method string             `json:"method,omitempty"`
		Wearer string             `json:"wearer,omitempty"`
		Body   map[string]float64 `json:"body,omitempty"`
		Stages bool               `json:"stages,omitempty"`
	}
	pieceData struct {
		ID        string        `json:"id"`
		Name      string        `json:"name,omitempty"`
		Cut       int           `json:"cut,omitempty"`
		Lining    int           `json:"lining,omitempty"`
		At        pair          `json:"at,omitzero"`
		Points    []pointData   `json:"points"`
		Edges     []edgeData    `json:"edges"`
		Nest      []outlineData `json:"nest,omitempty"`
		Lines     []lineData    `json:"lines,omitempty"`
		Notches   []notchData   `json:"notches,omitempty"`
		Darts     []dartData    `json:"darts,omitempty"`
		OneForAll bool          `json:"oneForAll,omitempty"`
		Gaps      []gapData     `json:"gaps,omitempty"`
		Cuts      []cutData     `json:"cuts,omitempty"`
		Hand      handData      `json:"hand,omitzero"`
		Picture   string        `json:"picture,omitempty"`
	}
	pointData struct {
		ID     string `json:"id"`
		Name   string `json:"name,omitempty"`
		Smooth bool   `json:"smooth,omitempty"`
		Across string `json:"across,omitempty"`
		Along  string `json:"along,omitempty"`
		Locked bool   `json:"locked,omitempty"`
	}
	edgeData struct {
		ID        string  `json:"id"`
		Name      string  `json:"name,omitempty"`
		Kind      string  `json:"kind,omitempty"`
		Allowance float64 `json:"allowance,omitempty"`
	}
	outlineData struct {
		Size  string    `json:"size"`
		Also  []string  `json:"also,omitempty"`
		Edges [][]curve `json:"edges"`
	}
	gapData struct {
		Point  string  `json:"point"`
		Across float64 `json:"across,omitempty"`
		Along  float64 `json:"along,omitempty"`
	}
	cutData struct {
		ID      string  `json:"id"`
		From    pair    `json:"from"`
		To      pair    `json:"to"`
		Measure string  `json:"measure"`
		Share   float64 `json:"share"`
	}
	lineData struct {
		ID    string          `json:"id"`
		Name  string          `json:"name,omitempty"`
		Kind  string          `json:"kind"`
		Drawn []sizedPathData `json:"drawn,omitempty"`
	}
	sizedPathData struct {
		Size string  `json:"size,omitempty"`
		Path []curve `json:"path"`
	}
	notchData struct {
		ID     string     `json:"id"`
		Edge   string     `json:"edge"`
		Double bool       `json:"double,omitempty"`
		Spots  []spotData `json:"spots,omitempty"`
	}
	spotData struct {
		Size string  `json:"size,omitempty"`
		S    float64 `json:"s"`
	}
	dartData struct {
		ID         string           `json:"id"`
		Name       string           `json:"name,omitempty"`
		From       string           `json:"from"`
		To         string           `json:"to"`
		Across     string           `json:"across,omitempty"`
		Along      string           `json:"along,omitempty"`
		Apex       []sizedPointData `json:"apex,omitempty"`
		TakeUpKept bool             `json:"takeUpKept,omitempty"`
		Trued      bool             `json:"trued,omitempty"`
	}
	sizedPointData struct {
		Size string `json:"size,omitempty"`
		At   pair   `json:"at"`
	}
	handData struct {
		Curves  []curveData `json:"curves,omitempty"`
		Moves   []moveData  `json:"moves,omitempty"`
		Shifts  []shiftData `json:"shifts,omitempty"`
		Shapes  []shapeData `json:"shapes,omitempty"`
		Through []string    `json:"through,omitempty"`
	}
	curveData struct {
		Edge string `json:"edge"`
		Kind string `json:"kind"`
		Size string `json:"size,omitempty"`
	}
	moveData struct {
		Point string `json:"point"`
		By    pair   `json:"by"`
		Stage string `json:"stage,omitempty"`
		Style string `json:"style,omitempty"`
	}
	shiftData struct {
		Edge  string  `json:"edge"`
		Out   float64 `json:"out"`
		Stage string  `json:"stage,omitempty"`
	}
	shapeData struct {
		Edge  string `json:"edge"`
		By    []pair `json:"by,omitempty"`
		Stage string `json:"stage,omitempty"`
	}
	linkData struct {
		ID        string        `json:"id"`
		Kind      string        `json:"kind"`
		Lead      stretchData   `json:"lead"`
		And       []stretchData `json:"and,omitempty"`
		Follow    stretchData   `json:"follow"`
		Ease      float64       `json:"ease,omitempty"`
		Room      float64       `json:"room,omitempty"`
		Refit     string        `json:"refit,omitempty"`
		EaseFixed bool          `json:"easeFixed,omitempty"`
	}
	lengthData struct {
		ID    string          `json:"id"`
		Name  string          `json:"name,omitempty"`
		By    float64         `json:"by,omitempty"`
		Lines []pieceLineData `json:"lines,omitempty"`
		Hems  []stretchData   `json:"hems,omitempty"`
	}
	pieceLineData struct {
		Piece string `json:"piece"`
		Line  string `json:"line"`
	}
	pictureData struct {
		ID    string  `json:"id"`
		Name  string  `json:"name,omitempty"`
		File  string  `json:"file"`
		PerMM float64 `json:"perMM"`
		At    pair    `json:"at,omitzero"`
		Faded float64 `json:"faded,omitempty"`
		Off   float64 `json:"off,omitempty"`
	}
	tracingData struct {
		ID      string            `json:"id"`
		Picture string            `json:"picture"`
		Name    string            `json:"name,omitempty"`
		Cut     int               `json:"cut,omitempty"`
		From    string            `json:"from,omitempty"` // the smallest size printed
		To      string            `json:"to,omitempty"`   // and the largest
		Edges   []edgeData        `json:"edges,omitempty"`
		Sizes   []tracedSizeData  `json:"sizes,omitempty"`
		Lines   []lineData        `json:"lines,omitempty"`
		Notches []tracedNotchData `json:"notches,omitempty"`
		Darts   []tracedDartData  `json:"darts,omitempty"`
	}
	tracedSizeData struct {
		Size    string    `json:"size"`
		Corners []pair    `json:"corners,omitempty"`
		Edges   [][]curve `json:"edges,omitempty"`
		Closed  bool      `json:"closed,omitempty"`
	}
	tracedNotchData struct {
		At     pair   `json:"at"`
		Size   string `json:"size,omitempty"`
		Double bool   `json:"double,omitempty"`
	}
	tracedDartData struct {
		Name string `json:"name,omitempty"`
		From pair   `json:"from"`
		Apex pair   `json:"apex"`
		To   pair   `json:"to"`
		Size string `json:"size,omitempty"`
	}
	stretchData struct {
		Piece   string   `json:"piece"`
		Edges   []string `json:"edges"`
		Reverse bool     `json:"reverse,omitempty"`
	}
)

// IsZero reports that h has no corrections.
func (h handData) IsZero() bool {
	return len(h.Curves) == 0 && len(h.Moves) == 0 && len(h.Shifts) == 0 && len(h.Shapes) == 0 && len(h.Through) == 0
}

// pair is a point or a movement.
type pair [2]float64

// UnmarshalJSON takes two numbers and nothing else.
func (p *pair) UnmarshalJSON(data []byte) error { return numbers(data, p[:]) }

// curve is one cubic: four points.
type curve [8]float64

// UnmarshalJSON takes eight numbers and nothing else.
func (c *curve) UnmarshalJSON(data []byte) error { return numbers(data, c[:]) }

// numbers reads a list of exactly as many numbers as to has room for.
func numbers(data []byte, to []float64) error {
	var list []*float64
	if err := json.Unmarshal(data, &list); err != nil {
		return err
	}
	if len(list) != len(to) {
		return words.Errorf("%.80s should be %d numbers", data, len(to))
	}
	for i, x := range list {
		if x == nil {
			return words.Errorf("%.80s should be %d numbers", data, len(to))
		}
		to[i] = *x
	}
	return nil
}
