package screen

import (
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/pulse"
)

// wreck is what the flight keeps of a wreck, and of going on from before one.
type wreck struct {
	is *live.Wreck
	// waits: time stands until hands let it go on, by key or by standing as they stood; times is how often the practice had been put back before.
	waits bool
	times int
	again live.Again
	// since is since when hands stand as they stood then, on the clock.
	since int64
}

// settled is how long they must, in µs (ours): long enough to see it.
const settled = 1_000_000

// shown is how far the look back goes on after a wreck, in ticks (ours).
const shown = 1000

// turnWreck follows what there is of a wreck, and lets a flight that was put back go on once the hands have come to where they were.
func (f *flight) turnWreck() {
	w, l := &f.wreck, f.s.Options.Loop
	if w.is = l.Wreck(); f.s.Drilling() { // a drill shows by itself what was wrong
		w.is = nil
	}
	w.again = l.Again()
	switch now := l.Clock().Now(); {
	case !w.waits || w.again.Times <= w.times || lesson.Compare(&f.s.Config, &w.again.Then, &w.again.Now).Any():
		w.since = now
	case now-w.since >= settled:
		f.Resume()
	}
}

// flyAgain puts the practice back to before the wreck; time stands there.
func (f *flight) flyAgain() {
	w, l := &f.wreck, f.s.Options.Loop
	if w.is == nil {
		return
	}
	w.times, w.waits, f.paused, f.replay.on = l.Again().Times, true, true, false
	f.own.Cut(f.Live.Tick)
	l.GoBack()
	f.pace()
}

// wreckOnly narrows a look back to the last seconds before a wreck, as long as they are kept.
func (f *flight) wreckOnly(from, to int64) (int64, int64) {
	w := f.wreck.is
	if w == nil || from >= w.Broke() || w.Broke() > to {
		return from, to
	}
	return max(from, w.Broke()-lesson.Reach), min(to, w.Broke()+shown)
}

// fillWreck puts it into the view.
func (f *flight) fillWreck(v *ui.View) {
	w := &f.wreck
	v.Flight.Wreck = ui.Wreck{}
	if w.is != nil {
		v.Flight.Wreck = ui.Wreck{Is: true, Broke: w.is.Broke(), Found: w.is.Found(), Back: w.is.Back()}
	}
	v.Flight.Again = ui.Again{Apart: w.again.Apart, Waits: w.waits && w.again.Times > w.times}
	if v.Flight.Again.Waits {
		v.Flight.Again.Hands = f.handsThen(v)
	}
}

// handsThen is what hands held at the moment that it is put back to, and what they hold.
func (f *flight) handsThen(v *ui.View) tell.HandsThen {
	cfg, then, now := &f.s.Config, &f.wreck.again.Then, &f.wreck.again.Now
	l := &cfg.Layout
	h := tell.HandsThen{Before: f.wreck.again.Before, Elsewhere: lesson.Compare(cfg, then, now), Then: then[l.Throttle], Now: now[l.Throttle]}
	if l.Arm != layout.NoChannel {
		h.Arm = l.ArmSpan.Contains(then[l.Arm])
	}
	if l.Second != layout.NoChannel {
		h.Second = l.SecondSpan.Contains(then[l.Second])
	}
	if l.Mode != layout.NoChannel {
		h.ModeThen, h.ModeNow = l.ModeAt(then[l.Mode]), l.ModeAt(now[l.Mode])
	}
	if !v.WillBe(pulse.Link, f.Live.In.Transmitter) {
		h.Radio = v.KeyFor(ui.SwitchRadio, f.s.Place())
	}
	return h
}
