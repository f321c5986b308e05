package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim/happening"
)

// LossShort is LossDoes in as few words as a room can read.
func LossShort(c LossCraft) words.Text {
	r, s := c.Run, c.Snap
	hears := c.hears()
	q := facts.Silence(c.Cfg)
	switch {
	case !s.In.Powered:
		return words.T("loss.short-no-power")
	case r.Phase == lossrun.Waiting && q.ByValues():
		return words.T("loss.short-will-disarm")
	case r.Phase == lossrun.Waiting:
		return words.T("loss.short-will", words.Args{"notices": words.Flag(!hears)})
	case r.Phase == lossrun.Back:
		return c.shortBack()
	case r.ByItself != lossrun.NotYet && s.Armed:
		return words.T("loss.short-armed-by-itself", words.Args{"stored": words.Flag(c.Cfg.Link.OnLoss != facts.RepeatsLast)})
	case s.Sinking:
		return words.T("loss.short-sinks", words.Args{"climbs": words.Flag(climbs(-s.Air.Body.Vel.Z))})
	case r.Disarmed != lossrun.NotYet && (r.Cause == happening.ByLinkLoss || r.Cause == happening.BySinkEnd):
		return words.T("loss.short-cut", words.Args{"after": lossTime(r.Disarmed - r.Off)})
	case r.Disarmed != lossrun.NotYet && r.Cause != happening.ByPowerLoss:
		after := words.Text{}
		if r.Disarmed-r.Off >= int64(c.Cfg.SlotTicks) {
			after = lossTime(r.Disarmed - r.Off)
		}
		return words.T("loss.short-stored-disarmed", words.Args{"after": after})
	case hears && s.Armed && q.ByValues():
		return words.T("loss.short-stored-disarm")
	case s.Armed && c.cameDown():
		return words.T("loss.short-came-down")
	case hears && s.Armed:
		return words.T("loss.short-armed", words.Args{"turns": words.Flag(r.Turns.Now())})
	case hears:
		return words.T("loss.short-not-armed", words.Args{"will": words.Flag(c.willArm())})
	case r.Lost != lossrun.NotYet:
		return words.T("loss.short-noticed")
	}
	return words.T("loss.short-waits", words.Args{"time": Seconds(r.Limit - r.Last)})
}

// shortBack is said once the radio is heard again.
func (c LossCraft) shortBack() words.Text {
	r, s := c.Run, c.Snap
	switch {
	case r.Again != lossrun.NotYet && s.Armed:
		return words.T("loss.short-armed-again", words.Args{"once": words.Flag(c.againAtOnce())})
	case s.Sinking:
		return words.T("loss.short-sinks-on")
	case s.Armed:
		return words.T("loss.short-obeys")
	case s.Refusals == 0:
		return words.T("loss.can-arm")
	}
	return words.T("loss.to-arm")
}
