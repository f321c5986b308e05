package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim"
	"propsoff/sim/happening"
)

// LossKeys are the keys of the demonstration as its sentences name them; a key that does nothing now is empty. Bench are those of the
// bench's own advice.
type LossKeys struct {
	Radio, Fly, Anew words.Text
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
func LossNext(r *lossrun.Run, f *facts.Facts, k LossKeys, p LossPilot) words.Text {
	s := &f.Snap
	off := words.T("loss.do-off", words.Args{"key": k.Radio})
	switch {
	case k.Radio.Empty():
		return words.T("loss.watch-played")
	case r.Phase == lossrun.Off:
		return words.Row(words.T("loss.compare"), lossBack(f, &k))
	case r.Phase == lossrun.Back:
		return words.T("loss.see-what-it-takes", words.Args{"key": k.Anew})
	case f.Silent == facts.SwitchedOff && f.RadioBack:
		return words.T("loss.radio-on-first", words.Args{"key": k.Radio})
	case f.Silent == facts.SwitchedOff && s.In.Powered:
		return words.T("loss.radio-is-off")
	case f.Silent == facts.Unread:
		return words.T("loss.move-a-stick")
	case p.Flown && p.Steady:
		return words.Row(words.T("loss.they-hover"), off)
	case p.Flown && p.Comes == facts.PilotFlies:
		return words.T("loss.pilot-flies", words.Args{"key": k.Radio})
	case p.Flown && p.Comes == facts.PilotCannotArm:
		return words.Row(words.T("loss.pilot-cannot-arm"), lossRefusal("loss.asked-for", f, &k))
	case p.Flown:
		return words.Row(words.T("loss.pilot-tries"), off)
	case s.Armed && (!s.In.Air || s.Air.Flying):
		return words.Row(words.T("loss.all-the-same"), off)
	}
	out := lossArm(f, &k)
	if p.Comes == facts.PilotFlies {
		out = words.Row(out, words.T("loss.or-pilot", words.Args{"key": k.Fly}))
	}
	return out
}

// lossBack says how the radio comes back that went off, where it can.
func lossBack(f *facts.Facts, k *LossKeys) words.Text {
	switch {
	case !f.RadioBack:
		return words.Text{}
	case f.Silent == facts.SwitchedOff:
		return words.T("loss.do-on", words.Args{"key": k.Radio})
	case f.Snap.In.Transmitter:
		return words.T("loss.plug-in", words.Args{"key": words.Text{}})
	}
	return words.T("loss.plug-in", words.Args{"key": k.Radio})
}

// lossRefusal says what refuses first; for a room, what it asks for, by a message that has it as "ask".
func lossRefusal(short words.ID, f *facts.Facts, k *LossKeys) words.Text {
	switch {
	case f.N == 0:
		return words.Text{}
	case k.Short:
		return words.T(short, words.Args{"ask": LossAsk(f.Refusing[0], f)})
	}
	return Sentence(f.Refusing[0], f)
}

// lossArm says how the hand brings the three to where the radio may go off: what refuses first, of which this sheet shows nothing.
func lossArm(f *facts.Facts, k *LossKeys) words.Text {
	if f.Snap.Armed || f.Next() == facts.NextArm {
		return words.T("loss.throttle-up", words.Args{"arm": words.Flag(!f.Snap.Armed), "key": k.Radio})
	}
	if !f.Tried || f.N == 0 {
		return Next(f, k.Bench)
	}
	refuses := lossRefusal("loss.to-arm-first", f, k)
	if k.Short {
		return refuses
	}
	return words.Row(refuses, Next(f, k.Bench))
}

// LossLine names a line of a craft's time: 0 radio, 1 link, 2 armed, 3 motors.
func LossLine(i int) words.Text {
	return words.T([...]words.ID{"loss.line-radio", "loss.line-link", "loss.line-armed", "loss.line-motors"}[i])
}

func LossAxis(ms int64) words.Text { return Seconds(ms) }

// LossNothing stands in a craft's time before the radio goes off.
func LossNothing(f *facts.Facts) words.Text {
	switch {
	case f.Hearing == facts.NoPower:
		return words.T("loss.hears-nothing")
	case f.Silent == facts.SwitchedOff:
		return words.T("loss.off-already")
	case f.Silent == facts.Unread:
		return words.T("loss.no-radio-yet")
	case f.Silent != facts.NotSilent:
		return words.T("loss.silent-already")
	}
	return words.T("loss.still-heard")
}

// LossHeight says how high they were when the radio went off.
func LossHeight(r *lossrun.Run) words.Text {
	if !r.Before.Flying {
		return words.T("loss.stood")
	}
	return words.T("loss.height", words.Args{"height": Metres(r.Before.Height)})
}

// LossMotors is what the motors of a craft do on the desk bench.
func LossMotors(s *sim.Snapshot, cfg *sim.Config) words.Text {
	return words.T("loss.motors-do", words.Args{"what": Motor(s.Motor[0], cfg.Flight.IdleSpeed)})
}

// LossClassNumber is a number of LossNumber in one short line; it says nothing where there is none yet.
func LossClassNumber(i int, c LossCraft) words.Text {
	r, value := c.Run, lossValue(i, c)
	switch {
	case value.Empty():
		return words.Text{}
	case i == 0 && r.Stopped != lossrun.NotYet:
		return words.T("loss.class-motors-stop", words.Args{"after": value})
	case i == 0:
		return words.T("loss.class-motors", words.Args{"do": value})
	case i == 1 && r.Down != lossrun.NotYet:
		return words.T("loss.class-ground", words.Args{"after": value, "speed": Speed(r.Speed)})
	case i == 1:
		return words.Listed(value, Metres(-c.Snap.Air.Body.Pos.Z))
	case i == 3:
		return words.T("loss.class-found", words.Args{"where": value})
	}
	return words.Text{}
}

// LossAsk is a refusal in as few words as a room can read: what to do where that holds, else what must be so.
func LossAsk(x facts.Refusing, f *facts.Facts) words.Text {
	do := cured(&x, f)
	switch x.Refusal {
	case facts.ThrottleUp:
		return words.T("loss.ask.throttle-up", words.Args{"do": do, "limit": Exact(f.Craft.Arming.LowThrottle)})
	case facts.OffFirst:
		return words.T("loss.ask.off-first", words.Args{"sticks": words.Flag(f.BySticks), "do": do})
	case facts.NoLink:
		return words.T(lossLink(&x))
	case facts.LinkTooFresh:
		wait := words.Text{}
		if f.Snap.CleanLeftMillis != 0 {
			wait = left(f.Snap.CleanLeftMillis)
		}
		return words.T("loss.ask.link-too-fresh", words.Args{"do": do, "left": wait})
	case facts.BeingSetUp:
		by := f.SetUpBy()
		return words.T("loss.ask.being-set-up", words.Args{"cable": words.Flag(by&happening.ByCable != 0), "menu": words.Flag(by != happening.ByCable)})
	case facts.NotSelfLevelling, facts.ChannelMissing, facts.NotYetStill:
		return words.Of("loss.ask", codes.Refusal(x.Refusal))
	case facts.SecondSwitchOff, facts.IsTilted, facts.PackLow, facts.PropellersUnchecked:
		return words.Of("loss.ask", codes.Refusal(x.Refusal), words.Args{"do": do})
	}
	return words.AsIs(codes.Refusal(x.Refusal))
}

// lossLink is what brings the link there.
func lossLink(x *facts.Refusing) words.ID {
	if d := x.Cure.Deeds(); x.Cure.OK && len(d) > 0 {
		switch last := d[len(d)-1].Do; {
		case last == facts.RadioOn && len(d) == 1:
			return "loss.ask.radio-on"
		case last == facts.RadioOn:
			return "loss.ask.radio-in-and-on"
		case last == facts.PlugIn:
			return "loss.ask.radio-in"
		case last == facts.Move:
			return "loss.ask.channel-missing"
		case last == facts.StickMoves:
			return "loss.ask.stick-moved"
		}
	}
	return "loss.ask.no-link"
}
