package learn_test

import (
	"fmt"
	"math"
	"testing"

	"propsoff.example/input/learn"
	"propsoff.example/input/radio"

	"pgregory.net/rapid"
)

// answer has the hand answer every question on the radio, in order.
func (m *made) answer(t *rapid.T) {
	m.wait(draw(t, "first wait", 600, 1500) * ms)
	for i, p := range m.parts[:4] {
		m.slipOnStick(t, i)
		m.answerStick(t, i, p)
		m.wait(draw(t, "pause", 450, 1500) * ms)
	}
	for _, p := range m.parts[4:] {
		if p == nil {
			m.do("skip", (*learn.Learner).Skip)
			m.wait(400 * ms)
			continue
		}
		m.slipOnSwitch(t, p)
		m.say("answer: %s", p.job)
		m.through(p, draw(t, "stay", 250, 1200)*ms)
		m.wait(draw(t, "pause", 400, 900) * ms)
	}
	m.do("no more", (*learn.Learner).Enough)
	m.wait(600 * ms)
	m.about(t)
	m.do("stick mode 3", func(l *learn.Learner) { l.SetStickMode(3) })
	m.wait(600 * ms)
	m.corner(t)
	m.wait(600 * ms)
	m.replay(t)
	m.wait(1000 * ms)
	m.Until(m.now + 100*ms)
}

func (m *made) answerStick(t *rapid.T, i int, p *part) {
	m.say("answer: %s", p.job)
	beside := m.beside(t, i, p)
	m.bring(p, 2)
	m.wait(draw(t, "hold", 450, 1500) * ms)
	if m.slips && beside == nil && rapid.IntRange(0, 4).Draw(t, "another for the low end") == 0 && i < 3 {
		o := m.parts[i+1]
		m.say("another stick in between")
		to := 0
		if o.at == to { // a throttle that stands there already
			to = 2
		}
		m.bring(o, to)
		m.wait(500 * ms)
		m.bring(o, o.rest)
		m.wait(500 * ms)
	}
	m.bring(p, 0)
	m.wait(draw(t, "hold", 450, 1500) * ms)
	if beside != nil {
		beside()
	}
	switch {
	case !p.springs: // the throttle just stays
		m.wait(1100 * ms)
	case p.job == "throttle":
		m.bring(p, 1)
		m.wait(900 * ms)
		m.do("a throttle that springs back is accepted", (*learn.Learner).Enough)
	default:
		m.bring(p, 1)
		m.wait(700 * ms)
	}
}

// beside draws another stick along by up to 15 % of its range while p moves; what it gives lets that one go.
func (m *made) beside(t *rapid.T, i int, p *part) func() {
	// Less than a still hand's 3 % could not be told from noise, whatever looks at it.
	share := draw(t, "crosstalk", 40, 150)
	if yes(t, "to the other side") {
		share = -share
	}
	if !yes(t, "drawn along") || i == 3 {
		return nil
	}
	other := m.parts[i+1]
	o, home := other.axis, other.places[other.at]
	to := home + int32(share*(int64(m.info.Axes[o].Max)-int64(m.info.Axes[o].Min))/1000)
	to = max(min(to, max(other.places[0], other.places[2])), min(other.places[0], other.places[2])) // no farther than it goes
	m.say("axis %d is drawn along by %d", o+1, share)
	m.Move(m.now, min(p.over, 60*ms), o, to) // what creeps so slowly that it counts as still counts as noise
	if !other.springs {
		return func() { m.say("axis %d stays there", o+1) }
	}
	return func() { m.Move(m.now, 60*ms, o, home) }
}

// about moves the sticks as who looks which hand carries what does; the throttle comes down again.
func (m *made) about(t *rapid.T) {
	if !yes(t, "sticks about") {
		return
	}
	m.say("the sticks about")
	for _, p := range m.parts[:4] {
		m.bring(p, 2)
		m.wait(draw(t, "about for", 0, 700) * ms)
		m.bring(p, p.rest)
	}
}

