package phrase

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim"
	"propsoff/sim/happening"
)

// LossKeys are the keys of the demonstration as its sentences name them; a key that does nothing now is empty. Bench are those of the
// bench's own advice.
type LossKeys struct {
	Radio, Fly, Anew string
	Bench            Keys
	// Short: as few words as a room can read.
	Short bool
}

// LossPilot is the demonstration's own pilot: Flown, it drives; Steady, it hovers; and what it comes to.
type LossPilot struct {
	Flown, Steady bool
	Comes         facts.Pilot
}

// LossNext says what to do now.
func LossNext(r *lossrun.Run, f *facts.Facts, k LossKeys, p LossPilot) string {
	s := &f.Snap
	switch {
	case k.Radio == "":
		return "What is played has the radio's switch. Watch."
	case r.Phase == lossrun.Off && f.RadioBack && f.Silent == facts.SwitchedOff:
		return "Compare what the three do. " + k.Radio + " brings the radio back."
	case r.Phase == lossrun.Off && f.RadioBack && s.In.Transmitter:
		return "Compare what the three do. Then plug the radio in again."
	case r.Phase == lossrun.Off && f.RadioBack:
		return "Compare what the three do. Then plug the radio in again, and press " + k.Radio + "."
	case r.Phase == lossrun.Off:
		return "Compare what the three do."
	case r.Phase == lossrun.Back:
		return "See what each craft asks for before it can be armed. " + k.Anew + " begins again."
	case f.Silent == facts.SwitchedOff && f.RadioBack:
		return "The radio is off. " + k.Radio + " switches it on; then it can go silent before everybody's eyes."
	case f.Silent == facts.SwitchedOff && s.In.Powered:
		return "The radio is off."
	case f.Silent == facts.Unread:
		return "No radio is heard yet. Move a stick."
	case p.Flown && p.Steady:
		return "They hover. " + k.Radio + ": the radio goes off."
	case p.Flown && p.Comes == facts.PilotFlies:
		return "The pilot arms, climbs and hovers. Then press " + k.Radio + ": the radio goes off."
	case p.Flown && p.Comes == facts.PilotCannotArm:
		out := "The pilot cannot arm it."
		if f.N > 0 && k.Short {
			out += " Asked for: " + LossAsk(f.Refusing[0], f) + "."
		} else if f.N > 0 {
			out += " " + Sentence(f.Refusing[0], f)
		}
		return out
	case p.Flown:
		return "The pilot tries to fly. " + k.Radio + ": the radio goes off."
	case s.Armed && (!s.In.Air || s.Air.Flying):
		return "All three do the same. " + k.Radio + ": the radio goes off."
	}
	out := lossArm(f, &k)
	if p.Comes == facts.PilotFlies {
		out += " Or press " + k.Fly + ", and a pilot flies them."
	}
	return out
}

// lossArm says how the hand brings the three to where the radio may go off: what refuses first, of which this sheet shows nothing.
func lossArm(f *facts.Facts, k *LossKeys) string {
	then := "raise the throttle, then press " + k.Radio + ": the radio goes off."
	switch {
	case f.Snap.Armed:
		return capital(then)
	case f.Next() == facts.NextArm:
		return "Arm and " + then
	}
	if k.Short && f.N > 0 && f.Tried {
		return "To arm, first: " + LossAsk(f.Refusing[0], f) + "."
	}
	out := Next(f, k.Bench)
	if f.N > 0 && f.Tried {
		out = Sentence(f.Refusing[0], f) + " " + out
	}
	return out
}

// LossLine names a line of a craft's time: 0 radio, 1 link, 2 armed, 3 motors.
func LossLine(i int) string { return [...]string{"radio", "link", "armed", "motors"}[i] }

// LossTimeTitle heads a craft's time.
func LossTimeTitle() string { return "time since the radio went off" }

// LossAxis writes a mark of the time axis, ms.
func LossAxis(ms int64) string { return fixed(ms, 3) + " s" }

// LossNothing stands in a craft's time before the radio goes off.
func LossNothing(f *facts.Facts) string {
	switch {
	case f.Hearing == facts.NoPower:
		return "It has no power, and hears nothing."
	case f.Silent == facts.SwitchedOff:
		return "The radio was off already."
	case f.Silent == facts.Unread:
		return "No radio is heard yet."
	case f.Silent != facts.NotSilent:
		return "The radio was silent already."
	}
	return "The radio is still heard."
}

// LossHeight says how high they were when the radio went off.
func LossHeight(r *lossrun.Run) string {
	if !r.Before.Flying {
		return "They stood on the ground when the radio went off."
	}
	return "They were " + Metres(r.Before.Height) + " up when the radio went off."
}

// LossMotors is what the motors of a craft do on the desk bench.
func LossMotors(s *sim.Snapshot, cfg *sim.Config) string {
	return "Motors: " + Motor(s.Motor[0], cfg.Flight.IdleSpeed)
}

// LossFreeNow stands where nothing refuses arming any more.
func LossFreeNow() string { return "Nothing refuses arming." }

// LossClassNumber is a number of LossNumber in one short line, empty where it says nothing yet.
func LossClassNumber(i int, c LossCraft) string {
	_, value := LossNumber(i, c)
	r := c.Run
	switch {
	case value == "–":
		return ""
	case i == 0 && r.Stopped != lossrun.NotYet:
		return "motors stop: " + value
	case i == 0:
		return "motors: " + value
	case i == 1 && r.Down != lossrun.NotYet:
		return "ground: " + value + ", " + Speed(r.Speed)
	case i == 1:
		return value + ", " + Metres(-c.Snap.Air.Body.Pos.Z)
	case i == 3:
		return "found " + value
	}
	return ""
}

