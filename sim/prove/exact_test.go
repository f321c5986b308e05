package prove

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// everyLayout goes through the layouts of the tables, each once.
func everyLayout(each func(name string, l *made)) {
	seen := map[string]bool{} // some stand in the tables for more than one rule
	once := func(name string, l *made) {
		if k := fmt.Sprintf("%+v", l.Layout); !seen[k] {
			seen[k] = true
			each(name, l)
		}
	}
	for _, row := range soundRows {
		once(row.name, row.l)
	}
	for _, row := range brokenRows {
		once(row.name, row.l)
	}
}

func walkOf(t testing.TB, l *made, q question, watched watch, change func(*space)) (*space, *explore.Walk) {
	return walkBy(t, l, q, watched, change, explore.Options{})
}

func walkBy(t testing.TB, l *made, q question, watched watch, change func(*space), o explore.Options) (*space, *explore.Walk) {
	h, err := newHands(&l.Layout, q)
	require.NoError(t, err)
	x, fits := newSpace(h, watched)
	require.True(t, fits)
	if watched == noWatch {
		x.guesses = guessed(&l.Config)
	}
	if change != nil {
		change(x)
	}
	w := explore.New(o)
	x.stop, x.marks = w.Stop, w.Marks()
	w.Begin(uint64(h.start))
	w.Run(x)
	require.False(t, x.wrong)
	return x, w
}

// What is not told apart is counted as if it were: a search that tells every position of every switch apart, read or not,
// finds exactly as many situations as the folded one says that it stands for.
func TestFoldingIsExact(t *testing.T) {
	everyLayout(func(name string, l *made) {
		rep, err := Search(l.Layout, Options{})
		require.NoError(t, err)
		x, w := walkOf(t, l, question{all: true}, noWatch, nil)
		found := int(w.Found())
		if l.Config.Link.OnLoss == link.RepeatsLast { // what the receiver repeats is told apart by what it means, in both
			folded, err := newHands(&l.Layout, question{})
			require.NoError(t, err)
			seen := map[situation]bool{}
			var s situation
			var classes [][]class
			for i := range l.Radio.Controls {
				classes = append(classes, folded.classesOf(i))
			}
			for p := range uint32(found) {
				x.c.unpack(w.Key(p), &s)
				for i := range l.Radio.Controls {
					c := &l.Radio.Controls[i]
					for _, k := range classes[i] {
						if was := &s.slot.Link.Last[c.Channel]; s.slot.Link.Heard && folded.sign(c.Channel, *was) == k.sign {
							*was = k.width
						}
					}
				}
				seen[s] = true
			}
			found = len(seen)
		}
		assert.EqualValues(t, rep.Standing, found, name)
	})
}

// Whatever judge decides in short it decides the same at length.
func TestShortFormHidesNothing(t *testing.T) {
	everyLayout(func(name string, l *made) {
		short, ws := walkOf(t, l, question{}, noWatch, nil)
		long, wl := walkOf(t, l, question{}, noWatch, func(x *space) { x.long = true })
		assert.Equal(t, ws.Found(), wl.Found(), name)
		assert.Equal(t, ws.Edges(), wl.Edges(), name)
		assert.Equal(t, short.doubtful, long.doubtful, name)
		for r := range RuleCount {
			require.Equal(t, short.found[r] == nil, long.found[r] == nil, "%s: %s", name, r.Code())
			if short.found[r] != nil {
				assert.Equal(t, short.found[r].cost, long.found[r].cost, "%s: %s", name, r.Code())
			}
		}
	})
}

// A guess that no step contradicted bounds the true count in every situation, and the rule holds.
func TestGuessesBound(t *testing.T) {
	checked := 0
	everyLayout(func(name string, l *made) {
		x, _ := walkOf(t, l, question{}, noWatch, nil)
		for _, d := range x.guesses {
			y, w := walkOf(t, l, question{}, d, nil)
			assert.Nil(t, y.found[d.rule()], "%s: %s", name, d.rule().Code())
			var s situation
			for p := range uint32(w.Found()) {
				y.c.unpack(w.Key(p), &s)
				g := d.guess(&s, &l.Config)
				if d.upper() && g < s.age || !d.upper() && g > s.age {
					t.Fatalf("%s: watch %d: the guess is %d, the count %d in %+v", name, d, g, s.age, s.slot)
				}
				checked++
			}
		}
	})
	assert.Greater(t, checked, 100000)
}

