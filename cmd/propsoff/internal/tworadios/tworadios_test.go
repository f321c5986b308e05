package tworadios

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/input/pair"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// layoutOf is a craft with two radios of the program's made layouts.
func layoutOf(t *testing.T, craft, pupil, his string) Layout {
	t.Helper()
	read := func(name, kind string) []byte {
		text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "layouts", name+"."+kind+".yaml"))
		require.NoError(t, err)
		return text
	}
	f, err := craftfile.Parse(craft, read(craft, "craft"))
	require.NoError(t, err)
	names := f.Names()
	hand := func(name string) handset.Radio {
		r, err := radio.Parse(name, read(name, "radio"), radio.Known{Names: &names})
		require.NoError(t, err)
		return radioreach.Handset(&r, nil, names)
	}
	l := Layout{Layout: prove.Layout{Config: f.Config(), Radio: hand(pupil)}, His: hand(his)}
	l.Pair, l.Takes = radioreach.Pairing(&l.Config.Layout, &l.His)
	return l
}

// rows are layouts that break a rule, each in one known way: the movements were worked out by hand (the pack is one, waiting none). The near miss of
// each is the same with what is named last put right.
var rows = []struct {
	craft, pupil, his string
	rule              prove.Rule
	outcome           prove.Outcome
	cause             prove.Cause
	movements         int
	ends              bool // armed
	near              [3]string
	// cure does what its sentence says to set.
	cure func(t *testing.T, l *Layout)
}{
	// Pack.
	{"switch", "full", "tutor-no-switch", prove.TutorCanTake, prove.Broken, prove.TutorNoSwitch, 1, false, [3]string{"switch", "full", "tutor"}, hisControl("channel 8")},
	{"switch", "full", "tutor-one-end", prove.TutorCanTake, prove.Broken, prove.TutorNeverTakes, 2, false, [3]string{"switch", "full", "full"}, hisPositions("mode", 988, 2012)},
	{"switch", "full", "tutor-always-takes", prove.TutorCanTake, prove.Broken, prove.TutorNeverGives, 2, false, [3]string{"switch", "full", "full"}, hisPositions("mode", 988, 2012)},
	// Pack; his arm switch up, which is not on; the pupil's on: held off.
	{"switch", "full", "tutor-arm-low", prove.TutorLetsArm, prove.Broken, prove.TutorNeverOn, 3, false, [3]string{"switch", "full", "tutor"}, hisPositions("arm", 988, 2012)},
	// Pack; arm switch on: armed, and nothing of his is there to disarm by.
	{"switch", "full", "tutor-no-arm", prove.TutorCanDisarm, prove.Broken, prove.TutorUnsent, 2, true, [3]string{"switch", "full", "tutor"}, hisControl("arm")},
	{"switch", "full", "tutor-arm-high", prove.TutorCanDisarm, prove.Broken, prove.TutorNeverOff, 3, true, [3]string{"switch", "full", "tutor"}, hisPositions("arm", 988, 2012)},
	// Pack; the pupil's yaw right, held: armed; the sticks taken; his yaw as far left as it goes.
	{"sticks", "full", "tutor-yaw-short", prove.TutorCanDisarm, prove.Broken, prove.TutorOffCorner, 4, true, [3]string{"sticks", "full", "tutor"}, hisYaw},
	// Pack; his yaw right; the sticks taken, and held: armed; the pupil's yaw left: nothing.
	{"sticks", "full", "tutor-yaw-short", prove.PupilStillDisarms, prove.Broken, prove.PupilOffSticks, 4, true, [3]string{"switch", "full", "tutor"}, hisYaw},
	{"sticks", "full", "tutor", prove.PupilStillDisarms, prove.WithIt, prove.PupilOffSticks, 4, true, [3]string{"switch", "full", "tutor"}, bySwitch},
	// Pack; arm switch on; the sticks taken; the plug pulled; arm switch off.
	{"switch", "full", "tutor-no-arm", prove.TutorHoldsNothing, prove.Broken, prove.TutorFliesAlone, 5, true, [3]string{"switch", "full", "tutor-no-switch"}, hisControl("arm")},
	// The same, with his own arm switch on first.
	{"switch", "full", "tutor", prove.TutorHoldsNothing, prove.WithIt, prove.TutorFliesOn, 6, true, [3]string{"switch", "full", "tutor-no-switch"}, nil},
	// Pack; his arm switch on; the pupil's radio off; the pupil's arm switch on, unheard; the sticks taken.
	{"held-switch", "full", "tutor", prove.TakingArmsNothing, prove.Broken, prove.TakingShowsOn, 5, true, [3]string{"switch", "full", "tutor"}, fallSilent},
	{"stored-off", "full", "tutor", prove.TakingArmsNothing, prove.Broken, prove.TakingShowsOn, 5, true, [3]string{"switch", "full", "tutor"}, fallSilent},
	// Pack; his yaw right; the sticks taken, and held.
	{"sticks", "full", "tutor", prove.TakingArmsNothing, prove.WithIt, prove.TakingInCorner, 3, true, [3]string{"switch", "full", "tutor"}, bySwitch},
	// Pack; yaw right, held: armed; his yaw left; the sticks taken, and held.
	{"sticks", "full", "tutor", prove.TakingDisarmsNothing, prove.WithIt, prove.TakingInCorner, 4, false, [3]string{"switch", "full", "tutor"}, bySwitch},
	// Pack; his switch on; the pupil's on: armed; his back.
	{"switch", "full", "tutor-arm-takes", prove.TakingDisarmsNothing, prove.Broken, prove.TakingIsArm, 4, false, [3]string{"switch", "full", "tutor"}, hisOwnSwitch},
	// Pack; his arm switch on; the pupil's on; the sticks taken, and the link is lost.
	{"switch", "full", "tutor-no-pulse", prove.TakingDisarmsNothing, prove.Broken, prove.TakingBreaksLink, 4, false, [3]string{"switch", "full", "tutor"}, hisYaw},
}

