package tell

import (
	"cmp"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
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
	case f.Place() == happening.Broken:
		return words.T("loss.broken-first", words.Args{"key": k.Anew})
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

// LossAxis is a time in ms at the axis of a craft's time.
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
		return words.T("loss.stood", words.Args{"hung": words.Flag(r.Before.Hung)})
	}
	return words.T("loss.height", words.Args{"height": Metres(r.Before.Height)})
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
	if x.Refusal == facts.NoLink {
		return words.T(lossLink(&x))
	}
	by, wait := f.SetUpBy(), words.Text{}
	if f.Snap.CleanLeftMillis != 0 {
		wait = left(f.Snap.CleanLeftMillis)
	}
	return words.Of("loss.ask", codes.Refusal(x.Refusal), words.Args{
		"do": do, "limit": Exact(f.Craft.Arming.LowThrottle), "sticks": words.Flag(f.BySticks), "left": wait, "levelling": LevellingModes(),
		"cable": words.Flag(by&happening.ByCable != 0), "menu": words.Flag(by != happening.ByCable),
	})
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

// LossNumbers is how many numbers LossNumber has.
const LossNumbers = 4

// LossNumber is a number of a craft under its names, the longest first: 0 when its motors stopped, 1 when it reached the ground, 2 its speed there, 3 how far from where
// the radio went off. Number 0 alone counts on the desk bench.
func LossNumber(i int, c LossCraft) (names []words.Text, value words.Text) {
	return numberNames([LossNumbers]words.ID{"loss.motors-after", "loss.ground-after", "loss.ground-speed", "loss.found"}[i]), orDash(lossValue(i, c))
}

// orDash is what there is to say, and a dash where there is nothing.
func orDash(t words.Text) words.Text {
	if t.Empty() {
		return words.AsIs("–")
	}
	return t
}

// lossValue is the value of LossNumber; it says nothing where there is none yet, or never will be.
func lossValue(i int, c LossCraft) words.Text {
	r := c.Run
	down := r.Down != lossrun.NotYet
	switch {
	case r.Phase == lossrun.Waiting:
	case i == 0 && r.Stopped != lossrun.NotYet:
		return lossTime(r.Stopped - r.Off)
	case i == 0:
		return words.T("loss.motors", words.Args{"turn": words.Flag(r.Turns.Now())})
	case down && i == 1:
		return lossTime(r.Down - r.Off)
	case down && i == 2:
		return Speed(r.Speed)
	case down:
		return found(r.Away)
	case i == 1 && c.Snap.Air.Flying:
		return words.T("loss.in-the-air")
	case i == 1 && !r.Before.Flying && !r.Before.Hung:
		return words.T("loss.stood-there")
	}
	return words.Text{}
}

// LossMark is one line of a craft's time: ms since the radio went off, what happened, and how much it matters where there is no
// room for all. Still to come is what has not happened yet.
type LossMark struct {
	Ms     int64
	Text   words.Text
	Weight int
	ToCome bool
}

// At is the time of a mark; what was before the radio went off says so in its text.
func (m *LossMark) At() words.Text { return lossTime(max(m.Ms, -m.Ms)) }

// LossMarks are what happened to a craft since the radio's last frame, in order; what happened in the same millisecond is one.
func LossMarks(c LossCraft) []LossMark {
	r, s := c.Run, c.Snap
	if r.Phase == lossrun.Waiting {
		return nil
	}
	var out []LossMark
	add := func(tick int64, weight int, text words.Text) {
		if ms, ok := r.Since(tick); ok {
			out = append(out, LossMark{Ms: ms, Text: text, Weight: weight})
		}
	}
	add(r.Last, 2, words.T("loss.mark-last", words.Args{"before": words.Flag(r.Last != r.Off)}))
	add(r.Off, 3, words.T("loss.mark-off"))
	switch {
	case r.Lost == r.Limit:
		add(r.Limit, 9, words.T("loss.mark-limit-lost"))
	case r.Back != lossrun.NotYet && r.Back < r.Limit:
	case s.Tick >= r.Limit:
		add(r.Limit, 5, words.T("loss.mark-limit-unnoticed"))
	default:
		add(r.Limit, 5, words.T("loss.mark-limit"))
		out[len(out)-1].ToCome = true
	}
	if r.Lost != r.Limit {
		add(r.Lost, 9, words.T("loss.mark-lost"))
	}
	if sank(r) {
		add(r.Sinking, 9, words.T("loss.mark-sinks"))
	}
	for i, tick := range r.Arms.At[:r.Arms.N] {
		switch armed := r.Arms.First == (i%2 == 1); {
		case armed && (r.Back == lossrun.NotYet || tick < r.Back):
			add(tick, 10, words.T("loss.mark-armed-by-itself"))
		case armed:
			add(tick, 9, words.T("loss.mark-armed", words.Args{"again": words.Flag(i > 0)}))
		default:
			cut := tick == r.Disarmed && (r.Cause == happening.ByLinkLoss || r.Cause == happening.BySinkEnd)
			add(tick, 9, words.T("loss.mark-disarmed", words.Args{"cut": words.Flag(cut)}))
		}
	}
	for i, tick := range r.Turns.At[:r.Turns.N] {
		switch turn := r.Turns.First == (i%2 == 1); {
		case turn:
			add(tick, 4, words.T("loss.mark-motors-turn"))
		case tick == r.Stopped:
			add(tick, 9, words.T("loss.mark-motors-stop"))
		default:
			add(tick, 4, words.T("loss.mark-motors-stop"))
		}
	}
	add(r.Down, 9, words.T("loss.mark-ground", words.Args{"speed": Speed(r.Speed)}))
	add(r.Broke, 8, words.T("loss.mark-broke"))
	add(r.Back, 8, words.T("loss.mark-back"))
	add(r.Clean, 6, words.T("loss.mark-clean"))
	add(r.Free, 7, words.T("loss.mark-free"))
	slices.SortStableFunc(out, func(a, b LossMark) int { return cmp.Compare(a.Ms, b.Ms) })
	merged := out[:0]
	for _, m := range out {
		if n := len(merged); n > 0 && merged[n-1].Ms == m.Ms {
			last := &merged[n-1]
			last.Text, last.Weight = words.Listed(last.Text, m.Text), max(last.Weight, m.Weight)
			continue
		}
		merged = append(merged, m)
	}
	return merged
}

