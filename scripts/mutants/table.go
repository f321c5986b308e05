package main

// mutant is one rule of arming or link broken on purpose by changing one line, and the test that must notice.
type mutant struct {
	Name string // the rule that is broken
	File string
	Old  string // a part of exactly one line
	New  string
	Pkg  string
	Test string // must fail
}

const (
	arm    = "sim/arming/arming.go"
	refuse = "sim/arming/refusal.go"
	lnk    = "sim/link/link.go"
	lay    = "sim/layout/layout.go"
	thrust = "sim/bench.go"
	stable = "sim/flight/stabilise.go"
	bench  = "./sim"
	flying = "./sim/flight"
)

// table holds at least one break for each rule of arming and link (README, "What the bench does").
var table = []mutant{
	{"arms with the throttle up", refuse, "in.Throttle >= cfg.LowThrottle)", "in.Throttle >= 2*cfg.LowThrottle)", bench, "TestThrottleMarkIsExact"},
	{"the low mark itself counts as low", refuse, "in.Throttle.Valid() && in.Throttle >= cfg.LowThrottle", "in.Throttle.Valid() && in.Throttle > cfg.LowThrottle", bench, "TestThrottleMarkIsExact"},
	{"arms at power-up with the switch on", arm, "return State{OffFirst: true}", "return State{}", bench, "TestPowerUpLatchAloneKeepsItFromArming"},
	{"clearing the reason alone arms", arm, "s.Inside = true", "s.Inside = s.Armed", bench, "TestClearingTheReasonAloneNeverArms"},
	{"a refusal sets no latch", arm, "s.OffFirst = true\n\t\t} else", "s.OffFirst = false\n\t\t} else", bench, "TestClearingTheReasonAloneNeverArms"},
	{"leaving the span does not disarm in a damaged frame", arm, "if in.Received && in.Arm == layout.Outside {", "if in.Valid && in.Arm == layout.Outside {", bench, "TestInvalidFrameStillDisarms"},
	{"a damaged frame counts as seen off", arm, "\t\tif in.Valid {\n\t\t\ts.Inside = false", "\t\tif in.Received {\n\t\t\ts.Inside = false", bench, "TestInvalidFrameStillDisarms"},
	{"off seen during the clean time is enough", arm, "if in.Phase == link.Good {\n\t\t\t\ts.OffFirst = false", "if in.Phase != link.Lost {\n\t\t\t\ts.OffFirst = false", bench, "TestSwitchOnDuringTheCleanTimeIsRefused"},
	{"the second switch is not asked for", refuse, "in.Second == layout.Outside", "in.Second == layout.Outside && s.Armed", bench, "TestSecondSwitch"},
	{"a beginner's craft arms in rate", refuse, "cfg.OnlySelfLevelling && !in.Mode.SelfLevelling()", "cfg.OnlySelfLevelling && !in.Mode.SelfLevelling() && s.Armed", bench, "TestOnlySelfLevelling"},
	{"arms on the cable", refuse, "	if c.Cable {", "	if c.Cable && c.Moved {", bench, "TestOnCableNeverArms"},
	{"arms while tilted", refuse, "c.TiltTenths > cfg.TiltLimitTenths", "c.TiltTenths > cfg.TiltLimitTenths+1", bench, "TestCraftGroupRefuses"},
	{"arms in the craft's menu", refuse, "case c.Menu == menuCraft:", "case c.Menu == menuCamera && c.Cable:", bench, "TestCraftGroupRefuses"},
	{"arms with a low pack", refuse, "c.PackMilliVolts < cfg.PackLimitMilliVolts", "c.PackMilliVolts+1 < cfg.PackLimitMilliVolts", bench, "TestCraftGroupRefuses"},
	{"arms before it has stood still", arm, "if in.Craft.Moved {", "if in.Craft.Moved && in.First {", bench, "TestNotYetStill"},
	{"arms with a channel missing", refuse, "in.Missing != 0", "in.Missing > 1<<15", bench, "TestChannelWithoutPulse"},
	{"a refusal disarms", refuse, "s.OffFirst && !s.Armed && s.controlOn", "s.OffFirst && s.controlOn", bench, "TestRefusalsNeverDisarm"},
	{"a lost link leaves no latch", arm, "\ts.OffFirst = true\n\ts.ArmDwell, s.DisarmDwell = 0, 0", "\ts.OffFirst = s.Armed && cfg.By == BySticks\n\ts.ArmDwell, s.DisarmDwell = 0, 0", bench, "TestSwitchOnDuringTheCleanTimeIsRefused"},
	{"a lost link does not cut", arm, "s.disarm(happening.ByLinkLoss, tick, log)", "_ = happening.ByLinkLoss", bench, "TestSilentReceiverCuts"},
	{"sinking lasts a slot too long", arm, "if s.Sink > cfg.SinkSlots {", "if s.Sink > cfg.SinkSlots+1 {", bench, "TestSinkCarriesAShareOfTheWeightThenCuts"},
	{"control comes back before the clean time", arm, "if in.Phase == link.Good {\n\t\tlog.Add", "if in.Phase.Up() {\n\t\tlog.Add", bench, "TestLinkBackWhileSinking"},
	{"a visit is refused again and again", arm, "s.ArmDwell = cfg.ArmDwell + 2", "s.ArmDwell = cfg.ArmDwell", bench, "TestDwellThatWasThereAtPowerUpIsSpent"},
	{"a dwell during a refusal arms", arm, "s.OffFirst = s.OffFirst || r != 0", "s.OffFirst = s.OffFirst || r != 0 && s.ArmDwell > cfg.ArmDwell", bench, "TestDwellDuringARefusalIsSpent"},
	{"a dwell across a loss arms", arm, "\ts.OffFirst = true\n\ts.ArmDwell, s.DisarmDwell = 0, 0", "\ts.OffFirst = cfg.By == BySwitch\n\ts.ArmDwell, s.DisarmDwell = 0, 0", bench, "TestDwellAcrossALossIsSpent"},
	{"noise at the edge ends a spent dwell", arm, "if in.Throttle >= cfg.LeaveThrottle || in.Yaw < cfg.LeaveRight {", "if in.Throttle >= cfg.LowThrottle || in.Yaw < cfg.YawRight {", bench, "TestNoiseAtTheEdge"},
	{"the arming dwell is a slot short", arm, "if s.ArmDwell == cfg.ArmDwell+1 {", "if s.ArmDwell == cfg.ArmDwell {", bench, "TestSticksArmAndDisarm"},
	{"disarming by sticks asks for a clean link", arm, "\tif !in.Valid {\n\t\treturn\n\t}\n\tif in.Throttle >= cfg.LeaveThrottle || in.Yaw > cfg.LeaveLeft {", "\tif !in.Valid || in.Phase != link.Good {\n\t\treturn\n\t}\n\tif in.Throttle >= cfg.LeaveThrottle || in.Yaw > cfg.LeaveLeft {", bench, "TestDisarmDwellBeforeTheCleanTime"},
	{"a disarming dwell from before the loss counts", arm, "s.ArmDwell, s.DisarmDwell = 0, 0", "s.ArmDwell = 0", bench, "TestDisarmDwellBegunBeforeTheLossDoesNotCount"},
	{"silence limit a slot too long", lnk, "if s.Gap >= cfg.SilenceSlots {", "if s.Gap > cfg.SilenceSlots {", bench, "TestSilentReceiverCuts"},
	{"clean time a slot too short", lnk, "if s.Clean > cfg.CleanSlots {", "if s.Clean >= cfg.CleanSlots {", bench, "TestCleanTime"},
	{"a bad slot does not start the clean time afresh", lnk, "s.Clean = 0 // a slot", "_ = 0 // a slot", bench, "TestCleanTimeStartsAfreshAfterOneBadSlot"},
	{"a still hand is silence", lnk, "out.Valid = out.Received &&", "out.Valid = out.Received && in.Sent != s.Last &&", bench, "TestHoldHidesTheLoss"},
	{"hold sends before the radio was heard", lnk, "case cfg.OnLoss == RepeatsLast && s.Heard:", "case cfg.OnLoss == RepeatsLast:", bench, "TestHoldAndPresetSendNothingBeforeTheRadioWasHeard"},
	{"preset sends before the radio was heard", lnk, "case cfg.OnLoss == SendsStored && s.Heard:", "case cfg.OnLoss == SendsStored:", bench, "TestHoldAndPresetSendNothingBeforeTheRadioWasHeard"},
	{"an unneeded channel makes the frame invalid", lnk, "if needed>>c&1 == 1 && !f[c].Valid()", "if !f[c].Valid()", bench, "TestChannelWithoutPulse"},
	{"a span includes its high end", lay, "(w < s.High ||", "(w <= s.High ||", bench, "TestModes"},
	{"a gap between mode spans keeps the craft level", lay, "\treturn Rate\n}\n\n// Needed", "\treturn Angle\n}\n\n// Needed", bench, "TestModes"},
}

