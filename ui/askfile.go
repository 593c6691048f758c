package ui

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app/folders"
	"quarterstep/assets/words"
	"quarterstep/ui/panel"
	"quarterstep/ui/theme"
)

// fileAsk is a box to find a file in, while it is open.
type fileAsk struct {
	w       *Window
	choose  *folders.Chooser
	box     *panel.FileBox
	d       *dialog.CustomDialog
	yes     *panel.Push
	word    string // on the button
	places  []folders.Place
	say     string
	naming  bool   // a new folder is asked for
	reading string // the folder that is being read
	asked   string // what the disk is being asked for
	turn    int    // counts what the disk was asked for
	slow    bool   // it keeps her waiting
	still   func() // does not tell her so
	then    func(paths []string)
}

// patternKind is the kind of file a pattern is saved as.
func patternKind() folders.Kind {
	return folders.Kind{Name: words.F("Patterns (%s)", projectExt), Endings: []string{projectExt}}
}

// pictureEndings are the endings of files that are brought in as pictures.
var pictureEndings = []string{".jpg", ".jpeg", ".png", ".tif", ".tiff", ".heic"}

// bringInKinds are the kinds of file that can be brought in.
func bringInKinds() []folders.Kind {
	drawing := []string{".svg"}
	return []folders.Kind{
		{Name: words.T("Photos, scans, drawings"), Endings: slices.Concat(pictureEndings, drawing)},
		{Name: words.T("Photos and scans"), Endings: pictureEndings},
		{Name: words.T("Drawings (SVG)"), Endings: drawing},
	}
}

// askFile asks for a file of one of the kinds.
func (w *Window) askFile(title string, kinds []folders.Kind, then func(path string)) {
	w.openFileBox(title, words.C("a file", "Open"), words.T("Name, a part of it, or a path"), folders.NewChooser(homeFolder(), kinds...), func(paths []string) { then(paths[0]) })
}

// askFiles asks for one file of the kinds, or several.
func (w *Window) askFiles(title string, kinds []folders.Kind, then func(paths []string)) {
	c := folders.NewChooser(homeFolder(), kinds...)
	c.Several = true
	w.openFileBox(title, words.T("Bring in"), words.T("Name, a part of it, or a path"), c, then)
}

// askWhere asks for a place to write a file called name; ending is added where
// it is missing.
func (w *Window) askWhere(name, ending string, then func(path string)) {
	c := folders.NewChooser(homeFolder(), folders.Kind{Endings: []string{ending}})
	c.Saving, c.Ending = true, ending
	c.Type(name)
	w.openFileBox(words.T("Save the file"), words.T("Save"), words.T("Name or path"), c, func(paths []string) { then(paths[0]) })
}

func homeFolder() string {
	home, err := os.UserHomeDir()
	if err != nil {
		return ""
	}
	return home
}

func (w *Window) openFileBox(title, yes, hint string, c *folders.Chooser, then func(paths []string)) {
	if w.dialogOpen {
		return
	}
	var kinds []string
	if !c.Saving && len(c.Kinds) > 0 {
		for _, k := range c.Kinds {
			kinds = append(kinds, k.Name)
		}
	}
	a := &fileAsk{w: w, choose: c, box: panel.NewFileBox(hint, kinds), word: yes, then: then}
	w.fileBox = a
	a.connect()
	a.d = dialog.NewCustomWithoutButtons(title, a.box, w.win)
	a.yes = panel.NewPush(yes, a.accept)
	a.yes.Importance = widget.HighImportance
	a.d.SetButtons([]fyne.CanvasObject{panel.NewPush(words.T("Leave it"), a.leave), a.yes})
	w.hasDialog(asked{yes: a.accept, no: a.escape})
	room := w.win.Canvas().Size()
	a.d.Resize(fyne.NewSize(min(theme.Px(900), room.Width-40), min(theme.Px(620), room.Height-40)))
	a.d.Show()
	a.begin(w.settings.Folder, w.settings.Folders)
	if c.Saving {
		w.win.Canvas().Focus(a.box.NameLine())
		a.box.MarkName(c.Ending)
		return
	}
	w.win.Canvas().Focus(a.box.List())
}

