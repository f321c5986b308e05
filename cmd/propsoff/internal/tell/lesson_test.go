package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/assets/words"
	"propsoff/assets/words/wordstest"
	"propsoff/sim/lesson"
	"propsoff/sim/pulse"
)

// What a wreck teaches is said in every language, for each kind of hands and each way of the throttle.
func TestLessonSpeaks(t *testing.T) {
	room, by, until := wordstest.Of("lesson"), wordstest.Of("saved-by"), wordstest.Of("saved-until")
	f := lesson.Found{Broke: 8001, From: 3001}
	room.Text(t, Saved(&lesson.Found{Broke: 8001, From: 8001}))
	assert.Empty(t, spoken(SavedEach(&lesson.Found{Broke: 8001, From: 8001})))
	byHand := Saved(&lesson.Found{Broke: 8001, From: 8001, ByHand: true})
	room.Text(t, byHand)
	assert.Contains(t, spoken(byHand), "Whoever disarms because somebody calls does right")
	room.Text(t, Saved(&f))
	assert.Equal(t, "Nothing that was tried saved it in its last 5.00 s: neither disarming nor the sticks.", spoken(SavedAt(&f, 4000)))
	assert.Equal(t, "Last moments: disarming never; letting go never; the throttle alone never. Those are hands that act at once; a person must see it first, and needs longer.", spoken(SavedEach(&f)))
	for h := range lesson.HandsCount {
		for g := lesson.AsItWas; g <= lesson.Closed; g++ {
			w := lesson.Way{Hands: h, Gas: g, At: 7620, Any: true}
			f.Of[h], f.Last = w, w
			room.Text(t, Saved(&f))
			by.Text(t, Saved(&f))
			room.Text(t, SavedAt(&f, 7620))
			room.Text(t, SavedAt(&f, 7621))
		}
	}
	room.Text(t, SavedEach(&f))
	until.Text(t, SavedEach(&f))
	room.Text(t, Seeking())
	for _, key := range []words.Text{words.AsIs("Zz"), {}} {
		room.Text(t, LessonKeys(key, key, 3000))
		room.Text(t, FlyAgain(&HandsThen{Before: 3000, Then: pulse.Micros(1370), Now: pulse.Micros(988), ArmOff: key.Empty()}, key))
	}
	assert.Equal(t, "Time stands 3 s before the wreck. The throttle was at 1370 µs; yours is at 988 µs, and your arm switch is off. It goes on once yours is there and the switch is on, or by G.",
		spoken(FlyAgain(&HandsThen{Before: 3000, Then: pulse.Micros(1370), Now: pulse.Micros(988), ArmOff: true}, words.AsIs("G"))))
	f.Last.Gas = lesson.Full
	assert.Equal(t, "Until 0.39 s before it broke it could be saved: by full throttle alone.", spoken(Saved(&f)), "0.381 s: rounded to where it is true")
	assert.Equal(t, "Until here it could be saved: by full throttle alone.", spoken(SavedAt(&f, 7000)))
	assert.Equal(t, "It could be saved until 0.39 s before it broke: by full throttle alone.", spoken(SavedAt(&f, 7999)))
	room.Whole(t)
	by.Whole(t)
	until.Whole(t)
}
