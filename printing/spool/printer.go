package spool

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/printing/ipp"
)

// Printer is one of the system's printers.
type Printer struct {
	Name    string // by which the system knows it
	Words   string // what its owner calls it; Name where she does not
	Default bool   // printed on unless another is chosen
	// Told says that the printing system told the rest; a printer found on the
	// network but not used yet is only known by name.
	Told     bool
	Stopped  bool
	Refusing bool    // takes no jobs
	Why      string  // what the system says of a printer that is stopped or refuses
	Media    []Media // papers it takes
	Usual    string  // name of the paper it has by itself
	Roll     Roll    // papers of any size it takes
	Margin   float64 // the most it leaves white at an edge, mm
}

// Ready is nil for a printer that prints now, and a sentence for one that does
// not.
func (p Printer) Ready() error {
	why := ""
	if p.Why != "" {
		why = fmt.Sprintf(" (%q)", p.Why)
	}
	switch {
	case p.Stopped:
		return words.Errorf("%s is stopped%s. Let it go on in the system's printer settings, then print again", p.Words, why)
	case p.Refusing:
		return words.Errorf("%s takes no pages now%s. Let it take jobs in the system's printer settings, then print again", p.Words, why)
	}
	return nil
}

// nameShape is what the system lets a printer be called, and after a stroke a
// set of its settings: no blank, no sign that means something elsewhere, no dash
// in front.
var nameShape = regexp.MustCompile(`^[^\s/\\?'"#\x00-\x20\x7f-][^\s/\\?'"#\x00-\x20\x7f]{0,126}(/[^\s/\\?'"#\x00-\x20\x7f-][^\s/\\?'"#\x00-\x20\x7f]{0,126})?$`)

// Printers lists the system's printers by name, the default one first. Without
// any, it fails with ErrNoSystem, ErrNotThere or ErrNoPrinter.
func (s System) Printers(ctx context.Context) ([]Printer, error) {
	if err := s.running(ctx); err != nil {
		return nil, err
	}
	out, err := s.program(ctx, nil, "lpstat", "-e")
	if err != nil {
		return nil, words.Errorf("listing the printers: %w", err)
	}
	var all []Printer
	for name := range strings.Lines(out) {
		if name = strings.TrimSpace(name); nameShape.MatchString(name) {
			all = append(all, Printer{Name: name, Words: name})
		}
	}
	if len(all) == 0 {
		return nil, ErrNoPrinter
	}
	s.tell(ctx, all)
	if name, err := s.usual(ctx); err == nil {
		for i := range all {
			all[i].Default = all[i].Name == name
		}
	}
	slices.SortStableFunc(all, func(a, b Printer) int {
		if a.Default != b.Default {
			return map[bool]int{true: -1, false: 1}[a.Default]
		}
		return strings.Compare(strings.ToLower(a.Words), strings.ToLower(b.Words))
	})
	return all, nil
}

// Printer is the printer of that name; the default one, or the only one, where
// the name is empty. The error names those there are.
func (s System) Printer(ctx context.Context, name string) (Printer, error) {
	all, err := s.Printers(ctx)
	if err != nil {
		return Printer{}, err
	}
	if name == "" && (len(all) == 1 || all[0].Default) {
		return all[0], nil
	}
	var names []string
	for _, p := range all {
		if p.Name == name || strings.EqualFold(p.Words, name) {
			return p, nil
		}
		names = append(names, p.Name)
	}
	if name == "" {
		return Printer{}, words.Errorf("no printer is the usual one here: choose %s", strings.Join(names, ", "))
	}
	return Printer{}, words.Errorf("there is no printer %q here; there are %s", name, strings.Join(names, ", "))
}

// usual is the name of the default printer; empty where there is none.
func (s System) usual(ctx context.Context) (string, error) {
	out, err := s.program(ctx, nil, "lpstat", "-d")
	if err != nil {
		return "", err
	}
	_, name, _ := strings.Cut(strings.TrimSpace(out), "destination: ")
	return name, nil
}

// told are the attributes asked for (RFC 8011, 5.4, and PWG 5100.7 for papers
// and margins).
var told = []string{
	"printer-name", "printer-info", "printer-state", "printer-state-message", "printer-is-accepting-jobs",
	"media-default", "media-supported", "media-left-margin-supported", "media-right-margin-supported",
	"media-top-margin-supported", "media-bottom-margin-supported",
}

// tell fills in what the printing system knows of the printers. Where it does
// not answer they stay as they are: printing may still do.
func (s System) tell(ctx context.Context, all []Printer) {
	server, err := s.server(ctx)
	if err != nil {
		return
	}
	m, err := server.Ask(ctx, ipp.GetPrinters, "", "", told...)
	if err != nil {
		return
	}
	for _, g := range m.Groups {
		for i := range all {
			queue, _, _ := strings.Cut(all[i].Name, "/")
			if g.Tag == ipp.PrinterGroup && g.Text("printer-name") == queue {
				all[i].take(g)
			}
		}
	}
}

// wake is p as the system knows it once it has been asked for the options of a
// printer found on the network: that is when it makes a queue for it. Where it
// does not, p stays known by name only.
func (s System) wake(ctx context.Context, p Printer) Printer {
	if p.Told {
		return p
	}
	if _, err := s.program(ctx, nil, "lpoptions", "-p", p.Name, "-l"); err != nil {
		return p
	}
	one := []Printer{p}
	s.tell(ctx, one)
	return one[0]
}

// take takes over what the system tells.
func (p *Printer) take(g ipp.Group) {
	p.Told = true
	if info := strings.TrimSpace(g.Text("printer-info")); info != "" && p.Name == g.Text("printer-name") {
		p.Words = info
	}
	p.Stopped = g.Int("printer-state") == ipp.PrinterStopped
	p.Refusing = len(g.Get("printer-is-accepting-jobs")) > 0 && g.Int("printer-is-accepting-jobs") == 0
	if p.Stopped || p.Refusing {
		p.Why = strings.Join(strings.Fields(g.Text("printer-state-message")), " ")
	}
	p.Usual = g.Text("media-default")
	for _, v := range g.Get("media-supported") {
		p.Roll.take(v.Text())
		if m, ok := parseMedia(v.Text()); ok {
			p.Media = append(p.Media, m)
		}
	}
	for _, side := range []string{"left", "right", "top", "bottom"} {
		for _, v := range g.Get("media-" + side + "-margin-supported") {
			p.Margin = max(p.Margin, float64(v.Int())/100)
		}
	}
}
