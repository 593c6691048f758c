package main

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"math"
	"math/rand"
	"time"

	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/model/trace/straight"
)

// perMM is how fine the sheets are drawn, in px to a mm: near 150 to the inch.
const perMM = 6

// nestOnPaper is a sheet of about as many million pixels with a nest of closed
// lines on it, 3 mm apart, on paper of brightness 225 with some grain; and the
// lines.
func nestOnPaper(million float64, sizes int) (*image.Gray, []geom.Path) {
	wide, high := int(math.Sqrt(million*1e6*3/4)), int(math.Sqrt(million*1e6*4/3))
	g := image.NewGray(image.Rect(0, 0, wide, high))
	rng := rand.New(rand.NewSource(5))
	for i := range g.Pix {
		g.Pix[i] = uint8(225 + rng.Intn(7) - 3)
	}
	w, h := float64(wide)/perMM, float64(high)/perMM
	var lines []geom.Path
	for k := range sizes {
		ring := closed(geom.Pt(w/2, h/2), w*0.46-3*float64(k), h*0.46-3*float64(k))
		lines = append(lines, ring)
		for _, c := range ring {
			n := int(c.P0.Dist(c.P3) * perMM * 5) // the edges bend little
			for i := range n {
				dab(g, c.At(float64(i)/float64(n)))
			}
		}
	}
	return g, lines
}

// closed is a ring of four edges with corners, half so wide and high.
func closed(mid geom.Point, w, h float64) geom.Path {
	corner := [4]geom.Vec{{X: -w, Y: -h * 0.8}, {X: w * 0.9, Y: -h}, {X: w, Y: h}, {X: -w * 0.9, Y: h * 0.9}}
	var p geom.Path
	for i, a := range corner {
		b := corner[(i+1)%4]
		in := a.Add(b).Scale(-0.04)
		p = append(p, geom.Cubic{
			P0: mid.Add(a), P1: mid.Add(a.Scale(2.0 / 3)).Add(b.Scale(1.0 / 3)).Add(in),
			P2: mid.Add(a.Scale(1.0 / 3)).Add(b.Scale(2.0 / 3)).Add(in), P3: mid.Add(b),
		})
	}
	return p
}

// dab is a dot of ink 0.5 mm across.
func dab(g *image.Gray, at geom.Point) {
	const r = 0.25 * perMM
	x, y := at.X*perMM, at.Y*perMM
	for j := int(y - r - 1); j <= int(y+r+1); j++ {
		for i := int(x - r - 1); i <= int(x+r+1); i++ {
			if image.Pt(i, j).In(g.Rect) {
				ink := min(max(r-math.Hypot(float64(i)+0.5-x, float64(j)+0.5-y)+0.5, 0), 1)
				k := g.PixOffset(i, j)
				g.Pix[k] = min(g.Pix[k], uint8(225-200*ink))
			}
		}
	}
}

// tilted is how a photo of a sheet of wide by high mm, wide px across, was
// taken: somewhat from the side, by a lens that bends a little.
func tilted(size image.Point) straight.Map {
	w := float64(size.X)
	return straight.Map{
		Lens: straight.Lens{K1: 0.02, Centre: geom.Pt(w/2, float64(size.Y)/2), Scale: w * 5 / 6},
		H:    [9]float64{0.2, 0.01, -12, -0.01, 0.21, 7, 0.03 / w, -0.03 / w, 1},
	}
}

// flatBounds is the paper that is shown of a photo, in mm.
func flatBounds(size image.Point) geom.Box {
	return geom.BoxOf(geom.Pt(0, 0), geom.Pt(float64(size.X)/perMM, float64(size.Y)/perMM))
}

// photoRow is a work on a picture at several sizes of one thing.
type photoRow struct {
	name, of string
	counts   []int
	took     []time.Duration
}

var megapixels = []int{3, 12, 48}

// photos times what is done with pictures.
func photos(runs int, told io.Writer) ([]photoRow, error) {
	ctx := context.Background()
	flat := photoRow{name: "make a photo flat", of: "million px", counts: megapixels}
	read := photoRow{name: "find the lines on it", of: "million px", counts: megapixels}
	nest := photoRow{name: "find the lines of a nest", of: "sizes, 12 million px", counts: someSizes}
	line := photoRow{name: "follow a line to the pointer", of: "sizes, 12 million px", counts: someSizes}
	time1 := func(row *photoRow, n int, work func(i int) error) error {
		fmt.Fprintf(told, "\r%-70s", fmt.Sprintf("%s: %d %s", row.name, n, row.of))
		t, err := median(runs, work)
		row.took = append(row.took, t)
		return err
	}
	for _, n := range megapixels {
		g, _ := nestOnPaper(float64(n), 4)
		m := tilted(g.Rect.Size())
		err := errors.Join(
			time1(&flat, n, func(int) error {
				_, err := straight.Flatten(ctx, g, m, flatBounds(g.Rect.Size()), perMM, nil)
				return err
			}),
			time1(&read, n, func(int) error {
				_, err := follow.Prepare(ctx, follow.Sheet{Gray: g, PerMM: perMM}, nil)
				return err
			}))
		if err != nil {
			return nil, err
		}
	}
	for _, k := range someSizes {
		g, lines := nestOnPaper(12, k)
		var f *follow.Field
		err := time1(&nest, k, func(int) (err error) {
			f, err = follow.Prepare(ctx, follow.Sheet{Gray: g, PerMM: perMM}, nil)
			return err
		})
		if err != nil {
			return nil, err
		}
		// The second edge beside the first size, and a pointer on its way along it;
		// each second move begins at another corner, so that nothing is kept.
		edge, guide := lines[1][1], geom.Path{lines[0][1]}
		err = time1(&line, k, func(i int) error {
			from, to := edge.P0, edge.At(0.4+0.05*float64(i%10))
			if i%2 == 1 {
				from, to = edge.P3, edge.At(0.1+0.05*float64(i%10))
			}
			_, err := f.Follow(from, to, nil, follow.Options{Guides: []geom.Path{guide}})
			return err
		})
		if err != nil {
			return nil, fmt.Errorf("following a line among %d sizes: %w", k, err)
		}
	}
	fmt.Fprintf(told, "\r%70s\r", "")
	return []photoRow{flat, read, nest, line}, nil
}

func sayPhotos(w io.Writer, rows []photoRow) {
	fmt.Fprintf(w, "%-30s%-24s%12s%12s%12s%9s\n", "ms", "by", "", "", "", "power")
	for _, r := range rows {
		fmt.Fprintf(w, "%-30s%-24s", r.name, r.of)
		for i, n := range r.counts {
			fmt.Fprintf(w, "%12s", fmt.Sprintf("%d: %s", n, ms(r.took[i])))
		}
		fmt.Fprintf(w, "%9.2f\n", power(r.took[1], r.took[2], r.counts[1], r.counts[2]))
	}
}
