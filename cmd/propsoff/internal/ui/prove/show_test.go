package prove_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	provesheet "propsoff.example/cmd/propsoff/internal/ui/prove"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

const layoutsIn = "../../../testdata/layouts"

// layoutIn reads a crafted layout; radioName is empty for an ideal radio.
func layoutIn(t testing.TB, craftName, radioName string) prove.Layout {
	text, err := os.ReadFile(filepath.Join(layoutsIn, craftName+".craft.yaml"))
	require.NoError(t, err)
	craft, err := craftfile.Parse(craftName, text)
	require.NoError(t, err)
	if radioName == "" {
		return facts.LayoutOf(craft, nil, nil)
	}
	text, err = os.ReadFile(filepath.Join(layoutsIn, radioName+".radio.yaml"))
	require.NoError(t, err)
	names := craft.Names()
	file, err := radio.Parse(radioName, text, radio.Known{Names: &names})
	require.NoError(t, err)
	return facts.LayoutOf(craft, &file, nil)
}

// eachWay finds every way to a broken rule of every crafted layout: each craft on an ideal radio, and each radio with the crafts that are sound.
func eachWay(t *testing.T, do func(t *testing.T, l *prove.Layout, r *prove.Result)) (ways int) {
	all, err := os.ReadDir(layoutsIn)
	require.NoError(t, err)
	var pairs [][2]string
	for _, f := range all {
		if name, is := strings.CutSuffix(f.Name(), ".craft.yaml"); is {
			pairs = append(pairs, [2]string{name})
		} else if name, is := strings.CutSuffix(f.Name(), ".radio.yaml"); is && name != "six" && name != "unscaled" {
			craft := "switch"
			if strings.Contains(name, "short") || strings.HasPrefix(name, "pitch") {
				craft = "sticks"
			} else if name == "second-on" {
				craft = "second"
			}
			pairs = append(pairs, [2]string{craft, name})
		}
	}
	for _, pair := range pairs {
		t.Run(strings.Join(pair[:], " "), func(t *testing.T) {
			l := layoutIn(t, pair[0], pair[1])
			report, err := facts.Prove(l, func(p prove.Progress) bool { return p.Situations > 1_000_000 })
			require.NoError(t, err)
			for i := range report.Results {
				if r := &report.Results[i]; r.Way != nil && r.Outcome == prove.Broken {
					ways++
					do(t, &l, r)
				}
			}
		})
	}
	return ways
}

// endsAsClaimed holds the craft of a way that was played against what the search claims of it.
func endsAsClaimed(t *testing.T, r *prove.Result, p *provesheet.Playing) {
	t.Helper()
	s := p.Snapshot()
	assert.Equal(t, r.Way.Claim.Armed, s.Armed, r.Rule.Code())
	assert.Equal(t, r.Way.Claim.Sinking, s.Sinking, r.Rule.Code())
	assert.Equal(t, link.Phase(r.Way.Claim.Phase), s.Link, r.Rule.Code())
	assert.Equal(t, r.Way.Claim.Mode, uint8(s.Mode), r.Rule.Code())
	assert.Equal(t, r.Way.Final, s.Tick, r.Rule.Code())
}

// A way that plays by itself shows each step before it is made, goes through all of them in their order, and ends as the search claims: whatever pieces
// the window's time comes in. Its last step goes slowest.
func TestEveryWayPlaysByItself(t *testing.T) {
	ways := eachWay(t, func(t *testing.T, l *prove.Layout, r *prove.Result) {
		for _, piece := range [...]int64{16_000, 250_000} {
			p := provesheet.Play(l, r, false)
			took, shown := make([]int64, len(r.Way.Steps)), 0
			for n := 0; !p.Over(); n++ {
				require.Less(t, n, 20_000, "%s does not end", r.Rule.Code())
				if at := p.At(); at == shown && p.Comes() {
					begins := int64(0)
					if at > 0 {
						begins = r.Way.Steps[at].At - r.Way.Steps[0].At
					}
					require.Equal(t, begins-1, p.Snapshot().Tick, "%s: step %d is shown before it is made", r.Rule.Code(), at)
					shown++
				} else {
					require.True(t, at < shown, "%s: step %d was not shown", r.Rule.Code(), at)
				}
				if p.Goes() {
					took[p.At()] += piece
				}
				p.On(piece)
			}
			require.Equal(t, len(r.Way.Steps), shown, r.Rule.Code())
			endsAsClaimed(t, r, p)
			for _, before := range took {
				assert.LessOrEqual(t, before-piece, took[len(took)-1], r.Rule.Code())
			}
		}
	})
	assert.Greater(t, ways, 60)
}

