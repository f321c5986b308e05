package screen

import (
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim/lesson"
)

// wreck is what the flight keeps of a wreck, and of going on from before one.
type wreck struct {
	is *live.Wreck
	// waits: time stands until hands let it go on, by key or by standing as they stood; times is how often the practice had been put back before.
	waits bool
	times int
	again live.Again
}

// shown is how far the look back goes on after a wreck, in ticks (ours).
const shown = 1000

// turnWreck follows what there is of a wreck, and lets a flight that was put back go on once the hands have come to where they were.
func (f *flight) turnWreck() {
	w, l := &f.wreck, f.s.Options.Loop
	if w.is = l.Wreck(); f.s.Drilling() { // a drill shows by itself what was wrong
		w.is = nil
	}
	w.again = l.Again()
	if w.waits && w.again.Times > w.times && w.again.Moved && lesson.Ready(&f.s.Config, &w.again.Then, &w.again.Now) {
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
		l := &f.s.Config.Layout
		v.Flight.Again.Hands = tell.HandsThen{Before: w.again.Before, Then: w.again.Then[l.Throttle], Now: w.again.Now[l.Throttle], ArmOff: !lesson.Armed(&f.s.Config, &w.again.Now)}
	}
}
