package phrase

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim"
	"propsoff/sim/happening"
)

// LossCraft is one of the three crafts of the failsafe demonstration, as its sentences need it.
type LossCraft struct {
	Cfg  *sim.Config
	Run  *lossrun.Run
	Snap *sim.Snapshot
	// Facts are those of Snap, nil where nothing was asked.
	Facts *facts.Facts
}

// LossTitle heads the demonstration.
func LossTitle() string {
	return "One radio, three receivers: what each craft does when the radio goes silent"
}

// LossRadio is the radio's own state, in large letters.
func LossRadio(on bool) string {
	if on {
		return "RADIO ON"
	}
	return "RADIO OFF"
}

// LossSilent says for how long the radio has been off, or back.
func LossSilent(r *lossrun.Run, now int64) string {
	switch r.Phase {
	case lossrun.Off:
		return "silent for " + left(int(now-r.Off))
	case lossrun.Back:
		return "back for " + left(int(now-r.Back))
	}
	return ""
}

// LossStoredTitle heads the values that the third receiver has stored.
func LossStoredTitle() string { return "stored in the third receiver" }

// LossStored names stored values.
func LossStored(s lossrun.Stored, cfg *sim.Config) string {
	bySwitch := !facts.BySticks(cfg)
	switch {
	case s == lossrun.OfFile && lossrun.Own(cfg):
		return "what the craft file says"
	case s == lossrun.ArmedLow:
		return "armed, throttle low, sticks centred"
	case s == lossrun.ArmedThrottle:
		return "armed, throttle as it was, sticks centred"
	case bySwitch:
		return "arm off, throttle low, sticks centred"
	}
	return "throttle low, yaw left: the disarming corner"
}

// LossStoredFrom says where stored values come from, and what they show.
func LossStoredFrom(s lossrun.Stored, cfg *sim.Config) string {
	switch {
	case s == lossrun.OfFile && lossrun.Own(cfg):
		return "They are the craft file's own."
	case s == lossrun.ArmedLow:
		return "An example that looks careful and is not."
	case s == lossrun.ArmedThrottle:
		return "An example: stored by somebody while flying."
	}
	return "An example: the craft file has none."
}

// LossWill says beforehand what comes when the radio goes off: of a craft that is armed as it now is.
func LossWill(c LossCraft) string {
	cfg := c.Cfg
	q := facts.Silence(cfg)
	silent := "after " + Seconds(q.Lost) + " the craft cuts."
	if q.Sinks != facts.Never {
		silent = c.sinksOrCuts(&q)
	}
	switch cfg.Link.OnLoss {
	case facts.RepeatsLast:
		return "When the radio goes off, the last frame comes again and again. The craft cannot know that the link is gone."
	case facts.SendsStored:
		out := "When the radio goes off, the stored values come: "
		switch {
		case q.ByValues():
			return out + "they disarm the craft " + soon(cfg, &q) + "."
		case q.Lost != facts.Never:
			return out + "they are not whole, so " + silent
		}
		return out + staysArmed(&q) + ". It cannot know that the link is gone."
	}
	return "When the radio goes off, nothing comes any more: " + silent
}

// sinksOrCuts says which of the two comes of a craft that is to sink on a lost link.
func (c LossCraft) sinksOrCuts(q *facts.Quiet) string {
	after, does := "after "+Seconds(q.Lost), " sinks for "+Seconds(q.Disarmed-q.Sinks)+", then cuts"
	if c.Facts != nil {
		switch c.Facts.IfSilent {
		case facts.Cuts:
			return after + " the craft cuts, because its throttle is low."
		case facts.Sinks:
			return after + " the craft" + does + "."
		}
	}
	return after + " an armed craft" + does + "; with its throttle low it cuts without sinking."
}

// LossDoes says what the craft does now.
func LossDoes(c LossCraft) string {
	switch {
	case !c.Snap.In.Powered:
		return "It has no power."
	case c.Run.Phase == lossrun.Off:
		return c.off()
	case c.Run.Phase == lossrun.Back:
		return c.back()
	}
	return LossWill(c)
}

