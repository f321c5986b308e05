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
//	stick-mode                     mode: 1 to 4
//	gesture                        gesture: its code, held_ms
//	gesture-missed                 gesture, near: early, corner, overshot, late; control: which one it is about, for corner and overshot
//	menu-mark, menu-value          item; menu-value further: value
//	menu-left                      kept: true or false
//	instructor                     did, number
//
// The other lines: "values" (AppendValues), raw states without a code (AppendRaw), radios without a code (Radio.JSON), and
// the lines of a run: "notice", "expectation-failed", "difference", "model-changed", "finished", "stopped" (run.go). JSON Lines are the same
// in every language: their sentences, in fields that are called text or end so, are English.
package terminal

import (
	"fmt"
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// AppendText appends one happening as a line of text in a language: time, code, sentence.
func AppendText(dst []byte, b *words.Book, h happening.Happening, cfg *sim.Config) []byte {
	return appendLine(dst, b, h.Tick, codes.Code(h.Code), tell.Happening(h, cfg))
}

// AppendRecorded appends one happening of the record of a model as a line of text.
func AppendRecorded(dst []byte, b *words.Book, model int, h happening.Happening, cfg *sim.Config) []byte {
	return appendLine(dst, b, h.Tick, codes.Code(h.Code), tell.HappeningOf(model, h, cfg))
}

// appendLine appends time, code and sentence in columns.
func appendLine(dst []byte, b *words.Book, tick int64, code string, sentence words.Text) []byte {
	return fmt.Appendf(dst, "%12s  %-14s %s\n", say(b, tell.Clock(tick)), code, say(b, sentence))
}

// AppendJSON appends one happening as a line of JSON.
func AppendJSON(dst []byte, h happening.Happening, cfg *sim.Config) []byte {
	dst = appendHead(dst, h.Tick, codes.Code(h.Code))
	switch h.Code {
	case happening.Disarmed:
		dst = appendString(dst, "cause", codes.Cause(happening.Cause(h.A)))
	case happening.Armed:
		if h.A != 0 {
			dst = appendString(dst, "by", codes.Origin(facts.Origin(h.A)))
		}
	case happening.Refused:
		dst = appendStrings(dst, "why", codes.Why(facts.Set(h.A)))
		if h.B != 0 {
			dst = appendStrings(dst, "set_up_by", codes.SetUpBy(happening.SetUp(h.B)))
		}
	case happening.LinkLost, happening.Sinking, happening.SinkEnded, happening.Slept:
		dst = appendInt(dst, "ms", int64(h.A))
	case happening.ReadingsLost:
		if h.A != 0 {
			dst = appendInt(dst, "ms", int64(h.A))
		}
	case happening.Mode:
		dst = appendString(dst, "mode", codes.Mode(layout.Mode(h.A)))
		dst = appendString(dst, "from", codes.Mode(layout.Mode(h.B)))
	case happening.Power, happening.Transmitter, happening.Cable, happening.Plug:
		dst = appendBool(dst, "on", h.A != 0)
	case happening.Tilted:
		dst = appendThousandths(dst, "degrees", int64(h.A)*100)
	case happening.Menu:
		dst = appendString(dst, "menu", codes.Menu(int(h.A)))
	case happening.Pack:
		dst = appendThousandths(dst, "volts", int64(h.A))
	case happening.Moved:
		dst = appendString(dst, "bench", codes.Bench(h.A != 0))
	case happening.Fitted:
		hands, checked := pulse.PropellersOf(h.A)
		dst = appendStrings(dst, "fitted", codes.Hands(hands))
		dst = appendBool(dst, "checked", checked)
	case happening.TouchedDown:
		dst = appendThousandths(dst, "speed_ms", int64(h.A))
		dst = appendThousandths(dst, "highest_m", int64(h.B))
	case happening.TravelShort:
		dst = appendTravel(dst, h, cfg)
	default:
		dst = appendMove(dst, h, cfg)
	}
	return append(dst, "}\n"...)
}

func appendTravel(dst []byte, h happening.Happening, cfg *sim.Config) []byte {
	c, w, lowest := tell.ShortEnd(h)
	dst = appendInt(dst, "channel", int64(c)+1)
	if job := codes.Job(&cfg.Layout, c); job != "" {
		dst = appendString(dst, "job", job)
	}
	if lowest {
		return appendThousandths(dst, "lowest_us", exact(w))
	}
	return appendThousandths(dst, "highest_us", exact(w))
}

// AppendValues appends what a snapshot says as a line of JSON with the code "values":
//
//	{"t_ms":1234,"code":"values","channels":[988,1500,null,…],"armed":false,"refusals":["no-link"],"link":"lost","hears":"nothing","mode":"angle"}
//
// channels are the 16 values that the hands hold, in µs, null where a channel carries no valid pulse; link is the craft's judgement of it:
// never, lost, fresh or good; hears is what really reaches the craft: radio, radio-not-whole, repeated-values, stored-values, nothing, no-power.
func AppendValues(dst []byte, s *sim.Snapshot) []byte {
	dst = appendHead(dst, s.Tick, "values")
	dst = append(dst, `,"channels":[`...)
	for c, w := range s.In.Sent {
		if c > 0 {
			dst = append(dst, ',')
		}
		if w.Valid() {
			dst = append(dst, thousandths(exact(w))...)
		} else {
			dst = append(dst, "null"...)
		}
	}
	dst = append(dst, ']')
	dst = appendBool(dst, "armed", s.Armed)
	dst = appendStrings(dst, "refusals", codes.Why(s.Refusals))
	dst = appendString(dst, "link", codes.Link(s.Link))
	dst = appendString(dst, "hears", codes.Hears(s))
	dst = appendString(dst, "mode", codes.Mode(s.Mode))
	return append(dst, "}\n"...)
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

// Below: JSON by hand. Texts are our own code words, which need no escapes; foreign texts go through appendForeign.

func appendHead(dst []byte, tick int64, code string) []byte {
	dst = append(dst, `{"t_ms":`...)
	dst = strconv.AppendInt(dst, tick, 10)
	return appendString(dst, "code", code)
}

func appendKey(dst []byte, key string) []byte {
	return append(append(append(dst, `,"`...), key...), `":`...)
}

func appendString(dst []byte, key, v string) []byte {
	return append(append(append(appendKey(dst, key), '"'), v...), '"')
}

func appendStrings(dst []byte, key string, v []string) []byte {
	dst = append(appendKey(dst, key), '[')
	for i, s := range v {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = append(append(append(dst, '"'), s...), '"')
	}
	return append(dst, ']')
}

func appendInt(dst []byte, key string, v int64) []byte {
	return strconv.AppendInt(appendKey(dst, key), v, 10)
}

func appendThousandths(dst []byte, key string, n int64) []byte {
	return append(appendKey(dst, key), thousandths(n)...)
}

// thousandths writes n/1000 as JSON has numbers, with as many decimals as it needs.
func thousandths(n int64) string { return strconv.FormatFloat(float64(n)/1000, 'f', -1, 64) }

// exact is a width in thousandths of a µs.
func exact(w pulse.Width) int64 { return int64(w) * 125 }

func appendBool(dst []byte, key string, v bool) []byte {
	return strconv.AppendBool(appendKey(dst, key), v)
}
