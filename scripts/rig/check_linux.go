package main

import (
	"fmt"
	"math"
	"strings"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/hand"
)

// checkLimit is how long a controls check may take on an emulated machine that runs several at once.
const checkLimit = 90 * time.Second

// A checking is one controls check: a learned radio, what became of it since, and what must be found.
type checking struct {
	name string
	made fakeradio.Made
	// since is what happened to the radio after it was learned; nil for nothing.
	since func(*fakeradio.Made)
	// found are the items that must not pass, as "control item" with the verdict; everything else must pass.
	found map[string]string
}

// checkings: the healthy radios pass whole; each other one is found out, and nothing else of it is called out. The limits are
// the program's own: a centre fails beyond 20 µs, throttle must go below 1000 µs, the corner tells a direction; those of noise
// stand below.
func checkings() []checking {
	twinA, twinB := fakeradio.Twins()
	return []checking{
		{name: "dunlin", made: fakeradio.Whole()},
		{name: "knot", made: fakeradio.Turned()},
		{name: "sanderling", made: fakeradio.Keyed()},
		{name: "redshank", made: fakeradio.Leaning(), found: map[string]string{"roll centre": verdictFails}},
		{name: "turnstone", made: fakeradio.Short(), found: map[string]string{"throttle low-end": verdictFails}},
		{name: "whimbrel", made: fakeradio.Restless(), found: noisy(fakeradio.Restless())},
		{name: "turned", made: twinA, since: turnPitch, found: map[string]string{"pitch direction": verdictFails}},
		{name: "worn", made: twinB, since: wear, found: noisy(worn(twinB))},
	}
}

// turnPitch is what a wrong reversal set in a radio does.
func turnPitch(m *fakeradio.Made) {
	for i, c := range m.Controls {
		if c.Job == "pitch" {
			m.Controls[i].Low, m.Controls[i].High = c.High, c.Low
		}
	}
}

// wear lets every axis tremble by 6.5 µs.
func wear(m *fakeradio.Made) { m.Noise = 26 }

func worn(m fakeradio.Made) fakeradio.Made {
	wear(&m)
	return m
}

// Limits of noise in µs, standard deviations: the program warns beyond the first and fails beyond the second.
const noisePasses, noiseWarns = 2.0, 5.0

// noisy gives the controls whose noise must be called out: what the kernel's filter leaves of it where the control rests. At
// the end of an axis it can tremble to one side only, so less of it is left there.
func noisy(m fakeradio.Made) map[string]string {
	out := map[string]string{}
	for _, c := range m.Controls {
		switch us := noiseOf(&m, c); {
		case us > noiseWarns:
			out[c.Job+" noise"] = verdictFails
		case us > noisePasses:
			out[c.Job+" noise"] = verdictWarns
		}
	}
	return out
}

// noiseOf is the noise of a control as the program can see it, in µs.
func noiseOf(m *fakeradio.Made, c fakeradio.Control) float64 {
	rule, _ := madeAxis(m, c)
	return filteredNoise(m, c, standsAt(c)[0]) * 1024 / float64(rule.Max-rule.Min)
}

// checksAtOnce is how many checks an emulated machine carries without holding one up.
const checksAtOnce = 4

func checkScenarios() (out []scenario) {
	for i, k := range checkings() {
		at := fmt.Sprint("check ", i/checksAtOnce)
		out = append(out, scenario{name: "check-" + k.name, needs: needsPropsoff, run: k.run, at: at})
	}
	return out
}

