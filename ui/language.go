package ui

import (
	"encoding/json"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
	"github.com/jeandeaual/go-locale"

	"quarterstep/assets/words"
)

// Speak makes the program speak the language of a code such as "de"; empty is
// the system's, or English where the system's is not spoken.
func Speak(code string) {
	if code == "" || words.Use(code) != nil {
		system, err := locale.GetLocale()
		if err != nil || words.Use(system) != nil {
			_ = words.Use("en") // is always spoken
		}
	}
	speakToolkit()
}

// toolkitTexts are what the toolkit says by itself, by its own keys: the buttons
// of dialogs, the file dialogs, the menu of a field.
// words: none (but for what words.T and words.C are given)
func toolkitTexts() map[string]string {
	return map[string]string{
		"Advanced": words.T("Advanced"), "Cancel": words.T("Cancel"), "Confirm": words.T("Confirm"),
		"Copy": words.C("to the clipboard", "Copy"), "Create Folder": words.T("Create folder"), "Cut": words.C("to the clipboard", "Cut"),
		"Enter filename": words.T("Enter a file name"), "Error": words.T("Error"), "Favourites": words.T("Favourites"),
		"File": words.T("File"), "Folder": words.T("Folder"), "New Folder": words.T("New folder"), "No": words.T("No"), "OK": words.T("OK"),
		"Open": words.C("what a button does", "Open"), "Paste": words.T("Paste"), "Quit": words.T("Quit"), "Redo": words.T("Redo"),
		"Save": words.T("Save"), "Select all": words.T("Select all"), "Show Hidden Files": words.T("Show hidden files"),
		"Undo": words.T("Undo"), "Yes": words.T("Yes"), "(Parent)": words.T("(above)"),
		"file.name": words.T("Name"), "file.parent": words.T("(above)"),
	}
}

// toolkitSpeaks are the languages the toolkit brings texts in.
var toolkitSpeaks = []fyne.Locale{"en", "cs", "de", "el", "es", "fr", "pl", "pt", "pt-BR", "ru", "sv", "ta", "uk", "zh-Hans"}

// speakToolkit has the toolkit say its own texts in the language in use. It
// chooses its language by the system alone, so the texts are laid over those of
// every language that it might choose.
func speakToolkit() {
	texts, err := json.Marshal(toolkitTexts())
	if err != nil {
		return // cannot be: texts are texts
	}
	might := []fyne.Locale{"en"} // where the system says nothing it knows
	if system, err := locale.GetLocale(); err == nil && len(system) > 1 {
		might = append(slices.Clone(toolkitSpeaks), lang.SystemLocale())
	}
	for _, l := range might {
		if err := lang.AddTranslationsForLocale(texts, l); err != nil {
			fyne.LogError("laying texts over the toolkit's", err) // words: none
		}
	}
}

// languageMenu offers the languages, each by its own name. Whoever cannot read
// the language in use finds it by the other name of the item.
func (w *Window) languageMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem(languageWord(), nil)
	system := fyne.NewMenuItem(words.T("As the system"), func() { w.setLanguage("") })
	system.Checked = w.settings.Language == ""
	choices := []*fyne.MenuItem{system}
	for _, l := range words.Languages() {
		m := fyne.NewMenuItem(l.Name, func() { w.setLanguage(l.Code) }) // words: none
		m.Checked = l.Code == w.settings.Language
		choices = append(choices, m)
	}
	item.ChildMenu = fyne.NewMenu("", choices...)
	return item
}

// languageWord is "Language (Sprache)", and in German "Sprache (Language)".
func languageWord() string { return words.T("Language (Sprache)") }

// setLanguage makes the window speak another language at once: it is built anew
// over the same document, with its history. Names that the program has given
// pieces stay, and so do the words of steps already in the history.
func (w *Window) setLanguage(code string) {
	w.settings.Language = code
	w.keepSettings()
	before := words.Now()
	if Speak(code); words.Now() != before {
		w.rebuild()
	}
}

// rebuild makes all widgets anew; none of them holds anything of the document.
func (w *Window) rebuild() {
	tool, close, ruler := w.table.Tool(), w.table.CloseUp(), w.table.Ruler()
	hand, link := w.hand, w.trues
	w.said = ""
	w.doc.Again() // what was reckoned before has its words in the other language
	w.build()
	w.hand, w.trues = hand, link
	w.table.SetTool(tool)
	w.table.SetCloseUp(close)
	w.table.SetRuler(ruler)
	w.refresh()
}
