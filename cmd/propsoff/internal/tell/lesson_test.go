package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/pulse"
)

// What a wreck teaches is said in every language, for each kind of hands and each way of the throttle.
func TestLessonSpeaks(t *testing.T) {
	room, by, until := wordstest.Of("lesson"), wordstest.Of("saved-by"), wordstest.Of("saved-until")
	f := lesson.Found{Broke: 8001, From: 3001}
	room.Text(t, Saved(&lesson.Found{Broke: 8001, From: 8001}))
	assert.Empty(t, spoken(SavedEach(&lesson.Found{Broke: 8001, From: 8001})))
	assert.Empty(t, spoken(AtOnce(&f)), "nothing saved it")
	byHand := Saved(&lesson.Found{Broke: 8001, From: 8001, ByHand: true})
	room.Text(t, byHand)
	assert.Contains(t, spoken(byHand), "Whoever disarms because somebody calls does right")
	room.Text(t, Saved(&f))
	assert.Equal(t, "Nothing that was tried saved it in its last 5.00 s: neither disarming nor the sticks.", spoken(SavedAt(&f, 4000)))
	assert.Equal(t, "Last moments: disarming never; letting go never; the throttle alone never.", spoken(SavedEach(&f)))
	for h := range lesson.HandsCount {
		for g := lesson.AsItWas; g <= lesson.Closed; g++ {
			w := lesson.Way{Hands: h, Gas: g, At: 7620, Any: true}
			f.Of[h], f.Last = w, w
			room.Text(t, Saved(&f))
			by.Text(t, Saved(&f))
			room.Text(t, SavedAt(&f, 7619))
			room.Text(t, SavedAt(&f, 7620))
			room.Text(t, SavedAt(&f, 7621))
		}
	}
	room.Text(t, SavedEach(&f))
	until.Text(t, SavedEach(&f))
	room.Text(t, AtOnce(&f))
	room.Text(t, Seeking())
	for _, key := range []words.Text{words.AsIs("Zz"), {}} {
		room.Text(t, LessonKeys(key, key, 3000))
		for _, on := range []bool{false, true} {
			h := HandsThen{Before: 3000, Then: pulse.Micros(1370), Now: pulse.Micros(988), ModeNow: layout.Rate, Arm: on, Second: on, Radio: key}
			room.Text(t, FlyAgain(&h, key))
			h.Elsewhere = lesson.Elsewhere{Throttle: true, Arm: true, Second: true, Mode: true}
			room.Text(t, FlyAgain(&h, key))
		}
	}
	h := HandsThen{Before: 2300, Then: pulse.Micros(1370), Now: pulse.Micros(988), ModeNow: layout.Rate, Arm: true}
	h.Elsewhere = lesson.Elsewhere{Throttle: true, Arm: true, Mode: true}
	assert.Equal(t, "Time stands 2.3 s before the wreck. Elsewhere than then: throttle (then 1370 µs, now 988 µs), arm switch (then on), mode switch (then angle, now rate). "+
		"It goes on once all has stood as then for a second, or by G.", spoken(FlyAgain(&h, words.AsIs("G"))))
	h.Elsewhere = lesson.Elsewhere{}
	assert.Equal(t, "Time stands 2.3 s before the wreck. Your hands are where they were then: it goes on in a moment.", spoken(FlyAgain(&h, words.AsIs("G"))))
	f.Last.Gas = lesson.Full
	assert.Equal(t, "Until 0.39 s before it broke it could be saved: by full throttle alone.", spoken(Saved(&f)), "0.381 s: rounded to where it is true")
	assert.Equal(t, "It could still be saved, until 0.39 s before it broke: by full throttle alone.", spoken(SavedAt(&f, 7000)))
	assert.Equal(t, "Until here it could be saved: by full throttle alone.", spoken(SavedAt(&f, 7620)))
	assert.Equal(t, "It could be saved until 0.39 s before it broke: by full throttle alone.", spoken(SavedAt(&f, 7999)))
	f.Turns = [4]int8{1, -1, -1, 1}
	f.Fitted = [4]int8{1, 1, -1, 0}
	room.Text(t, Saved(&f))
	for _, tick := range []int64{7000, 7999, 9000} {
		assert.Equal(t, "The front right propeller was the wrong one: its motor turns counter-clockwise, so it pushed down instead of lifting. There was no propeller at the rear right. What keeps such a craft whole is not taking off.",
			spoken(SavedAt(&f, tick)), "no hand is to blame")
	}
	assert.Empty(t, spoken(SavedEach(&f)))
	assert.Empty(t, spoken(AtOnce(&f)))
	room.Whole(t)
	by.Whole(t)
	until.Whole(t)
}
