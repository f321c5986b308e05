package playback

import (
	"math"
	"slices"

	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/input/script"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/practice"
)

// Report follows a run tick by tick: it prints what happens and holds it against expectations or a take.
type Report struct {
	p    *Plan
	form terminal.Form
	// Add takes the lines.
	Add func(func(dst []byte) []byte)
	cfg sim.Config
	// model is that of what is told: a take's own.
	model int

	windows []script.Expect // in order of At
	next    int
	until   int64 // µs: the checker must be told every tick up to here
	failed  int
	armed   bool
	heard   bool // what happens is told by somebody else
	differs bool // a difference was told
}

// NewReport is a report of a plan that adds its lines, as JSON or as text, to add.
func NewReport(p *Plan, asJSON bool, add func(func([]byte) []byte)) *Report {
	r := &Report{p: p, form: terminal.Form{JSON: asJSON, Book: p.book}, Add: add, cfg: p.Start.Craft, model: sim.Model, until: -1}
	if p.Judge != nil {
		r.model = p.Judge.Model
	}
	p.OnPart(func(part *takes.Part) { r.cfg = part.Craft.Config() })
	r.windows = slices.Clone(p.Expects)
	slices.SortStableFunc(r.windows, func(a, b script.Expect) int { return int(a.At - b.At) })
	return r
}

// Plain has it print sentences by themselves, without time and code; heard: what happens is told by somebody else.
func (r *Report) Plain(plain, heard bool) { r.form.Plain, r.heard = plain, heard }

// Observe looks at the tick that pr has just run.
func (r *Report) Observe(pr *practice.Practice) {
	tick, happened := pr.Tick()-1, pr.Happenings()
	if j := r.p.Judge; j != nil {
		if tick == r.p.Start.Tick && j.Older() {
			r.Add(func(dst []byte) []byte { return r.form.Notice(dst, tick, tell.OlderModel(j.Model, sim.Model)) })
		}
		happened = j.Tick(pr)
	}
	r.tell(happened)
	r.teach(pr.Happenings())
	r.compare()
	if r.p.checker != nil && r.asked(tick) {
		r.check(tick, pr)
	}
}

// tell prints what happened.
func (r *Report) tell(happened []happening.Happening) {
	for _, h := range happened {
		switch h.Code {
		case happening.Armed:
			r.armed = true
		case happening.Disarmed:
			r.armed = false
		}
		if !r.heard {
			r.Add(func(dst []byte) []byte { return r.form.Happening(dst, r.model, h, &r.cfg) })
		}
	}
}

// teach prints, after a wreck, until when the craft could have been saved. Where time runs nothing is kept for it: it would be held up. Of an
// older model's take what happened is told as that model had it, and no craft broke in it.
func (r *Report) teach(happened []happening.Happening) {
	if r.model < sim.Model {
		return
	}
	for _, h := range happened {
		if h.Code != happening.Broke {
			continue
		}
		if past := r.p.kept.Past(h.Tick); past != nil {
			found, _ := lesson.Find(past, nil)
			r.Add(func(dst []byte) []byte { return r.form.Lesson(dst, &found) })
		}
	}
}

// compare prints the first difference from a take.
func (r *Report) compare() {
	if r.p.Judge == nil || r.differs {
		return
	}
	tick, text, ok := r.p.Judge.Difference(&r.cfg)
	if !ok {
		return
	}
	r.differs = true
	r.Add(func(dst []byte) []byte { return r.form.Difference(dst, tick, text, r.p.Judge.Older()) })
}

// asked reports whether an expectation may be decided at tick: words are made only then.
func (r *Report) asked(tick int64) bool {
	for r.next < len(r.windows) && r.windows[r.next].At <= tick*1000 {
		e := r.windows[r.next]
		r.until = max(r.until, e.At+e.Within)
		r.next++
	}
	return tick*1000 <= r.until
}

func (r *Report) check(tick int64, pr *practice.Practice) {
	var s sim.Snapshot
	pr.Snapshot(&s)
	now := script.Now{Armed: s.Armed, Refusals: codes.Why(s.Refusals), Mode: codes.Mode(s.Mode)}
	for _, h := range pr.Happenings() {
		now.Happenings = append(now.Happenings, codes.Code(h.Code))
		if h.Code == happening.Gesture {
			now.Gestures = append(now.Gestures, codes.Gesture(h.A, &r.cfg))
		}
	}
	for _, f := range r.p.checker.Tick(tick, &now) {
		r.fails(tick, f)
	}
}

func (r *Report) fails(tick int64, f script.Failed) {
	r.failed++
	r.Add(func(dst []byte) []byte { return r.form.Failure(dst, tick, f) })
}

// Stopped ends the report of a run that did not come to its end.
func (r *Report) Stopped(last int64) {
	r.Add(func(dst []byte) []byte { return r.form.Stopped(dst, last) })
}

// Finish ends the report after the last tick and gives the error that the run exits with.
func (r *Report) Finish(last int64, digest uint64) error {
	end := terminal.Finish{Tick: last, Expected: len(r.p.Expects), Replay: r.p.Replay, Digest: digest, Note: r.p.Note()}
	if r.p.checker != nil {
		for _, f := range r.p.checker.Finish() {
			r.fails(last, f)
		}
	}
	var err error
	older := false
	if j := r.p.Judge; j != nil {
		err = j.Finish(last)
		if older = j.Older(); older {
			end.Model = j.Model
			r.tell(j.Until(math.MaxInt64))
		}
		r.compare()
		end.Compared = j.Compared()
	}
	end.Failed, end.Armed = r.failed, r.armed
	end.Same = r.p.Judge != nil && !r.differs
	r.Add(func(dst []byte) []byte { return r.form.Finish(dst, &end) })
	switch {
	case err != nil:
		return exit.BadInput(err)
	case r.failed > 0 || r.differs && !older:
		return exit.With(exit.CodeFailed)
	}
	return nil
}
