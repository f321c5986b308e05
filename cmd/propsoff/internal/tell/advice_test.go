package tell

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// readingHand does what sentences say, word by word; it knows nothing else of the craft.
type readingHand struct {
	t      *testing.T
	p      *practice.Practice
	frame  pulse.Frame
	lowest pulse.Width    // of the throttle
	reach  *handset.Radio // nil: everywhere
	keys   Keys
	facts  *facts.Facts
	other  bool // of two ways that a sentence names it takes the second
	room   bool // it reads what a class reads of a refusal
	obeyed map[string]bool
}

func (h *readingHand) step(ms int, r ...pulse.Reading) {
	h.p.Step(r)
	for range ms {
		h.p.Step(nil)
	}
}

func (h *readingHand) tell(k pulse.Kind, v int32) { h.step(30, pulse.Reading{Kind: k, Value: v}) }

func (h *readingHand) hold(c int8, w pulse.Width) {
	h.frame[c] = w
	h.step(60, pulse.Reading{Kind: pulse.Controls, Frame: h.frame})
}

// to takes a channel to where a sentence says: "to 1700 µs or above", "below 1000 µs", "between 1300 and 1700 µs", "out of …".
func (h *readingHand) to(c int8, where string) {
	n := regexp.MustCompile(`[\d.]+`).FindAllString(where, -1)
	at := func(i int) pulse.Width {
		v, err := strconv.ParseFloat(n[i], 64)
		require.NoError(h.t, err)
		return pulse.Width(v * pulse.Eighths)
	}
	switch {
	case strings.Contains(where, "between"):
		h.hold(c, at(0)+(at(1)-at(0))/2)
	case strings.Contains(where, "below"), strings.Contains(where, "out of"):
		h.hold(c, pulse.Low)
	default:
		h.hold(c, pulse.High)
	}
}

// clear does what is said of a refusal.
func (h *readingHand) clear(x facts.Refusing) {
	if !h.room {
		h.obey(spoken(Sentence(x, h.facts)))
		return
	}
	ask := spoken(LossAsk(x, h.facts))
	for _, d := range few {
		if m := d.says.FindStringSubmatch(ask); m != nil {
			h.obeyed[d.says.String()] = true
			d.do(h, m)
			return
		}
	}
	assert.Fail(h.t, "not understood", ask)
}

func (h *readingHand) cfg() *sim.Config { return h.p.Bench().Config() }

// over changes the keyboard's arm switch.
func (h *readingHand) over() {
	c := h.cfg().Layout.Arm
	if h.frame[c] == pulse.High {
		h.hold(c, pulse.Low)
	} else {
		h.hold(c, pulse.High)
	}
}

func flip(on bool) int32 {
	if on {
		return 0
	}
	return 1
}

var (
	sentenceEnd = regexp.MustCompile(`\. |\.$`)
	clauseEnd   = regexp.MustCompile(`(?: first)?[;,:] then |[;:] | to arm$`)
	leading     = regexp.MustCompile(`^(?:(?i:to (?:dis)?arm, |first |then |and )|Or )+`) // a sentence that begins so follows on none that instructs
)

// obey does what a text says, sentence by sentence and clause by clause. A clause that instructs and is not understood fails.
func (h *readingHand) obey(text string) {
	for _, sentence := range sentenceEnd.Split(text, -1) {
		if strings.Contains(sentence, "move it off first, then on again") {
			sentence = strings.Replace(sentence, "first, then on", "first, THEN on", 1)
		}
		sentence = strings.Replace(sentence, "hold S, or press X", "hold S; or press X", 1)
		for _, clause := range clauseEnd.Split(sentence, -1) {
			clause = leading.ReplaceAllString(strings.Replace(clause, "THEN", "then", 1), "")
			alternative, is := strings.CutPrefix(clause, "or ")
			switch {
			case is && !h.other || !instructing.MatchString(clause):
				continue
			case strings.EqualFold(clause, "clear what refuses"):
				for _, x := range h.facts.Refusals() {
					h.clear(x)
				}
				continue
			}
			known := slices.IndexFunc(deeds, func(d struct {
				says *regexp.Regexp
				do   func(*readingHand, []string)
			}) bool {
				return d.says.MatchString(alternative)
			})
			if !assert.GreaterOrEqual(h.t, known, 0, "%q is not understood, of %q", clause, text) {
				return
			}
			h.obeyed[deeds[known].says.String()] = true
			deeds[known].do(h, deeds[known].says.FindStringSubmatch(alternative))
		}
	}
}

