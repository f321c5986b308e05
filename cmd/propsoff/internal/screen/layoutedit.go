package screen

import (
	"slices"
	"strconv"
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim/craftfile"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// job is the job of a kind on a switch; nil for none. For named ones index tells which.
func job(s *switches.Switch, k switches.Kind, index int) *switches.Job {
	for i := range s.Jobs {
		if s.Jobs[i].Kind == k && (k != switches.Named || s.Jobs[i].Index == index) {
			return &s.Jobs[i]
		}
	}
	return nil
}

// mayMove reports whether a job can be given to another switch: not where the radio file calls a control by its name, for
// that control would follow it.
func (p *layoutPart) mayMove(name string) bool { return !p.named[name] }

func layoutKey(key, code, name string, on bool) sheet.LayoutKey {
	word, _, _ := strings.Cut(code, " ")
	return sheet.LayoutKey{Key: key, Code: "layout-" + strings.ReplaceAll(code, " ", "-"), Words: phrase.LayoutKey(word, name, on)}
}

// doing are the keys that act on the chosen position.
func (p *layoutPart) doing() (out []sheet.LayoutKey) {
	s := p.lever()
	out = append(out, p.steps()...)
	if s != nil && len(s.Positions) > 0 {
		at := &s.Positions[p.at]
		if job(s, switches.Arm, 0) != nil || p.mayMove("arm") {
			out = append(out, layoutKey("A", "arm", "", at.Arm == layout.Inside))
		}
		if job(s, switches.Mode, 0) != nil || p.mayMove("mode") {
			for m, key := range [...]string{layout.Angle: "G", layout.Horizon: "H", layout.Rate: "R"} {
				k := layoutKey(key, "mode", "", false)
				k.Code, k.Words = "layout-mode-"+phrase.Mode(layout.Mode(m)), phrase.Mode(layout.Mode(m))
				out = append(out, k)
			}
		}
		if job(s, switches.Second, 0) != nil || p.mayMove("second") {
			out = append(out, layoutKey("S", "second", "", at.Second == layout.Inside))
		}
		for i, j := range p.facts.Jobs {
			if i < 9 && (j.Channel == s.Channel || p.mayMove(j.Name)) {
				out = append(out, layoutKey(strconv.Itoa(i+1), "job "+strconv.Itoa(i+1), j.Name, slices.Contains(at.On, i)))
			}
		}
		out = append(out, layoutKey("N", "new", "", false))
		if len(p.spans(s)) > 0 {
			out = append(out, layoutKey("E", "type", "", false))
		}
	}
	if len(p.undo) > 0 {
		out = append(out, layoutKey("Z", "undo", "", false))
	}
	if p.unsaved() {
		out = append(out, layoutKey("Enter", "save", "", false))
	}
	return out
}

// steps are the keys that choose.
func (p *layoutPart) steps() (out []sheet.LayoutKey) {
	if len(p.facts.Switches) > 1 {
		out = append(out, layoutKey("Left", "before", "", false), layoutKey("Right", "after", "", false))
	}
	if s := p.lever(); s != nil && len(s.Positions) > 1 {
		out = append(out, layoutKey("Up", "above", "", false), layoutKey("Down", "below", "", false))
	}
	return out
}

// choices are those of the craft as a whole.
func (p *layoutPart) choices() []sheet.LayoutChoice {
	sinks := 0
	if p.cfg.Arming.SinkSlots > 0 {
		sinks = 1
	}
	out := make([]sheet.LayoutChoice, 3)
	for i, c := range [...]struct {
		key, code    string
		taken, count int
	}{{"M", "layout-method", int(p.cfg.Arming.By), 2}, {"V", "layout-receiver", int(p.cfg.Link.OnLoss), 3}, {"L", "layout-loss", sinks, 2}} {
		out[i] = sheet.LayoutChoice{LayoutKey: sheet.LayoutKey{Key: c.key, Code: c.code, Words: phrase.LayoutChoice(i)}, Taken: c.taken}
		for o := range c.count {
			out[i].Options = append(out[i].Options, phrase.LayoutOption(i, o))
		}
	}
	return out
}

// do does what a key or a hit area stands for.
func (p *layoutPart) do(code string) {
	p.said, p.stale = "", true
	if p.file == nil {
		p.said = phrase.LayoutNo("no-craft")
		return
	}
	s := p.lever()
	switch code {
	case "layout-before", "layout-after":
		n := len(p.facts.Switches)
		step := 1
		if code == "layout-before" {
			step = n - 1
		}
		p.channel = p.facts.Switches[(p.index()+step)%n].Channel
		return
	case "layout-above", "layout-below":
		if s != nil && code == "layout-above" {
			p.at = min(p.at+1, len(s.Positions)-1)
		} else {
			p.at = max(p.at-1, 0)
		}
		return
	case "layout-undo":
		if n := len(p.undo); n > 0 {
			p.file, p.undo = p.undo[n-1], p.undo[:n-1]
			p.said = phrase.LayoutNo("undone")
		}
		return
	case "layout-save":
		p.save()
		return
	case "layout-method":
		p.take(p.otherMethod(s))
		return
	case "layout-receiver":
		p.take(p.file.SetReceiver((p.cfg.Link.OnLoss + 1) % (facts.SendsStored + 1)))
		return
	case "layout-loss":
		p.take(p.file.SetLossAction(p.cfg.Arming.SinkSlots == 0))
		return
	}
	if s == nil || len(s.Positions) == 0 {
		p.said = phrase.LayoutNo("no-position")
		return
	}
	switch code {
	case "layout-arm":
		p.arm(s)
	case "layout-second":
		p.second(s)
	case "layout-mode-angle", "layout-mode-horizon", "layout-mode-rate":
		p.mode(s, map[string]layout.Mode{"angle": layout.Angle, "horizon": layout.Horizon, "rate": layout.Rate}[code[len("layout-mode-"):]])
	case "layout-new":
		p.typing, p.typed = typingName, ""
	case "layout-type":
		p.typing, p.typed, p.span = typingSpan, "", p.spanHere(s)
	default:
		if n, err := strconv.Atoi(strings.TrimPrefix(code, "layout-job-")); err == nil && n >= 1 && n <= len(p.facts.Jobs) {
			p.named1(s, n-1)
		}
	}
}

// take makes a change count, or says why it cannot be.
func (p *layoutPart) take(f *craftfile.File, err error) bool {
	if err != nil {
		p.said = phrase.LayoutRefused(err)
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

// only says that one position of n is wanted.
func only(n, at int) []bool {
	want := make([]bool, n)
	want[at] = true
	return want
}

// turned is which positions a job holds at, with the chosen one turned over; any is false where none is left.
func (p *layoutPart) turned(s *switches.Switch, holds func(*switches.Position) bool) (want []bool, any bool) {
	want = make([]bool, len(s.Positions))
	for i := range s.Positions {
		want[i] = holds(&s.Positions[i]) != (i == p.at)
		any = any || want[i]
	}
	return want, any
}

func (p *layoutPart) arm(s *switches.Switch) {
	want, any := only(len(s.Positions), p.at), true
	if job(s, switches.Arm, 0) != nil {
		want, any = p.turned(s, func(q *switches.Position) bool { return q.Arm == layout.Inside })
	}
	if !any {
		p.said = phrase.LayoutNo("only-arm")
		return
	}
	spans := switches.Touching(s.Positions, want)
	if len(spans) > 1 { // the craft file has one arm span
		spans = switches.Touching(s.Positions, only(len(s.Positions), p.at))
	}
	p.take(p.file.SetArm(s.Channel, spans[0]))
}

func (p *layoutPart) second(s *switches.Switch) {
	want, any := only(len(s.Positions), p.at), true
	if job(s, switches.Second, 0) != nil {
		want, any = p.turned(s, func(q *switches.Position) bool { return q.Second == layout.Inside })
	}
	if !any {
		p.take(p.file.SetChannel("second", layout.NoChannel))
		return
	}
	spans := switches.Touching(s.Positions, want)
	if len(spans) > 1 {
		spans = switches.Touching(s.Positions, only(len(s.Positions), p.at))
	}
	p.take(p.file.SetSecond(s.Channel, spans[0]))
}

func (p *layoutPart) mode(s *switches.Switch, m layout.Mode) {
	modes := make([]layout.Mode, len(s.Positions)) // angle, where the switch had no mode yet
	if job(s, switches.Mode, 0) != nil {
		for i := range s.Positions {
			modes[i] = s.Positions[i].Mode
		}
	}
	modes[p.at] = m
	p.take(p.file.SetModes(s.Channel, switches.Modes(s.Positions, modes)))
}

// named1 turns a named job on or off at the chosen position; one that is on nowhere any more goes.
func (p *layoutPart) named1(s *switches.Switch, index int) {
	j := p.facts.Jobs[index]
	want, any := only(len(s.Positions), p.at), true
	if job(s, switches.Named, index) != nil {
		want, any = p.turned(s, func(q *switches.Position) bool { return slices.Contains(q.On, index) })
	}
	if !any {
		p.take(p.file.RemoveJob(j.Name))
		return
	}
	p.take(p.file.SetJob(craftfile.Job{Name: j.Name, Channel: s.Channel, Spans: switches.Touching(s.Positions, want)}))
}

// switchBefore is the craft as it was when a switch armed it last, nil where that cannot come back: never so far, or another job has the
// channel now, or another switch is chosen to arm. now: nothing else was changed since.
func (p *layoutPart) switchBefore(s *switches.Switch) (was *craftfile.File, now bool) {
	for i := len(p.undo) - 1; i >= 0; i-- {
		cfg := p.undo[i].Config()
		if facts.BySticks(&cfg) {
			continue
		}
		arm := cfg.Layout.Arm
		for _, c := range p.file.Names().Channel {
			if c == int(arm) {
				return nil, false
			}
		}
		if s != nil && len(s.Jobs) == 0 && s.Channel != arm {
			return nil, false
		}
		return p.undo[i], i == len(p.undo)-1
	}
	return nil, false
}

// otherMethod changes the arming method. The switch that armed before arms again, as it did; else a switch that is to arm is the
// chosen one where it has no job, else the lowest channel that nobody uses.
func (p *layoutPart) otherMethod(s *switches.Switch) (*craftfile.File, error) {
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
	used := p.file.Names().Channel
	for c := int8(0); c < pulse.Channels && channel == layout.NoChannel; c++ {
		taken := p.radio.On(c) != nil
		for _, u := range used {
			taken = taken || u == int(c)
		}
		if !taken {
			channel = c
		}
	}
	if channel == layout.NoChannel {
		p.said = phrase.LayoutNo("no-arm")
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

// place is one span of a switch: which job's and which of its spans.
type place struct{ job, span int }

// spans are all spans on a switch's channel.
func (p *layoutPart) spans(s *switches.Switch) (out []place) {
	for i := range s.Jobs {
		for n := range s.Jobs[i].Spans {
			out = append(out, place{i, n})
		}
	}
	return out
}

// spanHere is the span that holds the chosen position, else the first.
func (p *layoutPart) spanHere(s *switches.Switch) int {
	for i, at := range p.spans(s) {
		if s.Jobs[at.job].Spans[at.span].Contains(s.Positions[p.at].Width) {
			return i
		}
	}
	return 0
}
