package screen

import (
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/spoken"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// hearing says what a person would see, to Options.Say. It belongs to the window's goroutine.
type hearing struct {
	s     *Screen
	bench *spoken.Bench
	told  Events

	place   ui.Place // that was named last
	asks    string   // what its sheet asked when it was told
	chosen  lasting  // what stands chosen
	asked   lasting  // what the sheet asks, where it asks in large letters
	notices []string
}

// lasting is a text that is told once it has stood a moment.
type lasting struct {
	now, told string
	since     int64
}

// lastsFor is how long a text must have stood, in ticks (ours): a list is gone through faster than it is read.
const lastsFor = 250

// is gives the text where it is to be told now.
func (s *lasting) is(tick int64, text string) (string, bool) {
	if text != s.now || tick < s.since {
		s.now, s.since = text, tick
	}
	if s.now == s.told || tick-s.since < lastsFor {
		return "", false
	}
	s.told = s.now
	return s.now, s.now != ""
}

func newHearing(s *Screen) *hearing {
	if s.Options.Say == nil {
		return nil
	}
	return &hearing{s: s, bench: spoken.NewBench(spoken.Say(s.Options.Say))}
}

// whole are the sheets that are read out as a whole when they open, large those whose largest text says what is to be done.
var (
	whole = []ui.Place{ui.OnAsk, ui.OnCautions}
	large = []ui.Place{ui.OnQuestions, ui.OnWhich, ui.OnCheck, ui.OnSeats, ui.OnWrite, ui.OnFirst}
)

// page takes the page that was made last.
func (h *hearing) page(p *ink.Page) {
	if h == nil {
		return
	}
	v, place, say := &h.s.view, h.s.Place(), h.s.Options.Say
	tick := h.s.Options.Loop.Clock().Now() / 1000
	asks := ""
	if slices.Contains(whole, place) {
		asks = strings.Join(spoken.Texts(p, false), " ")
	}
	if place != h.place || asks != h.asks && place == ui.OnAsk {
		h.place, h.asks = place, asks
		h.chosen, h.asked = lasting{}, lasting{}
		say(words.T("spoken.sheet", words.Args{"title": words.Of("spoken-title", string(place))}), false)
		if asks != "" {
			say(words.AsIs(asks), place == ui.OnAsk)
		}
		say(h.keys(place), false)
	}
	if slices.Contains(large, place) {
		if t, ok := h.asked.is(tick, strings.Join(spoken.Texts(p, true), " ")); ok {
			say(words.AsIs(t), true)
		}
	}
	if t, ok := h.chosen.is(tick, spoken.Chosen(p)); ok {
		say(words.AsIs(t), false)
	}
	h.notes(v)
	h.craft(v, place)
}

// keys names the keys that stand on a sheet.
func (h *hearing) keys(place ui.Place) words.Text {
	v := &h.s.view
	own, common := v.Printed(place)
	var all []words.Text
	for _, a := range append(own, common...) {
		key := words.Text{}
		if !v.Touch {
			key = v.KeyHere(a, place)
		}
		all = append(all, words.T("spoken.key", words.Args{"key": key, "does": v.Does(a, place)}))
	}
	if len(all) == 0 {
		return words.Text{}
	}
	return words.T("spoken.keys", words.Args{"finger": words.Flag(v.Touch), "keys": words.Clauses(all...)})
}

// notes says each notice that has come.
func (h *hearing) notes(v *ui.View) {
	var now []string
	for _, n := range v.Notices {
		text := words.English().Say(n.Text)
		if now = append(now, text); !slices.Contains(h.notices, text) {
			h.s.Options.Say(n.Text, false)
		}
	}
	h.notices = now
}

// craft says what the craft does, where a person drives it: a demo pilot would talk on and on, and whoever is asked about a radio is not at the bench.
func (h *hearing) craft(v *ui.View, place ui.Place) {
	happened := h.told.Since(h.s.Options.Loop)
	who := h.s.Driving.Who
	if who == whodrives.Demo || place == ui.OnQuestions || place == ui.OnWhich || h.s.Flight.replay.on {
		return
	}
	h.bench.HideMode = v.HideMode
	for _, e := range happened {
		h.bench.Happened(e, v.Config)
	}
	h.bench.Look(&v.Facts)
}

// ReadSticks has the sticks read out, or not.
func (s *Screen) ReadSticks(on bool) {
	if s.hearing != nil {
		s.hearing.bench.ReadSticks(on)
	}
}
