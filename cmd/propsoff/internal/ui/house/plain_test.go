package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/ui"
	firstsheet "propsoff.example/cmd/propsoff/internal/ui/first"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/start"
)

// The mark stands on what is next until it is moved by hand, also where what is next has changed meanwhile; and what a radio is asked about says why,
// and who waits for the answer.
func TestTheMarkStandsOnWhatIsNext(t *testing.T) {
	kept, book := new(remembered.File), &notebook{names: []string{"Mara"}}
	p, _ := atTheRadioWith(t, func(_ *whodrives.Options, o *screen.Options) {
		o.Bare, o.Start, o.Remembered, o.Drills.Pupils = false, true, kept, book
	})
	marked := func() int { return start.Of(p.s.View()).At }
	p.tap("Enter") // the cautions
	require.Equal(t, ui.OnAsk, p.s.Place())
	assert.True(t, p.reads("This is asked once a day for every radio."), texts(p))
	assert.True(t, p.reads("Moorland Desk 7 is plugged in and waits for this answer."), texts(p))
	assert.False(t, p.reads("The demo pilot drives"))
	p.tap("Esc")
	require.Equal(t, start.Practise, start.Of(p.s.View()).Next)
	assert.Equal(t, start.Practise, marked())
	assert.False(t, p.reads("waits for this answer"))
	assert.False(t, p.reads("The demo pilot drives"), "nothing is seen to fly here")
	p.s.Choose(0)
	p.wait(50)
	p.clicks("ask-answer-2")
	p.wait(100)
	require.Equal(t, whodrives.Radio, p.s.Driving.Who)
	require.Equal(t, ui.OnStart, p.s.Place())
	require.Equal(t, start.Check, start.Of(p.s.View()).Next, "it has changed")
	assert.Equal(t, start.Check, marked())
	p.tap("Right")
	assert.Equal(t, start.Teach, marked(), "by hand")
	p.clicks("start-row-3", "start-row-5")
	require.Equal(t, ui.OnCard, p.s.Place())
	p.tap("Home")
	require.Equal(t, ui.OnStart, p.s.Place())
	assert.Equal(t, start.Check, marked())

	p.clicks("start-row-2", "start-row-5", "people-row-3")
	require.Equal(t, "Mara", book.pupil)
	p.wait(100)
	require.Equal(t, ui.OnAsk, p.s.Place())
	assert.True(t, p.reads("This is asked again because who practises has changed."), texts(p))
}

// A radio that is pulled out while it is asked about is not said to be plugged in, and the answer is not taken for another one that came meanwhile.
func TestAnAnswerIsOfTheRadioThatItWasAskedOf(t *testing.T) {
	var h *handsRadio
	p, _ := atTheRadioWith(t, func(d *whodrives.Options, o *screen.Options) {
		o.Bare, o.Start, o.Remembered = false, true, new(remembered.File)
		h = d.Radios.(*handsRadio)
	})
	p.tap("Enter") // the cautions
	require.True(t, p.reads("Moorland Desk 7 is plugged in and waits for this answer."), texts(p))
	h.pull(true)
	p.wait(100)
	require.Equal(t, ui.OnAsk, p.s.Place())
	assert.False(t, p.reads("waits for this answer"), texts(p))
	h.pull(false)
	p.wait(100)
	assert.True(t, p.reads("Moorland Desk 7 is plugged in and waits for this answer."), texts(p))

	h.pull(true)
	p.wait(100)
	h.called = "Heath Desk 4"
	h.pull(false)
	p.wait(100)
	require.True(t, p.reads("Moorland Desk 7 may be transmitting"))
	assert.False(t, p.reads("waits for this answer"), texts(p))
	p.clicks("ask-answer-2")
	p.wait(100)
	assert.NotEqual(t, whodrives.Radio, p.s.Driving.Who)
	assert.Empty(t, h.open)
	assert.True(t, p.reads("Heath Desk 4 may be transmitting"), "of this one nobody has said anything yet")
}

