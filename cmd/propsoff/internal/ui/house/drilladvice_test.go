package house_test

import (
	"math"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	drillsheet "propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/pulse"
)

// advises finds what tells a hand to do something.
var advises = regexp.MustCompile(`(?i)\b(?:press|hold|let go|let yaw|to arm,|to disarm,|then|first|bring|move|switch it|switch the|pull|leave|connect|wait|plug|put|set it|lower|see that)\b`)

// meant are refusals and states that say "first" or "move" and ask for nothing.
var meant = []string{"must be seen off first", "yaw must go below"}

// benchAdvice is every text of the bench's own parts of a sheet that tells what to do.
func (p *person) benchAdvice() (all []string) {
	for _, it := range ink.Describe(p.page).Items {
		own := slices.Contains([]string{"state", "pace", "why-not"}, it.Group) || it.Name == "loss-next" || it.Name == "how"
		told := it.Text
		for _, m := range meant {
			told = regexp.MustCompile(regexp.QuoteMeta(m)).ReplaceAllString(told, "")
		}
		if own && (advises.MatchString(told) || it.Name == "cure-key") {
			all = append(all, it.Name+": "+it.Text)
		}
	}
	return all
}

// satisfies does by keys one thing towards each of the wants that are not so yet.
func (p *person) satisfies(wants []drill.Want, missing uint32) {
	s := p.snap()
	cfg := p.loop.Craft()
	arm := cfg.Layout.Arm >= 0 && s.In.Sent[cfg.Layout.Arm] >= cfg.Layout.ArmSpan.Low
	for i, w := range wants {
		if missing>>i&1 == 0 {
			continue
		}
		on := w.A != 0
		switch w.Kind {
		case drill.Stick:
			if w.A != 0 {
				continue // the others spring back
			}
			if w.B>>drill.Down&1 == 1 {
				p.tap("X")
				continue
			}
			if s.In.Sent[cfg.Layout.Throttle] > 1500*8 {
				p.tap("X")
			}
			p.s.Key("W", true)
			p.wait(600)
			p.s.Key("W", false)
		case drill.HoverThrottle:
			p.throttleTo(drill.HoverSpan(cfg))
		case drill.ArmSwitch:
			if arm != on {
				p.tap("Space")
			}
		case drill.ModeSwitch, drill.Mode:
			p.tap([]string{"1", "2", "3"}[min(w.A, 2)])
		case drill.Transmitter:
			if s.In.Transmitter != on {
				p.tap("L")
			}
		case drill.Power:
			if s.In.Powered != on {
				p.tap("P")
			}
		case drill.Flying:
			p.s.Key("W", true)
			p.wait(600)
			p.s.Key("W", false)
		case drill.Flies:
			p.climbs(w.Task)
		case drill.Armed, drill.Ready:
			want := w.Kind == drill.Armed && on
			switch {
			case want == s.Armed && (want || !arm):
			case cfg.Layout.Arm >= 0 && (want || arm) && (!want || s.Refusals == 0 || arm):
				p.tap("Space")
			case cfg.Layout.Arm < 0:
				p.s.Key("S", true)
				p.s.Key(map[bool]string{true: "D", false: "A"}[want], true)
				p.wait(1200)
				p.s.Key("S", false)
				p.s.Key(map[bool]string{true: "D", false: "A"}[want], false)
			}
		}
	}
}

// throttleTo brings the throttle from one width to another by keys, as near as they can.
func (p *person) throttleTo(from, to pulse.Width) {
	at := p.snap().In.Sent[p.loop.Craft().Layout.Throttle]
	key := map[bool]string{true: "W", false: "S"}[at < from]
	if at < from || at > to {
		off := float64(max(from-at, at-to)) / pulse.Eighths
		p.hold(key, min(int(100+0.85*math.Sqrt(off/0.0017)), 600)) // the throttle gathers speed after 0.1 s
	}
}

// climbs brings the craft up to where a task has it fly, and has it go ahead where it is to be fast: as well as keys can.
func (p *person) climbs(t drill.Task) {
	tap := func(key string) {
		p.s.Key(key, true)
		p.wait(210) // some 30 µs
		p.s.Key(key, false)
	}
	body := p.snap().Air.Body
	low := float64(t.Spans[drill.OfHeight].Low) / 1000
	up := min(max(low+0.7+body.Pos.Z, -1), 1.5)
	if t.Has(drill.OfClimb) { // a throttle a little above what hovers, and there it stays: the air ends what it gains
		cfg := p.loop.Craft()
		at, want := p.snap().In.Sent[cfg.Layout.Throttle], hover.Throttle(cfg)+pulse.Micros(90)
		up = -body.Vel.Z
		switch {
		case at < want-pulse.Micros(40):
			up++
		case at > want+pulse.Micros(40):
			up--
		}
	}
	switch climb := -body.Vel.Z; {
	case !p.snap().Armed:
	case climb < up-0.3:
		tap("W")
	case climb > up+0.3:
		tap("S")
	}
	if speed := math.Hypot(body.Vel.X, body.Vel.Y); t.Has(drill.OfSpeed) && body.Pos.Z < -low && speed < 1.3 {
		p.hold("Up", 300)
	}
}

// While a drill asks for something the bench says what is and never what to do: in every stage of every shipped drill, on the sheet of
// drills, for a class too, and on the bench.
func TestTheBenchAdvisesNobodyWhomADrillAsks(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", knownMoves(t))
	require.NoError(t, err)
	require.Len(t, drills, len(assets.Drills()))
	for n, one := range drills {
		t.Run(one.Config.Code, func(t *testing.T) {
			var trainer *drillrun.Coach
			p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
				o.Bare, trainer = true, o.Drills.Coach
				o.Drills.Drills, o.Drills.Chapters = drills[n:n+1], nil
			})
			p.tap("W") // the keyboard takes over from the demo pilot
			p.tap("X")
			p.wait(3000)
			p.taps("C Enter")
			p.wait(3500) // what was crossed off before is gone
			seen := map[drill.Phase]bool{}
			var v drillrun.View
			for range 150 {
				trainer.View(&v)
				if !v.On || v.State.Phase == drill.Over {
					break
				}
				require.True(t, drillsheet.Of(p.s.View()).Run.On)
				seen[v.State.Phase] = true
				if advice := p.benchAdvice(); !assert.Empty(t, advice, "phase %d, case %d", v.State.Phase, v.State.Case) {
					return
				}
				if (v.State.Phase == drill.Resting || v.State.Phase == drill.Looking) && seen[drill.Running] {
					break
				}
				if v.Mark.On && v.Mark.Left < v.Mark.Whole-3000 { // the rest of the minute is like its beginning
					break
				}
				if v.State.Phase == drill.Preparing {
					p.satisfies(v.Config.Cases[v.State.Case].Before[v.State.At].Until, v.Missing)
				}
				p.wait(250)
			}
			assert.True(t, seen[drill.Running], "%v", seen)

			// Things against the drill: the pack out or in, the radio off or on.
			for _, keys := range []string{"P", "L", "P", "F11", "L", "P", "C", "L", "P", "F11", "P"} {
				p.taps(keys)
				p.wait(300)
				if trainer.View(&v); !v.On || v.State.Phase == drill.Over {
					break
				}
				if advice := p.benchAdvice(); !assert.Empty(t, advice, "after %s, on place %s", keys, p.s.Place()) {
					return
				}
			}
		})
	}
}
