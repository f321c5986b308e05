package main

import (
	"fmt"
	"os"
	"strings"
	"sync"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/hand"
)

// learnLimit is how long a learning may take; an emulated machine that runs eight at once is slow.
const learnLimit = 110 * time.Second

// calm is how long no line may come before the pilot acts: the lines of one change are read together.
const calm = 25 * time.Millisecond

// pulledFor is how long the plug is out in the middle of a learning.
const pulledFor = 700 * time.Millisecond

// configHome is the user's configuration folder of all learnings and of what comes after them.
const configHome = "/tmp/rig-config"

// learned are the paths of the files that were learned and right, by the radio's serial number.
var learned sync.Map

// learner is a running `propsoff learn --json` with what it asks for now.
type learner struct {
	*stream[learnLine]
	jobs string // of all controls, with commas
	now  hand.Asked
	read int // lines taken in
	kept string
	gone int // times that it said unplugged
	open int // times that it said which radio is open
}

// learning starts `propsoff learn` on one radio.
func learning(m *fakeradio.Made, device string) (*learner, error) {
	how := started{typed: true, env: []string{"XDG_CONFIG_HOME=" + configHome}}
	c, err := start(how, "/"+propsoffPath, "learn", "--json", "--device", device, "--craft", craftBuiltIn)
	if err != nil {
		return nil, err
	}
	return &learner{stream: &stream[learnLine]{child: c}, jobs: strings.Join(jobsOf(m), ",")}, nil
}

// listen takes in what was said; fresh tells that there was something.
func (l *learner) listen(p *hand.Pilot) (fresh bool, err error) {
	if _, err := l.take(); err != nil {
		return false, err
	}
	for ; l.read < len(l.seen); l.read++ {
		fresh = true
		switch s := l.seen[l.read]; s.Code {
		case codeQuestion:
			l.now.Question, l.now.Step, l.now.Job, l.now.Notice = s.Question, s.Step, s.Job, ""
			l.now.Left = ""
			if s.Question == hand.AskReplay {
				l.now.Left = l.jobs
			}
		case codePhase:
			l.now.Phase = s.Phase
		case codeNoticed:
			l.now.Notice = s.Notice
			if s.Notice == hand.SaysTurned {
				l.now.Job = s.Job
			}
		case codeReplayed:
			l.now.Left = strings.Join(s.Left, ",")
		case codeUnplugged:
			l.gone++
		case codeRadio:
			l.open++
		case codeKept:
			l.kept = s.Path
		}
		p.Hears(l.now)
	}
	return fresh, nil
}

// learnRadio learns one radio by a pilot and holds the file against what was made.
func learnRadio(habit hand.Habit, byPath bool) func(*figures) error {
	return func(f *figures) (err error) {
		m := habit.Made
		r, err := pickUp(m, seedOf(m.Serial))
		if err != nil {
			return err
		}
		defer closing(&err, r.away)
		device := m.Name
		if byPath {
			device = r.event
		}
		l, err := learning(&m, device)
		if err != nil {
			return err
		}
		defer closing(&err, l.stop)
		p := habit.Pilot()
		if err := l.answered(r, p, habit.Pulled); err != nil {
			return err
		}
		if left := p.Slips(); len(left) > 0 {
			return fmt.Errorf("the pilot did not come to his slips: %v", left)
		}
		f.add("noticed", strings.Join(p.Said, " "))
		// The last lines come a moment after the question that they answer: nobody who reads a radio waits for an output.
		if err := l.until(p, "where it kept the file", func() bool { return l.kept != "" }); err != nil {
			return err
		}
		if err := l.held(habit, f); err != nil {
			return err
		}
		learned.Store(m.Serial, l.kept)
		return readsAsLearned(r, device, f)
	}
}

// seedOf makes a seed of a text: the noise of a radio is the same in every run.
func seedOf(text string) (seed uint64) {
	for _, b := range []byte(text) {
		seed = seed*31 + uint64(b)
	}
	return seed
}