// slipOnStick is what a hand does that does not do as it is told.
func (m *made) slipOnStick(t *rapid.T, i int) {
	if !m.slips {
		return
	}
	p := m.parts[i]
	switch rapid.IntRange(0, 7).Draw(t, "slip") {
	case 0:
		m.say("too little")
		m.move(p.axis, p.places[p.at]+(p.places[2]-p.places[p.at])/4, 100*ms)
		m.wait(draw(t, "stays", 0, 900) * ms)
		m.move(p.axis, p.places[p.at], 100*ms)
		m.wait(500 * ms)
	case 1:
		m.say("a jump of one report")
		a := rapid.IntRange(0, len(m.info.Axes)-1).Draw(t, "axis")
		m.Spike(m.now, a, m.share(a, 200)) // nothing rests so near to it that the jump could be noise
		m.wait(500 * ms)
	case 2:
		o := m.parts[(i+1)%4]
		m.say("two at once: %s and %s", p.job, o.job)
		m.Move(m.now, 100*ms, p.axis, p.places[2])
		m.move(o.axis, o.places[2], 100*ms)
		m.wait(draw(t, "both held", 400, 900) * ms)
		m.Move(m.now, 100*ms, p.axis, p.places[p.at])
		m.move(o.axis, o.places[o.at], 100*ms)
		m.wait(700 * ms)
	case 3:
		b := m.loose[0]
		m.press(b, true)
		m.wait(draw(t, "pressed", 20, 600) * ms)
		m.press(b, false)
		m.wait(500 * ms)
	case 4:
		m.say("readings lost")
		m.Lose(m.now, m.now+50*ms)
		m.wait(800 * ms)
	case 5:
		if i == 0 {
			return
		}
		m.wrong(m.parts[i-1])
	case 6:
		m.say("pulled out and in again")
		m.do("resume", (*learn.Learner).Resume)
		m.Lose(m.now, m.now+100*ms) // once it is open again it tells how it stands, though no hand moves
		m.wait(900 * ms)
	}
}

// wrong moves a stick that has a job already.
func (m *made) wrong(o *part) {
	m.say("the wrong one: %s", o.job)
	at := o.at
	m.bring(o, 2)
	m.wait(600 * ms)
	m.bring(o, at)
	m.wait(700 * ms)
}

func (m *made) slipOnSwitch(t *rapid.T, p *part) {
	if !m.slips {
		return
	}
	switch rapid.IntRange(0, 4).Draw(t, "slip on a switch") {
	case 0:
		m.wrong(m.parts[rapid.IntRange(0, 3).Draw(t, "stick")])
	case 1:
		m.say("a button too quickly")
		m.press(m.loose[0], true)
		m.wait(60 * ms)
		m.press(m.loose[0], false)
		m.wait(500 * ms)
	case 2:
		// Of a switch whose first position is a button itself, two at once is a path through three positions.
		if p.axis < 0 && p.buttons[0] >= 0 || p.knob || p.axis >= 0 && len(p.places) > 3 || p.axis >= 0 && m.info.Axes[p.axis].Hat {
			return
		}
		m.say("two at once: %s and a button", p.job)
		at := p.at
		m.bring(p, len(p.places)+len(p.buttons)-1)
		m.wait(60 * ms)
		m.press(m.loose[0], true)
		m.wait(500 * ms)
		m.press(m.loose[0], false)
		m.bring(p, at)
		m.wait(700 * ms)
	case 3:
		m.say("readings lost")
		m.Lose(m.now, m.now+50*ms)
		m.wait(800 * ms)
	}
}

func (m *made) corner(t *rapid.T) {
	m.say("both sticks to the corner")
	for _, p := range m.parts[:4] {
		m.Move(m.now, 100*ms, p.axis, p.places[2])
	}
	m.wait(draw(t, "in the corner", 600, 1500) * ms)
	for _, p := range m.parts[:4] {
		m.Move(m.now, 100*ms, p.axis, p.places[p.rest])
		p.at = p.rest
	}
	m.wait(600 * ms)
}

func (m *made) replay(t *rapid.T) {
	var all []*part
	for _, p := range m.parts {
		if p != nil && p.job != "" {
			all = append(all, p)
		}
	}
	if m.slips && yes(t, "two at once in the replay") {
		a, b := m.parts[1], m.parts[2]
		m.say("two at once in the replay")
		m.Move(m.now, 100*ms, a.axis, a.places[2])
		m.Move(m.now, 100*ms, b.axis, b.places[2])
		m.wait(300 * ms)
		m.Move(m.now, 100*ms, a.axis, a.places[1])
		m.Move(m.now, 100*ms, b.axis, b.places[1])
		m.wait(500 * ms)
	}
	for _, p := range rapid.Permutation(all).Draw(t, "order") {
		m.say("replay: %s", p.job)
		n := len(p.places) + len(p.buttons) - 1
		to := n
		if p.at == n {
			to = 0
		}
		m.bring(p, to)
		m.wait(draw(t, "stay", 200, 600) * ms)
		if p.springs {
			m.bring(p, p.rest)
			m.wait(400 * ms)
		}
		m.wait(400 * ms)
	}
}

