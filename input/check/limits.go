package check

import "propsoff.example/sim/pulse"

// The limits of the check. Each is ours unless its line says otherwise. What the kernel's own filter may hide or hold back (up to
// 3 raw steps, at most 4.1 µs; input.c) is allowed for in every one of them: a healthy radio passes through it.
const (
	// EndSlack: an end within 12 µs of 988 or 2012 µs passes. A healthy radio reads about 987 to 2011 (common practice, no
	// source), and three times the filter's lag is left.
	EndSlack = 12 * pulse.Eighths
	// LowThrottle is the mark below which throttle is low (the trade's 1000 µs; common practice, no source), where the craft
	// names no other.
	LowThrottle = 1000 * pulse.Eighths
	// LowMargin: a throttle that ends less than 5 µs below the low mark is one bump of noise away from refusing to arm.
	LowMargin = 5 * pulse.Eighths

	// CentrePass is twice the filter's lag; CentreWarn is 4 % of travel: at a limit of 40° such a stick, let go, still asks
	// for a bank of a degree and a half.
	CentrePass = 8 * pulse.Eighths
	CentreWarn = 20 * pulse.Eighths

	// NoiseLeast, NoisePass and NoiseWarn are standard deviations in thousandths of a µs. Noise counts as NoiseLeast at least, because the
	// kernel's filter hides less. Six times NoiseWarn is 30 µs: all of the margin that a switch position should keep to a span's edge.
	NoiseLeast = 1000
	NoisePass  = 2000
	NoiseWarn  = 5000

	// FlatPass: movements smaller than this round the middle may vanish without being felt; beyond FlatWarn (4 % of the
	// whole way) the stick does nothing in a zone that a hand can feel.
	FlatPass = 8 * pulse.Eighths
	FlatWarn = 40 * pulse.Eighths
	// BluntedHides is what the kernel's classic interface hides at most to each side: a sixteenth of the whole way (joydev.c,
	// hid-input.c: flat = (max-min)>>4).
	BluntedHides = 64 * pulse.Eighths

	// JumpLeast and JumpTime: a jump is a report at least 60 µs off and back within 20 ms. A step faster than HandFastest is one as well:
	// 100 µs of pulse a millisecond is from end to end in 10 ms, several times faster than a thumb or a spring. JumpsWarn: one jump may be a
	// knock, more are a fault.
	JumpLeast   = 60 * pulse.Eighths
	JumpTime    = 20_000
	HandFastest = 100
	handSlack   = 20 // µs: what the filter holds back and lets go
	JumpsWarn   = 1

	// LostWarn is how often readings may be lost, which a busy computer does once or twice, before it fails. A radio that was gone was
	// unplugged, or its plug is loose.
	LostWarn = 2

	// RatePass and RateWarn are reports a second while a control moves. A craft gets a frame every 20 ms: with fewer than two reports a
	// frame what it gets is often old, with fewer than one it always is.
	RatePass = 100
	RateWarn = 50

	// PositionPass: a switch rests within 12 µs of where it was learned. Beyond PositionWarn, 30 µs (the least margin to a span's edge), it
	// stands somewhere that the radio file knows nothing of.
	PositionPass = 12 * pulse.Eighths
	PositionWarn = 30 * pulse.Eighths
)

// Times in µs and distances of the check's own bookkeeping (all ours).
const (
	restTime    = 2_000_000 // once nothing has moved for so long, centre and noise are measured
	restLead    = 300_000
	tickMost    = 100_000
	restSpread  = 120 * pulse.Eighths
	restDrift   = 4 * pulse.Eighths // between the two halves of it: more is a hand
	restNear    = 300 * pulse.Eighths
	standTime   = 500_000   // a stick stands at an end
	standLong   = 2_000_000 // one without a spring may stand anywhere for a moment
	standNear   = 16 * pulse.Eighths
	standBest   = 30 * pulse.Eighths
	half        = pulse.Travel / 2 // beyond it a control is on its way to an end
	halfBack    = pulse.Travel / 4 // inside it, it has turned back
	fewTurns    = 3                // an end that is short counts after so many visits
	backNear    = 120 * pulse.Eighths
	downNear    = 40 * pulse.Eighths
	seenTime    = 60_000  // a switch stands in a position
	strayTime   = 300_000 // and rests at a place
	cornerQuick = 300_000
	cornerSlow  = 2_000_000
	cornerStill = 80 * pulse.Eighths
	crossFrom   = 200 * pulse.Eighths // the way through the middle is looked at from here …
	crossZone   = 80 * pulse.Eighths  // … and a flat spot is looked for in here
	crossMost   = 1_500_000
	crossPause  = 250_000 // a longer pause is a hand that rests
	crossings   = 2
	usualPeriod = 20_000 // between two reports, while it is not known
	movingGap   = 100_000
	fewReports  = 40
)
