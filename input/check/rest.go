package check

import (
	"math"

	"propsoff.example/sim/pulse"
)

// stats is the mean and spread over time of a raw value that is told only when it changes: each value counts as long as it
// stands. Values are counted from the first, so that sums stay small and whole.
type stats struct {
	first    int32
	low, top int32
	at, time int64
	sum, sq  int64
	// halfTime and halfSum are those of the first half of a rest.
	halfTime, halfSum int64
}

func (s *stats) begin(value int32) { *s = stats{first: value, low: value, top: value, at: -1} }

// add lets value stand until now; the first call only sets the time.
func (s *stats) add(value int32, now int64) {
	if s.at < 0 {
		s.at = now
		return
	}
	d, dt := int64(value-s.first), now-s.at
	if dt <= 0 {
		return
	}
	s.at = now
	s.low, s.top = min(s.low, value), max(s.top, value)
	s.time += dt
	s.sum += d * dt
	s.sq += d * d * dt
	if s.time <= restTime/2 {
		s.halfTime, s.halfSum = s.time, s.sum
	}
}

// mean is the mean raw value.
func (s *stats) mean() float64 {
	if s.time == 0 {
		return float64(s.first)
	}
	return float64(s.first) + float64(s.sum)/float64(s.time)
}

// spread is the standard deviation in raw steps: the square root of the mean of squares less the square of the mean.
func (s *stats) spread() float64 {
	if s.time == 0 {
		return 0
	}
	m := float64(s.sum) / float64(s.time)
	return math.Sqrt(math.Max(0, float64(s.sq)/float64(s.time)-m*m))
}

// drift is how far the means of both halves are apart, in raw steps.
func (s *stats) drift() float64 {
	rest := s.time - s.halfTime
	if s.halfTime == 0 || rest == 0 {
		return 0
	}
	return math.Abs(float64(s.halfSum)/float64(s.halfTime) - float64(s.sum-s.halfSum)/float64(rest))
}

// restFrom begins the rest anew at now.
func (c *Checker) restFrom(now int64) {
	c.restAt, c.leading = now, true
	c.measureFrom(now)
}

func (c *Checker) measureFrom(now int64) {
	for i := range c.controls {
		ct := &c.controls[i]
		ct.resting.begin(ct.raw)
		ct.resting.add(ct.raw, now)
	}
}

// rest lets time go on to now. After restTime without a movement it notes where everything rests and how it trembles. What
// moves too far or drifts begins it anew; so that the end of a movement is not taken for noise, nothing may move for a moment
// before.
func (c *Checker) rest(now int64) {
	over := !c.leading && now-c.restAt >= restTime
	for i := range c.controls {
		ct := &c.controls[i]
		s := &ct.resting
		if ct.perRaw == 0 {
			continue
		}
		s.add(ct.raw, now)
		far := float64(s.top-s.low)*ct.perRaw > restSpread/pulse.Eighths
		away := ct.sprung() && abs(ct.width-pulse.Centre) > restNear
		if far || away || over && s.drift()*ct.perRaw > restDrift/pulse.Eighths {
			c.restFrom(now)
			return
		}
	}
	if c.leading && now-c.restAt >= restLead {
		c.restAt, c.leading = now, false
		c.measureFrom(now)
	}
	if !over {
		return
	}
	for i := range c.controls {
		ct := &c.controls[i]
		if ct.perRaw == 0 {
			continue
		}
		ct.hasRest = true
		ct.noise = max(int64(math.Round(ct.resting.spread()*ct.perRaw*1000)), NoiseLeast)
		ct.restAt = ct.widthAt(ct.resting.mean())
	}
	c.rested, c.restedAt = true, now
	c.restFrom(now)
}

// widthAt is the width of a raw value between steps, to the nearest eighth.
func (c *control) widthAt(raw float64) pulse.Width {
	below := int32(math.Floor(raw))
	a, b := c.scale.Width(below), c.scale.Width(below+1)
	return a + pulse.Width(math.Round((raw-float64(below))*float64(b-a)))
}