// off is said while the radio is silent.
func (c LossCraft) off() string {
	r, s := c.Run, c.Snap
	q := facts.Silence(c.Cfg)
	knows := "It cannot know that the radio is off."
	waits := "Nothing comes any more. It waits " + Seconds(r.Limit-r.Last) + " before it believes that."
	switch {
	case r.ByItself != lossrun.NotYet && s.Armed:
		return c.obeyed() + " ARMED it, with nobody at the radio."
	case s.Sinking && climbs(-s.Air.Body.Vel.Z):
		return "It noticed. It climbs still, " + sinks(c.Cfg) + ". It cuts in " + left(s.SinkLeftMillis) + "." + c.sinkEnds()
	case s.Sinking:
		return "It noticed, and sinks: " + sinks(c.Cfg) + ". It cuts in " + left(s.SinkLeftMillis) + "." + c.sinkEnds()
	case r.Disarmed != lossrun.NotYet:
		return c.cut() + c.falls()
	case s.Armed && !c.hears():
		return waits
	case s.Armed && q.ByValues():
		return "It obeys the stored values, and they disarm it " + soon(c.Cfg, &q) + "."
	case s.Armed && c.cameDown() && c.Cfg.Link.OnLoss == facts.SendsStored:
		return "It obeyed the stored values, " + c.down() + knows
	case s.Armed && c.cameDown():
		return "It did as it was told last, " + c.down() + knows
	case s.Armed && s.In.Air && !s.Air.Flying:
		return "It stands on the ground, ARMED. " + knows
	case s.Armed && c.Cfg.Link.OnLoss == facts.RepeatsLast && s.In.Air:
		return "It flies on as it was told last. " + knows + " Nothing cuts."
	case s.Armed && c.Cfg.Link.OnLoss == facts.RepeatsLast:
		return "Its motors do what they were told last. " + knows + " Nothing cuts."
	case s.Armed && !r.Turns.Now():
		return "It obeys the stored values. Its motors stand still, yet it is ARMED. " + knows
	case s.Armed:
		return "It obeys the stored values and stays ARMED. " + knows + " Nothing cuts."
	case r.Lost != lossrun.NotYet:
		return "It noticed after " + hundredths(r.Lost-r.Off) + "." + c.staysSo()
	case c.hears():
		return knows + c.staysSo()
	}
	return waits
}

// obeyed is what the craft hears in the place of the radio.
func (c LossCraft) obeyed() string {
	switch {
	case c.Cfg.Link.OnLoss != facts.RepeatsLast:
		return "The stored values"
	case facts.BySticks(c.Cfg):
		return "The sticks that its receiver repeats"
	}
	return "The values that its receiver repeats"
}

// staysSo says what comes of a craft that is not armed.
func (c LossCraft) staysSo() string {
	switch {
	case c.Facts == nil:
		return " It was not armed."
	case !c.willArm():
		return " It was not armed, and stays so."
	case facts.BySticks(c.Cfg):
		return " The arming corner is held: it will arm."
	}
	return " It will arm."
}

// willArm: it arms with nobody at the radio.
func (c LossCraft) willArm() bool { return c.Facts != nil && c.Facts.ArmsItself.OK }

// cameDown: it lies or stands where it came to the ground since the radio went off.
func (c LossCraft) cameDown() bool {
	return c.Snap.In.Air && !c.Snap.Air.Flying && c.Run.Down != lossrun.NotYet
}

// down ends the sentence of a craft that came to the ground armed.
func (c LossCraft) down() string {
	return "came down at " + Speed(c.Run.Speed) + ", and lies " + lies(c.Run) + ", still ARMED. "
}

// sinkEnds says how its sinking ends, where that is known.
func (c LossCraft) sinkEnds() string {
	if c.Facts == nil || !c.Facts.SinkKnown {
		return ""
	}
	return sinkEnds(&c.Facts.Sink, true)
}

// hears tells whether the craft gets frames that it takes for the radio's while the radio is silent.
func (c LossCraft) hears() bool {
	return c.Cfg.Link.OnLoss == facts.RepeatsLast || c.Cfg.Link.OnLoss == facts.SendsStored && facts.Whole(c.Cfg)
}

