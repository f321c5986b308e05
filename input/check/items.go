package check

// Kind is what an item is about.
type Kind uint8

const (
	// Direction: with both sticks in their top right corners this one stands at its high end (sticks).
	Direction Kind = iota
	// LowEnd and HighEnd: how far it goes (sticks, knobs).
	LowEnd
	HighEnd
	// Centre: how far off 1500 µs it rests (sticks with a spring).
	Centre
	// DeadZone: how much of the way round the middle changes nothing (sticks with a spring).
	DeadZone
	// Positions: whether it was seen in every position, where that was learned (switches).
	Positions
	// Noise: the standard deviation while nobody moves it (all on an axis).
	Noise
	// Jumps: readings that no hand made.
	Jumps
	// Dropouts: readings that were lost, and times at which the radio was gone (the whole radio).
	Dropouts
	// Rate: how many reports come while a control moves (the whole radio).
	Rate
	// KindCount is how many kinds there are.
	KindCount
)

var kindCodes = [KindCount]string{"direction", "low-end", "high-end", "centre", "dead-zone", "positions", "noise", "jumps", "lost-readings", "report-rate"}

// Code names a kind in JSON Lines.
func (k Kind) Code() string { return codeOf(kindCodes[:], int(k)) }

// Verdict is what a measured value comes to.
type Verdict uint8

// The verdicts, the worst last; VerdictCount is how many there are.
const (
	Waiting Verdict = iota // not measured yet
	Passes                 // as it should be
	Warns                  // it works, and should be mended
	Fails                  // it must be mended before the craft is flown
	VerdictCount
)

var verdictCodes = [VerdictCount]string{"waiting", "passes", "warns", "fails"}

// Code names a verdict in JSON Lines.
func (v Verdict) Code() string { return codeOf(verdictCodes[:], int(v)) }

// Unit is that of a measured value.
type Unit uint8

const (
	Micros    Unit = iota // thousandths of a µs
	Times                 // a count
	PerSecond             // thousandths of one a second
	Places                // a count of positions
)

var unitCodes = []string{"us", "times", "per-second", "positions"}

// Code names a unit in JSON Lines.
func (u Unit) Code() string { return codeOf(unitCodes, int(u)) }

// Side is on which side of its limit a value passes.
type Side uint8

// The sides. The limit itself passes, save for Below.
const (
	AtMost Side = iota
	AtLeast
	Below
)

var sideCodes = []string{"at-most", "at-least", "below"}

// Code names a side in JSON Lines.
func (s Side) Code() string { return codeOf(sideCodes, int(s)) }

// Why is what becomes of a craft that is flown all the same.
type Why uint8

// The reasons; NoWhy goes with what passes, WhyCount is how many there are.
const (
	NoWhy         Why = iota
	WrongWay          // the craft goes the other way than the stick
	NeverLow          // above the low mark a craft neither arms nor can be armed by sticks
	NearlyLow         // it is low, but only just
	CornerMissed      // the corner that arms or disarms by sticks is not reached
	NotFully          // the craft never gets all that was meant
	BeyondTravel      // it goes further than full travel
	NoPulse           // the end is so far out that it is no pulse any more
	Drifts            // let go, the craft still banks or turns
	Trembles          // the craft trembles, and a switch may be read in the wrong place
	MiddleDead        // small corrections are lost
	MiddleHidden      // the computer, not the radio, hides them
	PositionMoved     // it stands where the radio file does not have it
	Leaps             // the craft obeys every leap
	PlugLoose         // the link of the practice breaks off
	ReadingsMiss      // moments of the flight are missing
	StaleReports      // the craft would get old values
	WhyCount
)

var whyCodes = [WhyCount]string{"", "wrong-way", "never-low", "nearly-low", "corner-missed", "not-fully", "beyond-travel", "no-pulse", "drifts", "trembles",
	"middle-dead", "middle-hidden", "position-moved", "leaps", "plug-loose", "readings-miss", "stale-reports"}

// Code names a reason in JSON Lines.
func (w Why) Code() string { return codeOf(whyCodes[:], int(w)) }

// Cure is what to set or to do.
type Cure uint8

// The cures; NoCure goes with what passes, CureCount is how many there are.
const (
	NoCure        Cure = iota
	TurnRound          // reverse this direction in the radio
	MoreLow            // set the end point (travel) of the low side further out
	MoreHigh           // set that of the high side further out
	LessLow            // set that of the low side further in
	LessHigh           // set that of the high side further in
	TrimBack           // trim or subtrim to zero
	Steady             // clean, calibrate, have it repaired
	NoDeadZone         // take the radio's own dead zone out
	ReadOtherwise      // let the program read the event interface
	LearnAgain         // learn the radio again
	FirmPlug           // use another cable or port
	LessBusy           // end other programs, use another port
	FasterReports      // change the radio's USB setting
	CureCount
)

var cureCodes = [CureCount]string{"", "turn-round", "more-low", "more-high", "less-low", "less-high", "trim-back", "steady", "no-dead-zone", "read-otherwise",
	"learn-again", "firm-plug", "less-busy", "faster-reports"}

// Code names a cure in JSON Lines.
func (c Cure) Code() string { return codeOf(cureCodes[:], int(c)) }

func codeOf(codes []string, i int) string {
	if i < len(codes) {
		return codes[i]
	}
	return "unknown"
}

// Item is one thing that was looked at.
type Item struct {
	Kind Kind
	// Control is the index in View.Controls, −1 for the radio as a whole.
	Control int
	Verdict Verdict
	// Known is false while there is no value. Value and Limit are in Unit; Value passes on the given Side of Limit. Bound:
	// a Rate is at least Value, and may be higher.
	Known        bool
	Unit         Unit
	Value, Limit int64
	Side         Side
	Bound        bool
	// Why it matters and the Cure; NoWhy and NoCure for what passes or waits.
	Why  Why
	Cure Cure
}
