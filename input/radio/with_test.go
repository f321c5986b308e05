package radio

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// One piece of the radio on several channels: it is read, written and read again alike, and each reading moves them all.
func TestOneControlOnSeveralChannels(t *testing.T) {
	text := `propsoff: radio 1
device: {name: "Moorland Desk 7"}
stick-mode: 2
controls:
  throttle: {axis: 1, stays: yes}
  roll: {axis: 2}
  pitch: {axis: 3}
  yaw: {axis: 4}
  mode: {moves-with: arm, turned: yes}
  arm: {axis: 5, scale: {988: 0, 1500: 1000, 2012: 2000}, positions: [{at: 0, spread: 1}, {at: 500, spread: 1}, {at: 2000, spread: 1}]}
  channel 7: {moves-with: arm}
  channel 8: {buttons: [2, 3, none]}
  channel 9: {moves-with: channel 8, turned: yes}
  channel 10: {moves-with: roll, turned: yes}
`
	f, err := Parse("radio.yaml", []byte(text), Known{})
	require.NoError(t, err)
	again, err := Parse("radio.yaml", f.Marshal(), Known{})
	require.NoError(t, err)
	assert.Equal(t, f, again)
	info := input.Info{Buttons: 4}
	for range 5 {
		info.Axes = append(info.Axes, input.Axis{Min: 0, Max: 2000})
	}
	names := input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "arm": 4, "mode": 5}}
	m, err := NewMapper(f, info, names)
	require.NoError(t, err)
	raw := input.Raw{}
	raw.Axes[4], raw.Axes[1] = 500, 2000
	raw.Buttons[0] = 1 << 2
	var frame pulse.Frame
	m.Map(&raw, &frame)
	us := pulse.Micros
	assert.Equal(t, []pulse.Width{us(2012), us(1244), us(1756), us(1244)}, []pulse.Width{frame[1], frame[4], frame[5], frame[6]})
	assert.Equal(t, []pulse.Width{pulse.Centre, pulse.Centre, us(988)}, []pulse.Width{frame[7], frame[8], frame[9]})
	mode, _ := f.Control("mode")
	assert.Equal(t, []Position{{4000, 10}, {1000, 10}, {0, 10}}, mode.Positions)
}
