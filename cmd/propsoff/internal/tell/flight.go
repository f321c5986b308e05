package tell

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// Flight is what FlightStands tells of. Angles in degrees, right and nose up positive; Tilt from level, 0…180; Climb in m/s.
type Flight struct {
	Powered, Armed, Sinking bool
	// Wreck: it has broken, and its motors stand still. Ground: it touches the ground.
	Wreck                    bool
	Ground                   bool
	Bank, Pitch, Tilt, Climb float64
	// Reaches: what the sticks do reaches the craft, and somebody who can be told has them.
	Reaches bool
	// Up: the throttle stands above the middle of its travel.
	Up bool
	// Sink is what comes of a craft that sinks, nil where that is not known.
	Sink *facts.Sink
	// Hung: it hangs on the stand. Held: its height is held, or to be held at so many m.
	Hung, Held bool
	HeldAt     float64
	// Bare: it has no propeller. InWash: some propeller falls into its own wash.
	Bare, InWash bool
	// Dying: its pack is empty, and its voltage falls away.
	Dying bool
	// Again is the key that sets it back at the start; empty where it does nothing.
	Again words.Text
}

// FlightStands says in a sentence or two how the craft flies, stands or lies.
func FlightStands(f Flight) words.Text {
	switch {
	case f.Hung:
		return words.T("flight.hangs", words.Args{
			"powered": words.Flag(f.Powered), "armed": words.Flag(f.Armed), "sinking": words.Flag(f.Sinking), "bare": words.Flag(f.Bare), "level": words.Flag(f.Tilt < 2), "how": attitude(&f),
		})
	case f.Ground || f.Wreck:
		return flightOnGround(&f)
	case f.Powered && f.Sinking:
		return words.Row(flightSinks(&f), inWash(&f), sinkEnds(f.Sink, false))
	}
	up, down := upOrDown(f.Climb)
	if !f.Powered || !f.Armed {
		return words.T("flight.falls", words.Args{"powered": words.Flag(f.Powered), "climb": up})
	}
	if f.Held {
		return words.T("flight.held", words.Args{"how": attitude(&f), "up": up, "down": down})
	}
	flies := words.T("flight.flies", words.Args{"how": attitude(&f), "up": up, "down": down})
	if f.Dying {
		return words.Row(words.T("flight.pack-dies"), flies)
	}
	return words.Row(flies, inWash(&f))
}

// inWash says what is not worked out of a craft that comes down so.
func inWash(f *Flight) words.Text {
	if !f.InWash {
		return words.Text{}
	}
	return words.T("flight.in-wash")
}

