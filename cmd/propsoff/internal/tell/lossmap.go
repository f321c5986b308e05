package tell

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/lossmap"
)

// mapCodes are the code words of measures and of throttles, by their numbers.
var (
	mapMeasures  = [lossmap.Measures]string{lossmap.BySpeed: "speed", lossmap.ByTurns: "turns", lossmap.ByAway: "away"}
	mapThrottles = [lossmap.Throttles]string{lossmap.Down: "down", lossmap.UnderHover: "under-hover", lossmap.Hover: "hover", lossmap.OverHover: "over-hover", lossmap.Full: "full"}
)

// MapMeasure says what a map shows; MapMeasureShort in a few words.
func MapMeasure(q lossmap.Measure) words.Text { return words.Of("loss-map.measure", mapMeasures[q]) }

// MapMeasureShort names it in a few words.
func MapMeasureShort(q lossmap.Measure) words.Text {
	return words.Of("loss-map.measure-short", mapMeasures[q])
}

// MapMeasureCode is the code word of a measure, MapThrottleCode that of a throttle.
func MapMeasureCode(q lossmap.Measure) string { return mapMeasures[q] }

// MapThrottleCode is the code word of a throttle of the usual axes.
func MapThrottleCode(i int) string { return mapThrottles[i] }

// MapDoes says what a craft with its receiver does when the radio falls silent in flight.
func MapDoes(cfg *sim.Config) words.Text { return LossWill(LossCraft{Cfg: cfg}) }

// MapClasses is how many classes the values of a measure fall into, besides those that never end.
const MapClasses = 3

// mapBounds are the values at which a measure's second and third class begin: those of a landing, else ours.
var mapBounds = [lossmap.Measures][2]float64{{facts.HardLanding, sim.TooFast}, {1, 5}, {5, 20}}

// MapClass is the class of a value, MapClasses for one that never ends.
func MapClass(q lossmap.Measure, v float64) int {
	switch b := mapBounds[q]; {
	case math.IsInf(v, 1):
		return MapClasses
	case v > b[1]:
		return 2
	case v >= b[0]:
		return 1
	}
	return 0
}

// MapLegend says what a class is.
func MapLegend(q lossmap.Measure, class int) words.Text {
	if class == MapClasses {
		mark := MapValue(q, math.Inf(1))
		if q == lossmap.ByTurns {
			return words.T("loss-map.never", words.Args{"mark": mark})
		}
		return words.T("loss-map.never-down", words.Args{"mark": mark})
	}
	b := mapBounds[q]
	return words.Of("loss-map.legend", mapMeasures[q]+"-"+string(rune('0'+class)), words.Args{"low": words.Whole(b[0]), "high": words.Whole(b[1])})
}

// MapNever says of a measure that it has no end at any point that is shown.
func MapNever(q lossmap.Measure) words.Text {
	if q == lossmap.ByTurns {
		return words.T("loss-map.all-never")
	}
	return words.T("loss-map.all-never-down")
}

// MapValue is a value of a measure as it stands in a square: below ten with a decimal, a time with two; a dash for what never ends.
func MapValue(q lossmap.Measure, v float64) words.Text {
	switch {
	case math.IsInf(v, 1):
		return words.AsIs("–")
	case q == lossmap.ByTurns && v < 9.995:
		n := rounded(v, 2)
		n.Least = 1
		return Plain(n)
	case v < 9.95:
		return Plain(rounded(v, 1))
	}
	return Plain(rounded(v, 0))
}

// MapStep is a value of an axis.
func MapStep(v float64) words.Text {
	if v < 0 {
		return words.T("unit.minus", words.Args{"n": rounded(-v, 0)})
	}
	return Plain(rounded(v, 0))
}

// MapThrottle says where the throttle of a map stands.
func MapThrottle(m *lossmap.Map, i int) words.Text {
	return words.T("loss-map.throttle-line", words.Args{"throttle": MapThrottleName(i), "width": Width(m.Throttles[i])})
}

// MapThrottleName names a throttle of the usual axes.
func MapThrottleName(i int) words.Text { return words.Of("loss-map.throttle", mapThrottles[i]) }

// MapWind says how it blows.
func MapWind(v float64) words.Text {
	return words.T("loss-map.wind-line", words.Args{"blows": words.Flag(v > 0), "wind": unit("speed", MapStep(v))})
}

