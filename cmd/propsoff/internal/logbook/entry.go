package logbook

import (
	"maps"
	"slices"
	"strconv"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/mark"
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
	KindForeseen Kind = "foreseen" // one question of the examiner, and what the answer showed
)

var kinds = [...]Kind{KindBegan, KindChanged, KindEnded, KindDrill, KindRefusals, KindForeseen}

// Kinds are all kinds of entries.
func Kinds() []Kind { return slices.Clone(kinds[:]) }

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
	// Foreseen belongs to KindForeseen.
	Foreseen Foreseen

	// Line and Raw are where an entry was read from, counted from 1, and its line there without its end: good until the next is read.
	Line int
	Raw  []byte
	// file is which of the pupil's files that is, from and size the place of its line there.
	file       int
	from, size int64
}

// Later reports whether the entry is of a kind that only a later version knows: a whole line that is left alone.
func (e *Entry) Later() bool { return !slices.Contains(kinds[:], e.Kind) }

// Practice is what a practice began with, as it stands in the line.
type Practice struct {
	// Program is the version of propsoff, empty where it is not known.
	Program string `json:"program,omitempty"`
	// Radio is the radio's name, or "keyboard"; empty where it is not known.
	Radio string `json:"radio,omitempty"`
	Craft Craft  `json:"craft"`
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

// Drill is one run of a drill, as it stands in the line.
type Drill struct {
	// Code is the drill's word, Name what a person calls it.
	Code string `json:"drill,omitempty"`
	Name string `json:"name,omitempty"`
	// Seed is a whole number below 2^64 as text, since JSON numbers are whole up to 2^53 only (RFC 8259, 6).
	Seed string `json:"seed,omitempty"`
	// Learned and BrokenOff are those of drill.Run. Unannounced: the cue came at a time that the pupil could not know.
	Learned     bool `json:"learned"`
	BrokenOff   bool `json:"broken_off"`
	Unannounced bool `json:"unannounced"`
	// Hands are the code words of the pupil's hands that drove (radio, keyboard), nil where that was not noted. CameIn is the code word of
	// what else came in and ended the run (demo-pilot, script, instructor, fault); the tries are those from before it.
	Hands  []string `json:"hands,omitempty"`
	CameIn string   `json:"came_in,omitempty"`
	Tries  []Try    `json:"tries,omitempty"`
}

// Try is one try of a run, as it stands in the line. Verdict and Why are code words of package codes.
type Try struct {
	Tick    int64  `json:"tick"`
	Case    uint8  `json:"case"`
	Verdict string `json:"verdict"`
	Why     string `json:"why,omitempty"`
	Number  uint8  `json:"number,omitempty"`
	// Reaction is the time in ms, nil for none; Uncertain is how much of it is not known, in ms. Allowed is the longest that passes, in ms,
	// 0 where that is not known.
	Reaction  *int32 `json:"reaction_ms,omitempty"`
	Uncertain uint16 `json:"uncertain_ms,omitempty"`
	Allowed   int32  `json:"allowed_ms,omitempty"`
	// Hand is what following a mark said of the hand; nil where none was followed.
	Hand *Hand `json:"hand,omitempty"`
}

// Foreseen is one question of the examiner, as it stands in the line: what tells it from every other, and by the code words of package examine what
// was asked, in what the two situations differ, and what the answer showed.
type Foreseen struct {
	Question string `json:"question,omitempty"`
	Ask      string `json:"ask,omitempty"`
	About    string `json:"about,omitempty"`
	Showed   string `json:"showed,omitempty"`
}

// OfQuestion is the entry of one question of the examiner.
func OfQuestion(at time.Time, a *examine.Asked) Entry {
	e := entry(at, KindForeseen)
	e.Foreseen = Foreseen{Question: a.ID, Ask: a.Ask.Code(), About: a.About.Code(), Showed: a.Verdict.Code()}
	return e
}

// Asked gives the question as the examiner wants it; false where a later version asked it about something that this one does not know.
func (e *Entry) Asked() (a examine.Asked, ok bool) {
	f := &e.Foreseen
	ask, knowsAsk := examine.AskOf(f.Ask)
	about, knowsAbout := examine.AboutOf(f.About)
	verdict, knowsVerdict := examine.VerdictOf(f.Showed)
	return examine.Asked{ID: f.Question, Ask: ask, About: about, Verdict: verdict}, knowsAsk && knowsAbout && knowsVerdict
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
	e.Drill = Drill{Code: run.Drill, Name: name, Seed: strconv.FormatUint(run.Seed, 10), Learned: run.Learned, BrokenOff: run.BrokenOff}
	for _, t := range run.Tries {
		n := Try{Tick: t.Tick, Case: t.Case, Verdict: codes.VerdictCode(t.Verdict), Why: codes.WhyCode(t.Why), Number: t.Number, Uncertain: t.Uncertain}
		if t.Reaction >= 0 {
			n.Reaction = new(t.Reaction)
		}
		if t.Hand.Axis != mark.NoAxis {
			n.Hand = handOf(&t.Hand)
		}
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
	seed, _ := strconv.ParseUint(e.Drill.Seed, 10, 64) // what was read is a number
	r := drill.Run{Drill: e.Drill.Code, Day: e.Day, Seed: seed, Learned: e.Drill.Learned, BrokenOff: e.Drill.BrokenOff}
	for _, t := range e.Drill.Tries {
		v, ok := codes.VerdictOf(t.Verdict)
		if !ok {
			continue
		}
		why, _ := codes.WhyOf(t.Why)
		n := drill.Try{Tick: t.Tick, Case: t.Case, Verdict: v, Why: why, Number: t.Number, Reaction: -1, Uncertain: t.Uncertain}
		if t.Reaction != nil {
			n.Reaction = *t.Reaction
		}
		if t.Hand != nil {
			n.Hand = t.Hand.Measure()
		}
		r.Tries = append(r.Tries, n)
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
	case e.Kind == KindForeseen && e.Foreseen.Question == "":
		return words.Wrong("logbook-file.question-unnamed")
	}
	return nil
}
