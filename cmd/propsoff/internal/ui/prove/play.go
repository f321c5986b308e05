package prove

import (
	"propsoff.example/cmd/propsoff/internal/wayplay"
	"propsoff.example/sim"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// phase is how far a step is that is being played.
type phase uint8

const (
	comes phase = iota // it is shown what comes
	goes               // it is done
	came               // it is said what the craft did
	over               // the way has ended
)

// How long each takes, in µs (ours).
const (
	startTime = 2_500_000 // how everything stands at the beginning is read
	moveTime  = 1_800_000 // where a hand must go is read
	waitTime  = 900_000   // that time will pass is
	thenTime  = 1_800_000 // what the craft did is
	goesLeast = 900_000   // the bench's time in a step, slowed down to this at the least and hurried to goesMost
	goesMost  = 3_000_000
	lastPace  = 4 // by how many times slower the last step goes: it is the one that bites
)

// play is a way that is played on a practice of its own. It reads no clock: it goes on by the time that it is given.
type play struct {
	way *prove.Way
	p   *wayplay.Play
	cfg *sim.Config
	// at is the step that is being played, phase how far it is; left and takes are the time of that, what is left and all, in µs.
	at          int
	phase       phase
	left, takes int64
	from        int64 // the tick at which the step began
	// led: a hand leads, where a step is a hand's. stands tells whether it stands as a step wants it.
	led    bool
	stands func(step int) bool
}

// newPlay begins to play a way of a craft.
func newPlay(cfg *sim.Config, way *prove.Way) *play {
	p := &play{cfg: cfg, way: way}
	p.seek(0)
	return p
}

// seek goes to what comes before a step, on a bench that has gone through all before it.
func (p *play) seek(step int) {
	p.p, p.at = wayplay.New(*p.cfg, p.way, p.tick(len(p.way.Steps))), step
	p.p.To(p.tick(step))
	p.enter(comes)
}

// tick is the one in which a step begins; of the last but one more than the way's end.
func (p *play) tick(step int) int64 {
	switch {
	case step >= len(p.way.Steps):
		return p.way.Final + 1
	case step <= 0:
		return 0
	}
	return p.way.Steps[step].At - p.way.Steps[0].At
}

// enter begins a phase.
func (p *play) enter(ph phase) {
	p.phase, p.from = ph, p.p.Ms()
	switch st := &p.way.Steps[min(p.at, len(p.way.Steps)-1)]; {
	case ph == over:
		p.takes = 0
	case ph == came && (st.Then == 0 || p.last()):
		p.takes = 0
	case ph == came:
		p.takes = thenTime
	case ph == goes:
		p.takes = min(max((p.tick(p.at+1)-p.from)*1000, goesLeast), goesMost)
		if p.last() {
			p.takes *= lastPace
		}
	case p.at == 0:
		p.takes = startTime
	case st.Kind == prove.Wait || st.Kind == prove.Tremble:
		p.takes = waitTime
	default:
		p.takes = moveTime
	}
	p.left = p.takes
}

// last tells whether the step is the one that bites.
func (p *play) last() bool { return p.at == len(p.way.Steps)-1 }

// byHand tells whether a hand of the radio makes the step: it moves a control, or lets one go, or everything is to stand as at the beginning.
func (p *play) byHand() bool {
	st := &p.way.Steps[min(p.at, len(p.way.Steps)-1)]
	return p.at == 0 || (st.Kind == prove.Move || st.Kind == prove.LetGo) && st.Control >= 0
}

// waits tells whether it waits for a hand.
func (p *play) waits() bool { return p.led && p.phase == comes && p.byHand() && !p.stands(p.at) }

// on goes on by so many µs.
func (p *play) on(us int64) {
	for us > 0 && p.phase != over && !p.waits() {
		if p.led && p.phase == comes && p.byHand() { // the hand is there
			p.end()
			continue
		}
		passed := min(us, p.left)
		us, p.left = us-passed, p.left-passed
		if p.phase == goes {
			p.p.To(p.from + (p.tick(p.at+1)-p.from)*(p.takes-p.left)/max(p.takes, 1))
		}
		if p.left == 0 {
			p.end()
		}
	}
}

// end ends a phase, whatever is left of it.
func (p *play) end() {
	switch p.phase {
	case comes:
		p.enter(goes)
	case goes:
		p.p.To(p.tick(p.at + 1))
		p.enter(came)
		if p.takes == 0 {
			p.end()
		}
	case came:
		if p.last() {
			p.enter(over)
			return
		}
		p.at++
		p.enter(comes)
	}
}

// back goes back a step.
func (p *play) back() { p.seek(max(p.at-1, 0)) }

// share is how much of a phase has gone, 0 … 1.
func (p *play) share() float64 {
	if p.takes == 0 || p.waits() {
		return 0
	}
	return float64(p.takes-p.left) / float64(p.takes)
}

// snapshot is how the craft stands. Before it was stepped, nothing is on.
func (p *play) snapshot() (s sim.Snapshot) {
	p.p.Snapshot(&s)
	return s
}

// wants is what the radio sends once the step is made.
func (p *play) wants() pulse.Frame { return sentBy(p.way, p.tick(p.at)) }

// sentBy is what the radio of a way sends in a tick.
func sentBy(w *prove.Way, tick int64) (f pulse.Frame) {
	for i := range w.Readings {
		if r := &w.Readings[i]; r.Kind == pulse.Controls && r.At <= tick*1000 {
			f = r.Frame
		}
	}
	return f
}
