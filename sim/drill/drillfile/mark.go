package drillfile

import (
	"slices"
	"time"

	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
)

// markGrace is how much longer than its mark a case may take, in ticks (ours): the end is seen a little after it has come.
const markGrace = 2000

// mostRunIn is the longest time that a mark may wander before it counts (ours).
const mostRunIn = 20 * time.Second

// mark reads {axis: roll, mode: angle, run-in: 5 s, for: 60 s, size: 30 deg}: what one stick follows from the cue on. To follow it to its end is all that
// is wanted of such a case, so it has neither answers nor anything else that must follow. Its craft flies in that mode whatever the switch says, and no
// gesture opens anything while the stick is moved about.
func (p *part) mark(n, follow, choices yamldoc.Node) {
	m := n.Map("drill-file.mark")
	if !n.IsMap() {
		return
	}
	k := &p.c.Mark
	axes, modes := []string{"roll", "pitch", "yaw"}, []string{"angle", "rate"}
	if w, ok := m.Need("axis").Word(axes...); ok {
		k.Axis = mark.Roll + mark.Axis(slices.Index(axes, w))
	}
	if w, ok := m.Need("mode").Word(modes...); ok {
		k.Mode = [...]layout.Mode{layout.Angle, layout.Rate}[slices.Index(modes, w)]
	}
	k.RunIn, _ = millis(m.Need("run-in"), time.Second, mostRunIn)
	if long, ok := millis(m.Need("for"), mark.LeastSeconds*time.Second, mark.MostSeconds*time.Second); ok {
		if long%1000 != 0 {
			m.Opt("for").Wrong("drill-file.whole-seconds")
		}
		k.Seconds = uint16(long / 1000)
	}
	if v, ok := m.Need("size").Fixed("deg", 10, mark.LeastSize*10, mark.MostSize*10); ok {
		k.Tenths = uint16(v)
	}
	m.Done()
	if follow.Exists() {
		follow.Wrong("drill-file.mark-and-follow")
	}
	if choices.Exists() {
		choices.Wrong("drill-file.mark-and-choices")
	}
	p.c.Craft.FixedMode, p.c.Craft.NoGestures = 1+uint8(k.Mode), true
	p.c.Wants, p.w.Wants, p.c.Within = []drill.Want{{Kind: drill.Followed}}, []string{""}, int32(k.Ticks())+markGrace
}