// LossShort is LossDoes in as few words as a room can read.
func LossShort(c LossCraft) string {
	r, s := c.Run, c.Snap
	hears := c.hears()
	q := facts.Silence(c.Cfg)
	switch {
	case !s.In.Powered:
		return "No power."
	case r.Phase == lossrun.Waiting && q.ByValues():
		return "Radio off: the stored values disarm it."
	case r.Phase == lossrun.Waiting && hears:
		return "Radio off: it cannot know."
	case r.Phase == lossrun.Waiting:
		return "Radio off: it notices."
	case r.Phase == lossrun.Back:
		return c.shortBack()
	case r.ByItself != lossrun.NotYet && s.Armed && c.Cfg.Link.OnLoss == facts.RepeatsLast:
		return "ARMED by repeated values, by nobody's hand."
	case r.ByItself != lossrun.NotYet && s.Armed:
		return "ARMED by stored values, by nobody's hand."
	case s.Sinking && climbs(-s.Air.Body.Vel.Z):
		return "It noticed. It climbs still."
	case s.Sinking:
		return "It noticed, and sinks."
	case r.Disarmed != lossrun.NotYet && (r.Cause == happening.ByLinkLoss || r.Cause == happening.BySinkEnd):
		return "It noticed, and cut after " + hundredths(r.Disarmed-r.Off) + "."
	case r.Disarmed != lossrun.NotYet && r.Cause != happening.ByPowerLoss && r.Disarmed-r.Off < int64(c.Cfg.SlotTicks):
		return "The stored values disarmed it at once."
	case r.Disarmed != lossrun.NotYet && r.Cause != happening.ByPowerLoss:
		return "The stored values disarmed it after " + hundredths(r.Disarmed-r.Off) + "."
	case hears && s.Armed && q.ByValues():
		return "The stored values disarm it."
	case s.Armed && c.cameDown():
		return "It came down, and lies there ARMED."
	case hears && s.Armed && !r.Turns.Now():
		return "It cannot know. Motors still, yet ARMED."
	case hears && s.Armed:
		return "It cannot know. Nothing cuts."
	case hears && c.willArm():
		return "It cannot know, and will ARM."
	case hears:
		return "It cannot know. It was not armed."
	case r.Lost != lossrun.NotYet:
		return "It noticed. It was not armed."
	}
	return "Silence; it waits " + Seconds(r.Limit-r.Last) + "."
}

func (c LossCraft) shortBack() string {
	r, s := c.Run, c.Snap
	switch {
	case r.Again != lossrun.NotYet && s.Armed && r.Again-r.Back <= 2*int64(c.Cfg.SlotTicks):
		return "It ARMED at once: the arm control was on."
	case r.Again != lossrun.NotYet && s.Armed:
		return "Armed again."
	case s.Sinking:
		return "It hears the radio, and sinks on."
	case s.Armed:
		return "It obeys the radio at once."
	case s.Refusals == 0:
		return "It can be armed now."
	}
	return "To arm it again:"
}

// LossStoredShort names stored values in as few words as a room can read.
func LossStoredShort(s lossrun.Stored, cfg *sim.Config) string {
	switch {
	case s == lossrun.OfFile && lossrun.Own(cfg):
		return "the craft file's values"
	case s == lossrun.ArmedLow:
		return "armed, throttle low"
	case s == lossrun.ArmedThrottle:
		return "armed, throttle as it was"
	case !facts.BySticks(cfg):
		return "arm off, throttle low"
	}
	return "the disarming corner"
}

// LossAsk is a refusal in as few words as a room can read: what to do where that holds, else what must be so.
func LossAsk(x facts.Refusing, f *facts.Facts) string {
	cfg, s := &f.Craft, &f.Snap
	switch x.Refusal {
	case facts.ThrottleUp:
		return cured(&x, f, "throttle down", "throttle below "+Exact(cfg.Arming.LowThrottle))
	case facts.OffFirst:
		if f.BySticks {
			return "yaw out of the corner first"
		}
		return cured(&x, f, "arm switch off first", "arm seen off first")
	case facts.SecondSwitchOff:
		return cured(&x, f, "second switch on", "second switch seen on")
	case facts.NotSelfLevelling:
		return "mode angle or horizon"
	case facts.NoLink:
		return lossLink(&x)
	case facts.LinkTooFresh:
		if s.CleanLeftMillis == 0 {
			return cured(&x, f, "wait", "a whole link")
		}
		return cured(&x, f, "wait ", "link whole for ") + left(s.CleanLeftMillis)
	case facts.ChannelMissing:
		return "all channels there"
	case facts.NotYetStill:
		return "stand still"
	case facts.IsTilted:
		return cured(&x, f, "set it level", "level")
	case facts.BeingSetUp:
		switch by := f.SetUpBy(); {
		case by == happening.ByCable:
			return "cable out"
		case by&happening.ByCable != 0:
			return "cable out, menu closed"
		}
		return "menu closed"
	case facts.PackLow:
		return cured(&x, f, "another pack", "a fuller pack")
	case facts.PropellersUnchecked:
		return cured(&x, f, "check the propellers", "propellers checked")
	}
	return Refusal(x.Refusal)
}

// lossLink is what brings the link there.
func lossLink(x *facts.Refusing) string {
	if d := x.Cure.Deeds(); x.Cure.OK && len(d) > 0 {
		switch last := d[len(d)-1].Do; {
		case last == facts.RadioOn && len(d) == 1:
			return "radio on"
		case last == facts.RadioOn:
			return "radio plugged in and on"
		case last == facts.PlugIn:
			return "radio plugged in"
		case last == facts.Move:
			return "all channels there"
		case last == facts.StickMoves:
			return "a stick moved"
		}
	}
	return "a link"
}
