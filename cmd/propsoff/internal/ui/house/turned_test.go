package house_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/check"
	"propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/help"
	"propsoff.example/cmd/propsoff/internal/ui/people"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	ck "propsoff.example/input/check"
)

// list is the list of the page that stands drawn, which does not fit.
func (p *person) list() ink.List {
	p.t.Helper()
	require.NotEmpty(p.t, p.page.Lists(), "%q", texts(p))
	return p.page.Lists()[0]
}

// wheel turns the mouse's wheel over a list.
func (p *person) wheel(by float64) {
	p.t.Helper()
	l := p.list()
	p.s.Point(ink.Pointer{Phase: ink.Wheel, At: l.Box.Centre(), By: by, List: l, OnList: true})
	p.wait(50)
}

// drawn draws a pointer across a list, upwards so many steps.
func (p *person) drawn(e ink.Pointer, steps float64) {
	p.t.Helper()
	l := p.list()
	from := 0.9
	if steps < 0 {
		from = 0.1
	}
	p.point(e, l.Box, 0.5, from)
	e.Phase = ink.Move
	for i := 1.0; i <= 8; i++ {
		p.point(e, l.Box, 0.5, from-i/8*steps*l.Step/l.Box.H)
	}
	e.Phase = ink.Up
	p.point(e, l.Box, 0.5, from-steps*l.Step/l.Box.H)
}

// class is a notebook with so many people.
func class(n int) *notebook {
	book := &notebook{}
	for i := range n {
		book.names = append(book.names, fmt.Sprintf("Pupil %02d", i+1))
	}
	return book
}

// longLists are sheets with something that does not fit, byFinger those where it does not where rows are high enough for one.
var longLists = map[string]func(t *testing.T) *person{
	"people":               before("V", func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils = class(40) }),
	"help":                 before("F1", nil),
	"layout in class view": before("F6 F11", nil),
}

var byFinger = map[string]func(t *testing.T) *person{
	"people": longLists["people"],
	"help":   longLists["help"],
	"faults": func(t *testing.T) *person {
		p := beginner(t, nil)
		p.opens(ui.OnDesk)
		return p
	},
	"chapters": func(t *testing.T) *person {
		p, _ := atDrills(t)
		p.tap("Backspace")
		return p
	},
}

// far is a turn of the wheel that is longer than every list.
const far = 99

// Whatever does not fit is turned by a wheel, by the mouse and by a finger, and nothing is pressed by that.
func TestListsAreTurnedByWheelAndDrag(t *testing.T) {
	for name, sit := range longLists {
		t.Run(name+" by wheel", func(t *testing.T) { sit(t).turns(func(p *person, way float64) { p.wheel(way) }) })
		t.Run(name+" by mouse", func(t *testing.T) { sit(t).turns(func(p *person, way float64) { p.drawn(ink.Pointer{}, 1.2*way) }) })
	}
	for name, sit := range byFinger {
		t.Run(name+" by finger", func(t *testing.T) {
			p := sit(t)
			p.finger(ink.Rect{X: 3, Y: 3}) // rows are higher from the first one on
			p.turns(func(p *person, way float64) { p.drawn(ink.Pointer{ID: 1, Finger: true}, 1.2*way) })
		})
	}
}

// turns asks that a list goes on and back by what turns it, stops at its ends, and that nothing is pressed.
func (p *person) turns(turn func(p *person, way float64)) {
	p.t.Helper()
	p.wait(30_000) // nothing is told of any more, and the chart is empty
	p.wheel(-far)
	place, marks, all := p.s.Place(), p.marks(), texts(p)
	turn(p, -1)
	assert.Equal(p.t, all, texts(p), "it has a beginning")
	turn(p, 1)
	assert.NotEqual(p.t, all, texts(p), "it goes on")
	turn(p, -1)
	assert.Equal(p.t, all, texts(p), "and back")
	p.wheel(far)
	end := texts(p)
	assert.NotEqual(p.t, all, end)
	turn(p, 1)
	assert.Equal(p.t, end, texts(p), "it has an end")
	assert.Equal(p.t, place, p.s.Place())
	assert.Equal(p.t, marks, p.marks())
}

// finger presses the middle of a place by a finger.
func (p *person) finger(box ink.Rect) {
	p.point(ink.Pointer{ID: 1, Finger: true}, box, 0.5, 0.5)
	p.point(ink.Pointer{ID: 1, Finger: true, Phase: ink.Up}, box, 0.5, 0.5)
}

// marks is what is marked on the sheets with lists.
func (p *person) marks() [3]int {
	v := p.s.View()
	return [3]int{people.Of(v).At, drills.Of(v).Looked, drills.Of(v).Selected}
}

// A turned list stays where it is as long as the mark moves in sight, and comes back to one that is not.
func TestATurnedListComesBackToItsMark(t *testing.T) {
	p := longLists["people"](t)
	p.wheel(far)
	require.True(t, p.reads("Pupil 40"))
	p.press("people-row-40")
	assert.Equal(t, "Pupil 38", p.s.Pupil(), "what is pressed there is what stands there")
	p.tap("V")
	p.wheel(-far)
	require.False(t, p.reads("Pupil 40"))
	p.tap("Down")
	assert.True(t, p.reads("Pupil 40"), "a key moves the mark, and the list goes to it")
}