// begin looks beside the window where the files may be, for a drive may be asleep or
// gone, and reads the folder last used.
func (a *fileAsk) begin(last string, used []string) {
	a.reading = last
	a.show()
	home := a.choose.Home
	var places []folders.Place
	away(func() error {
		places = folders.Places(home, used)
		return nil
	}, func(error) {
		a.places = places
		a.show()
	})
	start := ""
	turn := a.waits()
	away(func() error {
		start = startFolder(last, home)
		return nil
	}, func(error) {
		if a.turn == turn { // else she is on the way to another, or has let go
			a.read(start)
		}
	})
}

// waits says that the disk is being asked: what it was asked for before does not count
// any more. After a moment without an answer she is told, and what to do.
func (a *fileAsk) waits() (turn int) {
	a.hush()
	a.slow = false
	turn = a.turn
	a.still = afterAMoment(func() { a.stillWaits(turn) })
	return turn
}

// hush takes back what was to be said of a disk that keeps her waiting.
func (a *fileAsk) hush() {
	a.turn++
	if a.still != nil {
		a.still()
		a.still = nil
	}
}

func (a *fileAsk) stillWaits(turn int) {
	if a.turn != turn || a.waitsFor() == "" || a.w.fileBox != a {
		return
	}
	a.slow = true
	a.say = words.F("%s does not answer yet. Escape lets go of it; or choose another place.", a.waitsFor())
	a.show()
}

// waitsFor is what the disk is being asked for, empty for nothing.
func (a *fileAsk) waitsFor() string { return cmp.Or(a.asked, a.reading) }

// letGo waits no longer.
func (a *fileAsk) letGo() {
	a.hush()
	a.reading, a.asked, a.slow, a.say = "", "", false, ""
}

// startFolder is the folder last used, or the nearest above it that is there.
func startFolder(last, home string) string {
	for at := last; at != "" && at != filepath.Dir(at); at = filepath.Dir(at) {
		if info, err := os.Stat(at); err == nil && info.IsDir() {
			return at
		}
	}
	if home == "" {
		return string(filepath.Separator)
	}
	return home
}

func (a *fileAsk) connect() {
	b, c := a.box, a.choose
	b.OnPlace = func(i int) { a.read(a.places[i].Path) }
	b.OnUp = func() { a.read(c.Parent()) }
	b.OnPick = func(i int, add, run bool) { a.change(func() { c.Pick(i, add, run) }) }
	b.OnMove = func(by int, run bool) { a.change(func() { c.Move(by, run) }) }
	b.OnFind = func(letters string) { a.change(func() { c.Find(letters) }) }
	b.OnName = func(text string) { a.change(func() { c.Type(text) }) }
	b.OnAll = func() { a.change(c.All) }
	b.OnOpen = func(i int) { a.answer(c.Open(i)) }
	b.OnKind = func(i int) {
		c.Kind = i
		a.read(c.Folder())
	}
	b.OnByDate = func(byDate bool) {
		a.change(func() { c.Sorted(map[bool]folders.Order{true: folders.ByDate}[byDate]) })
	}
	b.OnAskFolder = a.askFolder
}

// change does something with the Chooser and shows what came of it.
func (a *fileAsk) change(f func()) {
	if a.asked != "" {
		a.letGo() // it was asked for something else
	}
	f()
	if !a.slow {
		a.say = ""
	}
	a.show()
}

// read reads a folder beside the window and shows it, unless another was asked
// for meanwhile.
func (a *fileAsk) read(folder string) {
	if folder == "" {
		return
	}
	kind := a.choose.Kinds[a.choose.Kind]
	a.reading, a.asked, a.say = folder, "", ""
	turn := a.waits()
	a.show()
	var entries []folders.Entry
	away(func() (err error) {
		entries, err = listFolder(folder, kind)
		return err
	}, func(err error) {
		if a.turn != turn {
			return
		}
		a.letGo()
		if err != nil {
			a.say = capital(err.Error()) + "."
		} else {
			a.choose.Show(folder, entries)
		}
		a.show()
	})
}

// listFolder reads a folder; tests have drives of their own.
var listFolder = folders.List

