package layout

import (
	"maps"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// has tells whether a switch has the job of a kind.
func has(s *switches.Switch, k switches.Kind) bool {
	return slices.ContainsFunc(s.Jobs, func(j switches.Job) bool { return j.Kind == k })
}

// mayMove reports whether a job can be given to another switch: not where the radio file calls a control by its name, for
// that control would follow it.
func (p *part) mayMove(name string) bool { return !p.named[name] }

// offer is a key of the sheet by its code word; the hit area is called by that too.
func offer(key, code string, do func()) Key {
	return Key{key, "layout-" + code, tell.LayoutKey(code, "", false), do}
}

// doing are the keys that act on the chosen position.
func (p *part) doing() (out []Key) {
	s, n := p.lever(), len(p.facts.Switches)
	if n > 1 {
		beside := func(by int) func() {
			return func() { p.channel = p.facts.Switches[(p.index()+by)%n].Channel }
		}
		out = append(out, offer("Left", "before", beside(n-1)), offer("Right", "after", beside(1)))
	}
	if s != nil && len(s.Positions) > 1 {
		out = append(out, offer("Up", "above", func() { p.At++; p.hold() }), offer("Down", "below", func() { p.At--; p.hold() }))
	}
	if s != nil && len(s.Positions) > 0 {
		out = append(out, p.jobs(s)...)
	}
	if len(p.undo) > 0 {
		out = append(out, offer("Backspace", "undo", p.undone))
	}
	if p.unsaved() {
		out = append(out, offer("Enter", "save", func() { p.save() }))
	}
	return out
}

// modeKeys are the keys that give a position a mode.
var modeKeys = [layout.Modes]string{layout.Angle: "BracketLeft", layout.Horizon: "BracketRight", layout.Rate: "Backslash"}

// jobs are the keys that give the chosen position of a switch a job, or take it from there.
func (p *part) jobs(s *switches.Switch) (out []Key) {
	at := &s.Positions[p.At]
	turn := func(key, code, word, name string, on bool, k switches.Kind, index int) {
		out = append(out, Key{key, "layout-" + code, tell.LayoutKey(word, name, on), func() { p.turn(k, index) }})
	}
	if has(s, switches.Arm) || p.mayMove("arm") {
		turn("Semicolon", "arm", "arm", "", at.Arm == layout.Inside, switches.Arm, 0)
	}
	if has(s, switches.Mode) || p.mayMove("mode") {
		for m, key := range modeKeys {
			m := layout.Mode(m)
			out = append(out, Key{key, "layout-mode-" + codes.Mode(m), tell.Mode(m), func() { p.mode(m) }})
		}
	}
	if has(s, switches.Second) || p.mayMove("second") {
		turn("Quote", "second", "second", "", at.Second == layout.Inside, switches.Second, 0)
	}
	for i, j := range p.facts.Jobs {
		if key := strconv.Itoa(i + 1); i < 9 && (j.Channel == s.Channel || p.mayMove(j.Name)) {
			turn(key, "job-"+key, "job", j.Name, slices.Contains(at.On, i), switches.Named, i)
		}
	}
	out = append(out, offer("0", "new", p.writeName))
	if len(p.spans(s)) > 0 {
		out = append(out, offer("Insert", "type", func() { p.writeSpan(p.spanHere()) }))
	}
	return out
}

// choices are those of the craft as a whole.
func (p *part) choices() []Choice {
	loss, sinks := p.cfg.Link.OnLoss, 0
	if p.cfg.Arming.SinkSlots > 0 {
		sinks = 1
	}
	one := func(i int, key, code string, options, taken int, take func(option int)) Choice {
		next := func() { take((taken + 1) % options) }
		c := Choice{Key: Key{key, "layout-" + code, words.T([...]words.ID{"layout.choice-arming", "layout.choice-receiver", "layout.choice-loss"}[i]), next}, Options: make([]words.Text, options), Taken: taken, take: take}
		for o := range c.Options {
			c.Options[o] = tell.LayoutOption(i, o)
		}
		return c
	}
	return []Choice{
		one(0, "Comma", "method", 2, int(p.cfg.Arming.By), func(int) { p.take(p.otherMethod()) }),
		one(1, "Period", "receiver", int(facts.SendsStored)+1, int(loss), func(o int) { p.take(p.file.SetReceiver(facts.OnLoss(o))) }),
		one(2, "Slash", "loss", 2, sinks, func(o int) { p.take(p.file.SetLossAction(o > 0)) }),
	}
}

// press does what a key is for.
func (p *part) press(k Key) {
	p.Said, p.stale = words.Text{}, true
	p.hold() // keys may come faster than pictures
	k.do()
}

// undone goes back by one change.
func (p *part) undone() {
	if n := len(p.undo); n > 0 {
		p.file, p.undo, p.Said = p.undo[n-1], p.undo[:n-1], tell.LayoutNo("undone")
	}
}

// take makes a change count, or says why it cannot be.
func (p *part) take(f *craftfile.File, err error) bool {
	if err != nil {
		p.Said = tell.LayoutRefused(err)
		return false
	}
	if f == nil {
		return false
	}
	p.undo = append(p.undo, p.file)
	if n := len(p.undo); n > mostUndo {
		p.undo = slices.Delete(p.undo, 0, n-mostUndo)
	}
	p.file, p.stale = f, true
	return true
}

// mostUndo bounds what is kept to go back to (ours).
const mostUndo = 500

// here says that of the positions of a switch only the chosen one is wanted.
func (p *part) here(s *switches.Switch) []bool {
	want := make([]bool, len(s.Positions))
	want[p.At] = true
	return want
}

// turn gives a job to the chosen position, or takes it from there; a switch that does not have the job yet gets it from where it was. For named
// jobs index tells which.
func (p *part) turn(k switches.Kind, index int) {
	s := p.lever()
	want, name := p.here(s), ""
	if k == switches.Named {
		name = p.facts.Jobs[index].Name
	}
	for i := range s.Positions {
		q := &s.Positions[i]
		holds := [...]bool{switches.Arm: q.Arm == layout.Inside, switches.Second: q.Second == layout.Inside, switches.Named: slices.Contains(q.On, index)}[k]
		want[i] = holds != want[i]
	}
	spans := switches.Touching(s.Positions, want)
	if len(spans) > 1 && k != switches.Named { // the craft file has one span for these
		spans = switches.Touching(s.Positions, p.here(s))
	}
	switch {
	case len(spans) > 0:
		p.take(p.withSpans(s, k, name, spans))
	case k == switches.Arm:
		p.Said = tell.LayoutNo("only-arm")
	case k == switches.Second:
		p.take(p.file.SetChannel("second", layout.NoChannel))
	default: // a named job that is on nowhere any more goes
		p.take(p.file.RemoveJob(name))
	}
}

// withSpans is the craft with other spans of a job, on a switch.
func (p *part) withSpans(s *switches.Switch, k switches.Kind, name string, spans []layout.Span) (*craftfile.File, error) {
	switch k {
	case switches.Arm:
		return p.file.SetArm(s.Channel, spans[0])
	case switches.Second:
		return p.file.SetSecond(s.Channel, spans[0])
	}
	return p.file.SetJob(craftfile.Job{Name: name, Channel: s.Channel, Spans: spans})
}

// mode gives the chosen position a mode.
func (p *part) mode(m layout.Mode) {
	s := p.lever()
	modes := make([]layout.Mode, len(s.Positions)) // angle, where the switch had no mode yet
	if has(s, switches.Mode) {
		for i := range s.Positions {
			modes[i] = s.Positions[i].Mode
		}
	}
	modes[p.At] = m
	p.take(p.file.SetModes(s.Channel, switches.Modes(s.Positions, modes)))
}

// used tells whether the craft has something on a channel.
func (p *part) used(c int8) bool {
	return slices.Contains(slices.Collect(maps.Values(p.file.Names().Channel)), int(c))
}

// switchBefore is the craft as it was when a switch armed it last, nil where that cannot come back: never so far, or another job has the
// channel now, or another switch is chosen to arm. now: nothing else was changed since.
func (p *part) switchBefore(s *switches.Switch) (was *craftfile.File, now bool) {
	for i := len(p.undo) - 1; i >= 0; i-- {
		cfg := p.undo[i].Config()
		if facts.BySticks(&cfg) {
			continue
		}
		arm := cfg.Layout.Arm
		if p.used(arm) || s != nil && len(s.Jobs) == 0 && s.Channel != arm {
			return nil, false
		}
		return p.undo[i], i == len(p.undo)-1
	}
	return nil, false
}

// otherMethod changes the arming method. The switch that armed before arms again, as it did; else a switch that is to arm is the
// chosen one where it has no job, else the lowest channel that nobody uses.
func (p *part) otherMethod() (*craftfile.File, error) {
	s := p.lever()
	if !facts.BySticks(&p.cfg) {
		return p.file.SetArming(facts.ArmsBySticks, layout.NoChannel)
	}
	channel := int8(layout.NoChannel)
	was, now := p.switchBefore(s)
	if was != nil {
		channel = was.Config().Layout.Arm
	}
	if now {
		p.channel = channel
		return was, nil
	}
	if channel == layout.NoChannel && s != nil && len(s.Jobs) == 0 && p.mayMove("arm") {
		channel = s.Channel
	}
	for c := int8(0); c < pulse.Channels && channel == layout.NoChannel; c++ {
		if p.radio.On(c) == nil && !p.used(c) {
			channel = c
		}
	}
	if channel == layout.NoChannel {
		p.Said = tell.LayoutNo("no-arm")
		return nil, nil
	}
	f, err := p.file.SetArming(facts.ArmsBySwitch, channel)
	if err == nil && was != nil && f.Config().Layout.ArmSpan != was.Config().Layout.ArmSpan {
		f, err = f.SetArm(channel, was.Config().Layout.ArmSpan)
	}
	if err == nil {
		p.channel = channel
	}
	return f, err
}

// spanOf is one span of a switch: which job's and which of its spans.
type spanOf struct{ job, span int }

// spans are all spans on a switch's channel.
func (p *part) spans(s *switches.Switch) (out []spanOf) {
	for i := range s.Jobs {
		for n := range s.Jobs[i].Spans {
			out = append(out, spanOf{i, n})
		}
	}
	return out
}

// spanHere is the span that holds the chosen position, else the first.
func (p *part) spanHere() int {
	s := p.lever()
	for i, at := range p.spans(s) {
		if s.Jobs[at.job].Spans[at.span].Contains(s.Positions[p.At].Width) {
			return i
		}
	}
	return 0
}