// The line that counts what is not shown is pressed, and turns the list on and round.
func TestTheLineOfTheRestIsPressed(t *testing.T) {
	p := longLists["people"](t)
	p.wheel(-far)
	first := texts(p)
	for n := 0; ; n++ {
		p.press("roll people")
		if p.reads("Pupil 40") {
			break
		}
		require.Less(t, n, 10)
	}
	p.press("roll people")
	assert.Equal(t, first, texts(p))
}

// What is searched for in help is written without a keyboard, as names are, and what is found is turned by presses alone.
func TestHelpIsSearchedWithoutAKeyboard(t *testing.T) {
	p := ready(sitDown(t, ""))
	p.press("understood")
	press := func(name string) { p.finger(p.hit(name).Box) }
	press("help")
	all := texts(p)
	press("roll leaves")
	assert.NotEqual(t, all, texts(p))
	press("help-search")
	require.Equal(t, ui.OnWrite, p.s.Place())
	for _, letter := range "take" {
		press(fmt.Sprintf("write-letter-%d", letter-'a'+1))
	}
	press("write-take")
	require.Equal(t, ui.OnHelp, p.s.Place())
	assert.Equal(t, "Take", help.Of(p.s.View()).Typed)
	assert.True(t, p.reads("record this practice"), "%q", texts(p))
	press("help-search")
	press("write-back")
	press("leave")
	assert.Equal(t, ui.OnHelp, p.s.Place(), "nothing is lost by that, so nothing is asked")
	assert.Equal(t, "Take", help.Of(p.s.View()).Typed)
	press("help-row take")
	assert.NotEqual(t, ui.OnHelp, p.s.Place())
	press("help")
	assert.Empty(t, help.Of(p.s.View()).Typed)
}

// In a merge only those are offered into whose logbook another one can go.
func TestAMergeOffersPeopleAlone(t *testing.T) {
	p := atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils = class(3) })
	p.taps("V PageUp PageUp PageUp PageUp PageDown PageDown PageDown Slash") // the second
	rows := people.Of(p.s.View()).Rows
	require.Len(t, rows, 2)
	assert.Equal(t, [2]string{"Pupil 01", "Pupil 03"}, [2]string{p.s.View().Say(rows[0].Says), p.s.View().Say(rows[1].Says)})
	assert.False(t, p.reads("Nobody"))
	assert.False(t, p.reads("A new name"))
	p.press("people-row-1")
	assert.True(t, p.reads("12 runs of Pupil 02 go to Pupil 01."), "%q", texts(p))
	p.taps("Esc")
	assert.Len(t, people.Of(p.s.View()).Rows, 5)
	assert.Equal(t, 2, people.Of(p.s.View()).At, "who was chosen is marked")
	p.taps("Down Slash Esc")
	assert.Equal(t, 3, people.Of(p.s.View()).At, "whose it was is")
	assert.Equal(t, ui.OnPeople, p.s.Place())
}

// A name that is half written is not thrown away unasked, nor by a key that asked; one that is as it was goes without a question.
func TestAHalfWrittenNameIsAskedAbout(t *testing.T) {
	p := atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils = class(1) })
	p.taps("V Insert Esc")
	require.Equal(t, ui.OnPeople, p.s.Place(), "nothing was typed")
	p.tap("Insert")
	p.types("Mar")
	p.tap("Esc")
	require.Equal(t, ui.OnAsk, p.s.Place())
	assert.True(t, p.reads("“Mar” is typed and not taken yet."), "%q", texts(p))
	p.tap("Esc")
	require.Equal(t, ui.OnWrite, p.s.Place(), "the safe answer goes on")
	p.types("a")
	p.taps("Esc PageDown Enter")
	require.Equal(t, ui.OnPeople, p.s.Place())
	assert.Empty(t, p.s.Pupil())
}

// A controls check of which something is done already is not left unasked, wherever one goes; one that has not begun is, and one that is over.
func TestAHalfDoneCheckIsAskedAbout(t *testing.T) {
	p, h := atTheRadio(t)
	p.pass(h, 300)
	p.taps("F4 Esc")
	require.Equal(t, ui.OnBench, p.s.Place(), "nothing is done yet")
	h.pull(true)
	for _, d := range h.open {
		_ = d.Close()
	}
	p.pass(h, 300)
	h.hands(p.clock.now + 1_000_000)
	h.pull(false)
	p.pass(h, 600)
	p.tap("F4")
	for n := 0; !slices.ContainsFunc(check.Of(p.s.View()).Check.Controls, func(c ck.Control) bool { return c.Done }); n++ {
		require.Less(t, n, 200)
		p.pass(h, 160)
	}
	p.tap("Esc")
	require.Equal(t, ui.OnAsk, p.s.Place())
	assert.True(t, p.reads("The check is not finished: "), "%q", texts(p))
	p.tap("Esc")
	require.Equal(t, ui.OnCheck, p.s.Place())
	p.tap("F6")
	require.Equal(t, ui.OnAsk, p.s.Place(), "another sheet leaves it as well")
	p.taps("PageDown Enter")
	assert.Equal(t, ui.OnLayout, p.s.Place())
}
