package tell

import (
	"strconv"
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/flight"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// known is the message of a code word. A number that has no code word is told as codes have it ("cause 7").
func known(code string, t words.Text) words.Text {
	if strings.Contains(code, " ") {
		return words.AsIs(code)
	}
	return t
}

// Mode is the name of a flight mode.
func Mode(m layout.Mode) words.Text {
	code := codes.Mode(m)
	return known(code, words.Of("mode", code))
}

// Armed is the largest word of the sheet.
func Armed(armed bool) words.Text {
	if armed {
		return words.T("state.armed")
	}
	return words.T("state.disarmed")
}

// LinkWord is the craft's judgement of the link in one word.
func LinkWord(p facts.Phase) words.Text {
	code := codes.Link(p)
	return known(code, words.Of("link-word", code))
}

// Group is the heading over the refusals that the same hands cure, in one word.
func Group(g facts.Group) words.Text {
	switch g {
	case facts.InHand:
		return words.T("group.hand")
	case facts.OnLink:
		return words.T("group.link")
	case facts.AtCraft:
		return words.T("group.craft")
	}
	return words.Text{}
}

// OnLoss is what a receiver does when the radio goes silent, in our words, and the trade's word for it. It follows "the receiver".
func OnLoss(o facts.OnLoss) (ours, trade words.Text) {
	switch o {
	case facts.FallsSilent:
		return words.T("receiver.falls-silent"), words.T("receiver.falls-silent-trade")
	case facts.RepeatsLast:
		return words.T("receiver.repeats-last"), words.T("receiver.repeats-last-trade")
	case facts.SendsStored:
		return words.T("receiver.sends-stored"), words.T("receiver.sends-stored-trade")
	}
	return words.Text{}, words.Text{}
}

// Menu is the word for which menu is open, or that none is.
func Menu(m int) words.Text {
	code := codes.Menu(m)
	return known(code, words.Of("menu-open", code))
}

// Places are the motors by place, in the order of the snapshot.
func Places() [flight.Motors]words.Text {
	return [flight.Motors]words.Text{words.T("motor.front-left"), words.T("motor.front-right"), words.T("motor.rear-left"), words.T("motor.rear-right")}
}

// JobName is what a channel's job is called: the jobs of every craft in the reader's language, one of a craft file as the file has it,
// "channel 7" where it has no other name.
func JobName(job string) words.Text {
	switch job {
	case "throttle", "roll", "pitch", "yaw", "arm", "second", "mode":
		return words.Of("job", job)
	}
	if rest, ok := strings.CutPrefix(job, "channel "); ok {
		if n, err := strconv.Atoi(rest); err == nil {
			return ChannelNumber(n - 1)
		}
	}
	return words.AsIs(job)
}

// Job is what a channel (from 0) does in this craft, saying nothing where it has no job.
func Job(cfg *layout.Config, channel int) words.Text { return JobName(codes.Job(cfg, channel)) }

// ChannelNumber calls a channel (from 0) by its number: "channel 5".
func ChannelNumber(channel int) words.Text {
	return words.T("channel.number", words.Args{"n": words.Whole(channel + 1)})
}

// Channel calls a channel (from 0) by its number and job: "channel 5 (arm)".
func Channel(cfg *layout.Config, channel int) words.Text {
	job := Job(cfg, channel)
	if job.Empty() {
		return ChannelNumber(channel)
	}
	return words.T("channel.with-job", words.Args{"n": words.Whole(channel + 1), "job": job})
}

// StickDirection names a direction of a gesture by the stick that a hand moves, the left one across first (by job: JobDirection).
func StickDirection(d int) words.Text {
	return [...]words.Text{words.T("direction.left-across"), words.T("direction.left-up-down"), words.T("direction.right-across"), words.T("direction.right-up-down")}[d&3]
}

// JobDirection names a direction of a gesture by its job, in the order of the gestures: throttle, roll, pitch, yaw.
func JobDirection(d int) words.Text {
	return JobName([...]string{"throttle", "roll", "pitch", "yaw"}[d&3])
}

// RawName calls a raw axis or button of a radio by its number, counted from 1; below 0 is none.
func RawName(axis, button int) words.Text {
	switch {
	case axis >= 0:
		return words.T("raw.axis", words.Args{"n": words.Whole(axis + 1)})
	case button >= 0:
		return words.T("raw.button", words.Args{"n": words.Whole(button + 1)})
	}
	return words.T("raw.control")
}

// withJob adds the job that a raw control has already.
func withJob(name words.Text, job string) words.Text {
	if job == "" {
		return name
	}
	return words.T("raw.with-job", words.Args{"name": name, "job": JobName(job)})
}

// Cause is why a craft was disarmed, as the rest of a sentence.
func Cause(c happening.Cause) words.Text {
	code := codes.Cause(c)
	return known(code, words.Of("cause", code))
}

// Reason is a refusal in a few words of the past, for the record, where the measured values are gone by.
func Reason(r facts.Refusal) words.Text {
	code := codes.Refusal(r)
	return known(code, words.Of("reason", code))
}

// setUpBy says what a craft was being set up by.
func setUpBy(by happening.SetUp) []words.Text {
	var out []words.Text
	for _, code := range codes.SetUpBy(by) {
		out = append(out, words.Of("set-up-by", code))
	}
	return out
}

// slots is a number of a craft's slots as a time.
func slots(cfg *sim.Config, n uint16) words.Text { return Seconds(int64(n) * int64(cfg.SlotTicks)) }

// Width is a width in whole µs with its unit, rounded down.
func Width(w pulse.Width) words.Text { return unit("micros", Micros(w)) }

// ExactWidth is a width in µs with its unit and as many decimals as it needs.
func ExactWidth(w pulse.Width) words.Text { return unit("micros", Exact(w)) }
