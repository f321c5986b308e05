package bench_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/bench"
	"propsoff/cmd/propsoff/internal/ui/uitest"
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
