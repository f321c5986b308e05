package radio

import (
	"slices"
	"strings"
	"testing"

	"propsoff.example/input"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseTheWrittenFile(t *testing.T) {
	f, err := Parse("radio.yaml", []byte(written), Known{})
	require.NoError(t, err)
	require.Equal(t, File{
		Device:    Device{"Moorland Desk 7", 0x1f4a, 7, "A12", "1-1.2"},
		StickMode: 2,
		Controls: []Control{
			{Job: "throttle", Form: Axis, Axis: 2, Scale: &Scale{0, 4095, 8190}, Reach: &Reach{3, 12, 4092}, Stays: true},
			{Job: "roll", Form: Axis, Axis: 0, Scale: &Scale{8190, 4095, 0}},
			{Job: "pitch", Form: Axis, Axis: 1},
			{Job: "yaw", Form: Axis, Axis: 3, Backwards: true},
			{Job: "arm", Form: Button, Buttons: []int{4}},
			{Job: "mode", Form: Row, Buttons: []int{5, None, 7}},
			{Job: "channel 7", Form: Axis, Axis: 8, Stays: true},
		},
	}, f)
}

func TestMarshal(t *testing.T) {
	f, err := Parse("radio.yaml", []byte(written), Known{})
	require.NoError(t, err)
	require.Equal(t, header+`propsoff: radio 1
device: {name: "Moorland Desk 7", vendor: "1f4a", product: "0007", serial: A12, port: "1-1.2"}
stick-mode: 2
controls:
  throttle:  {axis: 3, scale: {988: 0, 1500: 2047.5, 2012: 4095}, reach: {low: 3, rest: 12, high: 4092}, stays: yes}
  roll:      {axis: 1, scale: {988: 4095, 1500: 2047.5, 2012: 0}}
  pitch:     {axis: 2}
  yaw:       {axis: 4, scale: backwards}
  arm:       {button: 5}
  mode:      {buttons: [6, none, 8]}
  channel 7: {axis: 9}
`, string(f.Marshal()))
}

func someFile(t *rapid.T) File {
	text := rapid.StringN(0, 20, 100)
	f := File{
		Device: Device{text.Draw(t, "name"), rapid.Uint16().Draw(t, "vendor"), rapid.Uint16().Draw(t, "product"),
			rapid.SampledFrom([]string{"", "on", "no", "~", "0012", "1:30", "A-12", "- x", "{a: b}", "#", "\"'\\"}).Draw(t, "serial"),
			text.Draw(t, "port")},
		StickMode: rapid.IntRange(1, 4).Draw(t, "stick mode"),
		Given:     rapid.Bool().Draw(t, "given"),
	}
	axes := rapid.Permutation(rangeOf(input.MaxAxes)).Draw(t, "axes")
	buttons := rapid.Permutation(rangeOf(input.MaxButtons)).Draw(t, "buttons")
	take := func(from *[]int) int { n := (*from)[0]; *from = (*from)[1:]; return n }
	jobs := append(Needed(), rapid.SliceOfNDistinct(rapid.SampledFrom(
		[]string{"arm", "second", "mode", "channel 1", "channel 9", "channel 16"}), 0, 6, rapid.ID[string]).Draw(t, "jobs")...)
	for _, job := range jobs {
		c := Control{Job: job}
		switch c.Form = Form(rapid.IntRange(1, 3).Draw(t, "form")); c.Form {
		case Axis:
			c.Axis = take(&axes)
			switch rapid.IntRange(0, 2).Draw(t, "scale") {
			case 0:
				c.Backwards = true
			case 1:
				s := someScale(t)
				c.Scale = &s
			}
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				c.Positions = somePositions(t, c)
				c.Momentary = rapid.Bool().Draw(t, "springs back")
			case 1:
				c.Stays = true
			}
			c.Noise = someTenth(t)
			if rapid.Bool().Draw(t, "reach") {
				low := rapid.Int32Range(-1<<31, 1<<31-2).Draw(t, "low")
				high := rapid.Int32Range(low+1, 1<<31-1).Draw(t, "high")
				c.Reach = &Reach{low, rapid.Int32Range(low, high).Draw(t, "rest"), high}
			}
		case Button:
			c.Buttons = []int{take(&buttons)}
		case Row:
			for range rapid.IntRange(2, 6).Draw(t, "positions") {
				c.Buttons = append(c.Buttons, take(&buttons))
			}
			if rapid.Bool().Draw(t, "none") {
				c.Buttons[rapid.IntRange(0, len(c.Buttons)-1).Draw(t, "where")] = None
			}
		}
		if c.Form != Axis {
			c.Momentary = rapid.Bool().Draw(t, "momentary")
		}
		c.Side = Side(rapid.IntRange(0, 3).Draw(t, "side"))
		if !slices.Contains(Needed(), job) && rapid.Bool().Draw(t, "placed") {
			c.Spot = someSpot(t, &c)
			c.Side = c.Spot.Side()
		}
		c.Called = rapid.OneOf(rapid.Just(""), rapid.SampledFrom([]string{"no", "left: front", "#", "12"}), text).Draw(t, "called")
		f.Controls = append(f.Controls, c)
	}
	return f
}

