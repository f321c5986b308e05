// Package gestures is one sheet: two-stick gestures and the menus that they open.
package gestures

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/gestures"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// What the sheet's own keys do.
const (
	Above  ui.Action = "gesture-above"  // the one above
	Below  ui.Action = "gesture-below"  // the one below
	Record ui.Action = "gesture-record" // record one from the pilot's hand, or end that
	Keep   ui.Action = "gesture-keep"   // name the recorded one, then keep it
	ByJob  ui.Action = "gesture-by-job" // the recorded one by job, or by stick
	Opens  ui.Action = "gesture-menu"   // the menu that the recorded one opens
	Drop   ui.Action = "gesture-drop"   // throw the recorded one away
)

// prefix and a number from 1 name the hit areas of gestures.
const prefix = "gesture-number-"

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	rec := func(v *ui.View) *Recording { return &Of(v).Recording }
	several := func(v *ui.View) bool {
		set := setOf(v)
		return !rec(v).on() && set != nil && len(set.Patterns) > 1 && !v.Goggles.Open
	}
	seen := func(v *ui.View) bool { return rec(v).seen() && rec(v).Phase == Ended }
	return &ui.About{
		Place: ui.OnGestures, Key: "O", Flown: true,
		Shared: ui.Usual(ui.SwitchRadio, ui.TurnMenu, ui.NextDriver, ui.TurnStickMode, ui.TurnRecording),
		Front:  []ui.Action{ui.TurnMenu},
		Own: []ui.Act{
			{Action: Above, Physical: "PageUp", Shows: several, Do: func() { p.look(p.Selected - 1) }},
			{Action: Below, Physical: "PageDown", Shows: several, Do: func() { p.look(p.Selected + 1) }},
			{Action: Record, Physical: "Period", Do: p.beginOrEnd, On: func(v *ui.View) bool { return rec(v).runs() }, Shows: func(v *ui.View) bool {
				return !v.Goggles.Open && !v.Playing() && (rec(v).on() || v.CannotRecord.Empty())
			}},
			{Action: Keep, Physical: "Enter", Do: p.name, Shows: func(v *ui.View) bool { return rec(v).seen() }},
			{Action: ByJob, Physical: "Comma", Do: p.byJob, On: func(v *ui.View) bool { return rec(v).Pattern.Physical }, Shows: seen},
			{Action: Opens, Physical: "Slash", Do: p.nextMenu, Shows: func(v *ui.View) bool { return seen(v) && hasMenus(v) }},
			{Action: Drop, Physical: "Backspace", Do: p.drop, Shows: func(v *ui.View) bool { return rec(v).on() }},
		},
		Picks: []ui.Pick{{Prefix: prefix, Do: func(i int) {
			if i < len(p.patterns()) && !p.Recording.on() {
				p.look(i)
			}
		}}},
		Shows: func(v *ui.View, a ui.Action) (shows, known bool) {
			return v.Snap.In.Craft.Menu != pulse.MenuClosed && !v.Playing(), a == ui.TurnMenu
		},
	}
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// View is what the sheet of two-stick gestures knows. The patterns themselves are those of ui.View.Config.
type View struct {
	// File is what the gesture file is called; Shipped tells that it came with the program.
	File    string
	Shipped bool
	// Set is how each pattern stands.
	Set []gestures.State
	// Selected is the index of the pattern looked at; Scores are those of this session, for each.
	Selected  int
	Scores    []Score
	Try       Try
	Recording Recording
	// Reach is what the radio of whoever drives can send; nil where that is not known.
	Reach *handset.Radio
	// Said is a sentence about what was done last, such as that a gesture was kept; it says nothing where there is none.
	Said words.Text
}

// Score counts the tries of one gesture in this session: how often it was made, and how often nearly, by what was wrong.
type Score struct {
	Made int
	Near [happening.NearCount]int
}

// nears is how often it was nearly made.
func (s *Score) nears() (n int) {
	for _, k := range s.Near {
		n += k
	}
	return n
}

// Try is the last try of the gesture looked at.
type Try struct {
	// Running is how long the sticks have been under way, in ms; −1 while they rest.
	Running int64
	// Done: there was a try, and Made or missed it was. Took is how long it took in ms.
	Done, Made bool
	Took       int64
	// Held: it was made, and the sticks have not left it since.
	Held bool
	// How it was missed, Direction in the pattern's own order, and Early how much too early it was let go in ms, 0 unknown.
	How       happening.Near
	Direction int
	Early     int64
	// Other is the gesture that was made in its place; it says nothing for none.
	Other words.Text
}

// Phase is how far a recording is.
type Phase uint8

// The phases.
const (
	NoRecording Phase = iota
	AtRest            // begun, and the sticks rest
	Moving            // the sticks are away
	Back              // they rest again
	Ended             // what was seen is shown
)

