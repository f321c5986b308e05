package tell

import (
	"maps"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
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

// Happening is one line of the record as a sentence; of a menu or of a number that nobody knows, what codes have.
func Happening(h happening.Happening, cfg *sim.Config) words.Text {
	code := codes.Code(h.Code)
	switch h.Code {
	case happening.Menu:
		menu := codes.Menu(int(h.A))
		return known(menu, words.Of("menu-opened", menu))
	case happening.Instructed:
		return instructedSentence(pulse.Deed(h.A), h.B, &cfg.Layout)
	}
	if h.Code == 0 || h.Code >= happening.CodeCount {
		return words.AsIs(code + " " + strconv.Itoa(int(h.A)) + " " + strconv.Itoa(int(h.B)) + ".")
	}
	return words.Of("happening", code, happeningValues(h, cfg))
}

// hard is the speed in mm/s from which a touch-down is told as a hard one, breaks that from which it may break the craft (ours), and crash
// that from which one of models 1 and 2, which broke nothing, was told as a crash.
const (
	hard   = 3000
	breaks = sim.TooFast * 1000
	crash  = 4000
)

// happeningValues are what happenings are told with, by what A and B mean for each.
func happeningValues(h happening.Happening, cfg *sim.Config) words.Args {
	args := words.Args{"on": words.Flag(h.A != 0)}
	switch h.Code {
	case happening.Armed: // by whose values
		args["repeated"], args["stored"] = words.Flag(facts.Origin(h.A) == facts.FromRepeat), words.Flag(facts.Origin(h.A) == facts.FromStore)
	case happening.Disarmed:
		args["cause"] = Cause(happening.Cause(h.A))
	case happening.Refused:
		args["why"] = words.And(whys(facts.Set(h.A), happening.SetUp(h.B))...)
	case happening.Sinking:
		args["how"] = sinks(cfg)
		fallthrough
	case happening.SinkEnded:
		maps.Copy(args, placed(happening.Place(h.B)))
		fallthrough
	case happening.LinkLost, happening.Slept, happening.ReadingsLost:
		args["time"] = Seconds(int64(h.A))
	case happening.Mode:
		args["mode"], args["from"] = Mode(layout.Mode(h.A)), Mode(layout.Mode(h.B))
	case happening.Tilted:
		args["tilt"] = Degrees(int(h.A))
	case happening.Pack:
		args["volts"] = Volts(int(h.A))
	case happening.TravelShort:
		travelShort(h, cfg, args)
	case happening.Fitted:
		hands, checked := pulse.PropellersOf(h.A)
		args["fitted"], args["checked"] = ifAny(fitted(hands)), words.Flag(checked)
	case happening.TouchedDown: // in mm/s, after so many mm at the highest
		args["hit"], args["hard"], args["crash"] = words.Flag(h.A >= hard), words.Flag(h.A >= hard && h.A < breaks), words.Flag(h.A >= crash)
		args["speed"], args["highest"] = unit("speed", rounded(float64(h.A)/1000, 2)), unit("metres", rounded(float64(h.B)/1000, 2))
	case happening.Broke:
		maps.Copy(args, brokeValues(happening.Breakage(h.A), h.B))
	case happening.Moved:
		if args["height"] = (words.Text{}); h.A > pulse.HeightHeld {
			mm, _ := pulse.HoverOf(h.A)
			args["height"] = Length(float64(mm) / 1000)
		}
		args["stand"], args["held"] = words.Flag(h.A == pulse.OnStand), words.Flag(h.A == pulse.HeightHeld)
	case happening.StickMode:
		args["n"] = words.Whole(h.A)
	case happening.Gesture:
		args["gesture"], args["time"] = gestureName(h.A, cfg), Seconds(int64(h.B))
	case happening.GestureNear:
		args["gesture"], args["why"] = gestureName(h.A, cfg), nearSentence(h.A, h.B, cfg)
	case happening.MenuMark, happening.MenuValue:
		args["item"], args["value"] = MenuItem(h.A, cfg), MenuValue(h.A, h.B, cfg)
	case happening.MenuLeft:
		args["n"], args["some"] = words.Count(h.B), words.Flag(h.B != 0)
	}
	return args
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

// travelShort is what a TravelShort is told with: the end that was seen, and what the corner needs there.
func travelShort(h happening.Happening, cfg *sim.Config, args words.Args) {
	c, w, lowest := ShortEnd(h)
	throttle, needs := c == int(cfg.Layout.Throttle), cfg.Arming.YawRight
	switch {
	case throttle:
		needs = cfg.Arming.LowThrottle
	case lowest:
		needs = cfg.Arming.YawLeft
	}
	args["channel"], args["value"], args["needs"] = Channel(&cfg.Layout, c), Micros(w), Exact(needs)
	args["lowest"], args["throttle"] = words.Flag(lowest || throttle), words.Flag(throttle)
}

// gestureName is what a craft's gesture, counted from 0, is called; its number where the craft does not have it.
func gestureName(n int32, cfg *sim.Config) words.Text {
	if cfg == nil || cfg.Gestures == nil || n < 0 || int(n) >= len(cfg.Gestures.Patterns) {
		return words.T("move.gesture-number", words.Args{"n": words.Whole(n + 1)})
	}
	return GestureName(&cfg.Gestures.Patterns[n])
}

// instructedSentence tells what an instructor did. A pupil's record leaves these lines out, all but what his radio does to the sticks and to
// the arm switch.
func instructedSentence(d pulse.Deed, number int32, l *layout.Config) words.Text {
	switch {
	case d == pulse.DeedHands:
		return words.T("move.hands", words.Args{"instructor": words.Flag(number != 0)})
	case d == pulse.DeedArmOff:
		return words.T("move.arm-off", words.Args{"against": words.Flag(number != 0)})
	case d == pulse.DeedMark:
		return words.T("move.mark", words.Args{"n": words.Whole(number)})
	case d == pulse.DeedLiftAll:
		return words.T("fault.all-lifted")
	case d > pulse.DeedLift && fault.Code(d-pulse.DeedLift) != "":
		return words.T("fault.lifted", words.Args{"fault": FaultName(d - pulse.DeedLift)})
	case fault.Code(d) == "":
		return words.T("move.instructor", words.Args{"deed": words.Quote(strconv.Itoa(int(d)) + " " + strconv.Itoa(int(number)))})
	case !fault.Right(d, number):
		return words.T("fault.unknown", words.Args{"fault": FaultName(d), "number": words.Whole(number)})
	}
	return words.T("fault.was-planted", words.Args{"fault": FaultName(d), "does": FaultDoes(d, number, l)})
}

// nearSentence says what was wrong with a gesture that was nearly made, as a clause.
func nearSentence(gesture, near int32, cfg *sim.Config) words.Text {
	control := JobDirection(int(near >> 8 & 3))
	if codes.Physical(gesture, cfg) {
		control = StickDirection(int(near >> 8 & 3))
	}
	way, _ := codes.NearOf(gesture, near, cfg)
	return known(way, words.Of("move.near", way, words.Args{"control": control}))
}

// menusOf are the menus of a craft if they have an item, nil otherwise.
func menusOf(n int32, cfg *sim.Config) *menu.Config {
	if cfg == nil || cfg.Menus == nil || n < 0 || int(n) >= len(cfg.Menus.Items) {
		return nil
	}
	return cfg.Menus
}

// MenuItem names an item of a craft's menus by its number; the number itself where the craft has none of it.
func MenuItem(n int32, cfg *sim.Config) words.Text {
	if m := menusOf(n, cfg); m != nil {
		return MenuItemText(m, int(n))
	}
	return words.AsIs(strconv.Itoa(int(n)))
}

// MenuValue is a value of an item as it is shown.
func MenuValue(n, value int32, cfg *sim.Config) words.Text {
	if m := menusOf(n, cfg); m != nil {
		return MenuValueText(m, int(n), value)
	}
	return words.AsIs(strconv.Itoa(int(value)))
}

// MenuItemText names item n of menus: as their file has it, or in the reader's language where they are those that ship. What goes out of a
// page or of the menu stands in no file.
func MenuItemText(m *menu.Config, n int) words.Text {
	it, of := &m.Items[n], m.MenuOf(n)
	if it.Kind != menu.Out || of < 0 {
		return menuText(m, of, it.Name)
	}
	if t := &m.Menus[of]; n == t.First+t.Count-1 {
		return words.T("goggles.out-of-menu")
	}
	return words.T("goggles.out-of-page")
}

// menuText is a text of the file that menus stand in; of is the number of the menu, −1 for none.
func menuText(m *menu.Config, of int, text string) words.Text {
	if of < 0 {
		return words.AsIs(text)
	}
	return words.Shipped("gestures/"+m.Menus[of].Code, text)
}

// MenuValueText is a value of item n as it is shown: a word, or a number with its decimals and unit.
func MenuValueText(m *menu.Config, n int, v int32) words.Text {
	it, of := &m.Items[n], m.MenuOf(n)
	if it.Kind == menu.Choice {
		if v < 0 || int(v) >= len(it.Choices) {
			return words.AsIs(strconv.Itoa(int(v)))
		}
		return menuText(m, of, it.Choices[v])
	}
	number := words.Fixed{N: max(int64(v), -int64(v)), Places: int(it.Decimals), Least: int(it.Decimals)}
	args := words.Args{"minus": words.Flag(v < 0), "n": number}
	switch it.Unit {
	case "deg":
		return words.T("goggles.value-degrees", args)
	case "deg/s":
		return words.T("goggles.value-turning", args)
	}
	args["unit"] = menuText(m, of, it.Unit)
	return words.T("goggles.value", args)
}

// HappeningOf is one line of the record of a model as a sentence: what an older model did another way is told as that one did it.
func HappeningOf(model int, h happening.Happening, cfg *sim.Config) words.Text {
	if model == 1 {
		switch {
		case h.Code == happening.Sinking:
			return words.T("model.one-sinking", words.Args{"time": Seconds(int64(h.A))})
		case h.Code == happening.Disarmed && happening.Cause(h.A) == happening.BySwitch: // by a hand or by the receiver: it did not tell them apart
			return words.T("model.one-by-switch")
		case h.Code == happening.Disarmed && happening.Cause(h.A) == happening.BySticks:
			return words.T("model.one-by-sticks")
		}
	}
	if model < 3 && h.Code == happening.TouchedDown { // nothing broke then
		return words.T("model.two-touched-down", happeningValues(h, cfg))
	}
	return Happening(h, cfg)
}

// OlderModel is said of a take that was recorded with an older model than today's.
func OlderModel(model, today int) words.Text { return words.T("model.older", models(model, today)) }

// PlayedOlder is said in the window, where only what today's model does can be seen.
func PlayedOlder(model, today int) words.Text {
	return words.T("model.played-older", models(model, today))
}

// FlownOlder is said where an older take's hands are flown through the air bench.
func FlownOlder(model, today int) words.Text {
	return words.T("model.flown-older", models(model, today))
}

// NewerModel refuses a take of a model that this program does not know.
func NewerModel(name string, model, today int) *words.Problem {
	return words.Wrong("model.newer", models(model, today)).In(name)
}

func models(model, today int) words.Args {
	return words.Args{"model": words.Whole(model), "today": words.Whole(today)}
}

// ModelChanged is the first happening that an older take and today's model do not share. was and now are sentences that say nothing where
// there is nothing. What differs in numbers that no sentence shows is not told as the same sentence twice.
func ModelChanged(tick int64, was, now words.Text) words.Text {
	numbers := words.English().Say(was) == words.English().Say(now)
	return words.T("model.changed", words.Args{"at": Clock(tick), "was": was, "numbers": words.Flag(numbers), "now": now})
}

// PlayedThrough sums up an older take: how long, how many of its happenings today's model brought about too, and whether all.
func PlayedThrough(ticks int64, model, compared int, same bool) words.Text {
	return words.T("model.through", words.Args{
		"model": words.Whole(model), "time": Clock(ticks), "any": words.Flag(compared > 0), "n": words.Count(compared), "same": words.Flag(same),
	})
}