// MapAt says in which situation the link is lost, as a clause.
func MapAt(m *lossmap.Map, s lossmap.Spot) words.Text {
	p := m.Point(s)
	wind := words.Text{}
	if p.Wind > 0 {
		wind = unit("speed", MapStep(p.Wind))
	}
	return words.T("loss-map.at", words.Args{"height": unit("metres", MapStep(p.Height)), "up": words.Flag(p.Climb > 0), "down": words.Flag(p.Climb < 0),
		"climb": unit("speed", MapStep(math.Abs(p.Climb))), "throttle": MapThrottleName(s.Throttle), "wind": wind})
}

// MapComes says what comes of a spot, in sentences that begin with where it is.
func MapComes(m *lossmap.Map, s lossmap.Spot, o *lossmap.Outcome) words.Text {
	comes := words.T("loss-map.flies-on", words.Args{"time": Seconds(lossmap.Longest * 1000)})
	if o.Down >= 0 {
		top := words.Text{}
		if o.Top > m.Point(s).Height+0.5 {
			top = mapMetres(o.Top)
		}
		comes = words.T("loss-map.down", words.Args{"time": tenths(o.Down), "speed": Speed(o.Speed), "away": mapMetres(o.Away), "top": top})
	}
	motors := words.T("loss-map.motors", words.Args{"never": words.Flag(o.Turns < 0), "stood": words.Flag(o.Turns == 0), "time": mapTime(o.Turns), "breaks": words.Flag(o.Turns == o.Down), "empty": words.Flag(m.PackDies()), "emptied": words.Flag(o.Empty >= 0)})
	empty := words.Text{}
	if o.Empty >= 0 {
		empty = words.T("loss-map.empty", words.Args{"minutes": words.Whole(math.Round(o.Empty / 60)), "before": words.Flag(o.Down >= 0)})
	}
	return words.Row(words.T("loss-map.worst", words.Args{"at": MapAt(m, s), "comes": comes}), motors, empty)
}

// MapWorst says which spot is the worst of those that are seen, or of all, and what comes of it; nothing where none is worked out.
func MapWorst(m *lossmap.Map, q lossmap.Measure, all bool, in func(lossmap.Spot) bool) words.Text {
	id := words.ID("loss-map.worst-here")
	if all {
		id, in = "loss-map.worst-of-all", func(lossmap.Spot) bool { return true }
	}
	s, ok := m.Worst(q, in)
	if !ok {
		return words.Text{}
	}
	o, _ := m.Outcome(s)
	return words.T(id, words.Args{"spot": MapComes(m, s, &o), "so": words.Flag(!m.Whole())})
}

// MapPlayed says which situation of a map is played: its worst, or the worst that is worked out so far.
func MapPlayed(m *lossmap.Map, s lossmap.Spot) words.Text {
	return words.T("loss-map.played", words.Args{"at": MapAt(m, s), "so": words.Flag(!m.Whole())})
}

// MapAnew says by which key the sheet begins again; nothing without one.
func MapAnew(key words.Text) words.Text {
	if key.Empty() {
		return key
	}
	return words.T("loss-map.anew", words.Args{"key": key})
}

// mapMetres is a length, whole where it is great; it says nothing of none.
func mapMetres(v float64) words.Text {
	switch {
	case v < 0.05:
		return words.Text{}
	case v < 100:
		return Metres(v)
	}
	return unit("metres", words.Grouped(math.Round(v)))
}

// mapTime is a time in s, exact where it is short: a link is lost after 0.24 s.
func mapTime(s float64) words.Text {
	if s < 10 {
		return Seconds(int64(math.Round(max(s, 0) * 1000)))
	}
	return tenths(s)
}

// tenths is a time in s with one decimal.
func tenths(s float64) words.Text { return unit("seconds", rounded(s, 1)) }

// MapProgress says how far a map is.
func MapProgress(m *lossmap.Map) words.Text {
	return words.T("loss-map.done", words.Args{"done": words.Grouped(m.Done), "all": words.Grouped(m.Points())})
}

// CardLostFrom says in a line of the cards what comes of a hover at lostFrom metres, and nothing where the craft does not stay level.
func CardLostFrom(cfg *sim.Config) words.Text {
	o, ok := facts.LossFrom(cfg, lostFrom)
	if !ok {
		return words.Text{}
	}
	args := words.Args{"height": unit("metres", words.Whole(lostFrom)), "time": words.Text{}, "speed": words.Text{}, "empty": words.Text{}, "turns": words.Flag(o.Turns < 0)}
	switch {
	case o.Empty >= 0:
		args["empty"] = Plain(words.Whole(math.Round(o.Empty / 60)))
	case o.Down >= 0:
		args["time"], args["speed"] = tenths(o.Down), Speed(o.Speed)
	}
	return words.T("card.lost-from", args)
}

// lostFrom is the height of the cards' line, m (ours: as high as a beginner hovers).
const lostFrom = 10
