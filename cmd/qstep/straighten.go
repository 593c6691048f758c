package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strconv"
	"strings"

	"quarterstep/app"
	"quarterstep/app/paper"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/trace/straight"
)

// straightening is what is asked of straighten.
type straightening struct {
	ref, cell, squares, lens, to string
	apart                        string
	corners, known, join, cards  many
	turn                         int
	json                         bool

	photos []*paper.Photo
	asks   []paper.Request
	marks  [][]paper.Mark  // of each picture on those before it
	check  [][4]geom.Point // cards
	on     []int           // the picture of each card
	lenses []straight.KnownLens
}

// straighten makes pictures flat and writes them as one.
func straighten(args []string, out io.Writer) error {
	var s straightening
	files, err := s.flags(args)
	if err != nil {
		return err
	}
	if err := s.read(files); err != nil {
		return err
	}
	ctx := context.Background()
	parts, says, err := s.solve(ctx)
	if err != nil {
		return err
	}
	flat, err := paper.FlattenParts(ctx, parts, nil)
	if err != nil {
		return err
	}
	if err := app.WriteFile(s.to, flat.WritePNG); err != nil {
		return err
	}
	if err := s.keepLenses(parts); err != nil {
		return err
	}
	if s.json {
		return flatJSON(out, parts, says, flat)
	}
	for i, p := range parts {
		for _, say := range says[i] {
			fmt.Fprintf(out, "%s: %s\n", p.Photo.Name, say)
		}
	}
	w, h := flat.Size()
	fmt.Fprintf(out, "%s: %.0f by %.0f mm of paper, %g pixels to a mm.\n", s.to, w, h, flat.PerMM)
	return nil
}

func (s *straightening) flags(args []string) ([]string, error) {
	fs := flag.NewFlagSet("straighten", flag.ContinueOnError)
	fs.StringVar(&s.ref, "ref", "", "")
	fs.Var(&s.corners, "corners", "")
	fs.Var(&s.known, "known", "")
	fs.Var(&s.join, "join", "")
	fs.Var(&s.cards, "card", "")
	fs.StringVar(&s.cell, "cell", "10mm", "")
	fs.StringVar(&s.apart, "apart", "", "")
	fs.StringVar(&s.squares, "squares", "1x1", "")
	fs.StringVar(&s.lens, "lens", "", "")
	fs.IntVar(&s.turn, "turn", 0, "")
	fs.BoolVar(&s.json, "json", false, "")
	fs.StringVar(&s.to, "o", "", "")
	return parseSome(fs, args, "o")
}

// read opens the pictures and makes ready what is asked of each.
func (s *straightening) read(files []string) error {
	for _, f := range files {
		p, err := paper.Open(f)
		if err != nil {
			return err
		}
		s.photos = append(s.photos, p)
	}
	if err := s.readLenses(); err != nil {
		return err
	}
	for _, p := range s.photos {
		r, err := s.request(p)
		if err != nil {
			return err
		}
		s.asks = append(s.asks, r)
	}
	if err := s.readCorners(); err != nil {
		return err
	}
	n := len(s.photos)
	for _, text := range s.known {
		i, k, err := knownOf(text, n)
		if err != nil {
			return err
		}
		s.asks[i].Known = append(s.asks[i].Known, k)
	}
	for _, text := range s.cards {
		i, rest, err := pictureOf(text, 0, n)
		if err != nil {
			return err
		}
		four, err := fourOf("card", rest)
		if err != nil {
			return err
		}
		s.check, s.on = append(s.check, four), append(s.on, i)
	}
	return s.readJoins()
}

// request is what a picture is made flat by, without its corners.
func (s *straightening) request(p *paper.Photo) (paper.Request, error) {
	r := paper.Request{Lenses: s.lenses, Unit: measure.Centimetres}
	ref := s.ref
	if ref == "" && p.IsScan() {
		ref = "scan"
	}
	switch ref {
	case "scan":
		r.Reference = paper.Scan
	case "a4":
		r.Reference, r.Paper = paper.Page, straight.A4
	case "letter":
		r.Reference, r.Paper = paper.Page, straight.Letter
	case "card":
		r.Reference, r.Paper = paper.Page, straight.Card
	case "targets":
		r.Reference = paper.Targets
		var err error
		r.Apart, err = apartOf(s.apart)
		return r, err
	case "mat":
		r.Reference = paper.Mat
		var err error
		if r.Cell, err = lengthOf("cell", s.cell); err != nil {
			return r, err
		}
		if r.Across, r.Down, err = squaresOf(s.squares); err != nil {
			return r, err
		}
	case "":
		return r, fmt.Errorf("%w: %s is no scan; say by --ref what makes it flat", errUsage, p.Name)
	default:
		return r, fmt.Errorf("%w: --ref is scan, targets, a4, letter, mat or card", errUsage)
	}
	return r, nil
}