// run takes every control to both ends and back as it is asked for, and holds the verdicts against what was made.
func (k checking) run(f *figures) (err error) {
	m := k.made
	args := []string{"check", "--json", "--craft", craftBuiltIn}
	if _, ok := learned.Load(m.Serial); ok {
		f.add("by", "the learned file")
	} else {
		path, err := tempFile("radio.yaml", madeFile(&m, jobsOf(&m)))
		if err != nil {
			return err
		}
		args = append(args, "--radio", path)
		f.add("by", "a file that was written")
	}
	if k.since != nil {
		m = m.Twin(m.Serial, m.Port) // its own list of controls
		k.since(&m)
	}
	r, err := pickUp(m, seedOf(k.name))
	if err != nil {
		return err
	}
	defer closing(&err, r.away)
	args = append(args, "--device", r.event)
	for try := 1; ; try++ {
		var found figures
		wrong, held, err := k.once(args, r, &found)
		if err != nil {
			return err
		}
		if held && try < tries {
			continue
		}
		*f = append(*f, found...)
		if try > 1 {
			f.add("tries, because the guest was held up", try)
		}
		if len(wrong) > 0 {
			return fmt.Errorf("%s", strings.Join(wrong, "\n"))
		}
		return nil
	}
}

// A guest that is held up sends late and reads late, and the check says so, as it must: such a run is no proof of anything
// and is made again. heldUp is how long a gap between two of the rig's own reports is no radio's.
const (
	tries  = 3
	heldUp = 3 * reportEvery
)

// once makes the check once. held tells that all that is wrong may be the guest's doing, and that it was held up.
func (k checking) once(args []string, r *live, f *figures) (wrong []string, held bool, err error) {
	how := started{env: []string{"XDG_CONFIG_HOME=" + configHome}}
	c, err := start(how, "/"+propsoffPath, args...)
	if err != nil {
		return nil, false, err
	}
	s := &stream[checkLine]{child: c}
	defer closing(&err, s.stop)
	r.longest()
	end, err := moveAsAsked(s, r)
	if err != nil {
		return nil, false, err
	}
	gap := r.longest()
	f.add("longest gap", ms(gap))
	values := measured(&r.made, end, f)
	verdicts, guests := k.judge(end, gap, f)
	wrong = append(values, verdicts...)
	if len(wrong) == 0 {
		wrong = k.status(s.child)
	}
	return wrong, guests > 0 && guests == len(wrong), nil
}

// status holds the program's exit status against what was found: 0 nothing fails, 1 something does.
func (k checking) status(c *child) []string {
	want := 0
	for _, v := range k.found {
		if v == verdictFails {
			want = 1
		}
	}
	select {
	case <-c.done:
		if got := c.cmd.ProcessState.ExitCode(); got != want {
			return []string{fmt.Sprintf("exit status %d, expected %d: %s", got, want, c.said())}
		}
		return nil
	case <-time.After(5 * time.Second):
		return []string{"the program does not end"}
	}
}

// judge holds the verdicts against what was made; the figures of what was found go into f. guests of what is wrong may come
// from a guest that was held up for gap: a stop in a movement, the leap after it, reports too few, readings lost.
func (k checking) judge(end checkLine, gap time.Duration, f *figures) (wrong []string, guests int) {
	if !end.Whole {
		wrong = append(wrong, "the check ended before everything was seen: "+end.Text)
	}
	seen := map[string]bool{}
	for _, it := range end.Items {
		key := strings.TrimSpace(it.Control + " " + it.Item)
		want, found := k.found[key]
		if !found {
			want = verdictPasses
		}
		if found {
			f.add(key, fmt.Sprintf("%s at %s", it.Verdict, it.Value))
		}
		if it.Verdict != want {
			wrong = append(wrong, fmt.Sprintf("%v; it must say %s", it, want))
			late := it.Item == "jumps" || it.Item == "dead-zone" || it.Item == "report-rate"
			if it.Item == "lost-readings" || late && gap > heldUp {
				guests++
			}
		}
		seen[key] = true
	}
	for key := range k.found {
		if !seen[key] {
			wrong = append(wrong, "nothing is said of "+key)
		}
	}
	for _, c := range k.made.Controls {
		key := c.Job + " jumps" // said of every control
		if !seen[key] {
			wrong = append(wrong, "nothing is said of "+key)
		}
	}
	f.add("items", len(end.Items))
	return wrong, guests
}

