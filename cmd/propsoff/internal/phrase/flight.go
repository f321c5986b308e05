package phrase

import (
	"math"
	"strconv"
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/layout"
)

// Flight is what FlightStands tells of. Angles in degrees, right and nose up positive; Tilt from level, 0…180; Climb in m/s.
type Flight struct {
	Powered, Armed, Sinking bool
	// Ground: it touches the ground.
	Ground                   bool
	Bank, Pitch, Tilt, Climb float64
	// Reaches: what the sticks do reaches the craft, and somebody who can be told has them.
	Reaches bool
	// Up: the throttle stands above the middle of its travel.
	Up bool
	// Sink is what comes of a craft that sinks, nil where that is not known.
	Sink *facts.Sink
	// Again is the key that sets it back at the start; empty where it does nothing.
	Again string
}

// FlightStands says in a sentence or two how the craft flies, stands or lies.
func FlightStands(f Flight) string {
	switch {
	case f.Ground && f.Tilt > 60:
		out := "Tipped over: it lies on its side."
		if f.Tilt > 120 {
			out = "Tipped over: it lies on its back."
		}
		switch {
		case f.Again == "":
			return out
		case f.Armed:
			return out + " Disarm it; then " + f.Again + " sets it back at the start."
		}
		return out + " " + f.Again + " sets it back at the start."
	case f.Ground && !f.Powered:
		return "It stands on the ground without power."
	case f.Ground && f.Sinking:
		return "The link is lost. It stands on the ground; its motors stop soon."
	case f.Ground && f.Armed && f.Up:
		return "It stands on the ground, armed, with the throttle up."
	case f.Ground && f.Armed && f.Reaches:
		return "It stands on the ground, armed. Throttle up when you mean to fly."
	case f.Ground && f.Armed:
		return "It stands on the ground, armed."
	case f.Ground:
		return "It stands on the ground."
	case !f.Powered:
		return falls("it has no power", f.Climb)
	case f.Sinking:
		return "The link is lost: it " + sinking(&f)
	case !f.Armed:
		return falls("its motors are off", f.Climb)
	}
	return "It flies " + attitude(f) + climbing(f.Climb, ", holding its height")
}

// climbs: fast enough to be said, m/s upwards.
func climbs(up float64) bool { return up >= 0.25 }

// falls says that a craft falls, or will when its climb is over.
func falls(why string, climb float64) string {
	if climbs(climb) {
		return capital(why) + "; it still climbs at " + tenths(climb) + " m/s, then falls."
	}
	return "It falls: " + why + "."
}

// sinking says what a craft does that sinks on a lost link: first it may climb on.
func sinking(f *Flight) string {
	s := f.Sink
	switch {
	case !climbs(f.Climb):
		return "sinks, level" + climbing(f.Climb, "") + sinkEnds(s, false)
	case s == nil || s.Climbs < 0.25 || risesOn(s):
		return "levels itself, still" + climbing(f.Climb, "")[1:] + sinkEnds(s, false)
	}
	return "levels itself, and climbs " + tenths(s.Climbs) + " m more." + sinkEnds(s, false)
}

// risesOn: it climbs still as it cuts.
func risesOn(s *facts.Sink) bool { return !s.Lands && climbs(-s.Speed) }

// sinkEnds says how the sinking of a craft ends; climb: and how far it climbs before.
func sinkEnds(s *facts.Sink, climb bool) string {
	if s == nil {
		return ""
	}
	out := ""
	if climb && s.Climbs >= 0.25 && !risesOn(s) {
		out = " It climbs " + tenths(s.Climbs) + " m more."
	}
	switch {
	case s.Lands:
		return out + " It is on the ground before it cuts, at " + tenths(s.Speed) + " m/s."
	case risesOn(s):
		return out + " It cuts " + belowHere(s.Falls) + ", rises on, then falls."
	}
	return out + " It cuts " + belowHere(s.Falls) + ", and falls from there."
}

// belowHere says how much lower a place is.
func belowHere(m float64) string {
	if m < 0 {
		return tenths(-m) + " m higher"
	}
	return tenths(m) + " m lower"
}

// climbing ends a sentence with how fast the craft rises or falls; held is said where it does neither.
func climbing(climb float64, held string) string {
	switch {
	case climbs(climb):
		return ", climbing at " + tenths(climb) + " m/s."
	case climb <= -0.25:
		return ", going down at " + tenths(-climb) + " m/s."
	}
	return held + "."
}

func attitude(f Flight) string {
	switch {
	case f.Tilt < 2:
		return "level"
	case f.Tilt > 150:
		return "upside down"
	case f.Pitch > 75:
		return "with its nose straight up"
	case f.Pitch < -75:
		return "with its nose straight down"
	}
	var parts []string
	if b := math.Abs(f.Bank); b >= 1.5 {
		parts = append(parts, "banked "+degrees(b)+" to the "+side(f.Bank))
	}
	if p := math.Abs(f.Pitch); p >= 1.5 {
		parts = append(parts, "nose "+degrees(p)+" "+upDown(f.Pitch))
	}
	if len(parts) == 0 {
		return "nearly level"
	}
	return strings.Join(parts, ", ")
}

func side(v float64) string {
	if v < 0 {
		return "left"
	}
	return "right"
}

func upDown(v float64) string {
	if v < 0 {
		return "down"
	}
	return "up"
}

func degrees(v float64) string { return strconv.Itoa(int(math.Round(v))) + "°" }

// tenths writes a number with one place; what rounds to nothing has no sign, and the minus sign is a long one.
func tenths(v float64) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', 1, 64)
	if v < 0 && s != "0.0" {
		return "−" + s
	}
	return s
}