// flightOnGround is FlightStands of a craft that touches the ground.
func flightOnGround(f *Flight) words.Text {
	switch {
	case f.Wreck:
		return words.T("flight.wreck", words.Args{"armed": words.Flag(f.Armed), "key": f.Again})
	case f.Tilt > 60:
		return words.T("flight.tipped", words.Args{"back": words.Flag(f.Tilt > 120), "armed": words.Flag(f.Armed), "key": f.Again})
	case !f.Powered:
		return words.T("flight.ground-no-power")
	case f.Sinking:
		return words.T("flight.ground-sinking")
	case f.Held && f.Armed:
		return words.T("flight.taken-up")
	case f.Held:
		return words.Row(words.T("flight.ground"), words.T("flight.held-waits", words.Args{"height": Length(f.HeldAt)}))
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
		return words.T("flight.sinks", words.Args{"how": attitude(f), "down": down})
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

// FlightNumber names a number of the flight, the longest name first: 0 height, 1 climb, 2 speed over ground, 3 bank, 4 pitch, 5 heading, 6 distance from
// the start, 7 the pack's voltage.
func FlightNumber(i int) (names []words.Text) {
	return numberNames([FlightNumbers]words.ID{
		"flight.number-height", "flight.number-climb", "flight.number-ground-speed", "flight.number-bank", "flight.number-pitch", "flight.number-heading",
		"flight.number-from-start", "flight.number-pack",
	}[i])
}

// numberNames are what a number is called, the longest first: a speed that is told of the ground has a shorter name besides.
func numberNames(id words.ID) []words.Text {
	names := []words.Text{words.T(id)}
	if id == "flight.number-ground-speed" || id == "loss.ground-speed" {
		names = append(names, words.T("flight.number-speed"))
	}
	return names
}

// AirTitle heads the flying craft; it may have no name.
func AirTitle(name string, s *sim.Snapshot) words.Text {
	return words.T("flight.title", words.Args{"craft": words.Quote(name), "stand": words.Flag(s.In.Hung), "held": words.Flag(facts.Held(s))})
}

// AirHelped heads a craft on the stand, or one whose height is held, with what that means.
func AirHelped(name string, s *sim.Snapshot) words.Text {
	return words.T("flight.helped", words.Args{"craft": words.Quote(name), "stand": words.Flag(s.In.Hung)})
}

// ThreeWhat says what there is to see of three crafts, and what holds them.
func ThreeWhat(s *sim.Snapshot) words.Text {
	what := words.T("three.what")
	switch {
	case s.In.Hung:
		return words.Row(words.T("three.hang"), what)
	case facts.Held(s):
		return words.Row(words.T("three.held"), what)
	}
	return what
}

// AirHovers heads it with the throttle, in µs, at which it hovers, to the nearest ten.
func AirHovers(name string, throttle int) words.Text {
	return words.T("flight.hovers", words.Args{"craft": words.Quote(name), "throttle": wholeMicros((throttle + 5) / 10 * 10)})
}

// ToScale says whether a craft is drawn as large as it is by the scale beside it, or stands there as an icon.
func ToScale(is bool) words.Text { return words.T("flight.to-scale", words.Args{"is": words.Flag(is)}) }

// NoseSeen says which way the nose of a craft points for somebody from whom it lies in a direction; heading and direction in rad from north clockwise.
func NoseSeen(heading, direction float64) words.Text {
	turn := math.Mod(heading-direction, 2*math.Pi)
	way := (int(math.Round(turn/(math.Pi/2)))%4 + 4) % 4
	return words.Of("flight.nose-seen", [...]string{"away", "right", "towards", "left"}[way])
}

// Wind says how the air moves, by a pulse.WindValue; from adds where it comes from for somebody who looks north. Still air says nothing.
func Wind(value int32, from bool) words.Text {
	tenths, degrees, gusts, _ := pulse.WindOf(value)
	if tenths == 0 {
		return words.Text{}
	}
	args := words.Args{"speed": FaultValue(fault.Wind, tenths, nil), "gusts": words.Flag(gusts), "from": words.Text{}}
	if from {
		eighth := (degrees + 22) / 45 % 8
		args["from"] = words.Of("flight.wind-from", [...]string{"ahead", "ahead-right", "right", "behind-right", "behind", "behind-left", "left", "ahead-left"}[eighth])
	}
	return words.T("flight.wind", args)
}

// WindNow is how the air moves at a craft at this moment, as a pulse.WindValue: its part along the ground, to the nearest tenth of a m/s and degree. v is in m/s in world axes.
func WindNow(v vec.V) int32 {
	from := int32(math.Round(math.Atan2(-v.Y, -v.X)/flight.Degree)) + 360
	return pulse.WindValue(int32(math.Round(10*math.Hypot(v.X, v.Y))), from%360, false, 0)
}

// GhostMeans says what the dashed craft is. Short leaves out the dashes.
func GhostMeans(mode layout.Mode, sinking, short bool) words.Text {
	return words.T("flight.ghost", words.Args{
		"dashed": words.Flag(!short), "sinking": words.Flag(sinking), "rate": words.Flag(!mode.SelfLevelling()), "time": Seconds(200),
	})
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
	return words.T("flight.standing", words.Args{"mode": Mode(s.Mode), "air": words.Flag(s.AirAwake), "fitted": ifAny(fitted(s.In.Hands))})
}

// PaceWords say how time runs: slow is 1, 4 or 10 times slower than life.
func PaceWords(paused bool, slow int) words.Text {
	return words.T("flight.pace", words.Args{"paused": words.Flag(paused), "slow": words.Flag(slow > 1), "times": words.Whole(slow)})
}

// SlowTo says what the key for slow motion does next.
func SlowTo(slow int) words.Text {
	return words.T("flight.slow-key", words.Args{"slow": words.Flag(slow > 1), "times": words.Whole(slow)})
}

// ReplayAt says how far a look back is: at and length in ms.
func ReplayAt(at, length int64) words.Text {
	return words.T("flight.replay-at", words.Args{"at": rounded(float64(at)/1000, 1), "length": rounded(float64(length)/1000, 1)})
}

// ThreeMode says in a few words what a mode does with a stick that is let go, and horizon with one that is held.
func ThreeMode(m layout.Mode, h facts.Horizon) words.Text {
	return words.Of("three", m.Code(), words.Args{"over": Percent(int(math.Round(h.Over * 100)))})
}