// Where hands lead, time stands still until they stand as the step wants it: a switch in the same position, a stick about there, every other control
// as it is to the craft in the way. What no hand of the radio does comes by itself. It ends as claimed.
func TestEveryWayIsLedByHands(t *testing.T) {
	led, held := 0, 0
	eachWay(t, func(t *testing.T, l *prove.Layout, r *prove.Result) {
		p := provesheet.Play(l, r, true)
		for n := 0; !p.Over(); n++ {
			require.Less(t, n, 20_000, "%s does not end", r.Rule.Code())
			if !p.Comes() || !p.ByHand() {
				p.On(100_000)
				continue
			}
			at, want := p.At(), p.Wants()
			for i := range l.Radio.Controls { // each control elsewhere, as far as the craft tells
				c := &l.Radio.Controls[i]
				for _, w := range []pulse.Width{c.Low, c.Rest, c.High} {
					if p.Means(i, w, want[c.Channel]) {
						continue
					}
					p.Hand = want
					p.Hand[c.Channel] = w
					before := p.Snapshot().Tick
					p.On(60_000_000)
					if held++; c.Same == 0 {
						require.True(t, p.Waits(), "%s: step %d goes on though %s stands at %d", r.Rule.Code(), at, c.Job, w)
						require.Equal(t, before, p.Snapshot().Tick)
					}
					if p.At() != at || !p.Comes() {
						break
					}
				}
			}
			if at == p.At() && p.Comes() {
				p.Hand = want
				for c := range 4 { // no hand stands exactly
					if p.Hand[c].Valid() && p.Means(onChannel(l, c), p.Hand[c]+3, want[c]) {
						p.Hand[c] += 3
					}
				}
				p.On(1)
				led++
				require.False(t, p.At() == at && p.Comes(), "%s: step %d waits though all stands", r.Rule.Code(), at)
			}
		}
		endsAsClaimed(t, r, p)
	})
	assert.Greater(t, led, 150)
	assert.Greater(t, held, 300)
}

// onChannel is the index of the control on a channel.
func onChannel(l *prove.Layout, c int) int {
	for i := range l.Radio.Controls {
		if int(l.Radio.Controls[i].Channel) == c {
			return i
		}
	}
	return 0
}

// A step back is a step back, on a bench that has gone through what comes before; whoever does not want to wait goes on at once.
func TestAStepBackAndOn(t *testing.T) {
	l := layoutIn(t, "held-switch", "")
	report, err := facts.Prove(l, nil)
	require.NoError(t, err)
	r := &report.Results[prove.LossStopsMotors]
	p := provesheet.Play(&l, r, false)
	for !p.Over() {
		p.End()
	}
	endsAsClaimed(t, r, p)
	for p.At() > 0 {
		at := p.At()
		p.Back()
		assert.Equal(t, at-1, p.At())
		assert.True(t, p.Comes())
	}
	p.Back()
	assert.Zero(t, p.At())
	assert.False(t, p.Snapshot().Armed)
	for !p.Over() {
		p.On(250_000)
	}
	endsAsClaimed(t, r, p)
}

// looked is a stage at the sheet, on which the way of a real search is looked at.
func looked(t testing.TB, craft, radioName string, rule prove.Rule) (*uitest.Stage, *prove.Layout, *prove.Result) {
	s := proved(t, 3)
	l := layoutIn(t, craft, radioName)
	report, err := facts.Prove(l, nil)
	require.NoError(t, err)
	r := &report.Results[rule]
	require.NotNil(t, r.Way)
	v := provesheet.Of(s.V)
	v.Of = tell.Searched("Teasel", &l.Radio, facts.ItsFile)
	v.CanMended = true
	return s, &l, r
}

// played is looked, with the way played up to what tells.
func played(t testing.TB, craft, radioName string, rule prove.Rule, until func(*provesheet.Playing) bool) *uitest.Stage {
	s, l, r := looked(t, craft, radioName, rule)
	v := provesheet.Of(s.V)
	p := provesheet.Play(l, r, false)
	for !until(p) {
		p.On(100_000)
	}
	step := p.At()
	if p.Over() {
		step = len(r.Way.Steps) - 1
		for r.Way.Steps[step].Kind != prove.Move {
			step--
		}
	}
	provesheet.Looked(v, l, r, step, 0)
	if v.Show = p.ShowOf(); !p.Over() {
		v.Places, v.None = nil, words.Text{}
	}
	return s
}

