// words: none
package main

import (
	"fmt"
	"image"
	"math/rand/v2"
	"os"

	"quarterstep/app/paper"
	"quarterstep/model"
	"quarterstep/model/store"
	"quarterstep/ui/scene/scenetest"
)

// The photo is 4000 by 3000 pixels, 6 to the mm.
const (
	wide, high = 4000, 3000
	perMM      = 6
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: fulltable FILE.qstep")
		os.Exit(2)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "fulltable:", err)
		os.Exit(1)
	}
}

func write(path string) error {
	in, err := scenetest.Wardrobe(10)
	if err != nil {
		return err
	}
	flat, err := paper.Flat{Colour: paperWithGrain(), PerMM: perMM}.Keep()
	if err != nil {
		return err
	}
	p := in.Pattern
	p.Name, p.Target.Place = "Full table", 11
	p.Pictures = []model.Picture{{ID: "photo", Name: "paper.jpg", File: "paper.jpg", PerMM: perMM}}
	for i := range p.Pieces {
		p.Pieces[i].Picture = "photo"
	}
	if err := p.Validate(); err != nil {
		return err
	}
	return store.Save(path, store.File{Pattern: p, Pictures: map[string][]byte{"paper.jpg": flat.File}})
}

// paperWithGrain is brown paper as a camera sees it: no two pixels alike.
func paperWithGrain() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	r := rand.New(rand.NewPCG(1, 2))
	for i := 0; i < len(img.Pix); i += 4 {
		grain := uint8(r.IntN(24))
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = 196+grain, 172+grain, 132+grain, 255
	}
	return img
}
