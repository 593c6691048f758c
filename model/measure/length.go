package measure

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"quarterstep/assets/words"
)

// Unit is what a bare number is read in, or a length is shown in.
type Unit string

// The units; the zero Unit reads as Centimetres.
const (
	Millimetres Unit = "mm"
	Centimetres Unit = "cm"
	Inches      Unit = "in"
)

// Name is the unit as it is shown behind a figure, in the language in use.
func (u Unit) Name() string {
	switch u {
	case Millimetres:
		return "mm"
	case Inches:
		return words.C("inches", "in")
	}
	return "cm"
}

// mm is the size of u in mm, as a fraction.
func (u Unit) mm() *big.Rat {
	switch u {
	case Millimetres:
		return big.NewRat(1, 1)
	case Inches:
		return big.NewRat(254, 10)
	}
	return big.NewRat(10, 1)
}

// Length is an exact length; the zero value is no length. Compare with Cmp,
// not with ==.
type Length struct {
	mm *big.Rat // nil is 0; never written to once set
}

func (l Length) rat() *big.Rat {
	if l.mm == nil {
		return new(big.Rat)
	}
	return l.mm
}

// FromMM is the length of mm millimetres, taken as the shortest decimal that
// names the float: FromMM(28.6) is 28.6 mm exactly. It is an error when mm is
// no ordinary number.
func FromMM(mm float64) (Length, error) {
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(mm, 'g', -1, 64))
	if !ok {
		return Length{}, words.Errorf("a length of %v mm is not a number", mm)
	}
	return Length{r}, nil
}

// MM is the length in millimetres, rounded to the nearest float64.
func (l Length) MM() float64 {
	f, _ := l.rat().Float64()
	return f
}

// Add is l and m end to end.
func (l Length) Add(m Length) Length { return Length{new(big.Rat).Add(l.rat(), m.rat())} }

// Sub is l less m.
func (l Length) Sub(m Length) Length { return Length{new(big.Rat).Sub(l.rat(), m.rat())} }

// Mul is n times l.
func (l Length) Mul(n int) Length {
	return Length{new(big.Rat).Mul(l.rat(), big.NewRat(int64(n), 1))}
}

// Div is an nth of l; n is not 0.
func (l Length) Div(n int) Length {
	return Length{new(big.Rat).Quo(l.rat(), big.NewRat(int64(n), 1))}
}

// Cmp is -1, 0 or 1 as l is shorter than, as long as or longer than m.
func (l Length) Cmp(m Length) int { return l.rat().Cmp(m.rat()) }

// Exact writes l in unit u without rounding and without the unit's name:
// inches as a fraction ("1 1/8"), millimetres and centimetres as a decimal
// where it ends ("28.575"), else as a fraction.
func (l Length) Exact(u Unit) string {
	r := new(big.Rat).Quo(l.rat(), u.mm())
	if u != Inches {
		if places, ends := r.FloatPrec(); ends {
			return r.FloatString(places)
		}
	}
	return fraction(r)
}

// fraction writes r as a whole number and a proper fraction: "-1 1/8".
func fraction(r *big.Rat) string {
	var rest big.Int
	whole, _ := new(big.Int).QuoRem(new(big.Int).Abs(r.Num()), r.Denom(), &rest)
	var b strings.Builder
	if r.Sign() < 0 {
		b.WriteByte('-')
	}
	if whole.Sign() != 0 || rest.Sign() == 0 {
		b.WriteString(whole.String())
	}
	if rest.Sign() != 0 {
		if whole.Sign() != 0 {
			b.WriteByte(' ')
		}
		fmt.Fprintf(&b, "%v/%v", &rest, r.Denom())
	}
	return b.String()
}
