package safekeeping

import "quarterstep/app/session"

// Follow notes doc after every change that is not saved, and clears the journal
// when all is saved. A document that wants saving is noted at once.
func (j *Journal) Follow(doc *session.Session) {
	j.note(doc)
	doc.Listen(func() {
		if !doc.Previewing() {
			j.note(doc)
		}
	})
}

func (j *Journal) note(doc *session.Session) {
	if doc.Dirty() {
		j.Note(Work{File: doc.File(), Changes: doc.Changes(), Last: doc.UndoLabel()})
		return
	}
	if err := j.Clear(); err != nil && j.trouble != nil {
		j.trouble(err)
	}
}
