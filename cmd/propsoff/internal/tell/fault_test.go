package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Every fault has words of its own, in every language, for its name, what it does, what is seen of it, its deeds and its numbers.
func TestEveryFaultHasWords(t *testing.T) {
	cfg := sim.Default()
	l := cfg.Layout
	for _, tag := range words.Languages() {
		book := words.In(tag.String())
		for what, of := range map[string]func(d pulse.Deed, number int32) string{
			"name": func(d pulse.Deed, _ int32) string { return book.Say(FaultName(d)) },
			"does": func(d pulse.Deed, n int32) string { return book.Say(FaultDoes(d, n, &l)) },
			"seen": func(d pulse.Deed, n int32) string {
				a, b := fault.Numbers(d, n)
				return book.Say(FaultSeen(d, a, b, &cfg))
			},
			"deed":   func(d pulse.Deed, _ int32) string { return codes.FaultDeed(d) },
			"lift":   func(d pulse.Deed, _ int32) string { return codes.FaultDeed(d + pulse.DeedLift) },
			"lifted": func(d pulse.Deed, _ int32) string { return book.Say(instructedSentence(d+pulse.DeedLift, 0, &l)) },
		} {
			seen := map[string]pulse.Deed{}
			for d := pulse.Deed(1); d < fault.Count; d++ {
				a, b, ok := fault.Usual(d, &l)
				require.True(t, ok)
				n, ok := fault.Number(d, a, b)
				require.True(t, ok)
				s := of(d, n)
				require.NotEmpty(t, s)
				require.NotContains(t, s, "⟦")
				other, twice := seen[s]
				assert.False(t, twice, "%s: %q is said of %d and %d", what, s, d, other)
				seen[s] = d
				if what == "does" || what == "seen" {
					assert.Regexp(t, `^\p{Lu}.*\.$`, s)
				}
				m := fault.Of(d)
				for i, q := range []fault.Quantity{m.A, m.B} {
					v := []int32{a, b}[i]
					assert.Equal(t, q.Is == fault.Nothing, book.Say(FaultQuantity(q.Is)) == "")
					assert.Equal(t, q.Is == fault.Nothing, book.Say(FaultValue(q.Is, v, &l)) == "")
				}
			}
		}
	}
	assert.Empty(t, codes.FaultDeed(pulse.DeedHands))
	assert.Empty(t, codes.FaultDeed(pulse.DeedLift))
	assert.Empty(t, codes.FaultDeed(fault.Count))
}

func TestFaultSentences(t *testing.T) {
	l := sim.Default().Layout
	say := func(d pulse.Deed, a, b int32) string {
		n, ok := fault.Number(d, a, b)
		require.True(t, ok)
		return words.English().Say(instructedSentence(d, n, &l))
	}
	assert.Equal(t, "Fault planted: channel reversed. Channel 2 (roll) runs the other way round.", say(fault.Reversed, 2, 0))
	assert.Equal(t, "Fault planted: two channels swapped. Channel 5 (arm) and channel 9 stand in each other's place.", say(fault.Swapped, 5, 9))
	assert.Equal(t, "Fault planted: travel too short. Channel 1 (throttle) goes no lower than 1012 µs.", say(fault.ShortTravel, 1, 1012))
	assert.Equal(t, "Fault planted: travel too short. Channel 4 (yaw) goes no higher than 1900 µs.", say(fault.ShortTravel, 4, 1900))
	assert.Equal(t, "Fault planted: link drops out. The radio sends nothing for 0.4 s, again every 3 s.", say(fault.Dropouts, 400, 3000))
	assert.Equal(t, "Fault planted: link drops out. The radio sends nothing for 0.4 s, once.", say(fault.Dropouts, 400, 0))
	assert.Equal(t, "Fault planted: another receiver. On a silent radio the receiver repeats the last values (hold).", say(fault.Receiver, 1, 0))
	assert.Equal(t, "Fault planted: stick off centre. Channel 3 (pitch) reads 20 µs too low.", say(fault.OffCentre, 3, -20))
	assert.Equal(t, "Fault planted: breeze. On the air bench a wind of 2.0 m/s blows from the left.", say(fault.Breeze, 20, 270))
	assert.Equal(t, "Fault planted: gusts. On the air bench a wind of 4.5 m/s blows from ahead, 30° to the right, in gusts.", say(fault.Gusts, 45, 30))
	assert.Equal(t, "Fault planted: level is off. When the craft takes itself to be level, it is banked 1.0° to the left, nose 0.5° up.", say(fault.LevelOff, -10, 5))
	assert.Equal(t, "Fault planted: level is off. When the craft takes itself to be level, its nose is 2.0° down.", say(fault.LevelOff, 0, -20))
	assert.Equal(t, "Fault planted: wrong propeller. The rear left propeller is made to turn the other way.", say(fault.WrongPropeller, 3, 0))
	assert.Equal(t, "Fault planted: pack low. The pack has 13.2 V.", say(fault.LowPack, 13200, 0))
	for _, c := range []struct {
		d      pulse.Deed
		number int32
		want   string
	}{
		{fault.Stuck + pulse.DeedLift, 0, "Fault lifted: control stuck."}, {pulse.DeedLiftAll, 0, "Every fault lifted."}, {pulse.DeedHands, 1, "The instructor's radio has the sticks."},
		{pulse.DeedMark, 4, "Instructor's bookmark 4."}, {fault.Count, 0, "Instructor: 18 0."}, {0, 0, "Instructor: 0 0."},
		{fault.WrongPropeller, 9, "A fault that does not exist was asked for: wrong propeller, number 9; nothing was planted."},
	} {
		assert.Equal(t, c.want, words.English().Say(instructedSentence(c.d, c.number, &l)))
	}
	for d := range fault.Count + 3 { // whatever stands in a take is said without harm
		for _, n := range []int32{0, 1, 17, 0xffffff} {
			assert.Equal(t, fault.Right(d, n), !FaultDoes(d, n, &l).Empty())
			assert.NotContains(t, words.English().Say(instructedSentence(d, n, &l)), "⟦")
		}
	}
}

