package facts

import (
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/stop"
)

// alarmMoments is how many moments of flight a curve takes in (ours): half of them may be told from the other half.
const alarmMoments = 24

// AlarmCurve is what an alarm in the air comes to by how late the hand disarms. Its zero value knows nothing; Step works it out bit by bit.
type AlarmCurve struct {
	n    int
	goes [len(stop.Reactions)][alarmMoments]float64
	seek stop.Search
	far  []stop.Outcome
}

// sought is the reaction, in ms, for which the worst moment is sought whose curve is shown (ours).
const sought = 1000

// Step works out a bit more of the curve of a craft, some 20 ms of work; it tells whether there is more to do.
func (a *AlarmCurve) Step(cfg *sim.Config) bool {
	switch {
	case a.n < alarmMoments:
		for i, o := range stop.Curve(cfg, stop.At(a.n), stop.Reactions[:], nil) {
			a.goes[i][a.n] = o.Goes
		}
		a.n++
	case !a.Known():
		if a.seek == (stop.Search{}) {
			a.seek = stop.Begin()
		}
		if !a.seek.Seek(cfg, sought) {
			a.far = stop.Curve(cfg, a.seek.Best, stop.Reactions[:], nil)
		}
	}
	return !a.Known()
}

// Known tells whether all of it is worked out.
func (a *AlarmCurve) Known() bool { return len(a.far) > 0 }

// AlarmPoint is one point of a curve: after how many ms the hand disarms, how far the craft still goes in half of all moments and in
// the worst, in m.
type AlarmPoint struct {
	After          int64
	Half, Farthest float64
}

// Points are those of a curve that is known.
func (a *AlarmCurve) Points() (out [len(stop.Reactions)]AlarmPoint) {
	for i := range out {
		out[i] = AlarmPoint{stop.Reactions[i], half(a.goes[i][:]), a.far[i].Goes}
	}
	return out
}

// half is the number below which half of some numbers lie.
func half(all []float64) float64 {
	v := slices.Clone(all)
	slices.Sort(v)
	return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
}

// AlarmMeans is what a reaction means: when the motors stand, how far the craft still goes in half of all moments, and the worst moment.
type AlarmMeans struct {
	After, Stands int64
	Half          float64
	Worst         stop.Moment
	Goes, Touch   float64
}

// AlarmAfter works out what a reaction in ms means to a craft.
func AlarmAfter(cfg *sim.Config, after int64) AlarmMeans {
	m := AlarmMeans{After: after}
	var goes [alarmMoments]float64
	for n := range goes {
		goes[n] = stop.Curve(cfg, stop.At(n), []int64{after}, nil)[0].Goes
	}
	s := stop.Begin()
	for s.Seek(cfg, after) {
	}
	m.Half, m.Worst, m.Goes, m.Touch, m.Stands = half(goes[:]), s.Best, s.Out.Goes, s.Out.Touch, s.Out.Stands
	return m
}
