package main

import (
	"slices"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input/script"
	"propsoff/input/take"
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

	windows []script.Expect // in order of At
	next    int
	until   int64 // µs: the checker must be told every tick up to here
	failed  int
	armed   bool
	diff    *take.Difference
}

func newReport(p *plan, asJSON bool, add func(func([]byte) []byte)) *report {
	r := &report{p: p, json: asJSON, add: add, cfg: p.craft.Config(), until: -1}
	r.windows = slices.Clone(p.expects)
	slices.SortStableFunc(r.windows, func(a, b script.Expect) int { return int(a.At - b.At) })
	return r
}

// observe looks at the tick that pr has just run.
func (r *report) observe(pr *practice.Practice) {
	tick := pr.Tick() - 1
	if len(pr.Happenings()) > 0 { // being armed never changes without one
		var s sim.Snapshot
		pr.Snapshot(&s)
		r.armed = s.Armed
	}
	for _, h := range pr.Happenings() {
		r.add(func(dst []byte) []byte {
			if r.json {
				return terminal.AppendJSON(dst, h, &r.cfg)
			}
			return terminal.AppendText(dst, h, &r.cfg)
		})
		if r.p.comparer != nil {
			r.differs(r.p.comparer.Happening(h.Tick, uint8(h.Code), h.A, h.B))
		}
	}
	if r.p.comparer != nil {
		r.differs(r.p.comparer.Digest(tick, pr.Digest()))
	}
	if r.p.checker != nil && r.asked(tick) {
		r.check(tick, pr)
	}
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

// differs prints the first difference from a take.
func (r *report) differs(d *take.Difference) {
	if d == nil || r.diff != nil {
		return
	}
	r.diff = d
	line := terminal.Difference{Tick: d.Tick, Text: d.String()}
	r.add(func(dst []byte) []byte {
		if r.json {
			return line.AppendJSON(dst)
		}
		return line.AppendText(dst)
	})
}

// finish ends the report after the last tick and gives the error that the run exits with.
func (r *report) finish(last int64, digest uint64) error {
	end := terminal.Finish{Tick: last, Expected: len(r.p.expects), Replay: r.p.replay, Armed: r.armed, Digest: digest, Note: r.p.note()}
	if r.p.checker != nil {
		for _, f := range r.p.checker.Finish() {
			r.fails(last, f)
		}
	}
	var err error
	if c := r.p.comparer; c != nil {
		d, readErr := c.Finish(last)
		r.differs(d)
		end.Compared, err = c.Compared(), readErr
	}
	end.Failed = r.failed
	end.Same = r.p.comparer != nil && r.diff == nil
	r.add(func(dst []byte) []byte {
		if r.json {
			return end.AppendJSON(dst)
		}
		return end.AppendText(dst)
	})
	switch {
	case err != nil:
		return badInput(err)
	case r.failed > 0 || r.diff != nil:
		return &exitError{code: exitFailed}
	}
	return nil
}