// answered lets the pilot answer until nothing is asked any more.
func (l *learner) answered(r *live, p *hand.Pilot, pulled [2]string) error {
	end := time.Now().Add(learnLimit)
	heard := time.Now()
	for l.now.Question != hand.AskNothing || !l.ended() {
		fresh, err := l.listen(p)
		if err != nil {
			return err
		}
		now := time.Now()
		switch {
		case fresh:
			heard = now
		case l.ended():
			if fresh, err := l.listen(p); fresh || err != nil || l.now.Question == hand.AskNothing {
				continue
			}
			return fmt.Errorf("the program ended (%v) while it asked %+v: %s", l.err, l.now, l.said())
		case now.After(end):
			return fmt.Errorf("not learned after %v; it asks %+v, the pilot waits to make %v%s", learnLimit, l.now, p.Slips(), l.tail())
		}
		if now.Sub(heard) < calm || !r.idle() {
			time.Sleep(lookEvery)
			continue
		}
		if pulled != [2]string{} && l.now.Job == pulled[0] && l.now.Step == pulled[1] && l.now.Phase == hand.PhaseMoving {
			if err := l.pulledAndBack(r, p, pulled[0]); err != nil {
				return err
			}
			pulled = [2]string{}
			heard = time.Now()
			continue
		}
		moves, word := p.Does(l.now)
		if word != "" {
			if err := l.write(word); err != nil {
				return fmt.Errorf("typing %q: %w", word, err)
			}
			heard = now
		}
		if err := r.move(moves...); err != nil {
			return err
		}
	}
	if pulled != [2]string{} {
		return fmt.Errorf("the plug was never pulled out: %v was not asked for", pulled)
	}
	return l.wait(5 * time.Second)
}

// pulledAndBack takes the plug out while a stick is away, lets the stick go, and puts the plug back: the program must say
// so, wait, and go on with the same job.
func (l *learner) pulledAndBack(r *live, p *hand.Pilot, job string) error {
	before := l.open
	if err := r.pullOut(); err != nil {
		return err
	}
	if err := l.until(p, "that the radio is unplugged", func() bool { return l.gone > 0 }); err != nil {
		return err
	}
	if err := r.moved(hand.Gone(job)); err != nil {
		return err
	}
	time.Sleep(pulledFor)
	if l.ended() {
		return fmt.Errorf("the program ended (%v) when the radio went: %s", l.err, l.said())
	}
	if err := r.plugIn(); err != nil {
		return err
	}
	if err := l.until(p, "that the radio is back", func() bool { return l.open > before && l.now.Job == job }); err != nil {
		return err
	}
	p.Anew()
	return nil
}

// until listens until something holds.
func (l *learner) until(p *hand.Pilot, what string, holds func() bool) error {
	end := time.Now().Add(firstLine)
	for !holds() {
		if _, err := l.listen(p); err != nil {
			return err
		}
		if time.Now().After(end) {
			return fmt.Errorf("the program does not say %s%s", what, l.tail())
		}
		time.Sleep(lookEvery)
	}
	return nil
}

// tail is the end of what was said, for a failure.
func (l *learner) tail() (text string) {
	for _, s := range l.seen[max(0, len(l.seen)-16):] {
		text += fmt.Sprintf("\n%+v", s)
	}
	return text
}

// held holds the file that was kept against what the radio was made as.
func (l *learner) held(habit hand.Habit, f *figures) error {
	if !strings.HasPrefix(l.kept, configHome+"/") {
		return fmt.Errorf("the file is kept at %s, the user's folder is %s", l.kept, configHome)
	}
	text, err := os.ReadFile(l.kept)
	if err != nil {
		return err
	}
	file, err := readLearned(text)
	if err != nil {
		return fmt.Errorf("%w in\n%s", err, text)
	}
	v := compare(&file, &habit.Made, jobsOf(&habit.Made))
	if len(v.wrong) > 0 {
		return fmt.Errorf("%s\n%s", strings.Join(v.wrong, "\n"), text)
	}
	f.add("controls", len(file.Controls))
	f.add("worst", fmt.Sprintf("%.2f µs", v.worst))
	if len(v.noise) > 0 {
		f.add("noise", strings.Join(v.noise, " "))
	}
	if habit.Pulled != [2]string{} {
		f.add("went on after the plug was out at", habit.Pulled[0])
	}
	return nil
}

// slammed is how far a channel may read from what was sent at once, in µs: its rounding.
const slammed = 0.2

