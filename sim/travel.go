package sim

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// travelState watches for a hand that holds an arming corner with sticks that do not reach it: the commonest reason
// why arming by sticks "does not work" is the travel of throttle or yaw in the radio (common practice, no source).
type travelState struct {
	// Held counts slots in which both sticks stood nearly in a corner, one short of it.
	Held uint16
	// Told: this visit has been called out.
	Told bool
}

// stepTravel is called once a slot in which a frame was received. A throttle up to 1064.8 µs, where it counts as fully
// low, is taken for "as low as it goes"; yaw from 75 % of travel on for "as far as it goes".
func stepTravel(cfg *Config, t travelState, facts *SlotFacts, s *SlotState, seen *[pulse.Channels]Seen, tick int64, log *happening.Log) travelState {
	a := &cfg.Arming
	if a.By != arming.BySticks || !facts.Link.Valid {
		return travelState{}
	}
	thr, yaw := facts.Layout.Throttle, facts.Layout.Yaw
	right, left := yaw >= a.LeaveRight, yaw <= a.LeaveLeft
	if s.Arming.Armed {
		right = false
	} else {
		left = false
	}
	if !(right || left) || thr > pulse.FullyLow {
		return travelState{}
	}
	short := int32(-1)
	var extreme pulse.Width
	reaches := false
	switch {
	case thr >= a.LowThrottle:
		short, extreme = int32(cfg.Layout.Throttle), seen[cfg.Layout.Throttle].Low
		reaches = extreme < a.LowThrottle
	case right && yaw < a.YawRight:
		short, extreme = int32(cfg.Layout.Yaw), seen[cfg.Layout.Yaw].High
		reaches = extreme >= a.YawRight
	case left && yaw > a.YawLeft:
		short, extreme = int32(cfg.Layout.Yaw), seen[cfg.Layout.Yaw].Low
		reaches = extreme <= a.YawLeft
	}
	if reaches { // it has been there before: the hand is short now, not the travel
		return travelState{}
	}
	if short < 0 || t.Told {
		return travelState{Told: t.Told}
	}
	t.Held++
	dwell := a.ArmDwell
	if left {
		dwell = a.DisarmDwell
	}
	if t.Held > dwell {
		log.Add(tick, happening.TravelShort, short, int32(extreme))
		t = travelState{Told: true}
	}
	return t
}
