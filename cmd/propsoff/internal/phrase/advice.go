package phrase

import (
	"strconv"
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// Keys names the keys that a sentence may tell a person to press; one that does nothing now is empty. Drive is true where the keyboard
// moves the sticks or would at the first press, as while the Demo pilot flies or Nobody does. A script or take is Played, then it has
// Ended.
type Keys struct {
	Drive, Demo, Nobody, Played, Ended                                bool
	Arm, Second, Down, Zero, YawLeft, YawRight, Pack, Radio, TakeOver string
	// After says who drives after TakeOver, once what was played has ended: 1 the demo pilot, 3 a radio (AfterName), else the keyboard.
	After     int
	AfterName string
}

// advice are the sentences on what to do now, one for each code of facts.Next.
var advice = [facts.NextCount]func(f *facts.Facts, k *Keys) string{
	facts.NextWatch:        watch,
	facts.NextPack:         packIn,
	facts.NextDisarmByHand: func(f *facts.Facts, k *Keys) string { return "To disarm, " + toDisarm(f, k) + "." },
	facts.NextDisarmNeeds:  needsToDisarm,
	facts.NextDisarmByBack: disarmByBack,
	facts.NextDisarmItself: itself,
	facts.NextDisarmByPack: func(f *facts.Facts, k *Keys) string { return unreached(f) + " " + press(k.Pack, "pull", " the pack.") },
	facts.NextArm:          func(f *facts.Facts, k *Keys) string { return "To arm, " + toArm(f, k) + "." },
	facts.NextCureThenArm:  cureThenArm,
	facts.NextClearThenArm: func(f *facts.Facts, k *Keys) string {
		return "First clear what refuses. Then " + toArm(f, k) + " to arm."
	},
	facts.NextSwitchOver: switchOver,
	facts.NextRadio:      radioFirst,
	facts.NextCannotArm:  cannotArm,
}

// Next says what to do now, or what there is where nobody can do anything or somebody else asks for something.
func Next(f *facts.Facts, k Keys) string {
	switch {
	case f.Plain:
		return switchedOff(f)
	case k.Demo:
		return "Watch the demo pilot, or press any stick key, such as " + k.Down + ", to take over."
	case k.Nobody:
		return "Press any stick key, such as " + k.Down + ", to drive by keyboard; or plug a radio in by USB."
	case k.Ended:
		return "What was played has ended. Press " + k.TakeOver + " to " + goOn(k) + "."
	}
	return advice[f.Next()](f, &k)
}

// OnTheBench names a key that works there, on a sheet on which it does not.
func OnTheBench(key string) string { return key + " on the bench" }

// packIn is for a craft without power. What would refuse arming, or could turn motors, is brought down first: no pack goes in before.
func packIn(f *facts.Facts, k *Keys) string {
	const none = "The craft has no power. "
	var first []string
	if f.HoldsUp {
		first = append(first, "bring the throttle down"+keyed(k.Zero, k))
	}
	switch {
	case f.HoldsOn && f.BySticks:
		first = append(first, "bring yaw back to the middle")
	case f.HoldsOn:
		first = append(first, "put the arm switch off"+keyed(k.Arm, k))
	}
	if len(first) == 0 {
		return none + press(k.Pack, "connect", " its pack.")
	}
	return none + "First " + strings.Join(first, "; ") + "; then " + uncapital(press(k.Pack, "connect", " its pack."))
}

// keyed names a key of the keyboard's hand.
func keyed(key string, k *Keys) string {
	if !k.Drive || key == "" {
		return ""
	}
	return " (" + key + ")"
}

// press says what to do, by a key where there is one: "Press P to pull the pack." or "Pull the pack."
func press(key, do, what string) string {
	if key == "" {
		return capital(do) + what
	}
	return "Press " + key + " to " + do + what
}

// watch says what there is while what drives takes no orders.
func watch(f *facts.Facts, _ *Keys) string {
	s := &f.Snap
	switch off := switchedOff(f); {
	case off != "" && !s.Armed:
		return off
	case s.Sinking:
		return "The link is lost: the craft " + goesDown(f) + ", then cuts."
	case f.Silent == facts.SwitchedOff && s.Armed:
		return "The radio is off, and the craft is armed still."
	case f.Nobody:
		return "Nothing acts as a radio yet."
	}
	return "What is played moves sticks and switches. Watch."
}

// switchedOff says what is off, and gives nothing away of what comes of it; empty where all is on.
func switchedOff(f *facts.Facts) string {
	switch {
	case f.Hearing == facts.NoPower:
		return "The craft has no power."
	case f.Silent == facts.SwitchedOff:
		return "The radio is off."
	}
	return ""
}

// goOn says what pressing TakeOver does after what was played has ended.
func goOn(k Keys) string {
	switch {
	case k.After == 1:
		return "go back to the demo pilot"
	case k.After == 3 && k.AfterName != "":
		return "go on by " + k.AfterName
	case k.After == 3:
		return "go on by radio"
	}
	return "go on by keyboard"
}

// armedBy and disarmedBy say what the craft must read to arm and to disarm: "channel 5 at 1700 µs or above", "throttle below 1000 µs and
// yaw at 1935.2 or above, for 0.8 s".
func armedBy(cfg *sim.Config) string {
	l, a := &cfg.Layout, &cfg.Arming
	if l.Arm != layout.NoChannel {
		return "channel " + strconv.Itoa(int(l.Arm)+1) + " " + stands(l.ArmSpan)
	}
	return "throttle below " + Exact(a.LowThrottle) + " µs and yaw at " + Exact(a.YawRight) + " or above, for " + slots(cfg, a.ArmDwell)
}

func disarmedBy(cfg *sim.Config) string {
	l, a := &cfg.Layout, &cfg.Arming
	if l.Arm != layout.NoChannel {
		return "channel " + strconv.Itoa(int(l.Arm)+1) + " " + off(l.ArmSpan)
	}
	return "throttle below " + Exact(a.LowThrottle) + " µs and yaw at " + Exact(a.YawLeft) + " or below, for " + slots(cfg, a.DisarmDwell)
}

// reads turns such a condition into what a craft reads: "channel 5 must read 1700 µs or above".
func reads(f *facts.Facts, arm bool) string {
	cfg := &f.Craft
	if f.BySticks {
		if arm {
			return "the craft must read yaw below " + Micros(cfg.Arming.LeaveRight) + " first, then " + armedBy(cfg)
		}
		return "the craft must read " + disarmedBy(cfg)
	}
	l := &cfg.Layout
	name := "channel " + strconv.Itoa(int(l.Arm)+1) + " must read "
	if arm {
		return name + beyond(l.ArmSpan) + " first, then " + at(l.ArmSpan)
	}
	return name + beyond(l.ArmSpan)
}

// slots is a number of slots as a time.
func slots(cfg *sim.Config, n uint16) string { return Seconds(int64(n) * int64(cfg.SlotTicks)) }

// off says where a switch stands that is outside a span.
func off(span layout.Span) string {
	if span.Low <= pulse.Lowest && span.High < pulse.Highest {
		return "at " + beyond(span)
	}
	return beyond(span)
}

// at and beyond say what must be read, inside and outside a span.
func at(span layout.Span) string {
	if span.High >= pulse.Highest && span.Low > pulse.Lowest {
		return Exact(span.Low) + " µs or above"
	}
	return into(span)
}

func beyond(span layout.Span) string {
	switch {
	case span.High >= pulse.Highest:
		return "below " + Exact(span.Low) + " µs"
	case span.Low <= pulse.Lowest:
		return Exact(span.High) + " µs or above"
	}
	return "below " + Exact(span.Low) + " or from " + Exact(span.High) + " µs on"
}

// toArm and toDisarm are what the hand does. Where what is planted may bend it, the craft's reading counts, and that is said instead of the
// way to go.
func toArm(f *facts.Facts, k *Keys) string {
	cfg := &f.Craft
	held := slots(cfg, cfg.Arming.ArmDwell)
	switch {
	case f.BySticks && f.Unsure:
		return "hold the sticks so that the craft reads " + armedBy(cfg)
	case f.BySticks && k.Drive:
		return "hold " + k.Down + " and " + k.YawRight + " for " + held + " (throttle low, yaw right)"
	case f.BySticks:
		return "hold throttle low and yaw fully right for " + held
	case k.Drive && f.Unsure:
		return "press " + k.Arm + ", so that the craft reads " + armedBy(cfg)
	case k.Drive:
		return "press " + k.Arm + " (arm switch on)"
	case f.Unsure:
		return "move the arm switch, so that the craft reads " + armedBy(cfg)
	}
	return "move the arm switch on (" + armedBy(cfg) + ")"
}

func toDisarm(f *facts.Facts, k *Keys) string {
	cfg := &f.Craft
	held := slots(cfg, cfg.Arming.DisarmDwell)
	switch {
	case f.BySticks && f.Unsure:
		return "hold the sticks so that the craft reads " + disarmedBy(cfg)
	case f.BySticks && k.Drive:
		return "hold " + k.Down + " and " + k.YawLeft + " for " + held + " (throttle low, yaw left)"
	case f.BySticks:
		return "hold throttle low and yaw fully left for " + held
	case k.Drive && f.Unsure:
		return "press " + k.Arm + ", so that the craft reads " + disarmedBy(cfg)
	case k.Drive:
		return "press " + k.Arm + " (arm switch off)"
	case f.Unsure:
		return "move the arm switch, so that the craft reads " + disarmedBy(cfg)
	}
	return "move the arm switch off (" + disarmedBy(cfg) + ")"
}

// needsToDisarm says what the craft must read, of a craft that hears the radio and does not read it.
func needsToDisarm(f *facts.Facts, k *Keys) string {
	out := "To disarm, " + reads(f, false) + nowReads(f) + "."
	if f.SticksTaken {
		out = "The instructor has the sticks. " + out
	}
	if m := missing(&f.Snap, &f.Craft, f.Craft.Link.Needed); f.Hearing == facts.Damaged && m != "" {
		out += " " + capital(m) + "."
	}
	if f.Disarm[facts.BySilence].OK && !f.ReceiverHidden {
		out += " " + capital(silentRadio(f)) + " disarms it too."
	}
	return out + " Or " + uncapital(press(k.Pack, "pull", " the pack."))
}

// nowReads says what the arm channel reads now.
func nowReads(f *facts.Facts) string {
	l := &f.Craft.Layout
	if l.Arm == layout.NoChannel {
		return ""
	}
	if w := f.Snap.Received[l.Arm]; w.Valid() {
		return "; it reads " + Micros(w) + " µs"
	}
	return "; it carries no pulse"
}

// itself says that a craft disarms without anybody's doing.
func itself(f *facts.Facts, k *Keys) string {
	in := left(int(f.Disarm[facts.ByItself].Ms))
	back := ""
	if f.Silent == facts.SwitchedOff && k.Radio != "" {
		back = " Press " + k.Radio + " to switch it on."
	}
	if !f.Snap.Sinking {
		return silentNow(f) + ". It disarms in " + in + "." + back
	}
	what := "The link is lost"
	if f.Silent == facts.SwitchedOff {
		what = "The radio is off"
	}
	return what + ": the craft " + goesDown(f) + " and cuts in " + in + "." + back + " Only a good link gives the pilot control again."
}

// goesDown says how a craft sinks that may climb still.
func goesDown(f *facts.Facts) string {
	how := "sinks"
	if f.SinkKnown && climbs(f.Sink.Climbs) {
		how = "climbs on, to sink"
	}
	return how + " (" + sinks(&f.Craft) + ")"
}

// silentNow says why what the hand does reaches nobody now.
func silentNow(f *facts.Facts) string {
	switch f.Silent {
	case facts.Unplugged:
		return "The radio is not plugged in"
	case facts.SwitchedOff:
		return "The radio is off"
	}
	return "No frames of the radio's come"
}

// unreached says that nothing of the hand's reaches the craft.
func unreached(f *facts.Facts) string {
	if f.Hearing == facts.ItsReceiver {
		return silentNow(f) + ", and the receiver goes on sending: no stick or switch reaches the craft."
	}
	return silentNow(f) + ": no stick or switch reaches the craft."
}

// disarmByBack says how the radio, back again, disarms.
func disarmByBack(f *facts.Facts, k *Keys) string {
	on := "switch the radio on"
	switch {
	case f.Silent == facts.Unplugged && !f.Snap.In.Transmitter:
		on = "plug the radio in and switch it on"
	case f.Silent == facts.Unplugged:
		on = "plug the radio in"
	case k.Radio != "":
		on = "press " + k.Radio + " (radio on)"
	}
	do := "put the arm switch off, then " + on
	if f.BySticks {
		do = on + ", then " + toDisarm(f, k)
	}
	pack := "pull the pack"
	if k.Pack != "" {
		pack = "press " + k.Pack + " (pack off)"
	}
	return unreached(f) + " To disarm, " + do + "; or " + pack + "."
}

// cureThenArm names the one thing to clear first where that is the throttle.
func cureThenArm(f *facts.Facts, k *Keys) string {
	first := "First clear what refuses"
	if f.ThrottleUp() && f.N == 1 && !f.Unsure {
		first = "First bring the throttle below " + Exact(f.Craft.Arming.LowThrottle)
		if k.Drive {
			first = "First hold " + k.Down + ", or press " + k.Zero + ", to bring the throttle below " + Exact(f.Craft.Arming.LowThrottle)
		}
	}
	return first + ". Then " + toArm(f, k) + " to arm."
}

// switchOver is for an arm control that stands at on though the craft is disarmed.
func switchOver(f *facts.Facts, k *Keys) string {
	if !f.BySticks {
		return "The arm switch is on, yet the craft is disarmed. " + capital(toDisarm(f, k)) + "; clear what refuses; then move it on again."
	}
	leave := "Let yaw go back"
	if k.Drive {
		leave = "Let go of " + k.YawRight
	}
	return leave + ": this try is used up. Clear what refuses, then " + toArm(f, k) + "."
}

// radioFirst is for a silent radio.
func radioFirst(f *facts.Facts, k *Keys) string {
	out := silentNow(f)
	if f.Hearing == facts.ItsReceiver {
		out += ", and the receiver goes on sending"
	}
	out += "."
	first := f.RadioFirst()
	if len(first) > 0 && (first[0].Do == facts.Move || first[0].Do == facts.LeaveCorner) {
		off := "Put the arm switch off first; then "
		if f.BySticks {
			off = "Bring yaw back to the middle first; then "
		}
		return out + " " + off + uncapital(radioBack(f, k)) + armsThen(f)
	}
	return out + " " + radioBack(f, k) + armsThen(f)
}

// armsThen warns where the craft arms in the moment in which the radio is heard.
func armsThen(f *facts.Facts) string {
	if f.Arm.Sudden {
		return " The craft arms at once then."
	}
	return ""
}

func radioBack(f *facts.Facts, k *Keys) string {
	switch {
	case f.Silent == facts.Unplugged && !f.Snap.In.Transmitter:
		return "Plug its USB cable in and switch it on."
	case f.Silent == facts.Unplugged:
		return "Plug its USB cable in."
	}
	return press(k.Radio, "switch", " it on.")
}

// cannotArm says what arms the craft where no way of this hand's was found.
func cannotArm(f *facts.Facts, _ *Keys) string {
	switch {
	case f.ArmHeld && !f.ArmOn():
		return "The instructor's radio holds the arm switch off. Arming takes both: yours off first; then, with the instructor's on, yours on."
	case f.SticksTaken:
		return "The instructor has the sticks."
	}
	if f.N > 0 {
		return "First what refuses must clear. Then, to arm, " + reads(f, true) + "."
	}
	return "To arm, " + reads(f, true) + "."
}
