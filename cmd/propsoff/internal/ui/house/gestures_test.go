package house_test

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	gesturessheet "propsoff.example/cmd/propsoff/internal/ui/gestures"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input/script"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/pulse"
)

// atGestures is a person at the sheet of gestures, with the shipped gestures; the keyboard drives, or a script.
func atGestures(t *testing.T, craft, steps string, more func(*screen.Options)) *person {
	return atGesturesOf(t, craft, changed(t, craft), steps, more)
}

func atGesturesOf(t *testing.T, craft string, c *craftfile.File, steps string, more func(*screen.Options)) *person {
	file, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(file, text, 20)
	require.NoError(t, err)
	c.Learn(&f.Gestures, &f.Menus)
	return sitDownTo(t, craft, c, func(d *whodrives.Options, o *screen.Options) {
		o.Bare, o.Open, o.Names = true, ui.OnGestures.Open(), d.Names
		o.Gestures = screen.GestureOptions{Name: "examples", Shipped: true, Text: text, Own: filepath.Join(t.TempDir(), "propsoff", "gestures.yaml")}
		if steps != "" {
			played, err := script.Parse("hands", []byte("name: hands\nstart: {throttle: 988, arm: off, mode: angle}\nsteps:\n"+steps), d.Names)
			require.NoError(t, err)
			d.Script = played.Source()
		}
		if more != nil {
			more(o)
		}
	})
}

// zoneWidths are where a hand goes for a zone; one that is free stays at rest.
var zoneWidths = map[gestures.Zone]string{gestures.Low: "988", gestures.Middle: "1500", gestures.High: "2012"}

// Each shipped gesture is made by a played hand, and the sheet says so.
func TestEachShippedGestureIsMade(t *testing.T) {
	_, text, _ := assets.Gestures("examples")
	f, err := patternfile.Parse("examples", text, 20)
	require.NoError(t, err)
	jobs := [...]string{"throttle", "roll", "pitch", "yaw"}
	for n := range f.Gestures.Patterns {
		pat := &f.Gestures.Patterns[n]
		t.Run(pat.Code, func(t *testing.T) {
			var steps strings.Builder
			at := 3000
			for part := range int(pat.Count) {
				steps.WriteString("  - {at: " + strconv.Itoa(at) + "ms, over: 200ms")
				for d, z := range pat.JobZones(part, 2) {
					if w, ok := zoneWidths[z]; ok {
						steps.WriteString(", " + jobs[d] + ": " + w)
					}
				}
				steps.WriteString("}\n")
				at += 220 + int(pat.Parts[part].Dwell)*20 + 40
			}
			steps.WriteString("end: 20s\n")
			p := atGestures(t, assets.BuiltIn, steps.String(), nil)
			p.wait(500)
			for range n {
				p.tap("PageDown")
			}
			require.Equal(t, n, gesturessheet.Of(p.s.View()).Selected)
			require.Equal(t, gesturessheet.Score{}, gesturessheet.Of(p.s.View()).Scores[n])
			p.wait(at - 500 + 200)
			assert.Equal(t, 1, gesturessheet.Of(p.s.View()).Scores[n].Made)
			assert.True(t, gesturessheet.Of(p.s.View()).Try.Made)
			assert.InDelta(t, at-3000, gesturessheet.Of(p.s.View()).Try.Took, 150)
		})
	}
}

// A near miss is counted, and told in words.
func TestANearMissIsTold(t *testing.T) {
	p := atGestures(t, assets.BuiltIn, "  - {at: 3s, over: 200ms, yaw: 988}\n  - {at: 3400ms, over: 100ms, yaw: 1500}\nend: 20s\n", nil)
	p.wait(3000)
	assert.True(t, p.reads("No try yet."))
	p.wait(350)
	assert.True(t, p.reads("Hold it: 0."))
	p.wait(600)
	assert.Equal(t, 1, gesturessheet.Of(p.s.View()).Scores[0].Near[1])
	assert.True(t, p.reads("Let go 0."))
	assert.True(t, p.reads(" early."))
	assert.InDelta(t, 40, gesturessheet.Of(p.s.View()).Try.Early, 40) // the way back leaves the zone within its 100 ms, the dwell began within the way there
}

// While gestures do not count no try is under way, and no stick is asked to move: not with the radio off, not of an armed craft.
func TestNoTryIsUnderWayWhileGesturesDoNotCount(t *testing.T) {
	const moves = "  - {at: 4s, over: 200ms, yaw: 1400}\n  - {at: 4500ms, over: 300ms, yaw: 1250}\n"
	for name, c := range map[string]struct{ steps, why string }{
		"radio off": {"  - {at: 3500ms, link: off}\n" + moves, "nothing of the radio's reaches the craft"},
		"armed":     {"  - {at: 3s, arm: on}\n" + moves, "the craft is armed"},
	} {
		t.Run(name, func(t *testing.T) {
			p := atGestures(t, assets.BuiltIn, c.steps+"end: 20s\n", nil)
			p.wait(4900)
			require.True(t, p.reads(c.why), "%q", texts(p))
			for _, untrue := range []string{"under way", "sticks at rest", "more down", "to the left", "Hold"} {
				assert.False(t, p.reads(untrue), "%s: %q", untrue, texts(p))
			}
		})
	}
	p := atGestures(t, assets.BuiltIn, moves+"end: 20s\n", nil)
	p.wait(4900)
	require.True(t, p.reads("under way for 0."), "%q", texts(p))
	require.True(t, p.reads("more to the left"), "%q", texts(p))
}

