package ui

import (
	"quarterstep/app/paper"
	"quarterstep/assets/words"
)

// scannedAlike is what a length drawn on another scan of the same kind tells of a
// scan that has none itself; the zero value for nothing.
func (w *Window) scannedAlike(ph *photo) paper.Alike {
	if ph.ask.Reference != paper.Scan || len(ph.known()) > 0 {
		return paper.Alike{}
	}
	for i, o := range w.paper.photos {
		if o != ph && o.shot != nil && o.ask.Reference == paper.Scan && o.solved && len(o.known()) > 0 &&
			o.straight.Scale[0] > 0 && o.shot.ScannedAlike(ph.shot) {
			return paper.Alike{Name: words.F("photo %d", i+1), Scale: o.straight.Scale}
		}
	}
	return paper.Alike{}
}

// carryScale makes flat anew, by what a length drawn on a scan told, the others
// that were scanned alike; those that something was traced from stay as they are.
func (w *Window) carryScale(ph *photo) {
	if ph.ask.Reference != paper.Scan {
		return
	}
	for _, o := range w.paper.photos {
		if o == ph || o.shot == nil || !o.solved || o.busy() || o.leads() != nil || len(o.known()) > 0 ||
			o.ask.Reference != paper.Scan || !o.shot.ScannedAlike(ph.shot) || traced(w.doc.Pattern(), o.id) {
			continue
		}
		if w.scannedAlike(o).Scale != o.straight.Scale {
			w.straighten(o)
		}
	}
}

// carried is how many other scans go by a length drawn on this one.
func (w *Window) carried(ph *photo) int {
	n := 0
	for _, o := range w.paper.photos {
		if o != ph && len(ph.known()) > 0 && o.shot != nil && o.solved && len(o.known()) == 0 &&
			o.ask.Reference == paper.Scan && o.straight.Scale[0] > 0 && o.straight.Scale == ph.straight.Scale {
			n++
		}
	}
	return n
}
