package ui

import (
	"context"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
	"quarterstep/ui/board"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
	"quarterstep/ui/theme"
)

// Window is the one window of Quarterstep with its open document.
type Window struct {
	app         fyne.App
	win         fyne.Window
	doc         *session.Session
	settings    settings.Settings
	settingsDir string

	step       int           // of the guide rail
	hand       scene.Ref     // piece, edge and point in hand
	nest       bool          // show the printed sizes
	seam       bool          // show the stitching line
	pointer    geom.Point    // where the pointer is on the Table
	over       scene.Ref     // what is under it
	said       string        // a sentence for the status bar, shown once
	alone      bool          // a total is added to the edge in hand alone, not to the one sewn to it
	leftOut    string        // what of the files dropped last cannot be brought in, until she goes on
	copyOf     string        // the file, open in another window, that the document is a copy of
	says       string        // the sentence that the status bar shows, empty while it shows figures
	doubts     []string      // what bringing in left to look at
	looked     string        // the finding in hand
	faults     []scene.Fault // what to look at on the Table, as last looked
	docSerial  int           // counts changes of the document
	safe       safe
	saves      saves
	keeping    keeping
	print      printStep
	printers   printerStep
	scale      scaleStep
	paper      photoStep
	body       wearerStep
	trues      trueStep
	finds      linkFinding
	grows      growthStep
	darts      dartStep
	adding     bool      // a place for a lengthen line is asked for
	dragFrom   float64   // what was put in, mm, when the drag of a lengthen line began
	straight   scene.Ref // the grade point to straighten from, while the other is asked for
	others     others
	rooms      scene.Rooms   // and where there was room for words
	sewn       *scene.Sewn   // the stitching lines shown last
	guidesTook time.Duration // what the guides of the sizes on the way last cost
	reported   reported

	aside func(ctx context.Context, work func()) // does work beside the window

	table      *board.Board
	rail       *panel.Rail
	red        *panel.RedStrip
	shelf      *panel.Shelf
	tools      *panel.Tools
	strip      *panel.Strip
	status     *panel.Status
	increments *panel.Increments
	byEye      *panel.ByEye
	growth     *panel.Growth
	dart       *panel.Dart
	wearer     *panel.Wearer
	links      *panel.Links
	proposals  *panel.Proposals
	walk       *panel.Walk
	joinBar    *panel.JoinBar
	checks     *panel.Checks
	pages      *panel.Pages
	length     *panel.Length
	photos     *panel.Photo
	pill       *panel.Pill
	start      *panel.Start
	tour       *panel.Tour
	tourAt     tourAt
	demoOpen   bool // what is open came as a demo
	folds      map[string]*panel.Fold
	order      []*panel.Fold     // the folds as they stand
	side       fyne.CanvasObject // the folds, stacked
	drawer     *panel.Drawer
	sideHigh   float32 // how high they were when last stacked
	showing    bool    // the panels are being shown anew
	rest       []part  // panels that wait to be shown
	restAsked  bool    // a frame was asked for them
	starts     bool    // the first document is still being read
	frame      *fyne.Container
	dialogOpen bool // one dialog at a time
	asked      asked
	waits      *waiting // what she waits for now, nil for nothing
	fileBox    *fileAsk // open now
}

// Open makes the window on a document, all at once; settingsDir is where habits are kept,
// empty for nowhere. Show it with ShowAndRun.
func Open(a fyne.App, doc *session.Session, s settings.Settings, settingsDir string) *Window {
	w := newWindow(a, s, settingsDir)
	w.build()
	w.openSafe()
	path := doc.Path()
	w.take(doc)
	w.sayCopy(path)
	w.connectEnds()
	return w
}

// newWindow is a window without anything in it.
func newWindow(a fyne.App, s settings.Settings, settingsDir string) *Window {
	w := &Window{app: a, settings: s, settingsDir: settingsDir, step: stepGrade, nest: true, aside: twoAtATime()}
	w.win = a.NewWindow("Quarterstep")
	w.win.SetMaster()
	w.win.SetPadded(false)
	w.setTheme()
	w.win.Resize(fyne.NewSize(1440, 900))
	return w
}

