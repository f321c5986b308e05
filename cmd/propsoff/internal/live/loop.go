// Package live keeps a practice abreast of real time.
//
// It has the only clock and the only goroutines of a practice. Sources are polled, their readings merged by time and given
// to the tick that they belong to; what came of it is published for screens and reports, which look on and decide nothing. Crafts that
// are to be compared with the pilot's own go along as companions: they are stepped with the same inputs, and looked at in the same way.
//
// Tick t stands for the time t ms after the start (but see Pace). A reading is consumed at the first tick that is not before it and has
// not run yet. When a reading comes in between two ticks, the later of the two runs at once, up to 1 ms early, so that
// what hands do is seen without waiting; with nothing coming in, several ticks run together a little late. Neither changes
// what happens: a take notes the tick that consumed each reading, and a replay goes the same way.
package live

import (
	"context"
	"errors"
	"math"
	"sync"
	"time"

	"propsoff.example/input"
	"propsoff.example/sim"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

const (
	// idleWait is how long the loop sleeps while nothing comes in (ours): long enough to cost next to nothing, short beside
	// a picture on the screen and a slot of the receiver.
	idleWait = 4 * time.Millisecond
	// sleepLimit is the gap in µs beyond which the loop did not run: sleep or a clock jump.
	sleepLimit = 2_000_000
	minute     = 60_000 // ticks
	// digestEvery is how often the running digest goes into a take, in ticks.
	digestEvery = 1000
	// mostSources is the most sources that play at once, besides the desk.
	mostSources = 4
)

// errTooMany is a fault of the caller, of which no person is told.
var errTooMany = errors.New("live: sources")

// Player is a source and the time at which it counts 0 µs.
type Player struct {
	Source input.Source
	// Opened is on the loop's clock, in µs: for a radio the time from which its stamps are counted. 0 means the moment at
	// which the loop takes the source over.
	Opened int64
	// By says whose hands it is.
	By input.By
}

// Options of a loop. Craft and Clock are needed.
type Options struct {
	Craft sim.Config
	Clock Clock
	// Tick and Stands are where the practice begins if not at 0 with nothing (Start); Note says what it is about.
	Tick   int64
	Stands []pulse.Reading
	Note   string
	// Begin are readings for the first tick, before those of any source.
	Begin []pulse.Reading
	// Take, where given, gets everything that a replay needs; Begun says that it has its first part already. The loop closes it.
	Take  Recorder
	Begun bool
	// Listen, where given, is called in the loop's goroutine after every tick; it must not block or keep p.
	Listen func(p *practice.Practice)
	// Ended, where given, is told in the loop's goroutine of a source that has ended and why (input.ErrEnd for one that
	// has played to its end). It must not block.
	Ended func(s input.Source, why error)
	// Came, where given, gets something after a turn that took in what somebody did: a reading of a source that goes by no script, or of
	// the desk. What finds no room in it is left out.
	Came chan<- struct{}
}

// Loop is one practice in real time. Use, Desk and what reads the published state may be called from any goroutine.
type Loop struct {
	*Seen // the pilot's own craft
	opt   Options
	p     *practice.Practice
	desk  *Desk
	rec   *recording

	// Below: the loop's goroutine only.
	begun              bool
	from               anchor
	partFrom           int64 // tick at which the part under way began
	pace               Pace
	floor              int64 // practice time of the last change of pace
	lastNow, lastPass  int64
	beside             []*Beside // the companions that were taken over
	players            []player
	tutor              [2]bool   // what the instructor's radio does: it has the sticks, it holds the arm switch off
	pending            []reading // read and not yet consumed, in order of time
	polled             []pulse.Reading
	due                []pulse.Reading
	gapTicks           int64 // the most ticks that are stepped for a gap
	closing            sync.WaitGroup
	came               bool          // something did in this turn, see Options.Came
	kept               lesson.Keeper // the last seconds, for a wreck
	again              Again
	note               string // of the part under way
	published          func() // for the measurement of the delay only
	public             public
	mu                 sync.Mutex
	handed             []Player // by Use, not yet taken over
	handedOver, usedUp bool
	craft              *Start    // by UseCraft, not yet taken over
	record             *recordAs // by StartRecording and StopRecording, not yet taken over
	asked              Pace      // by SetPace
	held               bool      // by Hold
	steps              int64     // by StepOn, not yet gone
	companions         []*Beside // by Begin and End; never changed in place
	wishes             []func()  // by Beside.Do, not yet done
	back               bool      // by GoBack, not yet done
	wake               chan struct{}
}

type player struct {
	Player
	timed bool  // plays by time alone, which is that of the practice
	zero  int64 // practice time of its 0 µs; for a timed one only
	since int64 // practice time from which its readings count: what it says of before counts then
}

type reading struct {
	at int64 // practice time in µs
	pulse.Reading
}

// New makes a loop that stands before tick 0 and has no source yet.
func New(o Options) *Loop {
	l := &Loop{
		opt: o, p: practice.Begin(o.Craft, o.Tick, o.Stands), wake: make(chan struct{}, 1),
		pending: make([]reading, 0, 256), polled: make([]pulse.Reading, 0, 256), due: make([]pulse.Reading, 0, 256),
	}
	// A minute after the silence limit and the sinking a bench with a silent radio changes no more, so a night's sleep is cut
	// short.
	slots := int64(o.Craft.Link.SilenceSlots) + int64(o.Craft.Arming.SinkSlots) + 2
	l.gapTicks = slots*int64(o.Craft.SlotTicks) + minute
	l.from.practice, l.partFrom, l.note = o.Tick*1000, o.Tick, o.Note
	l.desk = newDesk(o.Clock)
	l.Seen = newSeen(&l.public.mu, l.p)
	l.public.points = make([]Point, 0, 256)
	l.public.craft = &l.opt.Craft
	l.public.stood = []stood{{l.p.Tick(), &l.opt.Craft}}
	if o.Take != nil {
		l.rec = newRecording(o.Take)
		if !o.Begun {
			l.rec.add(entry{kind: partEntry, part: &Start{Craft: o.Craft, Tick: o.Tick, Stands: o.Stands, Note: o.Note}})
		}
	}
	return l
}

// Desk takes bench inputs from keys and commands.
func (l *Loop) Desk() *Desk { return l.desk }

// Clock is the clock that the loop goes by.
func (l *Loop) Clock() Clock { return l.opt.Clock }

// Use puts these sources in the place of those that play now, which are closed. For the craft the old radio is unplugged
// in that moment; each new source says by its own first reading that it is there. At most four.
func (l *Loop) Use(players ...Player) error {
	if len(players) > mostSources {
		return errTooMany
	}
	l.mu.Lock()
	old := l.handed
	if l.usedUp {
		old, players = append([]Player(nil), players...), nil
	}
	l.handed, l.handedOver = append([]Player(nil), players...), true
	l.mu.Unlock()
	for _, p := range old { // never taken over
		_ = p.Source.Close()
	}
	ring(l.wake)
	return nil
}

// Run keeps the practice going until ctx is done, then closes the sources and the take. Run may be called once. The error
// is that of the take.
func (l *Loop) Run(ctx context.Context) error {
	defer l.closing.Wait()
	timer := time.NewTimer(0)
	defer timer.Stop()
	for ctx.Err() == nil {
		timer.Reset(l.Turn())
		var w [mostSources]<-chan struct{}
		for i := range l.players {
			w[i] = l.players[i].Source.Wake()
		}
		select {
		case <-ctx.Done():
		case <-timer.C:
		case <-l.wake:
		case <-l.desk.wake:
		case <-w[0]:
		case <-w[1]:
		case <-w[2]:
		case <-w[3]:
		}
	}
	return l.Close()
}

// Close ends the practice: it closes the sources and the take. Run does so by itself.
func (l *Loop) Close() error {
	l.mu.Lock()
	handed, done := l.handed, l.usedUp
	l.handed, l.usedUp = nil, true
	l.mu.Unlock()
	if done {
		return nil
	}
	for _, p := range l.players {
		_ = p.Source.Close()
	}
	for _, p := range handed {
		_ = p.Source.Close()
	}
	l.players = nil
	if l.rec == nil {
		return nil
	}
	l.endDigest()
	return l.rec.close()
}

// takeOver puts the sources in place that Use handed in.
func (l *Loop) takeOver(now int64) {
	l.mu.Lock()
	handed, over, craft, record, companions, wishes, back := l.handed, l.handedOver, l.craft, l.record, l.companions, l.wishes, l.back
	l.handed, l.handedOver, l.craft, l.record, l.wishes, l.back = nil, false, nil, nil, nil, false
	l.mu.Unlock()
	if craft != nil {
		l.change(craft)
	}
	if record != nil {
		l.turnRecording(record)
	}
	for _, f := range wishes {
		f()
	}
	l.turnCompanions(companions, false)
	if back && l.begun {
		l.goBack(now)
	}
	if !over {
		return
	}
	if old := l.players; len(old) > 0 {
		l.closing.Go(func() { // a device may take its time to close
			for _, p := range old {
				_ = p.Source.Close()
			}
		})
	}
	since := int64(math.MinInt64)
	if l.begun {
		since = l.time(now)
		l.insert(reading{at: since, Reading: pulse.Reading{Kind: pulse.Plug, Value: 0}})
		l.dropTutor(since)
	}
	l.players = nil
	for _, p := range handed {
		if p.Opened == 0 {
			p.Opened = now
		}
		zero := l.time(p.Opened)
		if _, take := p.Source.(Parts); take && !l.begun { // its ticks are those of the practice
			zero = 0
		}
		l.players = append(l.players, player{Player: p, timed: p.Source.Wake() == nil, zero: zero, since: since})
	}
}

func ring(c chan<- struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}