// Back leads to the sheet from which one was opened, and from there to where one came from.
func TestBackLeadsToTheSheetOneCameFrom(t *testing.T) {
	p, _ := atTheRadioWith(t, func(_ *whodrives.Options, o *screen.Options) { o.Start = true })
	p.clicks("start-row-2", "start-row-4")
	require.Equal(t, ui.OnFirst, p.s.Place())
	p.clicks("need-1")
	require.Equal(t, ui.OnCheck, p.s.Place())
	p.tap("Esc")
	assert.Equal(t, ui.OnFirst, p.s.Place())
	p.tap("Esc")
	assert.Equal(t, ui.OnStart, p.s.Place())

	p.clicks("start-row-1")
	require.Equal(t, ui.OnDrills, p.s.Place())
	p.tap("F9")
	require.Equal(t, ui.OnCard, p.s.Place())
	p.tap("F9")
	assert.Equal(t, ui.OnDrills, p.s.Place())
	for _, key := range []string{"F9", string(p.s.House.KeyOf(ui.OnDrills.Open())), "F9", "Esc", "Esc"} { // there and back adds nothing
		p.tap(key)
	}
	assert.Equal(t, ui.OnStart, p.s.Place())
}

// A motor without a propeller is named, and the tick is not given by one key.
func TestAMissingPropellerIsNamed(t *testing.T) {
	p := beginner(t, seeded)
	p.tap("B")
	hands := firstsheet.Of(p.s.View()).Turns
	assert.False(t, p.reads("no propeller at"))
	hands[0], hands[3] = 0, 0
	p.fit(hands)
	const missing = "the craft cannot fly like that."
	assert.True(t, p.reads(missing), texts(p))
	for _, keys := range []string{"Period Enter", "Period Esc"} {
		p.taps(keys)
		assert.Equal(t, ui.OnFirst, p.s.Place())
		assert.False(t, firstsheet.Of(p.s.View()).Checked, keys)
	}
	p.tap("Period")
	assert.True(t, p.reads("There is no propeller at the"), texts(p))
	p.taps("PageDown Enter")
	assert.True(t, firstsheet.Of(p.s.View()).Checked)
	assert.True(t, p.reads(missing), "it remains so")
	p.tap("Period")
	assert.False(t, firstsheet.Of(p.s.View()).Checked, "to take it back needs no question")
	p.fit(firstsheet.Of(p.s.View()).Turns)
	assert.False(t, p.reads(missing))
	p.tap("Period")
	assert.True(t, firstsheet.Of(p.s.View()).Checked)
}

// What is said of a key that did nothing goes with the sheet on which it was pressed.
func TestWhyAKeyDidNothingGoesWithTheSheet(t *testing.T) {
	p := atStart(t, nil)
	p.clicks("start-row-3", "start-row-2")
	require.Equal(t, ui.OnLayout, p.s.Place())
	p.s.FromHelp(ui.SwitchRadio)
	p.wait(20)
	require.True(t, p.reads("L works on the bench."), texts(p))
	p.tap("Esc")
	assert.False(t, p.reads("L works on the bench."), texts(p))
	p.clicks("start-row-2")
	assert.False(t, p.reads("L works on the bench."), texts(p))
}

// With the radio off and the arm switch on there is one advice, and it is not the refusal's.
func TestTheRadioIsAskedForOnce(t *testing.T) {
	p := beginner(t, nil)
	p.tap("Space")
	require.True(t, p.snap().Armed)
	p.tap("L")
	p.wait(1000)
	require.False(t, p.snap().Armed)
	assert.True(t, p.reads("Put the arm switch off"), texts(p))
	assert.False(t, p.reads("the radio is off; switch it on"), texts(p))
	p.tap("Space")
	p.wait(300)
	assert.True(t, p.reads("the radio is off; switch it on"), "now that is what there is to do")
	assert.True(t, p.reads("switch radio on"), "and its key says so")
}