// connectEnds answers what comes from outside: files dropped, and closing.
func (w *Window) connectEnds() {
	w.win.SetOnDropped(w.dropped)
	w.win.SetCloseIntercept(w.askAndClose)
}

// ShowAndRun shows the window and returns when it is closed.
func (w *Window) ShowAndRun() {
	defer w.rescue(time.Now())
	stopwatch.Watch(fyne.Do, eachTurn)
	w.win.ShowAndRun()
}

// eachTurn has something done each time the toolkit goes round, which draws nothing
// by itself.
func eachTurn(f func()) {
	forever := fyne.NewAnimation(time.Second, func(float32) { f() })
	forever.RepeatCount = fyne.AnimationRepeatForever
	forever.Start()
}

// take makes doc the open document.
func (w *Window) take(doc *session.Session) {
	if w.doc != nil && w.doc != doc {
		w.doc.Leave()
	}
	w.keepSafe(doc)
	w.doc, w.copyOf = doc, ""
	w.demoOpen, w.tourAt = false, tourAt{}
	w.docSerial++
	w.doc.Listen(w.changed)
	w.doc.Beside(w.besideEdits())
	w.listEarlier()
	w.hand, w.doubts = firstEdge(doc.Pattern()), nil
	w.body, w.grows, w.darts = wearerStep{}, growthStep{}, dartStep{}
	w.trues, w.finds = trueStep{}, linkFinding{}
	w.sewn, w.rooms = w.newSewn(), scene.Rooms{}
	for _, ph := range w.paper.photos {
		w.stopJob(ph)
	}
	w.putLensAway()
	w.paper = photoStep{}
	w.print.leave()
	w.print = newPrintStep(w.settings.Paper)
	if step := w.firstStep(); step != w.step {
		w.goTo(step)
		return
	}
	w.refresh()
	w.table.Fit()
}

// firstStep is where work begins: bringing in while there is nothing, else
// grading.
func (w *Window) firstStep() int {
	if len(w.doc.Pattern().Pieces) == 0 {
		return stepBringIn
	}
	return stepGrade
}

// firstEdge is what is in hand when a pattern is opened: the longest side seam
// of its first piece where it has one.
func firstEdge(p model.Pattern) scene.Ref {
	if len(p.Pieces) == 0 {
		return scene.Ref{}
	}
	q := p.Pieces[0]
	at, long := scene.Ref{Piece: q.ID, Edge: q.Edges[0].ID}, 0.0
	for j, e := range q.Edges {
		chord := q.Nest[0].Edges[j].Start().Dist(q.Nest[0].Edges[j].End())
		if isSide(e.Name) && chord > long {
			at.Edge, long = e.ID, chord
		}
	}
	return at
}

// changed answers a change of the document: a preview is shown quickly, all
// else everywhere.
func (w *Window) changed() {
	if w.doc.Previewing() {
		w.quick()
		return
	}
	w.docSerial++
	w.refresh()
}