// squaresOf reads how many squares of a mat lie between the corners, as 3x2.
func squaresOf(text string) (across, down int, err error) {
	const most = 200
	a, b, _ := strings.Cut(text, "x")
	across, errA := strconv.Atoi(strings.TrimSpace(a))
	down, errB := strconv.Atoi(strings.TrimSpace(b))
	if errA != nil || errB != nil || min(across, down) < 1 || max(across, down) > most {
		return 0, 0, fmt.Errorf("%w: --squares is typed 3x2, not %q", errUsage, text)
	}
	return across, down, nil
}

// readCorners gives each picture that is clicked its four corners.
func (s *straightening) readCorners() error {
	var clicked []int
	for i, r := range s.asks {
		if r.Reference == paper.Page || r.Reference == paper.Mat {
			clicked = append(clicked, i)
		}
	}
	if len(clicked) != len(s.corners) {
		return fmt.Errorf("%w: %d picture(s) want their --corners, %d are given", errUsage, len(clicked), len(s.corners))
	}
	for k, i := range clicked {
		four, err := fourOf("corners", s.corners[k])
		if err != nil {
			return err
		}
		s.asks[i].Clicks = four
	}
	return nil
}

func (s *straightening) readJoins() error {
	n := len(s.photos)
	s.marks = make([][]paper.Mark, n)
	for _, text := range s.join {
		i, m, err := joinOf(text, n)
		if err != nil {
			return err
		}
		s.marks[i] = append(s.marks[i], m)
	}
	for i := 1; i < n; i++ {
		if len(s.marks[i]) == 1 {
			return fmt.Errorf("%w: picture %d wants two --join at least with those before it, or none, to be laid by what they show alike", errUsage, i+1)
		}
	}
	return nil
}

// solve finds every picture's way to the one flat paper, and what is said of it.
func (s *straightening) solve(ctx context.Context) (parts []paper.Part, says [][]string, err error) {
	for i, p := range s.photos {
		way, err := p.Straighten(ctx, s.asks[i])
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", p.Name, err)
		}
		say := []string{way.Say}
		for k, four := range s.check {
			if s.on[k] == i {
				words, err := p.CheckCard(ctx, way, four)
				if err != nil {
					return nil, nil, fmt.Errorf("%s: %w", p.Name, err)
				}
				say = append(say, words)
			}
		}
		parts, says = append(parts, paper.Part{Photo: p, Straight: way}), append(says, say)
	}
	if err := s.joinParts(ctx, parts, says); err != nil {
		return nil, nil, err
	}
	for i, p := range parts {
		if l := p.Straight.Learnt; l != nil && s.lens != "" {
			says[i] = append(says[i], fmt.Sprintf("The lens of %s is known now.", l.Camera))
		}
		parts[i].Straight = p.Straight.Turned(s.turn)
	}
	return parts, says, nil
}

func (s *straightening) readLenses() error {
	if s.lens == "" {
		return nil
	}
	f, err := os.Open(s.lens)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("the lenses in %s cannot be read", s.lens)
	}
	defer f.Close()
	s.lenses, err = paper.ReadLenses(f)
	return err
}

// keepLenses writes the lenses that were learnt.
func (s *straightening) keepLenses(parts []paper.Part) error {
	if s.lens == "" {
		return nil
	}
	kept, learnt := s.lenses, false
	for _, p := range parts {
		if l := p.Straight.Learnt; l != nil {
			kept, learnt = paper.Lenses(kept, *l), true
		}
	}
	if !learnt {
		return nil
	}
	return app.WriteFile(s.lens, func(w io.Writer) error { return paper.WriteLenses(w, kept) })
}
