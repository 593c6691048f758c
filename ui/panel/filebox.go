package panel

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// FileRow is one thing in a folder.
type FileRow struct {
	Name, When string
	Folder     bool
	Marked     bool // among those to be taken
}

// FilePlace is a folder to go to at once; Head stands above the first of its
// sort.
type FilePlace struct {
	Name string
	Icon theme.Name
	Head string
}

// FileBoxView is what a box to find a file in shows.
type FileBoxView struct {
	Folder  string // where it is
	Busy    bool   // the folder is being read
	Places  []FilePlace
	Count   int // of the rows
	Row     func(i int) FileRow
	Marked  bool // some rows are
	At      int  // the row in hand, -1 for none
	ByDate  bool
	Name    string
	Say     string // what to look at, empty for nothing
	NewName bool   // a new folder is asked for
}

// FileBox lets a sewist find a file, or a place for one: places at the left, what
// the folder holds at the right, a name or a path below. It is to stand in a
// dialog, whose keys Enter and Escape are the window's.
type FileBox struct {
	widget.BaseWidget
	OnPlace     func(i int)
	OnUp        func()
	OnPick      func(i int, add, run bool)
	OnOpen      func(i int)
	OnMove      func(by int, run bool)
	OnFind      func(letters string)
	OnName      func(text string)
	OnKind      func(i int)
	OnByDate    func(byDate bool)
	OnAskFolder func()
	OnAll       func()

	view   FileBoxView
	folder *saying
	places *fyne.Container
	links  []*placeLink
	rows   *fileList
	none   *saying
	sorted *twoWay
	name   *Line
	fresh  *Line
	making *fyne.Container
	kind   *pick
	note   *note
	foot   *fyne.Container
	whole  fyne.CanvasObject
}

const filePlacesWide = 176

// NewFileBox makes an empty box; nameHint stands in the empty field for the
// name, kinds are the kinds of file by name, none for no choice.
func NewFileBox(nameHint string, kinds []string) *FileBox {
	b := &FileBox{places: below(0), name: NewLine(), fresh: NewLine(), note: newNote(620)}
	b.folder = newCut("", theme.Body, ink)
	b.folder.bold = true
	b.none = newWords("", theme.Body, inkSoft)
	b.rows = newFileList(b)
	b.sorted = newTwoWay(words.T("By name"), words.T("Latest first"), "")
	b.sorted.onTurn = func(second bool) { call1(b.OnByDate, second) }
	b.name.SetPlaceHolder(nameHint)
	b.name.OnChanged = func(text string) {
		if text != b.view.Name {
			call1(b.OnName, text)
		}
	}
	b.name.onRow = func(by int) { call2(b.OnMove, by, false) }
	b.kind = newPick(theme.Px(220))
	b.kind.onPick = func(i int) { call1(b.OnKind, i) }
	b.kind.set(kinds, 0)
	b.fresh.SetPlaceHolder(words.T("Name of the new folder"))
	b.making = beside(8, 1, newWords(words.T("New folder"), theme.Body, ink), b.fresh)
	b.making.Hidden = true
	head := beside(
		8, 1,
		newIconButton(theme.Up, words.T("The folder above"), func() { call(b.OnUp) }), b.folder,
		b.sorted, newButton(words.T("New folder"), func() { call(b.OnAskFolder) }),
	)
	line := beside(8, 1, newWords(words.T("Name or path"), theme.Body, ink), b.name)
	if len(kinds) > 0 {
		line.Add(b.kind)
	}
	b.foot = below(8, b.making, line, b.note)
	list := container.NewStack(newBox(fieldFill, edge, 1.2, theme.ControlRadius), inset(6, 6, 6, 6, container.NewStack(container.NewCenter(b.none), b.rows)))
	left := container.NewVScroll(inset(0, 0, 0, 8, b.places))
	left.SetMinSize(fyne.NewSize(theme.Px(filePlacesWide), 120))
	b.whole = container.NewBorder(nil, inset(8, 0, 0, 0, b.foot), inset(0, 0, 0, 8, left), nil,
		container.NewBorder(inset(0, 6, 0, 0, head), nil, nil, nil, list))
	b.ExtendBaseWidget(b)
	return b
}

