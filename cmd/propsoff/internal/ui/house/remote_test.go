package house_test

import (
	"crypto/sha256"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/drill"
)

// remote are the keys that a presenter's remote sends.
var remote = [...]string{"PageUp", "PageDown", "F5", "Esc", "B"}

// scene is somebody who sits before a sheet, in the middle of something.
type scene struct {
	name string
	on   ui.Place
	sit  func(t *testing.T) *person
}

// before is who drives by keyboard, outside if so wished, and has pressed some keys.
func before(keys string, more func(*whodrives.Options, *screen.Options)) func(*testing.T) *person {
	return func(t *testing.T) *person {
		p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
			if s.Bare, s.Outside = true, true; more != nil {
				more(d, s)
			}
		})
		p.tap("X")
		p.taps(keys)
		return p
	}
}

// scenes are all sheets, and what may be under way on them.
func scenes(t *testing.T) (all []scene) {
	house := uitest.AllSheets()
	for _, about := range house.Sheets() {
		if about.Key != "" && !about.InAir {
			all = append(all, scene{"open", about.Place, before(about.Key, nil)})
		}
	}
	after := func(ms int, keys string) func(p *person) *person {
		return func(p *person) *person {
			p.wait(ms)
			p.taps(keys)
			return p
		}
	}
	armed := func(t *testing.T) *person { return after(2500, "Space")(before("", nil)(t)) }
	outside := func(t *testing.T) *person { return after(2500, "")(before("B Enter", nil)(t)) }
	drilling := func(phase drill.Phase, name string) func(t *testing.T) *person {
		return func(t *testing.T) *person {
			p, _ := atDrills(t)
			p.goTo(name)
			p.tap("Enter")
			for n := 0; drills.Of(p.s.View()).Run.State.Phase != phase; n++ {
				require.Less(t, n, 600, "%v", phase)
				p.wait(16)
			}
			return p
		}
	}
	people := func(_ *whodrives.Options, o *screen.Options) {
		o.Drills.Pupils = &notebook{names: []string{"Mara", "Noor", "Zoé"}, pupil: "Mara"}
	}
	atDoor := func(keys string) func(t *testing.T) *person {
		return before(keys, func(_ *whodrives.Options, o *screen.Options) { o.Start = true })
	}
	learning := func(serials ...string) func(t *testing.T) *person {
		return func(t *testing.T) *person { p, _ := plugIn(t, serials...); return p }
	}
	return append(all,
		scene{"cautions", ui.OnCautions, func(t *testing.T) *person { return sitDown(t, "") }},
		scene{"bench", ui.OnBench, before("", nil)},
		scene{"armed", ui.OnBench, armed},
		scene{"on its way to be armed", ui.OnBench, before("Space W", nil)},
		scene{"armed outside", ui.OnBench, func(t *testing.T) *person { return after(0, "Space")(outside(t)) }},
		scene{"outside", ui.OnBench, outside},
		scene{"looking back", ui.OnBench, func(t *testing.T) *person { return after(500, "G R")(outside(t)) }},
		scene{"three", ui.OnThree, func(t *testing.T) *person { return after(0, "End")(outside(t)) }},
		scene{"a radio to choose", ui.OnBench, func(t *testing.T) *person { return after(0, "F7")(played(t)) }},
		scene{"help", ui.OnHelp, before("F1", nil)},
		scene{"help, searched", ui.OnHelp, before("F1 P A", nil)},
		scene{"a name", ui.OnWrite, before("V Insert A N", people)},
		scene{"merging", ui.OnPeople, before("V Slash PageDown", people)},
		scene{"whether to merge", ui.OnAsk, before("V Slash PageDown Enter", people)},
		scene{"whether to leave an armed craft", ui.OnAsk, func(t *testing.T) *person { return after(0, "Esc")(armed(t)) }},
		scene{"whether to leave", ui.OnAsk, atDoor("Esc")},
		scene{"behind the first door", ui.OnStart, atDoor("1")},
		scene{"behind the second door", ui.OnStart, atDoor("2")},
		scene{"behind the third door", ui.OnStart, atDoor("3")},
		scene{"behind the fourth door", ui.OnStart, atDoor("4")},
		scene{"a new radio", ui.OnQuestions, learning()},
		scene{"which radio", ui.OnWhich, learning("A1", "B2")},
		scene{"where controls sit", ui.OnSeats, func(t *testing.T) *person { p, _, _ := seated(t); p.taps("F6 Backquote"); return p }},
		scene{"a check under way", ui.OnCheck, func(t *testing.T) *person { return checking(t) }},
		scene{"a layout not saved", ui.OnLayout, before("F6 Slash", nil)},
		scene{"a job to be named", ui.OnWrite, before("F6 0 A", nil)},
		scene{"a search", ui.OnProve, before("F8 Slash", nil)},
		scene{"link loss, flown", ui.OnLoss, before("F Enter L", nil)},
		scene{"a planted fault", ui.OnDesk, before("I Enter", nil)},
		scene{"a drill that prepares", ui.OnDrills, drilling(drill.Preparing, "Find the throttle")},
		scene{"a drill that waits", ui.OnDrills, drilling(drill.Running, "Find the throttle")},
		scene{"a drill that is on while the bench is open", ui.OnBench, func(t *testing.T) *person { return after(0, "C")(drilling(drill.Running, "Find the throttle")(t)) }},
		scene{"a gesture under way", ui.OnGestures, func(t *testing.T) *person {
			return after(300, "Period")(atGestures(t, assets.BuiltIn, "", nil))
		}},
		scene{"a take", ui.OnBench, func(t *testing.T) *person {
			p := atRecording(t, t.TempDir())
			p.tap("F12")
			p.eventually("recording to")
			return p
		}},
	)
}

