// Package craftfile is the craft file: what a craft does with each channel, read strictly from YAML.
package craftfile

import (
	"bytes"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/transit"
)

// Kind is the first line that every craft file carries: what it is, and its version.
const Kind = "craft 1"

// File is one craft file.
type File struct {
	// Name is what the craft is called.
	Name string
	// Text is the file as it was read.
	Text []byte

	cfg  sim.Config
	jobs map[string]int
	more []Job
	path string // as messages name it
}

// Config is the craft as the bench needs it.
func (f *File) Config() sim.Config { return f.cfg }

// Learn gives the craft its two-stick gestures and the menus that they open, nil for none; they stand in a file of their own.
func (f *File) Learn(g *gestures.Config, m *menu.Config) { f.cfg.Gestures, f.cfg.Menus = g, m }

// Parse reads a craft file, which messages call name. The error holds everything that is wrong, each fault with
// file:line:column and what to do (words.Problems).
func Parse(name string, data []byte) (*File, error) {
	return ParseOf(sim.Model, name, data)
}

// ParseOf is Parse for a file that was written for a model, this one or an older one: what it leaves out becomes what that model had by
// default.
func ParseOf(model int, name string, data []byte) (*File, error) {
	return read(defaults(model), name, data)
}

func read(cfg sim.Config, name string, data []byte) (*File, error) {
	doc, err := yamldoc.ParseAs("craft", name, data)
	if err != nil {
		return nil, err
	}
	d := decoder{f: &File{cfg: cfg, Text: bytes.Clone(data), path: name}}
	d.craft(doc.Root().Map("craft-file.craft"))
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return d.f, nil
}

// decoder walks one file. Times are kept until the frame period is known, then rounded up to slots.
type decoder struct {
	f *File

	silence, clean, sink, armDwell, disarmDwell, still time.Duration
	sinks                                              bool
	top                                                yamldoc.Node
	stored                                             yamldoc.Node
}

func (d *decoder) craft(m *yamldoc.Map) {
	cfg := &d.f.cfg
	m.Need("propsoff").Word(Kind)
	d.f.Name, _ = m.Need("name").Text()
	d.silence, d.clean, d.sink = 240*time.Millisecond, 1200*time.Millisecond, 4*time.Second
	d.armDwell, d.disarmDwell, d.still = 800*time.Millisecond, 400*time.Millisecond, 2*time.Second

	d.receiver(m.Opt("receiver"))
	d.link(m.Opt("link"))
	armingAt := m.Opt("arming")
	d.channels(m.Need("channels"), armsBySticks(armingAt))
	d.arming(armingAt)
	d.second(m.Opt("second-switch"))
	d.modes(m.Opt("modes"))
	d.more(m.Opt("jobs"))
	d.motors(m.Opt("motors"))
	d.top = m.Node()
	d.body(m.Opt("body"))
	d.control(m.Opt("control"))
	d.camera(m.Opt("camera"))
	m.Done()

	slots := func(t time.Duration) uint16 { return sim.Slots(int(t/time.Millisecond), cfg.SlotTicks) }
	cfg.Link.SilenceSlots, cfg.Link.CleanSlots = max(slots(d.silence), 1), slots(d.clean)
	cfg.Arming.ArmDwell, cfg.Arming.DisarmDwell, cfg.Arming.StillSlots = slots(d.armDwell), slots(d.disarmDwell), slots(d.still)
	cfg.Arming.SinkSlots = 0
	if d.sinks {
		cfg.Arming.SinkSlots = slots(d.sink)
	}
	d.storedValues()
	cfg.Link.Needed = cfg.Layout.Needed()
}

func (d *decoder) receiver(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("craft-file.receiver")
	cfg := &d.f.cfg
	if w, ok := m.Opt("when-silent").Word("falls-silent", "repeats-last", "sends-stored"); ok {
		cfg.Link.OnLoss = map[string]link.OnLoss{"falls-silent": link.FallsSilent, "repeats-last": link.RepeatsLast, "sends-stored": link.SendsStored}[w]
	}
	if t, ok := wholeMillis(m.Opt("frame-every"), 4*time.Millisecond, 50*time.Millisecond); ok {
		cfg.SlotTicks = uint16(t / time.Millisecond)
	}
	d.transit(m)
	d.stored = m.Opt("stored")
	if cfg.Link.OnLoss == link.SendsStored && !d.stored.Exists() {
		m.Node().Wrong("craft-file.no-stored")
	}
	m.Done()
}

