// Package examine makes pairs of situations of a layout that differ in one thing, for a pupil to foresee how each ends.
//
// A situation is told as a story: what was done to radio and craft so far, and one movement more, the last one, which both stories of a pair
// share. The beginnings are drawn from the very search of everything that hands can bring the layout into (package prove), so that they are
// those of the pupil's own radio and craft; how each ends is what the bench comes to. Nothing here reads a clock: seed and history decide.
package examine

import (
	"hash/fnv"
	"strconv"

	"propsoff.example/sim/prove"
)

// Ask is what the pupil foresees of the last movement.
type Ask uint8

// What is asked.
const (
	Arms     Ask = iota // whether a disarmed craft is armed afterwards
	Stays               // whether an armed craft is still armed afterwards
	Turns               // whether the motors of an armed craft turn afterwards
	AskCount            // one more than the last
)

// Code is the word for it in logbooks and reports.
func (a Ask) Code() string { return [...]string{"arms", "stays-armed", "motors-turn"}[min(a, Turns)] }

// About is in what the two stories of a pair differ: what a pupil may believe to matter, or not to.
type About uint8

// The things.
const (
	Throttle     About = iota // where the throttle stands
	Yaw                       // where yaw stands
	RollPitch                 // where roll or pitch stands
	ArmControl                // what was done with the arm control before
	SecondSwitch              // where the second switch stands
	ModeControl               // where the mode control stands
	OtherControl              // where another control stands
	Silence                   // that the radio was silent for a while
	SilentFor                 // for how long it was
	HeardFor                  // for how long it has been heard again
	StoodStill                // for how long the craft has had its pack, or has not been moved
	Waited                    // for how long else it was waited
	Moved                     // that the craft was moved
	Cable                     // that the set-up cable was put in
	NewPack                   // that the pack was taken off and put on again
	Order                     // which of two things came first
	AboutCount                // one more than the last
)

var abouts = [AboutCount]string{"throttle", "yaw", "roll-pitch", "arm-control", "second-switch", "mode-control", "other-control", "silence", "silent-for", "heard-for", "stood-still",
	"waited", "moved", "cable", "new-pack", "order"}

// Code is the word for it in logbooks and reports.
func (a About) Code() string { return abouts[min(a, Order)] }

// Story is one of the two situations.
type Story struct {
	// Way is all that is done, with the readings that play it; the last movement and the wait after it included.
	Way *prove.Way
	// Last is the index in Way.Steps of the last movement, At the tick in ms at which it is made.
	Last int
	At   int64
	// Differs are the indices in Way.Steps, from and up to but not including, of what the other story does not have; equal where this one has
	// nothing of its own.
	Differs [2]int
	// Ends is how it ends: what the answer would be.
	Ends bool
}

// Question is one pair.
type Question struct {
	// ID tells it from every other pair of this layout, whichever of the two is the first.
	ID      string
	Ask     Ask
	About   About
	Stories [2]Story
}

// Alike reports whether both end alike: what they differ in makes no difference here.
func (q *Question) Alike() bool { return q.Stories[0].Ends == q.Stories[1].Ends }

// Verdict is what an answer shows of what the pupil takes to be so.
type Verdict uint8

// The verdicts.
const (
	Foreseen     Verdict = iota // both ends were foreseen
	NoMatter                    // foreseen as if it made no difference, and it does
	Matters                     // foreseen as if it decided, and it does not
	WrongWay                    // foreseen the wrong way round
	BothWrong                   // rightly foreseen that it makes no difference, and both ends wrongly
	VerdictCount                // one more than the last
)

var verdicts = [VerdictCount]string{"foreseen", "no-matter", "matters", "wrong-way", "both-wrong"}

// Code is the word for it in logbooks and reports.
func (v Verdict) Code() string { return verdicts[min(v, BothWrong)] }

// VerdictOf is the verdict of a word; false where there is none.
func VerdictOf(code string) (Verdict, bool) { return find[Verdict](verdicts[:], code) }

// AskOf is what a word stands for; false where it stands for nothing.
func AskOf(code string) (Ask, bool) {
	return find[Ask]([]string{Arms.Code(), Stays.Code(), Turns.Code()}, code)
}

// AboutOf is what a word stands for; false where it stands for nothing.
func AboutOf(code string) (About, bool) { return find[About](abouts[:], code) }

func find[T ~uint8](all []string, code string) (T, bool) {
	for i, c := range all {
		if c == code {
			return T(i), true
		}
	}
	return 0, false
}

// Judge holds against the two ends what was foreseen of them.
func (q *Question) Judge(foreseen [2]bool) Verdict {
	is := [2]bool{q.Stories[0].Ends, q.Stories[1].Ends}
	switch alike := foreseen[0] == foreseen[1]; {
	case foreseen == is:
		return Foreseen
	case q.Alike() && alike:
		return BothWrong
	case q.Alike():
		return Matters
	case alike:
		return NoMatter
	}
	return WrongWay
}

// id is that of a pair: the same for both orders of the two, and for no other pair by more than chance (64 bits).
func id(ask Ask, salt string, stories *[2]story) string {
	sum := uint64(0)
	for i := range stories {
		h := fnv.New64a()
		_, _ = h.Write([]byte(salt + ask.Code() + stories[i].text()))
		sum += h.Sum64()
	}
	return strconv.FormatUint(sum, 36)
}