// LossOf says what was shown: the craft, its height in m when the radio went off, and for how many ms it was off.
func LossOf(name string, height float64, off int64) words.Text {
	return words.T("loss.shown", words.Args{"craft": words.Quote(name), "height": Metres(height), "time": Seconds(off)})
}

// LossThirdHas says what the third receiver has stored.
func LossThirdHas(s lossrun.Stored, cfg *sim.Config) words.Text {
	if s == lossrun.OfFile && lossrun.Own(cfg) {
		return words.T("loss.third-has-own", words.Args{"values": storedValues(cfg)})
	}
	return words.Row(words.T("loss.third-has", words.Args{"values": LossStored(s, cfg)}), LossStoredFrom(s, cfg))
}

// storedValues lists what a craft file has its receiver send by itself, by the job of each channel, or its number where it has none.
func storedValues(cfg *sim.Config) words.Text {
	var all []words.Text
	for ch, w := range cfg.Link.Stored {
		if w.Valid() {
			all = append(all, words.T("loss.stored-value", words.Args{"channel": Channel(&cfg.Layout, ch), "width": Width(w)}))
		}
	}
	return words.Listed(all...)
}

// LossRows is how many rows the table has.
const LossRows = 12

// LossRowName names a row of the table; the silence limit with how long it is, as it begins with the radio's last frame.
func LossRowName(row int, cfg *sim.Config) words.Text {
	return words.T([LossRows]words.ID{
		"loss.row-last", "loss.row-limit", "loss.row-lost", "loss.row-sinks", "loss.row-disarmed", "loss.row-motors-stop", "loss.row-ground", "loss.row-speed", "loss.row-found",
		"loss.row-back", "loss.row-free", "loss.row-again",
	}[row], words.Args{"limit": slots(cfg, cfg.Link.SilenceSlots)})
}

// LossRow is a row of the table for one craft: as it was in the last moment without the radio, and in the end.
func LossRow(row int, silent, end LossCraft) words.Text {
	r, e := silent.Run, end.Run
	var tick int64
	none := words.AsIs("–")
	switch row {
	case 0:
		tick = r.Last
	case 1:
		tick = r.Limit
	case 2:
		tick, none = r.Lost, words.T("loss.never-noticed")
	case 3:
		tick = r.Sinking
	case 4:
		if tick = r.Disarmed; silent.Snap.Armed {
			none = words.T("loss.never-disarmed")
		}
	case 5, 6, 7, 8:
		return orDash(lossValue(row-5, silent))
	case 9:
		tick = e.Back
	default:
		if e.StayedArmed() { // what the hands switched later has nothing to do with the loss
			return none
		}
		if tick = e.Free; row > 10 {
			tick = e.Again
		}
		none = words.T("loss.not-in-this-time")
	}
	ms, ok := e.Since(tick)
	switch {
	case !ok:
		return none
	case ms < 0:
		return words.T("loss.before", words.Args{"time": lossTime(-ms)})
	}
	return lossTime(ms)
}

// LossPart heads the sentences under the table: 0 while the radio was off, 1 when it came back.
func LossPart(part int, cfg *sim.Config) words.Text {
	if part == 0 {
		return words.T("loss.part-off")
	}
	return words.T("loss.part-back", words.Args{"sticks": words.Flag(facts.BySticks(cfg))})
}