func someSpot(t *rapid.T, c *Control) Spot {
	place := rapid.Int16Range(0, 1000)
	most := GoesIn
	if c.Form == Axis && len(c.Positions) == 0 {
		most = TurnsBack
	}
	return Spot{View(rapid.IntRange(1, 3).Draw(t, "view")), place.Draw(t, "across"), place.Draw(t, "down"), Way(rapid.IntRange(1, int(most)).Draw(t, "way"))}
}

func someTenth(t *rapid.T) Tenth {
	return Tenth(rapid.OneOf(rapid.Int32Range(0, 200), rapid.Int32Range(0, 1<<31-1)).Draw(t, "tenths"))
}

func somePositions(t *rapid.T, c Control) []Position {
	places := rapid.SliceOfNDistinct(rapid.OneOf(rapid.Int64Range(0, 20), rapid.Int64Range(-int64(farthest), int64(farthest))), 2, MostPositions, rapid.ID[int64]).Draw(t, "places")
	slices.Sort(places)
	if c.Scale != nil && c.Scale.Low > c.Scale.High || c.Scale == nil && c.Backwards {
		slices.Reverse(places)
	}
	var out []Position
	for _, at := range places {
		out = append(out, Position{Half(at), someTenth(t)})
	}
	return out
}

func rangeOf(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := someFile(t)
		text := f.Marshal()
		back, err := Parse("radio.yaml", text, Known{})
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		require.Equal(t, f, back)
	})
}

// What springs back and what stays is said, or else told by where it rests: a spring takes a stick to its middle.
func TestWhatStaysIsWorkedOutFromRestAndReach(t *testing.T) {
	const scale = "scale: {988: 0, 1500: 2047.5, 2012: 4095}"
	for text, want := range map[string]bool{
		"throttle: {axis: 1, SCALE, reach: {low: 3, rest: 12, high: 4092}}":               true, // near its low end
		"throttle: {axis: 1, SCALE, reach: {low: 3, rest: 4080, high: 4092}}":             true,
		"throttle: {axis: 1, SCALE, reach: {low: 3, rest: 2040, high: 4092}}":             false,
		"throttle: {axis: 1, SCALE, reach: {low: 3, rest: 12, high: 4092}, stays: no}":    false,
		"throttle: {axis: 1, SCALE, reach: {low: 3, rest: 2040, high: 4092}, stays: yes}": true,
		"throttle: {axis: 1}":                                                   true, // nothing is known of it: what is usual
		"throttle: {axis: 1, stays: no}":                                        false,
		"roll: {axis: 1}":                                                       false,
		"roll: {axis: 1, stays: yes}":                                           true,
		"roll: {axis: 1, reach: {low: 0, rest: 1700, high: 4095}}":              false, // trimmed
		"roll: {axis: 1, reach: {low: 0, rest: 900, high: 4095}}":               true,
		"roll: {axis: 1, reach: {low: -2147483648, rest: 0, high: 2147483647}}": false,
		"mode: {axis: 1}":                                                       true,
		"mode: {axis: 1, reach: {low: 0, rest: 0, high: 4095}}":                 true,
		"mode: {axis: 1, reach: {low: 0, rest: 0, high: 4095}, positions: [{at: 0}, {at: 4095}]}": false, // a switch
		"arm: {button: 1}": false,
	} {
		job, _, _ := strings.Cut(text, ":")
		all := ""
		for i, other := range append(Needed(), job) {
			switch {
			case other != job:
				all += "  " + other + ": {axis: " + string(rune('2'+i)) + "}\n"
			case !strings.Contains(all, "  "+job+":"):
				all += "  " + strings.Replace(text, "SCALE", scale, 1) + "\n"
			}
		}
		f, err := Parse("radio.yaml", []byte("propsoff: radio 1\ncontrols:\n"+all), Known{})
		require.NoError(t, err, all)
		c, _ := f.Control(job)
		require.Equal(t, want, c.Stays, text)
		back, err := Parse("radio.yaml", f.Marshal(), Known{})
		require.NoError(t, err)
		require.Equal(t, f, back)
	}
}

