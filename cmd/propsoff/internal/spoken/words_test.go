package spoken

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Every language says each sentence that is made here; titles of sheets and what is said of keys are tried where the sheets are.
func TestEveryLanguageSaysWhatIsHeard(t *testing.T) {
	room := wordstest.Of("spoken")
	for _, what := range []string{"motors", "refusals", "sticks"} {
		room.Text(t, words.Of("spoken.unsteady", what))
	}
	for c := happening.Code(1); c < happening.CodeCount; c++ {
		room.Text(t, words.Of("spoken.unsteady", thingOf(c).unsteady))
	}
	some := words.T("reason.throttle-up")
	for _, on := range []words.Flag{true, false} {
		room.Text(t, words.T("spoken.motors", words.Args{"on": on}))
		room.Text(t, words.T("spoken.over", words.Args{"learned": on, "left": !on, "sum": some}))
	}
	room.Text(t, words.T("spoken.over", words.Args{"learned": words.Flag(false), "left": words.Flag(false), "sum": some}))
	room.Text(t, words.T("spoken.mode", words.Args{"mode": tell.Mode(0)}))
	room.Text(t, words.T("spoken.stands", words.Args{"state": tell.Armed(true)}))
	for _, id := range []words.ID{"spoken.put-right", "spoken.reads", "spoken.seen", "spoken.to-come"} {
		room.Text(t, words.T(id, words.Args{"what": some}))
	}
	room.Text(t, tell.StickReads(0, drill.Middle, pulse.Centre))
	room.Text(t, tell.StickReads(1, drill.Gone, pulse.Missing))
	room.Text(t, tell.PropellersSeen([4]int8{1, -1, 0, 1}, [4]int8{1, -1, -1, 1}))
	room.Text(t, words.T("spoken.drill", words.Args{"name": some}))
	room.Text(t, words.T("spoken.answer", words.Args{"n": words.Whole(2), "answer": some}))
	room.Text(t, words.T("spoken.verdict", words.Args{"verdict": tell.VerdictWord(drill.Right), "time": tell.Seconds(430)}))
	room.Text(t, words.T("spoken.go-on", words.Args{"key": words.Quote("Enter")}))
	room.Text(t, words.T("spoken.typing", words.Args{"key": words.Quote("Enter"), "words": words.Quote("link on")}))
	for n := range 2 {
		room.Text(t, words.T("spoken.eyes", words.Args{"n": words.Count(n + 1), "names": some}))
	}
	room.Whole(t, "spoken.sheet", "spoken.keys", "spoken.key")
	for _, a := range []menu.Answer{menu.Keep, menu.PutBack, menu.Stay} {
		assert.NotEmpty(t, words.English().Say(tell.MenuAnswer(a)))
	}
	assert.True(t, tell.MenuAnswer(menu.NoQuestion).Empty())
}

// A thing that changes a few times is told each time, one that changes again and again hardly, and what it comes to always.
func TestWhatChangesTooOftenIsToldOnce(t *testing.T) {
	var s steady
	count := map[verdict]int{}
	for tick := int64(0); tick < 60_000; tick += 50 {
		s.set(tick, tick/100%2, words.Text{})
		count[s.due(tick, 0)]++
	}
	assert.Equal(t, mostAtOnce, count[change])
	assert.Equal(t, 1, count[tooOften])
	for tick := int64(60_000); tick < 63_000; tick += 50 {
		s.set(tick, 1, words.Text{})
		if v := s.due(tick, 0); v != nothing {
			assert.Equal(t, change, v)
			count[v]++
			assert.GreaterOrEqual(t, tick, int64(59_900+steadyFor))
		}
	}
	assert.Equal(t, mostAtOnce+1, count[change], "what it came to")
	assert.Equal(t, int64(1), s.told)

	var slow steady
	told := 0
	for tick := int64(0); tick < 60_000; tick += 50 {
		slow.set(tick, tick/2000%2, words.Text{})
		if slow.due(tick, 0) == change {
			told++
		}
	}
	assert.Equal(t, 29, told, "a change every two seconds is told each time")

	s.set(10, 0, words.Text{}) // time ran back: another practice
	assert.Equal(t, nothing, s.due(10, settleFor))
	assert.Equal(t, change, s.due(10+settleFor, settleFor))
}