// beside holds breaks that prove does not meet: the bench's own doors, what turns the motors, and rules by which no layout is judged,
// as how soon a craft stops within what it promises, and in whose name it tells it.
var beside = []mutant{
	{"power away does not end everything", "sim/apply.go", "*s = State{Tick: tick, In: in, Slot: b.cfg.PowerUp()}", "s.In = in; _ = tick", bench, "TestPowerAwayEndsEverything"},
	{"a craft that stands sinks all the same", arm, "cfg.SinkSlots == 0 || s.Low", "cfg.SinkSlots == 0 || s.Low && s.Sink > 0", bench, "TestLowThrottleAtTheLossCuts"},
	{"a damaged frame says where the throttle is", arm, "\tif in.Valid {\n\t\ts.Low =", "\tif in.Received {\n\t\ts.Low =", bench, "TestTheThrottleIsCaughtOnce"},
	{"the throttle is caught at each loss", arm, "\tif !s.Armed || s.Sink > 0 {", "\tif !s.Armed {", bench, "TestTheThrottleIsCaughtOnce"},
	{"sinking carries the whole weight", thrust, "float64(b.cfg.Flight.SinkCarries)/1000", "1", bench, "TestSinkCarriesAShareOfTheWeightThenCuts"},
	{"sinking knows the nominal voltage only", thrust, "volts = b.cfg.Body.Volts(&b.s.Air.Body, true)", "_ = b.cfg.Body.Volts(&b.s.Air.Body, true)", bench, "TestLinkLossInTheAir"},
	{"sinking asks for more than the throttle did", "sim/flight/flight.go", "v = min(v, int(in.SinkSpeed))", "v = int(in.SinkSpeed)", bench, "TestSinkNeverAsksForMoreThanTheThrottleDid"},
	{"what the receiver has stored counts as the hand", arm, "return happening.ByStored", "return hand", bench, "TestStoredValues"},
	{"what the receiver repeats counts as the hand", arm, "return happening.ByRepeated", "return hand", bench, "TestRepeatedAndStoredCornersDisarmByTheReceiver"},
	{"horizon levels to the end of the stick", stable, "horizonTo   = 0.98", "horizonTo   = 1.5", flying, "TestHorizonIsItsFormula"},
	{"horizon goes over in a straight line", stable, "return 1 - smooth(", "return 1 - min(1, ", flying, "TestHorizonIsItsFormula"},
}
