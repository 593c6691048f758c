package ui

import (
	"quarterstep/assets"
	"quarterstep/ui/panel"
)

// picture is what the window looks like at a step; nothing where there is none.
func picture(name string) []byte {
	png, err := assets.Pictures.ReadFile("pictures/" + name + ".png")
	if err != nil {
		return nil
	}
	return png
}

// helpView is the help page: the work, cautions, words and keys. What words mean
// is the trade's common use.
func helpView() panel.HelpView {
	return panel.HelpView{
		Steps: []panel.TermView{
			{Term: "1 Bring in", Means: "Lay targets, a page or a cutting mat beside the paper and take a photo from above, or scan it. It is made flat and to scale; then click from corner to corner along the outermost size, and the printed line is followed. The next size is proposed from the one before. An SVG with a layer for each size comes in by itself.", Picture: picture("bringin")},
			{Term: "2 Sizes", Means: "Choose a size chart and a size on the Size strip, or type the wearer's own measurements.", Picture: picture("wearer")},
			{Term: "3 Grade", Means: "Each corner goes on beyond the print, by the chart or by equal steps. The Increments panel says by how much and why; type another amount, or drag a handle by eye.", Picture: picture("grade")},
			{Term: "4 True", Means: "The two sides of each seam are laid along each other. Where one is too long, choose what gives way. Notches meet, darts are folded shut and trued.", Picture: picture("true")},
			{Term: "5 Length", Means: "Lengthen or shorten at the marked lines or the hem, the same amount all across, on all pieces that belong together.", Picture: picture("length")},
			{Term: "6 Print", Means: "Choose the paper, check the scale of the printer once, print, measure the square, trim, glue, cut.", Picture: picture("print")},
		},
		Cautions: cautions(),
		Words: []panel.TermView{
			{Term: "Nest", Means: "Several sizes of one piece printed inside each other."},
			{Term: "Grade", Means: "To take a pattern to another size."},
			{Term: "Grade point", Means: "A place of the outline with its own increment: corners, and points added on a curve."},
			{Term: "Gap, step", Means: "Gap: how far two neighbouring printed lines are apart. Step: from one size to the next."},
			{Term: "Increment", Means: "How far a grade point moves from the nearest printed size."},
			{Term: "By steps, by chart", Means: "By steps repeats the printed gap for every size. By chart follows how the body measure grows, which past the printed sizes is often more."},
			{Term: "Ease", Means: "What a garment measures beyond the body; along a seam, what one side is longer than the other, to be eased in."},
			{Term: "Grain", Means: "The direction of the cloth's threads, marked by an arrow. Pieces are laid with it."},
			{Term: "Fold, centre line", Means: "An edge laid on the folded cloth, or the middle of the body. It never moves when a piece is graded."},
			{Term: "Notch", Means: "A small mark on a seam that meets its mate. Single at the front, double at the back."},
			{Term: "True", Means: "To bring seams that meet to one length and one smooth line."},
			{Term: "Kink", Means: "A corner in a line that should run on smoothly."},
			{Term: "Cap, armhole", Means: "The upper edge of a sleeve, and the edge that it is sewn into."},
			{Term: "Facing", Means: "A piece that finishes an edge from within and has the same line as that edge."},
			{Term: "Dart", Means: "A fold sewn to a point. Its legs are as long as each other, and its take-up is what it folds away."},
			{Term: "Toile", Means: "The garment sewn in cheap cloth first, to see how it fits."},
			{Term: "Seam line", Means: "Where it is sewn, inside the cutting line by the seam allowance."},
			{Term: "Lengthen line", Means: "The double line across a piece at which it is made longer or shorter."},
		},
		Keys: []panel.TermView{
			{Term: "Arrows", Means: "Move what is in hand by 1/16 in or 1 mm; Shift 1/4 in or 5 mm; Ctrl 1/64 in or 0.2 mm"},
			{Term: "Tab, Shift+Tab", Means: "On the Table the next or previous handle, in a table the next figure, elsewhere the next button"},
			{Term: "F6, Shift+F6", Means: "Next or previous part of the window: Table, Size strip, panels, steps, Shelf, tools"},
			{Term: "F10", Means: "The menu with Open, Save and the rest; the arrows go through it, Enter chooses"},
			{Term: "Shift+F10, Menu", Means: "What can be done to what is in hand, as a right click shows it"},
			{Term: "Page Up, Page Down", Means: "The piece before, the next piece"},
			{Term: "Enter", Means: "With Measure, measure from the handle in hand to the one Tab goes to; with Point, add one in the middle of the edge in hand"},
			{Term: ", and .", Means: "One size down or up; with Shift half a size"},
			{Term: "M S R P", Means: "Move, slide, measure, add a point"},
			{Term: "N I C U", Means: "Nest, seam line, close-up, ruler"},
			{Term: "L", Means: "Lock or free the point in hand"},
			{Term: "K", Means: "Link the edge in hand to the next edge clicked; with Shift, add one to a side"},
			{Term: "J", Means: "At True, lay the pieces of the seam together, or apart"},
			{Term: "Delete", Means: "Take out the grade point, cut line or lengthen line in hand"},
			{Term: "+ - 0 9", Means: "Zoom, fit, true size"},
			{Term: "1 to 6", Means: "Bring in, Sizes, Grade, True, Length, Print"},
			{Term: "E W H", Means: "Increments, Wearer, Checks"},
			{Term: "F2", Means: "Rename the piece"},
			{Term: "Ctrl+Z, Ctrl+Shift+Z", Means: "Undo, redo"},
			{Term: "Ctrl+S, Ctrl+O", Means: "Save, open"},
			{Term: "Ctrl+P, Ctrl+Shift+P", Means: "Save a PDF, print"},
			{Term: "Ctrl+Shift+C", Means: "Copy what the Table shows as text: pieces, size, figures, checks"},
			{Term: "Esc", Means: "Let go without changing anything"},
		},
	}
}

// cautions are what to mind before cutting. Common practice; safety rules are
// named only, for they differ from place to place.
func cautions() []string {
	return []string{
		"Print at 100 %, with no fitting to the page, and measure the test square before you cut.",
		"A size beyond the printed ones is worked out, not proved: sew a toile first.",
		"A bought pattern is licensed for your own use. Keep graded copies to yourself.",
		"Children's nightwear, cords and drawstrings: the safety rules where you live come first.",
	}
}
