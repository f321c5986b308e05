package script

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/pulse"
)

// plain is what readings come to in a script: on whole ms, the first of 0 whole, one of the controls a ms and only where
// they change.
func plain(rs []pulse.Reading) []pulse.Reading {
	state := map[pulse.Kind]int32{pulse.Plug: 0, pulse.Link: 0, pulse.Power: 0}
	var out []pulse.Reading
	var frame pulse.Frame
	var nudges int
	i := 0
	for ; i < len(rs) && ms(rs[i].At) == 0; i++ {
		switch rs[i].Kind {
		case pulse.Controls:
			frame = clean(rs[i].Frame)
		case pulse.Nudge:
			nudges++
		default:
			state[rs[i].Kind] = rs[i].Value
		}
	}
	for _, k := range []pulse.Kind{pulse.Plug, pulse.Link, pulse.Power, pulse.Cable, pulse.Tilt, pulse.Menu, pulse.Pack, pulse.Air, pulse.Propellers, pulse.StickMode} {
		if v, ok := state[k]; ok {
			out = append(out, pulse.Reading{Kind: k, Value: v})
		}
	}
	for range nudges {
		out = append(out, pulse.Reading{Kind: pulse.Nudge})
	}
	out = append(out, pulse.Reading{Kind: pulse.Controls, Frame: frame})
	for i < len(rs) {
		at := ms(rs[i].At)
		before := frame
		for ; i < len(rs) && ms(rs[i].At) == at; i++ {
			if rs[i].Kind == pulse.Controls {
				frame = clean(rs[i].Frame)
				continue
			}
			out = append(out, pulse.Reading{At: at * 1000, Kind: rs[i].Kind, Value: rs[i].Value})
		}
		if frame != before {
			out = append(out, pulse.Reading{At: at * 1000, Kind: pulse.Controls, Frame: frame})
		}
	}
	return out
}

// roundTrip writes, reads and plays, and compares.
func roundTrip(t interface {
	Fatal(...any)
	Fatalf(string, ...any)
}, d Draft) {
	text, err := Write(d, testNames)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Parse("w.yaml", text, testNames)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	got, want := playAll(t, s), plain(d.Readings)
	// At 0 the order of bench inputs is the script's own.
	byKind := func(a, b pulse.Reading) int {
		if a.At == 0 && b.At == 0 && a.Kind != pulse.Controls && b.Kind != pulse.Controls {
			return int(a.Kind) - int(b.Kind)
		}
		return 0
	}
	n := slices.IndexFunc(got, func(r pulse.Reading) bool { return r.Kind == pulse.Controls })
	m := slices.IndexFunc(want, func(r pulse.Reading) bool { return r.Kind == pulse.Controls })
	slices.SortStableFunc(got[:n], byKind)
	slices.SortStableFunc(want[:m], byKind)
	if !slices.Equal(got, want) {
		t.Fatalf("%s\ngives\n%s\nwant\n%s", text, show(got), show(want))
	}
	es := slices.Clone(s.Expectations())
	for i := range es {
		es[i].Pos = yamldoc.Pos{}
		if i < len(d.Expects) {
			es[i].Pos = d.Expects[i].Pos
		}
	}
	if len(es)+len(d.Expects) > 0 && !reflect.DeepEqual(es, d.Expects) {
		t.Fatalf("%s\nexpects %v, want %v", text, es, d.Expects)
	}
	if s.Name != d.Name || s.Craft != d.Craft || s.Radio != d.Radio || d.End > 0 && s.End() != d.End {
		t.Fatalf("%s\n%+v", text, s)
	}
}

// written are the kinds of reading that a script can hold.
var written = []pulse.Kind{pulse.Controls, pulse.Link, pulse.Plug, pulse.Power, pulse.Cable, pulse.Tilt, pulse.Nudge, pulse.Menu, pulse.Pack,
	pulse.Air, pulse.Propellers, pulse.StickMode}

func TestWriteAndReadAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var d Draft
		d.Name = rapid.SampledFrom([]string{"", "on", "a: b", "2.5s", "#", "\"", "über"}).Draw(t, "name")
		var at int64
		var frame pulse.Frame
		for range rapid.IntRange(1, 40).Draw(t, "n") {
			at += rapid.SampledFrom([]int64{0, 0, 1, 999, 1000, 1001, 250_000, 5_000_000}).Draw(t, "after")
			r := pulse.Reading{At: at, Kind: rapid.SampledFrom(written).Draw(t, "kind")}
			switch r.Kind {
			case pulse.Controls:
				for range rapid.IntRange(0, 3).Draw(t, "moved") {
					frame[rapid.IntRange(0, 15).Draw(t, "channel")] = pulse.Width(rapid.IntRange(6870, 17450).Draw(t, "width"))
				}
				r.Frame = frame
			case pulse.Tilt:
				r.Value = rapid.Int32Range(0, 1800).Draw(t, "tilt")
			case pulse.Pack:
				r.Value = rapid.Int32Range(0, 65000).Draw(t, "pack")
			case pulse.Menu:
				r.Value = rapid.Int32Range(0, 2).Draw(t, "menu")
			case pulse.StickMode:
				r.Value = rapid.Int32Range(1, 4).Draw(t, "stick mode")
			case pulse.Nudge:
			case pulse.Propellers:
				var hands [4]int8
				for i := range hands {
					hands[i] = int8(rapid.IntRange(-1, 1).Draw(t, "hand"))
				}
				r.Value = pulse.PropellersValue(hands, rapid.Bool().Draw(t, "checked"))
			default:
				r.Value = rapid.Int32Range(0, 1).Draw(t, "on")
			}
			d.Readings = append(d.Readings, r)
		}
		var when int64
		for range rapid.IntRange(0, 4).Draw(t, "expects") {
			when += rapid.Int64Range(0, 5000).Draw(t, "when") * 1000
			e := Expect{At: when, Within: rapid.Int64Range(0, 2000).Draw(t, "within") * 1000, Kind: Kind(rapid.IntRange(int(Armed), int(Happens)).Draw(t, "expect"))}
			switch e.Kind {
			case Refused:
				e.Codes = rapid.SliceOfN(rapid.SampledFrom(testNames.Refusals), 1, 3).Draw(t, "codes")
			case Made:
				e.Codes = []string{rapid.SampledFrom(testNames.Gestures).Draw(t, "gesture")}
			case InMode:
				e.Codes = []string{rapid.SampledFrom(pulse.ModeCodes()).Draw(t, "mode")}
			case Happens:
				e.Codes = []string{rapid.SampledFrom([]string{"refused", "link-lost", "mode"}).Draw(t, "code")}
			}
			d.Expects = append(d.Expects, e)
		}
		roundTrip(t, d)
	})
}

func TestWrittenScriptCanBeRead(t *testing.T) {
	f := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low, 0, 12001}
	g := f
	g[4], g[7] = pulse.High, 0
	text, err := Write(Draft{
		Comment: "The shortest way to a broken rule:\narmed with the throttle up.", Name: "a finding", Craft: "built-in",
		Readings: []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Plug, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Controls, Frame: f},
			{At: 20_000, Kind: pulse.Tilt, Value: 305}, {At: 2_499_001, Kind: pulse.Controls, Frame: g}},
		Expects: []Expect{{At: 2_500_000, Within: 20_000, Kind: Refused, Codes: []string{"throttle-up", "no-link"}}, {At: 3_000_000, Kind: Happens, Codes: []string{"armed-nothing"}}},
		End:     4_000_000,
	}, testNames)
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "written.golden", string(text))
}

func TestWriteRefuses(t *testing.T) {
	for name, d := range map[string]Draft{
		"cannot be written into a script": {Readings: []pulse.Reading{{At: 5000, Kind: pulse.Gap, Value: 3}}},
		"comes before":                    {Readings: []pulse.Reading{{At: 5000, Kind: pulse.Nudge}, {At: 3000, Kind: pulse.Nudge}}},
		"link has no value 2":             {Readings: []pulse.Reading{{At: 5000, Kind: pulse.Link, Value: 2}}},
		"cannot be written":               {Expects: []Expect{{Kind: 9}}},
	} {
		if text, err := Write(d, testNames); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v\n%s", name, err, text)
		}
	}
}
