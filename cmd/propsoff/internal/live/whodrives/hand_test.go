package whodrives

import "propsoff.example/input/inputtest"

// hand moves a radio's controls one after the other.
type hand struct {
	r  *inputtest.Radio
	at int64
}

func (h *hand) to(axis int, value int32) {
	h.r.Move(h.at, 100_000, axis, value)
	h.at += 700_000
}

// answer moves every control of a moorland as it is asked for, beginning at at: pitch, yaw, roll, throttle, arm and mode, the corners, and
// all once more.
func answer(r *inputtest.Radio, at int64) { answerFrom(r, at, 0) }

// answerFrom leaves out the first so many of pitch, yaw and roll.
func answerFrom(r *inputtest.Radio, at int64, known int) {
	h := &hand{r, at + 1_000_000}
	for _, stick := range [][3]int32{{1, 0, 2047}, {3, 2047, 0}, {0, 2047, 0}}[known:] { // pitch, which runs backwards on this radio; yaw; roll
		h.to(int(stick[0]), stick[1])
		h.to(int(stick[0]), stick[2])
		h.to(int(stick[0]), 1023)
		h.at += 1_600_000
	}
	h.to(2, 2047) // throttle
	h.to(2, 0)
	h.at += 1_600_000
	h.to(4, 2047) // arm
	h.at += 2_500_000
	h.to(5, 1024) // mode
	h.to(5, 2047)
	h.at += 3_500_000
	for axis, corner := range []int32{2047, 0, 2047, 2047} {
		r.Move(h.at, 100_000, axis, corner)
	}
	h.at += 1_500_000
	for axis, rest := range []int32{1023, 1023, 0, 1023} {
		r.Move(h.at, 100_000, axis, rest)
	}
	h.at += 1_500_000
	for axis, rest := range []int32{1023, 1023, 0, 1023, 0, 0} {
		h.to(axis, 2047)
		h.to(axis, 1024)
		h.to(axis, 0)
		h.to(axis, rest)
	}
	r.Until(at + 120_000_000)
}
