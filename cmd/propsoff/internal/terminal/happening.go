// Package terminal gives the same facts as text, tables, JSON Lines.
//
// JSON Lines, one object a line. The names of fields and codes are stable; new ones may be added. Channels, axes, buttons and
// devices are counted from 1, times are whole milliseconds of the practice (t_ms), widths are µs with up to three decimals.
//
// A happening always has t_ms and code; by its code further:
//
//	armed                          by: repeated-values, stored-values, where the receiver armed it while the radio was silent
//	disarmed                       cause: by-switch, by-sticks, cut-on-loss, sunk, power-lost, by-stored-values, by-repeated-values
//	refused                        why: the codes of all refusals; set_up_by, with being-set-up: cable, craft-menu, camera-menu
//	link-lost                      ms since the last valid frame
//	link-back, link-clean          nothing
//	sinking                        ms that the sinking will take
//	control-back                   ms that the sinking took
//	mode                           mode, from: angle, horizon, rate
//	air-mode, settled, nudged      nothing
//	power, transmitter             on: true or false
//	cable, plug                    on: true for in, false for out
//	tilt                           degrees from level
//	menu                           menu: closed, craft, camera
//	pack-volts                     volts
//	travel-short                   channel, job, and lowest_us or highest_us: the end that does not reach
//	readings-lost                  ms, left out where unknown
//	slept                          ms
//	bench                          bench: desk, air
//	propellers                     fitted: which way each lifts, front left, front right, rear left, rear right; checked
//	took-off, tipped-over          nothing
//	touched-down                   speed_ms downwards, highest_m since it left the ground
//	broke                          by: one or more of by-blade, on-top, too-fast, and motors-off besides; speed_ms when it touched
//	stick-mode                     mode: 1 to 4
//	gesture                        gesture: its code, held_ms
//	gesture-missed                 gesture, near: early, corner, overshot, late; control: which one it is about, for corner and overshot
//	menu-mark, menu-value          item; menu-value further: value
//	menu-left                      kept: true or false
//	instructor                     did, number
//
// The other lines: "values" (AppendValues), raw states without a code (Form.Raw), radios without a code (Form.Radio), and
// the lines of a run: "notice", "could-be-saved" (lesson.go), "expectation-failed", "difference", "model-changed", "finished", "stopped" (run.go). JSON Lines are the same
// in every language: their sentences, in fields that are called text or end so, are English.
package terminal

import (
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Happening appends one happening of the record of a model as a line.
func (f Form) Happening(dst []byte, model int, h happening.Happening, cfg *sim.Config) []byte {
	if f.JSON {
		return AppendFields(dst, append([]any{"t_ms", h.Tick, "code", codes.Code(h.Code)}, fieldsOf(h, cfg)...)...)
	}
	return f.line(dst, h.Tick, codes.Code(h.Code), tell.HappeningOf(model, h, cfg))
}

// fieldsOf are the fields of a happening behind its time and code.
func fieldsOf(h happening.Happening, cfg *sim.Config) []any {
	switch h.Code {
	case happening.Disarmed:
		return []any{"cause", codes.Cause(happening.Cause(h.A))}
	case happening.Armed:
		if h.A != 0 {
			return []any{"by", codes.Origin(facts.Origin(h.A))}
		}
	case happening.Refused:
		why := []any{"why", codes.Why(facts.Set(h.A))}
		if h.B != 0 {
			why = append(why, "set_up_by", codes.SetUpBy(happening.SetUp(h.B)))
		}
		return why
	case happening.Sinking, happening.SinkEnded:
		if where := codes.Place(happening.Place(h.B)); where != "" {
			return []any{"ms", h.A, "where", where}
		}
		return []any{"ms", h.A}
	case happening.LinkLost, happening.Slept:
		return []any{"ms", h.A}
	case happening.ReadingsLost:
		return []any{"ms", orNil(h.A)}
	case happening.Mode:
		return []any{"mode", codes.Mode(layout.Mode(h.A)), "from", codes.Mode(layout.Mode(h.B))}
	case happening.Power, happening.Transmitter, happening.Cable, happening.Plug:
		return []any{"on", h.A != 0}
	case happening.Tilted:
		return []any{"degrees", thousandths(int64(h.A) * 100)}
	case happening.Menu:
		return []any{"menu", codes.Menu(int(h.A))}
	case happening.Pack:
		return []any{"volts", thousandths(int64(h.A))}
	case happening.Moved:
		if mm, hovers := pulse.HoverOf(h.A); hovers {
			return []any{"bench", codes.Bench(h.A), "height_m", thousandths(int64(mm))}
		}
		return []any{"bench", codes.Bench(h.A)}
	case happening.Fitted:
		hands, checked := pulse.PropellersOf(h.A)
		return []any{"fitted", codes.Hands(hands), "checked", checked}
	case happening.TouchedDown:
		return []any{"speed_ms", thousandths(int64(h.A)), "highest_m", thousandths(int64(h.B))}
	case happening.Broke:
		return []any{"by", codes.Broke(happening.Breakage(h.A)), "speed_ms", thousandths(int64(h.B))}
	case happening.TravelShort:
		c, w, lowest := tell.ShortEnd(h)
		end := "highest_us"
		if lowest {
			end = "lowest_us"
		}
		return []any{"channel", c + 1, "job", orNil(codes.Job(&cfg.Layout, c)), end, exact(w)}
	case happening.StickMode:
		return []any{"mode", h.A}
	case happening.Gesture:
		return []any{"gesture", codes.Gesture(h.A, cfg), "held_ms", h.B}
	case happening.GestureNear:
		near, control := codes.NearOf(h.A, h.B, cfg)
		return []any{"gesture", codes.Gesture(h.A, cfg), "near", near, "control", orNil(control)}
	case happening.MenuMark:
		return []any{"item", tell.MenuItem(h.A, cfg)}
	case happening.MenuValue:
		return []any{"item", tell.MenuItem(h.A, cfg), "value", tell.MenuValue(h.A, h.B, cfg)}
	case happening.MenuLeft:
		return []any{"kept", h.A != 0}
	case happening.Instructed:
		return []any{"did", codes.Deed(pulse.Deed(h.A)), "number", h.B}
	}
	return nil
}

// AppendValues appends what a snapshot says as a line of JSON with the code "values":
//
//	{"t_ms":1234,"code":"values","channels":[988,1500,null,…],"armed":false,"refusals":["no-link"],"link":"lost","hears":"nothing","mode":"angle"}
//
// channels are the 16 values that the hands hold, in µs, null where a channel carries no valid pulse; link is the craft's judgement of it:
// never, lost, fresh or good; hears is what really reaches the craft: radio, radio-not-whole, repeated-values, stored-values, nothing, no-power.
func AppendValues(dst []byte, s *sim.Snapshot) []byte {
	return AppendFields(dst, "t_ms", s.Tick, "code", "values", "channels", s.In.Sent[:], "armed", s.Armed, "refusals", codes.Why(s.Refusals), "link", codes.Link(s.Link),
		"hears", codes.Hears(s), "mode", codes.Mode(s.Mode))
}

// Values is what AppendValues tells apart from the time: equal Values make equal lines.
type Values struct {
	Sent     pulse.Frame
	Armed    bool
	Refusals facts.Set
	Link     uint8
	Hears    string
	Mode     layout.Mode
}

// ValuesOf takes them from a snapshot.
func ValuesOf(s *sim.Snapshot) Values {
	return Values{Sent: s.In.Sent, Armed: s.Armed, Refusals: s.Refusals, Link: uint8(s.Link), Hears: codes.Hears(s), Mode: s.Mode}
}
