package propose

import (
	"testing"

	"quarterstep/model"
)

// Names as they are printed on patterns (trade usage, from memory) and what
// they are read as.
func TestNamesAreRead(t *testing.T) {
	for name, want := range map[string]struct {
		sort  sort
		layer layer
		half  string
	}{
		"Front":                    {body, cloth, "front"},
		"Back bodice, cut 1":       {body, cloth, "back"},
		"SIDE-FRONT":               {body, cloth, "front"},
		"Front neck facing":        {body, facing, "front"},
		"Collar interfacing":       {collar, inside, ""},
		"Sleeve lining":            {sleeve, lining, ""},
		"Back underlining":         {body, lining, "back"},
		"Top sleeve":               {sleeve, cloth, ""},
		"Sleeve band":              {cuff, cloth, ""},
		"Collar stand":             {collar, cloth, ""},
		"Waistband":                {waistband, cloth, ""},
		"Back yoke":                {yokePiece, cloth, "back"},
		"Trouser back":             {lower, cloth, "back"},
		"Front skirt panel":        {lower, cloth, "front"},
		"Patch pocket":             {odd, cloth, ""},
		"Belt loops":               {odd, cloth, ""},
		"Fly facing":               {odd, facing, ""},
		"Tabard front":             {body, cloth, "front"},
		"Piece 4":                  {odd, cloth, ""},
		"Front and back waistband": {waistband, cloth, ""},
	} {
		if s, l, h := sortOf(name), layerOf(name), half(name); s != want.sort || l != want.layer || h != want.half {
			t.Errorf("%s: %q, %q, %q; want %v", name, s, l, h, want)
		}
	}
	for name, e := range map[string]struct {
		on   sort
		kind model.EdgeKind
		want role
	}{
		"Shoulder by the neck":       {body, model.Plain, shoulder},
		"V neck":                     {body, model.Plain, neck},
		"Neck edge":                  {body, model.Plain, neck},
		"Armscye":                    {body, model.Plain, armhole},
		"Side seam 4":                {body, model.Plain, side},
		"side above the waist":       {body, model.Plain, side},
		"side above the dart":        {body, model.Plain, side},
		"lower half of the dart cap": {body, model.Plain, dartCap},
		"Waist seam":                 {body, model.Plain, waist},
		"neckline":                   {body, model.Fold, fold},
		"Center back":                {body, model.Plain, fold},
		"outer edge":                 {body, model.Plain, free},
		"Sleeve head":                {sleeve, model.Plain, sleeveCap},
		"left underarm seam 2":       {sleeve, model.Plain, armSeam},
		"wrist":                      {sleeve, model.Plain, hem},
		"outseam":                    {lower, model.Plain, side},
		"princess seam":              {body, model.Plain, unknown},
	} {
		if got := roleOf(model.Edge{Name: name, Kind: e.kind}, e.on); got != e.want {
			t.Errorf("%s on a %s: %q, want %q", name, e.on, got, e.want)
		}
	}
	if a, b := bare("Front princess seam"), bare("side front princess seam"); a != b {
		t.Errorf("two sides of one seam are %q and %q", a, b)
	}
}