// sticks are the jobs of channels 1 to 4 of the built-in craft.
var sticks = []string{"throttle", "roll", "pitch", "yaw"}

// poses tell the four directions apart: at rest, each somewhere else, and all at their high ends. Nothing is moved slowly to
// its place in the first two, so that the kernel's filter has nothing to lag behind: what is read is what was sent.
var poses = []struct {
	name  string
	moves []hand.Move
	limit float64 // µs, beside the noise
}{
	{"at rest", append(slam(hand.LetGo, hand.LetGo, hand.LetGo), hand.Move{Job: "throttle", To: hand.High, Over: hand.Way}, hand.Move{Job: "throttle"}), slammed},
	{"apart", slam(hand.High, hand.Low, hand.LetGo), slammed},
	{"in the corner", hand.Corner(), learnedMicros},
}

// slam brings roll, pitch and yaw somewhere at once, from the other side of it.
func slam(roll, pitch, yaw hand.Target) (out []hand.Move) {
	for i, to := range []hand.Target{roll, pitch, yaw} {
		from := hand.High
		if to == hand.High {
			from = hand.Low
		}
		out = append(out, hand.Move{Job: sticks[i+1], To: from, Over: hand.Way}, hand.Move{Job: sticks[i+1], To: to, Hold: 50 * time.Millisecond})
	}
	return out
}

// readsAsLearned starts `propsoff watch` without naming a file: it must find the learned one, and channels 1 to 4 must read
// what the sticks were made to send in every pose.
func readsAsLearned(r *live, device string, f *figures) (err error) {
	w, err := watchLearned(device)
	if err != nil {
		return err
	}
	defer closing(&err, w.stop)
	for i, pose := range poses {
		if err := r.moved(pose.moves...); err != nil {
			return err
		}
		at, err := r.reads(w, pose.name, pose.limit)
		if err != nil {
			return err
		}
		if i == 0 {
			f.add("throttle reads", fmt.Sprintf("%.1f µs", w.seen[at].channel(0)))
		}
	}
	return r.moved(hand.OutOfCorner()...)
}

// watchLearned starts `propsoff watch` with what was learned.
func watchLearned(device string) (*stream[line], error) {
	how := started{env: []string{"XDG_CONFIG_HOME=" + configHome}}
	c, err := start(how, "/"+propsoffPath, "watch", "--json", "--device", device, "--craft", craftBuiltIn)
	if err != nil {
		return nil, err
	}
	return &stream[line]{child: c}, nil
}

// reads waits until channels 1 to 4 read what the sticks stand at.
func (r *live) reads(w *stream[line], pose string, limit float64) (int, error) {
	at := r.standing()
	var want, off [4]float64
	for i, job := range sticks {
		c, _ := r.made.Control(job)
		lo, hi := r.made.Layout.AxisRange(c.Axis)
		off[i] = limit + learnedDeviations*r.made.Noise*1024/float64(hi-lo)
		if c.Backwards() {
			lo, hi = hi, lo
		}
		want[i] = micros(at[c.Axis], lo, hi)
	}
	return w.await(firstLine, max(0, len(w.seen)-1), fmt.Sprintf("throttle, roll, pitch, yaw %s at %.1f", pose, want), func(l line) bool {
		for i := range want {
			if d := l.channel(i) - want[i]; l.Code != codeValues || !(d <= off[i] && d >= -off[i]) {
				return false
			}
		}
		return true
	})
}

// learnScenarios are the learnings of the whole fleet, at once. Twins have one name, so each is named by its path.
func learnScenarios() (out []scenario) {
	count := map[string]int{}
	for _, h := range hand.Habits() {
		count[h.Made.Name]++
	}
	for _, h := range hand.Habits() {
		name := "learn-" + short(h.Made.Name)
		if count[h.Made.Name] > 1 {
			name += "-" + h.Made.Serial[len(h.Made.Serial)-1:]
		}
		out = append(out, scenario{name: name, needs: needsPropsoff, run: learnRadio(h, count[h.Made.Name] > 1), at: "learn"})
	}
	return out
}

// short is the first word of a radio's name, small.
func short(name string) string { return strings.ToLower(strings.Fields(name)[0]) }