// hisControl gives his radio the control of a job as tutor.radio.yaml has it.
func hisControl(job string) func(*testing.T, *Layout) {
	return func(t *testing.T, l *Layout) {
		for _, c := range layoutOf(t, "switch", "full", "tutor").His.Controls {
			if c.Job == job {
				l.His.Controls = append(l.His.Controls, c)
			}
		}
	}
}

func hisPositions(job string, us ...int) func(*testing.T, *Layout) {
	return func(_ *testing.T, l *Layout) {
		for i := range l.His.Controls {
			if c := &l.His.Controls[i]; c.Job == job {
				c.Positions, c.Rest = nil, pulse.Micros(us[0])
				for _, w := range us {
					c.Positions = append(c.Positions, handset.Position{Width: pulse.Micros(w)})
				}
			}
		}
	}
}

func hisYaw(_ *testing.T, l *Layout) {
	for i := range l.His.Controls {
		if c := &l.His.Controls[i]; c.Job == "yaw" {
			c.Low, c.Rest, c.High = pulse.Low, pulse.Centre, pulse.High
		}
	}
}

func hisOwnSwitch(_ *testing.T, l *Layout) {
	for i := range l.His.Controls {
		if c := &l.His.Controls[i]; c.Job == "channel 8" {
			c.Same = 0
		}
	}
}

func fallSilent(_ *testing.T, l *Layout) {
	l.Config.Link.OnLoss, l.Config.Link.Stored = link.FallsSilent, pulse.Frame{}
}

func bySwitch(t *testing.T, l *Layout) { *l = layoutOf(t, "switch", "full", "tutor") }

func resultOf(f *Found, r prove.Rule) *prove.Result {
	for i := range f.Results {
		if f.Results[i].Rule == r {
			return &f.Results[i]
		}
	}
	return nil
}