// measured holds the values of ends, centres and noise against what was made.
func measured(m *fakeradio.Made, end checkLine, f *figures) (wrong []string) {
	worst := 0.0
	for _, it := range end.Items {
		c, ok := m.Control(it.Control)
		want, limit, is := madeValue(m, c, it.Item)
		if !ok || !is {
			continue
		}
		got, err := it.Value.Float64()
		off := math.Abs(got - want)
		if it.Item != "noise" {
			worst = max(worst, off)
		}
		if err != nil || !(off <= limit) {
			wrong = append(wrong, fmt.Sprintf("%v; it was made %.2f, and %.2f more or less may be", it, want, limit))
		}
	}
	f.add("worst value", fmt.Sprintf("%.2f µs", worst))
	return wrong
}

// madeValue is what an item must measure in µs, and within which limit; is is false for an item that is no width.
func madeValue(m *fakeradio.Made, c fakeradio.Control, item string) (us, limit float64, is bool) {
	if c.Axis == fakeradio.Nothing {
		return 0, 0, false
	}
	lo, hi := m.Layout.AxisRange(c.Axis)
	limit = learnedMicros + learnedDeviations*m.Noise*1024/float64(hi-lo)
	if c.Backwards() {
		lo, hi = hi, lo
	}
	switch item {
	case "low-end":
		return micros(c.Low, lo, hi), limit, true
	case "high-end":
		return micros(c.High, lo, hi), limit, true
	case "centre":
		return micros(c.Rest, lo, hi) - 1500, limit, true
	case "noise":
		want := noiseOf(m, c)
		return max(want, noiseMicros), noiseShare*want + noiseMicros, true
	}
	return 0, 0, false
}

// moveAsAsked does what the check asks for until it ends, and gives its last line.
func moveAsAsked(s *stream[checkLine], r *live) (checkLine, error) {
	var now, done checkLine
	read, times, corner := 0, 0, false
	free, limit := time.Now(), time.Now().Add(checkLimit) // what follows from a movement is said a moment later
	for {
		gone := s.ended()
		if _, err := s.take(); err != nil {
			return now, err
		}
		for ; read < len(s.seen); read++ {
			switch l := s.seen[read]; l.Code {
			case codeAsks:
				now = l
			case codeFinished:
				return l, nil
			}
		}
		switch {
		case gone:
			return now, fmt.Errorf("the program ended (%v) while it asked for %s %s: %s", s.err, now.Asks, now.Control, s.said())
		case time.Now().After(limit):
			return now, fmt.Errorf("after %v it still asks for %s %s, after %d times: %s", checkLimit, now.Asks, now.Control, times, now.Text)
		case !r.idle():
			free = time.Now().Add(150 * time.Millisecond)
			fallthrough
		case time.Now().Before(free):
			time.Sleep(lookEvery)
			continue
		}
		same := now.Asks == done.Asks && now.Control == done.Control
		if times++; !same {
			times = 1
		}
		done = now
		moves := movesFor(&r.made, now, times)
		if corner && now.Asks != asksCorner {
			moves, corner = append(hand.OutOfCorner(), moves...), false
		}
		corner = corner || now.Asks == asksCorner
		if err := r.move(moves...); err != nil {
			return now, err
		}
		free = time.Now().Add(150 * time.Millisecond)
	}
}

// movesFor is what a person does about what is asked; times counts how often it was done already, this one included.
func movesFor(m *fakeradio.Made, asked checkLine, times int) []hand.Move {
	switch asked.Asks {
	case asksCorner:
		if times == 1 {
			return hand.Corner()
		}
	case asksMove:
		c, _ := m.Control(asked.Control)
		again := hand.Again(c)
		if c.Springs { // through the middle twice
			again = append(hand.Again(c)[:2], again...)
		}
		return again
	case asksQuickly:
		var out []hand.Move
		for range 3 {
			out = append(out, hand.Move{Job: "roll", To: hand.High, Over: 120 * time.Millisecond}, hand.Move{Job: "roll", To: hand.Low, Over: 120 * time.Millisecond})
		}
		return append(out, hand.Gone("roll"))
	}
	return nil
}
