package ui

import (
	"quarterstep/assets"
	"quarterstep/assets/words"
	"quarterstep/ui/panel"
)

// picture is what the window looks like at a step, in the language in use where
// there is one; nothing where there is none at all.
func picture(name string) []byte {
	for _, folder := range []string{"pictures/" + words.Now() + "/", "pictures/"} {
		if png, err := assets.Pictures.ReadFile(folder + name + ".png"); err == nil {
			return png
		}
	}
	return nil
}

// helpView is the help page: the work, cautions, words and keys. What words mean
// is the trade's common use.
func helpView() panel.HelpView {
	return panel.HelpView{
		Steps: []panel.TermView{
			{Term: words.T("1 Bring in"), Means: words.T("Lay targets, a page or a cutting mat beside the paper and take a photo from above, or scan it. It is made flat and to scale; then click from corner to corner along the outermost size, and the printed line is followed. The next size is proposed from the one before. An SVG with a layer for each size comes in by itself."), Picture: picture("bringin")},
			{Term: words.T("2 Sizes"), Means: words.T("Choose a size chart and a size on the Size strip, or type the wearer's own measurements."), Picture: picture("wearer")},
			{Term: words.T("3 Grade"), Means: words.T("Each corner goes on beyond the print, by the chart or by equal steps. The Increments panel says by how much and why; type another amount, or drag a handle by eye."), Picture: picture("grade")},
			{Term: words.T("4 True"), Means: words.T("The two sides of each seam are laid along each other. Where one is too long, choose what gives way. Notches meet, darts are folded shut and trued."), Picture: picture("true")},
			{Term: words.T("5 Length"), Means: words.T("Lengthen or shorten at the marked lines or the hem, the same amount all across, on all pieces that belong together."), Picture: picture("length")},
			{Term: words.T("6 Print"), Means: words.T("Choose the paper, check the scale of the printer once, print, measure the square, trim, glue, cut."), Picture: picture("print")},
		},
		Cautions: cautions(),
		Words: []panel.TermView{
			{Term: words.C("explained", "Nest"), Means: words.T("Several sizes of one piece printed inside each other.")},
			{Term: words.T("Grade"), Means: words.T("To take a pattern to another size.")},
			{Term: words.T("Grade point"), Means: words.T("A place of the outline with its own increment: corners, and points added on a curve.")},
			{Term: words.T("Gap, step"), Means: words.T("Gap: how far two neighbouring printed lines are apart. Step: from one size to the next.")},
			{Term: words.C("explained", "Increment"), Means: words.T("How far a grade point moves from the nearest printed size.")},
			{Term: words.T("By steps, by chart"), Means: words.T("By steps repeats the printed gap for every size. By chart follows how the body measure grows, which past the printed sizes is often more.")},
			{Term: words.C("explained", "Ease"), Means: words.T("What a garment measures beyond the body; along a seam, what one side is longer than the other, to be eased in.")},
			{Term: words.T("Grain"), Means: words.T("The direction of the cloth's threads, marked by an arrow. Pieces are laid with it.")},
			{Term: words.T("Fold, centre line"), Means: words.T("An edge laid on the folded cloth, or the middle of the body. It never moves when a piece is graded.")},
			{Term: words.T("Notch"), Means: words.T("A small mark on a seam that meets its mate. Single at the front, double at the back.")},
			{Term: words.T("True"), Means: words.T("To bring seams that meet to one length and one smooth line.")},
			{Term: words.T("Kink"), Means: words.T("A corner in a line that should run on smoothly.")},
			{Term: words.T("Cap, armhole"), Means: words.T("The upper edge of a sleeve, and the edge that it is sewn into.")},
			{Term: words.T("Facing"), Means: words.T("A piece that finishes an edge from within and has the same line as that edge.")},
			{Term: words.T("Dart"), Means: words.T("A fold sewn to a point. Its legs are as long as each other, and its take-up is what it folds away.")},
			{Term: words.T("Toile"), Means: words.T("The garment sewn in cheap cloth first, to see how it fits.")},
			{Term: words.C("explained", "Size chart"), Means: words.T("Which bust, waist and hip each size is meant for. It says how far apart the sizes are where the print does not.")},
			{Term: words.C("explained", "Target"), Means: words.T("A printed mark, on strips or cards, that is laid beside the paper. A photo is made flat and to scale by it.")},
			{Term: words.C("explained", "SVG"), Means: words.T("A drawing of lines from a drawing program. Unlike a photo it needs no tracing.")},
			{Term: words.C("explained", "Stage"), Means: words.T("A size on the way to one far past the print: it is corrected first, and the next goes on from it.")},
			{Term: words.C("explained", "Increment sheet"), Means: words.T("A page that says how much to add where, to draw the new size on the paper pattern by ruler and pencil.")},
			{Term: words.T("Seam line"), Means: words.T("Where it is sewn, inside the cutting line by the seam allowance.")},
			{Term: words.T("Lengthen line"), Means: words.T("The double line across a piece at which it is made longer or shorter.")},
		},
		Keys: keyTerms(),
	}
}

// cautions are what to mind before cutting. Common practice; safety rules are
// named only, for they differ from place to place.
func cautions() []string {
	return []string{
		words.T("Print at 100 %, with no fitting to the page, and measure the test square before you cut."),
		words.T("A size beyond the printed ones is worked out, not proved: sew a toile first."),
		words.T("A bought pattern is licensed for your own use. Keep graded copies to yourself."),
		words.T("Children's nightwear, cords and drawstrings: the safety rules where you live come first."),
	}
}
