package lossrun

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/lossmap"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// bySticks is the default craft, armed by sticks.
func bySticks() sim.Config {
	cfg := sim.Default()
	cfg.Arming.By, cfg.Layout.Arm = arming.BySticks, -1
	cfg.Link.Needed = cfg.Layout.Needed()
	return cfg
}

// sinking is the default craft; it sinks for some seconds on a lost link.
func sinking(seconds int) sim.Config {
	cfg := sim.Default()
	cfg.Arming.SinkSlots = sim.Slots(seconds*1000, cfg.SlotTicks)
	return cfg
}

func shown(t *testing.T, cfg sim.Config, stored Stored) *Outcome {
	o, err := Demonstrate(Options{Craft: cfg, Stored: stored, Height: 10, OffFor: 9000})
	require.NoError(t, err)
	return o
}

// behaviour: a receiver that falls silent loses the link 240 ms after the last frame, in that slot, and the craft cuts there.
func TestASilentReceiverIsNoticedAtTheLimit(t *testing.T) {
	for _, cfg := range []sim.Config{sim.Default(), bySticks()} {
		r := shown(t, cfg, Disarming).End[link.FallsSilent].Run
		for _, at := range []int64{r.Lost, r.Disarmed, r.Stopped, r.Limit} {
			assert.Equal(t, r.Last+240, at, "the first slot at or after 240 ms since the last frame")
		}
		assert.True(t, r.Disarmed != NotYet && r.Cause == happening.ByLinkLoss)
		assert.LessOrEqual(t, r.Off-r.Last, int64(20))
		assert.Equal(t, int64(NotYet), r.Sinking)
	}
	// Slots of 9 ms: 240 ms are 27 of them, 243 ms.
	cfg := sim.Default()
	cfg.SlotTicks = 9
	cfg.Link.SilenceSlots, cfg.Link.CleanSlots = sim.Slots(240, 9), sim.Slots(1200, 9)
	cfg.Arming.StillSlots = sim.Slots(2000, 9)
	r := shown(t, cfg, Disarming).End[link.FallsSilent].Run
	assert.Equal(t, r.Last+243, r.Stopped)
}

// behaviour: a craft that sinks begins at the limit and cuts when the sinking time is over; its motors turn meanwhile, or it
// stands on the ground.
func TestACraftThatSinksCutsLater(t *testing.T) {
	r := shown(t, sinking(4), Disarming).End[link.FallsSilent].Run
	assert.Equal(t, r.Last+240, r.Sinking)
	assert.Equal(t, r.Last+240+4000, r.Disarmed)
	assert.Equal(t, r.Disarmed, r.Stopped)
	assert.True(t, r.Disarmed != NotYet && r.Cause == happening.BySinkEnd)
	cuts := shown(t, sim.Default(), Disarming).End[link.FallsSilent].Run
	assert.Greater(t, r.Down, cuts.Down, "it comes down later")
	assert.Less(t, r.Speed, cuts.Speed, "and slower")
}

// behaviour: with hold the craft cannot know. It flies on as long as the radio is off, and obeys it at once when it is back.
func TestAHoldingReceiverIsNeverNoticed(t *testing.T) {
	for _, cfg := range []sim.Config{sim.Default(), sinking(4), bySticks()} {
		o := shown(t, cfg, Disarming)
		r := o.End[link.RepeatsLast].Run
		assert.Equal(t, []int64{NotYet, NotYet, NotYet}, []int64{r.Lost, r.Sinking, r.Heard})
		assert.True(t, o.Silent[link.RepeatsLast].Snap.Armed)
		assert.True(t, o.Silent[link.RepeatsLast].Snap.Air.Flying)
		assert.Greater(t, r.Disarmed, r.Back+3000, "by the hands, that put the arm control off after 4 s")
		assert.Less(t, r.Disarmed, r.Back+5000)
	}
}

