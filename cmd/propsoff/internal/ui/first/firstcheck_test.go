package first

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
)

func TestARadioThatIsReadOtherwiseIsNotTheOneThatWasChecked(t *testing.T) {
	scale := radio.Scale{Low: 0, Middle: 2047, High: 4094}
	file := radio.File{Controls: []radio.Control{{Job: "throttle", Form: radio.Axis, Scale: &scale}, {Job: "roll", Form: radio.Axis, Axis: 1}}}
	p := &part{s: &screen.Screen{Driving: whodrives.View{Who: whodrives.Radio, File: &file, Info: input.Info{Name: "Moorland Desk 7", Vendor: 1, Product: 2}}}}
	d := &p.s.Driving
	assert.False(t, p.isChecked())
	p.checked = &screen.ControlsCheck{Device: radio.DeviceOf(d.Info), Controls: []radio.Control{file.Controls[0], file.Controls[1]}}
	assert.True(t, p.isChecked())
	other := d.Info
	other.Product = 3
	d.Info, other = other, d.Info
	assert.False(t, p.isChecked(), "another radio")
	d.Info = other
	turned := radio.Scale{Low: 4094, Middle: 2047, High: 0}
	file.Controls[0].Scale = &turned
	assert.False(t, p.isChecked(), "turned round")
	file.Controls[0].Scale = &scale
	assert.True(t, p.isChecked())
	d.Who = whodrives.Keyboard
	assert.False(t, p.isChecked())
	assert.True(t, p.needsCheck().Done)
	d.Who = whodrives.Demo
	assert.False(t, p.needsCheck().Done)
}

// A craft behind a receiver that goes on sending never notices a silent radio: that the radio was silent for a while shows it.
func TestSilenceThatACraftCannotNotice(t *testing.T) {
	on, off := int32(1), int32(0)
	tx := func(tick int64, a int32) happening.Happening {
		return happening.Happening{Tick: tick, Code: happening.Transmitter, A: a}
	}
	for _, c := range []struct {
		name   string
		onLoss link.OnLoss
		all    []happening.Happening
		shown  bool
	}{
		{"a second", link.RepeatsLast, []happening.Happening{tx(5000, off), tx(6000, on)}, true},
		{"stored values", link.SendsStored, []happening.Happening{tx(5000, off), tx(6000, on)}, true},
		{"too short", link.RepeatsLast, []happening.Happening{tx(5000, off), tx(5999, on)}, false},
		{"not yet back", link.RepeatsLast, []happening.Happening{tx(5000, off)}, false},
		{"the plug", link.RepeatsLast, []happening.Happening{{Tick: 10, Code: happening.Plug}, {Tick: 2000, Code: happening.Plug, A: 1}}, true},
		{"one that notices", link.FallsSilent, []happening.Happening{tx(5000, off), tx(6000, on)}, false},
		{"the machine slept", link.RepeatsLast, []happening.Happening{{Tick: 5000, Code: happening.Slept}, tx(5000, off), tx(9000, on)}, false},
		{"and then the pilot", link.RepeatsLast, []happening.Happening{{Tick: 5000, Code: happening.Slept}, tx(5000, off), tx(9000, on), tx(9500, off), tx(11_000, on)}, true},
	} {
		p := &part{s: &screen.Screen{Config: sim.Default()}}
		p.s.Config.Link.OnLoss = c.onLoss
		for i := range c.all {
			p.hear(&c.all[i], true)
		}
		assert.Equal(t, c.shown, p.view.Needs[NeedLinkLost].Done, c.name)
		p = &part{s: p.s}
		for i := range c.all {
			p.hear(&c.all[i], false)
		}
		assert.False(t, p.view.Needs[NeedLinkLost].Done, "%s, not by the pilot", c.name)
	}
}
