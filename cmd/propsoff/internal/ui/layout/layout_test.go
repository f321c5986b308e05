package layout_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/layout"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

// laidOut is a craft and a radio as the sheet of the layout shows them.
func laidOut(t testing.TB, text string, r handset.Radio) *uitest.Stage {
	f, err := craftfile.Parse("test.yaml", []byte(text))
	require.NoError(t, err)
	s := uitest.NewStage(t, f.Config(), f.Name).On().Wait(200)
	for i := range r.Controls {
		s.Names = append(s.Names, r.Controls[i].Called)
	}
	if r.Name != "" { // an ideal one drives nothing
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, r.Name, ui.Keyboard
	}
	l := layout.Of(s.V)
	cfg := f.Config()
	looks := facts.Look(&cfg, f.More(), &r)
	l.ShowFacts(looks, &cfg)
	r.Settle()
	l.Radio = r
	for i := range looks.Switches {
		l.Levers[i].Live = looks.Switches[i].Live(s.V.Snap.In.Sent[looks.Switches[i].Channel])
	}
	by := facts.NoneDrives
	if r.Measured {
		by = facts.ItsFile
	}
	for _, j := range f.More() {
		if len(j.Name) > 1 {
			s.Names = append(s.Names, j.Name)
		}
	}
	for _, c := range r.Controls {
		s.Names = append(s.Names, c.Called)
	}
	l.Of, l.Kept = tell.LayoutOf(f.Name, &r, by), tell.LayoutKept("built-in", true, 0)
	keys := []string{"Left before", "Right after", "Up above", "Down below", "A arm", "S second", "N new", "E type", "Z undo", "Enter save"}
	for _, k := range keys {
		key, code, _ := strings.Cut(k, " ")
		l.Doing = append(l.Doing, layout.Key{Key: key, Code: "layout-" + code, Does: tell.LayoutKey(code, "", false)})
	}
	for i, j := range f.More() {
		if i < 9 {
			l.Doing = append(l.Doing, layout.Key{Key: fmt.Sprint(i + 1), Code: fmt.Sprint("layout-job-", i+1), Does: tell.LayoutKey("job", j.Name, i%2 == 0)})
		}
	}
	for i, n := range [...]int{2, 3, 2} {
		c := layout.Choice{Key: layout.Key{Key: string("MVL"[i]), Code: fmt.Sprint("layout-choice-", i), Does: words.T([...]words.ID{"layout.choice-arming", "layout.choice-receiver", "layout.choice-loss"}[i])}}
		for o := range n {
			c.Options = append(c.Options, tell.LayoutOption(i, o))
		}
		l.Choices = append(l.Choices, c)
	}
	return s
}

// handRadio is a radio with full sticks and, on channel 5 and up, switches with so many positions each.
func handRadio(name string, positions ...int) handset.Radio {
	r := handset.Radio{Name: name, StickMode: 2, Measured: true}
	for c := range int8(4) {
		r.Controls = append(r.Controls, handset.Control{Channel: c, Low: pulse.Low, Rest: pulse.Centre, High: pulse.High, Noise: 9})
	}
	for i, n := range positions {
		c := handset.Control{Channel: int8(4 + i), Kind: handset.Switch, Source: fmt.Sprintf("axis %d", 5+i)}
		for k := range n {
			c.Positions = append(c.Positions, handset.Position{Width: pulse.Low + pulse.Width(k*int(2*pulse.Travel)/(n-1)) + 3, Spread: pulse.Width(8 + 5*k)})
		}
		r.Controls = append(r.Controls, c)
	}
	return r
}

const twelveCraft = `propsoff: craft 1
name: Northern Moorland Works Desktop Craft, the Second Edition
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6, second: 7}
second-switch: {on: {from: 1700, to: 2180}}
modes: {angle: [{from: 860, to: 1180}, {from: 1210, to: 1400}], horizon: {from: 1500, to: 1690}, rate: {from: 1900, to: 2040}}
jobs:
  finder sound in darkness: {channel: 8, on: {from: 1000, to: 1200}}
  lights at all four arms: {channel: 8, on: [{from: 860, to: 995}, {from: 1000, to: 1410}]}
  camera: {channel: 9, on: {from: 1600, to: 2180}}
  drop one parcel: {channel: 5, on: {from: 1700, to: 2180}}
  a: {channel: 10, on: {from: 1600, to: 2180}}
  b: {channel: 11, on: {from: 1600, to: 2180}}
  c: {channel: 12, on: {from: 1600, to: 2180}}
  d: {channel: 13, on: {from: 1600, to: 2180}}
  e: {channel: 14, on: {from: 1600, to: 2180}}
`