func TestBadFiles(t *testing.T) {
	sticks := `  throttle: {axis: 1}
  roll: {axis: 2}
  pitch: {axis: 3}
  yaw: {axis: 4}
`
	head := "propsoff: radio 1\ncontrols:\n"
	for name, c := range map[string]struct {
		text string
		want []string // every line of the error
	}{
		"empty":      {"", []string{"radio.yaml:1:1: *"}},
		"binary":     {"\x7fELF\x00\x01", []string{"radio.yaml:1:*"}},
		"other file": {"propsoff: craft 1\nx: 1\n", []string{"radio.yaml:1:11: this is a craft file, and a radio file belongs here: give another file or name"}},
		"other mark": {"propsoff: rowan 1\nx: 1\n", []string{"radio.yaml:1:11: this is no radio file but `rowan 1`; a radio file begins with `propsoff: radio 1`"}},
		"version":    {"propsoff: radio 2\n", []string{"radio.yaml:1:11: this is `radio 2`, which this program cannot read; it reads `radio 1`"}},
		"no mark":    {"controls: {}\n", []string{"radio.yaml:1:1: the radio file has no field `propsoff`*"}},
		"no controls": {"propsoff: radio 1\n", []string{
			"radio.yaml:1:1: the radio file has no field `controls`*"}},
		"all at once": {`propsoff: radio 1
device: {name: x, vendor: 1f4, colour: red}
stick-mode: 5
controls:
  throtle: {axis: 3}
  roll: {axis: 3}
  pitch: {axis: 0, button: 4}
  arm: {button: x}
  mode: {buttons: [6, none, none, off]}
  second: {axis: 5, scale: {988: 1, 1500: 1, 2012: 7}, reach: {low: 4, rest: 3, high: 9}}
  channel 17: {axis: 7}
  channel 2: {axis: 40, scal: 3}
`, []string{
			"radio.yaml:2:27: `1f4` is no USB number; write four hexadecimal digits, such as \"1f4a\"",
			"radio.yaml:2:32: unknown field `colour`*",
			"radio.yaml:3:13: `5` is above 4*",
			"radio.yaml:5:3: `throtle` is no job: did you mean `throttle`? jobs are throttle, roll, pitch, yaw, arm, second, mode, or `channel 7`",
			"radio.yaml:5:3: yaw is missing; say which axis it is, such as `yaw: {axis: 3}`",
			"radio.yaml:6:16: axis 3 is throtle already; give roll another",
			"radio.yaml:7:10: pitch has more than one of axis, button, buttons and moves-with; keep one",
			"radio.yaml:8:17: `x` is not a number*",
			"radio.yaml:9:35: `off` is no button; write a button's number, or none",
			"radio.yaml:10:28: the scale of second must rise or fall*",
			"radio.yaml:10:63: the reach of second must have low <= rest <= high*",
			"radio.yaml:11:3: `channel 17` is no channel; channels are `channel 1` to `channel 16`",
			"radio.yaml:12:21: `40` is above 32*",
			"radio.yaml:12:25: unknown field `scal`*",
		}},
		"given": {"propsoff: radio 1\ngiven: perhaps\ncontrols:\n" + sticks, []string{"radio.yaml:2:8: `perhaps` cannot stand here*"}},
		"twice": {head + sticks + "  roll: {axis: 6}\n", []string{"radio.yaml:7:3: `roll` is given twice*"}},
		"moving with": {head + sticks + "  arm: {moves-with: arm}\n  second: {moves-with: mood}\n  mode: {button: 3}\n  channel 9: {moves-with: mode, turned: yes}\n  channel 10: {moves-with: channel 11}\n" +
			"  channel 11: {moves-with: roll}\n  channel 12: {axis: 9, turned: yes}\n  channel 13: {axis: 10, moves-with: roll}\n  channel 14: {moves-with: roll, noise: 3}\n", []string{
			"radio.yaml:7:21: arm cannot move with itself; name another job",
			"radio.yaml:8:24: second moves with mood, which this file does not have; name a job that it has",
			"radio.yaml:10:27: channel 9 cannot be turned: mode is one button, pressed or not; take a row of buttons",
			"radio.yaml:11:28: channel 10 moves with channel 11, which moves with another control itself; name that one",
			"radio.yaml:13:33: turned stands beside moves-with; a scale that runs the other way is `scale: backwards`",
			"radio.yaml:14:15: channel 13 has more than one of axis, button, buttons and moves-with; keep one",
			"radio.yaml:15:34: unknown field `noise`*"}},
		"two nones": {head + sticks + "  mode: {buttons: [none, 3, none]}\n", []string{
			"radio.yaml:7:29: `none` stands twice in mode*"}},
		"row of nones": {head + sticks + "  mode: {buttons: [none, none, none]}\n", []string{
			"radio.yaml:7:19: the row of mode has no button, so it could never be moved; give at least one, such as `[6, none, 8]`"}},
		"channels in other words": {head + sticks + "  ch7: {axis: 5}\n  CHAN_8: {axis: 6}\n  channel-9: {axis: 7}\n  ch17: {axis: 8}\n  channel10: {button: 1}\n  ch: {button: 2}\n", []string{
			"radio.yaml:7:3: `ch7` is no job: did you mean `channel 7`? *",
			"radio.yaml:8:3: `CHAN_8` is no job: did you mean `channel 8`? *",
			"radio.yaml:9:3: `channel-9` is no channel: did you mean `channel 9`? *",
			"radio.yaml:10:3: `ch17` is no job; *",
			"radio.yaml:11:3: `channel10` is no channel: did you mean `channel 10`? *",
			"radio.yaml:12:3: `ch` is no job; *"}},
		"short row": {head + sticks + "  mode: {buttons: [3]}\n", []string{"radio.yaml:7:19: *"}},
		"button twice": {head + sticks + "  mode: {buttons: [3, 4]}\n  arm: {button: 4}\n", []string{
			"radio.yaml:8:17: button 4 belongs to mode already; give arm another"}},
		"same button in a row": {head + sticks + "  mode: {buttons: [3, 3]}\n", []string{
			"radio.yaml:7:23: button 3 belongs to mode already; give mode another"}},
		"channel of a job": {head + sticks + "  channel 3: {axis: 6}\n", []string{
			"radio.yaml:7:3: throttle and channel 3 are both channel 3 for this craft; keep one"}},
		"beyond the device": {head + sticks + "  arm: {button: 21}\n  mode: {axis: 10}\n", []string{
			"radio.yaml:7:17: button 21 of arm: this radio has 20 buttons",
			"radio.yaml:8:16: axis 10 of mode: this radio has 9 axes"}},
		"scale of a button": {head + sticks + "  arm: {button: 2, scale: backwards, reach: {low: 1, rest: 1, high: 2}}\n", []string{
			"radio.yaml:7:27: only an axis has a scale*", "radio.yaml:7:45: only an axis has a reach*"}},
		"findings in the wrong place": {head + sticks + `  arm: {button: 2, positions: [{at: 1}, {at: 2}], noise: 1, stays: yes}
  mode: {axis: 6, stays: yes, momentary: yes}
  second: {axis: 7, momentary: yes}
  channel 9: {axis: 5, stays: yes, positions: [{at: 1}, {at: 2}]}
`, []string{
			"radio.yaml:7:31: only an axis has positions; each button of a row is a position already",
			"radio.yaml:7:58: only an axis has noise; buttons need none",
			"radio.yaml:7:68: only an axis has stays; a button that springs back is `momentary: yes`",
			"radio.yaml:8:26: mode cannot both stay and be momentary; keep one",
			"radio.yaml:9:32: second has no positions, so it is no switch; momentary is for a switch or button, leave it out",
			"radio.yaml:10:31: channel 9 has positions, so it is a switch; stays is for a stick or knob, leave it out",
		}},
		"bad findings": {head + sticks + `  arm: {axis: 5, positions: [{at: 9, spread: 0.25}, {at: 4.75}, {spread: 1}, {at: 3, atl: 3}, 7]}
  mode: {axis: 6, positions: [{at: 1}], noise: -1, side: middle}
  second: {axis: 7, positions: [{at: 4}, {at: 4}, {at: 3}], momentary: maybe, called: [x]}
  channel 9: {axis: 8, scale: backwards, positions: [{at: 4}, {at: 5}], noise: 300000000}
`, []string{
			"radio.yaml:7:46: `0.25` lies between two steps of 1/10: write `0.2` or `0.3`",
			"radio.yaml:7:58: `4.75` lies between two steps of 1/2: write `4.5` or `5`",
			"radio.yaml:7:65: the position has no field `at`*",
			"radio.yaml:7:86: unknown field `atl`*",
			"radio.yaml:7:95: *",
			"radio.yaml:8:30: the list has 1 item: write 2 to 12",
			"radio.yaml:8:48: `-1` is below 0*",
			"radio.yaml:8:58: `middle` cannot stand here*",
			"radio.yaml:9:42: the positions of second must rise from one to the next (low to high by its scale)",
			"radio.yaml:9:51: the positions of second must rise*",
			"radio.yaml:9:72: `maybe` cannot stand here*",
			"radio.yaml:9:87: *",
			"radio.yaml:10:63: the positions of channel 9 must fall from one to the next (low to high by its scale, which runs backwards)",
			"radio.yaml:10:80: `300000000` is above 214748364.7*",
		}},
		"no place": {head + sticks + `  arm: {button: 2, sits: {where: top, across: -1, down: 1001, goes: inwards}}
  mode: {axis: 6, sits: left}
  second: {axis: 7, sits: {where: face, across: 10.5, down: 3, gos: up}}
  channel 9: {axis: 5, sits: {where: back, across: 900, down: 3, goes: in}}
  channel 10: {axis: 8, side: left, sits: {where: back, across: 900, down: 3, goes: left}}
  channel 11: {button: 5, sits: {where: face, across: 1, down: 1}}
`, []string{
			"radio.yaml:7:34: `top` cannot stand here*",
			"radio.yaml:7:47: `-1` is below 0*",
			"radio.yaml:7:57: `1001` is above 1000*",
			"radio.yaml:7:69: `inwards` cannot stand here*",
			"radio.yaml:8:25: *",
			"radio.yaml:9:49: `10.5` is not a whole number*",
			"radio.yaml:9:64: unknown field `gos` in the place: did you mean `goes`?*",
			"radio.yaml:10:30: channel 9 is a knob or slider, which is not pressed; write which way it goes or turns",
			"radio.yaml:11:31: channel 10 sits at another side than side says; leave side out",
			"radio.yaml:12:33: the place has no field `goes`*",
		}},
		"place of a stick": {head + strings.Replace(sticks, "{axis: 1}", "{axis: 1, sits: {where: face, across: 1, down: 1, goes: up}}", 1), []string{
			"radio.yaml:3:29: throttle is a stick, and sticks have their places; leave sits out"}},
		"called for too long": {head + sticks + "  arm: {button: 2, called: " + strings.Repeat("a", 513) + "}\n", []string{
			"radio.yaml:7:28: this text is longer than 512 bytes; shorten it"}},
		"nothing behind a job":  {head + sticks + "  arm:\n", []string{"radio.yaml:7:7: nothing is written here*"}},
		"no part":               {head + sticks + "  arm: {}\n", []string{"radio.yaml:7:3: arm has neither an axis nor buttons*"}},
		"a quarter":             {head + "  throttle: {axis: 1, scale: {988: 0.25, 1500: 1, 2012: 2}}\n" + sticks[22:], []string{"radio.yaml:3:36: `0.25` lies between two steps*"}},
		"scale word":            {head + "  throttle: {axis: 1, scale: backward}\n" + sticks[22:], []string{"radio.yaml:3:30: *"}},
		"aliases":               {"a: &a [1, 2]\nb: [*a, *a]\n", []string{"radio.yaml:1:4: *", "radio.yaml:2:5: *", "radio.yaml:2:9: *"}},
		"controls is no group":  {"propsoff: radio 1\ncontrols: 7\n", []string{"radio.yaml:2:11: *"}},
		"a name that is a list": {"propsoff: radio 1\ndevice: {name: [a]}\ncontrols:\n" + sticks, []string{"radio.yaml:2:16: *"}},
	} {
		t.Run(name, func(t *testing.T) {
			info, names := sevenAxes(), eightJobs()
			_, err := Parse("radio.yaml", []byte(c.text), Known{&info, &names})
			require.Error(t, err)
			lines := strings.Split(err.Error(), "\n")
			for i, want := range c.want {
				require.Less(t, i, len(lines), "missing: %s", want)
				if short, cut := strings.CutSuffix(want, "*"); cut {
					require.True(t, strings.HasPrefix(lines[i], short), "%s\nwanted: %s", lines[i], want)
				} else {
					require.Equal(t, want, lines[i])
				}
			}
			require.Len(t, lines, len(c.want), "%v", err)
		})
	}
}