// run feeds a learner with everything that the radio sends, with ticks between, and does what is done on the screen.
func run(t *rapid.T, m *made) *learn.Learner {
	l := learn.New(m.info, m.options)
	tick := draw(t, "tick", 5, 50) * ms
	next, acts := int64(0), m.acts
	for _, raw := range m.States(0) {
		for ; next < raw.At; next += tick {
			l.Tick(next)
			for len(acts) > 0 && acts[0].at <= next {
				acts[0].do(l)
				acts = acts[1:]
			}
		}
		l.Feed(raw)
	}
	for ; next < m.now+3000*ms; next += tick {
		l.Tick(next)
	}
	return l
}

// Whatever radio is made up, what was learned is what was made.
func TestLearnedIsWhatWasMade(t *testing.T) {
	for name, slips := range map[string]bool{"a hand that does it right": false, "a hand that makes mistakes": true} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				m := invent(t, slips)
				m.answer(t)
				l := run(t, m)
				if err := m.compare(l); err != nil {
					for _, line := range m.log {
						t.Log(line)
					}
					v := l.View()
					t.Logf("question %d, step %d, phase %d, notice %+v, replayed %+v, answers:", v.Question, v.Step, v.Phase, v.Notice, v.Replayed)
					f, _ := l.File()
					t.Logf("%s", f.Marshal())
					t.Fatal(err)
				}
			})
		})
	}
}

// compare holds what was learned against what was made.
func (m *made) compare(l *learn.Learner) error {
	f, done := l.File()
	if !done {
		return fmt.Errorf("not done")
	}
	var want []radio.Control
	spare := 0
	for _, c := range m.want {
		if c.Job == "" {
			spare++
		} else {
			want = append(want, c)
		}
	}
	if n := len(l.View().Spare); n != spare {
		return fmt.Errorf("%d controls left out, not %d", n, spare)
	}
	if len(f.Controls) != len(want) {
		return fmt.Errorf("%d controls, not %d", len(f.Controls), len(want))
	}
	for i := range want {
		if err := m.compareControl(f.Controls[i], want[i]); err != nil {
			return fmt.Errorf("%s: %w", want[i].Job, err)
		}
	}
	if f.StickMode != 3 || f.Device != radio.DeviceOf(m.info) {
		return fmt.Errorf("device %+v, stick mode %d", f.Device, f.StickMode)
	}
	back, err := radio.Parse("learned.yaml", f.Marshal(), radio.Known{Info: &m.info})
	if err != nil {
		return fmt.Errorf("what was learned is no radio file: %w", err)
	}
	if a, b := string(back.Marshal()), string(f.Marshal()); a != b {
		return fmt.Errorf("read back:\n%s\nnot\n%s", a, b)
	}
	return nil
}

func (m *made) compareControl(got, want radio.Control) error {
	if want.Form == radio.Axis {
		a := m.info.Axes[want.Axis]
		spread := m.spread(want.Axis)
		near := 4*(float64(a.Max)-float64(a.Min))/1024 + 3*spread + 0.5
		off := func(name string, got, want float64) error {
			if math.Abs(got-want) > near {
				return fmt.Errorf("%s at %g, made %g, within %g", name, got, want, near)
			}
			return nil
		}
		g, w := got.Reach, want.Reach
		if g == nil {
			return fmt.Errorf("no reach")
		}
		for _, e := range []error{off("low", float64(g.Low), float64(w.Low)), off("rest", float64(g.Rest), float64(w.Rest)), off("high", float64(g.High), float64(w.High))} {
			if e != nil {
				return e
			}
		}
		if len(got.Positions) != len(want.Positions) {
			return fmt.Errorf("positions %v, made %v", got.Positions, want.Positions)
		}
		for k, p := range got.Positions {
			if err := off(fmt.Sprintf("position %d", k+1), float64(p.At)/2, float64(want.Positions[k].At)/2); err != nil {
				return err
			}
			if s := float64(p.Spread) / 10; s > 1.6*spread+0.3 { // of as few as ten readings
				return fmt.Errorf("spread %g of position %d, made %g", s, k+1, spread)
			}
		}
		noise := float64(got.Noise) / 10
		if noise > 1.25*spread+0.3 || !want.Stays && want.Positions == nil && noise < 0.75*spread-0.1 {
			return fmt.Errorf("noise %g, made %g", noise, spread)
		}
	}
	got.Reach, want.Reach, got.Positions, want.Positions, got.Noise = nil, nil, nil, nil, 0
	if got.Scale != nil && want.Scale != nil && *got.Scale == *want.Scale {
		got.Scale, want.Scale = nil, nil
	}
	if fmt.Sprintf("%+v", got) != fmt.Sprintf("%+v", want) {
		return fmt.Errorf("learned %+v, made %+v", got, want)
	}
	return nil
}
