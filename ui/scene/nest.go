package scene

// pen is how a line is drawn: its width and dashes in px.
type pen struct {
	width float64
	dash  []float64
}

// nestPens are the four ways a printed size is drawn, smallest size first: each
// heavier and longer in the dash than the one before.
var nestPens = [4]pen{
	{1.5, []float64{1.8, 2.8}},
	{1.4, []float64{5, 3}},
	{1.5, []float64{9, 3, 1.5, 3}},
	{1.8, []float64{16, 3}},
}

// nestPen is the pen of the i-th of n printed sizes. Up to four sizes are spread
// over the four pens, so that the largest is always the heaviest. Past four,
// neighbours share a pen, the earlier at half length and the later at double;
// dots are not halved, they would run together.
func nestPen(i, n int) pen {
	if n <= 4 {
		if n == 1 {
			return nestPens[3]
		}
		return nestPens[(i*3+(n-1)/2)/(n-1)]
	}
	p := nestPens[min(i*4/n, 3)]
	stretch := 2.0
	if i == 0 || (i-1)*4/n != i*4/n {
		stretch = 0.5
		if p.dash[0] < 2 {
			stretch = 1
		}
	}
	dash := make([]float64, len(p.dash))
	for k, d := range p.dash {
		dash[k] = d * stretch
	}
	return pen{p.width, dash}
}

// NestDash is how the i-th of n printed sizes is drawn: its width and dashes in
// px.
func NestDash(i, n int) (width float64, dash []float64) {
	p := nestPen(i, n)
	return p.width, p.dash
}