// transit reads what becomes of frames on their way.
func (d *decoder) transit(m *yamldoc.Map) {
	c := &d.f.cfg.Transit
	for _, f := range []struct {
		name string
		to   *uint16
	}{{"frame-delay", &c.Delay}, {"frame-jitter", &c.Jitter}} {
		if t, ok := wholeMillis(m.Opt(f.name), 0, transit.Most*time.Millisecond); ok {
			*f.to = uint16(t / time.Millisecond)
		}
	}
	if v, ok := m.Opt("frames-lost").Fixed("%", transit.Certain/100, 0, transit.Certain/2); ok {
		c.Lost = uint16(v)
	}
	if v, ok := m.Opt("chance").Int(0, 1_000_000); ok {
		c.Seed = uint64(v)
	}
	if !c.Valid() {
		m.Node().Wrong("craft-file.frames-late", words.Args{"most": words.Whole(transit.Most)})
	}
}

func (d *decoder) link(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("craft-file.link")
	set(&d.silence, m.Opt("silence-limit"), 20*time.Millisecond, 5*time.Second)
	set(&d.clean, m.Opt("clean-time"), 0, 10*time.Second)
	set(&d.sink, m.Opt("sink-time"), 0, 30*time.Second)
	if v, ok := m.Opt("sink-carries").Fixed("%", 10, 0, 1000); ok {
		d.f.cfg.Flight.SinkCarries = uint16(v)
	}
	if w, ok := m.Opt("when-lost").Word("cut", "sink"); ok {
		d.sinks = w == "sink"
	}
	m.Done()
}

// armsBySticks looks ahead, without noting errors, because it decides which channels are needed.
func armsBySticks(n yamldoc.Node) bool {
	if !n.IsMap() {
		return false
	}
	for _, k := range n.Map("craft-file.arming").Keys() {
		if w, ok := k.Text(); ok && w == "by" {
			by := n.Map("craft-file.arming").Opt("by")
			if !by.IsScalar() {
				return false
			}
			w, _ := by.Text()
			return w == "sticks"
		}
	}
	return false
}

// channels reads which channel carries what; every job stands on a channel of its own.
func (d *decoder) channels(n yamldoc.Node, bySticks bool) {
	l := &d.f.cfg.Layout
	l.Arm, l.Second, l.Mode = layout.NoChannel, layout.NoChannel, layout.NoChannel
	m := n.Map("craft-file.channels")
	used := map[int]string{}
	d.f.jobs = map[string]int{}
	read := func(job string, v yamldoc.Node, to *int8) {
		c, ok := v.Int(1, pulse.Channels)
		if !ok {
			return
		}
		if other, taken := used[c]; taken {
			v.Wrong("craft-file.channel-twice", words.Args{"channel": words.Whole(c), "one": words.Quote(other), "other": words.Quote(job)})
			return
		}
		used[c] = job
		*to = int8(c - 1)
		d.f.jobs[job] = c - 1
	}
	read("throttle", m.Need("throttle"), &l.Throttle)
	read("roll", m.Need("roll"), &l.Roll)
	read("pitch", m.Need("pitch"), &l.Pitch)
	read("yaw", m.Need("yaw"), &l.Yaw)
	if bySticks {
		if v, there := m.Field("arm"); there {
			v.Wrong("craft-file.arm-channel-unneeded")
		}
	} else {
		read("arm", m.Need("arm"), &l.Arm)
	}
	read("second", m.Opt("second"), &l.Second)
	read("mode", m.Opt("mode"), &l.Mode)
	m.Done()
}

