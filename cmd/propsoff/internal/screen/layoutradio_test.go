package screen

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/coach"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/input/radio"
	"propsoff/sim/craftfile"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

type stillClock struct{}

func (stillClock) Now() int64    { return 1 }
func (stillClock) Passed() int64 { return 1 }

// noTake is a take that keeps nothing.
// radioPart is the part behind the layout sheet, with a learned radio: arm and mode on switches with positions, and one
// more switch on channel 9 without a job.
func radioPart(t *testing.T) *layoutPart {
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
	l := loop.New(loop.Options{Craft: craft.Config(), Clock: stillClock{}})
	t.Cleanup(func() { l.Close() })
	s := &Screen{o: Options{Loop: l, Craft: craft, CraftPath: "t.yaml"}}
	s.o.Driver = drive.New(drive.Options{Loop: l, Clock: stillClock{}})
	s.drills, s.record = &drillsPart{s: s, o: &s.o.Drills}, &recordPart{s: s}
	s.driver = drive.View{Who: drive.Radio, File: file, Name: file.Device.Name}
	s.noteRadio()
	p := &layoutPart{s: s}
	p.open()
	p.turn()
	p.fill(&s.view)
	return p
}

func codes(v *sheet.LayoutView) (out []string) {
	for _, k := range v.Doing {
		out = append(out, k.Code)
	}
	return out
}

func TestALearnedRadioGivesItsMeasuredPositions(t *testing.T) {
	p := radioPart(t)
	v := &p.s.view
	require.Len(t, v.Layout.Levers, 3)
	assert.Equal(t, "Craft Teasel with Moorland Desk 7.", v.Layout.Of)
	arm := v.Layout.Levers[0]
	require.Len(t, arm.Positions, 2)
	// 4 raw steps, 2047 of which make 1024 µs: 2.001 µs, rounded up to 17 eighths (2.125 µs) and those to a tenth.
	assert.Equal(t, "2012 µs, spread 2.2", arm.Positions[1].Value)
	assert.Equal(t, "channel 9", v.Layout.Levers[2].Name)
	assert.Equal(t, []string{"No job uses this switch."}, v.Layout.Levers[2].Notes)

	// The live position lights up.
	v.Snap.In.HasSent = true
	v.Snap.In.Sent[4], v.Snap.In.Sent[5], v.Snap.In.Sent[8] = pulse.High-20, pulse.Centre, pulse.Missing
	p.fill(v)
	assert.Equal(t, []int{1, 1, -1}, []int{v.Layout.Levers[0].Live, v.Layout.Levers[1].Live, v.Layout.Levers[2].Live})

	// A control that the radio file calls arm or mode would follow its job, so these are not given to another switch; the
	// second switch has no control of its name and may come here.
	p.key("Right", true)
	p.key("Right", true)
	p.fill(v)
	assert.Equal(t, 2, v.Layout.Chosen)
	assert.NotContains(t, codes(&v.Layout), "layout-arm")
	assert.NotContains(t, codes(&v.Layout), "layout-mode-angle")
	assert.Contains(t, codes(&v.Layout), "layout-second")
	assert.False(t, p.key("A", true))
	p.key("Up", true)
	p.fill(v)
	p.key("S", true)
	p.fill(v)
	cfg := p.file.Config()
	assert.Equal(t, int8(8), cfg.Layout.Second)
	assert.Equal(t, "second switch", v.Layout.Levers[2].Name)

	// A new job stands on the chosen switch, not on a channel that the radio does not send.
	p.key("N", true)
	for _, k := range []string{"L", "I", "T", "Minus", "Space", "Backspace", "Backspace", "Enter"} {
		p.key(k, true)
	}
	p.fill(v)
	require.Len(t, p.file.More(), 1)
	assert.Equal(t, craftfile.Job{Name: "lit", Channel: 8, Spans: p.file.More()[0].Spans}, p.file.More()[0])
	assert.True(t, slices.ContainsFunc(v.Layout.Calls, func(c sheet.LayoutCall) bool { return c.Text == "Two jobs at one position: second switch on; lit on." }))

	// Told once more at its only position it is on nowhere, and goes.
	p.key("1", true)
	p.fill(v)
	assert.Empty(t, p.file.More())
}