// The words none, on and off are what is written, quoted or not.
func TestWordsStayWords(t *testing.T) {
	f, err := Parse("radio.yaml", []byte(`propsoff: "radio 1"
device: {name: on, serial: no, port: 010}
controls:
  "throttle": {axis: 1}
  roll: {axis: 2}
  pitch: {axis: 3}
  yaw: {axis: "4"}
  mode: {buttons: [1, "none"]}
`), Known{})
	require.NoError(t, err)
	require.Equal(t, Device{Name: "on", Serial: "no", Port: "010"}, f.Device)
	require.Equal(t, 2, f.StickMode, "left out: 2")
	require.Equal(t, []int{0, None}, f.Controls[4].Buttons)
}

// Everything that learning can find of a control is written, and read back.
func TestFindings(t *testing.T) {
	const text = `propsoff: radio 1
device: {name: Desk}
stick-mode: 2
controls:
  throttle:  {axis: 1, scale: {988: 0, 1500: 2047.5, 2012: 4095}, reach: {low: 96, rest: 97, high: 4095}, noise: 0.9, stays: yes}
  roll:      {axis: 2, noise: 12}
  pitch:     {axis: 3}
  yaw:       {axis: 4}
  arm:       {axis: 5, scale: {988: 4095, 1500: 2047.5, 2012: 0}, reach: {low: 3, rest: 4090, high: 4090}, positions: [{at: 4090, spread: 0}, {at: 12.5, spread: 0.8}], side: left, called: "front: long"}
  mode:      {buttons: [6, none, 8], side: right}
  second:    {button: 3, momentary: yes, side: top, called: "no"}
  lights:    {button: 4, sits: {where: shoulders, across: 180, down: 700, goes: down}, called: long}
  channel 9: {axis: 8, positions: [{at: -1, spread: 0}, {at: 0, spread: 0}, {at: 1, spread: 0}], momentary: yes}
`
	f, err := Parse("radio.yaml", []byte(text), Known{})
	require.NoError(t, err)
	require.Equal(t, []Control{
		{Job: "throttle", Form: Axis, Axis: 0, Scale: &Scale{0, 4095, 8190}, Reach: &Reach{96, 97, 4095}, Noise: 9, Stays: true},
		{Job: "roll", Form: Axis, Axis: 1, Noise: 120},
		{Job: "pitch", Form: Axis, Axis: 2},
		{Job: "yaw", Form: Axis, Axis: 3},
		{Job: "arm", Form: Axis, Axis: 4, Scale: &Scale{8190, 4095, 0}, Reach: &Reach{3, 4090, 4090},
			Positions: []Position{{8180, 0}, {25, 8}}, Side: Left, Called: "front: long"},
		{Job: "mode", Form: Row, Buttons: []int{5, None, 7}, Side: Right},
		{Job: "second", Form: Button, Buttons: []int{2}, Momentary: true, Side: Top, Called: "no"},
		{Job: "lights", Form: Button, Buttons: []int{3}, Side: Left, Spot: Spot{Shoulders, 180, 700, GoesDown}, Called: "long"},
		{Job: "channel 9", Form: Axis, Axis: 7, Positions: []Position{{-2, 0}, {0, 0}, {2, 0}}, Momentary: true},
	}, f.Controls)
	require.Equal(t, header+text, string(f.Marshal()))
}