// played is who watches a script, with two radios plugged in.
func played(t *testing.T) *person {
	return sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) { d.Radios, s.Bare = twoRadios{}, true })
}

// checking is somebody in the middle of a controls check.
func checking(t *testing.T) *person {
	p, h := atTheRadio(t)
	at := p.clock.now + 500_000
	h.r.Move(at, 300_000, 1, 2047)
	h.r.Until(at + 5_000_000)
	p.tap("F4")
	p.pass(h, 1500)
	return p
}

// work is what a person would miss.
type work struct {
	lost, pupil, typed        string
	craft                     [32]byte // of the text of its file
	names                     []string
	begun                     uint64
	armed, powered, air, sent bool
	cable                     bool
	menu                      uint8
	kept                      int
}

// work is that of now. Who is outside and not armed may be brought in, and to leave what is flown before a class ends it.
func (p *person) work() (w work) {
	s := p.snap()
	for _, l := range p.s.Losses {
		w.lost += uitest.Say(l.Lost()) + "\n"
	}
	k := p.s.Options.Drills.Pupils
	w.pupil, w.names, w.begun, w.kept = k.Pupil(), slices.Clone(k.Names()), p.s.Begun, len(k.Runs())
	if on := p.s.Written(); on != nil {
		w.typed = on.Typed
		w.lost = strings.ReplaceAll(w.lost, "“"+on.Typed+"”", "what is typed")
	}
	w.craft = sha256.Sum256(p.s.Options.Craft.Text)
	w.armed, w.powered, w.air, w.sent, w.cable, w.menu = s.Armed, s.In.Powered, s.In.Air && s.Armed, s.In.Transmitter || p.losses().Flown, s.In.Craft.Cable, s.In.Craft.Menu
	return w
}

// A presenter's remote does no harm, whatever sheet is open and whatever is under way on it, in the window and for a class: it arms nothing and starts
// no motor, begins no drill, loses no work, takes no answer but the safe one, and does not end the program.
func TestAPresentersRemoteIsHarmless(t *testing.T) {
	for i, sc := range scenes(t) {
		for class, name := range []string{"", " class"} {
			t.Run(sc.name+" "+string(sc.on)+name, func(t *testing.T) {
				p := sc.sit(t)
				require.Equal(t, sc.on, p.s.Place())
				if class == 1 {
					p.tap("F11")
				}
				was := p.work()
				r := rand.New(rand.NewPCG(uint64(i), uint64(class)))
				keys := slices.Clone(remote[:])
				for range 20 {
					keys = append(keys, remote[r.IntN(len(remote))])
				}
				for n, key := range keys {
					if n == len(remote) && class == 0 { // and once more from the same sheet, in another order
						p = sc.sit(t)
						was = p.work()
					}
					p.press1(key)
					now, said := p.work(), strings.Join(keys[:n+1], " ")
					if was.typed != "" && p.s.Written() != nil { // a letter more is seen and taken off
						assert.Contains(t, now.typed, was.typed, said)
					}
					was.typed, now.typed = "", ""
					assert.False(t, p.quit, "%s: the program ends", said)
					if !assert.Equal(t, was, now, said) {
						return
					}
					for _, m := range p.snap().Motor {
						assert.True(t, was.armed || m == 0, "%s: a motor turns", said)
					}
				}
				if q := p.s.Asked(); q != nil {
					p.tap("Esc")
					assert.Equal(t, was, func() work { w := p.work(); w.typed = ""; return w }(), "the safe answer")
				}
			})
		}
	}
}

// press1 presses a key for two pictures.
func (p *person) press1(key string) {
	if len(key) == 1 {
		p.s.Type(strings.ToLower(key))
	}
	p.s.Key(key, true)
	p.wait(16)
	p.s.Key(key, false)
	p.wait(16)
}
