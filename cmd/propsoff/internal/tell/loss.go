package tell

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/vec"
)

// LossCraft is one of the three crafts of the failsafe demonstration, as its sentences need it.
type LossCraft struct {
	Cfg  *sim.Config
	Run  *lossrun.Run
	Snap *sim.Snapshot
	// Facts are those of Snap, nil where nothing was asked.
	Facts *facts.Facts
}

// LossRadio is the radio's own state, in large letters.
func LossRadio(on bool) words.Text { return words.T("loss.radio", words.Args{"on": words.Flag(on)}) }

// LossSilent says for how long the radio has been off, or back.
func LossSilent(r *lossrun.Run, now int64) words.Text {
	if r.Phase == lossrun.Waiting {
		return words.Text{}
	}
	return words.T("loss.time", words.Args{"off": words.Flag(r.Phase == lossrun.Off), "time": left(int(now - max(r.Off, r.Back)))})
}

// storedCode is the code word of stored values.
func storedCode(s lossrun.Stored, cfg *sim.Config) string {
	switch {
	case s == lossrun.OfFile && lossrun.Own(cfg):
		return "own"
	case s == lossrun.ArmedLow:
		return "low"
	case s == lossrun.ArmedThrottle:
		return "throttle"
	case facts.BySticks(cfg):
		return "corner"
	}
	return "off"
}

// LossStored names stored values.
func LossStored(s lossrun.Stored, cfg *sim.Config) words.Text {
	return words.Of("loss.stored", storedCode(s, cfg))
}

// LossStoredShort names them in as few words as a room can read.
func LossStoredShort(s lossrun.Stored, cfg *sim.Config) words.Text {
	return words.Of("loss.stored-short", storedCode(s, cfg))
}

// LossStoredFrom says where they come from, and what they show.
func LossStoredFrom(s lossrun.Stored, cfg *sim.Config) words.Text {
	return words.Of("loss.from", storedCode(s, cfg))
}

// LossWill says beforehand what comes when the radio goes off: of a craft that is armed as it now is.
func LossWill(c LossCraft) words.Text {
	q := facts.Silence(c.Cfg)
	switch {
	case c.Cfg.Link.OnLoss == facts.RepeatsLast:
		return words.T("loss.will-repeat")
	case c.Cfg.Link.OnLoss != facts.SendsStored:
		return words.T("loss.will-be-silent", words.Args{"then": c.cutsOrSinks(&q)})
	case q.ByValues():
		return words.T("loss.will-disarm", words.Args{"after": disarmedAfter(c.Cfg, &q)})
	case q.Lost != facts.Never:
		return words.T("loss.will-not-be-whole", words.Args{"then": c.cutsOrSinks(&q)})
	}
	return words.T("loss.will-stay-armed", words.Args{"flying": onlyFlying(&q)})
}

// cutsOrSinks says, as a clause, what comes of a craft that notices a lost link.
func (c LossCraft) cutsOrSinks(q *facts.Quiet) words.Text {
	after := Seconds(q.Lost)
	if q.Sinks == facts.Never {
		return words.T("loss.then-cuts", words.Args{"after": after, "low": words.Flag(false)})
	}
	known := facts.Unchanged
	if c.Facts != nil {
		known = c.Facts.IfSilent
	}
	if known == facts.Cuts {
		return words.T("loss.then-cuts", words.Args{"after": after, "low": words.Flag(true)})
	}
	args := placed(happening.Free)
	if known == facts.Sinks {
		args = placed(c.place())
	}
	args["after"], args["time"], args["surely"] = after, Seconds(q.Disarmed-q.Sinks), words.Flag(known == facts.Sinks)
	return words.T("loss.then-sinks", args)
}

// place is where the craft is; one of which nothing was asked flies.
func (c LossCraft) place() happening.Place {
	if c.Facts == nil {
		if c.Snap == nil {
			return happening.Free
		}
		return sim.PlaceOf(&c.Snap.In, &c.Snap.Air)
	}
	return c.Facts.Place()
}

// broken: it has broken.
func (c LossCraft) broken() words.Flag { return words.Flag(c.place() == happening.Broken) }

// disarmedAfter is how long after the radio's last frame stored values disarm a craft; it says nothing where they do at once.
func disarmedAfter(cfg *sim.Config, q *facts.Quiet) words.Text {
	if q.AtOnce(cfg) {
		return words.Text{}
	}
	return Seconds(q.Disarmed)
}

// onlyFlying: of the crafts that are armed when the radio falls silent, only a flying one surely stays so, for a dwell that the sticks have
// begun goes on by stored values.
func onlyFlying(q *facts.Quiet) words.Flag { return q.Ends != facts.Never }

// LossDoes says what the craft does now.
func LossDoes(c LossCraft) words.Text {
	switch {
	case !c.Snap.In.Powered:
		return words.T("loss.no-power")
	case c.Run.Phase == lossrun.Off:
		return c.off()
	case c.Run.Phase == lossrun.Back:
		return c.back()
	}
	return LossWill(c)
}

