package gestures_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"propsoff.example/gestures"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// slot is one slot of a random stream.
type slot struct {
	sticks      sticks
	valid, live bool
}

// drawWidth is a stick on, beside or between the edges of the zones.
func drawWidth(rt *rapid.T, cfg *gestures.Config) pulse.Width {
	edges := []pulse.Width{
		cfg.LowIn, cfg.LowOut, cfg.HighIn, cfg.HighOut, pulse.Centre + cfg.MiddleIn, pulse.Centre - cfg.MiddleIn,
		pulse.Centre + cfg.MiddleOut, pulse.Centre - cfg.MiddleOut, pulse.Low, pulse.High, pulse.Centre, pulse.Low, pulse.High, pulse.Centre,
	}
	return rapid.SampledFrom(edges).Draw(rt, "edge") + pulse.Width(rapid.IntRange(-1, 1).Draw(rt, "off"))
}

// drawStream is a stream of hands that mostly stand in the parts of the patterns, with frames and liveness that come and go.
func drawStream(rt *rapid.T, cfg *gestures.Config, mode uint8) (out []slot) {
	now := slot{rest(), true, true}
	for range rapid.IntRange(1, 25).Draw(rt, "stretches") {
		switch rapid.IntRange(0, 7).Draw(rt, "what") {
		case 0:
			now.sticks = rest()
		case 1, 2, 3:
			p := &cfg.Patterns[rapid.IntRange(0, len(cfg.Patterns)-1).Draw(rt, "pattern")]
			now.sticks = target(p, rapid.IntRange(0, int(p.Count)-1).Draw(rt, "part"), mode)
		case 4, 5:
			now.sticks[rapid.IntRange(0, 3).Draw(rt, "direction")] = drawWidth(rt, cfg)
		case 6:
			now.valid = !now.valid
		case 7:
			now.live = !now.live
		}
		for range rapid.IntRange(1, 14).Draw(rt, "slots") {
			out = append(out, now)
		}
		if !now.live || !now.valid { // mostly they count
			now.live, now.valid = rapid.Bool().Draw(rt, "live"), rapid.Bool().Draw(rt, "valid")
		}
	}
	return out
}

// drawPattern is any pattern.
func drawPattern(rt *rapid.T, n int) gestures.Pattern {
	p := gestures.Pattern{Code: fmt.Sprintf("p%d", n), Physical: rapid.Bool().Draw(rt, "physical"), Count: uint8(rapid.IntRange(1, 3).Draw(rt, "parts"))}
	for i := range int(p.Count) {
		part := &p.Parts[i]
		for d := range part.Zones {
			part.Zones[d] = gestures.Zone(rapid.IntRange(0, 3).Draw(rt, "zone"))
		}
		part.Dwell = uint16(rapid.IntRange(1, 9).Draw(rt, "dwell"))
		if i > 0 {
			part.Within = uint16(rapid.IntRange(1, 12).Draw(rt, "within"))
		}
	}
	return p
}

// story is a stream and what was made of it.
type story struct {
	cfg  *gestures.Config
	mode uint8
	all  []slot
	made [][]int // for each slot
}

func tell(cfg *gestures.Config, mode uint8, all []slot) *story {
	y := &story{cfg: cfg, mode: mode, all: all}
	h := fresh(cfg, mode)
	for _, s := range all {
		h.in.Sticks, h.in.Valid, h.in.Live = s.sticks, s.valid, s.live
		n := h.clear().slot()
		if (n < 0) != (len(h.made) == 0) || n >= 0 && n != h.made[0] {
			panic("what Step gives is not what it told")
		}
		y.made = append(y.made, h.made)
	}
	return y
}

// in reports whether the sticks stand in a part, by the edges of coming or those of going.
func (y *story) in(t, n, part int, going bool) bool {
	for d, z := range y.cfg.Patterns[n].JobZones(part, y.mode) {
		x := y.all[t].sticks[d]
		lowest, highest, middle := y.cfg.LowIn, y.cfg.HighIn, y.cfg.MiddleIn
		if going {
			lowest, highest, middle = y.cfg.LowOut, y.cfg.HighOut, y.cfg.MiddleOut-1
		}
		switch {
		case z == low && x > lowest, z == high && x < highest, z == mid && (x > pulse.Centre+middle || x < pulse.Centre-middle):
			return false
		}
	}
	return true
}

