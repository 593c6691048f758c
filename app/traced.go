package app

import (
	"context"
	"path/filepath"
	"strings"

	"quarterstep/app/edit"
	"quarterstep/app/paper"
	"quarterstep/app/trace"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/store"
)

// Traced is a project traced off a flat picture, with the picture kept in it,
// and what is doubtful of its lines, a sentence each.
type Traced struct {
	File   store.File
	Doubts []string
}

// TraceClicks traces pieces off a flat picture, one that says its scale, by
// files of clicks, as the window does when clicked so.
func TraceClicks(ctx context.Context, picture string, chart model.SizeChart, clicks []trace.Clicks) (Traced, error) {
	photo, err := paper.Open(picture)
	if err != nil {
		return Traced{}, err
	}
	way, err := photo.Straighten(ctx, paper.Request{Reference: paper.Scan, Unit: "cm"})
	if err != nil {
		return Traced{}, words.Errorf("%s is not flat and to scale yet: %w", photo.Name, err)
	}
	flat, err := photo.Flatten(ctx, way, nil)
	if err != nil {
		return Traced{}, err
	}
	lines, err := flat.Lines(ctx, nil)
	if err != nil {
		return Traced{}, err
	}
	const id = "photo-1"
	name := strings.TrimSuffix(photo.Name, filepath.Ext(photo.Name))
	out := Traced{File: store.File{Pictures: map[string][]byte{id + ".jpg": flat.File}}}
	p := model.Pattern{Name: name, Unit: unitOf(chart), Chart: chart}
	if p, err = edit.AddPicture(model.Picture{ID: id, Name: name, File: id + ".jpg", PerMM: flat.PerMM})(p); err != nil {
		return Traced{}, err
	}
	perMM := [2]float64{photo.Picture.PerInch[0] / 25.4, photo.Picture.PerInch[1] / 25.4}
	for _, c := range clicks {
		var say []string
		if p, say, err = c.Trace(ctx, p, id, trace.Sheet{Lines: lines, PerMM: perMM}); err != nil {
			return Traced{}, err
		}
		out.Doubts = append(out.Doubts, say...)
	}
	p.Target.Place = largestPrinted(p)
	out.File.Pattern = p
	return out, p.Validate()
}
