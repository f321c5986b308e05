package script

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/assets/words"
)

func TestVerdicts(t *testing.T) {
	type fact struct {
		armed      bool
		refusals   string
		happenings string
	}
	// 0..9 refused by throttle and link, 10..19 ready, armed from 20.
	facts := func(tick int64) fact {
		switch {
		case tick < 10:
			return fact{refusals: "throttle-up no-link"}
		case tick == 20:
			return fact{armed: true, happenings: "mode armed"}
		case tick < 20:
			return fact{}
		}
		return fact{armed: true}
	}
	for steps, want := range map[string]string{
		"{at: 9ms, expect: disarmed}":                                      "",
		"{at: 10ms, expect: ready}":                                        "",
		"{at: 9ms, expect: ready}":                                         "x.yaml:1:27: at 0.009s ready was expected; seen: disarmed, refused: throttle-up, no-link",
		"{at: 9ms, expect: ready, within: 1ms}":                            "",
		"{at: 10ms, expect: armed, within: 9ms}":                           "x.yaml:1:28: from 0.01s to 0.019s armed was expected; seen: disarmed, nothing refuses",
		"{at: 10ms, expect: armed, within: 10ms}":                          "",
		"{at: 20ms, expect: disarmed}":                                     "x.yaml:1:28: at 0.02s disarmed was expected; seen: armed",
		"{at: 9ms, expect: {refused: [no-link]}}":                          "",
		"{at: 9ms, expect: {refused: [no-link, throttle-up]}}":             "",
		"{at: 9ms, expect: {refused: [no-link, menu-open]}}":               "x.yaml:1:27: at 0.009s {refused: [no-link, menu-open]} was expected; seen: disarmed, refused: throttle-up, no-link",
		"{at: 10ms, expect: {refused: no-link}}":                           "x.yaml:1:28: at 0.01s {refused: [no-link]} was expected; seen: disarmed, nothing refuses",
		"{at: 20ms, expect: mode}":                                         "",
		"{at: 19ms, expect: mode}":                                         "x.yaml:1:28: at 0.019s mode was expected; seen: nothing happened",
		"{at: 10ms, expect: link-lost, within: 30ms}":                      "x.yaml:1:28: from 0.01s to 0.04s link-lost was expected; seen: mode, armed",
		"{at: 0s, expect: mode, within: 20ms}":                             "",
		"{at: 20ms, expect: [armed, mode, ready]}":                         "x.yaml:1:42: at 0.02s ready was expected; seen: armed",
		"{at: 1ms, expect: armed, within: 90ms}, {at: 2ms, expect: armed}": "x.yaml:1:67: at 0.002s armed was expected; seen: disarmed, refused: throttle-up, no-link",
		"{at: 5s, expect: armed}":                                          "x.yaml:1:26: at 5s armed was expected; seen: the run ended before",
	} {
		s := parse(t, "steps: ["+steps+"]")
		c := s.NewChecker()
		var got []string
		note := func(fs []Failed) {
			for _, f := range fs {
				got = append(got, f.Problem().Error())
			}
		}
		for tick := range int64(100) {
			f := facts(tick)
			note(c.Tick(tick, &Now{Armed: f.armed, Refusals: strings.Fields(f.refusals), Happenings: strings.Fields(f.happenings)}))
		}
		note(c.Finish())
		if strings.Join(got, "\n") != want {
			t.Errorf("%s:\ngot  %s\nwant %s", steps, strings.Join(got, "\n"), want)
		}
		if c.Passed()+len(got) != c.Total() || c.Total() != len(s.Expectations()) {
			t.Errorf("%s: %d passed, %d failed of %d", steps, c.Passed(), len(got), c.Total())
		}
	}
}

func TestPassedOverIsAFailure(t *testing.T) {
	c := parse(t, "steps: [{at: 5ms, expect: armed}, {at: 6ms, expect: mode, within: 2ms}]").NewChecker()
	c.Tick(4, &Now{Armed: true})
	fs := c.Tick(9, &Now{Armed: true, Happenings: []string{"mode"}})
	if len(fs) != 2 || words.English().Say(fs[0].Seen) != "the run passed over this time" || words.English().Say(fs[1].Seen) != words.English().Say(fs[0].Seen) || c.Passed() != 0 {
		t.Errorf("%v, %d passed", fs, c.Passed())
	}
}

