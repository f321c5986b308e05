package bench_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

func TestBenchInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "bench", uitest.Scenes, bench.Draw, func(s *uitest.Stage, all string) {
		assert.Contains(t, all, uitest.Say(tell.Armed(s.V.Snap.Armed)))
		if s.V.Class {
			return
		}
		for _, l := range tell.Lines(&s.V.Facts) {
			if s.V.Snap.Armed { // advice on arming is none to one who is armed
				assert.NotContains(t, all, uitest.Say(l.Text))
			} else {
				assert.Contains(t, all, uitest.Say(l.Text))
			}
		}
		if s.V.Snap.Armed {
			assert.Contains(t, all, uitest.Say(tell.WhatDisarms(&s.V.Facts)))
		}
	})
}

// A keyboard's switch without a job is no line until it is moved, also in what is played of one.
func TestAPlayedKeyboardShowsNoNamelessChannel(t *testing.T) {
	for _, d := range []ui.Driver{ui.Keyboard, ui.Played, ui.Radio} {
		s := uitest.Ready(t).Set(8, 988).Wait(100)
		s.V.Driver = d
		p := ink.NewPage(1280, 800, 0, nil)
		shows := func() bool {
			p.Reset(1280, 800, 0, nil)
			bench.Draw(p, s.V)
			for _, it := range p.Items() {
				if it.Name == "channel-number" && it.Text == "9" {
					return true
				}
			}
			return false
		}
		assert.Equal(t, d == ui.Radio, shows(), "driver %v", d)
		s.Set(8, 2012).Wait(100)
		s.V.Driver = d
		assert.True(t, shows(), "driver %v", d)
	}
}

// held has a radio drive a stage that was learned with its controls, the arm switch among them.
func held(t testing.TB, s *uitest.Stage) *uitest.Stage {
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	s.V.Handset = radioreach.Ideal(f)
	s.V.Handset.Settle()
	s.V.HasSeats, s.V.Driver, s.V.DriverName, s.V.Next = true, ui.Radio, "Moorland Desk 7", ui.Keyboard
	s.Facts()
	return s
}

var heldScenes = []uitest.Scene{
	{Name: "radio held, ready", Make: func(t testing.TB) *uitest.Stage { return held(t, uitest.Ready(t)) }},
	{Name: "radio held, armed", Make: func(t testing.TB) *uitest.Stage { return held(t, uitest.Ready(t).Set(4, 2012).Wait(800)) }},
	{Name: "radio held, throttle up", Make: func(t testing.TB) *uitest.Stage { return held(t, uitest.Ready(t).Glide(0, 1312, 200)) }},
	{Name: "radio held, lost and back", Make: func(t testing.TB) *uitest.Stage {
		return held(t, uitest.Ready(t).Set(4, 2012).Wait(800).Tell(pulse.Link, 0).Wait(1500).Set(4, 988).Tell(pulse.Link, 1).Wait(1500))
	}},
	{Name: "radio held, off with the arm switch on", Make: func(t testing.TB) *uitest.Stage {
		return held(t, uitest.Ready(t).Set(4, 2012).Wait(800).Tell(pulse.Link, 0).Wait(1500))
	}},
	{Name: "radio held, refused", Make: func(t testing.TB) *uitest.Stage {
		return held(t, uitest.Ready(t).Glide(0, 1312, 200).Tell(pulse.Tilt, 450).Tell(pulse.Cable, 1).Set(4, 2012).Wait(300))
	}},
}

func TestTheRadioHeldInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "held", heldScenes, bench.Draw)
}

// In a large window the radio that drives is drawn; of its controls that one is marked which the sentence asks for, and none where it asks for none.
func TestTheRadioMarksWhatTheSentenceAsksFor(t *testing.T) {
	draws := func(s *uitest.Stage, w, h float64) (radio bool, moves string) {
		p := ink.NewPage(w, h, 0, nil)
		bench.Draw(p, s.V)
		for _, it := range p.Items() {
			radio = radio || it.Name == "radio-heading"
			if it.Name == "radio-move" {
				moves = it.Text
			}
		}
		return radio, moves
	}
	for _, z := range uitest.Sizes {
		s := held(t, uitest.Ready(t))
		large := z.W >= 1280 && z.H >= 760 && z.W > z.H
		radio, moves := draws(s, z.W, z.H)
		assert.Equal(t, large, radio, "%v", z)
		assert.Equal(t, large, strings.Contains(moves, "arm"), "%v: %q", z, moves)
		for _, off := range []func(){func() { s.V.HasSeats = false }, func() { s.V.HasSeats, s.V.Driver = true, ui.Keyboard }} {
			off()
			radio, _ = draws(s, z.W, z.H)
			assert.False(t, radio, "%v", z)
		}
	}
	for at, want := range map[int]string{988: "to arm: ", 2012: "to disarm: "} { // what the move does, which nobody reads as how the switch stands
		s := held(t, uitest.Ready(t).Set(4, at).Wait(800))
		s.V.Handset.On(4).Spot = handset.Spot{View: handset.OnShoulders, X: 100, Y: 650, Way: handset.GoesDown}
		_, moves := draws(s, 1600, 1000)
		assert.Contains(t, moves, want)
		assert.Equal(t, at == 988, strings.Contains(moves, ": move it towards you"), moves)
		assert.Equal(t, at == 2012, strings.Contains(moves, ": move it away from you"), moves)
		assert.Equal(t, at == 2012, s.V.Snap.Armed)
		assert.Equal(t, at == 988, strings.HasPrefix(uitest.Say(s.V.How(ui.OnBench)), "To arm"), "as the sentence has it")
		s.Set(4, 988+2012-at).Wait(800)
		assert.Equal(t, at == 988, s.V.Snap.Armed, "whoever does so is where it was to lead")
	}
	s := held(t, uitest.Ready(t).Tell(pulse.Cable, 1).Wait(100))
	radio, moves := draws(s, 1280, 800)
	assert.True(t, radio)
	assert.Empty(t, moves, "first the cable: %s", uitest.Say(s.V.How(ui.OnBench)))
	s = held(t, uitest.Ready(t))
	s.V.Facts.Unsure = true // the sentence names what must be read
	_, moves = draws(s, 1280, 800)
	assert.Empty(t, moves)
	s.V.Facts.Unsure, s.V.Facts.Plain = false, true // a drill asks
	_, moves = draws(s, 1280, 800)
	assert.Empty(t, moves)
}
