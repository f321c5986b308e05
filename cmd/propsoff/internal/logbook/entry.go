package logbook

import (
	"maps"
	"slices"
	"time"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/drill"
)

// Kind is what an entry tells. The words stand in files for ever.
type Kind string

// The kinds of entries.
const (
	KindBegan    Kind = "began"    // a practice began
	KindChanged  Kind = "changed"  // the radio or the craft's settings changed during it
	KindEnded    Kind = "ended"    // it ended
	KindDrill    Kind = "drill"    // one run of a drill, with its tries
	KindRefusals Kind = "refusals" // how often arming was refused, and why
)

var kinds = [...]Kind{KindBegan, KindChanged, KindEnded, KindDrill, KindRefusals}

// Entry is one line of a logbook. Which fields count depends on Kind; see the constructors.
type Entry struct {
	// At is when it was written, UTC in whole ms. Day is the pupil's calendar day then (see Day).
	At   time.Time
	Day  int32
	Kind Kind
	// Practice belongs to KindBegan; of KindChanged only its Radio and Craft.
	Practice Practice
	// Lasted belongs to KindEnded, in whole ms.
	Lasted time.Duration
	// Drill belongs to KindDrill.
	Drill Drill
	// Counts belongs to KindRefusals: how often each was among the reasons, by its code word.
	Counts map[string]int64

	// Line and Raw are where an entry was read from, counted from 1, and its line there without its end: good until the next is read.
	Line int
	Raw  []byte
	// file is which of the pupil's files that is, from and size the place of its line there.
	file       int
	from, size int64
}

// Later reports whether the entry is of a kind that only a later version knows: a whole line that is left alone.
func (e *Entry) Later() bool { return !slices.Contains(kinds[:], e.Kind) }

// Practice is what a practice began with.
type Practice struct {
	// Program is its version, Radio the name of the radio, or "keyboard"; both may be empty.
	Program, Radio string
	Craft          Craft
}

// Craft is what the settings of a craft come to. Empty fields are not written.
type Craft struct {
	Name string `json:"name,omitempty"`
	// Arming is "switch" or "sticks".
	Arming    string `json:"arming,omitempty"`
	StickMode int    `json:"stick_mode,omitempty"`
	// Gestures is the name of the gesture file. Digest tells one state of the craft file's text from another.
	Gestures string `json:"gestures,omitempty"`
	Digest   string `json:"digest,omitempty"`
}

// Drill is one run of a drill.
type Drill struct {
	// Code is the drill's word, Name what a person calls it.
	Code, Name string
	Seed       uint64
	// Hands are the code words of the pupil's hands that drove: radio, keyboard; nil where that was not noted. CameIn is the code word of
	// what else came in and ended the run: demo-pilot, script, instructor, fault; the tries are those of before.
	Hands  []string `json:",omitempty"`
	CameIn string   `json:",omitempty"`
	// Learned and BrokenOff are those of drill.Run. Unannounced: the cue came at a time that the pupil could not know.
	Learned, BrokenOff, Unannounced bool
	Tries                           []Try
}

// Try is one try of a run. Verdict and Why are code words of package codes.
type Try struct {
	Tick         int64
	Case         uint8
	Verdict, Why string
	Number       uint8
	// Reaction is the time in ms, −1 for none, Uncertain how much of it is not known, Allowed the most that passes, 0 if unknown.
	Reaction  int32
	Uncertain uint16
	Allowed   int32
}

// Began is the entry of a practice's beginning. The time carries the pupil's time zone, here and below.
func Began(at time.Time, p Practice) Entry {
	e := entry(at, KindBegan)
	e.Practice = p
	return e
}

// Changed is the entry of another radio, empty where it is not known, or of new settings of the craft.
func Changed(at time.Time, radio string, c Craft) Entry {
	e := entry(at, KindChanged)
	e.Practice.Radio, e.Practice.Craft = radio, c
	return e
}

// Ended is the entry of a practice's end.
func Ended(at time.Time, lasted time.Duration) Entry {
	e := entry(at, KindEnded)
	e.Lasted = max(0, lasted).Truncate(time.Millisecond)
	return e
}

// OfRun is the entry of one run. Its day is that of at, which the run should have been given too. The drill's configuration gives the time allowed.
func OfRun(at time.Time, run *drill.Run, cfg *drill.Config, name string) Entry {
	e := entry(at, KindDrill)
	e.Drill = Drill{Code: run.Drill, Name: name, Seed: run.Seed, Learned: run.Learned, BrokenOff: run.BrokenOff}
	for _, t := range run.Tries {
		n := Try{Tick: t.Tick, Case: t.Case, Verdict: codes.VerdictCode(t.Verdict), Why: codes.WhyCode(t.Why), Number: t.Number, Reaction: max(-1, t.Reaction), Uncertain: t.Uncertain}
		if cfg != nil && int(t.Case) < len(cfg.Cases) {
			c := &cfg.Cases[t.Case]
			n.Allowed = max(0, c.Within)
			e.Drill.Unannounced = e.Drill.Unannounced || c.WaitHigh > c.WaitLow
		}
		e.Drill.Tries = append(e.Drill.Tries, n)
	}
	return e
}

// Run gives the run as the drill's own scheme wants it. Tries whose verdict only a later version knows are left out.
func (e *Entry) Run() drill.Run {
	r := drill.Run{Drill: e.Drill.Code, Day: e.Day, Seed: e.Drill.Seed, Learned: e.Drill.Learned, BrokenOff: e.Drill.BrokenOff}
	for _, t := range e.Drill.Tries {
		v, ok := codes.VerdictOf(t.Verdict)
		if !ok {
			continue
		}
		why, _ := codes.WhyOf(t.Why)
		r.Tries = append(r.Tries, drill.Try{Tick: t.Tick, Case: t.Case, Verdict: v, Why: why, Number: t.Number, Reaction: t.Reaction, Uncertain: t.Uncertain})
	}
	return r
}

func entry(at time.Time, k Kind) Entry {
	return Entry{At: at.UTC().Truncate(time.Millisecond), Day: Day(at), Kind: k}
}

// Tally counts refusals. The zero value is ready.
type Tally struct{ counts map[string]int64 }

// Add counts one refused arming with all its reasons.
func (t *Tally) Add(why facts.Set) {
	for _, r := range facts.Shown() {
		if why.Has(r) {
			if t.counts == nil {
				t.counts = map[string]int64{}
			}
			t.counts[codes.Refusal(r)]++
		}
	}
}

// Entry gives what was counted since the last time; ok is false where nothing was.
func (t *Tally) Entry(at time.Time) (e Entry, ok bool) {
	if len(t.counts) == 0 {
		return Entry{}, false
	}
	e = entry(at, KindRefusals)
	e.Counts = maps.Clone(t.counts)
	clear(t.counts)
	return e, true
}

// check says what is wrong with an entry.
func (e *Entry) check() error {
	if y := e.At.UTC().Year(); y < 1970 || y > 9999 {
		return words.Wrong("logbook-file.time-range", words.Args{"time": words.Quote(e.At.String())})
	}
	if y := Date(e.Day).Year(); y < 1000 || y > 9999 {
		return words.Wrong("logbook-file.day-range", words.Args{"day": words.Whole(e.Day)})
	}
	switch {
	case e.Later():
		return words.Wrong("logbook-file.no-kind", words.Args{"kind": quoted(string(e.Kind))})
	case e.Kind == KindDrill && e.Drill.Code == "":
		return words.Wrong("logbook-file.drill-unnamed")
	}
	return nil
}
