package radio

import (
	"errors"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/input"
)

// Every language says each thing that can be wrong with a radio file.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("radio")
	info, names := sevenAxes(), eightJobs()
	for _, text := range []string{
		"x", "propsoff: rowan 1", "propsoff: radio 9",
		"propsoff: radio 1\ndevice: x\ncontrols: x\n",
		"propsoff: radio 1\ndevice: {vendor: x, name: " + strings.Repeat("x", 600) + "}\ncontrols:\n" +
			"  throttle: x\n  roll: {axis: 1, scale: [1], reach: x}\n  pitch: {axis: 3, positions: [x, x]}\n" +
			"  arm: {button: 1, scale: backwards, reach: {}, positions: [], noise: 1, stays: yes}\n" +
			"  finder: {axis: 7, sits: {where: face}}\n" +
			"  mode: {axis: 1, button: 1}\n  second: {buttons: [x, 1]}\n  channel 4: {}\n",
		"propsoff: radio 1\ncontrols:\n  arm: {button: 1, turned: yes}\n  second: {moves-with: second}\n  mode: {moves-with: mood}\n  channel 8: {button: 2}\n" +
			"  channel 9: {moves-with: channel 8, turned: yes}\n  channel 10: {moves-with: channel 11}\n  channel 11: {moves-with: channel 8}\n",
	} {
		_, err := Parse("radio.yaml", []byte(text), Known{&info, &names})
		room.Error(t, err)
	}

	arm := func(c Control) Control { c.Job = "arm"; return c }
	for _, c := range []Control{
		{Job: "channel 99"}, {Job: "channel-9"}, {Job: "armm"}, {Job: "a  b"}, {Job: "roll"}, {Job: "channel 1"}, arm(Control{}),
		arm(Control{Form: Axis, Axis: input.MaxAxes}), arm(Control{Form: Axis, Axis: 12}), arm(Control{Form: Axis, Axis: 0}),
		arm(Control{Form: Axis, Axis: 5, Scale: &Scale{}, Reach: &Reach{}, Noise: -1, Stays: true, Momentary: true, Side: 9, Called: strings.Repeat("x", 600)}),
		arm(Control{Form: Axis, Axis: 5, Stays: true, Positions: []Position{{1, 0}}}), arm(Control{Form: Axis, Axis: 5, Momentary: true}),
		arm(Control{Form: Axis, Axis: 5, Positions: []Position{{-farthest - 1, 0}, {4, -1}}}), arm(Control{Form: Axis, Axis: 5, Positions: []Position{{4, 0}, {4, 0}}}),
		arm(Control{Form: Axis, Axis: 5, Backwards: true, Positions: []Position{{4, 0}, {4, 0}}}),
		arm(Control{Form: Row, Buttons: []int{None, None}}), arm(Control{Form: Row, Buttons: []int{None, 3, None, input.MaxButtons, 100, 3}}),
		arm(Control{Form: Row, Buttons: []int{3}}),
		arm(Control{Form: Axis, Axis: 5, Spot: Spot{View: 7}}), arm(Control{Form: Axis, Axis: 5, Spot: Spot{Face, 1, 1, GoesUp}}),
		arm(Control{Form: Axis, Axis: 5, Side: Left, Spot: Spot{Face, 1, 1, GoesIn}}), {Job: "yaw", Form: Axis, Axis: 5, Side: Left, Spot: Spot{Face, 1, 1, GoesUp}},
		arm(Control{Form: Button, Buttons: []int{1, 2}, Noise: 1, Stays: true, Positions: []Position{{1, 0}}}),
	} {
		f, err := Parse("radio.yaml", []byte(written), Known{&info, &names})
		require.NoError(t, err)
		f.Controls, f.StickMode = append(f.Controls[:3:3], c), 7
		_, err = NewMapper(f, info, names)
		room.Error(t, err)
	}

	_, err := Store{}.Find(info)
	room.Error(t, err)
	file := filepath.Join(t.TempDir(), "file")
	f, err := Parse("radio.yaml", []byte(written), Known{})
	require.NoError(t, err)
	require.NoError(t, WriteFile(file, f, false))
	_, err = Store{Dir: file}.Find(info)
	room.Error(t, err)
	_, err = Store{Dir: filepath.Join(file, "below")}.Save(f)
	room.Error(t, err)
	require.False(t, errors.Is(err, fs.ErrNotExist))
	room.Error(t, WriteFile(file, File{StickMode: 2}, true))
	_, _, err = Store{Dir: t.TempDir()}.Take(File{StickMode: 2}, false)
	room.Error(t, err)
	full := Store{Dir: t.TempDir()}
	_, err = full.Save(f)
	require.NoError(t, err)
	f.StickMode = 3
	_, _, err = full.Take(f, false)
	room.Error(t, err)
	_, err = configFolder("linux", func(string) string { return "" })
	room.Error(t, err)
	_, err = NewSource(Config{})
	room.Error(t, err)

	room.Whole(t)
}