// SetView shows a view.
func (b *FileBox) SetView(v FileBoxView) {
	was := b.view
	b.view = v
	b.folder.setText(v.Folder)
	b.showPlaces(v.Places)
	b.sorted.set(v.ByDate)
	if b.name.Text != v.Name {
		b.name.SetText(v.Name)
		b.name.CursorColumn = len([]rune(v.Name))
		b.name.Refresh()
	}
	switch {
	case v.Busy:
		b.none.setText(words.T("Reading the folder ..."))
	case v.Count == 0:
		b.none.setText(words.T("Nothing of this kind here"))
	}
	b.none.Hidden = v.Count > 0
	b.note.set(v.Say, v.Say != "")
	b.making.Hidden = !v.NewName
	b.rows.Refresh()
	if v.At >= 0 && (v.At != was.At || v.Folder != was.Folder) {
		b.rows.ScrollTo(v.At)
	} else if v.Folder != was.Folder {
		b.rows.ScrollToTop()
	}
	if (v.Say != "") != (was.Say != "") || v.NewName != was.NewName {
		b.Refresh()
	}
}

func (b *FileBox) showPlaces(places []FilePlace) {
	if len(places) == len(b.links) {
		return // they are found once
	}
	b.places.RemoveAll()
	b.links = nil
	for i, p := range places {
		if p.Head != "" {
			b.places.Add(inset(8, 2, 6, 0, newBold(p.Head, theme.Caption, inkSoft)))
		}
		l := newPlaceLink(p, func() { call1(b.OnPlace, i) })
		b.links = append(b.links, l)
		b.places.Add(l)
	}
}

// NameLine is the field for the name, FolderLine that for a new folder's, and
// List what the folder holds: where the keyboard can be put.
func (b *FileBox) NameLine() *Line { return b.name }

// FolderLine is the field for the name of a new folder.
func (b *FileBox) FolderLine() *Line { return b.fresh }

// List is what the folder holds.
func (b *FileBox) List() fyne.Focusable { return b.rows }

// MarkName marks the name without its ending, so that typing replaces it.
func (b *FileBox) MarkName(ending string) {
	n := len([]rune(strings.TrimSuffix(b.name.Text, ending)))
	b.name.CursorColumn = 0
	b.name.Refresh()
	b.name.markTo(n)
}

// CreateRenderer is Fyne's.
func (b *FileBox) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.whole) }

// placeLink is one place to go to, its drawing before its name.
type placeLink struct {
	touch
	place FilePlace
}

func newPlaceLink(p FilePlace, press func()) *placeLink {
	l := &placeLink{place: p}
	l.press = press
	l.ExtendBaseWidget(l)
	return l
}

// CreateRenderer is Fyne's.
func (l *placeLink) CreateRenderer() fyne.WidgetRenderer {
	g, m, name := newGround(), newMark(l.place.Icon, theme.BarIcon, inkSoft), newCut(l.place.Name, theme.Body, ink)
	d := &drawn{objects: []fyne.CanvasObject{g, m, name}}
	d.paint = func(p theme.Palette) { l.paintGround(g, p) }
	d.min = func() fyne.Size { return fyne.NewSize(theme.Px(120), theme.Px(30)) }
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		icon := theme.Px(theme.BarIcon)
		place(m, 6, 0, icon, size.Height)
		middle(name, 12+icon, size.Width-16-icon, size.Height)
	}
	return d.ready()
}

// letters gathers what is typed to find a row: what comes within a second
// belongs together.
type letters struct {
	typed string
	last  time.Time
}

func (l *letters) add(r rune) string {
	if now := time.Now(); now.Sub(l.last) > time.Second {
		l.typed, l.last = "", now
	}
	l.typed += string(r)
	l.last = time.Now()
	return l.typed
}