// Recording is a gesture being recorded from the pilot's own hand.
type Recording struct {
	Phase Phase
	// Millis is how long the recording runs.
	Millis int64
	// Pattern and Verdict are what was seen, once it has ended.
	Pattern gestures.Pattern
	Verdict gestures.Verdict
	// Opens is the name of the menu that it is to open; it says nothing for none.
	Opens words.Text
	// Trouble says why it could not be kept; it says nothing where it was not tried.
	Trouble words.Text
}

// on tells whether a recording runs or its result is shown.
func (r *Recording) on() bool { return r.Phase != NoRecording }

// runs tells whether a recording runs.
func (r *Recording) runs() bool { return r.on() && r.Phase < Ended }

// seen tells whether a pattern was seen and can be kept.
func (r *Recording) seen() bool {
	return r.Phase >= Ended && r.Verdict.Recording == gestures.Recorded
}

// setOf are the patterns of the craft, nil for none.
func setOf(v *ui.View) *gestures.Config {
	if g := v.Config.Gestures; g != nil && len(g.Patterns) > 0 {
		return g
	}
	return nil
}

// hasMenus tells whether the craft has menus.
func hasMenus(v *ui.View) bool { return v.Config.Menus != nil && len(v.Config.Menus.Menus) > 0 }

// chosen is the pattern looked at; nil for none.
func chosen(v *ui.View) *gestures.Pattern {
	if set, n := setOf(v), Of(v).Selected; set != nil && n >= 0 && n < len(set.Patterns) {
		return &set.Patterns[n]
	}
	return nil
}

// shown is the pattern looked at, or the one that was recorded; nil for none.
func shown(v *ui.View) *gestures.Pattern {
	switch r := &Of(v).Recording; {
	case r.seen():
		return &r.Pattern
	case r.on():
		return nil
	}
	return chosen(v)
}

// glance is how the pattern looked at stands, and whether that counts: not where there is none, where what is shown is a recording, or
// while gestures are blocked.
func glance(v *ui.View) (at gestures.Glance, counts bool) {
	g := Of(v)
	if chosen(v) == nil || g.Recording.on() {
		return gestures.Glance{}, false
	}
	s := gestures.State{Phase: gestures.Away}
	if g.Selected < len(g.Set) {
		s = g.Set[g.Selected]
	}
	in := gestures.Input{Sticks: sticks(&v.Config.Layout, &v.Snap.Received), StickMode: mode(v)}
	return gestures.Look(setOf(v), g.Selected, s, &in), blocked(v).Empty()
}

// blocked says why gestures do not count now; nothing where they do.
func blocked(v *ui.View) words.Text {
	menu := words.Text{}
	if v.Goggles.Open {
		menu = v.Goggles.Name
	}
	return tell.GesturesBlocked(&v.Facts, menu, v.KeyFor(ui.TurnMenu, ui.OnGestures))
}

// sticks are the stick channels of a frame by job.
func sticks(l *layout.Config, f *pulse.Frame) [gestures.Directions]pulse.Width {
	return [...]pulse.Width{gestures.Throttle: f[l.Throttle], gestures.Roll: f[l.Roll], gestures.Pitch: f[l.Pitch], gestures.Yaw: f[l.Yaw]}
}

// mode is the stick mode, 1 to 4.
func mode(v *ui.View) uint8 { return uint8(ui.StickMode(v.StickMode)) }

// onSticks turns places in a pattern's own order into those of the physical sticks: left across, left up, right across, right up.
func onSticks(p *gestures.Pattern, at [gestures.Directions]gestures.Place, mode uint8) [gestures.Directions]gestures.Place {
	if p.Physical {
		return at
	}
	var out [gestures.Directions]gestures.Place
	for i, job := range gestures.OnSticks(mode) {
		out[i] = at[job]
	}
	return out
}

// further says which way physical direction i must go still, and whether it can: no stick is asked to go where its radio does not reach. It
// says nothing where the direction is in its place, and where the craft reads nothing of it.
func further(v *ui.View, at gestures.Place, i int) (way words.Text, can bool) {
	l, job := &v.Config.Layout, gestures.OnSticks(mode(v))[i]
	read := sticks(l, &v.Snap.Received)[job]
	if at.In || !read.Valid() {
		return words.Text{}, false
	}
	if r := Of(v).Reach; r != nil {
		channels := [...]int8{gestures.Throttle: l.Throttle, gestures.Roll: l.Roll, gestures.Pitch: l.Pitch, gestures.Yaw: l.Yaw}
		edge, c := read+at.Off, r.On(channels[job])
		if c != nil && !c.Assumed && (at.Off < 0 && edge < c.Low || at.Off > 0 && edge > c.High) {
			return words.T("gesture.out-of-reach", words.Args{"zone": tell.StickZone(i%2 == 1, at.Zone)}), false
		}
	}
	return tell.StickMove(i%2 == 1, at), true
}

// millis is a time in slots in ms.
func millis[N uint16 | int32 | int64](set *gestures.Config, slots N) int64 {
	return int64(slots) * int64(max(set.SlotTicks, 1))
}
