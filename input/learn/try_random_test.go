package learn_test

import (
	"slices"
	"testing"

	"propsoff.example/input/learn"
	"propsoff.example/input/radio"

	"pgregory.net/rapid"
)

// given is what somebody else learned of the made radio.
func (m *made) given() radio.File {
	f := radio.File{Device: radio.DeviceOf(m.info), StickMode: 2, Given: true}
	for _, c := range m.want {
		if c.Job != "" {
			f.Controls = append(f.Controls, c)
		}
	}
	return f
}

// shows has the hand do what a try asks for.
func (m *made) shows(t *rapid.T) {
	m.wait(draw(t, "first wait", 600, 1500) * ms)
	m.corner(t)
	m.wait(600 * ms)
	for _, i := range []int{0, 1, 2, 3} {
		p := m.parts[i]
		m.say("try: %s", p.job)
		m.bring(p, 2)
		m.wait(draw(t, "hold", 350, 1500) * ms)
		m.bring(p, p.rest)
		m.wait(draw(t, "pause", 1100, 1500) * ms)
	}
	for _, p := range m.parts[4:] {
		if p == nil || p.job == "" {
			continue
		}
		m.say("try: %s", p.job)
		m.through(p, draw(t, "stay", 350, 1200)*ms)
		m.wait(draw(t, "pause", 500, 900) * ms)
	}
	m.wait(1000 * ms)
	m.Until(m.now + 100*ms)
}

// tried runs a try, and gives what was said in it.
func (m *made) tried(t *rapid.T, f *radio.File) (l *learn.Learner, noticed []learn.Notice) {
	l = learn.Try(m.info, *f)
	tick := draw(t, "tick", 5, 50) * ms
	see := func() {
		if n := l.View().Notice; n.Code > learn.Mixed && !slices.Contains(noticed, n) {
			noticed = append(noticed, n)
		}
	}
	next := int64(0)
	for _, raw := range m.States(0) {
		for ; next < raw.At; next += tick {
			l.Tick(next)
			see()
		}
		l.Feed(raw)
	}
	for ; next < m.now+3000*ms; next += tick {
		l.Tick(next)
		see()
	}
	return l, noticed
}

// Whatever radio is made up: what was made of it is found right, and nothing is called out.
func TestATryFindsWhatWasMadeRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := invent(t, false)
		f := m.given()
		m.shows(t)
		l, noticed := m.tried(t, &f)
		got, done := l.File()
		if !done || got.Given || len(noticed) > 0 {
			for _, line := range m.log {
				t.Log(line)
			}
			v := l.View()
			t.Logf("%s", f.Marshal())
			t.Fatalf("question %d of %q, step %d, phase %d; noticed %+v", v.Question, v.Job, v.Step, v.Phase, noticed)
		}
	})
}

// Whatever two controls of the file are exchanged: it is said, and the hand that does as it is asked does not get to the end.
func TestATryFindsTwoThatAreExchanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := invent(t, false)
		f := m.given()
		n := len(f.Controls)
		i := rapid.IntRange(0, n-1).Draw(t, "one")
		j := (i + rapid.IntRange(1, n-1).Draw(t, "other")) % n
		a, b := f.Controls[i], f.Controls[j]
		if i < 4 != (j < 4) { // a switch in a stick's place is no radio file that anything writes
			t.Skip("of two kinds")
		}
		a.Job, b.Job = b.Job, a.Job
		f.Controls[i], f.Controls[j] = b, a
		m.shows(t)
		l, noticed := m.tried(t, &f)
		if _, done := l.File(); done || len(noticed) == 0 {
			for _, line := range m.log {
				t.Log(line)
			}
			t.Logf("%s", f.Marshal())
			t.Fatalf("done %v; noticed %+v", done, noticed)
		}
	})
}
