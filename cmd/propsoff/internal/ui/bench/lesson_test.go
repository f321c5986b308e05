package bench_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/body"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/pulse"
)

// overturned is a craft that rolled on its back in rate, and broke some time ago (ms); found is until when it could have been saved.
func overturned(t testing.TB, ago int) (s *uitest.Stage, found lesson.Found) {
	s = uitest.Airborne(t, 6).InMode(layout.Rate).Set(1, 2012).Wait(400).Set(1, 1500)
	for range 400 {
		if s.Wait(10); s.V.Snap.Air.Wreck != 0 {
			break
		}
	}
	require.NotZero(t, s.V.Snap.Air.Wreck)
	broke := s.V.Snap.Tick
	s.Wait(ago)
	w := lesson.Way{Hands: lesson.Level, Gas: lesson.Full, At: broke - 420, Any: true}
	found = lesson.Found{Broke: broke, From: broke - 5000, Last: w}
	found.Of[lesson.Level] = w
	s.V.Flight.Wreck = ui.Wreck{Is: true, Broke: broke, Found: &found, Back: 3000}
	return s, found
}

var lessonScenes = []uitest.Scene{
	{Name: "wreck being looked into", Make: func(t testing.TB) *uitest.Stage {
		s, _ := overturned(t, 60)
		s.V.Flight.Wreck.Found = nil
		return s
	}, Says: []string{"Broken", "are being flown again"}},
	{Name: "wreck", Make: func(t testing.TB) *uitest.Stage { s, _ := overturned(t, 900); return s },
		Says: []string{"Broken", "Until 0.42 s before it broke it could be saved: by mode angle", "Those are hands that act at once", "R shows its last seconds once more"}},
	{Name: "wreck that nothing saved", Make: func(t testing.TB) *uitest.Stage {
		s, found := overturned(t, 900)
		found.Last, found.Of = lesson.Way{}, [lesson.HandsCount]lesson.Way{}
		s.V.Flight.Wreck.Found = &found
		return s
	}, Says: []string{"Broken", "Nothing that was tried saved it in its last 5.00 s"}},
	{Name: "wreck looked back at", Make: func(t testing.TB) *uitest.Stage { return lookedBack(t) },
		Says: []string{"REPLAY", "It could be saved until 0.42 s before it broke"}},
	{Name: "going on from before a wreck", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 6)
		s.V.Flight.Pace.Paused = true
		s.V.Recording = "a.take"
		s.V.Flight.Again = ui.Again{Apart: true, Waits: true, Hands: tell.HandsThen{
			Before: 3000, Then: pulse.Micros(1370), Now: pulse.Micros(988), ModeNow: layout.Rate, Arm: true, Elsewhere: lesson.Elsewhere{Throttle: true, Arm: true, Mode: true}}}
		return s
	}, Says: []string{"Time stands 3 s before the wreck. Elsewhere than then: throttle (then 1370 µs, now 988 µs), arm switch (then on), mode switch (then angle, now rate)."}},
	{Name: "going on from before a wreck, the radio off", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 6).Tell(pulse.Link, 0).Wait(600)
		s.V.Flight.Pace.Paused = true
		s.Retell = func() {
			s.V.Flight.Again = ui.Again{Apart: true, Waits: true, Hands: tell.HandsThen{Before: 3000, Radio: s.V.KeyFor(ui.SwitchRadio, ui.OnBench)}}
		}
		s.Retell()
		return s
	}, Says: []string{"Your hands are where they were then: it goes on in a moment.", "Your radio is off: L switches it on."}},
	{Name: "wreck with wrong propellers", Make: func(t testing.TB) *uitest.Stage {
		s, found := overturned(t, 900)
		found.Turns, found.Fitted = body.Directions(true), body.Directions(true)
		found.Fitted[0] *= -1
		s.V.Flight.Wreck.Found = &found
		return s
	}, Says: []string{"The front left propeller was the wrong one", "not taking off"}},
}

// lookedBack is a wreck that is looked back at, just after the last moment at which it could have been saved.
func lookedBack(t testing.TB) *uitest.Stage {
	s := uitest.Airborne(t, 6).InMode(layout.Rate).Set(1, 2012).Wait(400).Set(1, 1500).Wait(200)
	old := s.V.Snap
	for range 400 {
		if s.Wait(10); s.V.Snap.Air.Wreck != 0 {
			break
		}
	}
	broke := s.V.Snap.Tick
	w := lesson.Way{Hands: lesson.Level, Gas: lesson.Full, At: old.Tick - 100, Any: true}
	s.V.Flight.Wreck = ui.Wreck{Is: true, Broke: old.Tick + 320, Found: &lesson.Found{Broke: old.Tick + 320, From: broke - 5000, Last: w}}
	s.V.Snap = old
	s.V.Flight.Replay = ui.Replay{On: true, At: 4680, Length: 6000, Marked: true, Mark: 4580}
	return s
}

func TestLessonInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "lesson", lessonScenes, bench.Draw, func(*uitest.Stage, string) {})
}

// A room is warned too: the first notice that warns stands above the keys, as large as all else there.
func TestARoomIsWarned(t *testing.T) {
	s := uitest.Ready(t)
	s.V.Class = true
	s.V.GoodNews(words.AsIs("All is well."))
	s.V.Notice(words.AsIs("Something is wrong."))
	p := ink.NewPage(960, 600, 0, nil)
	bench.Draw(p, s.V)
	shown := itemsOf(p, "notice")
	require.Len(t, shown, 1)
	assert.Equal(t, "Something is wrong.", shown[0].Text)
	assert.GreaterOrEqual(t, shown[0].Size, 600*ui.ClassText-0.5)
	assert.Len(t, itemsOf(p, "notice-mark"), 1)
}

// The marked moment stands at its place on the bar of the look back and on the chart paper, and the key that goes on from before the wreck is printed.
func TestTheMomentIsMarked(t *testing.T) {
	s := lookedBack(t)
	_, d := drawnBench(s)
	bar := d.Named("saved-mark")
	require.Len(t, bar, 2)
	places := d.Named("replay-place")
	require.Len(t, places, 1)
	mid := func(box [4]float64) float64 { return box[0] + box[2]/2 }
	assert.Less(t, mid(bar[1].Box), mid(places[0].Box), "it lies before what is shown")
	assert.NotEmpty(t, d.Named("saved-line"))

	s, _ = overturned(t, 900)
	p := ink.NewPage(1280, 720, 0, nil)
	uitest.KeysAreThere(t, ui.OnBench, bench.Draw, s.V, ui.FlyAgain)
	s.V.Drilling = true
	bench.Draw(p, s.V)
	assert.False(t, s.V.Shows(ui.FlyAgain, ui.OnBench), "a drill asks what it asks")
}

// A craft that broke may be armed, and then no sentence says that its motors turn, or that a silent radio stops them.
func TestABrokenCraftThatIsArmed(t *testing.T) {
	s, _ := overturned(t, 900)
	require.True(t, s.V.Snap.Armed)
	s.V.Flight.Wreck = ui.Wreck{}
	says := func() (all string) {
		_, d := drawnBench(s)
		for _, it := range d.Items {
			all += it.Text + "\n"
		}
		return all
	}
	assert.Contains(t, says(), "Broken: its motors stay off, though it is armed. Disarm it; then K puts it back at the start, whole.")
	assert.NotContains(t, says(), "cuts the motors")
	s.Set(4, 988).Wait(300)
	require.False(t, s.V.Snap.Armed)
	assert.Contains(t, says(), "Broken: its motors stay off. K puts it back at the start, whole.")
}