// What is seen of a radio that is silent, or at times, follows from the craft's receiver, its silence limit and the fault's numbers.
func TestWhatIsSeenOfASilentRadio(t *testing.T) {
	cfg := sim.Default() // takes the link for lost after 240 ms, by frames of 20 ms
	holds := cfg
	holds.Link.OnLoss = link.RepeatsLast
	for _, c := range []struct {
		d    pulse.Deed
		a, b int32
		cfg  *sim.Config
		want string
	}{
		{fault.RadioOff, 0, 0, &cfg, "The link is lost at some moment"},
		{fault.RadioOff, 0, 0, &holds, "The link is never lost, for the receiver goes on sending"},
		{fault.Dropouts, 400, 5000, &cfg, "The link is lost now and then and comes back by itself; after each loss"},
		{fault.Dropouts, 400, 0, &cfg, "The link is lost once and comes back by itself; then"},
		{fault.Dropouts, 400, 5000, &holds, "The link is never lost, but now and then"},
		{fault.Dropouts, 100, 1000, &cfg, "The link is never lost, but now and then"},
		{fault.Dropouts, 220, 1000, &cfg, "The link is never lost, but now and then"},
		{fault.Dropouts, 230, 0, &cfg, "The link may be lost once"},
		{fault.Dropouts, 100, 110, &cfg, "The link may be lost now and then"},
	} {
		got := words.English().Say(FaultSeen(c.d, c.a, c.b, c.cfg))
		assert.True(t, strings.HasPrefix(got, c.want), "%d: %q", c.d, got)
	}
}

// The same, held against a practice with the fault.
func TestAGapLosesTheLinkAsIsSaid(t *testing.T) {
	for _, gap := range []int32{100, 219, 220, 221, 230, 239, 240, 241, 400} {
		lost, kept := false, false
		for begin := range 20 {
			p := practice.New(sim.Default())
			frame := pulse.Frame{}
			for c := range frame {
				frame[c] = pulse.Centre
			}
			v, ok := fault.Plant(fault.Dropouts, gap, 0)
			require.True(t, ok)
			read := []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Controls, Frame: frame}}
			for range 2000 + begin {
				p.Step(read)
				read = nil
			}
			p.Step([]pulse.Reading{{Kind: pulse.Instructor, Value: v}})
			once := false
			for range 1000 {
				p.Step(nil)
				once = once || !p.Bench().Believes()
			}
			lost, kept = lost || once, kept || !once
		}
		cfg := sim.Default()
		want := facts.NeverLost
		switch {
		case lost && kept:
			want = facts.MayBeLost
		case lost:
			want = facts.IsLost
		}
		assert.Equal(t, want, facts.Loses(&cfg, int64(gap), 0), "%d ms", gap)
	}
}
