package main

import (
	"hash/fnv"
	"strconv"
	"time"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/screen"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
)

// pupils keeps what a pupil does in the logbook. Its methods belong to one goroutine.
type pupils struct {
	store logbook.Store
	craft logbook.Craft
	book  *logbook.Book
	began time.Time
	tally logbook.Tally
	// hand is what the pupil holds as the logbook has it.
	hand screen.Hand
	runs []drill.Run
	now  func() time.Time
}

// newPupils keeps a logbook in the folder that the system gives for it.
func newPupils(c *craft) (*pupils, error) {
	dir, err := logbook.Folder()
	if err != nil {
		return nil, err
	}
	return &pupils{store: logbook.Store{Dir: dir}, craft: craftEntry(c), now: time.Now}, nil
}

// craftEntry is what the logbook notes of a craft.
func craftEntry(c *craft) logbook.Craft {
	cfg := c.Config()
	e := logbook.Craft{Name: c.Name, Arming: "switch"}
	if facts.BySticks(&cfg) {
		e.Arming = "sticks"
	}
	if c.gestures != nil {
		e.Gestures = c.gestures.name
	}
	h := fnv.New64a()
	_, _ = h.Write(c.Text)
	e.Digest = strconv.FormatUint(h.Sum64(), 16)
	return e
}

// Open says who practises from now on; empty for nobody. The one before has ended.
func (p *pupils) Open(pupil string) error {
	err := p.Close()
	if pupil == "" {
		return err
	}
	now := p.now()
	book, err := p.store.Open(pupil, now)
	if err != nil {
		return err
	}
	contents, err := p.store.Read(pupil)
	if err != nil {
		_ = book.Close()
		return err
	}
	p.book, p.began, p.runs, p.tally, p.hand = book, now, contents.Runs(), logbook.Tally{}, screen.Hand{}
	return book.Append(logbook.Began(now, logbook.Practice{Program: version, Craft: p.craft}))
}

// Close ends the practice of the pupil, if there is one.
func (p *pupils) Close() error {
	if p.book == nil {
		return nil
	}
	now := p.now()
	entries := []logbook.Entry{logbook.Ended(now, now.Sub(p.began))}
	if e, any := p.tally.Entry(now); any {
		entries = append([]logbook.Entry{e}, entries...)
	}
	err := p.book.Append(entries...)
	if closing := p.book.Close(); err == nil {
		err = closing
	}
	p.book, p.runs = nil, nil
	return err
}

// Pupil is who practises; empty for nobody.
func (p *pupils) Pupil() string {
	if p.book == nil {
		return ""
	}
	return p.book.Pupil()
}

// Runs are all runs of the pupil in order of time.
func (p *pupils) Runs() []drill.Run { return p.runs }

// Refused counts a refusal.
func (p *pupils) Refused(set int32) {
	if p.book != nil {
		p.tally.Add(facts.Set(set))
	}
}

// Keep keeps a run and, where it is news, what the pupil held.
func (p *pupils) Keep(run *drill.Run, d *drillfile.Drill, hand screen.Hand) error {
	if p.book == nil {
		return nil
	}
	now := p.now()
	p.runs = append(p.runs, *run)
	var entries []logbook.Entry
	if hand != p.hand {
		craft := p.craft
		craft.StickMode = hand.StickMode
		entries = append(entries, logbook.Changed(now, hand.Radio, craft))
		p.hand = hand
	}
	entries = append(entries, logbook.OfRun(now, run, &d.Config, d.Name))
	if e, any := p.tally.Entry(now); any {
		entries = append(entries, e)
	}
	return p.book.Append(entries...)
}

// Where is the path of the pupil's logbook.
func (p *pupils) Where() string {
	if p.book == nil {
		return p.store.Dir
	}
	return p.book.Path()
}
