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

// AlarmReaction works out what one reaction means to a craft; Step does so bit by bit.
type AlarmReaction struct {
	after int64
	n     int
	goes  [alarmMoments]float64
	seek  stop.Search
}

// React begins it for a reaction in ms.
func React(after int64) *AlarmReaction { return &AlarmReaction{after: after, seek: stop.Begin()} }

// Step works out a bit more, some milliseconds of work; it tells whether there is more to do.
func (r *AlarmReaction) Step(cfg *sim.Config) bool {
	if r.n < alarmMoments {
		r.goes[r.n] = stop.Curve(cfg, stop.At(r.n), []int64{r.after}, nil)[0].Goes
		r.n++
		return true
	}
	return r.seek.Seek(cfg, r.after)
}

// Means is what it means, once there is no more to do.
func (r *AlarmReaction) Means() AlarmMeans {
	s := &r.seek
	return AlarmMeans{After: r.after, Half: half(r.goes[:]), Worst: s.Best, Goes: s.Out.Goes, Touch: s.Out.Touch, Stands: s.Out.Stands}
}

// AlarmAfter works out at once what a reaction in ms means to a craft.
func AlarmAfter(cfg *sim.Config, after int64) AlarmMeans {
	r := React(after)
	for r.Step(cfg) {
	}
	return r.Means()
}