// off is said while the radio is silent.
func (c LossCraft) off() words.Text {
	r, s := c.Run, c.Snap
	switch {
	case r.ByItself != lossrun.NotYet && s.Armed:
		return words.T("loss.armed-by-itself", words.Args{"stored": words.Flag(c.Cfg.Link.OnLoss != facts.RepeatsLast), "sticks": words.Flag(facts.BySticks(c.Cfg))})
	case s.Sinking:
		args := placed(c.place())
		args["climbs"], args["how"], args["left"] = words.Flag(climbs(-s.Air.Body.Vel.Z)), sinks(c.Cfg), left(s.SinkLeftMillis)
		return words.Row(words.T("loss.sinks", args), c.sinkEnds())
	case r.Disarmed != lossrun.NotYet:
		return c.cut()
	case s.Armed && c.hears():
		return c.armedStill()
	case !s.Armed && r.Lost != lossrun.NotYet:
		return words.Row(words.T("loss.noticed", words.Args{"after": lossTime(r.Lost - r.Last)}), c.staysSo())
	case c.hears():
		return words.Row(words.T("loss.cannot-know"), c.staysSo())
	}
	return words.T("loss.waits", words.Args{"time": Seconds(r.Limit - r.Last)})
}

// armedStill is said of an armed craft that takes what its receiver sends for the radio's.
func (c LossCraft) armedStill() words.Text {
	r, s := c.Run, c.Snap
	q := facts.Silence(c.Cfg)
	knows, uncut := words.T("loss.cannot-know"), words.T("loss.nothing-cuts")
	repeats := c.Cfg.Link.OnLoss == facts.RepeatsLast
	switch {
	case q.ByValues():
		return words.T("loss.stored-disarm", words.Args{"after": disarmedAfter(c.Cfg, &q)})
	case c.cameDown():
		return words.Row(words.T("loss.came-down", words.Args{"stored": words.Flag(!repeats), "speed": Speed(r.Speed), "where": c.lies(), "broken": c.broken()}), knows)
	case s.In.Air && !s.In.Hung && !s.Air.Flying:
		return words.Row(words.T("loss.stands-armed", words.Args{"broken": c.broken()}), knows)
	case repeats:
		return words.Row(words.T("loss.goes-on", words.Args{"flies": words.Flag(s.In.Air && !s.In.Hung)}), knows, uncut)
	case !r.Turns.Now():
		return words.Row(words.T("loss.still-yet-armed"), knows)
	}
	return words.Row(words.T("loss.stays-armed"), knows, uncut)
}

// staysSo says what comes of a craft that is not armed.
func (c LossCraft) staysSo() words.Text {
	switch {
	case c.Facts == nil:
		return words.T("loss.was-not-armed")
	case !c.willArm():
		return words.T("loss.stays-disarmed")
	case facts.BySticks(c.Cfg):
		return words.T("loss.corner-will-arm")
	}
	return words.T("loss.will-arm")
}

// willArm: it arms with nobody at the radio.
func (c LossCraft) willArm() bool { return c.Facts != nil && c.Facts.ArmsItself.OK }

// cameDown: it lies or stands where it came to the ground since the radio went off.
func (c LossCraft) cameDown() bool {
	return c.Snap.In.Air && !c.Snap.Air.Flying && c.Run.Down != lossrun.NotYet
}

// sinkEnds says how its sinking ends, where that is known.
func (c LossCraft) sinkEnds() words.Text {
	if c.Facts == nil || !c.Facts.SinkKnown {
		return words.Text{}
	}
	return sinkEnds(&c.Facts.Sink, true)
}

// hears tells whether the craft gets frames that it takes for the radio's while the radio is silent.
func (c LossCraft) hears() bool {
	return c.Cfg.Link.OnLoss == facts.RepeatsLast || c.Cfg.Link.OnLoss == facts.SendsStored && facts.Whole(c.Cfg)
}

// sank: what its state has sink did, or would have: on the stand and on the ground nothing does.
func sank(r *lossrun.Run) bool { return r.Before.Flying || !r.Before.Air }

// cut says how the craft came to be disarmed, and what came of it.
func (c LossCraft) cut() words.Text {
	ground, then := c.falls()
	return words.Row(words.Of("loss.cut", codes.Cause(c.Run.Cause), words.Args{
		"after": lossTime(c.Run.Disarmed - c.Run.Last), "ground": ground, "sticks": words.Flag(facts.BySticks(c.Cfg)),
		"sank": words.Flag(sank(c.Run)),
	}), then)
}