// behaviour: preset starts in the slot after the last frame; leaving the arm span disarms in that slot. By sticks the corner
// must be held for its dwell, 0.4 s, counted from the first frame in it.
func TestStoredValuesThatDisarm(t *testing.T) {
	r := shown(t, sim.Default(), Disarming).End[link.SendsStored].Run
	assert.Equal(t, []int64{r.Last + 20, r.Last + 20}, []int64{r.Disarmed, r.Stopped})
	assert.True(t, r.Disarmed != NotYet && r.Cause == happening.ByStored)
	assert.Equal(t, int64(NotYet), r.Lost)
	r = shown(t, bySticks(), Disarming).End[link.SendsStored].Run
	assert.Equal(t, r.Last+20+400, r.Disarmed)
	assert.True(t, r.Disarmed != NotYet && r.Cause == happening.ByStored)
}

// The two dangerous examples: with the throttle low the motors stand still and the craft falls, still armed; with the throttle as it
// was it hovers on.
func TestStoredValuesThatKeepItArmed(t *testing.T) {
	for _, cfg := range []sim.Config{sim.Default(), bySticks()} {
		o := shown(t, cfg, ArmedLow)
		r := o.End[link.SendsStored].Run
		assert.Equal(t, r.Last+20, r.Stopped)
		assert.True(t, o.Silent[link.SendsStored].Snap.Armed, "on the ground, motors still, and armed")
		assert.NotEqual(t, int64(NotYet), r.Down)
		assert.False(t, o.Silent[link.SendsStored].Snap.Air.Flying)

		o = shown(t, cfg, ArmedThrottle)
		r = o.End[link.SendsStored].Run
		assert.True(t, o.Silent[link.SendsStored].Snap.Armed)
		assert.True(t, o.Silent[link.SendsStored].Snap.Air.Flying)
		assert.Equal(t, o.Silent[link.RepeatsLast].Snap.Received[cfg.Layout.Throttle], o.Silent[link.SendsStored].Snap.Received[cfg.Layout.Throttle])
	}
}

// Outside check: a body that falls from height h with speed v downwards cannot be down sooner than free fall in a vacuum allows,
// h = v·t + g0·t²/2, g0 = 9.80665 m/s² (CGPM 1901), nor faster than v² + 2·g0·h; and air holds it up a little only: with the drag
// of the craft file alone, integrated here on its own in steps of 0.1 ms, it comes down within the time that its motors take to
// run out.
func TestTheFallIsNoFasterThanFreeFall(t *testing.T) {
	const g0 = 9.80665
	for _, height := range []float64{2, 5, 10, 40} {
		o, err := Demonstrate(Options{Craft: sim.Default(), Stored: Disarming, Height: height, OffFor: 8000})
		require.NoError(t, err)
		for _, i := range []link.OnLoss{link.FallsSilent, link.SendsStored} {
			r, b := o.End[i].Run, &o.Config[i].Body
			require.True(t, r.Falls.Flying)
			h, v := r.Falls.Height-b.HalfHeight, -r.Falls.Climb
			least := (math.Sqrt(v*v+2*g0*h) - v) / g0
			took := float64(r.Down-r.Stopped) / 1000
			assert.Greater(t, took, least, "%v m", height)
			assert.Less(t, r.Downward, math.Sqrt(v*v+2*g0*h))

			fall, z, speed := 0.0, h, v
			for ; z > 0; fall += 1e-4 {
				speed += (g0 - (b.Drag1+b.Drag2*math.Abs(speed))*speed/b.Mass) * 1e-4
				z -= speed * 1e-4
			}
			assert.InDelta(t, fall, took-b.Lag/2, 0.05, "%v m: the thrust of motors that run out with a lag of %v s", height, b.Lag)
			assert.InDelta(t, speed, r.Downward, 0.05*speed)
		}
	}
	assert.InDelta(t, g0, body.Gravity, 0)
}

