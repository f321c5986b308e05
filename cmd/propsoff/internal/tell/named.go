package tell

import (
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
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

// LevellingModes names those modes that bring the craft level by themselves, one or the other.
func LevellingModes() words.Text {
	var all []words.Text
	for m := range layout.Mode(layout.Modes) {
		if m.SelfLevelling() {
			all = append(all, Mode(m))
		}
	}
	return words.Or(all...)
}

// Armed is the largest word of the sheet.
func Armed(armed bool) words.Text {
	return words.T("state.armed", words.Args{"armed": words.Flag(armed)})
}

// LinkWord is the craft's judgement of the link in one word.
func LinkWord(p facts.Phase) words.Text {
	code := codes.Link(p)
	return known(code, words.Of("link-word", code))
}

// groups are the code words of who cures refusals.
var groups = [...]string{facts.InHand: "hand", facts.OnLink: "link", facts.AtCraft: "craft"}

// Group is the heading over the refusals that the same hands cure, in one word.
func Group(g facts.Group) words.Text { return words.Of("group.word", groups[g]) }

// WhoCures is that heading in full.
func WhoCures(g facts.Group) words.Text { return words.Of("group.where", groups[g]) }

// OnLoss is what a receiver does when the radio goes silent, in our words, and the trade's word for it. It follows "the receiver".
func OnLoss(o facts.OnLoss) (ours, trade words.Text) {
	code := codes.OnLoss(o)
	return known(code, words.Of("receiver", code)), known(code, words.Of("receiver", code+"-trade"))
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

// jobSaid is a job's name inside a sentence.
func jobSaid(job string) words.Text {
	switch job {
	case "arm", "second", "mode":
		return words.Of("job-said", job)
	}
	return JobName(job)
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

// stickJobs are the code words of the directions of a gesture.
var stickJobs = [gestures.Directions]string{gestures.Throttle: "throttle", gestures.Roll: "roll", gestures.Pitch: "pitch", gestures.Yaw: "yaw"}

// JobDirection names a direction of a gesture by its job.
func JobDirection(d int) words.Text { return JobName(stickJobs[d&3]) }

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

// ControlName is what a person calls a control: "throttle", "arm switch", "channel 7 switch", with the pilot's own name for it.
func ControlName(c *handset.Control) words.Text {
	name := JobName(c.Job)
	switch c.Kind {
	case handset.Switch:
		name = SwitchOfJob(c.Job)
	case handset.Knob:
		name = words.T("control.knob", words.Args{"job": name})
	}
	switch {
	case c.Tutors && c.Kind == handset.Switch && numbered(c.Job):
		name = words.T("control.tutors-numbered", words.Args{"channel": JobName(c.Job)})
	case c.Tutors:
		name = words.T("control.tutors", words.Args{"name": name})
	}
	if c.Called != "" && c.Called != c.Job {
		name = words.T("control.called", words.Args{"name": name, "called": words.Quote(c.Called)})
	}
	return name
}

// numbered reports whether a control has no job but the number of its channel.
func numbered(job string) bool { return strings.HasPrefix(job, "channel ") }

// SwitchOfJob is what the switch of a job is called.
func SwitchOfJob(job string) words.Text {
	switch {
	case job == "arm":
		return words.T("control.arm-switch")
	case job == "mode":
		return words.T("control.mode-switch")
	case job == "second":
		return words.T("control.second-switch")
	case numbered(job):
		return words.T("control.channel-switch", words.Args{"channel": JobName(job)})
	}
	return words.T("control.switch", words.Args{"job": JobName(job)})
}

// ControlAt says where a control stands: a switch by its position, a stick by direction, each with its width.
func ControlAt(c *handset.Control, position int, w pulse.Width) words.Text {
	place := controlPlace(c, position, w)
	if !w.Valid() {
		return words.T("control.at-no-pulse", words.Args{"place": place})
	}
	return words.T("control.at", words.Args{"place": place, "width": Micros(w)})
}

// controlPlace says where a control stands, without its width.
func controlPlace(c *handset.Control, position int, w pulse.Width) words.Text {
	if c.Kind == handset.Switch {
		return PositionWord(position, len(c.Positions))
	}
	return stickWord(c, w)
}

// PositionWord names position i (from 0) of a switch with n positions, from the low end.
func PositionWord(i, n int) words.Text {
	switch {
	case i < 0 || i >= n:
		return words.T("control.somewhere")
	case n <= 3 && i == 0:
		return words.T("control.low")
	case n <= 3 && i == n-1:
		return words.T("control.high")
	case n == 3:
		return words.T("control.middle")
	}
	return words.T("control.position", words.Args{"i": words.Whole(i + 1), "n": words.Whole(n)})
}

// ends are the code words of a control's low and high end, by its job (common practice: the signs of the four stick channels).
func ends(job string) (low, high string) {
	switch job {
	case "throttle":
		return "down", "up"
	case "roll", "yaw":
		return "left", "right"
	case "pitch":
		return "back", "forward"
	}
	return "low", "high"
}

// stickWord says where a stick or knob stands in the words of the hand.
func stickWord(c *handset.Control, w pulse.Width) words.Text {
	l, h := ends(c.Job)
	switch low, high := words.Of("control.end", l), words.Of("control.end", h); {
	case w <= c.Low:
		return words.T("control.fully", words.Args{"end": low})
	case w >= c.High:
		return words.T("control.fully", words.Args{"end": high})
	case w == c.Rest:
		return words.T("control.at-rest")
	case w < pulse.Centre-pulse.Travel/8:
		return words.T("control.mostly", words.Args{"end": low})
	case w > pulse.Centre+pulse.Travel/8:
		return words.T("control.mostly", words.Args{"end": high})
	}
	return words.T("control.in-middle")
}

// spanInto says where a switch must go to stand inside a span: "to 1700 µs or above".
func spanInto(span layout.Span) words.Text {
	if span.Low > pulse.Lowest && span.High >= pulse.Highest {
		return words.T("span.to-above", words.Args{"low": Exact(span.Low)})
	}
	return spanReads(span)
}

// spanStands is spanInto, said of a switch that is there already: "at 1700 µs or above".
func spanStands(span layout.Span) words.Text {
	if span.Low > pulse.Lowest && span.High >= pulse.Highest {
		return words.T("span.at-above", words.Args{"low": Exact(span.Low)})
	}
	return spanReads(span)
}

// spanReads says what must be read inside a span: "1700 µs or above".
func spanReads(span layout.Span) words.Text {
	switch {
	case span.Low <= pulse.Lowest:
		return words.T("span.below", words.Args{"high": Exact(span.High)})
	case span.High >= pulse.Highest:
		return words.T("span.above", words.Args{"low": Exact(span.Low)})
	}
	return words.T("span.between", words.Args{"low": Exact(span.Low), "high": Exact(span.High)})
}

// spanOutside says what must be read outside a span, and spanStandsOutside where a switch stands then.
func spanOutside(span layout.Span) words.Text {
	switch {
	case span.High >= pulse.Highest:
		return words.T("span.below", words.Args{"high": Exact(span.Low)})
	case span.Low <= pulse.Lowest:
		return words.T("span.above", words.Args{"low": Exact(span.High)})
	}
	return words.T("span.outside", words.Args{"low": Exact(span.Low), "high": Exact(span.High)})
}

func spanStandsOutside(span layout.Span) words.Text {
	if span.Low <= pulse.Lowest && span.High < pulse.Highest {
		return words.T("span.at-above", words.Args{"low": Exact(span.High)})
	}
	return spanOutside(span)
}

// channelReads says what a channel carries, as a clause: "channel 5 reads 2012 µs".
func channelReads(s *sim.Snapshot, channel int8) words.Text {
	if channel == layout.NoChannel {
		return words.T("reading.no-channel")
	}
	name, w := ChannelNumber(int(channel)), s.Received[channel]
	if !w.Valid() {
		return carriesNoPulse(name, w)
	}
	return words.T("reading.width", words.Args{"channel": name, "width": Micros(w)})
}

// carriesNoPulse says why the width of a channel is no pulse, as a clause.
func carriesNoPulse(channel words.Text, w pulse.Width) words.Text {
	if w == pulse.Missing {
		return words.T("reading.no-pulse", words.Args{"channel": channel})
	}
	return words.T("reading.bad-pulse", words.Args{"channel": channel, "width": Micros(w), "low": Micros(pulse.Lowest), "high": Micros(pulse.Highest)})
}

// missing names the first channels of the mask that carry no valid pulse, as a clause: "channel 5 (arm) carries no pulse". It says nothing
// where all carry one.
func missing(s *sim.Snapshot, cfg *sim.Config, mask uint16) words.Text {
	var names []words.Text
	var last pulse.Width
	for c := range pulse.Channels {
		if w := s.Received[c]; mask>>c&1 == 1 && !w.Valid() {
			names, last = append(names, Channel(&cfg.Layout, c)), w
		}
	}
	switch len(names) {
	case 0:
		return words.Text{}
	case 1:
		return carriesNoPulse(names[0], last)
	}
	return words.T("reading.several", words.Args{"channels": words.And(names...)})
}

// sinks says how this craft sinks: "level, carrying at most 95 % of its weight".
func sinks(cfg *sim.Config) words.Text {
	return words.T("state.sinks", words.Args{"share": Tenths(int64(cfg.Flight.SinkCarries))})
}
