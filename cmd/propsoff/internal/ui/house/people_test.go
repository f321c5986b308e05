package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/people"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/radio"
)

// types types a text as a system's text input gives it.
func (p *person) types(text string) {
	p.s.Type(text)
	p.wait(50)
}

// From the start to a new name and to the drills, by keys alone and by clicks alone: whoever practises stands on every sheet, and is remembered.
func TestFromTheStartToANewNameAndTheDrills(t *testing.T) {
	for how, walk := range map[string]func(p *person){
		"keys": func(p *person) {
			p.tap("V")
			p.tap("Insert")
			p.types("Zoé Weiß-Ärm")
			p.tap("Enter")
		},
		"clicks": func(p *person) {
			p.clicks("start-row-2", "start-row-5")
			require.Equal(t, ui.OnPeople, p.s.Place())
			p.clicks("people-row-2")
			for _, letter := range "ZO" { // z is the 26th letter of the board, o the 15th
				p.clicks(map[rune]string{'Z': "write-letter-26", 'O': "write-letter-15"}[letter])
			}
			p.clicks("write-take", "leave")
		},
	} {
		t.Run(how, func(t *testing.T) {
			book, kept := &notebook{}, new(remembered.File)
			p := atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils, o.Remembered = book, kept })
			assert.True(t, p.reads("nobody is named"), "it is said")
			walk(p)
			name := map[string]string{"keys": "Zoé Weiß-Ärm", "clicks": "Zo"}[how]
			assert.Equal(t, name, book.pupil)
			assert.Equal(t, name, kept.Person)
			require.Equal(t, ui.OnStart, p.s.Place())
			assert.True(t, p.reads(name+" practises"))
			p.tap("2")
			p.clicks("start-row-1")
			require.Equal(t, ui.OnDrills, p.s.Place())
			assert.True(t, p.reads(name+" practises"))
			p.tap("F11")
			assert.True(t, p.reads(name+" practises"), "for a class, too")
		})
	}
}

// A name is given another one, and two logbooks are put together once that is said in numbers.
func TestPeopleAreRenamedAndMerged(t *testing.T) {
	book := &notebook{names: []string{"Mara", "Mara Lindqvist"}}
	p := atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils = book })
	p.taps("V PageUp PageUp PageUp PageDown PageDown")
	require.Equal(t, 2, people.Of(p.s.View()).At)
	p.tap("Quote")
	assert.True(t, p.reads("What is Mara to be called from now on?"))
	p.tap("Backspace")
	p.types("ie")
	p.tap("Enter")
	assert.Equal(t, []string{"Marie", "Mara Lindqvist"}, book.names)
	p.tap("Slash")
	assert.True(t, p.reads("Into whose logbook does that of Marie go?"))
	p.taps("Down Enter")
	assert.True(t, p.reads("12 runs of Marie go to Mara Lindqvist. After that there is no Marie any more."))
	p.tap("Enter")
	assert.Len(t, book.names, 2, "the safe answer leaves both")
	p.taps("Up Slash Down Enter Down Enter")
	assert.Equal(t, []string{"Mara Lindqvist"}, book.names)
}

// Where there is no folder for logbooks, a name is not taken as if it were kept: it is said beside the row, and to whoever types one all the same.
func TestWithoutAFolderNobodyIsNamed(t *testing.T) {
	p := atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils = nil })
	p.tap("V")
	assert.True(t, p.reads("There is no folder for logbooks here"), "beside a new name")
	p.tap("Insert")
	p.tap("Enter")
	assert.True(t, p.reads("a name needs at least one letter, figure or sign"))
	p.types("Mara")
	p.tap("Enter")
	require.Equal(t, ui.OnWrite, p.s.Place())
	assert.True(t, p.reads("There is no folder for logbooks here"))
	p.taps("Esc Enter Esc")
	assert.True(t, p.reads("nobody is named"))
	assert.Empty(t, p.s.Pupil())
}

// Nobody flies by a radio that is new today until it is said that no craft hears it; somebody else says so again.
func TestARadioIsConfirmedBeforeItIsRead(t *testing.T) {
	kept, book := new(remembered.File), &notebook{}
	var h *handsRadio
	p, _ := atTheRadioWith(t, func(d *whodrives.Options, o *screen.Options) {
		o.Bare, o.Start, o.Remembered, o.Drills.Pupils = false, true, kept, book
		h = d.Radios.(*handsRadio)
	})
	p.tap("Enter") // the cautions
	require.Equal(t, ui.OnAsk, p.s.Place())
	assert.True(t, p.reads("Moorland Desk 7 may be transmitting"))
	assert.Empty(t, h.open, "it is not even opened")
	p.tap("Esc")
	assert.Equal(t, ui.OnStart, p.s.Place())
	assert.NotEqual(t, whodrives.Radio, p.s.Driving.Who)
	p.wait(500)
	assert.Equal(t, ui.OnStart, p.s.Place(), "it is not asked again by itself")
	p.clicks("start-row-1", "start-row-1", "ask-answer-2")
	p.wait(100)
	assert.Equal(t, whodrives.Radio, p.s.Driving.Who)
	assert.True(t, kept.IsConfirmed(remembered.Confirmed{Radio: screen.RadioID(radio.DeviceOf(h.r.Info())), Day: 20000}))

	p.taps("V Insert")
	p.types("Mara")
	p.tap("Enter")
	p.wait(100)
	assert.Equal(t, ui.OnAsk, p.s.Place(), "somebody else practises")
	assert.NotEqual(t, whodrives.Radio, p.s.Driving.Who)
	p.taps("PageDown Enter")
	p.wait(100)
	assert.Equal(t, whodrives.Radio, p.s.Driving.Who)
}

// Whoever names himself goes on where he was.
func TestNamingLeadsBackToWhereOneWas(t *testing.T) {
	book := &notebook{names: []string{"Mara"}}
	p := atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils = book })
	p.clicks("start-row-2", "start-row-1")
	require.Equal(t, ui.OnDrills, p.s.Place())
	p.clicks("people")
	require.Equal(t, ui.OnPeople, p.s.Place())
	p.clicks("people-row-3")
	assert.Equal(t, "Mara", book.pupil)
	assert.Equal(t, ui.OnDrills, p.s.Place())
	p.taps("V Insert")
	p.types("Ayo")
	p.tap("Enter")
	assert.Equal(t, "Ayo", book.pupil)
	assert.Equal(t, ui.OnDrills, p.s.Place())
	p.taps("V Esc")
	assert.Equal(t, ui.OnDrills, p.s.Place(), "nothing was changed")
	p.tap("Esc")
	if p.s.Place() == ui.OnDrills { // out of the chapter first
		p.tap("Esc")
	}
	assert.Equal(t, ui.OnStart, p.s.Place())
}
