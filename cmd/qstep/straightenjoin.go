package main

import (
	"context"
	"fmt"

	"quarterstep/app/paper"
	"quarterstep/model/measure"
)

// joinParts lays the pictures on the first: by the marks that are given, else by
// what they show alike. One that shows nothing of those that lie waits for the
// others, as it may show something of them.
func (s *straightening) joinParts(ctx context.Context, parts []paper.Part, says [][]string) error {
	lies := map[int]int{0: 0} // pictures that lie, and the how manieth each was
	placed := []paper.Part{parts[0]}
	for len(placed) < len(parts) {
		before := len(placed)
		for i := range parts {
			if _, done := lies[i]; done {
				continue
			}
			marks, ok, err := s.marksOn(ctx, placed, lies, parts[i], i)
			if err == nil && ok {
				err = joinOne(ctx, placed, &parts[i], marks)
			}
			if err != nil {
				return fmt.Errorf("%s: %w", parts[i].Photo.Name, err)
			}
			if ok {
				lies[i] = len(placed)
				placed, says[i] = append(placed, parts[i]), append(says[i], parts[i].Straight.Say)
			}
		}
		if len(placed) == before {
			return s.notLaid(parts, lies)
		}
	}
	return nil
}

func joinOne(ctx context.Context, placed []paper.Part, q *paper.Part, marks []paper.Mark) error {
	way, err := q.Photo.Join(ctx, placed, q.Straight, marks, measure.Centimetres)
	if err == nil {
		q.Straight = way
	}
	return err
}

// marksOn are places that a picture and those that lie both show; false where
// there are none yet.
func (s *straightening) marksOn(ctx context.Context, placed []paper.Part, lies map[int]int, q paper.Part, i int) ([]paper.Mark, bool, error) {
	if len(s.marks[i]) == 0 {
		return q.Photo.Meet(ctx, placed, q.Straight, nil)
	}
	var out []paper.Mark
	for _, m := range s.marks[i] {
		on, ok := lies[m.On]
		if !ok {
			return nil, false, nil
		}
		out = append(out, paper.Mark{On: on, There: m.There, Here: m.Here})
	}
	return out, true, nil
}

// notLaid is the error for the first picture that lies nowhere.
func (s *straightening) notLaid(parts []paper.Part, lies map[int]int) error {
	for i, q := range parts {
		if _, done := lies[i]; !done && len(s.marks[i]) == 0 {
			return fmt.Errorf("%s: what the pictures show alike does not tell where it lies: give two --join for picture %d", q.Photo.Name, i+1)
		}
	}
	return fmt.Errorf("the pictures that --join names do not hang together")
}
