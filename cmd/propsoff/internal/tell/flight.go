package tell

import (
	"math"

	"propsoff/assets/words"
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
	Again words.Text
}

// FlightStands says in a sentence or two how the craft flies, stands or lies.
func FlightStands(f Flight) words.Text {
	switch {
	case f.Ground:
		return flightOnGround(&f)
	case !f.Powered && climbs(f.Climb):
		return words.T("flight.climbs-no-power", words.Args{"climb": Speed(f.Climb)})
	case !f.Powered:
		return words.T("flight.falls-no-power")
	case f.Sinking:
		return words.Row(flightSinks(&f), sinkEnds(f.Sink, false))
	case !f.Armed && climbs(f.Climb):
		return words.T("flight.climbs-off", words.Args{"climb": Speed(f.Climb)})
	case !f.Armed:
		return words.T("flight.falls-off")
	}
	up, down := upOrDown(f.Climb)
	return words.T("flight.flies", words.Args{"how": attitude(&f), "up": up, "down": down})
}

// flightOnGround is FlightStands of a craft that touches the ground.
func flightOnGround(f *Flight) words.Text {
	switch {
	case f.Tilt > 60:
		out := words.T("flight.tipped", words.Args{"back": words.Flag(f.Tilt > 120)})
		if f.Again.Empty() {
			return out
		}
		return words.Row(out, words.T("flight.set-back", words.Args{"armed": words.Flag(f.Armed), "key": f.Again}))
	case !f.Powered:
		return words.T("flight.ground-no-power")
	case f.Sinking:
		return words.T("flight.ground-sinking")
	case f.Armed && f.Up:
		return words.T("flight.ground-throttle-up")
	case f.Armed:
		return words.T("flight.ground-armed", words.Args{"reaches": words.Flag(f.Reaches)})
	}
	return words.T("flight.ground")
}

// climbs: fast enough to be said, m/s upwards.
func climbs(up float64) bool { return up >= 0.25 }

// upOrDown is how fast the craft rises or falls, m/s; nothing where it does not.
func upOrDown(climb float64) (up, down words.Text) {
	switch {
	case climbs(climb):
		return Speed(climb), words.Text{}
	case climbs(-climb):
		return words.Text{}, Speed(-climb)
	}
	return words.Text{}, words.Text{}
}

// flightSinks says what a craft does that sinks on a lost link: first it may climb on.
func flightSinks(f *Flight) words.Text {
	s := f.Sink
	switch {
	case !climbs(f.Climb):
		_, down := upOrDown(f.Climb)
		return words.T("flight.sinks", words.Args{"down": down})
	case s == nil || s.Climbs < 0.25 || risesOn(s):
		return words.T("flight.sinks-climbing", words.Args{"climb": Speed(f.Climb)})
	}
	return words.T("flight.sinks-later", words.Args{"more": Metres(s.Climbs)})
}

// risesOn: it climbs still as it cuts.
func risesOn(s *facts.Sink) bool { return !s.Lands && climbs(-s.Speed) }

// sinkEnds says how the sinking of a craft ends; climb: and how far it climbs before.
func sinkEnds(s *facts.Sink, climb bool) words.Text {
	if s == nil {
		return words.Text{}
	}
	first := words.Text{}
	if climb && s.Climbs >= 0.25 && !risesOn(s) {
		first = words.T("flight.climbs-more", words.Args{"more": Metres(s.Climbs)})
	}
	if s.Lands {
		return words.Row(first, words.T("flight.lands", words.Args{"speed": Speed(s.Speed)}))
	}
	cuts := words.Args{"by": Metres(math.Abs(s.Falls)), "higher": words.Flag(s.Falls < 0)}
	if risesOn(s) {
		return words.T("flight.cuts-rising", cuts)
	}
	return words.Row(first, words.T("flight.cuts", cuts))
}

// attitude says how a flying craft lies in the air.
func attitude(f *Flight) words.Text {
	switch {
	case f.Tilt < 2:
		return words.T("flight.level")
	case f.Tilt > 150:
		return words.T("flight.upside-down")
	case f.Pitch > 75:
		return words.T("flight.nose-up")
	case f.Pitch < -75:
		return words.T("flight.nose-down")
	}
	var bank, nose words.Text
	if math.Abs(f.Bank) >= 1.5 {
		bank = words.T("flight.banked", words.Args{"by": wholeDegrees(f.Bank), "left": words.Flag(f.Bank < 0)})
	}
	if math.Abs(f.Pitch) >= 1.5 {
		nose = words.T("flight.nose", words.Args{"by": wholeDegrees(f.Pitch), "down": words.Flag(f.Pitch < 0)})
	}
	if bank.Empty() && nose.Empty() {
		return words.T("flight.nearly-level")
	}
	return words.Listed(bank, nose)
}