// Each layout breaks its rule as it was worked out; its near miss does not; its way comes out on the whole bench with both radios before it; and what
// its sentence says to set mends it.
func TestWhatTwoRadiosDo(t *testing.T) {
	causes := map[prove.Cause]bool{}
	for _, row := range rows {
		t.Run(fmt.Sprintf("%s %s %s %s", row.craft, row.pupil, row.his, row.rule.Code()), func(t *testing.T) {
			l := layoutOf(t, row.craft, row.pupil, row.his)
			found := Search(l, true, nil)
			require.False(t, found.Partial)
			r := resultOf(&found, row.rule)
			causes[row.cause] = true
			require.Equal(t, row.outcome.Code(), r.Outcome.Code())
			assert.Equal(t, row.cause.Code(), r.Cause.Code())
			assert.Equal(t, row.movements, r.Way.Movements, "%+v", r.Way.Steps)
			assert.Equal(t, row.ends, r.Way.Claim.Armed)
			for i := range found.Results {
				if found.Results[i].Way != nil {
					replay(t, &l, &found.Results[i])
				}
			}
			near := Search(layoutOf(t, row.near[0], row.near[1], row.near[2]), true, nil)
			assert.Contains(t, []prove.Outcome{prove.Holds, prove.NotAsked, prove.WithIt}, resultOf(&near, row.rule).Outcome)
			assert.NotEqual(t, row.outcome, resultOf(&near, row.rule).Outcome)
			if row.cure == nil {
				return
			}
			mended := l
			mended.His.Controls = append([]handset.Control(nil), l.His.Controls...)
			row.cure(t, &mended)
			mended.Pair, mended.Takes = radioreach.Pairing(&mended.Config.Layout, &mended.His)
			after := Search(mended, true, nil)
			assert.NotEqual(t, row.outcome, resultOf(&after, row.rule).Outcome, "what is to be set, set")
		})
	}
	for c := prove.TutorNoSwitch; c <= prove.TakingBreaksLink; c++ {
		assert.True(t, causes[c], "no layout for %s", c.Code())
	}
}

// played gives the readings of one radio, as they were told.
type played struct{ all []pulse.Reading }

func (p *played) Name() string          { return "" }
func (p *played) Wake() <-chan struct{} { return nil }
func (p *played) Close() error          { return nil }

func (p *played) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	for len(p.all) > 0 && p.all[0].At <= until {
		dst, p.all = append(dst, p.all[0]), p.all[1:]
	}
	return dst, nil
}

// replay plays both radios through input/pair into the whole bench, a millisecond a step, and holds what comes of it against the claim.
func replay(t *testing.T, l *Layout, r *prove.Result) {
	t.Helper()
	cfg := l.Pair
	if cfg.Switch < 0 {
		cfg.Switch = l.free()
	}
	both, err := pair.New(&played{r.Way.Each[0]}, &played{r.Way.Each[1]}, cfg)
	require.NoError(t, err)
	p := practice.New(l.Config)
	var rs []pulse.Reading
	for tick := int64(0); tick <= r.Way.Final; tick++ {
		rs, err = both.Poll(rs[:0], tick*1000)
		require.NoError(t, err)
		p.Step(rs)
	}
	s := p.Bench().State()
	got := prove.Claim{Armed: s.Slot.Arming.Armed, Mode: uint8(s.Slot.Layout.Mode), Phase: uint8(s.Slot.Link.Phase), Sinking: s.Slot.Arming.Sink > 0}
	for _, h := range p.Happenings() {
		if uint8(h.Code) == r.Way.Claim.Happens {
			got.Happens = r.Way.Claim.Happens
		}
	}
	assert.Equal(t, r.Way.Claim, got, r.Rule.Code())
}

// Whatever hands do at random, the whole bench with both radios before it is armed where the search says so.
func TestTheSearchIsTheBench(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 2))
	for _, c := range [][3]string{{"switch", "full", "tutor"}, {"sticks", "full", "tutor"}, {"held-switch", "arm-no-pulse", "tutor"}, {"stored-off", "full", "tutor-no-pulse"}} {
		l := layoutOf(t, c[0], c[1], c[2])
		w := newWalk(&l)
		m, err := w.maker()
		require.NoError(t, err)
		armed := 0
		for range 150 {
			moves := w.moves(&m.s)
			v := moves[rnd.IntN(len(moves))]
			_, came := w.step(&m.s, v)
			m.do(v, max(came.slots-2, 0))
			require.Equal(t, m.s.slot.Arming.Armed, m.try.Armed(), "%v: %+v", c, m.try.End().Steps)
			if m.try.Armed() {
				armed++
			}
		}
		t.Log(c, armed)
	}
}

// A search that is stopped leaves undecided what it did not find, and a rule without sense is not asked.
func TestStoppedTwoRadios(t *testing.T) {
	l := layoutOf(t, "sticks", "full", "tutor")
	found := Search(l, true, func() bool { return true })
	assert.True(t, found.Partial)
	for _, r := range found.Results {
		assert.NotEqual(t, prove.Holds, r.Outcome, r.Rule.Code())
	}
	found = Search(layoutOf(t, "switch", "no-arm", "tutor"), false, nil)
	for _, r := range found.Results {
		assert.Equal(t, r.Rule != prove.TutorCanTake, r.Outcome == prove.NotAsked, "%s: %s", r.Rule.Code(), r.Outcome.Code())
	}
}
