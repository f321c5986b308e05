package main

import (
	"math"
	"slices"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input/script"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/practice"
)

// report follows a run tick by tick: it prints what happens and holds it against expectations or a take.
type report struct {
	p    *plan
	json bool
	add  func(func(dst []byte) []byte)
	cfg  sim.Config
	// model is that of what is told: a take's own.
	model int

	windows []script.Expect // in order of At
	next    int
	until   int64 // µs: the checker must be told every tick up to here
	failed  int
	armed   bool
	differs bool // a difference was told
}

func newReport(p *plan, asJSON bool, add func(func([]byte) []byte)) *report {
	r := &report{p: p, json: asJSON, add: add, cfg: p.start.Craft, model: sim.Model, until: -1}
	if p.judge != nil {
		r.model = p.judge.Model
	}
	p.onPart(func(part *records.Part) { r.cfg = part.Craft.Config() })
	r.windows = slices.Clone(p.expects)
	slices.SortStableFunc(r.windows, func(a, b script.Expect) int { return int(a.At - b.At) })
	return r
}

// notice prints a line that belongs to no happening.
func (r *report) notice(text string) {
	r.add(func(dst []byte) []byte {
		if r.json {
			return terminal.AppendNotice(dst, r.p.start.Tick, text)
		}
		return terminal.AppendNoticeText(dst, r.p.start.Tick, text)
	})
}

// observe looks at the tick that pr has just run.
func (r *report) observe(pr *practice.Practice) {
	tick, happened := pr.Tick()-1, pr.Happenings()
	if j := r.p.judge; j != nil {
		if tick == r.p.start.Tick && j.Older() {
			r.notice(phrase.OlderModel(j.Model, sim.Model))
		}
		happened = j.Tick(pr)
	}
	r.tell(happened)
	r.compare()
	if r.p.checker != nil && r.asked(tick) {
		r.check(tick, pr)
	}
}

// tell prints what happened.
func (r *report) tell(happened []happening.Happening) {
	for _, h := range happened {
		switch h.Code {
		case happening.Armed:
			r.armed = true
		case happening.Disarmed:
			r.armed = false
		}
		r.add(func(dst []byte) []byte {
			if r.json {
				return terminal.AppendJSON(dst, h, &r.cfg)
			}
			return terminal.AppendRecorded(dst, r.model, h, &r.cfg)
		})
	}
}

// compare prints the first difference from a take.
func (r *report) compare() {
	if r.p.judge == nil || r.differs {
		return
	}
	tick, text, ok := r.p.judge.Difference(&r.cfg)
	if !ok {
		return
	}
	r.differs = true
	line := terminal.Difference{Tick: tick, Text: text, Model: r.p.judge.Older()}
	r.add(func(dst []byte) []byte {
		if r.json {
			return line.AppendJSON(dst)
		}
		return line.AppendText(dst)
	})
}

// asked reports whether an expectation may be decided at tick: words are made only then.
func (r *report) asked(tick int64) bool {
	for r.next < len(r.windows) && r.windows[r.next].At <= tick*1000 {
		e := r.windows[r.next]
		r.until = max(r.until, e.At+e.Within)
		r.next++
	}
	return tick*1000 <= r.until
}

func (r *report) check(tick int64, pr *practice.Practice) {
	var s sim.Snapshot
	pr.Snapshot(&s)
	now := script.Now{Armed: s.Armed, Refusals: phrase.Why(s.Refusals), Mode: phrase.Mode(s.Mode)}
	for _, h := range pr.Happenings() {
		now.Happenings = append(now.Happenings, phrase.Code(h.Code))
		if h.Code == happening.Gesture {
			now.Gestures = append(now.Gestures, phrase.GestureCode(h.A, &r.cfg))
		}
	}
	for _, f := range r.p.checker.Tick(tick, &now) {
		r.fails(tick, f)
	}
}

func (r *report) fails(tick int64, f script.Failed) {
	r.failed++
	line := terminal.Failure{
		Tick: tick, File: f.Expect.Pos.File, Line: f.Expect.Pos.Line, Column: f.Expect.Pos.Col,
		Expected: f.Expect.String(), Seen: f.Seen,
	}
	r.add(func(dst []byte) []byte {
		if r.json {
			return line.AppendJSON(dst)
		}
		return line.AppendText(dst)
	})
}

// stopped ends the report of a run that did not come to its end.
func (r *report) stopped(last int64) {
	r.add(func(dst []byte) []byte {
		if r.json {
			return terminal.AppendStopped(dst, last)
		}
		return terminal.AppendStoppedText(dst, last)
	})
}

// finish ends the report after the last tick and gives the error that the run exits with.
func (r *report) finish(last int64, digest uint64) error {
	end := terminal.Finish{Tick: last, Expected: len(r.p.expects), Replay: r.p.replay, Digest: digest, Note: r.p.note()}
	if r.p.checker != nil {
		for _, f := range r.p.checker.Finish() {
			r.fails(last, f)
		}
	}
	var err error
	older := false
	if j := r.p.judge; j != nil {
		err = j.Finish(last)
		if older = j.Older(); older {
			end.Model = j.Model
			r.tell(j.Until(math.MaxInt64))
		}
		r.compare()
		end.Compared = j.Compared()
	}
	end.Failed, end.Armed = r.failed, r.armed
	end.Same = r.p.judge != nil && !r.differs
	r.add(func(dst []byte) []byte {
		if r.json {
			return end.AppendJSON(dst)
		}
		return end.AppendText(dst)
	})
	switch {
	case err != nil:
		return badInput(err)
	case r.failed > 0 || r.differs && !older:
		return &exitError{code: exitFailed}
	}
	return nil
}