// look asks the disk beside the window, and answers by what it says unless she has gone
// on to something else meanwhile.
func (a *fileAsk) look(l folders.Look) {
	a.letGo()
	a.asked = l.Path
	turn := a.waits()
	a.show()
	var then func() folders.Answer
	away(func() error {
		then = l.Ask()
		return nil
	}, func(err error) {
		if a.turn != turn || a.w.fileBox != a {
			return
		}
		a.letGo()
		if err != nil {
			a.say = sentence(err.Error())
			a.show()
			return
		}
		a.answer(then())
	})
}

// accept is Enter and the button.
func (a *fileAsk) accept() {
	if !a.naming {
		a.answer(a.choose.Accept())
		return
	}
	a.answer(a.choose.NewFolder(a.box.FolderLine().Text))
}

func (a *fileAsk) answer(got folders.Answer) {
	a.say = got.Say
	switch got.What {
	case folders.Wait:
		a.look(got.Look)
	case folders.Enter:
		made := a.naming
		a.naming = false
		a.read(got.Paths[0])
		switch {
		case made:
			a.w.win.Canvas().Focus(a.box.NameLine())
		case !a.choose.Saving:
			a.w.win.Canvas().Focus(a.box.List())
		}
	case folders.Take:
		a.leave()
		a.w.settings = a.w.settings.WithFolder(filepath.Dir(got.Paths[0]))
		a.w.keepSettings()
		a.then(got.Paths)
	case folders.Ask:
		a.show()
		a.w.win.Canvas().Focus(a.yes)
	default:
		a.show()
	}
}

// askFolder asks for the name of a new folder.
func (a *fileAsk) askFolder() {
	a.naming, a.say = true, ""
	a.box.FolderLine().SetText("")
	a.show()
	a.w.win.Canvas().Focus(a.box.FolderLine())
}

// escape takes back one thing at a time: a disk that does not answer, the new folder, the
// question, the box.
func (a *fileAsk) escape() {
	switch {
	case a.slow:
		of := a.reading
		a.letGo()
		if a.choose.Folder() == "" && of != a.choose.Home { // the box has shown nothing yet
			a.read(a.choose.Home)
			return
		}
	case a.naming:
		a.naming = false
	case a.choose.Asked():
		a.choose.TakeBack()
		a.w.win.Canvas().Focus(a.box.NameLine())
	default:
		a.leave()
		return
	}
	a.say = ""
	a.show()
}

func (a *fileAsk) leave() {
	a.letGo()
	a.d.Hide()
	a.w.fileBox = nil
	a.w.hasNoDialog()
}

// show brings the box in step with the Chooser.
func (a *fileAsk) show() {
	c := a.choose
	rows := c.Rows()
	if a.slow && a.reading != "" {
		rows = nil // they are those of another folder
	}
	word := a.word
	switch {
	case a.naming:
		word = words.T("Make the folder")
	case c.Asked():
		word = words.T("Write over it")
	}
	if a.yes.Text != word {
		a.yes.SetText(word)
	}
	marked := false
	for i := range rows {
		marked = marked || c.Marked(i)
	}
	a.box.SetView(panel.FileBoxView{
		Folder: a.where(), Busy: a.waitsFor() != "", Places: a.placeViews(), Count: len(rows), Marked: marked, At: c.At(),
		ByDate: c.Order() == folders.ByDate, Name: c.Typed(), Say: a.say, NewName: a.naming,
		Row: func(i int) panel.FileRow {
			e := rows[i]
			return panel.FileRow{Name: e.Name, When: day(e.Changed), Folder: e.Folder, Marked: c.Marked(i)}
		},
	})
}

func (a *fileAsk) where() string {
	if a.reading != "" {
		return a.reading
	}
	return a.choose.Folder()
}

// placeViews are the places, each sort under its own head.
func (a *fileAsk) placeViews() []panel.FilePlace {
	heads := map[folders.PlaceSort]string{folders.Drive: words.T("Sticks and drives"), folders.Recent: words.T("Used last")}
	icons := map[folders.PlaceSort]theme.Name{folders.Own: theme.Folder, folders.Drive: theme.Drive, folders.Recent: theme.Folder}
	var out []panel.FilePlace
	for i, p := range a.places {
		v := panel.FilePlace{Name: p.Name, Icon: icons[p.Sort]}
		if i == 0 || a.places[i-1].Sort != p.Sort {
			v.Head = heads[p.Sort]
		}
		out = append(out, v)
	}
	return out
}
