package script

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/sim/pulse"
)

var update = flag.Bool("update", false, "rewrite the goldens in testdata")

// testNames is a craft that arms with channel 5 and has no second switch.
var testNames = input.Names{
	Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "arm": 4, "mode": 5},
	Position: map[string]map[string]pulse.Width{
		"arm":  {"on": pulse.High, "off": pulse.Low},
		"mode": {"angle": pulse.Low, "horizon": pulse.Centre, "rate": pulse.High},
	},
	Refusals:   []string{"throttle-up", "off-first", "no-link", "menu-open"},
	Happenings: []string{"", "armed", "disarmed", "refused", "link-lost", "link-back", "mode"},
	Gestures:   []string{"craft-menu", "camera"},
}

// golden compares got with a file that a person can read.
func golden(t *testing.T, file, got string) {
	t.Helper()
	path := filepath.Join("testdata", file)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; got:\n%s", path, got)
	}
}

func parse(t *testing.T, text string) *Script {
	t.Helper()
	s, err := Parse("x.yaml", []byte(text), testNames)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// playAll gives every reading of a script.
func playAll(t interface{ Fatal(...any) }, s *Script) []pulse.Reading {
	rs, err := s.Source().Poll(nil, s.End())
	if err != input.ErrEnd {
		t.Fatal(err)
	}
	return rs
}

var kinds = map[pulse.Kind]string{pulse.Link: "link", pulse.Plug: "plug", pulse.Power: "power", pulse.Cable: "cable",
	pulse.Tilt: "tilt", pulse.Nudge: "nudge", pulse.Menu: "menu", pulse.Pack: "pack", pulse.Air: "bench", pulse.Propellers: "propellers"}

func show(rs []pulse.Reading) string {
	var b strings.Builder
	for _, r := range rs {
		fmt.Fprintf(&b, "%8.3f s  ", float64(r.At)/1e6)
		if r.Kind != pulse.Controls {
			fmt.Fprintf(&b, "%s %d\n", kinds[r.Kind], r.Value)
			continue
		}
		for _, w := range r.Frame[:7] {
			fmt.Fprintf(&b, "%9s", microsText(w))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func TestEveryWord(t *testing.T) {
	data, err := os.ReadFile("testdata/pilot.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := Parse("pilot.yaml", data, testNames)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%q, craft %q, radio %q, ends at %s\n", s.Title(), s.Craft, s.Radio, clock(s.End()/1000))
	for _, e := range s.Expectations() {
		fmt.Fprintf(&b, "%s: from %s for %s: %s\n", e.Pos, clock(e.At/1000), clock(e.Within/1000), e)
	}
	golden(t, "pilot.golden", b.String()+show(playAll(t, s)))
}

func TestEveryError(t *testing.T) {
	data, err := os.ReadFile("testdata/bad.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, err = Parse("bad.yaml", data, testNames)
	var es words.Problems
	if !errors.As(err, &es) {
		t.Fatalf("%v", err)
	}
	var b strings.Builder
	for _, e := range es {
		b.WriteString(e.Error() + "\n")
	}
	golden(t, "bad.golden", b.String())
}

func TestTheShortestWayToBeWrong(t *testing.T) {
	for text, want := range map[string]string{
		"":                                   "",
		"{}":                                 "no field `steps`",
		"steps: 3":                           "a list must stand",
		"- at":                               "",
		"steps: []\nend: 25h":                "x.yaml:2:6",
		"propsoff: script 2\nsteps: []":      "newer propsoff",
		"propsoff: script\nsteps: []":        "no kind of file",
		"propsoff: scirpt 1\nsteps: []":      "no script",
		"steps: [{at: 1s, ch5: 1, arm: on}]": "x.yaml:1:26: `ch5` and `arm` are both channel 5",
		"\xff\xfe\x00":                       "",
		"a: &a [*a]":                         "",
	} {
		if _, err := Parse("x.yaml", []byte(text), testNames); err == nil || !strings.HasPrefix(err.Error(), "x.yaml:") || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
}

// The example of the project's plan, word for word: what stands in it must be read so.
func TestPlainExample(t *testing.T) {
	s := parse(t, `
craft: built-in            # or a path, from this file's folder
start: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, arm: 988, mode: 988}
steps:
  - {at: 2.5s, arm: 2012}
  - {at: 3.0s, throttle: 1400, over: 300ms}
  - {at: 5.0s, link: off}
  - {at: 6.0s, expect: disarmed}
`)
	rs := playAll(t, s)
	f := pulse.Frame{7904, 12000, 12000, 12000, 7904, 7904}
	for i, want := range []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Controls, Frame: f}} {
		if rs[i] != want {
			t.Errorf("reading %d: %+v, want %+v", i, rs[i], want)
		}
	}
	f[4] = 16096
	if want := (pulse.Reading{At: 2_500_000, Kind: pulse.Controls, Frame: f}); rs[4] != want {
		t.Errorf("%+v, want %+v", rs[4], want)
	}
	ramp := rs[5 : len(rs)-1]
	if len(ramp) != 300 {
		t.Fatalf("%d readings in 300 ms", len(ramp))
	}
	for i, r := range ramp { // 412 µs in 300 ms: 3296/300 eighths a ms
		d := int64(i + 1)
		if n := 2*300*(int64(r.Frame[0])-7904) - 2*3296*d; r.At != 3_000_000+d*1000 || n > 300 || n <= -300 {
			t.Errorf("after %d ms: %d eighths at %d µs", d, r.Frame[0], r.At)
		}
	}
	if r := ramp[299]; r.Frame[0] != 11200 || r.At != 3_300_000 {
		t.Errorf("the line ends with %+v", r)
	}
	if want := (pulse.Reading{At: 5_000_000, Kind: pulse.Link}); rs[len(rs)-1] != want {
		t.Errorf("last %+v", rs[len(rs)-1])
	}
	if e := s.Expectations(); len(e) != 1 || e[0].At != 6_000_000 || e[0].Kind != Disarmed || e[0].Within != 0 || s.End() != 7_000_000 {
		t.Errorf("%+v, end %d", e, s.End())
	}
}

// Values against the published scale and the ends of travel; source: README, "What the bench does".
func TestValues(t *testing.T) {
	for text, want := range map[string]pulse.Width{
		"860": 860 * 8, "2180": 2180 * 8, "1500": 1500 * 8, "1500.125": 12001, "1500.625 us": 12005, "988 µs": 7904, "\"1500\"": 12000,
		"-100 %": 7904, "-100%": 7904, "+100 %": 16096, "100%": 16096, "0 %": 12000, "0%": 12000, "-50%": 9952, "50 %": 14048, "12.5 %": 12512, "-125 %": 6880, "132.8 %": 17439,
		"low": 7904, "middle": 12000, "high": 16096, "on": 16096, "off": 7904, "\"off\"": 7904, "none": 0,
	} {
		s := parse(t, "steps: [{at: 0s, arm: "+text+"}]")
		rs := playAll(t, s)
		if got := rs[len(rs)-1].Frame[4]; got != want {
			t.Errorf("arm: %s gives %d eighths, want %d", text, got, want)
		}
	}
	for _, text := range []string{"859.875", "2180.125", "1500.1", "-125.1 %", "132.9 %", "yes", "On", "true", "~", "\"\"", "1e3", "0x5dc", "15:00", "1500 ms", "{}", "[1500]", "1,500", "inf"} {
		if _, err := Parse("x", []byte("steps: [{at: 0s, arm: "+text+"}]"), testNames); err == nil {
			t.Errorf("arm: %s is taken", text)
		}
	}
}

func TestRest(t *testing.T) {
	names := testNames
	names.Channel = map[string]int{"arm": 0, "throttle": 1, "yaw": 7, "mode": 15, "roll": 3, "out": 16, "below": -1}
	names.Position = map[string]map[string]pulse.Width{"arm": {"on": pulse.Low, "off": pulse.High}}
	s, err := Parse("x", []byte("steps: []"), names)
	if err != nil {
		t.Fatal(err)
	}
	rs := playAll(t, s)
	if want := (pulse.Frame{0: pulse.High, 1: pulse.Low, 3: pulse.Centre, 7: pulse.Centre, 15: pulse.Low}); rs[len(rs)-1].Frame != want {
		t.Errorf("%v", rs[len(rs)-1].Frame)
	}
	rs = playAll(t, parse(t, "start: {power: off, throttle: low}\nsteps: [{at: 0s, radio: unplug, nudge: once}, {at: 0s, link: off}, {at: 0s, link: on, nudge: once}]"))
	want := "   0.000 s  plug 0\n   0.000 s  link 1\n   0.000 s  power 0\n   0.000 s  nudge 0\n   0.000 s  nudge 0\n   0.000 s        988     1500     1500     1500      988      988        0\n"
	if show(rs) != want {
		t.Errorf("got\n%s", show(rs))
	}
}

func TestScriptIsASource(t *testing.T) {
	data, err := os.ReadFile("testdata/pilot.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := Parse("pilot.yaml", data, testNames)
	if err != nil {
		t.Fatal(err)
	}
	inputtest.TestSource(t, s.Source, inputtest.Want{Until: 70_000_000, End: input.ErrEnd, NoAlloc: true})
	s = parse(t, "steps: [{at: 0s, throttle: high, over: 9s, roll: -100 %}, {at: 1s, yaw: low, over: 8.5s}, {at: 8s, throttle: low, over: 0.9s}]")
	inputtest.TestSource(t, s.Source, inputtest.Want{Until: 20_000_000, End: input.ErrEnd, NoAlloc: true})
	inputtest.TestSource(t, s.Source, inputtest.Want{Until: 10_000_000})
}

func FuzzParse(f *testing.F) {
	for _, name := range []string{"pilot.yaml", "bad.yaml"} {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
		for _, line := range bytes.Split(data, []byte("\n")) {
			f.Add(append([]byte("steps:\n"), line...))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Parse("x.yaml", data, testNames)
		if err != nil {
			var es words.Problems
			if !errors.As(err, &es) || len(es) == 0 {
				t.Fatalf("%T: %v", err, err)
			}
			for _, e := range es {
				if e.File != "x.yaml" || e.Text.Empty() {
					t.Fatalf("%+v", e)
				}
			}
			return
		}
		p := s.Source()
		var last int64
		for until := int64(0); until <= 30_000_000; until += 777_777 {
			rs, err := p.Poll(nil, until)
			for _, r := range rs {
				if r.At < last || r.At > until || r.At%1000 != 0 {
					t.Fatalf("%+v until %d", r, until)
				}
				last = r.At
				for _, w := range r.Frame {
					if w != pulse.Missing && !w.Valid() {
						t.Fatalf("%+v", r)
					}
				}
			}
			if (err != nil) != (until >= s.End()) {
				t.Fatalf("%v at %d, end %d", err, until, s.End())
			}
			if err != nil {
				break
			}
		}
		if s.End() <= 30_000_000 {
			roundTrip(t, Draft{Name: s.Name, Craft: s.Craft, Radio: s.Radio, Readings: playAll(t, s), Expects: s.Expectations(), End: s.End()})
		}
	})
}

// A straight line against its plain twin in floating point, up and down: the nearest eighth, halves up.
func TestStraightLines(t *testing.T) {
	for _, to := range []int{860, 988, 999, 1499, 1500, 1501, 1777, 2180} {
		for _, over := range []int64{1, 2, 3, 7, 64, 512, 1000} {
			r := ramp{from: pulse.Centre, to: pulse.Micros(to), begin: 40, over: over}
			for d := range over + 2 {
				want := math.Floor(12000 + float64(to*8-12000)*float64(min(d, over))/float64(over) + 0.5)
				if got := r.at(40 + d); float64(got) != want {
					t.Fatalf("to %d over %d ms: %d eighths after %d ms, want %v", to, over, got, d, want)
				}
			}
		}
	}
}