// stood looks back from slot t for a stand in a part that had lasted its dwell by then, that began before t, and that the sticks rightly
// came into (came).
func (y *story) stood(t, n, part int) bool {
	p := &y.cfg.Patterns[n]
	for begin := t - int(p.Parts[part].Dwell); begin >= 0; begin-- {
		ok := y.all[begin].valid && y.in(begin, n, part, false)
		for u := begin; ok && u <= t; u++ {
			ok = y.all[u].live && (!y.all[u].valid || y.in(u, n, part, true))
		}
		if ok && y.came(begin, n, part) {
			return true
		}
	}
	return false
}

// came reports whether the sticks came into a part at a slot: they were seen elsewhere while it was asked for, and if it is a later
// part, the one before was made, and left no longer ago than the limit.
func (y *story) came(begin, n, part int) bool {
	for u := begin - 1; u >= 0; u-- {
		if y.all[u].valid && !y.in(u, n, part, false) {
			break
		}
		if u == 0 || y.all[u].valid && !y.all[u].live {
			return false
		}
	}
	if begin == 0 {
		return false
	}
	if part == 0 {
		return true
	}
	within := int(y.cfg.Patterns[n].Parts[part].Within)
	for left := begin; left >= max(begin-within, 1); left-- { // the first frame in which the part before was left, or the next entered
		if y.all[left].valid {
			for last := left - 1; last >= 0; last-- {
				if y.all[last].valid {
					if y.stood(last, n, part-1) {
						return true
					}
					break
				}
			}
		}
	}
	return false
}

func TestNothingIsMadeWithoutReason(t *testing.T) {
	made, chains, together := 0, 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		cfg := gestures.Default(slotTicks)
		for n := range rapid.IntRange(1, 5).Draw(rt, "patterns") {
			cfg.Patterns = append(cfg.Patterns, drawPattern(rt, n))
		}
		if rapid.Bool().Draw(rt, "with") && len(cfg.Patterns) > 1 {
			cfg.Patterns[0].With, cfg.Patterns[1].With = 2, 1
			cfg.Patterns[1].Parts, cfg.Patterns[1].Physical, cfg.Patterns[1].Count = cfg.Patterns[0].Parts, cfg.Patterns[0].Physical, cfg.Patterns[0].Count
		}
		mode := uint8(rapid.IntRange(1, 4).Draw(rt, "mode"))
		y := tell(&cfg, mode, drawStream(rt, &cfg, mode))
		last := map[int]int{}
		for at, now := range y.made {
			for i, n := range now {
				p := &cfg.Patterns[n]
				for _, other := range now[:i] {
					together++
					if p.With>>other&1 == 0 {
						rt.Fatalf("slot %d: %d and %d are made together", at, n, other)
					}
				}
				if !y.all[at].valid || !y.all[at].live {
					rt.Fatalf("slot %d: %d is made without a frame, or while gestures do not count", at, n)
				}
				if !y.stood(at, n, int(p.Count)-1) {
					rt.Fatalf("slot %d: %d is made without having been stood in", at, n)
				}
				if before, ok := last[n]; ok {
					left := false
					for u := before + 1; u < at; u++ {
						left = left || y.all[u].valid && !y.in(u, n, int(p.Count)-1, true)
					}
					if !left {
						rt.Fatalf("slot %d: %d is made again, and was not left since slot %d", at, n, before)
					}
				}
				last[n] = at
				made++
				if p.Count > 1 {
					chains++
				}
			}
		}
	})
	if made < 20 || chains == 0 || together == 0 {
		t.Errorf("hardly anything was made: %d, of them chains %d, pairs %d", made, chains, together)
	}
}

// A single stand is made exactly where a plain account of it says.
func TestASingleStandAgainstAPlainAccount(t *testing.T) {
	made := 0
	rapid.Check(t, func(rt *rapid.T) {
		p := drawPattern(rt, 0)
		p.Count = 1
		cfg := set(p)
		mode := uint8(rapid.IntRange(1, 4).Draw(rt, "mode"))
		y := tell(cfg, mode, drawStream(rt, cfg, mode))
		known, inside, counts, since := false, false, false, 0
		for at, s := range y.all {
			switch {
			case s.valid:
				was := inside
				inside = y.in(at, 0, 0, false) || was && y.in(at, 0, 0, true)
				if !inside || !was {
					counts, since = inside && known && s.live, at
				}
				known = true
			case !s.live:
				// While the link is lost nobody knows what the sticks do; what they stood in is spent.
				known = inside
			}
			counts = counts && s.live
			want := counts && s.valid && at-since >= int(p.Parts[0].Dwell)
			if have := len(y.made[at]) == 1; have != want {
				rt.Fatalf("slot %d: made %v, want %v", at, have, want)
			}
			if want {
				made++
				counts = false
			}
		}
	})
	if made < 20 {
		t.Errorf("only %d were made", made)
	}
}

