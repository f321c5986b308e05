// Package pupils gives the course of drills that is practised, and keeps in the logbook what who practises it did.
package pupils

import (
	"hash/fnv"
	"slices"
	"strconv"
	"time"

	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/examine"
)

// shortest is how long a practice in which nothing was noted must have lasted to be noted itself (ours): one that is left at once is
// none.
const shortest = time.Minute

// Pupils keeps what a pupil does in the logbook. Its methods belong to one goroutine.
type Pupils struct {
	store logbook.Store
	// craft is the one with which the program was started.
	craft logbook.Craft
	book  *logbook.Book
	began time.Time
	noted bool // that it began
	tally logbook.Tally
	// radio and held are the radio and the craft as the logbook has them.
	radio string
	held  logbook.Craft
	runs  []drill.Run
	asked []examine.Asked // by the examiner, in order of time
	// course are the code words of the drills that are run; runs of others are left in the file.
	course []string
	now    func() time.Time
}

// keeper keeps a logbook in the folder that the system gives for it.
func keeper(c *world.Craft) (*Pupils, error) {
	dir, err := logbook.Folder()
	if err != nil {
		return nil, err
	}
	gestures := ""
	if c.Gestures != nil {
		gestures = c.Gestures.Name
	}
	return &Pupils{store: logbook.Store{Dir: dir}, craft: craftEntry(c.File, gestures), now: time.Now}, nil
}

// craftEntry is what the logbook notes of a craft and its gesture file.
func craftEntry(f *craftfile.File, gestures string) logbook.Craft {
	cfg := f.Config()
	e := logbook.Craft{Name: f.Name, Arming: "switch", Gestures: gestures}
	if facts.BySticks(&cfg) {
		e.Arming = "sticks"
	}
	h := fnv.New64a()
	_, _ = h.Write(f.Text)
	e.Digest = strconv.FormatUint(h.Sum64(), 16)
	return e
}

// Open says who practises from now on; empty for nobody. The one before has ended, unless the new name is none.
func (p *Pupils) Open(pupil string) error {
	if _, bad := logbook.Name(pupil); bad != nil && pupil != "" {
		return bad
	}
	err := p.Close()
	if pupil == "" {
		return err
	}
	now := p.now()
	book, err := p.store.Open(pupil, now)
	if err != nil {
		return err
	}
	runs, err := runsOf(p.store, pupil, p.course)
	var asked []examine.Asked
	if err == nil {
		asked, err = askedOf(p.store, pupil)
	}
	if err != nil {
		_ = book.Close()
		return err
	}
	p.book, p.began, p.noted, p.runs, p.asked, p.tally = book, now, false, runs, asked, logbook.Tally{}
	p.radio, p.held = "", p.craft
	return nil
}

// runsOf are all runs of a course that a pupil has made, in order of time.
func runsOf(s logbook.Store, pupil string, course []string) (runs []drill.Run, err error) {
	err = inOrder(s, pupil, func(e *logbook.Entry) bool {
		return e.Kind == logbook.KindDrill && slices.Contains(course, e.Drill.Code)
	},
		func(e *logbook.Entry) { runs = append(runs, e.Run()) })
	return runs, err
}

// askedOf are all questions that the examiner asked a pupil, in order of time.
func askedOf(s logbook.Store, pupil string) (asked []examine.Asked, err error) {
	err = inOrder(s, pupil, func(e *logbook.Entry) bool { return e.Kind == logbook.KindForeseen }, func(e *logbook.Entry) {
		if a, ok := e.Asked(); ok {
			asked = append(asked, a)
		}
	})
	return asked, err
}

// inOrder takes the entries of a pupil that are wanted, in order of time.
func inOrder(s logbook.Store, pupil string, wanted func(*logbook.Entry) bool, take func(*logbook.Entry)) error {
	var x logbook.Index
	_, err := s.Read(pupil, func(c *logbook.Contents, e *logbook.Entry) error {
		if wanted(e) {
			return x.Take(c, e)
		}
		return nil
	})
	if err != nil {
		return err
	}
	return x.Each(func(_ *logbook.Contents, e *logbook.Entry) error {
		take(e)
		return nil
	})
}

