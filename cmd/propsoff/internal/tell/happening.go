package tell

import (
	"strconv"
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// Note is Happening for the margin of the chart paper, which has no room for many reasons: of more than three it names two and counts
// the others.
func Note(h happening.Happening, cfg *sim.Config) words.Text {
	if h.Code == happening.Refused {
		if all := whys(facts.Set(h.A), happening.SetUp(h.B)); len(all) > 3 {
			return words.T("happening.refused-many", words.Args{"first": all[0], "second": all[1], "n": words.Whole(len(all) - 2)})
		}
	}
	return Happening(h, cfg)
}

// Happenings whose sentence has no value, whose sentence says whether something is on now, and whose sentence says for how long.
var (
	plainHappenings = map[happening.Code]words.ID{
		happening.LinkBack: "happening.link-back", happening.LinkClean: "happening.link-clean", happening.AirMode: "happening.air-mode",
		happening.Settled: "happening.settled", happening.Nudged: "happening.nudged", happening.TookOff: "happening.took-off",
		happening.TippedOver: "happening.tipped-over",
	}
	switchedHappenings = map[happening.Code]words.ID{
		happening.Power: "happening.power", happening.Cable: "happening.cable", happening.Transmitter: "happening.transmitter",
		happening.Plug: "happening.plug", happening.Moved: "happening.moved",
	}
	timedHappenings = map[happening.Code]words.ID{
		happening.LinkLost: "happening.link-lost", happening.SinkEnded: "happening.sink-ended", happening.Slept: "happening.slept",
		happening.ReadingsLost: "happening.readings-lost",
	}
)

// Happening is one line of the record as a sentence.
func Happening(h happening.Happening, cfg *sim.Config) words.Text {
	if id, ok := plainHappenings[h.Code]; ok {
		return words.T(id)
	}
	if id, ok := switchedHappenings[h.Code]; ok {
		return words.T(id, words.Args{"on": words.Flag(h.A != 0)})
	}
	if id, ok := timedHappenings[h.Code]; ok {
		return words.T(id, words.Args{"known": words.Flag(h.A != 0), "time": Seconds(int64(h.A))})
	}
	if t := valuedHappening(h, cfg); !t.Empty() {
		return t
	}
	if t := moveSentence(h, cfg); !t.Empty() {
		return t
	}
	return words.AsIs(codes.Code(h.Code) + " " + strconv.Itoa(int(h.A)) + " " + strconv.Itoa(int(h.B)) + ".")
}

func valuedHappening(h happening.Happening, cfg *sim.Config) words.Text {
	switch h.Code {
	case happening.Armed:
		return armedSentence(facts.Origin(h.A))
	case happening.Disarmed:
		return words.T("happening.disarmed", words.Args{"cause": Cause(happening.Cause(h.A))})
	case happening.Refused:
		return words.T("happening.refused", words.Args{"why": words.And(whys(facts.Set(h.A), happening.SetUp(h.B))...)})
	case happening.Sinking:
		return words.T("happening.sinking", words.Args{"time": Seconds(int64(h.A)), "how": sinks(cfg)})
	case happening.Mode:
		return words.T("happening.mode", words.Args{"mode": Mode(layout.Mode(h.A)), "from": Mode(layout.Mode(h.B))})
	case happening.Tilted:
		return words.T("happening.tilted", words.Args{"tilted": words.Flag(h.A != 0), "tilt": Degrees(int(h.A))})
	case happening.Menu:
		code := codes.Menu(int(h.A))
		return known(code, words.Of("menu-opened", code))
	case happening.Pack:
		return words.T("happening.pack", words.Args{"told": words.Flag(h.A != 0), "volts": Volts(int(h.A))})
	case happening.TravelShort:
		return travelShort(h, cfg)
	case happening.Fitted:
		return fitted(h.A)
	case happening.TouchedDown:
		return words.T("happening.touched-down", words.Args{"hard": words.Flag(h.A >= hard), "speed": unit("speed", hundredths(h.A)), "highest": unit("metres", hundredths(h.B))})
	}
	return words.Text{}
}

// hard is the speed in mm/s from which a touch-down is told as a crash (ours).
const hard = 4000

// armedSentence tells by whose values a craft was armed.
func armedSentence(o facts.Origin) words.Text {
	switch o {
	case facts.FromRepeat:
		return words.T("happening.armed-by-repeated")
	case facts.FromStore:
		return words.T("happening.armed-by-stored")
	}
	return words.T("happening.armed")
}

// whys are refusals in the past; by is what the craft was being set up by, 0 where that is not known.
func whys(set facts.Set, by happening.SetUp) []words.Text {
	var out []words.Text
	for _, code := range codes.Why(set) {
		if code == codes.Refusal(facts.BeingSetUp) && by != 0 {
			out = append(out, setUpBy(by)...)
			continue
		}
		out = append(out, words.Of("reason", code))
	}
	return out
}

// ShortEnd tells which end of which channel's travel a TravelShort speaks of: the lowest or the highest value.
func ShortEnd(h happening.Happening) (channel int, extreme pulse.Width, lowest bool) {
	w := pulse.Width(h.B)
	return int(h.A), w, w < pulse.Centre
}

func travelShort(h happening.Happening, cfg *sim.Config) words.Text {
	c, w, lowest := ShortEnd(h)
	a := &cfg.Arming
	switch name := Channel(&cfg.Layout, c); {
	case c == int(cfg.Layout.Throttle):
		return words.T("happening.travel-short-throttle", words.Args{"channel": name, "lowest": Micros(w), "needs": Exact(a.LowThrottle)})
	case lowest:
		return words.T("happening.travel-short-left", words.Args{"channel": name, "lowest": Micros(w), "needs": Exact(a.YawLeft)})
	default:
		return words.T("happening.travel-short-right", words.Args{"channel": name, "highest": Micros(w), "needs": Exact(a.YawRight)})
	}
}

// fitted tells how many propellers sit on the motors, and whether the pilot has checked them.
func fitted(v int32) words.Text {
	hands, checked := pulse.PropellersOf(v)
	n := 0
	for _, h := range hands {
		if h != 0 {
			n++
		}
	}
	if n == 0 {
		return words.T("happening.no-propeller")
	}
	return words.T("happening.fitted", words.Args{"n": words.Whole(n), "checked": words.Flag(checked)})
}

// hundredths writes thousandths with two places, rounded to the nearest as floating-point numbers are written.
func hundredths(thousandths int32) words.Fixed {
	s := strconv.FormatFloat(float64(thousandths)/1000, 'f', 2, 64)
	n, _ := strconv.ParseInt(strings.Replace(s, ".", "", 1), 10, 64)
	return words.Fixed{N: n, Places: 2, Least: 2}
}