// What it takes to arm each again: the one that saw the loss must wait for the clean time and see the arm control off; for the
// other two there was no loss.
func TestWhatItTakesToArmAgain(t *testing.T) {
	o := shown(t, sim.Default(), Disarming)
	silent := o.End[link.FallsSilent].Run
	w := o.Asks[link.FallsSilent].Snap
	for _, r := range []arming.Refusal{arming.ThrottleUp, arming.OffFirst, arming.LinkTooFresh} {
		assert.True(t, w.Refusals.Has(r), "%d", r)
	}
	assert.False(t, w.Refusals.Has(arming.NoLink))
	assert.Equal(t, silent.Heard+1200, silent.Clean, "the clean time")
	for i := range o.End {
		r := o.End[i].Run
		assert.NotEqual(t, int64(NotYet), r.Free, "%d", i)
		assert.GreaterOrEqual(t, r.Again, r.Free, "%d", i)
		assert.False(t, o.End[i].Snap.Armed, "the pilot disarms in the end")
		if i != int(link.FallsSilent) {
			assert.False(t, o.Asks[i].Snap.Refusals.Has(arming.LinkTooFresh))
			assert.Equal(t, int64(NotYet), r.Clean)
		}
	}
}

// The three begin where the pilot's own is, to the bit, and fly as it does while the radio is on.
func TestTheThreeFlyAsThePilotsOwnUntilTheRadioGoesOff(t *testing.T) {
	cfg := sim.Default()
	own := practice.New(cfg)
	var snap sim.Snapshot
	pilot := NewPilot(cfg, 5, func(s *sim.Snapshot) { *s = snap })
	rs := Outside(&cfg)
	var set *Set
	step := func() {
		rs, _ = pilot.Poll(rs, own.Tick()*1000)
		own.Step(rs)
		if set != nil {
			set.Step(rs)
		}
		own.Snapshot(&snap)
		rs = rs[:0]
	}
	for range 6000 {
		step()
	}
	require.True(t, snap.Air.Flying, "in the middle of the climb")
	set = New(own, ArmedThrottle)
	for range 3000 {
		step()
		want := own.Bench().State()
		for i := range Receivers {
			got := set.Craft(i).Bench().State()
			require.True(t, got.Air == want.Air && got.Motor == want.Motor && got.Slot.Arming == want.Slot.Arming && got.In == want.In, "%d", i)
		}
	}
	// A silence that nobody notices is none; values may be chosen while the radio is heard only.
	rs = append(rs, pulse.Reading{Kind: pulse.Link, Value: 0})
	for range 15 {
		step()
	}
	assert.Equal(t, Off, set.Run(0).Phase)
	assert.False(t, set.Choose(Disarming))
	assert.Equal(t, ArmedThrottle, set.Stored())
	rs = append(rs, pulse.Reading{Kind: pulse.Link, Value: 1})
	step()
	for i := range Receivers {
		r := set.Run(i)
		assert.Equal(t, []any{Waiting, int64(NotYet)}, []any{r.Phase, r.Off})
	}
	assert.True(t, set.Choose(ArmedLow))
	assert.Equal(t, pulse.Low, set.Craft(2).Bench().Config().Link.Stored[cfg.Layout.Throttle])
}

// Begun with a radio that is off already, a holding receiver repeats what was heard last: it takes over what the pilot's own
// craft knew.
func TestBegunWithASilentRadio(t *testing.T) {
	cfg := sim.Default()
	own := practice.New(cfg)
	f := Rest(&cfg)
	own.Step([]pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Plug, Value: 1}, {Kind: pulse.Controls, Frame: f}})
	for range 1000 {
		own.Step(nil)
	}
	own.Step([]pulse.Reading{{Kind: pulse.Link, Value: 0}})
	for range 1000 {
		own.Step(nil)
	}
	s := New(own, Disarming)
	for range 100 {
		s.Step(nil)
	}
	assert.Equal(t, f, s.Craft(1).Bench().State().Slot.Link.Last)
	assert.Equal(t, link.State{Phase: link.Lost}, s.Craft(0).Bench().State().Slot.Link)
	assert.Equal(t, Waiting, s.Run(0).Phase, "nobody saw it go off")
}