// A job that only a craft knows is a job while no craft is at hand; a slip of the pen is none.
func TestJobsOfACraft(t *testing.T) {
	names := eightJobs()
	names.Channel["finder sound"] = 9
	text := func(job string) []byte {
		return []byte("propsoff: radio 1\ncontrols:\n  throttle: {axis: 1}\n  roll: {axis: 2}\n  pitch: {axis: 3}\n  yaw: {axis: 4}\n  " + job + ": {button: 3}\n")
	}
	f, err := Parse("r", text("finder sound"), Known{})
	require.NoError(t, err)
	require.Equal(t, "finder sound", f.Controls[4].Job)
	for job, craft := range map[string]*input.Names{"finder sound": {Channel: eightJobs().Channel}, "chime": {Channel: eightJobs().Channel}} {
		_, err := Parse("r", text(job), Known{Names: craft})
		require.ErrorContains(t, err, "`"+job+"` is no job; ")
		_, err = Parse("r", text(job), Known{})
		require.NoError(t, err)
	}
	_, err = Parse("r", text("finder sound"), Known{Names: &names})
	require.NoError(t, err)
	for _, job := range []string{"ch17", "ch", "channel-18", "channel 17", "armm", "Mode", "a  b", "a-", "\"-a\"", "\"7a\"", "\"a:b\"", "abcdefghijklmnopqrstuvwxy"} {
		_, err := Parse("r", text(job), Known{})
		require.Error(t, err, job)
	}
}