// reader makes a practice of some craft with a hand, and something in the way of arming or disarming.
func reader(t *testing.T, r *rand.Rand) *readingHand {
	chance := func(percent int) bool { return r.IntN(100) < percent }
	cfg := sim.Default()
	l := &cfg.Layout
	if chance(40) {
		cfg.Arming.By, l.Arm = facts.ArmsBySticks, layout.NoChannel
	}
	if chance(30) {
		l.Second, l.SecondSpan = 6, layout.Span{Low: pulse.Micros(1700), High: pulse.Highest}
	}
	cfg.Arming.OnlySelfLevelling = chance(40)
	if chance(30) {
		cfg.Arming.PackLimitMilliVolts = 14_000
	}
	cfg.Link.OnLoss = []link.OnLoss{link.FallsSilent, link.FallsSilent, link.RepeatsLast, link.SendsStored}[r.IntN(4)]
	cfg.Link.Needed = l.Needed()
	h := &readingHand{t: t, lowest: pulse.Low, keys: Keys{Pack: words.AsIs("P"), Radio: words.AsIs("L")}, other: chance(30), room: chance(20), obeyed: map[string]bool{}}
	for c := range h.frame {
		h.frame[c] = pulse.Low
	}
	h.frame[l.Roll], h.frame[l.Pitch], h.frame[l.Yaw] = pulse.Centre, pulse.Centre, pulse.Centre
	if cfg.Link.OnLoss == link.SendsStored {
		cfg.Link.Stored = h.frame
		if l.Arm != layout.NoChannel {
			cfg.Link.Stored[l.Arm] = pulse.High
		}
	}
	if chance(50) {
		key := words.AsIs
		h.keys = Keys{Drive: true, Arm: key("Space"), Down: key("S"), Zero: key("X"), YawLeft: key("A"), YawRight: key("D"), Pack: key("P"), Radio: key("L")}
	}
	if !h.keys.Drive && chance(30) {
		h.keys.Radio, h.keys.Pack = words.Text{}, words.Text{} // as in a terminal
	}
	h.p = practice.New(cfg)
	tell := func(k pulse.Kind, v int32) pulse.Reading { return pulse.Reading{Kind: k, Value: v} }
	if facts.BySticks(&cfg) && !h.keys.Drive && chance(30) { // yaw does not reach the disarm corner
		h.reach = &handset.Radio{StickMode: 2, Measured: true}
		for c := range int8(8) {
			h.reach.Controls = append(h.reach.Controls, handset.Control{Channel: c, Kind: handset.Knob, Low: pulse.Low, Rest: pulse.Centre, High: pulse.High})
		}
		h.reach.Controls[l.Yaw].Low = pulse.Micros(1100)
	}
	begin := []pulse.Reading{tell(pulse.Plug, 1), tell(pulse.Link, 1), tell(pulse.Power, 1)}
	if !h.keys.Drive && chance(20) && cfg.Link.OnLoss != link.SendsStored { // the bench takes what a receiver has stored for seen
		h.lowest = pulse.Micros(1012)
		h.frame[l.Throttle] = h.lowest
	}
	if chance(90) { // else nothing is read of it yet
		begin = append(begin, pulse.Reading{Kind: pulse.Controls, Frame: h.frame})
	}
	h.step(r.IntN(4000), begin...)
	if chance(50) { // armed, and perhaps flying
		h.step(2500)
		if l.Second != layout.NoChannel {
			h.hold(l.Second, pulse.High)
		}
		if l.Arm != layout.NoChannel {
			h.hold(l.Arm, pulse.High)
		} else {
			h.hold(l.Yaw, pulse.High)
			h.step(1000)
			h.hold(l.Yaw, pulse.Centre)
		}
		if chance(50) {
			h.hold(l.Throttle, pulse.Micros(1300))
		}
	}
	for range r.IntN(5) {
		switch r.IntN(13) {
		case 0:
			h.hold(l.Throttle, []pulse.Width{h.lowest, pulse.Micros(1300), pulse.Micros(1020)}[r.IntN(3)])
		case 1:
			if l.Arm != layout.NoChannel {
				h.over()
			} else if !h.keys.Drive {
				h.hold(l.Yaw, pulse.High)
				h.step(r.IntN(1500))
			}
		case 2:
			h.hold(l.Mode, pulse.High)
		case 3:
			h.tell(pulse.Link, 0)
			h.step(r.IntN(2000))
		case 4:
			if !h.keys.Drive {
				h.tell(pulse.Plug, 0)
			}
		case 5:
			h.tell(pulse.Power, int32(r.IntN(2)))
		case 6:
			h.tell(pulse.Cable, 1)
		case 7:
			h.tell(pulse.Tilt, 450)
		case 8:
			h.tell(pulse.Menu, int32(1+r.IntN(2)))
		case 9:
			h.tell(pulse.Pack, 12_000)
		case 10:
			h.tell(pulse.Air, 1)
		case 11:
			if c := []int8{l.Mode, l.Arm, l.Second}[r.IntN(3)]; !h.keys.Drive && c != layout.NoChannel {
				h.hold(c, pulse.Missing)
			}
		case 12:
			if v, ok := fault.Plant(fault.RadioOff, 0, 0); ok {
				h.tell(pulse.Instructor, v)
			}
		}
	}
	return h
}

