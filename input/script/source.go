package script

import (
	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

var errClosed = words.Wrong("script.closed")

// source plays a script: one reading of the controls in every millisecond in which one of them changes, bench inputs
// before it.
type source struct {
	s       *Script
	begun   bool
	next    int   // step to come
	now     int64 // ms played last
	frame   pulse.Frame
	ramps   [pulse.Channels]ramp
	running int // ramps under way
	err     error
}

// ramp is a control on its way.
type ramp struct {
	from, to    pulse.Width
	begin, over int64 // ms; over 0: none
}

// at is the value at t ms, rounded to the nearest eighth.
func (r *ramp) at(t int64) pulse.Width {
	d := t - r.begin
	if d >= r.over {
		return r.to
	}
	n := 2*int64(r.to-r.from)*d + r.over
	if n < 0 {
		n -= 2*r.over - 1
	}
	return r.from + pulse.Width(n/(2*r.over))
}

func (p *source) Name() string { return p.s.Title() }

func (p *source) Wake() <-chan struct{} { return nil }

func (p *source) Close() error {
	p.err = errClosed
	return nil
}

func (p *source) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	if p.err != nil || until < 0 {
		return dst, p.err
	}
	last := min(until/1000, p.s.end)
	if !p.begun {
		p.begun = true
		p.frame = p.s.start
		dst = append(dst, p.s.bench...)
		before := p.frame
		before[0]++ // so that the first controls are always told
		dst = p.play(dst, 0, before)
	}
	for {
		t := p.s.end + 1
		if p.next < len(p.s.steps) {
			t = p.s.steps[p.next].at
		}
		if p.running > 0 {
			t = min(t, p.now+1)
		}
		if t > last {
			break
		}
		dst = p.play(dst, t, p.frame)
	}
	if last == p.s.end {
		p.err = input.ErrEnd
	}
	return dst, p.err
}

// play goes to t, at which something happens.
func (p *source) play(dst []pulse.Reading, t int64, before pulse.Frame) []pulse.Reading {
	p.now = t
	for c := range p.ramps {
		if r := &p.ramps[c]; r.over > 0 {
			if p.frame[c] = r.at(t); t >= r.begin+r.over {
				p.stop(c)
			}
		}
	}
	for ; p.next < len(p.s.steps) && p.s.steps[p.next].at == t; p.next++ {
		st := &p.s.steps[p.next]
		dst = append(dst, st.bench...)
		for _, x := range st.sets {
			p.stop(x.channel)
			if x.over == 0 {
				p.frame[x.channel] = x.to
				continue
			}
			p.ramps[x.channel] = ramp{from: p.frame[x.channel], to: x.to, begin: t, over: x.over}
			p.running++
		}
	}
	if p.frame != before {
		dst = append(dst, pulse.Reading{At: t * 1000, Kind: pulse.Controls, Frame: p.frame})
	}
	return dst
}

func (p *source) stop(c int) {
	if p.ramps[c].over > 0 {
		p.ramps[c] = ramp{}
		p.running--
	}
}