// Positions that were put together by a program are checked like those of a file.
func TestMapperRefusesBadFindings(t *testing.T) {
	info, names := sevenAxes(), eightJobs()
	for want, change := range map[string]func(c *Control){
		"must rise":                func(c *Control) { c.Positions = []Position{{4, 0}, {4, 0}} },
		"beyond":                   func(c *Control) { c.Positions = []Position{{-farthest - 1, 0}, {4, 0}} },
		"the spread of":            func(c *Control) { c.Positions = []Position{{1, -3}, {4, 0}} },
		"give 2 to 12":             func(c *Control) { c.Positions = []Position{{1, 0}} },
		"the noise of arm is -0.3": func(c *Control) { c.Noise = -3 },
		"only an axis has noise":   func(c *Control) { c.Form, c.Buttons, c.Noise = Button, []int{3}, 4 },
		"only an axis stays":       func(c *Control) { c.Form, c.Buttons, c.Stays = Button, []int{3}, true },
		"only an axis has positions": func(c *Control) {
			c.Form, c.Buttons, c.Positions = Button, []int{3}, []Position{{1, 0}, {2, 0}}
		},
		"the place of arm": func(c *Control) { c.Spot = Spot{View: 9, Way: GoesUp} },
		"sits at another":  func(c *Control) { c.Spot = Spot{Face, 10, 10, GoesUp} },
		"the side of arm":  func(c *Control) { c.Side = 9 },
		"is called":        func(c *Control) { c.Called = strings.Repeat("x", 600) },
	} {
		f, err := Parse("radio.yaml", []byte(written), Known{&info, &names})
		require.NoError(t, err)
		f.Controls[4] = Control{Job: "arm", Form: Axis, Axis: 5}
		change(&f.Controls[4])
		_, err = NewMapper(f, info, names)
		require.ErrorContains(t, err, want)
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte("propsoff: radio 1\ncontrols:\n  arm: {axis: 5, positions: [{at: 4090, spread: 0}, {at: 12.5}], noise: 0.9, momentary: yes, side: left, called: x}\n  mode: {button: 1, sits: {where: back, across: 12, down: 900, goes: in}}\n" +
		"  throttle: {axis: 1, stays: yes}\n  roll: {axis: 2}\n  pitch: {axis: 3}\n  yaw: {axis: 4}\n"))
	f.Add([]byte(written))
	f.Add([]byte("propsoff: radio 1\ncontrols: {throttle: {axis: 1, scale: backwards}}"))
	f.Add([]byte("propsoff: radio 1\ncontrols:\n  mode: {buttons: [1, none, 1e9, -3]}\n  channel x: [1]\n"))
	info, names := sevenAxes(), eightJobs()
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := Parse("f", data, Known{&info, &names})
		if err != nil {
			if !strings.HasPrefix(err.Error(), "f") {
				t.Fatalf("an error without its place: %v", err)
			}
			return
		}
		back, err := Parse("f", file.Marshal(), Known{&info, &names})
		if err != nil {
			t.Fatalf("what was read cannot be written and read: %v\n%s", err, file.Marshal())
		}
		require.Equal(t, file, back)
		if _, err := NewMapper(file, info, names); err != nil {
			t.Fatalf("a file that was read has no mapper: %v", err)
		}
	})
}