var layoutScenes = []struct {
	name string
	make func(t testing.TB) *uitest.Stage
	says []string
}{
	{"built-in", func(t testing.TB) *uitest.Stage {
		return laidOut(t, builtInText(t), handRadio("Moorland Desk 7", 2, 3))
	},
		[]string{"arms", "disarms", "angle, does not wake air mode", "rate, wakes air mode", "called out: nothing"}},
	{"gaps", func(t testing.TB) *uitest.Stage {
		r := handRadio("Moorland Desk 7", 3, 6)
		r.Controls[5].Positions[1].Width = pulse.Micros(1389)
		for c := range r.Controls { // the craft's own order of channels
			switch r.Controls[c].Channel {
			case 4:
				r.Controls[c].Channel = 7
			case 5:
				r.Controls[c].Channel = 4
			}
		}
		return laidOut(t, uitest.GapCraft, r)
	}, []string{"rate, outside every span", "No mode span holds this position"}},
	{"twelve switches", func(t testing.TB) *uitest.Stage {
		r := handRadio(uitest.LongName, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6)
		for i := range r.Controls {
			if i%2 == 0 && r.Controls[i].Kind == handset.Switch {
				r.Controls[i].Called = "long black lever, front left corner"
			}
		}
		s := laidOut(t, twelveCraft, r)
		layout.Of(s.V).Chosen, layout.Of(s.V).At = 3, 1
		path := "/home/pilot/.config/propsoff/crafts/" + strings.Repeat("northern-moorland-", 5) + ".yaml"
		s.Names = append(s.Names, path)
		layout.Of(s.V).Said = words.T("layout.saved", words.Args{"path": words.Quote(path), "named": words.Flag(false), "page": words.Flag(true), "craft": words.Quote("")})
		return s
	}, []string{" of 12 at a time", "called out: 22"}},
	{"eight switches", func(t testing.TB) *uitest.Stage {
		s := laidOut(t, twelveCraft, handRadio("Moorland Desk 7", 2, 3, 2, 2, 3, 2, 3, 2))
		layout.Of(s.V).Chosen, layout.Of(s.V).At = 1, 2
		return s
	}, []string{"No position reaches the span of angle (1210–1400)."}},
	{"never sinks", func(t testing.TB) *uitest.Stage {
		text := strings.Replace(builtInText(t), "when-lost: cut", "when-lost: sink", 1)
		text = strings.Replace(text, "when-silent: falls-silent", "when-silent: sends-stored\n  stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, arm: 988, mode: 988}", 1)
		r := handRadio("Moorland Desk 7", 2, 3)
		r.Controls[1].Job, r.Controls[1].Assumed = "roll", true
		r.Controls[4].Job, r.Controls[4].Assumed = "arm", true
		for i := range r.Controls[4].Positions {
			r.Controls[4].Positions[i].Spread = 0
		}
		return laidOut(t, text, r)
	}, []string{"The craft is set to sink on a lost link, and never does with this receiver: the stored values disarm it at once.", "as far as its file says: full travel is assumed for roll and arm switch."}},
	{"no radio", func(t testing.TB) *uitest.Stage {
		f, err := craftfile.Parse("t", []byte(builtInText(t)))
		require.NoError(t, err)
		l := f.Config().Layout
		r := handset.Ideal([]handset.Want{{Channel: l.Throttle, Job: "throttle"}, {Channel: l.Roll}, {Channel: l.Pitch}, {Channel: l.Yaw}, {Channel: l.Arm, Kind: handset.Switch}, {Channel: l.Mode, Kind: handset.Switch}})
		return laidOut(t, builtInText(t), r)
	}, []string{"ideal radio: no radio file is in use"}},
	{"everything wrong", func(t testing.TB) *uitest.Stage {
		r := handRadio(uitest.LongName, 2)
		r.Controls[0].Low, r.Controls[4].Positions[0].Width = pulse.Micros(1012), pulse.Micros(1720)
		r.Controls = append(r.Controls[:2], r.Controls[3:]...)
		return laidOut(t, uitest.FullCraft, r)
	}, []string{"never disarms", "no lower than 1012 µs", "The radio sends nothing on channel 6, where the mode should be.", "The radio sends nothing on channel 3 (pitch)."}},
	{"no craft", func(t testing.TB) *uitest.Stage {
		s := uitest.Ready(t)
		*layout.Of(s.V) = layout.View{Of: tell.LayoutNo("no-craft")}
		return s
	}, []string{"No craft file is at hand"}},
}

