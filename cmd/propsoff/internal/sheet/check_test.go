package sheet

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input"
	ck "propsoff/input/check"
	"propsoff/input/inputtest"
	"propsoff/input/radio"
	"propsoff/sim/pulse"
)

// checkedHands is a radio with n controls besides its four sticks, and hands that do whatever is asked for; faulty makes some of
// it wrong, long gives every control a long name.
type checkedHands struct {
	r    *inputtest.Radio
	file radio.File
	info input.Info
	at   int64
}

func newCheckedHands(others int, faulty, long bool) *checkedHands {
	info := input.Info{Name: "Moorland Desk 7", Way: "event interface", Buttons: 4}
	for i := range 4 + others {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	r := inputtest.NewRadio(info)
	h := &checkedHands{r: r, info: info}
	s := radio.Own(info.Axes[0])
	h.file = radio.File{Device: radio.DeviceOf(info), StickMode: 2}
	for i, job := range []string{"throttle", "roll", "pitch", "yaw"} {
		h.file.Controls = append(h.file.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: i, Scale: &s, Stays: i == 0})
	}
	r.Rest(0, 0)
	for i := range others {
		c := radio.Control{Job: fmt.Sprintf("channel %d", 5+i), Form: radio.Axis, Axis: 4 + i, Scale: &s, Side: radio.Side(i % 4)}
		switch {
		case i == 0:
			c.Job = "arm"
			c.Positions = []radio.Position{{At: 0}, {At: 4094}}
		case i == 1:
			c.Job = "mode"
			fallthrough
		case i%3 > 0:
			c.Positions = []radio.Position{{At: 0}, {At: 2046}, {At: 4094}}
		default:
			c.Stays = true
		}
		if long {
			c.Called = longName
		}
		r.Rest(4+i, 0)
		h.file.Controls = append(h.file.Controls, c)
	}
	if faulty {
		r.ShortTravel(0, 48, 2047)
		r.ShortTravel(3, 0, 1823)
		r.Noise(1, 8, 5)
		r.Rest(2, 1082)
		r.Spike(100_000, 3, 1800)
		r.Spike(200_000, 3, 1800)
	}
	return h
}

func (h *checkedHands) move(axis int, to int32, us int64) { h.r.Move(h.at, us, axis, to); h.at += us }

// whole does everything; rest is where pitch comes to rest.
func (h *checkedHands) whole(rest int32) {
	h.at = 300_000
	for _, to := range [2][4]int32{{2047, 2047, 2047, 2047}, {0, 1023, rest, 1023}} {
		from := h.at
		for a := range 4 {
			h.at = from
			h.move(a, to[a], 300_000)
		}
		h.at += 2_300_000
	}
	h.move(0, 2047, 400_000)
	h.at += 200_000
	h.move(0, 0, 400_000)
	h.at += 2_300_000
	for _, a := range []int{3, 2, 1} {
		h.move(a, 2047, 300_000)
		h.at += 600_000
		h.move(a, 0, 600_000)
		h.at += 600_000
		h.move(a, 2047, 600_000)
		h.at += 600_000
		h.move(a, map[int]int32{1: 1023, 2: rest, 3: 1023}[a], 200_000)
		h.at += 100_000
	}
	for i := range len(h.info.Axes) - 4 {
		for _, to := range []int32{1023, 2047, 0} {
			if len(h.file.Controls[4+i].Positions) == 2 && to == 1023 {
				continue
			}
			us := int64(4000)
			if h.file.Controls[4+i].Stays {
				us = 300_000
			}
			h.move(4+i, to, us)
			h.at += 300_000
		}
	}
	h.at += 5_000_000
}

// view is what a screen would show after us microseconds (0: all of it).
func (h *checkedHands) view(t testing.TB, us int64) *ck.View {
	c, err := ck.New(ck.Config{Info: h.info, File: h.file, Names: input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "arm": 4, "mode": 5}}})
	require.NoError(t, err)
	if us == 0 {
		us = h.at
	}
	h.r.Until(us)
	for _, raw := range h.r.States(0) {
		if raw.At > us {
			break
		}
		c.Feed(&raw)
	}
	c.Tick(us)
	v := new(ck.View)
	c.View(v)
	return v
}

// checkStage shows a check on the stage; the bench sees the same sticks.
func checkStage(t testing.TB, v *ck.View) *stage {
	s := ready(t)
	s.v.Driver, s.v.DriverName, s.v.Next = Radio, "Moorland Desk 7", Keyboard
	s.v.Check = CheckView{Name: "Moorland Desk 7", Check: *v, Findings: v.Settled && v.Count[ck.Passes] < len(v.Items)}
	if v.Control >= 0 {
		s.v.Check.Selected = v.Control
	}
	for i := range v.Controls {
		if c := &v.Controls[i]; c.Channel >= 0 && c.Channel < pulse.Channels && c.Known {
			s.frame[c.Channel] = c.Width
		}
	}
	return s.send().wait(30)
}

type checkScene struct {
	name string
	make func(t testing.TB) *stage
	says []string
}

func checked(others int, faulty, long bool, us int64) func(t testing.TB) *stage {
	return func(t testing.TB) *stage {
		h := newCheckedHands(others, faulty, long)
		rest := int32(1023)
		if faulty {
			rest = 1082
		}
		h.whole(rest)
		return checkStage(t, h.view(t, us))
	}
}

