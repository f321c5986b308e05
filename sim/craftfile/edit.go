package craftfile

import (
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// This file changes a craft file in the terms of its layout. Each change gives a new File, whose Text is the old one with
// just that change: order, spaces and comments stay. The text has been read again before it counts: a change that would make
// a bad file is refused with the reader's own words (words.Problems). The File that is changed stays as it is.

// The usual order of the fields, for new ones.
var (
	fieldOrder   = []string{"propsoff", "name", "receiver", "link", "channels", "arming", "second-switch", "modes", "jobs", "motors", "body", "control", "camera"}
	armingOrder  = []string{"by", "on", "low-throttle", "arm-dwell", "disarm-dwell", "only-self-levelling", "tilt-limit", "still-time", "pack-limit", "camera-menu"}
	modeNames    = pulse.ModeCodes()
	modeOrder    = append([]string{"always"}, modeNames...)
	receiverWays = map[link.OnLoss]string{link.FallsSilent: "falls-silent", link.RepeatsLast: "repeats-last", link.SendsStored: "sends-stored"}
	groupOrder   = map[string][]string{"channels": benchJobs, "arming": armingOrder, "modes": modeOrder,
		"receiver": {"when-silent", "frame-every", "frame-delay", "frame-jitter", "frames-lost", "chance", "stored"}, "link": {"silence-limit", "clean-time", "when-lost", "sink-time", "sink-carries"},
		"camera": {"tilt", "view"}, "motors": {"at-low-throttle", "idle-speed", "air-mode-in", "air-mode-wakes-at"}}
)

// change collects edits of one text; after the first error it does nothing more.
type change struct {
	of   *File
	path string
	text []byte
	err  error
}

func (f *File) change() *change { return &change{of: f, path: f.path, text: f.Text} }

func (c *change) set(v yamldoc.Inline, path ...string) {
	if c.err == nil {
		c.text, c.err = yamldoc.Set(c.path, c.text, path, v, fieldOrder, groupOrder[path[0]])
	}
}

func (c *change) drop(path ...string) {
	if c.err == nil {
		c.text, c.err = yamldoc.Delete(c.path, c.text, path...)
	}
}

// at is the node at a path of the text as it is now; a missing one where there is none.
func (c *change) at(path ...string) yamldoc.Node {
	doc, err := yamldoc.Parse(c.path, c.text)
	if err != nil {
		return yamldoc.Node{}
	}
	n := doc.Root()
	for _, word := range path {
		if !n.IsMap() {
			return yamldoc.Node{}
		}
		n = n.Map("yaml.group").Opt(word)
	}
	return n
}

// spans writes one span, in place where one stands there, or a list of them.
func (c *change) spans(all []layout.Span, path ...string) {
	if len(all) == 1 && c.at(path...).IsMap() {
		c.set(micros(all[0].Low), append(slices.Clone(path), "from")...)
		c.set(micros(all[0].High), append(slices.Clone(path), "to")...)
		return
	}
	list := make([]yamldoc.Inline, len(all))
	for i, s := range all {
		list[i] = spanOf(s)
	}
	if len(all) == 1 {
		c.set(list[0], path...)
		return
	}
	c.set(yamldoc.InlineList(list...), path...)
}

func (c *change) done() (*File, error) {
	if c.err != nil {
		return nil, c.err
	}
	f, err := Parse(c.path, c.text)
	if err == nil {
		f.Learn(c.of.cfg.Gestures, c.of.cfg.Menus)
	}
	return f, err
}

// spanOf writes a span.
func spanOf(s layout.Span) yamldoc.Inline {
	return yamldoc.InlineGroup(yamldoc.InlineField{Name: "from", Value: micros(s.Low)}, yamldoc.InlineField{Name: "to", Value: micros(s.High)})
}

// micros writes a width in µs with as many decimals as it needs.
func micros(w pulse.Width) yamldoc.Inline {
	s := strconv.Itoa(int(w) / pulse.Eighths)
	if part := int(w) % pulse.Eighths; part != 0 {
		s += "." + strings.TrimRight(strconv.Itoa(1000 + part*125)[1:], "0")
	}
	return yamldoc.InlineValue(s)
}

func number(n int8) yamldoc.Inline { return yamldoc.InlineValue(strconv.Itoa(int(n) + 1)) }

// channel gives a job of the bench its channel (from 0).
func (c *change) channel(job string, channel int8) {
	c.set(number(channel), "channels", job)
}

// SetArm lets a channel (from 0) arm the craft within a span; a craft armed by sticks is armed by this switch from then on.
func (f *File) SetArm(channel int8, on layout.Span) (*File, error) {
	c := f.change()
	if f.cfg.Arming.By == arming.BySticks {
		c.bySwitch(channel)
		c.storeArm(f, on)
	} else if f.cfg.Layout.Arm != channel {
		c.channel("arm", channel)
	}
	c.spans([]layout.Span{on}, "arming", "on")
	return c.done()
}

// SetSecond makes a channel (from 0) the second switch, on within a span.
func (f *File) SetSecond(channel int8, on layout.Span) (*File, error) {
	c := f.change()
	if f.cfg.Layout.Second != channel {
		c.channel("second", channel)
	}
	c.spans([]layout.Span{on}, "second-switch", "on")
	return c.done()
}

// SetModes gives the flight modes all their spans on a channel (from 0). A mode that is not among them is never flown, except
// rate, which is flown where no span matches.
func (f *File) SetModes(channel int8, all []layout.ModeSpan) (*File, error) {
	c := f.change()
	if f.cfg.Layout.Mode != channel {
		c.channel("mode", channel)
	}
	for m, name := range modeNames {
		var spans []layout.Span
		for _, s := range all {
			if s.Mode == layout.Mode(m) {
				spans = append(spans, s.Span)
			}
		}
		if len(spans) > 0 {
			c.spans(spans, "modes", name)
		}
	}
	for m, name := range modeNames {
		if !slices.ContainsFunc(all, func(s layout.ModeSpan) bool { return s.Mode == layout.Mode(m) }) {
			c.drop("modes", name)
		}
	}
	c.drop("modes", "always")
	return c.done()
}

// SetArming changes the arming method. channel (from 0) carries the arm switch from then on; by sticks it is not used. An arm span with
// a comment beside it stays as a comment by sticks, and counts again by switch.
func (f *File) SetArming(by arming.By, channel int8) (*File, error) {
	c := f.change()
	if by == arming.BySwitch {
		c.bySwitch(channel)
		return c.done()
	}
	c.set(yamldoc.InlineWord("sticks"), "arming", "by")
	c.drop("channels", "arm")
	c.drop("receiver", "stored", "arm")
	text := c.text
	c.drop("arming", "on")
	c.rather(text, spanLine, "$1# $2", func(got *File) bool {
		if c.err != nil || !c.means(got) {
			return false
		}
		c.text = got.Text
		return true
	})
	return c.done()
}

// spanLine is an arm span on one line with a comment beside it, silentSpan one that is a comment.
var (
	spanLine   = regexp.MustCompile(`(?m)^( +)(on: .*#)`)
	silentSpan = regexp.MustCompile(`(?m)^( +)# (on: .*#)`)
)

// bySwitch lets the switch on a channel arm, by the span that stands in a comment where one does.
func (c *change) bySwitch(channel int8) {
	c.set(yamldoc.InlineWord("switch"), "arming", "by")
	c.channel("arm", channel)
	c.storeArm(c.of, c.of.cfg.Layout.ArmSpan)
	if c.err != nil || c.at("arming", "on").Exists() {
		return
	}
	c.rather(c.text, silentSpan, "$1$2", func(got *File) bool {
		if !got.change().at("arming", "on").Exists() {
			return false
		}
		c.text = got.Text
		c.storeArm(c.of, got.cfg.Layout.ArmSpan)
		return true
	})
}

// rather takes text with one line changed: the first line whose change gives a file that is right.
func (c *change) rather(text []byte, line *regexp.Regexp, with string, right func(*File) bool) {
	for _, m := range line.FindAllSubmatchIndex(text, -1) {
		got := slices.Concat(text[:m[0]], line.Expand(nil, []byte(with), text, m), text[m[1]:])
		if f, err := Parse(c.path, got); err == nil && right(f) {
			return
		}
	}
}

// means reports whether a file says the same as the text as it now is.
func (c *change) means(got *File) bool {
	now, err := Parse(c.path, c.text)
	return err == nil && now.Config() == got.Config() && now.Name == got.Name && reflect.DeepEqual(now.more, got.more)
}

// storeArm adds a stored value for a new arm channel, outside its span, where the receiver sends stored values.
func (c *change) storeArm(f *File, on layout.Span) {
	if f.cfg.Link.OnLoss == link.SendsStored {
		c.set(micros(onOff(on)["off"]), "receiver", "stored", "arm")
	}
}

// SetLossAction says what the craft does on a lost link: sink, or cut.
func (f *File) SetLossAction(sink bool) (*File, error) {
	c := f.change()
	word := "cut"
	if sink {
		word = "sink"
	}
	c.set(yamldoc.InlineWord(word), "link", "when-lost")
	return c.done()
}

// SetReceiver says what the receiver does when the radio goes silent. Where it is to send stored values and the file has
// none, they are written as a pilot would want them: throttle low, sticks in the middle, the arm switch off. Where it no longer
// sends any, those in the file go.
func (f *File) SetReceiver(way link.OnLoss) (*File, error) {
	c := f.change()
	c.set(yamldoc.InlineWord(receiverWays[way]), "receiver", "when-silent")
	switch stored := c.at("receiver", "stored").Exists(); {
	case way != link.SendsStored && stored:
		c.drop("receiver", "stored")
	case way == link.SendsStored && !stored:
		fields := []yamldoc.InlineField{{Name: "throttle", Value: micros(pulse.Low)}}
		for _, job := range benchJobs[1:4] {
			fields = append(fields, yamldoc.InlineField{Name: job, Value: micros(pulse.Centre)})
		}
		if f.cfg.Layout.Arm != layout.NoChannel {
			fields = append(fields, yamldoc.InlineField{Name: "arm", Value: micros(onOff(f.cfg.Layout.ArmSpan)["off"])})
		}
		c.set(yamldoc.InlineGroup(fields...), "receiver", "stored")
	}
	return c.done()
}

// SetJob adds a named job, or changes the one of that name.
func (f *File) SetJob(j Job) (*File, error) {
	c := f.change()
	if !slices.ContainsFunc(f.more, func(o Job) bool { return o.Name == j.Name }) {
		fields := []yamldoc.InlineField{{Name: "channel", Value: number(j.Channel)}}
		c.set(yamldoc.InlineGroup(fields...), "jobs", j.Name)
	} else {
		c.set(number(j.Channel), "jobs", j.Name, "channel")
	}
	c.spans(j.Spans, "jobs", j.Name, "on")
	return c.done()
}

// RemoveJob takes a named job out, and what the receiver stores for it.
func (f *File) RemoveJob(name string) (*File, error) {
	c := f.change()
	c.drop("receiver", "stored", name)
	c.drop("jobs", name)
	return c.done()
}

// SetChannel gives a job, of the bench or named, another channel (from 0). layout.NoChannel takes the second switch or the
// mode switch away (the craft then always flies in angle); every other job must have a channel.
func (f *File) SetChannel(job string, channel int8) (*File, error) {
	c := f.change()
	named := slices.ContainsFunc(f.more, func(o Job) bool { return o.Name == job })
	switch {
	case named:
		c.set(number(channel), "jobs", job, "channel")
	case channel != layout.NoChannel:
		c.channel(job, channel)
	default:
		c.drop("receiver", "stored", job)
		c.drop("channels", job)
		if job == "second" {
			c.drop("second-switch")
		}
		if job == "mode" {
			c.set(yamldoc.InlineGroup(yamldoc.InlineField{Name: "always", Value: yamldoc.InlineWord("angle")}), "modes")
		}
	}
	return c.done()
}