// A stick of which the craft reads nothing is not asked to go further, before the link counts as lost either.
func TestNoStickIsAskedToGoFurtherInVain(t *testing.T) {
	p := atGestures(t, assets.BuiltIn, "  - {at: 3s, over: 200ms, yaw: 1300}\nend: 20s\n", nil)
	p.wait(4000)
	require.True(t, p.reads("more to the left"), "%q", texts(p))
	p.plant(fault.ChannelOut, 4, 0)
	require.False(t, p.reads("do not count now"), "%q", texts(p))
	assert.False(t, p.reads("more to the left"), "%q", texts(p))
}

// pushes writes the steps of a played hand that pushes one control after another to an end, and lets go each time.
func pushes(at int, way ...string) (steps string, end int) {
	var out strings.Builder
	for _, w := range way {
		control, _, _ := strings.Cut(w, ":")
		out.WriteString("  - {at: " + strconv.Itoa(at) + "ms, " + w + "}\n  - {at: " + strconv.Itoa(at+160) + "ms, " + control + ": 1500}\n")
		at += 320
	}
	return out.String(), at
}

// An errand: the craft's own menu is opened by its gesture, a value on its first page is changed, and on leaving it is kept.
func TestAnErrandInTheCraftsMenu(t *testing.T) {
	const down, up, in, out = "pitch: 988", "pitch: 2012", "roll: 2012", "roll: 988"
	open := "  - {at: 3s, over: 200ms, throttle: 988, yaw: 988}\n  - {at: 3600ms, over: 200ms, yaw: 1500, pitch: 2012}\n  - {at: 4300ms, over: 100ms, pitch: 1500}\n"
	first, at := pushes(5000, down, down, down, in, up, up, out)
	rest, end := pushes(at+1000, out, up, up, in)
	p := atGestures(t, assets.BuiltIn, open+first+rest+"end: 20s\n", nil)
	p.wait(3000)
	assert.False(t, p.reads("how the sticks move it"))
	p.wait(1400)
	require.True(t, p.reads("how the sticks move it"))
	g := &p.s.View().Goggles
	assert.Equal(t, "the craft's own menu", p.s.View().Say(g.Name))
	assert.True(t, p.reads("Right stick up and down moves the mark."))
	assert.True(t, p.reads("Right stick to the right goes in"))
	assert.False(t, p.reads("Opens the menu"), "the goggles stand in the place of the list")
	assert.NotZero(t, p.snap().Refusals, "the craft does not arm with its menu open")
	p.wait(at + 300 - 4400)
	view := &p.s.View().Goggles
	require.Equal(t, 3, view.Mark)
	assert.Equal(t, "warn of a low pack at", p.s.View().Say(view.Items[3].Label))
	assert.Equal(t, 1, view.Changed)
	assert.True(t, p.reads("3.65 V a cell"))
	assert.True(t, p.reads("changed, was 3.55 V a cell") || p.reads("was 3.55 V a cell"), "%q", texts(p))
	assert.True(t, p.reads("1 value changed, not kept yet."), "%v", texts(p))

	// The bench tells it too.
	p.tap("O")
	assert.True(t, p.reads("the mark on warn of a low pack at: 3.65 V a cell"), "%q", texts(p))
	p.tap("O")
	p.wait(700)
	assert.True(t, p.reads("Leaving, with 1 change."))
	for _, answer := range []string{"keep the changes", "put back as it was", "stay in the menu"} {
		assert.True(t, p.reads(answer))
	}
	assert.Equal(t, 2, p.s.View().Goggles.Answer, "nothing is lost by going on")
	p.wait(end)
	assert.False(t, p.s.View().Goggles.Open)
	_, kept := p.loop.Gestures(nil)
	items := p.s.View().Config.Menus.Items
	for i := range items {
		if items[i].Name == "warn of a low pack at" {
			assert.EqualValues(t, 365, kept.Kept[items[i].Index])
		}
	}
	assert.Equal(t, pulse.MenuClosed, int(p.snap().In.Craft.Menu))
}