// A chain of two parts of which no stick can stand in both at once is made exactly where a plain account of it says: the stand in the
// second part lasted its dwell, and began no later than the limit after the end of the last stand in the first that lasted its own.
func TestAChainAgainstAPlainAccount(t *testing.T) {
	made, again := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		p := drawPattern(rt, 0)
		p.Count, p.Physical = 2, false
		p.Parts[0].Zones[gestures.Roll], p.Parts[1].Zones[gestures.Roll] = low, high
		p.Parts[0].Dwell, p.Parts[1].Dwell, p.Parts[1].Within = uint16(rapid.IntRange(1, 9).Draw(rt, "first")), uint16(rapid.IntRange(1, 9).Draw(rt, "second")), uint16(rapid.IntRange(1, 30).Draw(rt, "within"))
		cfg := set(p)
		all := drawStream(rt, cfg, 2)
		for i := range all {
			all[i].valid, all[i].live = true, true
		}
		y := tell(cfg, 2, all)
		var inside [2]bool
		var since [2]int // the first slot of the stand
		ready := -1      // the slot in which the last stand in the first part that was long enough was left, −1 for none
		known, counts := false, false
		for at := range all {
			for part := range 2 {
				was := inside[part]
				inside[part] = y.in(at, 0, part, false) || was && y.in(at, 0, part, true)
				if inside[part] && !was {
					since[part] = at
				}
				if part == 0 && was && !inside[0] && known && at-1-since[0] >= int(p.Parts[0].Dwell) {
					if ready >= 0 {
						again++
					}
					ready = at
				}
				if part == 0 && !inside[0] {
					known = true // sticks that stand there from the beginning do not count
				}
				if part == 1 && inside[1] && !was {
					counts = ready >= 0 && at-ready <= int(p.Parts[1].Within)
				}
				counts = counts && inside[1]
			}
			want := counts && at-since[1] >= int(p.Parts[1].Dwell)
			if have := len(y.made[at]) == 1; have != want {
				rt.Fatalf("slot %d: made %v, want %v", at, have, want)
			}
			if want {
				made++
				counts, ready = false, -1
			}
		}
	})
	if made < 20 || again < 20 {
		t.Errorf("only %d were made, and only %d firsts again", made, again)
	}
}

// From the same state the same slots give the same states, whatever stands in the log, and with no log at all.
func TestSameBytes(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		cfg := gestures.Default(slotTicks)
		for n := range 3 {
			cfg.Patterns = append(cfg.Patterns, drawPattern(rt, n))
		}
		a, b := fresh(&cfg, 2), fresh(&cfg, 2)
		for at, s := range drawStream(rt, &cfg, 2) {
			a.in.Sticks, a.in.Valid, a.in.Live = s.sticks, s.valid, s.live
			n := a.slot()
			if m := gestures.Step(&cfg, b.set, &a.in, 0, nil); n != m {
				rt.Fatalf("slot %d: %d and %d", at, n, m)
			}
			for i := range a.set {
				if a.set[i] != b.set[i] {
					rt.Fatalf("slot %d: %v and %v", at, a.set[i], b.set[i])
				}
				if x := a.set[i]; x.Time != 0 && x.Phase != gestures.Standing && x.Phase != gestures.Close || (x.Wait != 0 || x.Free) && x.Part == 0 ||
					x.Again != 0 && (x.Wait == 0 || !x.Free || x.Phase == gestures.Standing) {
					rt.Fatalf("slot %d: a dead timer in %+v", at, x)
				}
				for _, near := range a.near {
					if k := happening.Near(near.B & 0xff); k == 0 || k >= happening.NearCount || near.B>>8 < 0 || near.B>>8 > 3 {
						rt.Fatalf("slot %d: near miss %x", at, near.B)
					}
				}
			}
		}
	})
}