// cut says how the craft came to be disarmed.
func (c LossCraft) cut() string {
	r := c.Run
	after := hundredths(r.Disarmed - r.Off)
	switch {
	case r.Cause == happening.ByLinkLoss:
		return "It noticed, and cut after " + after
	case r.Cause == happening.BySinkEnd:
		return "It noticed, sank, and cut after " + after
	case r.Cause == happening.ByPowerLoss:
		return "Its pack was taken out"
	case r.Cause == happening.ByStored && facts.BySticks(c.Cfg):
		return "The stored values stand in the disarming corner: disarmed after " + after
	case r.Cause == happening.ByStored:
		return "The stored values say arm off: disarmed at once"
	case r.Cause == happening.ByRepeated:
		return "The receiver repeats the sticks in the disarming corner: disarmed after " + after
	case r.Cause == happening.BySticks:
		return "The sticks were held in the disarming corner: disarmed after " + after
	}
	return "Arm off: disarmed after " + after
}

// falls ends the sentence of a craft that was disarmed.
func (c LossCraft) falls() string {
	r, s := c.Run, c.Snap
	switch {
	case !s.In.Air:
		return ". Its motors stand still."
	case s.Air.Flying && climbs(-s.Air.Body.Vel.Z):
		return ". It still climbs, then falls."
	case s.Air.Flying:
		return ". It falls."
	case r.Down != lossrun.NotYet && r.Down <= r.Disarmed:
		return ", on the ground by then. It lies " + lies(r) + "."
	case r.Down != lossrun.NotYet && r.Sinking != lossrun.NotYet:
		return ". It fell the rest of the way, and lies " + lies(r) + "."
	case r.Down != lossrun.NotYet:
		return ". It fell, and lies " + lies(r) + "."
	}
	return ", on the ground."
}

// lies says how and where a craft lies.
func lies(r *lossrun.Run) string {
	if r.Tipped {
		return "on its side"
	}
	return found(r.Away)
}

// found says where a craft lies, by its distance in m over the ground.
func found(away float64) string {
	if away < 1 {
		return "right below"
	}
	return strconv.Itoa(int(math.Round(away))) + " m from there"
}

// back is said once the radio is heard again.
func (c LossCraft) back() string {
	r, s := c.Run, c.Snap
	slots := 2 * int64(c.Cfg.SlotTicks)
	clean := Seconds(int64(c.Cfg.Link.CleanSlots) * int64(c.Cfg.SlotTicks))
	since := func(tick int64) string { return hundredths(tick - r.Back) }
	switch {
	case r.Again != lossrun.NotYet && s.Armed && r.Again-r.Back <= slots:
		return "It ARMED at once as the radio came back: the arm control was on."
	case r.Again != lossrun.NotYet && s.Armed:
		return "Armed again, " + since(r.Again) + " after the radio came back."
	case r.Again != lossrun.NotYet:
		return "It was armed again after " + since(r.Again) + ", and is disarmed now."
	case s.Sinking:
		return "It hears the radio, and sinks on: after " + clean + " of clean link the pilot has it again."
	case s.Armed && r.Lost != lossrun.NotYet:
		return "The pilot has it again, still armed."
	case s.Armed:
		return "It obeys the radio again at once, armed as ever: for it there was no loss."
	case r.Disarmed > r.Back && s.Refusals == 0:
		return "It obeyed the radio at once, and was disarmed by it after " + since(r.Disarmed) + ". It can be armed now."
	case r.Disarmed > r.Back:
		return "It obeyed the radio at once, and was disarmed by it after " + since(r.Disarmed) + ". To arm it again:"
	case s.Refusals == 0 && r.Clean == lossrun.NotYet:
		return "Disarmed; for it there was no loss. It can be armed now."
	case s.Refusals == 0:
		return "Disarmed. It can be armed now."
	case r.Lost == lossrun.NotYet:
		return "Disarmed; for it there was no loss. To arm it again:"
	}
	return "Disarmed. To arm it again:"
}

// hundredths writes a time in ms as seconds with two places.
func hundredths(ms int64) string {
	return strconv.FormatFloat(float64(ms)/1000, 'f', 2, 64) + " s"
}