// The checker against its plain twin: an expectation has come true if it holds at one tick of its time.
func TestCheckerAgainstPlainTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		armed := rapid.SliceOfN(rapid.Bool(), 40, 40).Draw(t, "armed")
		mode := rapid.SliceOfN(rapid.Bool(), 40, 40).Draw(t, "mode")
		kinds := map[Kind]func(int64) bool{
			Armed:    func(i int64) bool { return armed[i] },
			Disarmed: func(i int64) bool { return !armed[i] },
			Ready:    func(i int64) bool { return !armed[i] && !mode[i] },
			Refused:  func(i int64) bool { return !armed[i] && mode[i] },
			Made:     func(i int64) bool { return armed[i] && mode[i] },
			InMode:   func(i int64) bool { return mode[i] },
			Happens:  func(i int64) bool { return mode[i] },
		}
		var es []Expect
		want := 0
		for range rapid.IntRange(0, 20).Draw(t, "n") {
			e := Expect{At: rapid.Int64Range(0, 29).Draw(t, "at") * 1000, Within: rapid.Int64Range(0, 10).Draw(t, "within") * 1000,
				Kind: Kind(rapid.IntRange(int(Armed), int(Happens)).Draw(t, "kind")), Codes: []string{"x"}}
			es = append(es, e)
			for i := e.At / 1000; i <= (e.At+e.Within)/1000; i++ {
				if kinds[e.Kind](i) {
					want++
					break
				}
			}
		}
		c := NewChecker(es)
		failed := 0
		for i := range int64(40) {
			var codes []string
			if mode[i] {
				codes = []string{"y", "x"}
			}
			now := Now{Armed: armed[i], Refusals: codes, Happenings: codes}
			if armed[i] {
				now.Gestures = codes
			}
			if mode[i] {
				now.Mode = "x"
			}
			failed += len(c.Tick(i, &now))
		}
		failed += len(c.Finish())
		if c.Passed() != want || failed != len(es)-want {
			t.Fatalf("%d passed, %d failed; want %d of %d", c.Passed(), failed, want, len(es))
		}
	})
}

func TestCheckerAllocatesNothingWhileAllIsWell(t *testing.T) {
	c := parse(t, "steps: [{at: 0s, expect: armed, within: 1h}, {at: 2h, expect: mode}]").NewChecker()
	refusals := []string{"no-link"}
	tick := int64(0)
	if n := testing.AllocsPerRun(1000, func() { c.Tick(tick, &Now{Refusals: refusals}); tick++ }); n != 0 {
		t.Errorf("%v allocations a tick", n)
	}
}

// What gestures and modes are expected of, and what is said where they do not come.
func TestGesturesAndModes(t *testing.T) {
	const text = `steps:
  - {at: 1s, expect: {gesture: craft-menu}}
  - {at: 2s, expect: {gesture: camera}, within: 5ms}
  - {at: 3s, expect: {mode: rate}}
  - {at: 3s, expect: {mode: angle}}
`
	c := parse(t, text).NewChecker()
	var failed []string
	for tick := int64(0); tick < 3001; tick++ {
		now := Now{Mode: "angle"}
		if tick == 1000 {
			now.Happenings, now.Gestures = []string{"gesture"}, []string{"craft-menu"}
		}
		if tick == 2003 {
			now.Happenings = []string{"gesture-missed"}
		}
		for _, f := range c.Tick(tick, &now) {
			failed = append(failed, f.Problem().Error())
		}
	}
	require.Equal(t, []string{
		"x.yaml:3:22: from 2s to 2.005s {gesture: camera} was expected; seen: gesture-missed",
		"x.yaml:4:22: at 3s {mode: rate} was expected; seen: mode angle",
	}, failed)
	require.Equal(t, 2, c.Passed())

	plain := testNames
	plain.Gestures = nil
	_, err := Parse("s.yaml", []byte("steps: [{at: 1s, expect: {gesture: craft-menu}}]"), plain)
	require.ErrorContains(t, err, "this craft knows no gestures")
}