// A camera's menu, of which a craft that is armed by its sticks knows nothing, warns where the stick that goes in carries yaw.
func TestACamerasMenuWarnsWhereGoingInArms(t *testing.T) {
	for _, craft := range []string{assets.BuiltIn, "teasel-by-sticks"} {
		p := atGestures(t, craft, "", nil)
		p.tap("X")
		p.wait(500)
		menus := p.s.View().Config.Menus
		for range 4 {
			mode := p.s.View().StickMode
			for which := range menus.Menus {
				moves := p.s.View().Say(words.Row(gogglesAt(p.s, menu.Open(menus, menu.State{}, which)).Moves...))
				warns := craft != assets.BuiltIn && menus.Menus[which].Camera && mode >= 3
				assert.Equal(t, warns, strings.Contains(moves, "arms this craft"), "%s, %s, mode %d", craft, menus.Menus[which].Code, mode)
			}
			p.tap("F3")
			require.NotEqual(t, mode, p.s.View().StickMode)
		}
		if craft == assets.BuiltIn {
			continue
		}
		p.wait(2500)
		p.hold("D", 1500)
		require.True(t, p.snap().Armed, "with the throttle low it arms")
		p.hold("A", 1500)
		require.False(t, p.snap().Armed)
		for p.snap().In.Sent[0] < pulse.Centre {
			p.hold("W", 50)
		}
		p.hold("D", 1500)
		assert.False(t, p.snap().Armed, "and with the throttle in the middle not")
	}
}

// The key closes a menu; what was changed in it is put back.
func TestTheKeyClosesAMenu(t *testing.T) {
	p := atGestures(t, assets.BuiltIn, "", nil)
	p.tap("X")
	p.wait(2500)
	for _, k := range []string{"A", "Up"} { // the craft's own menu by keys: yaw left, then pitch forward in its place
		p.s.Key(k, true)
		p.wait(800)
		p.s.Key(k, false)
	}
	p.wait(300)
	require.True(t, p.s.View().Goggles.Open)
	require.True(t, p.reads("close menu"))
	p.tap("M")
	p.wait(100)
	assert.False(t, p.s.View().Goggles.Open)
	assert.False(t, p.reads("close menu"))
}

// Every page of every shipped menu, with every item marked and every value changed, in every size, theme and stick mode.
func TestEveryPageOfEveryShippedMenu(t *testing.T) {
	p := atGestures(t, assets.BuiltIn, "", nil)
	p.tap("X")
	p.wait(2500)
	v := p.s.View()
	cfg := v.Config.Menus
	page := ink.NewPage(960, 600, 0, nil)
	check := func(what string, s menu.State) {
		v.Goggles = gogglesAt(p.s, s)
		require.True(t, v.Goggles.Open, what)
		for _, size := range [][2]float64{{960, 600}, {1280, 720}, {1920, 1080}, {1200, 1920}} {
			for i, theme := range []*ink.Theme{ink.Light(), ink.Dark()} {
				v.StickMode = 1 + (int(size[0])+i)%4
				for _, class := range []bool{false, true} {
					v.Class = class
					page.Reset(size[0], size[1], 0, theme)
					gesturessheet.Draw(page, v)
					for _, problem := range ink.Check(page) {
						t.Fatalf("%s, %v %s class %v: %v", what, size, theme.Name, class, problem)
					}
					for _, it := range page.Items() {
						if it.Group == "goggles" && (it.Name == "value" || it.Name == "item" || it.Name == "leaving" || it.Name == "answer") {
							assert.NotContains(t, it.Text, "…", "%s, %v class %v", what, size, class)
						}
					}
				}
			}
		}
	}
	var walk func(s menu.State)
	walk = func(s menu.State) {
		first, count := cfg.Page(&s)
		for i := range count {
			s.Marks[s.Depth] = uint8(i)
			it := &cfg.Items[first+i]
			marked := s
			if it.Kind == menu.Value || it.Kind == menu.Choice {
				marked.Now[it.Index] = it.Low
				marked.Inside = cfg.Tree(&s).Way == menu.OneStick
			}
			check(it.Name, marked)
			if it.Kind == menu.Page {
				deeper := s
				deeper.Path[deeper.Depth] = uint8(first + i)
				deeper.Depth++
				walk(deeper)
			}
		}
	}
	for i := range cfg.Menus {
		s := menu.Open(cfg, menu.State{}, i)
		s.Rested = true
		for k := range s.Now {
			s.Now[k]++
		}
		walk(s)
		for a := menu.Keep; a <= menu.Stay; a++ {
			s.Asked = a
			check("leaving", s)
		}
	}
}

func texts(p *person) (all []string) {
	for _, it := range ink.Describe(p.page).Items {
		if it.Text != "" {
			all = append(all, it.Text)
		}
	}
	return all
}

// knownMoves are the shipped gestures and menus, which the shipped drills name.
func knownMoves(t testing.TB) drillfile.Known {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	return drillfile.Known{Gestures: &f.Gestures, Menus: &f.Menus}
}

// gogglesAt is what the goggles show of a menu that stands so.
func gogglesAt(s *screen.Screen, st menu.State) ui.GogglesView {
	return gesturessheet.Goggles(&s.Config, &st, uint8(s.Driving.StickMode), &s.View().Facts)
}
