package app

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"quarterstep/model"
)

// A drawing of a hundred pieces says how far it is, never less than before, up to
// the end; cancelled on the way it ends with that and brings nothing in.
func TestBringingInIsWatched(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	var many []model.Piece
	for i := range 100 {
		q := p.Pieces[i%len(p.Pieces)]
		q.ID, q.Name = fmt.Sprintf("q%d", i), fmt.Sprintf("Piece no. %d", i)
		many = append(many, q)
	}
	p.Pieces, p.Links = many, nil
	path := onPaper(t, p)
	var lock sync.Mutex
	far, told := 0.0, 0
	w := Watch{Context: t.Context(), Progress: func(share float64) {
		lock.Lock()
		defer lock.Unlock()
		far, told = max(far, share), told+1
	}}
	began := time.Now()
	got, err := w.BringInByAnyChart(path, []model.SizeChart{p.Chart})
	whole := time.Since(began)
	if err != nil || len(got.Pattern.Pieces) != 100 || told != 100 || far != 1 {
		t.Fatalf("%d pieces, told %d times up to %.2f: %v", len(got.Pattern.Pieces), told, far, err)
	}
	ctx, stop := context.WithCancel(t.Context())
	n := 0
	w = Watch{Context: ctx, Progress: func(float64) {
		lock.Lock()
		defer lock.Unlock()
		if n++; n == 10 {
			stop()
		}
	}}
	began = time.Now()
	if got, err = w.BringInByAnyChart(path, []model.SizeChart{p.Chart, p.Chart}); !errors.Is(err, context.Canceled) || len(got.Pattern.Pieces) > 0 || n > 50 {
		t.Errorf("cancelled it gave %d pieces after telling %d times: %v", len(got.Pattern.Pieces), n, err)
	}
	t.Logf("a hundred pieces took %v, cancelled at ten %v", whole, time.Since(began))
}
