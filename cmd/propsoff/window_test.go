//go:build linux && cgo && window

package main

import (
	"context"
	"encoding/json"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// The window itself, under a display (xvfb-run): each scene is this test program started again, because the engine runs
// once a process and on its first thread only. What the page says is drawn is checked for overlap, clipping, contrast
// and size of text, and what the engine drew is compared with the same page drawn without it.

const sceneIs = "PROPSOFF_SCENE"

func TestMain(m *testing.M) {
	switch os.Getenv(sceneIs) {
	case "":
		english() // for the scenes that are started from here
	case emptyScene:
		os.Exit(playEmpty())
	default:
		os.Exit(playScene())
	}
	os.Exit(m.Run())
}

// playScene opens the window in a world with or without a fake radio; the command line is the scene's.
func playScene() int {
	w := world.Real()
	w.Radios = noRadios{}
	w.Store = radio.Store{Dir: os.Getenv("PROPSOFF_RADIOS")}
	if os.Getenv("PROPSOFF_RADIO") == "learned" {
		file, err := radio.Parse("desk", []byte(learnedRadio), radio.Known{})
		if err == nil {
			_, err = w.Store.Save(file)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			return exit.CodeTrouble
		}
	}
	if os.Getenv("PROPSOFF_RADIO") != "" {
		b := newBus()
		var rest input.Raw
		for _, axis := range []int{1, 2, 3} {
			rest.Axes[axis] = 1024
		}
		b.last["/dev/input/event5"] = rest
		b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
		w.Radios, w.Now = b, usb.Now
		go moveRadio(b, "/dev/input/event5")
	}
	return execute(context.Background(), strings.Split(os.Getenv(sceneIs), "\n"), w)
}

// learnedRadio is the radio file of the fake radio.
const learnedRadio = `propsoff: radio 1
device: {name: Moorland Desk 7, vendor: "1f4a", product: "0007", serial: A}
stick-mode: 2
controls:
  throttle:  {axis: 1, scale: {988: 0, 1500: 1023.5, 2012: 2047}, reach: {low: 2, rest: 3, high: 2044}, noise: 0.8, stays: yes}
  roll:      {axis: 2, scale: {988: 0, 1500: 1023.5, 2012: 2047}, reach: {low: 1, rest: 1024, high: 2045}, noise: 0.9}
  pitch:     {axis: 3, scale: {988: 0, 1500: 1023.5, 2012: 2047}, reach: {low: 3, rest: 1021, high: 2044}, noise: 0.7}
  yaw:       {axis: 4, scale: {988: 0, 1500: 1023.5, 2012: 2047}, reach: {low: 2, rest: 1026, high: 2046}, noise: 0.8}
  arm:       {axis: 5, scale: {988: 0, 1500: 1023.5, 2012: 2047}, reach: {low: 0, rest: 0, high: 2047}, noise: 0.5, positions: [{at: 0, spread: 0.4}, {at: 2047, spread: 0.6}], side: left, called: left shoulder}
  mode:      {axis: 6, scale: {988: 0, 1500: 1023.5, 2012: 2047}, reach: {low: 0, rest: 0, high: 2047}, noise: 0.5, positions: [{at: 0, spread: 0.4}, {at: 1024, spread: 0.5}, {at: 2047, spread: 0.6}], side: right, called: right shoulder}
  channel 7: {buttons: [1, none, 2], side: left}
`

// holding is a craft whose receiver repeats the last values: prove finds that a lost link goes unnoticed.
const holding = `propsoff: craft 1
name: Bramble
receiver: {when-silent: repeats-last}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
jobs:
  finder sound: {channel: 7, on: {from: 1700, to: 2180}}
modes:
  angle: {from: 860, to: 1300}
  horizon: {from: 1300, to: 1510}
  rate: {from: 1750, to: 2180}
`

type scene struct {
	name    string
	steps   string // of a script; empty plays none
	after   string // when the picture is taken
	radio   bool
	learned bool // the radio's file is there
	craft   string
	args    []string
	// small is the group whose texts may be small: a page of paper, shown whole.
	small string
	words []string // the page must carry these
	not   []string
}

const healthy = "propsoff: script 1\nstart: {throttle: 988, arm: off, mode: angle}\nsteps:\n"

var scenes = []scene{
	{name: "no-radio", after: "1500ms", words: []string{"DISARMED", "No radio is plugged in", "demo pilot"}},
	{name: "first-questions", after: "1500ms", radio: true, words: []string{"Moorland Desk 7", "throttle"}, not: []string{"ARMED"}},
	{name: "ready", steps: "- {at: 0s, arm: off}\nend: 60s", after: "6s", words: []string{"DISARMED", "Nothing refuses arming"}},
	{name: "refused-three", steps: "- {at: 2.2s, throttle: 1312, cable: in, tilt: 45 deg}\n- {at: 2.4s, arm: on}\nend: 60s", after: "3500ms",
		words: []string{"DISARMED", "Throttle reads 1312", "tilted by 45°", "cable", "Arming refused"}},
	{name: "armed-still", steps: "- {at: 2.2s, arm: on}\nend: 60s", after: "3500ms", words: []string{"ARMED", "still"}, not: []string{"DISARMED"}},
	{name: "armed-throttle", steps: "- {at: 2.2s, arm: on}\n- {at: 2.4s, throttle: 1480}\nend: 60s", after: "3500ms", words: []string{"ARMED", "52 %"}, not: []string{"DISARMED"}},
	{name: "link-lost", steps: "- {at: 2.2s, arm: on}\n- {at: 2.4s, throttle: 1480}\n- {at: 2.8s, link: off}\nend: 60s", after: "3800ms", words: []string{"DISARMED", "Lost", "No link"}},
	{name: "check", after: "2s", radio: true, learned: true, args: []string{"--open", "check"}, words: []string{"controls check"}},
	{name: "layout", after: "2s", radio: true, learned: true, craft: holding, args: []string{"--open", "layout"}, words: []string{"left shoulder", "finder sound"}},
	{name: "prove", after: "6s", craft: holding, args: []string{"--open", "prove"}, words: []string{"broken"}},
	{name: "card", after: "2s", radio: true, learned: true, args: []string{"--open", "card"}, words: []string{"shoulder"}, small: "printed/"},
	{name: "flight", after: "8800ms", args: []string{"--play", "hop", "--outside"}, words: []string{"ARMED", "rate"}},
	{name: "three", after: "8800ms", args: []string{"--play", "hop", "--open", "three"}, words: []string{"angle", "horizon", "rate"}},
	{name: "three-demo", after: "9s", args: []string{"--play", "demo", "--open", "three"}, words: []string{"angle", "horizon", "rate", "ARMED"}},
	{name: "drills", after: "2s", args: []string{"--open", "drills"}, words: []string{"Drills: ", "open"}},
	{name: "desk", after: "2s", args: []string{"--open", "desk"}, words: []string{"Instructor's desk", "radio silent"}},
	{name: "link-loss-shown", steps: "- {at: 2.2s, arm: on}\n- {at: 2.4s, throttle: 1480}\n- {at: 3s, link: off}\nend: 60s", after: "4500ms", args: []string{"--open", "link-loss"},
		words: []string{"RADIO OFF", "falls silent", "repeats the last", "sends stored values", "ARMED"}},
	{name: "gestures", after: "2s", args: []string{"--open", "gestures"}, words: []string{"own menu"}},
	{name: "first-flight", after: "2s", args: []string{"--open", "first-flight"}, words: []string{"clockwise"}},
}

func TestWindow(t *testing.T) {
	if os.Getenv("DISPLAY") == "" {
		t.Fatal("no display: run this by xvfb-run, as scripts/test does")
	}
	keep := os.Getenv("PROPSOFF_PICTURES") // a folder to keep the pictures in, to be looked at
	if keep == "" {
		keep = t.TempDir()
	}
	require.NoError(t, os.MkdirAll(keep, 0o755))
	looks := []struct{ size, sheet string }{{"1280x800", "light"}, {"960x600", "dark"}}
	for i, s := range scenes {
		these := looks
		if s.name == "refused-three" || s.name == "first-questions" {
			these = append(these, struct{ size, sheet string }{"1920x1080", "dark"}, struct{ size, sheet string }{"3840x2160", "light"})
		} else {
			these = looks[i%2 : i%2+1]
		}
		for _, look := range these {
			name := fmt.Sprintf("%s-%s-%s", s.name, look.size, look.sheet)
			t.Run(name, func(t *testing.T) { checkScene(t, s, look.size, look.sheet, filepath.Join(keep, name+".png")) })
		}
	}
}

func checkScene(t *testing.T, s scene, size, sheet, file string) {
	args := []string{"--size", size, "--sheet", sheet, "--picture", s.after + "=" + file}
	if s.steps != "" {
		play := filepath.Join(t.TempDir(), "scene.yaml")
		require.NoError(t, os.WriteFile(play, []byte(healthy+s.steps+"\n"), 0o600))
		args = append(args, "--play", play)
	}
	args = append(args, s.args...)
	dir := t.TempDir() // the program's own folder, so that no path of this machine stands in a picture
	if s.craft != "" {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "bramble.yaml"), []byte(s.craft), 0o600))
		args = append(args, "--craft", "bramble.yaml")
	}
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
	defer cancel()
	self, err := filepath.Abs(os.Args[0])
	require.NoError(t, err)
	cmd := exec.CommandContext(ctx, self)
	cmd.Dir = dir
	// A home of no one in particular, because the pictures in the README show it.
	cmd.Env = append(os.Environ(), "HOME=/home/pilot", sceneIs+"="+strings.Join(args, "\n"), "PROPSOFF_RADIOS="+filepath.Join(t.TempDir(), "radios"))
	switch {
	case s.learned:
		cmd.Env = append(cmd.Env, "PROPSOFF_RADIO=learned")
	case s.radio:
		cmd.Env = append(cmd.Env, "PROPSOFF_RADIO=1")
	}
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)

	text, err := os.ReadFile(file + ".json")
	require.NoError(t, err)
	var page struct {
		Width, Height float64
		Items         []struct{ Text string }
		Problems      []string
		Unlike        float64
		Patched       int
		Pictures      int
		Pixels        float64
		Runtime       uint64 `json:"runtime_bytes"`
	}
	require.NoError(t, json.Unmarshal(text, &page))
	var all []string
	for _, it := range page.Items {
		all = append(all, it.Text)
	}
	said := strings.Join(all, "\n")
	for _, w := range s.words {
		assert.Contains(t, said, w)
	}
	for _, w := range s.not {
		assert.NotContains(t, all, w)
	}
	t.Logf("%d pictures, of each %.0f %% drawn anew; Go runtime %.1f MB, unlike %.5f", page.Pictures,
		100*page.Pixels/(float64(page.Pictures)*page.Width*page.Height), float64(page.Runtime)/1e6, page.Unlike)
	assert.Zero(t, page.Patched, "pixels that look otherwise than the page drawn whole and at once")
	assert.Less(t, page.Runtime, uint64(80e6), "the Go runtime's memory with the window")
	page.Problems = slices.DeleteFunc(page.Problems, func(p string) bool {
		return s.small != "" && strings.HasPrefix(p, "text-small: "+s.small)
	})
	assert.Empty(t, page.Problems)
	assert.Less(t, page.Unlike, 0.002, "the engine drew something else than the page says")

	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	assert.Equal(t, size, fmt.Sprintf("%dx%d", img.Bounds().Dx(), img.Bounds().Dy()))
	assert.Equal(t, [2]float64{float64(img.Bounds().Dx()), float64(img.Bounds().Dy())}, [2]float64{page.Width, page.Height})
}
