package layout

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

type stillClock struct{}

func (stillClock) Now() int64    { return 1 }
func (stillClock) Passed() int64 { return 1 }

// noTake is a take that keeps nothing.
// radioPart is the part behind the layout sheet, with a learned radio: arm and mode on switches with positions, and one
// more switch on channel 9 without a job.
func radioPart(t *testing.T) *part {
	_, text, _ := assets.Craft(assets.BuiltIn)
	craft, err := craftfile.Parse("t.yaml", text)
	require.NoError(t, err)
	scale := &radio.Scale{Low: 0, Middle: 2047, High: 4094}
	axis := func(job string, n int, positions ...radio.Position) radio.Control {
		return radio.Control{Job: job, Form: radio.Axis, Axis: n, Scale: scale, Reach: &radio.Reach{Low: 0, Rest: 1024, High: 2047}, Positions: positions, Noise: 10}
	}
	at := func(raw int32, spread radio.Tenth) radio.Position {
		return radio.Position{At: radio.Half(2 * raw), Spread: spread}
	}
	file := &radio.File{Device: radio.Device{Name: "Moorland Desk 7"}, StickMode: 2, Controls: []radio.Control{
		axis("throttle", 0), axis("roll", 1), axis("pitch", 2), axis("yaw", 3),
		axis("arm", 4, at(0, 40), at(2047, 40)), axis("mode", 5, at(0, 10), at(1000, 10), at(2047, 10)), axis("channel 9", 6, at(0, 10), at(2047, 10)),
	}}
	l := live.New(live.Options{Craft: craft.Config(), Clock: stillClock{}})
	t.Cleanup(func() { l.Close() })
	s := &screen.Screen{Options: screen.Options{Loop: l, Craft: craft, CraftPath: "t.yaml"}}
	s.Options.Driver = whodrives.New(whodrives.Options{Loop: l, Clock: stillClock{}})
	s.Drilling, s.Record = func() bool { return false }, &screen.RecordPart{S: s}
	s.Driving = whodrives.View{Who: whodrives.Radio, File: file, Name: file.Device.Name}
	s.NoteRadio()
	p := &part{s: s}
	p.Open()
	p.Turn()
	p.Fill(s.View())
	return p
}

var said = words.English().Say

func offered(v *View) (out []string) {
	for _, k := range v.Doing {
		out = append(out, k.Code)
	}
	return out
}

func TestALearnedRadioGivesItsMeasuredPositions(t *testing.T) {
	p := radioPart(t)
	v := p.s.View()
	require.Len(t, Of(v).Levers, 3)
	assert.Equal(t, "What each switch does: craft Teasel with Moorland Desk 7.", said(Of(v).Of))
	arm := Of(v).Levers[0]
	require.Len(t, arm.Positions, 2)
	// 4 raw steps, 2047 of which make 1024 µs: 2.001 µs, rounded up to 17 eighths (2.125 µs) and those to a tenth.
	assert.Equal(t, "2012 µs, spread 2.2", said(arm.Positions[1].Value))
	assert.Equal(t, "channel 9", said(Of(v).Levers[2].Name))
	require.Len(t, Of(v).Levers[2].Notes, 1)
	assert.Equal(t, "No job uses this switch.", said(Of(v).Levers[2].Notes[0]))

	// The live position lights up.
	v.Snap.In.HasSent = true
	v.Snap.In.Sent[4], v.Snap.In.Sent[5], v.Snap.In.Sent[8] = pulse.High-20, pulse.Centre, pulse.Missing
	p.Fill(v)
	assert.Equal(t, []int{1, 1, -1}, []int{Of(v).Levers[0].Live, Of(v).Levers[1].Live, Of(v).Levers[2].Live})

	// A control that the radio file calls arm or mode would follow its job, so these are not given to another switch; the
	// second switch has no control of its name and may come here.
	p.Key("Right", true)
	p.Key("Right", true)
	p.Fill(v)
	assert.Equal(t, 2, Of(v).Chosen)
	assert.NotContains(t, offered(Of(v)), "layout-arm")
	assert.NotContains(t, offered(Of(v)), "layout-mode-angle")
	assert.Contains(t, offered(Of(v)), "layout-second")
	assert.False(t, p.Key("Semicolon", true))
	p.Key("Up", true)
	p.Fill(v)
	p.Key("Quote", true)
	p.Fill(v)
	cfg := p.file.Config()
	assert.Equal(t, int8(8), cfg.Layout.Second)
	assert.Equal(t, "second switch", said(Of(v).Levers[2].Name))

	// A new job stands on the chosen switch, not on a channel that the radio does not send.
	p.Key("0", true)
	p.s.Type("lit-")
	p.s.Written().Back()
	p.s.EndWriting(true)
	p.Fill(v)
	require.Len(t, p.file.More(), 1)
	assert.Equal(t, craftfile.Job{Name: "lit", Channel: 8, Spans: p.file.More()[0].Spans}, p.file.More()[0])
	assert.True(t, slices.ContainsFunc(Of(v).Calls, func(c Call) bool {
		return said(c.Text) == "second switch + lit at 2012: Two jobs at one position: second switch on; lit on."
	}))

	// Told once more at its only position it is on nowhere, and goes.
	p.Key("1", true)
	p.Fill(v)
	assert.Empty(t, p.file.More())
}