// append writes entries, before the first of them that the practice has begun.
func (p *Pupils) append(entries ...logbook.Entry) error {
	if !p.noted {
		p.noted = true
		entries = append([]logbook.Entry{logbook.Began(p.began, logbook.Practice{Program: world.Version, Craft: p.craft})}, entries...)
	}
	return p.book.Append(entries...)
}

// Close ends the practice of the pupil, if there is one.
func (p *Pupils) Close() error {
	if p.book == nil {
		return nil
	}
	now := p.now()
	lasted := now.Sub(p.began)
	entries := []logbook.Entry{logbook.Ended(now, lasted)}
	refused, any := p.tally.Entry(now)
	if any {
		entries = append([]logbook.Entry{refused}, entries...)
	}
	var err error
	if p.noted || any || lasted >= shortest {
		err = p.append(entries...)
	}
	if closing := p.book.Close(); err == nil {
		err = closing
	}
	p.book, p.runs, p.asked = nil, nil, nil
	return err
}

// Pupil is who practises; empty for nobody.
func (p *Pupils) Pupil() string {
	if p.book == nil {
		return ""
	}
	return p.book.Pupil()
}

// Names are everybody who has a logbook; what cannot be read is told where logbooks are.
func (p *Pupils) Names() []string {
	names, _, _ := p.store.Pupils()
	return names
}

// Count is how many runs somebody has made, as far as that can be read.
func (p *Pupils) Count(pupil string) (n int) {
	_, _ = p.store.Read(pupil, func(_ *logbook.Contents, e *logbook.Entry) error {
		if e.Kind == logbook.KindDrill {
			n++
		}
		return nil
	})
	return n
}

// Rename gives somebody another name, who does not practise meanwhile.
func (p *Pupils) Rename(pupil, name string) error { return p.store.Rename(pupil, name, p.now()) }

// Merge moves what one has done into the logbook of another.
func (p *Pupils) Merge(from, into string) error {
	_, err := p.store.Merge(from, into)
	return err
}

// Runs are all runs of the pupil in order of time.
func (p *Pupils) Runs() []drill.Run { return p.runs }

// Refused counts a refusal.
func (p *Pupils) Refused(set int32) {
	if p.book != nil {
		p.tally.Add(facts.Set(set))
	}
}

// Keep keeps a run and, where it is news, what the pupil held. A run without a try is none.
func (p *Pupils) Keep(run *drillrun.Result, d *drillfile.Drill, held screen.Held) error {
	if p.book == nil || len(run.Tries) == 0 {
		return nil
	}
	now := p.now()
	p.runs = append(p.runs, run.Run)
	entries := p.news(now, held)
	e := logbook.OfRun(now, &run.Run, &d.Config, d.Name)
	e.Drill.Hands, e.Drill.CameIn = run.Hands(), run.Other.Code()
	entries = append(entries, e)
	if e, any := p.tally.Entry(now); any {
		entries = append(entries, e)
	}
	return p.append(entries...)
}

// news is an entry of what the pupil holds, where that has changed.
func (p *Pupils) news(now time.Time, held screen.Held) (entries []logbook.Entry) {
	craft := p.held
	if held.Craft != nil {
		craft = craftEntry(held.Craft, held.Gestures)
	}
	if craft.StickMode = held.StickMode; held.Radio != p.radio || craft != p.held {
		entries = append(entries, logbook.Changed(now, held.Radio, craft))
		p.radio, p.held = held.Radio, craft
	}
	return entries
}

// Asked are all questions that the examiner asked the pupil, in order of time.
func (p *Pupils) Asked() []examine.Asked { return p.asked }

// KeepAsked keeps a question of the examiner and, where it is news, which craft and radio it is about.
func (p *Pupils) KeepAsked(a examine.Asked, held screen.Held) error {
	if p.book == nil {
		return nil
	}
	p.asked = append(p.asked, a)
	now := p.now()
	return p.append(append(p.news(now, held), logbook.OfQuestion(now, &a))...)
}

// Where is the path of the pupil's logbook.
func (p *Pupils) Where() string {
	if p.book == nil {
		return p.store.Dir
	}
	return p.book.Path()
}
