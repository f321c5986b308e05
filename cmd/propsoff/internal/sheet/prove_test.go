package sheet

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/fit"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/craftfile"
	"propsoff/sim/handset"
	"propsoff/sim/link"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// proved is a view of a search that is over, with rules in the program's own words.
func proved(t testing.TB) *stage {
	s := ready(t)
	v := &s.v.Prove
	v.Of = phrase.Searched("Teasel", &handset.Radio{Name: "Moorland Desk 7", Measured: true}, facts.ItsFile)
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	v.Moved = phrase.Moved(&prove.Layout{Config: f.Config(), Radio: fit.Ideal(f)})
	v.Begun, v.Status = true, phrase.Verdict(&prove.Report{Situations: 537_664, Standing: 348e6, Results: []prove.Result{{Outcome: prove.Broken}, {Outcome: prove.WithIt}}})
	for _, r := range phrase.Rules() {
		v.Rules = append(v.Rules, ProvedRule{Outcome: prove.Holds, Short: phrase.RuleShort(r), Rule: phrase.Rule(r), Says: phrase.Finding(nil, &prove.Result{Rule: r, Outcome: prove.Holds, Searched: 537_664})})
	}
	v.CalledOut = phrase.CalledOut([]string{"arm switch at 1598 µs: only 2 µs from the edge at 1600; leave 30 or more."})
	v.Rules[1].Outcome = prove.NotAsked
	v.Rules[2].Outcome = prove.WithIt
	v.Rules[3].Outcome = prove.Undecided
	b := &v.Rules[4]
	b.Outcome = prove.Broken
	b.Says = "The receiver repeats the last values when the radio goes silent, so the craft cannot know that the link is gone and its motors go on."
	b.Way = phrase.WayTitle(&prove.Result{Outcome: prove.Broken, Way: &prove.Way{Movements: 4, Ms: 4480}})
	b.Steps = []ProvedStep{
		{"", "At the beginning: throttle fully down (988 µs), arm switch low (988 µs), mode switch low (988 µs); radio on, the craft without power.", "", "0.000 s"},
		{"1", "Connect the craft's pack.", "The link is there.", "0.000 s"},
		{"", "Wait 2 s.", "The link is good and it has stood still long enough.", "0.000 s"},
		{"2", "Arm switch to its high position (2012 µs).", "It ARMS.", "2.000 s"},
		{"3", "Throttle fully up (2012 µs).", "", "2.020 s"},
		{"4", "Radio off.", "", "2.040 s"},
		{"", "Wait 0.26 s.", "", "2.040 s"},
	}
	v.Selected = 4
	return s
}

var proveScenes = []struct {
	name string
	make func(t testing.TB) *stage
	says []string
}{
	{"not begun", func(t testing.TB) *stage {
		s := proved(t)
		v := &s.v.Prove
		v.Begun, v.Selected, v.Status = false, 0, phrase.Progress(prove.Progress{Situations: 120_337, Open: 8_120, Movements: 3, Slots: 212})
		v.Searching, v.Done = true, 0.93
		for i := range v.Rules {
			v.Rules[i] = ProvedRule{Outcome: prove.Undecided, Short: v.Rules[i].Short, Rule: v.Rules[i].Rule}
		}
		return s
	}, []string{"Searching: 120,337 situations so far", "to be searched"}},
	{"broken", proved, []string{"537,664 situations, standing for 348 million", "BROKEN", "holds", "comes with sticks", "undecided", "not asked", "4 movements, 4.48 s", "The layout sheet (F6) calls out 1 thing"}},
	{"holds", func(t testing.TB) *stage {
		s := proved(t)
		s.v.Prove.Selected = 0
		return s
	}, []string{"Held against 537,664 situations.", "Arm switch, channel 5:"}},
	{"long way", func(t testing.TB) *stage {
		s := proved(t)
		v := &s.v.Prove
		b := &v.Rules[4]
		for i := range 20 {
			b.Steps = append(b.Steps, ProvedStep{strconv.Itoa(i + 5), "Arm switch (the long lever at the left of the face) to position 4 of 6 (1603.125 µs).", "The link is good, the mode changes and arming is refused.", "12.440 s"})
		}
		v.From = 4
		v.Of = phrase.Searched(longName, &handset.Radio{Name: longName}, facts.GivenFile)
		s.v.Notices = []string{bluntedNotice}
		return s
	}, []string{"more"}},
	{"stale", func(t testing.TB) *stage {
		s := proved(t)
		s.v.Prove.Status = phrase.StaleProof()
		s.v.Driver, s.v.DriverName, s.v.Next = Radio, longName, Keyboard
		return s
	}, []string{"have changed since"}},
	{"never sinks", func(t testing.TB) *stage {
		s := proved(t)
		_, text, _ := assets.Craft(assets.BuiltIn)
		f, err := craftfile.Parse("craft", text)
		require.NoError(t, err)
		l := prove.Layout{Config: f.Config(), Radio: handset.Radio{Name: "Moorland Desk 7", Measured: true, Controls: []handset.Control{{Job: "pitch", Assumed: true}, {Job: "channel 7", Kind: handset.Switch, Called: "lights", Assumed: true}}}}
		l.Config.Arming.SinkSlots, l.Config.Link.OnLoss = 200, link.SendsStored
		for c := range l.Config.Link.Stored {
			l.Config.Link.Stored[c] = pulse.Low
		}
		v := &s.v.Prove
		v.Of = phrase.Searched("Teasel", &l.Radio, facts.GivenFile)
		v.Selected = 8
		v.Rules[8].Rule = phrase.RuleFor(&l, prove.LossStopsMotors)
		v.Rules[8].Says += " " + phrase.RuleNote(&l, prove.LossStopsMotors)
		return s
	}, []string{"It is set to sink, and never does with this receiver: the stored values disarm it at once."}},
	{"no craft", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Prove = ProveView{Of: phrase.NoCraftToProve()}
		return s
	}, nil},
}