func builtInText(t testing.TB) string {
	_, text, ok := assets.Craft(assets.BuiltIn)
	require.True(t, ok)
	return string(text)
}

func TestLayoutInEveryScene(t *testing.T) {
	for _, sc := range layoutScenes {
		for _, class := range []bool{false, true} {
			name := map[bool]string{false: "layout " + sc.name, true: "layout class " + sc.name}[class]
			t.Run(name, func(t *testing.T) {
				s := sc.make(t)
				s.V.Class, s.V.Full = class, class
				if class {
					uitest.Check(t, name, s, layout.Draw)
					return
				}
				uitest.Check(t, name, s, layout.Draw, sc.says...)
			})
		}
	}
}

// In class view sentences and values keep their size.
func TestLayoutIsReadableFromAfar(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, sc := range layoutScenes {
		s := sc.make(t)
		s.V.Class = true
		for _, z := range uitest.Sizes {
			p.Reset(z.W, z.H, 0, nil)
			layout.Draw(p, s.V)
			h := min(z.H, z.W*600/960)
			if sc.name == "twelve switches" && z.H == 600 {
				assert.Contains(t, uitest.Texts(p), "3 of 6 positions, ↑ ↓ for the others")
			}
			for _, it := range p.Items() {
				if it.Kind == ink.KindText {
					assert.GreaterOrEqual(t, it.Size, ui.ClassText*h, "%s %v: %q", sc.name, z, it.Text)
				}
			}
		}
	}
}

// Every key that is offered can be clicked, and so can every position that is drawn.
func TestEveryLayoutKeyAndPositionCanBeClicked(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, sc := range layoutScenes {
		s := sc.make(t)
		p.Reset(960, 600, 0, nil)
		layout.Draw(p, s.V)
		hits := map[string]string{}
		for _, h := range p.Hits() {
			hits[h.Name] = h.Key
		}
		l := layout.Of(s.V)
		keys := l.Doing
		for _, c := range l.Choices {
			keys = append(keys, c.Key)
		}
		for _, k := range keys {
			if _, there := hits[k.Code]; !there && slices.Contains([]string{"Left", "Right", "Up", "Down"}, k.Key) {
				continue // held below: what they go to can be clicked itself
			}
			assert.Equal(t, k.Key, hits[k.Code], "%s: %s", sc.name, k.Code)
		}
		for i := range l.Levers {
			if i != l.Chosen && len(l.Levers[i].Positions) > 0 {
				_, whole := hits[fmt.Sprintf("lever-%d", i+1)]
				_, position := hits[fmt.Sprintf("lever-%d-1", i+1)]
				assert.True(t, whole || position, "%s: lever %d", sc.name, i+1)
			}
			for k := range l.Levers[i].Positions {
				if i == l.Chosen {
					assert.Contains(t, hits, fmt.Sprintf("lever-%d-%d", i+1, k+1), sc.name)
				}
			}
		}
		if len(l.Levers) > 0 {
			assert.Contains(t, hits, fmt.Sprintf("lever-%d-%d", l.Chosen+1, l.At+1), sc.name)
		}
		for name := range hits {
			if lever, position, ok := layout.LeverOf(name); ok {
				assert.Less(t, lever, len(l.Levers))
				if position >= 0 {
					assert.Less(t, position, len(l.Levers[lever].Positions))
				}
			}
		}
	}
	for _, bad := range []string{"lever-", "lever-0", "lever-x-1", "lever-1-0", "lever-1-x", "help"} {
		_, _, ok := layout.LeverOf(bad)
		assert.False(t, ok, bad)
	}
}

// The lever stands at the live position: the one word that a pilot looks for.
func TestTheLeverStandsAtTheLivePosition(t *testing.T) {
	s := laidOut(t, builtInText(t), handRadio("Moorland Desk 7", 2, 3))
	p := ink.NewPage(960, 600, 0, nil)
	for live := range 3 {
		layout.Of(s.V).Levers[1].Live = live
		p.Reset(960, 600, 0, nil)
		layout.Draw(p, s.V)
		d := ink.Describe(p)
		for i := range 3 {
			assert.Len(t, d.Named(fmt.Sprintf("place 2-%d lever", i+1)), map[bool]int{true: 1}[i == live])
		}
	}
}

// The largest scene, against the sixteen milliseconds of a picture.
func BenchmarkLayout(b *testing.B) {
	s := layoutScenes[2].make(b)
	p := ink.NewPage(1920, 1080, 0, nil)
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		layout.Draw(p, s.V)
	}
}
