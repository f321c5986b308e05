package spoken_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/spoken"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// line is one line as it was printed, and when.
type line struct {
	tick int64
	text string
}

// lab is a terminal with --plain, a practice behind it and a radio at it: what goes in are the radio's controls and typed lines, what comes out are lines.
type lab struct {
	t     testing.TB
	book  *words.Book
	base  sim.Config
	p     *practice.Practice
	coach *drillrun.Coach
	ear   *spoken.Drills
	lines []line
	queue []pulse.Reading
	frame pulse.Frame
	moved bool
	order []int // the answers as they were listed last
	ended *drillrun.Result
}

// teasel is the shipped craft.
func teasel(t testing.TB) sim.Config {
	name, text, ok := assets.Craft(assets.BuiltIn)
	require.True(t, ok)
	f, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	return f.Config()
}

// course is the shipped course.
func course(t testing.TB) []*drillfile.Drill {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	g, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	_, all, err := drillfile.Shipped("beginner", drillfile.Known{Gestures: &g.Gestures, Menus: &g.Menus})
	require.NoError(t, err)
	return all
}

const stickMode = 2

func newLab(t testing.TB, book *words.Book) *lab {
	l := &lab{t: t, book: book, base: teasel(t), coach: drillrun.New(), moved: true}
	l.p = practice.New(l.base)
	form := terminal.Form{Plain: true, Book: book}
	say := func(s words.Text, _ bool) {
		printed := string(form.Sentence(nil, s))
		require.Equal(t, 1, strings.Count(printed, "\n"), "one line for each change: %q", printed)
		l.lines = append(l.lines, line{l.p.Tick(), strings.TrimSuffix(printed, "\n")})
	}
	l.ear = spoken.NewDrills(l.coach, spoken.Drill{
		Say: say, GoOn: words.T("spoken.go-on", words.Args{"key": words.T("key-cap.enter")}), Hands: tell.DrillHands{Shipped: true},
	})
	l.coach.Attach(drillrun.Options{
		Bench: l, AtOnce: 20, Put: l.put,
		Told: func(tick int64, e drill.Event, v *drillrun.View) {
			if e.Kind == drill.CueNow {
				l.order = drill.Choices(v.Config, &v.State, l.order)
			}
			l.ear.Told(tick, e, v)
		},
		Ended: func(r drillrun.Result) { l.ended = &r },
	})
	for _, k := range []pulse.Kind{pulse.Plug, pulse.Link, pulse.Power} {
		l.put(k, 1)
	}
	l.put(pulse.StickMode, stickMode)
	for c := range l.frame {
		l.frame[c] = pulse.Low
	}
	for _, c := range []int8{l.base.Layout.Roll, l.base.Layout.Pitch, l.base.Layout.Yaw} {
		l.frame[c] = pulse.Centre
	}
	return l
}

func (l *lab) put(k pulse.Kind, v int32) {
	l.queue = append(l.queue, pulse.Reading{Kind: k, Value: v})
}

func (l *lab) UseCraft(cfg sim.Config, _ string) {
	if l.p.Bench().State().In.Powered {
		l.put(pulse.Power, 1)
	}
	l.p.Change(cfg)
}

func (l *lab) Driving() input.By { return input.ByRadio }

// tick runs one ms.
func (l *lab) tick() {
	if l.moved {
		l.put(pulse.Controls, 0)
		l.queue[len(l.queue)-1].Frame = l.frame
		l.moved = false
	}
	now := l.queue
	l.queue = nil
	l.p.Step(now)
	l.ear.Listen(l.p)
}

// move puts one channel somewhere.
func (l *lab) move(channel int8, w pulse.Width) {
	if channel >= 0 && l.frame[channel] != w {
		l.frame[channel], l.moved = w, true
	}
}

// typed is a line that is typed in the terminal.
func (l *lab) typed(s string) {
	var n int
	if _, err := fmt.Sscanf(s, "answer %d", &n); err == nil {
		require.LessOrEqual(l.t, n, len(l.order), "only answers that were read out")
		l.coach.Answer(l.order[n-1])
		return
	}
	switch s {
	case "":
		l.coach.GoOn()
	case "link off", "link on":
		l.put(pulse.Link, map[string]int32{"link on": 1}[s])
	case "power off", "power on":
		l.put(pulse.Power, map[string]int32{"power on": 1}[s])
	case "cable out":
		l.put(pulse.Cable, 0)
	case "level":
		l.put(pulse.Tilt, 0)
	case "menu closed":
		l.put(pulse.Menu, pulse.MenuClosed)
	case "propellers checked":
		l.put(pulse.Propellers, pulse.PropellersValue(l.p.Bench().State().In.Hands, true))
	default:
		l.t.Fatalf("nobody can type %q", s)
	}
}

// run runs a drill once with a pupil, and says whether it was learned.
func (l *lab) run(d *drillfile.Drill, seed uint64, turn func()) bool {
	l.ended = nil
	l.ear.Begins(d, stickMode)
	l.coach.Start(&d.Config, l.base, 20000, seed)
	for range 900_000 { // a pupil who is stuck leaves
		l.tick()
		if l.ended != nil {
			l.ear.Ended(l.ended)
			turn() // the last word is read too
			return l.ended.Learned
		}
		turn()
	}
	l.coach.Leave()
	return false
}