// FlightNumbers is how many numbers FlightNumber names.
const FlightNumbers = 8

// FlightNumber names a number of the flight: 0 height, 1 climb, 2 speed over ground, 3 bank, 4 pitch, 5 heading, 6 distance from
// the start, 7 the pack's voltage.
func FlightNumber(i int) words.Text {
	return words.T([FlightNumbers]words.ID{
		"flight.number-height", "flight.number-climb", "flight.number-ground-speed", "flight.number-bank", "flight.number-pitch", "flight.number-heading",
		"flight.number-from-start", "flight.number-pack",
	}[i])
}

// AirTitle heads the flying craft; it may have no name. AirHovers heads it with the throttle, in µs, at which it hovers, to the nearest ten.
func AirTitle(name string) words.Text {
	return words.T("flight.title", words.Args{"craft": words.Quote(name)})
}
func AirHovers(name string, throttle int) words.Text {
	return words.T("flight.hovers", words.Args{"craft": words.Quote(name), "throttle": wholeMicros((throttle + 5) / 10 * 10)})
}

// FlightFrom names a view of the flying craft: behind, side, above. Short leaves out how it is turned.
func FlightFrom(where string, short bool) words.Text {
	return words.Of("flight.from", where, words.Args{"short": words.Flag(short)})
}

// Larger says how much larger than life the craft is drawn. From a hundred times on (ours) the number tells nobody anything.
func Larger(times float64) words.Text {
	n := max(times, 1)
	if n >= 100 {
		return words.T("flight.not-to-scale")
	}
	if n >= 10 {
		round := math.Pow(10, math.Floor(math.Log10(n))-1)
		n = math.Round(n/round) * round
	}
	return words.T("flight.larger", words.Args{"n": words.Whole(math.Round(n))})
}

// Marks says how far the marks of a view are apart, m.
func Marks(step float64) words.Text {
	return words.T("flight.marks", words.Args{"step": Length(step)})
}

// GhostMeans says what the dashed craft is. Short leaves out the dashes.
func GhostMeans(mode layout.Mode, sinking, short bool) words.Text {
	dashed := words.Flag(!short)
	switch {
	case sinking:
		return words.T("flight.ghost-sinking", words.Args{"dashed": dashed})
	case mode == layout.Rate:
		return words.T("flight.ghost-rate", words.Args{"dashed": dashed, "time": Seconds(200)})
	}
	return words.T("flight.ghost", words.Args{"dashed": dashed})
}

// FlightMotors are the speeds of all four motors in one line.
func FlightMotors(s *sim.Snapshot, cfg *sim.Config) words.Text {
	var all []words.Text
	for i, place := range Places() {
		all = append(all, words.T("flight.motor", words.Args{"place": place, "does": Motor(s.Motor[i], cfg.Flight.IdleSpeed)}))
	}
	return words.T("flight.motors", words.Args{"motors": words.Listed(all...)})
}

// FlightStanding is the mode in one short line.
func FlightStanding(s *sim.Snapshot) words.Text {
	if !s.In.Powered {
		return words.T("flight.standing-no-power")
	}
	on := false
	for _, hand := range s.In.Hands {
		on = on || hand != 0
	}
	return words.T("flight.standing", words.Args{"mode": Mode(s.Mode), "air": words.Flag(s.AirAwake), "propellers": words.Flag(on)})
}

// PaceWords say how time runs: slow is 1, 4 or 10 times slower than life.
func PaceWords(paused bool, slow int) words.Text {
	switch {
	case slow > 1:
		return words.T("flight.pace-slow", words.Args{"paused": words.Flag(paused), "times": words.Whole(slow)})
	case paused:
		return words.T("flight.pace-paused")
	}
	return words.T("flight.pace-running")
}

// SlowTo says what the key for slow motion does next.
func SlowTo(slow int) words.Text {
	if slow > 1 {
		return words.T("flight.slow-key", words.Args{"times": words.Whole(slow)})
	}
	return words.T("flight.full-speed-key")
}

func ReplayAt(at, length int64) words.Text {
	return words.T("flight.replay-at", words.Args{"at": rounded(float64(at)/1000, 1), "length": rounded(float64(length)/1000, 1)})
}

// ReplayHow stands in the place of how to arm while a replay is shown, PausedHow while time stands still.
func ReplayHow(key words.Text) words.Text {
	return words.T("flight.replay-how", words.Args{"key": key})
}
func PausedHow(on, step words.Text) words.Text {
	return words.T("flight.paused-how", words.Args{"key": on, "step": step})
}

// ClassHeight is height and climb in one short line.
func ClassHeight(height, climb float64) words.Text {
	return words.T("flight.class-height", words.Args{"height": Metres(height), "climb": Speed(climb)})
}
