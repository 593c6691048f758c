package theme

import (
	"image/color"

	"fyne.io/fyne/v2"
	base "fyne.io/fyne/v2/theme"

	"quarterstep/assets"
	"quarterstep/ui/theme/palette"
)

var (
	regular = fyne.NewStaticResource("Lato-Regular.ttf", assets.LatoRegular)
	bold    = fyne.NewStaticResource("Lato-Bold.ttf", assets.LatoBold)
)

// Theme is the look in one of its two sets of colours. Make it with New.
type Theme struct {
	dark   bool
	scale  float32
	shades map[fyne.ThemeColorName]color.Color
}

// New makes the light or the dark theme. textScale is 1 for text as designed;
// values outside 1 to 1.5 are taken as the nearer of the two.
func New(dark bool, textScale float32) *Theme {
	return &Theme{
		dark:   dark,
		scale:  min(max(textScale, 1), 1.5),
		shades: shades(palette.Of(dark), dark),
	}
}

// Dark tells which set of colours this is.
func (t *Theme) Dark() bool { return t.dark }

// TextScale is the factor on the sizes of text.
func (t *Theme) TextScale() float32 { return t.scale }

// Color gives the look's colour. The variant Fyne asks for is not heeded: the
// sewist chooses light or dark in the window.
func (t *Theme) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	if c, ok := t.shades[name]; ok {
		return c
	}
	variant := base.VariantLight
	if t.dark {
		variant = base.VariantDark
	}
	return base.DefaultTheme().Color(name, variant)
}

// Font gives Lato, regular or bold; code and symbols keep Fyne's own fonts.
func (t *Theme) Font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Monospace, style.Symbol:
		return base.DefaultTheme().Font(style)
	case style.Bold:
		return bold
	}
	return regular
}

// Icon gives Fyne's own icons, for its dialogs and menus, but for the caret of a
// list to choose from, which is ours.
func (t *Theme) Icon(name fyne.ThemeIconName) fyne.Resource {
	if name == base.IconNameArrowDropDown {
		return base.NewThemedResource(Icon(Caret, palette.Of(t.dark).Ink, palette.Of(t.dark).Ink))
	}
	return base.DefaultTheme().Icon(name)
}

// Size gives the look's sizes, those of text times the text scale.
func (t *Theme) Size(name fyne.ThemeSizeName) float32 {
	if s, ok := textSizes[name]; ok {
		return s * t.scale
	}
	if s, ok := sizes[name]; ok {
		return s
	}
	return base.DefaultTheme().Size(name)
}

var textSizes = map[fyne.ThemeSizeName]float32{
	base.SizeNameText:           Body,
	base.SizeNameCaptionText:    Caption,
	base.SizeNameSubHeadingText: SubHead,
	base.SizeNameHeadingText:    KeyFigure,
	base.SizeNameInlineIcon:     16.8,
}

var sizes = map[fyne.ThemeSizeName]float32{
	base.SizeNamePadding:            4,
	base.SizeNameInnerPadding:       9.6,
	base.SizeNameLineSpacing:        4,
	base.SizeNameInputBorder:        1.2,
	base.SizeNameInputRadius:        ControlRadius,
	base.SizeNameSelectionRadius:    ControlRadius,
	base.SizeNameScrollBar:          12,
	base.SizeNameScrollBarSmall:     4,
	base.SizeNameScrollBarRadius:    6,
	base.SizeNameSeparatorThickness: 1,
}

func shades(p Palette, dark bool) map[fyne.ThemeColorName]color.Color {
	hover, shadow := 0.07, Faded(p.Ink, 0.18)
	if dark {
		hover, shadow = 0.10, color.NRGBA{A: 0x73}
	}
	return map[fyne.ThemeColorName]color.Color{
		base.ColorNameBackground:          p.Window,
		base.ColorNameForeground:          p.Ink,
		base.ColorNamePrimary:             p.Accent,
		base.ColorNameForegroundOnPrimary: p.OnAccent,
		base.ColorNameHyperlink:           p.AccentInk,
		base.ColorNameButton:              p.Button,
		base.ColorNameDisabledButton:      p.Rail,
		base.ColorNameDisabled:            p.InkFaint,
		base.ColorNamePlaceHolder:         p.InkFaint,
		base.ColorNameInputBackground:     p.Field,
		base.ColorNameInputBorder:         p.Edge,
		base.ColorNameSelection:           p.AccentTint,
		base.ColorNameFocus:               Faded(p.Accent, 0.28),
		base.ColorNameHover:               Faded(p.Ink, hover),
		base.ColorNamePressed:             Faded(p.Ink, 0.14),
		base.ColorNameSeparator:           p.Separator,
		base.ColorNameScrollBar:           Faded(p.Edge, 0.70),
		base.ColorNameScrollBarBackground: color.Transparent,
		base.ColorNameHeaderBackground:    p.Raised,
		base.ColorNameMenuBackground:      p.Raised,
		base.ColorNameOverlayBackground:   p.Raised,
		base.ColorNameShadow:              shadow,
		base.ColorNameWarning:             p.AmberFill,
		base.ColorNameForegroundOnWarning: p.OnAmber,
		base.ColorNameError:               p.Loss,
		base.ColorNameForegroundOnError:   p.OnLoss,
		base.ColorNameSuccess:             p.InkSoft,
		base.ColorNameForegroundOnSuccess: p.Raised,
	}
}

// Faded is c at a share of its strength, 0 to 1.
func Faded(c color.NRGBA, share float64) color.NRGBA {
	c.A = uint8(share*255 + 0.5)
	return c
}
