package logbook

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/sim/mark"
)

// Hand is what following a mark said of a hand, as it stands in the line. Axis and Mode are code words.
type Hand struct {
	Axis     string `json:"axis"`
	Mode     string `json:"mode"`
	Measured bool   `json:"measured"`
	// The rest is as in mark.Hand: ms, mrad/s, thousandths; Within are half the widths of 95 % intervals.
	DelayMS         int32 `json:"delay_ms,omitempty"`
	DelayWithin     int32 `json:"delay_within_ms,omitempty"`
	Crossover       int32 `json:"crossover_mrad_s,omitempty"`
	CrossoverWithin int32 `json:"crossover_within_mrad_s,omitempty"`
	Noise           int32 `json:"noise_thousandths,omitempty"`
}

func handOf(h *mark.Hand) *Hand {
	return &Hand{Axis: codes.Axis(h.Axis), Mode: codes.Mode(h.Mode), Measured: h.Measured, DelayMS: h.DelayMS, DelayWithin: h.DelayWithin,
		Crossover: h.Crossover, CrossoverWithin: h.CrossoverWithin, Noise: h.Noise}
}

// Measure gives it as the drill has it; nothing where only a later version knows the axis or the mode.
func (h *Hand) Measure() mark.Hand {
	axis, knowsAxis := codes.AxisOf(h.Axis)
	mode, knowsMode := codes.ModeOf(h.Mode)
	if !knowsAxis || !knowsMode {
		return mark.Hand{}
	}
	return mark.Hand{Axis: axis, Mode: mode, Measured: h.Measured, DelayMS: h.DelayMS, DelayWithin: h.DelayWithin,
		Crossover: h.Crossover, CrossoverWithin: h.CrossoverWithin, Noise: h.Noise}
}

// mostOfHand is beyond every number that is written of a hand: a minute in ms, a thousand rad/s in mrad/s.
const mostOfHand = 1_000_000

// check says what is wrong with it, in try n.
func (h *Hand) check(n int) error {
	for _, v := range [...]int32{h.DelayMS, h.DelayWithin, h.Crossover, h.CrossoverWithin, h.Noise} {
		if v < 0 || v > mostOfHand {
			return words.Wrong("logbook-file.hand-beyond", words.Args{"n": words.Whole(n), "number": words.Whole(v)})
		}
	}
	return nil
}