var checkScenes = []checkScene{
	{"check begun", checked(2, false, false, 50_000), []string{"Push both sticks to the top right", "waits"}},
	{"check in the corners", checked(2, false, false, 700_000), []string{"Push both sticks to the top right", "2012"}},
	{"check under way", checked(4, false, false, 8_000_000), []string{"Move yaw", "throttle", "passes"}},
	{"check whole", checked(4, false, false, 0), []string{"Full and free: all"}},
	{"check with nothing to see to", func(t testing.TB) *stage {
		s := checked(4, false, false, 0)(t)
		s.v.Check.Findings = true
		return s
	}, []string{"Nothing to set."}},
	{"check faulty", checked(4, true, false, 0), []string{"throttle, low end: fails. 1012 µs; must be below 1000 µs.", "pitch, off centre: fails. +29.3 µs", "Do: ", "Why: "}},
	{"check faulty table", func(t testing.TB) *stage {
		s := checked(4, true, false, 0)(t)
		s.v.Check.Findings, s.v.Check.Selected = false, 0
		return s
	}, []string{"1012", "fails", "below 1000 µs"}},
	{"check of sixteen", checked(12, false, false, 9_000_000), []string{"channel 10", "low end"}},
	{"check of sixteen faulty", func(t testing.TB) *stage {
		s := checked(12, true, true, 0)(t)
		s.v.Check.Findings, s.v.Check.Selected = false, 3
		return s
	}, []string{"fails"}},
	{"check of sixteen levers", checked(12, false, true, 19_000_000), []string{"through all its positions"}},
	{"check unplugged", func(t testing.TB) *stage {
		h := newCheckedHands(3, false, false)
		h.whole(1023)
		v := h.view(t, 6_000_000)
		v.Ask, v.Control, v.Out = ck.AskPlug, -1, true
		return checkStage(t, v)
	}, []string{"The radio is unplugged"}},
	{"check of the radio", func(t testing.TB) *stage {
		s := checked(3, false, false, 0)(t)
		s.v.Check.Findings, s.v.Check.Selected = false, 7
		return s
	}, []string{"radio as a whole", "rate of reports", "1000 a second"}},
	{"check without a radio", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Check.Needs = phrase.CheckNeedsRadio(false, 0, "")
		return s
	}, []string{"No radio drives."}},
	{"check while playing", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Driver, s.v.DriverName, s.v.Next = Played, "demo pilot", Nobody
		s.v.Check.Needs = phrase.CheckNeedsRadio(true, 0, "")
		return s
	}, []string{"Something is being played"}},
}

func TestCheckInEveryScene(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, sc := range checkScenes {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			for _, class := range []bool{false, true} {
				s.v.Class, s.v.Full = class, class
				for _, z := range sizes {
					for _, theme := range themesAt(z) {
						for mode := 1; mode <= 4; mode++ {
							s.v.StickMode, s.v.Dark = mode, theme == ink.Dark()
							p.Reset(z.w, z.h, 0, theme)
							Check(p, s.v)
							report(t, fmt.Sprintf("%vx%v %s mode %d class %v", z.w, z.h, theme.Name, mode, class), p)
							if class {
								for _, it := range p.Items() {
									if it.Kind == ink.KindText {
										assert.GreaterOrEqual(t, it.Size, 0.035*min(z.h, z.w*600/960), "%v: %s", z, it.Text)
									}
								}
							}
							name := sc.name
							if class {
								name = "class " + name
							}
							if mode == 2 {
								draw(t, name, p)
							}
							if t.Failed() && *pictures == "" {
								return
							}
						}
					}
					if !class {
						all := texts(p)
						for _, want := range sc.says {
							assert.Contains(t, all, want, "%v", z)
						}
					}
				}
			}
		})
	}
}

// Every verdict has a shape and a word of its own, whatever the colour.
func TestVerdictsDifferInShapeAndWord(t *testing.T) {
	shapes, words := map[string]bool{}, map[string]bool{}
	for v := ck.Waiting; v < ck.VerdictCount; v++ {
		p := ink.NewPage(960, 600, 0, nil)
		newBoard(p, &View{}).verdictMark(100, 100, 10, v)
		shape := ""
		for _, it := range p.Items() {
			shape += fmt.Sprint(it.Kind, it.Fill != ink.None, len(p.Points(&it)), it.Dash.On > 0)
		}
		assert.False(t, shapes[shape], shape)
		assert.False(t, words[phrase.CheckVerdict(v)])
		shapes[shape], words[phrase.CheckVerdict(v)] = true, true
	}
}

// Whatever can be done on the sheet has its key there.
func TestCheckShowsItsKeys(t *testing.T) {
	s := checked(4, true, false, 0)(t)
	p := ink.NewPage(960, 600, 0, nil)
	Check(p, s.v)
	hits := map[string]string{}
	for _, h := range p.Hits() {
		hits[h.Name] = h.Key
	}
	assert.Equal(t, "O", hits["check-anew"])
	assert.Equal(t, "Enter", hits["check-findings"])
	assert.Equal(t, "PageUp", hits["check-above"])
	assert.Equal(t, "PageDown", hits["check-below"])
	s.v.Check.Needs = "x"
	p.Reset(960, 600, 0, nil)
	Check(p, s.v)
	for _, h := range p.Hits() {
		assert.NotContains(t, h.Name, "check-")
	}
	i, ok := CheckRowOf("check-row-3")
	assert.True(t, ok && i == 2)
	_, ok = CheckRowOf("check-row-")
	assert.False(t, ok)
}

func BenchmarkCheck(b *testing.B) {
	s := checked(12, true, false, 9_000_000)(b)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		Check(p, s.v)
	}
}