// falls says what came of a craft that was disarmed: whether it was on the ground by then, and what it does or did.
func (c LossCraft) falls() (ground, then words.Text) {
	r, s := c.Run, c.Snap
	where := words.Args{"where": c.lies(), "broken": c.broken()}
	switch {
	case !s.In.Air || s.In.Hung:
		return ground, words.T("loss.motors-still")
	case s.Air.Flying:
		return ground, words.T("loss.falls", words.Args{"climbs": words.Flag(climbs(-s.Air.Body.Vel.Z))})
	case r.Down == lossrun.NotYet:
		return words.T("loss.on-ground"), then
	case r.Down <= r.Disarmed:
		return words.T("loss.on-ground-by-then"), words.T("loss.lies", where)
	case r.Sinking != lossrun.NotYet:
		return ground, words.T("loss.fell-the-rest", where)
	}
	return ground, words.T("loss.fell", where)
}

// lies says how and where a craft lies.
func (c LossCraft) lies() words.Text {
	if down := c.Snap.Air.Body.Att.Unit().Turn(vec.V{Z: 1}).Z; down < 0.5 {
		return words.T("loss.on-side", words.Args{"back": words.Flag(down < -0.5)})
	}
	return found(c.Run.Away)
}

// found says where a craft lies, by its distance in m over the ground.
func found(away float64) words.Text {
	if away < 1 {
		return words.T("loss.right-below")
	}
	return words.T("loss.away", words.Args{"m": unit("metres", words.Whole(math.Round(away)))})
}

// back is said once the radio is heard again.
func (c LossCraft) back() words.Text {
	if c.broken() {
		return words.Row(c.heardAgain(), words.T("loss.broken"))
	}
	return c.heardAgain()
}

// heardAgain says what the radio, back again, comes to.
func (c LossCraft) heardAgain() words.Text {
	r, s := c.Run, c.Snap
	now := words.T("loss.to-arm")
	if s.Refusals == 0 {
		now = words.T("loss.can-arm")
	}
	switch {
	case r.Again != lossrun.NotYet && s.Armed:
		return words.T("loss.armed-again", words.Args{"once": words.Flag(c.againAtOnce()), "again": words.Flag(r.WasArmed()), "after": lossTime(r.Again - r.Back)})
	case r.Again != lossrun.NotYet:
		return words.T("loss.was-armed-again", words.Args{"again": words.Flag(r.WasArmed()), "after": lossTime(r.Again - r.Back)})
	case s.Sinking:
		args := placed(c.place())
		args["clean"] = slots(c.Cfg, c.Cfg.Link.CleanSlots)
		return words.T("loss.sinks-on", args)
	case s.Armed:
		return words.T("loss.obeys-again", words.Args{"lost": words.Flag(r.Lost != lossrun.NotYet)})
	case r.Disarmed > r.Back:
		return words.Row(words.T("loss.disarmed-by-radio", words.Args{"after": lossTime(r.Disarmed - r.Back)}), now)
	}
	unseen := r.Lost == lossrun.NotYet
	if s.Refusals == 0 {
		unseen = r.Clean == lossrun.NotYet
	}
	return words.Row(words.T("loss.disarmed", words.Args{"unseen": words.Flag(unseen)}), now)
}

// againAtOnce: it armed as soon as the radio was heard again.
func (c LossCraft) againAtOnce() bool {
	return c.Run.Again-c.Run.Back <= 2*int64(c.Cfg.SlotTicks)
}

// lossTime is a time in ms as seconds with two places.
func lossTime(ms int64) words.Text { return unit("seconds", rounded(float64(ms)/1000, 2)) }

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
		args := placed(c.place())
		args["climbs"] = words.Flag(climbs(-s.Air.Body.Vel.Z))
		return words.T("loss.short-sinks", args)
	case r.Disarmed != lossrun.NotYet && (r.Cause == happening.ByLinkLoss || r.Cause == happening.BySinkEnd):
		return words.T("loss.short-cut", words.Args{"after": lossTime(r.Disarmed - r.Last)})
	case r.Disarmed != lossrun.NotYet && r.Cause != happening.ByPowerLoss:
		after := words.Text{}
		if r.Disarmed-r.Off >= int64(c.Cfg.SlotTicks) {
			after = lossTime(r.Disarmed - r.Off)
		}
		return words.T("loss.short-stored-disarmed", words.Args{"after": after})
	case hears && s.Armed && q.ByValues():
		return words.T("loss.short-stored-disarm")
	case s.Armed && c.cameDown():
		return words.T("loss.short-came-down", words.Args{"broken": c.broken()})
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
		return words.T("loss.short-armed-again", words.Args{"again": words.Flag(r.WasArmed()), "once": words.Flag(c.againAtOnce())})
	case s.Sinking:
		return words.T("loss.short-sinks-on", placed(c.place()))
	case s.Armed:
		return words.T("loss.short-obeys", words.Args{"broken": c.broken()})
	case s.Refusals == 0:
		return words.T("loss.can-arm")
	}
	return words.T("loss.to-arm")
}
