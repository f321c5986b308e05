package menu

import (
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// spent is the Time of a push that went into a page: it has done its work, and does nothing more until it is let go. Otherwise a push
// that opened a page would go on to change the value that the mark then stands on.
const spent = 1<<16 - 1

// Step advances the open menu by one slot. The log may be nil.
func Step(cfg *Config, s State, in *Input, tick int64, log *happening.Log) State {
	t := cfg.Tree(&s)
	switch {
	case t == nil || cfg.Marked(&s) < 0:
		return s
	case !in.Live:
		s.Rested, s.Held, s.Time = false, None, 0
		return s
	case !in.Valid:
		return s
	}
	up, across := off(in, t.Way)
	if !s.Rested {
		s.Rested = within(up, cfg.Rest) && within(across, cfg.Rest)
		return s
	}
	if s.Held != None {
		if beyond(s.Held, up, across, cfg.Leave) {
			if s.Time == spent {
				return s
			}
			s.Time++
			again := s.Time == cfg.Delay || s.Time > cfg.Delay && (s.Time-cfg.Delay)%max(cfg.Every, 1) == 0
			if s.Time >= 1<<15 {
				s.Time = cfg.Delay // after this long only the beat matters
			}
			if again && s.repeats(cfg) {
				return s.push(cfg, t, tick, log)
			}
			return s
		}
		s.Held, s.Time = None, 0
	}
	if s.Held = pushed(up, across, cfg.In); s.Held == None {
		return s
	}
	return s.push(cfg, t, tick, log)
}

// off is how far the two directions of a way are from the middle: up and down, and across.
func off(in *Input, way Way) (up, across pulse.Width) {
	// Which job the right stick carries up and across, and the left across (common practice, no source: the four stick modes).
	const throttle, roll, pitch, yaw = 0, 1, 2, 3
	rightUp, rightAcross, leftAcross := pitch, roll, yaw
	switch in.StickMode {
	case 1:
		rightUp = throttle
	case 3:
		rightUp, rightAcross, leftAcross = throttle, yaw, roll
	case 4:
		rightAcross, leftAcross = yaw, roll
	}
	if way == TwoSticks {
		rightAcross = leftAcross
	}
	return in.Sticks[rightUp] - pulse.Centre, in.Sticks[rightAcross] - pulse.Centre
}

func within(w, d pulse.Width) bool { return w <= d && w >= -d }

// beyond reports whether a push is still held.
func beyond(p Push, up, across, d pulse.Width) bool {
	switch p {
	case Up:
		return up > d
	case Down:
		return up < -d
	case In:
		return across > d
	case Back:
		return across < -d
	}
	return false
}

// pushed is the direction that is pushed; none where two are.
func pushed(up, across, d pulse.Width) Push {
	p := None
	for _, one := range [...]Push{Up, Down, In, Back} {
		if one <= Down && beyondOrAt(up, one == Up, d) || one > Down && beyondOrAt(across, one == In, d) {
			if p != None {
				return None
			}
			p = one
		}
	}
	return p
}

func beyondOrAt(w pulse.Width, high bool, d pulse.Width) bool {
	if high {
		return w >= d
	}
	return w <= -d
}

// repeats reports whether what is held acts again: the mark and values do, going in or out never does.
func (s *State) repeats(cfg *Config) bool {
	if s.Held == Up || s.Held == Down {
		return true
	}
	it := &cfg.Items[cfg.Marked(s)]
	return s.Asked == NoQuestion && cfg.Tree(s).Way == TwoSticks && (it.Kind == Value || it.Kind == Choice)
}

// push does what is pushed.
func (s State) push(cfg *Config, t *Tree, tick int64, log *happening.Log) State {
	switch {
	case s.Asked != NoQuestion:
		return s.answer(cfg, tick, log)
	case s.Held == Up && s.Inside:
		s.change(cfg, 1, tick, log)
	case s.Held == Down && s.Inside:
		s.change(cfg, -1, tick, log)
	case s.Held == Up:
		s.mark(cfg, -1, tick, log)
	case s.Held == Down:
		s.mark(cfg, 1, tick, log)
	case s.Inside:
		if s.Held == Back {
			s.Inside = false
		}
	default:
		return s.cross(cfg, t, tick, log)
	}
	return s
}

// cross goes in or out, or changes a value where two sticks move the menu.
func (s State) cross(cfg *Config, t *Tree, tick int64, log *happening.Log) State {
	it := &cfg.Items[cfg.Marked(&s)]
	value := it.Kind == Value || it.Kind == Choice
	switch {
	case value && t.Way == TwoSticks:
		by := int32(1)
		if s.Held == Back {
			by = -1
		}
		s.change(cfg, by, tick, log)
	case s.Held == Back, it.Kind == Out:
		return s.out(cfg, tick, log)
	case value:
		s.Inside = true
	case it.Kind == Page && s.Depth+1 < MostDepth:
		s.Path[s.Depth] = uint8(cfg.Marked(&s))
		s.Depth++
		s.Marks[s.Depth] = 0
		s.Time = spent
		log.Add(tick, happening.MenuMark, int32(cfg.Marked(&s)), 0)
	}
	return s
}

// out goes to the page before, or leaves the menu; with changes it asks first.
func (s State) out(cfg *Config, tick int64, log *happening.Log) State {
	if s.Depth > 0 {
		s.Marks[s.Depth] = 0
		s.Depth--
		s.Path[s.Depth] = 0
		log.Add(tick, happening.MenuMark, int32(cfg.Marked(&s)), 0)
		return s
	}
	if cfg.Changed(&s) > 0 {
		s.Asked = Stay
		return s
	}
	log.Add(tick, happening.MenuLeft, 0, 0)
	return Close(cfg, s)
}

// answer moves between keep, put back and stay, or takes one.
func (s State) answer(cfg *Config, tick int64, log *happening.Log) State {
	switch s.Held {
	case Up:
		s.Asked = max(s.Asked-1, Keep)
		return s
	case Down:
		s.Asked = min(s.Asked+1, Stay)
		return s
	case Back:
		s.Asked = NoQuestion
		return s
	}
	n := int32(cfg.Changed(&s))
	switch s.Asked {
	case Keep:
		s.Kept = s.Now
		log.Add(tick, happening.MenuLeft, 1, n)
		return Close(cfg, s)
	case PutBack:
		log.Add(tick, happening.MenuLeft, 0, n)
		return Close(cfg, s)
	}
	s.Asked = NoQuestion
	return s
}

// mark moves the mark, which stops at the ends.
func (s *State) mark(cfg *Config, by int, tick int64, log *happening.Log) {
	_, count := cfg.Page(s)
	to := min(max(int(s.Marks[s.Depth])+by, 0), count-1)
	if to == int(s.Marks[s.Depth]) {
		return
	}
	s.Marks[s.Depth] = uint8(to)
	log.Add(tick, happening.MenuMark, int32(cfg.Marked(s)), 0)
}

// change moves the value that the mark stands on by one step, within its limits.
func (s *State) change(cfg *Config, by int32, tick int64, log *happening.Log) {
	item := cfg.Marked(s)
	it := &cfg.Items[item]
	to := min(max(s.Now[it.Index]+by*it.By, it.Low), it.High)
	if to == s.Now[it.Index] {
		return
	}
	s.Now[it.Index] = to
	log.Add(tick, happening.MenuValue, int32(item), to)
}