func TestStoredValuesGoRound(t *testing.T) {
	cfg := sim.Default()
	assert.Equal(t, Disarming, FirstStored(&cfg))
	assert.Equal(t, []Stored{ArmedLow, ArmedThrottle, Disarming}, []Stored{Disarming.Next(&cfg), ArmedLow.Next(&cfg), ArmedThrottle.Next(&cfg)})
	own := cfg
	own.Link.OnLoss = link.SendsStored
	own.Link.Stored[0] = pulse.Micros(1234)
	assert.Equal(t, OfFile, FirstStored(&own))
	assert.Equal(t, OfFile, ArmedThrottle.Next(&own))
	assert.Equal(t, own.Link.Stored, OfFile.Frame(&own, &pulse.Frame{}))
	for _, c := range []sim.Config{cfg, bySticks(), own} {
		for s := Disarming; s < storedCount; s++ {
			f := s.Frame(&c, &pulse.Frame{})
			assert.True(t, link.ValidFrame(c.Link.Needed, &f))
		}
	}
}

func TestThePilotIsASource(t *testing.T) {
	cfg := sim.Default()
	still := sim.Snapshot{}
	still.In = sim.Inputs{Air: true, Powered: true, HasSent: true, Transmitter: true, Plugged: true}
	open := func() input.Source { return NewPilot(cfg, 5, func(s *sim.Snapshot) { *s = still }) }
	inputtest.TestSource(t, open, inputtest.Want{NoAlloc: true})
	blind := func() input.Source { return NewPilot(cfg, 5, nil) }
	inputtest.TestSource(t, blind, inputtest.Want{})
}

// It hovers with every craft that a craft file may describe: the corners of the box of masses and lags, and a tired pack.
func TestThePilotHoversWithEveryCraft(t *testing.T) {
	for _, mass := range []float64{0.2, 0.45, 0.9} {
		for _, lag := range []float64{0.01, 0.06} {
			cfg := sim.Default()
			cfg.Body.Mass, cfg.Body.Lag = mass, lag
			cfg.FitControl()
			o, err := Demonstrate(Options{Craft: cfg, Stored: Disarming, Height: 6, OffFor: 4000})
			require.NoError(t, err, "%v kg, %v s", mass, lag)
			assert.InDelta(t, 6, o.End[0].Run.Before.Height, 0.3)
		}
	}
	heavy := sim.Default()
	heavy.Body.Mass = 9
	_, err := Demonstrate(Options{Craft: heavy, Height: 6, OffFor: 4000})
	assert.ErrorContains(t, err, "this craft did not come to hover at 6 m within 110 s; it stands at 0.0 m")
	assert.Equal(t, "dieser Copter schwebte nach 110 s noch nicht in 6 m Höhe; er ist bei 0,0 m", words.In("de").Error(err))
}

// Three that begin at a point of the map come to what the map says of it, each with its receiver, whatever the hands at the pilot's own do.
func TestThePointOfAMapIsPlayed(t *testing.T) {
	cfg := sim.Default()
	own := practice.New(cfg)
	own.Step(Outside(&cfg))
	at := lossmap.Point{Height: 12, Climb: 3, Throttle: pulse.Micros(1350), Wind: 6}
	set := NewAt(own, ArmedThrottle, &at)
	hands := []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power}, {Kind: pulse.Air}}
	for range 9000 {
		set.Step(hands)
	}
	for i := range Receivers {
		run := set.Run(i)
		stores := WithReceiver(cfg, link.OnLoss(i), lossmap.Held(&cfg, at.Throttle))
		r, c := lossmap.React(&stores, at.Throttle), lossmap.Of(&stores)
		o := lossmap.Fall(&c, &r, &at)
		require.Equal(t, Off, run.Phase)
		if o.Down < 0 || o.Down > 9 {
			assert.EqualValues(t, NotYet, run.Down, i)
			continue
		}
		ms, ok := run.Since(run.Down)
		require.True(t, ok)
		assert.InDelta(t, o.Down, float64(ms)/1000, 0.02)
		assert.InDelta(t, o.Speed, run.Speed, 0.03)
		assert.InDelta(t, o.Away, run.Away, 0.05)
		stopped, _ := run.Since(run.Stopped)
		assert.InDelta(t, o.Turns, float64(stopped)/1000, 0.02)
	}
}