func TestProveInEveryScene(t *testing.T) {
	for _, sc := range proveScenes {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			for _, class := range []bool{false, true} {
				s.v.Class, s.v.Full = class, class
				p := ink.NewPage(960, 600, 0, nil)
				for _, z := range sizes {
					for _, theme := range themesAt(z) {
						s.v.Dark = theme == ink.Dark()
						p.Reset(z.w, z.h, 0, theme)
						Prove(p, s.v)
						what := fmt.Sprintf("%vx%v %s class %v", z.w, z.h, theme.Name, class)
						if sc.name == "no craft" { // there is nothing to fill the sheet with
							lim := ink.DefaultLimits()
							lim.Hole = 1
							assert.Empty(t, ink.CheckWith(p, lim), what)
						} else {
							report(t, what, p)
						}
						draw(t, fmt.Sprintf("prove %s %v", sc.name, class), p)
						if class {
							h := min(z.h, z.w*600/960)
							for _, it := range p.Items() {
								if it.Kind == ink.KindText {
									assert.GreaterOrEqual(t, it.Size, 0.035*h, "%s: %s", what, it.Text)
								}
							}
						}
						if t.Failed() && *pictures == "" {
							return
						}
					}
					all := texts(p)
					for _, want := range sc.says {
						if !class || !strings.HasPrefix(want, "have") && !strings.HasPrefix(want, "The layout sheet") {
							assert.Contains(t, all, want, "%v class %v", z, class)
						}
					}
				}
			}
		})
	}
}

// Every outcome has a word and a shape of its own.
func TestOutcomesAreNeverColourAlone(t *testing.T) {
	s := proved(t)
	words, shapes := map[string]bool{}, map[string]bool{}
	for o := prove.NotAsked; o <= prove.Undecided; o++ {
		words[phrase.Outcome(o, true)] = true
		p := ink.NewPage(960, 600, 0, nil)
		newBoard(p, s.v).outcomeMark(100, 100, 8, o)
		names := ""
		for _, it := range p.Items() {
			names += it.Name + it.Kind.String()
		}
		shapes[names] = true
	}
	assert.Len(t, words, 5)
	assert.Len(t, shapes, 5)
}

func TestRulesCanBeClicked(t *testing.T) {
	s := proved(t)
	seen := map[int]bool{}
	for s.v.Prove.Selected = range s.v.Prove.Rules {
		p := ink.NewPage(1200, 1920, 0, nil) // has room for those round the one looked at
		Prove(p, s.v)
		last := -1
		for _, h := range p.Hits() {
			if i, ok := RuleOf(h.Name); ok {
				assert.True(t, last < 0 || i == last+1, "rule %d after %d", i, last)
				last, seen[i] = i, true
			}
		}
	}
	assert.Len(t, seen, len(phrase.Rules()))
	for _, bad := range []string{"rule-", "rule-0", "rule-x", "rule-above", "help"} {
		_, ok := RuleOf(bad)
		assert.False(t, ok, bad)
	}
}

// What can be done on the sheet is on it with its key.
func TestEveryActionOfProveIsOnItsSheet(t *testing.T) {
	s := proved(t)
	p := ink.NewPage(960, 600, 0, nil)
	Prove(p, s.v)
	hits := map[string]string{}
	for _, h := range p.Hits() {
		hits[h.Name] = h.Key
	}
	for _, a := range Acts() {
		if s.v.Shows(a, OnProve) {
			assert.Equal(t, a.Physical, hits[a.Code], a.Code)
		} else {
			assert.NotContains(t, hits, a.Code)
		}
	}
	assert.Contains(t, hits, "show-way")
}