// Somebody who reads what there is to do and does it, word by word and no more, arms a disarmed craft and disarms an armed one, whatever
// stood in the way; so by radio and by keyboard, with every receiver.
func TestWhoDoesWhatIsSaidArmsAndDisarms(t *testing.T) {
	met, obeyed := map[facts.Next]int{}, map[string]bool{}
	var tell facts.Teller
	for seed := range uint64(3000) {
		h := reader(t, rand.New(rand.NewPCG(seed, 12)))
		whose := facts.Whose{Hand: facts.Radio, Reach: h.reach}
		if h.keys.Drive {
			whose.Hand = facts.Keyboard
		}
		was, said := h.p.Bench().Armed(), []string{}
		for h.p.Bench().Armed() == was {
			f := tell.Of(h.p, whose)
			n := f.Next()
			met[n]++
			text := spoken(Next(&f, h.keys))
			said = append(said, text)
			for _, x := range f.Refusals() {
				said = append(said, "  "+spoken(Sentence(x, &f)))
			}
			if n == facts.NextCannotArm {
				break
			}
			if h.facts = &f; n == facts.NextDisarmItself { // nothing is to be done
				h.step(int(f.Disarm[facts.ByItself].Ms) + 100)
			} else if x, none := f.Of(facts.NoLink); h.room && n == facts.NextRadio && none && x.Cure.OK && f.Arm.Deed[0].Do != facts.Move && f.Arm.Deed[0].Do != facts.LeaveCorner {
				h.clear(x)
			} else {
				h.obey(text)
				if f.N > 0 && !strings.Contains(text, "lear what refuses") {
					h.step(100)
				}
			}
			require.Less(t, len(said), 120, "seed %d\n%s", seed, strings.Join(said, "\n"))
			if t.Failed() {
				t.Fatalf("seed %d\n%s", seed, strings.Join(said, "\n"))
			}
		}
		for d := range h.obeyed {
			obeyed[d] = true
		}
	}
	t.Logf("%v", met)
	for n := facts.NextPack; n < facts.NextCount; n++ {
		assert.NotZero(t, met[n], "code %d was never met", n)
	}
	for _, d := range append(slices.Clone(deeds), few...) {
		assert.True(t, obeyed[d.says.String()], "nobody was told to %s", d.says)
	}
}
