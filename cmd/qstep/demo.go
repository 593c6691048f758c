package main

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"

	"quarterstep/app"
	"quarterstep/assets"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// demo does the main job on the demo blouse without a window: it saves the
// project, prints it, and draws the picture the Table would show.
func demo(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("demo", flag.ContinueOnError)
	folder := fs.String("o", "", "")
	if _, err := parse(fs, args, 0, "o"); err != nil {
		return err
	}
	p, err := app.DemoBlouse()
	if err != nil {
		return err
	}
	r, err := app.Grade(p)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(*folder, 0o755); err != nil {
		return fmt.Errorf("the folder %s cannot be made", *folder)
	}
	project, pdf, picture := filepath.Join(*folder, "blouse.qstep"), filepath.Join(*folder, "blouse-48-a4.pdf"), filepath.Join(*folder, "blouse-48.png")
	if err := app.Save(project, p); err != nil {
		return err
	}
	setup, err := app.PrintSetup("a4", "", "")
	if err != nil {
		return err
	}
	job, err := app.Plan(p, app.PrintChoice{Stitching: true, Marks: true}, setup)
	if err != nil {
		return err
	}
	if err := app.WriteFile(pdf, job.WritePDF); err != nil {
		return err
	}
	if err := app.WriteFile(picture, func(w io.Writer) error { return drawTable(w, p, r) }); err != nil {
		return err
	}
	fmt.Fprintf(out, "Opened the demo blouse and graded it to %s.\n", r.Size)
	for _, s := range app.ShortText(p, r) {
		fmt.Fprintln(out, s)
	}
	fmt.Fprintf(out, "It can be made longer or shorter at: %s.\n", strings.Join(app.LengthNames(p), ", "))
	fmt.Fprintf(out, "The project: %s\nThe PDF, %d pages of A4: %s\nThe picture: %s\n", project, job.Pages(), pdf, picture)
	return nil
}

// drawTable writes a PNG of the Table with everything on it.
func drawTable(w io.Writer, p model.Pattern, r grading.Result) error {
	const width, height, margin = 1600, 1000, 40
	fonts, err := paint.NewFonts(assets.LatoRegular, assets.LatoBold)
	if err != nil {
		return err
	}
	in := scene.Input{Pattern: p, Result: r, Nest: true}
	v := view.Fit(in.Bounds(), width, height, margin)
	in.Scale = v.Scale
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	paint.Clear(img, palette.Light.Table)
	paint.New(fonts, palette.Light).Paint(img, paint.Screen{View: v, Factor: 1}, scene.Static(in, nil))
	return png.Encode(w, img)
}
