package craftfile_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

const someJobs = `propsoff: craft 1
name: jobs
receiver: {when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, arm: 988, lights: 1900}}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5}
jobs:
  finder sound: {channel: 5, on: {from: 860, to: 1200}}
  lights: {channel: 9, on: [{from: 860, to: 1200}, {from: 1800, to: 2180}]}
  Lüfter-2: {channel: 9, on: {from: 1400, to: 1600}}
`

func TestNamedJobsAreRead(t *testing.T) {
	f, err := craftfile.Parse("jobs.yaml", []byte(someJobs))
	require.NoError(t, err)
	us := func(a, b int) layout.Span { return layout.Span{Low: pulse.Micros(a), High: pulse.Micros(b)} }
	assert.Equal(t, []craftfile.Job{
		{Name: "finder sound", Channel: 4, Spans: []layout.Span{us(860, 1200)}},
		{Name: "lights", Channel: 8, Spans: []layout.Span{us(860, 1200), us(1800, 2180)}},
		{Name: "Lüfter-2", Channel: 8, Spans: []layout.Span{us(1400, 1600)}},
	}, f.More())
	n := f.Names()
	assert.Equal(t, 4, n.Channel["finder sound"])
	assert.Equal(t, map[string]pulse.Width{"on": pulse.Low, "off": pulse.Centre}, n.Position["finder sound"], "the ends of a switch serve first")
	assert.Equal(t, map[string]pulse.Width{"on": pulse.High, "off": pulse.Centre}, n.Position["lights"])
	assert.Equal(t, map[string]pulse.Width{"on": pulse.Centre, "off": pulse.Low}, n.Position["Lüfter-2"])
	cfg := f.Config()
	assert.Equal(t, pulse.Micros(1900), cfg.Link.Stored[8], "a stored value by the name of a job")

	// Without effect on arming: but for the stored value the craft is the same without them.
	plain, err := craftfile.Parse("plain.yaml", []byte(strings.Replace(someJobs[:strings.Index(someJobs, "jobs:\n  ")], ", lights: 1900", "", 1)))
	require.NoError(t, err)
	cfg.Link.Stored[8] = pulse.Missing
	assert.Equal(t, plain.Config(), cfg)

	// A radio file may give the job's name to a control.
	control := radio.Control{Job: "lights", Form: radio.Button, Buttons: []int{0}}
	channel, ok := radio.ChannelOf(control.Job, n)
	assert.True(t, ok && channel == 8)
}

// The examples in the shipped files are comments; with the marks taken away they must be right.
func TestTheExamplesInTheShippedFilesAreRight(t *testing.T) {
	for _, name := range assets.Crafts() {
		_, text, _ := assets.Craft(name)
		head, rest, ok := strings.Cut(string(text), "# jobs:\n")
		require.True(t, ok, name)
		rest = "jobs:\n" + strings.Replace(strings.Replace(rest, "#   finder", "  finder", 1), "#   lights", "  lights", 1)
		f, err := craftfile.Parse(name, []byte(head+rest))
		require.NoError(t, err, name)
		assert.Len(t, f.More(), 2)
	}
}

func TestBadJobs(t *testing.T) {
	many := func(n int, line string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, line, i)
		}
		return b.String()
	}
	for _, c := range []struct{ jobs, want string }{
		{"  throttle: {channel: 7, on: {from: 860, to: 900}}\n", "j:3:3: `throttle` means something already"},
		{"  Arm: {channel: 7, on: {from: 860, to: 900}}\n", "j:3:3: `Arm` means something already"},
		{"  tilt: {channel: 7, on: {from: 860, to: 900}}\n", "j:3:3: `tilt` means something already"},
		{"  ch7: {channel: 7, on: {from: 860, to: 900}}\n", "j:3:3: `ch7` would be read as a channel"},
		{"  channel 12: {channel: 7, on: {from: 860, to: 900}}\n", "j:3:3: `channel 12` would be read as a channel"},
		{"  a/b: {channel: 7, on: {from: 860, to: 900}}\n", "j:3:3: the name of a job is made of letters"},
		{"  two  spaces: {channel: 7, on: {from: 860, to: 900}}\n", "j:3:3: the name of a job is made of letters"},
		{"  abcdefghijklmnopqrstuvwxyz: {channel: 7, on: {from: 860, to: 900}}\n", "j:3:3: the name of a job has at most 24"},
		{"  x: {channel: 7, on: {from: 860, to: 900}}\n  X: {channel: 8, on: {from: 860, to: 900}}\n", "j:4:3: `X` differs only in capitals from the job at line 3"},
		{"  x: {channel: 17, on: {from: 860, to: 900}}\n", "j:3:16: `17` is above 16"},
		{"  x: {on: {from: 860, to: 900}}\n", "j:3:6: the job has no field `channel`"},
		{"  x: {channel: 7}\n", "j:3:6: the job has no field `on`"},
		{"  x: {channel: 7, on: {from: 900, to: 860}}\n", "j:3:23: the span runs backwards"},
		{"  x: {channel: 7, on: []}\n", "the list has 0 items: write 1 to 8"},
		{"  x: {channel: 7, on: [{from: 860, to: 900}, {from: 899, to: 950}]}\n", "j:3:46: two spans of x overlap"},
		{"  x: {channel: 7, off: {from: 860, to: 900}, on: {from: 900, to: 901}}\n", "unknown field `off`"},
		{"  x: {channel: 7, on: [" + many(9, "{from: 90%[1]d, to: 90%[1]d.5}, ") + "]}\n", "the list has 9 items: write 1 to 8"},
		{many(33, "  x%d: {channel: 7, on: {from: 860, to: 900}}\n"), "j:35:3: more than 32 jobs"},
	} {
		_, err := craftfile.Parse("j", []byte("{propsoff: craft 1, name: j, channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5}}"))
		require.NoError(t, err)
		_, err = craftfile.Parse("j", []byte("propsoff: craft 1\njobs:\n"+c.jobs+"name: j\nchannels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5}\n"))
		require.Error(t, err, c.jobs)
		assert.Contains(t, err.Error(), c.want, c.jobs)
	}
	_, err := craftfile.Parse("j", []byte(strings.Replace(someJobs, "lights: 1900", "lights: 1900, Lüfter-2: 1500, finder sound: 990", 1)))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "channel 9 has a stored value already")
	assert.Contains(t, err.Error(), "channel 5 has a stored value already")
}