// What is saved comes on the bench at once, but for what is played there and for a drill, which has a craft of its own until it has ended.
func TestWhenASavedCraftCounts(t *testing.T) {
	for _, c := range []struct {
		who   drive.Who
		drill bool
		says  string
	}{
		{drive.Radio, false, "The bench flies it now"},
		{drive.Script, false, "What is played goes on"},
		{drive.Radio, true, "A drill runs, with a craft of its own; the bench flies yours as soon as it has ended"},
	} {
		t.Setenv("XDG_CONFIG_HOME", t.TempDir())
		p := radioPart(t)
		p.shipped = true
		p.s.driver.Who = c.who
		if c.drill {
			p.s.drills.was, p.s.drills.run = true, coach.View{On: true}
		}
		was := *p.s.o.Loop.Craft()
		p.key("L", true)
		p.fill(&p.s.view)
		require.True(t, p.unsaved())
		p.key("Enter", true)
		p.fill(&p.s.view)
		assert.Contains(t, p.said, c.says)
		assert.Contains(t, p.said, "teasel.yaml")
		assert.False(t, p.unsaved())
		now := c.who == drive.Radio && !c.drill
		assert.Equal(t, now, *p.s.o.Loop.Craft() != was)
		assert.Equal(t, now, p.s.o.Craft == p.file)
		if !c.drill {
			continue
		}
		p.open()
		p.turn()
		assert.Equal(t, was, *p.s.o.Loop.Craft(), "the drill still runs")
		assert.False(t, p.unsaved())
		p.s.drills.was = false
		p.turn()
		assert.NotZero(t, p.s.o.Loop.Craft().Arming.SinkSlots)
		assert.Same(t, p.file, p.s.o.Craft)
	}
}

// Where no channel is free, the chosen switch is to arm: one that has a job cannot, and it is said which can.
func TestASwitchIsChosenToArm(t *testing.T) {
	p := radioPart(t)
	file := p.s.driver.File
	for c := 7; c <= pulse.Channels; c++ {
		file.Controls = append(file.Controls, radio.Control{Job: "channel " + strconv.Itoa(c), Form: radio.Axis, Axis: 6, Positions: file.Controls[6].Positions})
	}
	file.Controls = slices.Delete(file.Controls, 6, 7)
	file.Controls[4].Job = "channel 5"
	do := func(code string) {
		p.do(code)
		p.fill(&p.s.view)
	}
	p.turn()
	do("layout-method")
	require.True(t, p.file.Config().Layout.Arm == layout.NoChannel)
	p.undo = nil // as if the file had been read so: no switch ever armed
	for p.lever().Channel != 5 {
		do("layout-after")
	}
	do("layout-method")
	assert.Equal(t, "Choose a switch that has no job yet, then change the arming method: it is to arm.", p.said)
	do("layout-after")
	do("layout-method")
	assert.EqualValues(t, 6, p.file.Config().Layout.Arm)
}

// A craft file that cannot be written is said, with the changes kept.
func TestNotSavedIsSaid(t *testing.T) {
	p := radioPart(t)
	p.key("L", true)
	p.fill(&p.s.view)
	p.key("Enter", true)
	p.fill(&p.s.view)
	assert.Contains(t, p.said, "Not saved")
	assert.True(t, p.unsaved())
}

func TestNoCraftFile(t *testing.T) {
	p := &layoutPart{s: &Screen{}}
	p.open()
	p.turn()
	var v sheet.View
	p.fill(&v)
	for _, k := range []string{"A", "L", "Enter", "Up", "E", "N"} {
		p.key(k, true)
		p.fill(&v)
	}
	assert.Contains(t, v.Layout.Of, "No craft file")
	assert.False(t, p.act(sheet.Leave))
}