var showScenes = []uitest.Scene{
	{Name: "what if", Make: func(t testing.TB) *uitest.Stage {
		s, l, r := looked(t, "held-switch", "", prove.LossStopsMotors)
		provesheet.Looked(provesheet.Of(s.V), l, r, 3, 0)
		return s
	}, Says: []string{"As it was found", "Arm switch middle (1500 µs)", "it does not"}},
	{Name: "what if, elsewhere", Make: func(t testing.TB) *uitest.Stage {
		s, l, r := looked(t, "held-switch", "", prove.LossStopsMotors)
		provesheet.Looked(provesheet.Of(s.V), l, r, 3, 2)
		return s
	}, Says: []string{"Here it does not happen: DISARMED, motors still", "one change: arm switch middle (1500 µs) in movement 2"}},
	{Name: "what if, none", Make: func(t testing.TB) *uitest.Stage {
		s, l, r := looked(t, "held-switch", "", prove.LossStopsMotors)
		provesheet.Looked(provesheet.Of(s.V), l, r, 4, 1)
		return s
	}, Says: []string{"It happens again: ARMED"}},
	{Name: "what if, the beginning", Make: func(t testing.TB) *uitest.Stage {
		s, l, r := looked(t, "corner-flight", "", prove.CornersBelowPower)
		provesheet.Looked(provesheet.Of(s.V), l, r, 0, 0)
		return s
	}},
	{Name: "what if, six positions", Make: func(t testing.TB) *uitest.Stage {
		s, l, r := looked(t, "arm-middle", "", prove.SweepNeverArms)
		provesheet.Looked(provesheet.Of(s.V), l, r, len(r.Way.Steps)-1, 1)
		return s
	}},
	{Name: "a step comes", Make: func(t testing.TB) *uitest.Stage {
		return played(t, "held-switch", "", prove.LossStopsMotors, func(p *provesheet.Playing) bool { return p.At() == 3 && p.Comes() })
	}, Says: []string{"next: step 4 of 8", "Arm switch to its high position", "DISARMED", "It plays by itself"}},
	{Name: "hands wait", Make: func(t testing.TB) *uitest.Stage {
		s := played(t, "held-switch", "", prove.LossStopsMotors, func(p *provesheet.Playing) bool { return p.At() == 3 && p.Comes() })
		v := provesheet.Of(s.V)
		v.CanLead, v.Leads, v.Show.Led, v.Show.Waits = true, true, true, true
		l := layoutIn(t, "held-switch", "")
		v.Show.Wrong = tell.StandsWrong(&l.Radio.Controls[5], pulse.High, pulse.Low)
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, "Moorland Desk 7", ui.Keyboard
		return s
	}, Says: []string{"It waits for your hand", "The mode switch stands high (2012 µs); this step wants it low (988 µs)."}},
	{Name: "a step is made", Make: func(t testing.TB) *uitest.Stage {
		return played(t, "held-switch", "", prove.LossStopsMotors, func(p *provesheet.Playing) bool { return p.At() == 3 && p.ShowOf().Said })
	}, Says: []string{"now: step 4 of 8", "it ARMS."}},
	{Name: "how it ended", Make: func(t testing.TB) *uitest.Stage {
		return played(t, "held-switch", "", prove.LossStopsMotors, (*provesheet.Playing).Over)
	}, Says: []string{"how it ended", "ARMED", "motors turning", "repeats the last values"}},
	{Name: "how it ended, long", Make: func(t testing.TB) *uitest.Stage {
		s := played(t, "switch", "arm-noisy", prove.LinkBackNeverArms, (*provesheet.Playing).Over)
		s.Names = append(s.Names, uitest.LongName)
		return s
	}},
}

func TestShowInEveryScene(t *testing.T) {
	for _, sc := range showScenes {
		t.Run(sc.Name, func(t *testing.T) {
			s := sc.Make(t)
			for _, class := range []bool{false, true} {
				s.V.Class, s.V.Full = class, class
				s.Cut = []string{"rule"}
				s.Everywhere(t, "show "+sc.Name, provesheet.Draw, func(z uitest.Size, texts string) {
					for _, want := range sc.Says {
						if !class {
							assert.Contains(t, texts, want, "%v class %v", z, class)
						}
					}
				})
			}
		})
	}
}

// What can be done in a way is on the sheet with its key, and every place can be pressed.
func TestEveryActionOfAWayIsOnItsSheet(t *testing.T) {
	for _, sc := range showScenes {
		s := sc.Make(t)
		v := provesheet.Of(s.V)
		some := []ui.Action{provesheet.WatchWay, provesheet.WayMended}
		if v.CanLead {
			some = append(some, provesheet.LeadWay)
		}
		uitest.KeysAreThere(t, ui.OnProve, provesheet.Draw, s.V, some...)
	}
}