// FlightNumbers is how many numbers FlightNumber names.
const FlightNumbers = 8

// FlightNumber names a number of the flight: 0 height, 1 climb, 2 speed over ground, 3 bank, 4 pitch, 5 heading, 6 distance from
// the start, 7 the pack's voltage.
func FlightNumber(i int) string {
	return [FlightNumbers]string{"height", "climb", "ground speed", "bank", "pitch", "heading", "from start", "pack"}[i]
}

// Metres, Speed and PackVolts write a number with one place and its unit, Bank and Pitch as degrees with a side, Heading in
// whole degrees from north clockwise.
func Metres(v float64) string    { return tenths(v) + " m" }
func Speed(v float64) string     { return tenths(v) + " m/s" }
func PackVolts(v float64) string { return tenths(v) + " V" }
func Bank(v float64) string      { return sided(v, side(v)) }
func Pitch(v float64) string     { return sided(v, upDown(v)) }
func Heading(v float64) string   { return strconv.Itoa((int(math.Round(v))%360+360)%360) + "°" }

func sided(v float64, word string) string {
	if math.Round(v) == 0 {
		return "level"
	}
	return degrees(math.Abs(v)) + " " + word
}

// AirTitle heads the flying craft.
func AirTitle(name string) string {
	if name == "" {
		return "craft, on the air bench"
	}
	return "craft " + name + ", on the air bench"
}

// AirHovers heads it with the throttle, in µs, at which it hovers, to the nearest ten.
func AirHovers(name string, throttle int) string {
	return AirTitle(name) + "; with a full pack it hovers at a throttle of about " + strconv.Itoa((throttle+5)/10*10) + " µs"
}

// FlightFrom names a view of the flying craft: behind, side, above. Short leaves out how it is turned.
func FlightFrom(where string, short bool) string {
	switch {
	case where == "side" && short:
		return "from the side"
	case where == "side":
		return "from the side, nose right"
	case where == "above" && !short:
		return "from above, north up"
	}
	return "from " + where
}

// Larger says how much larger than life the craft is drawn. From a hundred times on (ours) the number tells nobody anything.
func Larger(times float64) string {
	n := max(times, 1)
	if n >= 100 {
		return "craft not to scale"
	}
	if n >= 10 {
		round := math.Pow(10, math.Floor(math.Log10(n))-1)
		n = math.Round(n/round) * round
	}
	return "craft " + strconv.Itoa(int(math.Round(n))) + " × life size"
}

// Marks says how far the marks of a view are apart, m.
func Marks(step float64) string { return "marks " + Length(step) + " apart" }

// Length writes a round length in m.
func Length(m float64) string { return strconv.FormatFloat(m, 'f', -1, 64) + " m" }

// GhostMeans says what the dashed craft is. Short leaves out the dashes.
func GhostMeans(mode layout.Mode, sinking, short bool) string {
	out := "dashed: where the sticks ask it to be"
	switch {
	case sinking:
		out = "dashed: where it brings itself"
	case mode == layout.Rate:
		out = "dashed: where the sticks turn it in 0.2 s"
	}
	if short {
		return strings.TrimPrefix(out, "dashed: ")
	}
	return out
}

// FlightMotors are the speeds of all four motors in one line; motors in the order of the snapshot.
func FlightMotors(s *sim.Snapshot, cfg *sim.Config) string {
	var parts []string
	for i, place := range Places() {
		parts = append(parts, place+" "+Motor(s.Motor[i], cfg.Flight.IdleSpeed))
	}
	return "motors: " + strings.Join(parts, ", ")
}

// FlightStanding is the mode in one short line.
func FlightStanding(s *sim.Snapshot) string {
	if !s.In.Powered {
		return "No power: motors still."
	}
	out := "Mode " + Mode(s.Mode)
	if s.AirAwake {
		out += ", air mode awake"
	}
	for _, hand := range s.In.Hands {
		if hand != 0 {
			return out + "; propellers on."
		}
	}
	return out + "; no propellers."
}

// PaceWords say how time runs: slow is 1, 4 or 10 times slower than life.
func PaceWords(paused bool, slow int) string {
	out := "running"
	if slow > 1 {
		out = "slow, " + strconv.Itoa(slow) + " times"
	}
	switch {
	case paused && slow > 1:
		return "paused; then " + out
	case paused:
		return "paused"
	}
	return out
}

// SlowTo says what the key for slow motion does next.
func SlowTo(slow int) string {
	if slow > 1 {
		return "slow " + strconv.Itoa(slow) + " times"
	}
	return "full speed"
}

// ReplayWord and ReplayAt say that the past is shown, and which moment of it; in ms.
func ReplayWord() string { return "REPLAY" }
func ReplayAt(at, length int64) string {
	return tenths(float64(at)/1000) + " of " + tenths(float64(length)/1000) + " s"
}

// ReplayHow stands in the place of how to arm while a replay is shown, PausedHow while time stands still.
func ReplayHow(key string) string {
	return "You are looking back: what you see is over. Press " + key + " to go back to now."
}
func PausedHow(on, step string) string {
	return "Time stands still. Press " + on + " to go on, " + step + " for one step of 10 ms."
}

// FlightChartTitle heads the chart paper of a flight.
func FlightChartTitle() string { return "chart paper: a band from asked (thin line) to done" }

// ClassHeight is height and climb in one short line.
func ClassHeight(height, climb float64) string {
	return "Height: " + Metres(height) + ", climb " + Speed(climb)
}