// On a sound layout every guess is good, so that nothing has to be searched twice.
func TestSoundLayoutsNeedOnePass(t *testing.T) {
	for _, row := range soundRows {
		x, _ := walkOf(t, row.l, question{}, noWatch, nil)
		assert.Empty(t, x.doubtful, row.name)
	}
}

// The codec is exact both ways: on random walks of the bench, and on states that no bench without fault comes to.
func TestCodec(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	everyLayout(func(name string, l *made) {
		h, err := newHands(&l.Layout, question{})
		require.NoError(t, err)
		c, fits := newCodec(h, 9)
		require.True(t, fits)
		keys := map[uint64]situation{}
		both := func(s situation) {
			k := c.pack(&s)
			var back situation
			c.unpack(k, &back)
			require.Equal(t, s, back, name)
			require.Equal(t, k, c.pack(&back), name)
			if old, seen := keys[k]; seen {
				require.Equal(t, old, s, name)
			}
			keys[k] = s
		}
		s := situation{hands: h.start, powered: true, slot: l.Config.PowerUp()}
		for range 2000 {
			in := sim.SlotInput{Transmitting: s.hands&h.radioOn != 0, Sent: h.frames[s.hands&h.sentBits()]}
			in.Craft.Cable, in.Craft.Moved = s.hands&h.cable != 0, r.IntN(50) == 0
			s.slot, _ = sim.StepSlot(&l.Config, s.slot, &in, 0, nil)
			s.slot.Layout.Mode = h.foldMode(s.slot.Layout.Mode)
			s.age = uint32(r.IntN(10))
			both(s)
			if r.IntN(6) == 0 {
				s.hands = h.combos[r.IntN(len(h.combos))]
				if r.IntN(4) > 0 {
					s.hands |= h.radioOn
				}
				if r.IntN(8) == 0 {
					s.hands |= h.cable
				}
			}
		}
		require.Empty(t, c.odd, "%s: the bench comes only to states of the plain form", name)
		for range 2000 {
			n := func() uint16 { return uint16(r.IntN(12)) }
			yes := func() bool { return r.IntN(2) == 0 }
			s := situation{hands: h.combos[r.IntN(len(h.combos))], powered: true, age: uint32(n() % 10), slot: sim.SlotState{
				Link:   link.State{Phase: link.Phase(r.IntN(4)), Heard: yes(), Gap: n(), Clean: n()},
				Layout: layout.State{Mode: layout.Mode(r.IntN(3))},
				Arming: arming.State{Armed: yes(), Inside: yes(), OffFirst: yes(), ArmDwell: n(), DisarmDwell: n(), Sink: n(), Still: n()},
			}}
			if yes() {
				s.slot.Link.Last = pulse.Frame{1, 2, 3}
			}
			both(s)
		}
		require.NotEmpty(t, c.odd)
	})
}

// Where there is no room to keep what link and layout did, it is asked of the bench every time, with the same result.
func TestHalvesNeedNotBeKept(t *testing.T) {
	for _, l := range []*made{quickSwitch().hold(), quickSticks()} {
		_, w := walkOf(t, l, question{}, noWatch, nil)
		x, v := walkOf(t, l, question{}, noWatch, func(x *space) { x.halves.room = 100 })
		assert.Less(t, x.halves.room, 100)
		assert.Equal(t, w.Found(), v.Found())
		assert.Equal(t, w.Edges(), v.Edges())
	}
}

// A search over states that do not fit the plain form finds the same as one over states that do: the halves are not kept
// for them, and nothing else differs.
func TestOddSituationsAreGoneOnFrom(t *testing.T) {
	l := quickSwitch()
	_, w := walkOf(t, l, question{}, noWatch, nil)
	x, v := walkOf(t, l, question{}, noWatch, func(x *space) { x.c.still++ }) // nothing armed fits any more
	assert.Equal(t, w.Found(), v.Found())
	assert.NotEmpty(t, x.c.odd)
}