// Keys may come faster than pictures: the highest position of one switch may be more than the next has.
func TestKeysFasterThanPictures(t *testing.T) {
	p := radioPart(t)
	p.Key("Right", true) // to the mode switch
	p.Key("Up", true)
	p.Key("Up", true)
	p.Fill(p.s.View())
	require.Equal(t, 2, Of(p.s.View()).At)
	p.Key("Left", true) // to the arm switch, which has two
	assert.True(t, p.Key("0", true))
	p.s.Type("x")
	p.s.EndWriting(true)
	require.Len(t, p.file.More(), 1)
	assert.Equal(t, []layout.Span{{Low: pulse.Micros(1500), High: pulse.Highest}}, p.file.More()[0].Spans, "the upper of the two")
	p.Fill(p.s.View())
	assert.Equal(t, []int{0, 1}, []int{Of(p.s.View()).Chosen, Of(p.s.View()).At})
}

// What is saved comes on the bench at once, but for what is played there and for a drill, which has a craft of its own until it has ended.
func TestWhenASavedCraftCounts(t *testing.T) {
	for _, c := range []struct {
		who   whodrives.Who
		drill bool
		says  string
	}{
		{whodrives.Radio, false, "The bench flies it now"},
		{whodrives.Script, false, "What is played goes on"},
		{whodrives.Radio, true, "A drill runs, with a craft of its own; the bench flies yours as soon as it has ended"},
	} {
		t.Setenv("XDG_CONFIG_HOME", t.TempDir())
		p := radioPart(t)
		p.shipped = true
		p.s.Driving.Who = c.who
		if c.drill {
			p.s.Drilling = func() bool { return true }
		}
		was := *p.s.Options.Loop.Craft()
		p.Key("Slash", true)
		p.Fill(p.s.View())
		require.True(t, p.unsaved())
		p.Key("Enter", true)
		p.Fill(p.s.View())
		assert.Contains(t, said(p.Said), c.says)
		assert.Contains(t, said(p.Said), "teasel.yaml")
		assert.False(t, p.unsaved())
		now := c.who == whodrives.Radio && !c.drill
		assert.Equal(t, now, *p.s.Options.Loop.Craft() != was)
		assert.Equal(t, now, p.s.Options.Craft == p.file)
		if !c.drill {
			continue
		}
		p.Open()
		p.Turn()
		assert.Equal(t, was, *p.s.Options.Loop.Craft(), "the drill still runs")
		assert.False(t, p.unsaved())
		p.s.Drilling = func() bool { return false }
		p.Turn()
		assert.NotZero(t, p.s.Options.Loop.Craft().Arming.SinkSlots)
		assert.Same(t, p.file, p.s.Options.Craft)
	}
}

// Where no channel is free, the chosen switch is to arm: one that has a job cannot, and it is said which can.
func TestASwitchIsChosenToArm(t *testing.T) {
	p := radioPart(t)
	file := p.s.Driving.File
	for c := 7; c <= pulse.Channels; c++ {
		file.Controls = append(file.Controls, radio.Control{Job: "channel " + strconv.Itoa(c), Form: radio.Axis, Axis: 6, Positions: file.Controls[6].Positions})
	}
	file.Controls = slices.Delete(file.Controls, 6, 7)
	file.Controls[4].Job = "channel 5"
	do := func(code string) {
		require.True(t, p.Hit(code), code)
		p.Fill(p.s.View())
	}
	p.Turn()
	do("layout-method")
	require.True(t, p.file.Config().Layout.Arm == layout.NoChannel)
	p.undo = nil // as if the file had been read so: no switch ever armed
	for p.lever().Channel != 5 {
		do("layout-after")
	}
	do("layout-method")
	assert.Equal(t, "Choose a switch that has no job yet, then change the arming method: it is to arm.", said(p.Said))
	do("layout-after")
	do("layout-method")
	assert.EqualValues(t, 6, p.file.Config().Layout.Arm)
}

// A craft file that cannot be written is said, with the changes kept.
func TestNotSavedIsSaid(t *testing.T) {
	p := radioPart(t)
	p.Key("Slash", true)
	p.Fill(p.s.View())
	p.Key("Enter", true)
	p.Fill(p.s.View())
	assert.Contains(t, said(p.Said), "Not saved")
	assert.True(t, p.unsaved())
}

func TestNoCraftFile(t *testing.T) {
	p := &part{s: &screen.Screen{}}
	p.Open()
	p.Turn()
	var v ui.View
	p.Fill(&v)
	for _, k := range []string{"A", "L", "Enter", "Up", "E", "N"} {
		p.Key(k, true)
		p.Fill(&v)
	}
	assert.Contains(t, said(Of(&v).Of), "No craft file")
	assert.False(t, p.Act(ui.Leave))
}

// A mode without a key could be given to no position.
func TestEachModeHasAKeyOfItsOwn(t *testing.T) {
	of := map[string]string{}
	for m, key := range modeKeys {
		code := layout.Mode(m).Code()
		if !assert.NotEmpty(t, key, "the mode %s has no key: give it one in modeKeys in ui/layout/edit.go", code) {
			continue
		}
		assert.Empty(t, of[key], "%s has the key of that", code)
		assert.NotContains(t, "ASNEZMVL", key, "%s has a key of the sheet's own", code)
		of[key] = code
	}
}
