package terminal

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// View is what the live screen shows.
type View struct {
	// Command is the one whose screen it is: "watch" or "run".
	Command string
	// Source is the name of what is read, empty where nothing is.
	Source string
	// Notices are shown below the head.
	Notices []string
	Facts   *facts.Facts
	// Recent are the latest happenings, oldest first.
	Recent []happening.Happening
	// Raw, where given, is shown instead of channels: a radio that has not been learned.
	Raw *Radio
}

// Screen makes the lines of the live screen, at most rows of them, each at most columns wide (0: no limit). What does not
// fit is left out from the bottom.
func Screen(v *View, columns, rows int) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	s, cfg := &v.Facts.Snap, &v.Facts.Craft
	head := "propsoff " + v.Command
	if v.Source != "" {
		head += " · " + v.Source
	}
	add("%s · %s", head, phrase.Clock(max(s.Tick, 0)))
	for _, n := range v.Notices {
		out = append(out, wrap(n, columns)...)
	}
	add("")
	add("%s", phrase.State(v.Facts))
	if s.Armed {
		out = append(out, wrap(phrase.WhatDisarms(v.Facts), columns)...)
	} else if v.Raw == nil {
		out = append(out, wrap(phrase.Next(v.Facts, phrase.Keys{}), columns)...)
	}
	add("")
	if v.Raw != nil {
		out = append(out, strings.Split(strings.TrimSuffix(string(v.Raw.AppendText(nil)), "\n"), "\n")...)
	} else {
		out = append(out, channelRows(s, cfg)...)
	}
	add("")
	places := phrase.Places()
	var motors []string
	for i, p := range places {
		motors = append(motors, p+" "+phrase.Motor(s.Motor[i], cfg.Flight.IdleSpeed))
	}
	add("motors: %s", strings.Join(motors, ", "))
	add("")
	if !s.Armed { // refusals stop nobody who is armed
		out = append(out, refusalRows(v.Facts, columns)...)
	}
	add("")
	for i := len(v.Recent) - 1; i >= 0; i-- {
		out = append(out, strings.TrimSuffix(string(AppendText(nil, v.Recent[i], cfg)), "\n"))
	}
	if rows > 0 && len(out) > rows {
		out = out[:rows]
	}
	for i := range out {
		out[i] = cut(out[i], columns)
	}
	return out
}

// refusalRows are the refusals that stand now as sentences, in their groups.
func refusalRows(f *facts.Facts, columns int) []string {
	var out []string
	group := -1
	for _, l := range phrase.Lines(f) {
		name := ""
		if int(l.Group) != group {
			group, name = int(l.Group), phrase.Group(l.Group)
		}
		for i, part := range wrap(l.Text, columns-8) {
			if i > 0 {
				name = ""
			}
			out = append(out, fmt.Sprintf("%-6s  %s", name, part))
		}
	}
	if f.Hearing != facts.NoPower && f.N == 0 {
		out = append(out, phrase.NothingRefuses())
	}
	return out
}

// channelRows are the channels that have a job or a pulse.
func channelRows(s *sim.Snapshot, cfg *sim.Config) []string {
	out := []string{"channel  job        µs"}
	for c, w := range s.In.Sent {
		job := phrase.Job(&cfg.Layout, c)
		if job == "" && !w.Valid() {
			continue
		}
		value, line := "-", ""
		if w.Valid() {
			value, line = phrase.Micros(w), pen(w)
		}
		out = append(out, strings.TrimRight(fmt.Sprintf("%4d     %-8s %4s  %s", c+1, job, value, line), " "))
	}
	return out
}

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

// wrap breaks a text at spaces into lines of at most columns; 0 or less: no breaking.
func wrap(text string, columns int) []string {
	if columns <= 0 {
		return []string{text}
	}
	var out []string
	line := ""
	for _, w := range strings.Fields(text) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) > columns {
			out, line = append(out, line), ""
		}
		if line != "" {
			line += " "
		}
		line += w
	}
	return append(out, line)
}

// cut shows what steers in a line and shortens it to columns.
func cut(line string, columns int) string {
	line = mouth.Printable(line)
	if columns <= 0 || utf8.RuneCountInString(line) <= columns {
		return line
	}
	return string([]rune(line)[:columns])
}
