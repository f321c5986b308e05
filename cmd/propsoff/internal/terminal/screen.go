package terminal

import (
	"fmt"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// View is what the live screen shows.
type View struct {
	// Book is its language, nil for English.
	Book *words.Book
	// Command is the one whose screen it is: "watch" or "run".
	Command string
	// Source is the name of what is read, empty where nothing is.
	Source string
	// Notices are shown below the head.
	Notices []words.Text
	Facts   *facts.Facts
	// Recent are the latest happenings, oldest first.
	Recent []happening.Happening
	// Raw, where given, is shown instead of channels: a radio that has not been learned.
	Raw *Radio
}

// Screen makes the lines of the live screen, at most rows of them, each at most columns wide (0: no limit). What does not
// fit is left out from the bottom.
func Screen(v *View, columns, rows int) []string {
	b, s, cfg := v.Book, &v.Facts.Snap, &v.Facts.Craft
	head := "propsoff " + v.Command
	if v.Source != "" {
		head += " · " + v.Source
	}
	out := []string{head + " · " + say(b, tell.Clock(max(s.Tick, 0))), ""}
	add := func(t words.Text) { out = append(out, wrap(say(b, t), columns)...) }
	add(tell.State(v.Facts)) // first: what there is no room for is left out from the bottom
	if s.Armed {
		add(tell.WhatDisarms(v.Facts))
	} else if v.Raw == nil {
		add(tell.Next(v.Facts, tell.Keys{}))
	}
	for _, n := range v.Notices {
		add(n)
	}
	out = append(out, "")
	if v.Raw != nil {
		out = append(out, strings.Split(strings.TrimSuffix(string(Form{Book: b}.Radio(nil, v.Raw)), "\n"), "\n")...)
	} else {
		out = append(out, channelRows(b, s, cfg)...)
	}
	out = append(out, "")
	add(tell.FlightMotors(s, cfg))
	if !s.Armed { // refusals stop nobody who is armed
		out = append(append(out, ""), refusalRows(b, v.Facts, columns)...)
	}
	out = append(out, "")
	for i := len(v.Recent) - 1; i >= 0; i-- {
		h := v.Recent[i]
		out = append(out, hang(Form{Book: b}.stamp(h.Tick, codes.Code(h.Code)), say(b, tell.Happening(h, cfg)), columns)...)
	}
	return fit(out, columns, rows)
}

// refusalRows are the refusals that stand now as sentences, in their groups.
func refusalRows(b *words.Book, f *facts.Facts, columns int) []string {
	var out []string
	group := facts.Group(0)
	wide := widest(b, tell.Group(facts.InHand), tell.Group(facts.OnLink), tell.Group(facts.AtCraft)) + 3
	for n, l := range tell.Lines(f) {
		name := ""
		if n == 0 || l.Group != group {
			group, name = l.Group, say(b, tell.Group(l.Group))
		}
		out = append(out, hang(left(name, wide), say(b, l.Text), columns)...)
	}
	if f.Hearing != facts.NoPower && f.N == 0 {
		out = append(out, say(b, words.T("state.nothing-refuses")))
	}
	return out
}

// channelRows are the channels that have a job or a pulse.
func channelRows(b *words.Book, s *sim.Snapshot, cfg *sim.Config) []string {
	heads := [3]string{say(b, words.T("terminal.channel")), say(b, words.T("terminal.job")), "µs"}
	var jobs [pulse.Channels]words.Text
	for c := range jobs {
		jobs[c] = tell.Job(&cfg.Layout, c)
	}
	channel, job := max(places(heads[0]), 4)+2, max(places(heads[1]), widest(b, jobs[:]...))
	row := func(number, what, value, line string) string {
		return strings.TrimRight(left(number, channel)+left(what, job)+" "+right(value, 4)+"  "+line, " ")
	}
	out := []string{row(heads[0], heads[1], heads[2], "")}
	for c, w := range s.In.Sent {
		value, line := "-", ""
		switch {
		case w.Valid():
			value, line = micros(w), pen(w)
		case jobs[c].Empty():
			continue
		}
		out = append(out, row(fmt.Sprintf("%4d", c+1), say(b, jobs[c]), value, line))
	}
	return out
}

// micros is a width in whole µs, rounded down.
func micros(w pulse.Width) string { return strconv.Itoa(w.Whole()) }

// penWidth is how many places the line of a channel has, from 988 to 2012 µs.
const penWidth = 33

// pen draws a width as a mark on a line.
func pen(w pulse.Width) string {
	at := int(min(max(w, pulse.Low), pulse.High)-pulse.Low) * (penWidth - 1) / int(pulse.High-pulse.Low)
	line := []byte(strings.Repeat("-", penWidth))
	line[penWidth/2] = '+'
	line[at] = 'O'
	return string(line)
}
