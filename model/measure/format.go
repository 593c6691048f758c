package measure

import (
	"math/big"
	"strings"

	"quarterstep/assets/words"
)

// Grain is what a length is rounded to when it is shown, and so also the unit
// it is shown in.
type Grain struct {
	unit Unit
	per  int64 // grains in one unit
}

// The grains in use. Sixteenths suits cloth, sixty-fourths a ruler for
// grading; a tenth of a centimetre is a millimetre shown in centimetres.
var (
	Sixteenths    = Grain{Inches, 16}
	ThirtySeconds = Grain{Inches, 32}
	SixtyFourths  = Grain{Inches, 64}
	WholeMM       = Grain{Millimetres, 1}
	HalfMM        = Grain{Millimetres, 2}
	TenthMM       = Grain{Millimetres, 10}
	TenthCM       = Grain{Centimetres, 10}
)

// Format rounds mm to the nearest grain, halves away from zero, and writes it
// without the unit's name and with the decimal mark of the language in use:
// "1 11/16", "42.9", "-3". Something that is no ordinary number is written "?".
func Format(mm float64, g Grain) string {
	l, err := FromMM(mm)
	if err != nil {
		return "?"
	}
	return strings.Replace(l.round(g).Exact(g.unit), ".", words.Decimal(), 1)
}

// round is l at the nearest whole number of grains, halves away from zero.
func (l Length) round(g Grain) Length {
	grain := new(big.Rat).Quo(g.unit.mm(), big.NewRat(g.per, 1))
	n := new(big.Rat).Quo(new(big.Rat).Abs(l.rat()), grain)
	n.Add(n, big.NewRat(1, 2))
	whole := new(big.Rat).SetInt(new(big.Int).Quo(n.Num(), n.Denom()))
	if l.rat().Sign() < 0 {
		whole.Neg(whole)
	}
	return Length{whole.Mul(whole, grain)}
}

// FormatMM shows a small amount, with the unit's name, in the unit a pattern
// is shown in: inches to 1/16 ("1 11/16 in"), else millimetres to 0.1
// ("42.9 mm").
func FormatMM[U ~string](mm float64, unit U) string {
	if Unit(unit) == Inches {
		return withUnit(mm, Sixteenths)
	}
	return withUnit(mm, TenthMM)
}

// FormatPlace shows a girth or a place on the Table: inches to 1/16
// ("36 1/2 in"), else centimetres to 0.1 ("92.5 cm").
func FormatPlace[U ~string](mm float64, unit U) string {
	if Unit(unit) == Inches {
		return withUnit(mm, Sixteenths)
	}
	return withUnit(mm, TenthCM)
}

func withUnit(mm float64, g Grain) string {
	return Format(mm, g) + " " + g.unit.Name()
}