func (d *decoder) arming(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("craft-file.arming")
	a := &d.f.cfg.Arming
	if w, ok := m.Opt("by").Word("switch", "sticks"); ok && w == "sticks" {
		a.By = arming.BySticks
	}
	on, there := m.Field("on")
	switch {
	case there && a.By == arming.BySticks:
		on.Wrong("craft-file.arm-span-unneeded")
	case there:
		span(on, &d.f.cfg.Layout.ArmSpan)
		if s := d.f.cfg.Layout.ArmSpan; s.Contains(pulse.Low) && s.Contains(pulse.High) {
			on.Wrong("craft-file.arm-span-whole")
		}
	}
	if v, ok := m.Opt("low-throttle").Fixed("us", pulse.Eighths, 990*pulse.Eighths, 1200*pulse.Eighths); ok {
		a.LowThrottle = pulse.Width(v) // below 990 no throttle of full travel would be low, and above 1200 none is
	}
	set(&d.armDwell, m.Opt("arm-dwell"), 100*time.Millisecond, 5*time.Second)
	set(&d.disarmDwell, m.Opt("disarm-dwell"), 100*time.Millisecond, 5*time.Second)
	set(&d.still, m.Opt("still-time"), 0, 30*time.Second)
	if v, ok := m.Opt("tilt-limit").Fixed("deg", 10, 10, 1800); ok {
		a.TiltLimitTenths = int16(v)
	}
	if v, ok := m.Opt("pack-limit").Fixed("V", 1000, 0, 65000); ok {
		a.PackLimitMilliVolts = uint16(v)
	}
	if w, ok := m.Opt("only-self-levelling").Word("no", "yes"); ok {
		a.OnlySelfLevelling = w == "yes"
	}
	if w, ok := m.Opt("camera-menu").Word("unknown", "refuses"); ok {
		a.CameraMenuCounts = w == "refuses"
	}
	if a.LowThrottle != pulse.Micros(1000) {
		a.LeaveThrottle = a.LowThrottle + pulse.Micros(20)
	}
	m.Done()
}

func (d *decoder) second(n yamldoc.Node) {
	l := &d.f.cfg.Layout
	if !n.Exists() {
		if l.Second != layout.NoChannel {
			l.SecondSpan = layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
		}
		return
	}
	m := n.Map("craft-file.second-switch")
	if l.Second == layout.NoChannel {
		n.Wrong("craft-file.second-no-channel")
	}
	span(m.Need("on"), &l.SecondSpan)
	m.Done()
}

func (d *decoder) modes(n yamldoc.Node) {
	l := &d.f.cfg.Layout
	names := pulse.ModeCodes()
	if !n.Exists() {
		if l.Mode == layout.NoChannel {
			l.SpanCount = 0
		}
		return
	}
	m := n.Map("craft-file.modes")
	if w, ok := m.Opt("always").Word(names...); ok {
		l.FixedMode = modeNamed(w)
		l.SpanCount = 0
		if l.Mode != layout.NoChannel {
			m.Opt("always").Wrong("craft-file.always-and-channel", words.Args{"mode": words.Quote(w)})
		}
		m.Done()
		return
	}
	if l.Mode == layout.NoChannel {
		n.Wrong("craft-file.modes-no-channel")
	}
	l.SpanCount = 0
	type placed struct {
		node yamldoc.Node
		name string
		span layout.Span
	}
	var all []placed
	for _, name := range names {
		v, there := m.Field(name)
		if !there {
			continue
		}
		list := []yamldoc.Node{v}
		if v.IsList() {
			list = v.List()
		}
		for _, one := range list {
			var s layout.Span
			if !span(one, &s) {
				continue
			}
			for _, p := range all {
				if s.Low < p.span.High && p.span.Low < s.High {
					one.Wrong("craft-file.modes-overlap", words.Args{"mode": words.Quote(name), "other": words.Quote(p.name), "line": words.Whole(p.node.Pos().Line)})
				}
			}
			all = append(all, placed{one, name, s})
			if len(all) > layout.MaxModeSpans {
				one.Wrong("craft-file.modes-many", words.Args{"most": words.Whole(layout.MaxModeSpans)})
				continue
			}
			l.Spans[len(all)-1] = layout.ModeSpan{Mode: modeNamed(name), Span: s}
			l.SpanCount = int8(len(all))
		}
	}
	m.Done()
}

func (d *decoder) motors(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("craft-file.motors")
	f := &d.f.cfg.Flight
	if w, ok := m.Opt("at-low-throttle").Word("still", "idle"); ok {
		f.AtLowThrottle = map[string]flight.AtLowThrottle{"still": flight.StandStill, "idle": flight.Idle}[w]
	}
	if v, ok := m.Opt("idle-speed").Fixed("%", 100, 0, 3000); ok {
		f.IdleSpeed = uint16(v)
	}
	if v, ok := m.Opt("air-mode-wakes-at").Fixed("%", 10, 0, 1000); ok {
		f.AirWake = int(v) * pulse.ThrottleFull / 1000
	}
	if v, there := m.Field("air-mode-in"); there {
		f.AirModes = 0
		for _, one := range v.List() {
			if w, ok := one.Word(pulse.ModeCodes()...); ok {
				f.AirModes |= 1 << modeNamed(w)
			}
		}
	}
	m.Done()
}