// build makes the widgets and connects their callbacks.
func (w *Window) build() {
	w.table = board.New()
	w.table.SetPalette(w.palette())
	w.table.SetWords(w.settings.TextSize())
	if w.settings.Screen > 0 {
		w.table.SetScreen(w.settings.Screen)
	}
	w.rail, w.shelf = panel.NewRail(stepCount), panel.NewShelf()
	w.tools, w.strip, w.status = panel.NewTools(), panel.NewStrip(), panel.NewStatus()
	w.increments, w.wearer, w.links = panel.NewIncrements(), panel.NewWearer(), panel.NewLinks()
	w.checks, w.pages = panel.NewChecks(), panel.NewPages()
	w.byEye, w.growth = panel.NewByEye(), panel.NewGrowth()
	w.walk, w.joinBar = panel.NewWalk(), panel.NewJoinBar()
	w.proposals = panel.NewProposals()
	w.dart = panel.NewDart()
	w.length = panel.NewLength()
	w.photos, w.pill = panel.NewPhoto(), panel.NewPill()
	w.start, w.tour = panel.NewStart(), panel.NewTour()
	w.red = panel.NewRedStrip(words.T("Save elsewhere"), w.saveAs)
	w.folds = map[string]*panel.Fold{
		"Length": panel.NewFold(words.T("Length"), w.length), "Photo": panel.NewFold(words.T("Photo"), w.photos),
		"Pages": panel.NewFold(words.T("Pages"), w.pages), "Increments": panel.NewFold(words.T("Increments"), w.increments),
		"Wearer": panel.NewFold(words.T("Wearer"), w.wearer), "Links": panel.NewFold(words.T("Links"), panel.Stacked(w.proposals, w.links, w.proposals.Search())),
		"Checks": panel.NewFold(words.T("Checks"), w.checks), "By eye": panel.NewFold(words.T("By eye"), w.byEye),
		foldGrows: panel.NewFold(words.T("How it grows"), w.growth), "Dart": panel.NewFold(words.T("Dart"), w.dart),
	}
	w.connectRail()
	w.connectTools()
	w.connectTable()
	w.connectPanels()
	w.connectTrue()
	w.connectProposals()
	w.connectChecks()
	w.connectWearer()
	w.connectByEye()
	w.connectGrowth()
	w.connectDarts()
	w.connectPages()
	w.connectLength()
	w.connectPhoto()
	w.connectStart()
	w.connectKeys()
	w.order = nil
	for _, name := range []string{"Photo", "Pages", "Length", foldGrows, "Increments", "Dart", "By eye", "Wearer", "Links", "Checks"} {
		w.order = append(w.order, w.folds[name])
	}
	w.side = panel.NewSide(w.order...)
	w.drawer = panel.NewDrawer()
	w.drawer.OnHint = w.hint
	w.frame = panel.NewFrame(panel.Frame{
		Rail: w.rail, RedStrip: w.red, Shelf: w.shelf, Tools: w.tools, Table: w.table, Strip: w.strip,
		Drawer: w.drawer, Side: w.side, Status: w.status,
		Over: []panel.Overlay{{Object: w.walk, Foot: true}, {Object: w.pill, Foot: true}, {Object: w.joinBar}, {Object: w.tour, Corner: true}, {Object: w.start, Middle: true}},
	})
	w.win.SetContent(w.frame)
	w.goTo(w.step)
}

// goTo enters a step of the guide rail: its own side panel opens.
func (w *Window) goTo(step int) {
	if w.step != step {
		w.leftOut = ""
	}
	w.step = step
	panel.ScrollToTop(w.side)
	own := map[int]string{stepBringIn: "Photo", stepSizes: "Wearer", stepGrade: "Increments", stepLength: "Length", stepPrint: "Pages"}[step]
	if step == stepGrade && w.doc != nil && w.sayHow() {
		own = foldGrows
	}
	for name, f := range w.folds {
		f.SetOpen(name == own || step == stepTrue && (name == "Links" || name == "Checks"))
	}
	for name, at := range map[string]int{"Pages": stepPrint, "Photo": stepBringIn} {
		if step == at {
			w.folds[name].Show()
		} else {
			w.folds[name].Hide()
		}
	}
	if w.doc != nil {
		w.toolFor(step)
		switch step {
		case stepTrue:
			w.takeWorst(w.doc.Pattern(), w.doc.Result())
		case stepLength:
			w.enterLength()
		}
		w.refresh()
		w.table.Fit()
	}
}

// setTheme puts the colours and the size of words in force. What the window holds is
// out of it meanwhile: the toolkit would show each thing anew once for everything it
// lies in; as it comes back, all is shown anew once.
func (w *Window) setTheme() {
	if w.frame != nil {
		held := w.frame.Objects
		w.frame.Objects = nil
		defer func() {
			w.frame.Objects = held
			w.frame.Refresh()
		}()
	}
	w.app.Settings().SetTheme(theme.New(w.settings.Dark, float32(w.settings.TextSize())))
	if w.table != nil {
		w.table.SetPalette(w.palette())
		w.table.SetWords(w.settings.TextSize())
	}
}

func (w *Window) palette() theme.Palette {
	if w.settings.Dark {
		return theme.Dark
	}
	return theme.Light
}

// charts are the size charts to choose from.
func (w *Window) charts() []model.SizeChart {
	return withOwn(w.doc.Pattern(), sizechart.Builtin())
}
