// Package screen decides which sheet is shown and what each key does.
//
// It stands between the window, which knows only pages and keys, and the practice: it fills the sheets' View from the
// loop and the driver, and turns keys and clicks into bench inputs. It is the same in a window and in a test.
package screen

import (
	"os"
	"path/filepath"
	"slices"
	"time"

	"propsoff/assets/door"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/input"
	"propsoff/input/keyboard"
	"propsoff/input/radio"
	"propsoff/sim"
	"propsoff/sim/craftfile"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// Options of a Screen. Loop and Driver are needed.
type Options struct {
	Loop      *loop.Loop
	Driver    *drive.Driver
	CraftName string
	// Craft is the craft file, CraftPath where it came from (a shipped craft's name has no folder), Names its words.
	Craft     *craftfile.File
	CraftPath string
	Names     input.Names
	// Radio is the file of --radio, nil where none was given.
	Radio *radio.File
	// Open is a sheet to be opened at once: an action that opens one.
	Open sheet.Action
	// Gestures tells of the gesture file.
	Gestures GestureOptions
	// Drills are the course; the zero value has none.
	Drills DrillOptions
	// Now gives the date for what is printed; the zero time leaves it out.
	Now func() time.Time
	// Record is what recording a take needs.
	Record RecordOptions
	Dark   bool
	// ReadFile is where it is remembered that the cautions were read; empty shows them at every start.
	ReadFile string
	// Ended carries sources that have ended, from the loop's goroutine.
	Ended <-chan drive.Ended
	// Bare leaves the cautions out: for pictures and for a script that drives the window.
	Bare bool
	// Outside lets the craft be carried to the air bench at once, its propellers right and checked: for an instructor who shows
	// something. Seed shuffles the propellers that a pilot has to put right.
	Outside bool
	Seed    uint64
	Sounds  SoundOptions
}

// Screen is one window's worth of program. It belongs to the window's goroutine.
type Screen struct {
	o        Options
	cfg      sim.Config
	view     sheet.View
	driver   drive.View
	refusals sheet.Refusals
	next     uint64 // the happening to ask for next
	recent   []happening.Happening
	shown    []happening.Happening
	keys     map[string]keyboard.Key
	told     told
	// idle says why the key that was pressed last did nothing, since the tick idleAt.
	idle   string
	idleAt int64

	// keyboardSince is the tick at which the keyboard began to drive, −1 while it does not.
	keyboardSince int64

	known    known
	flight   *flight
	tools    []tool
	drills   *drillsPart
	desk     *deskPart
	gestures *gesturesPart
	layout   *layoutPart
	sound    *soundPart
	record   *recordPart
	tool     sheet.Place // the open one, 0 for none

	helpOf sheet.Place // the sheet on which help was asked for

	// naming: a name is typed for the switch that was found last, so far typed.
	naming bool
	typed  string

	cautions, help, full, dark, choosing, quit bool
}

// keyboardNote is how long a person who drives by keyboard is told that no radio is plugged in, in ticks (ours).
const keyboardNote = 20_000

// idleNote is how long it stands why a key did nothing, in ticks (ours).
const idleNote = 6000

// New makes a screen.
func New(o Options) *Screen {
	s := &Screen{o: o, cfg: *o.Loop.Craft(), dark: o.Dark, keyboardSince: -1, keys: map[string]keyboard.Key{}}
	for _, b := range keyboard.Layout() {
		s.keys[b.Physical] = b.Key
	}
	s.cautions = !o.Bare && !s.wereRead()
	s.flight, s.tools = newFlight(s), newTools(s)
	s.sound, s.record = newSound(s), &recordPart{s: s}
	return s
}

func (s *Screen) wereRead() bool {
	if s.o.ReadFile == "" {
		return false
	}
	_, err := os.Stat(s.o.ReadFile)
	return err == nil
}

// markRead remembers that the cautions were read. Where that cannot be written they are shown again next time, which
// does no harm.
func (s *Screen) markRead() {
	if s.o.ReadFile == "" {
		return
	}
	if os.MkdirAll(filepath.Dir(s.o.ReadFile), 0o700) == nil {
		_ = door.PublishBytes(s.o.ReadFile, door.Out{Private: true}, []byte("The cautions were read.\n"))
	}
}

// Turn lets the driver look round, and says what is wished of the window.
func (s *Screen) Turn() (quit, full bool) {
	for {
		select {
		case e := <-s.o.Ended:
			s.o.Driver.Ended(e)
			continue
		default:
		}
		break
	}
	if !s.cautions { // nobody drives before the cautions are read
		s.o.Driver.Turn()
	}
	s.driver = s.o.Driver.View()
	s.cfg = *s.o.Loop.Craft()
	s.noteRadio()
	if s.o.Open != sheet.NoAction && !s.cautions && (s.o.Open != sheet.OpenThree || s.view.Snap.In.Air) {
		s.turnTo(s.o.Open)
		s.o.Open = sheet.NoAction
	}
	s.flight.turn()
	for i := range s.tools {
		s.tools[i].part.turn()
	}
	s.sound.turn()
	s.record.turn()
	return s.quit, s.full
}

// Focus tells that the window has the keyboard or lost it: then every key counts as released. A radio goes on being read.
func (s *Screen) Focus(on bool) {
	if !on {
		s.o.Driver.ReleaseAll()
	}
}

// Page draws the sheet that is on top.
func (s *Screen) Page(p *ink.Page, w, h float64) {
	theme := ink.Light()
	if s.dark {
		theme = ink.Dark()
	}
	p.Reset(w, h, 0, theme)
	s.fill()
	s.view.HelpOf = s.helpOf
	switch s.place() {
	case sheet.OnCautions:
		sheet.Cautions(p, &s.view)
	case sheet.OnHelp:
		sheet.Help(p, &s.view)
	case sheet.OnQuestions:
		sheet.Questions(p, &s.view)
	case sheet.OnWhich:
		sheet.Which(p, &s.view)
	case sheet.OnCheck:
		sheet.Check(p, &s.view)
	case sheet.OnLayout:
		sheet.Layout(p, &s.view)
	case sheet.OnProve:
		sheet.Prove(p, &s.view)
	case sheet.OnCard:
		sheet.Card(p, &s.view)
	case sheet.OnFirst:
		sheet.First(p, &s.view)
	case sheet.OnThree:
		sheet.Three(p, &s.view)
	case sheet.OnGestures:
		sheet.Gestures(p, &s.view)
	case sheet.OnLoss:
		sheet.Loss(p, &s.view)
	case sheet.OnDrills:
		sheet.Drills(p, &s.view)
	case sheet.OnDesk:
		sheet.Desk(p, &s.view)
	default:
		sheet.Bench(p, &s.view)
	}
	s.drills.drawn(s.view.Snap.Tick)
}

// place is the sheet on top.
func (s *Screen) place() sheet.Place {
	switch {
	case s.cautions:
		return sheet.OnCautions
	case s.help:
		return sheet.OnHelp
	case s.driver.Who == drive.Questions || s.driver.Result != nil:
		return sheet.OnQuestions
	case s.driver.Who == drive.Which:
		return sheet.OnWhich
	case s.tool != 0:
		return s.tool
	}
	return sheet.OnBench
}

// fill brings the view up to date.
func (s *Screen) fill() {
	v, d := &s.view, &s.driver
	v.Facts = s.told.now(s)
	v.Facts.Plain = s.drills.on() // nothing else may ask for anything
	v.Snap, v.Config = v.Facts.Snap, &v.Facts.Craft
	v.Gestures.Goggles = s.gestures.goggles(&v.Facts) // which menu is open is told on the bench too
	v.Desk.Used, v.Drills.Run.On = s.desk.used, false
	v.CraftName = s.o.CraftName
	if m := s.flight.live.In.Craft.Menu; m != pulse.MenuClosed {
		v.LastMenu = m
	}
	v.Chart = s.o.Loop.Chart(v.Chart[:0])
	s.refusals.Update(&v.Facts)
	v.Refusals = &s.refusals
	s.flight.fill(v)
	if v.Flight.Replay.On {
		craft := v.Facts.Craft
		if then := s.o.Loop.CraftAt(v.Snap.Tick); then != s.o.Loop.Craft() {
			craft = *then
		}
		v.Facts = facts.Seen(&v.Snap, &craft)
		v.Gestures.Goggles = sheet.GogglesView{} // nobody kept where the mark stood then
	}
	s.fillHappenings()

	v.Driver, v.DriverName, v.Blunted = who(d.Who), d.Name, d.Blunted
	after, radio := s.o.Driver.After()
	v.Next, v.NextName = who(after), radio
	v.Radios, v.Reading = d.Choices, d.Chosen
	v.Choosing = s.choosing
	v.Leads = s.o.Driver.Leads()
	v.StickMode, v.Ended = d.StickMode, d.Ended
	v.Dark, v.Full, v.Class = s.dark, s.full, s.full
	s.fillLearning()
	v.Notices = v.Notices[:0]
	if age := s.flight.live.Tick - s.idleAt; s.idle != "" && age >= 0 && age < idleNote {
		v.Notices = append(v.Notices, s.idle)
	}
	if text := s.layout.note(); text != "" {
		v.Notices = append(v.Notices, text)
	}
	for _, n := range d.Notices {
		if n.Code == drive.Blunted && v.Blunted || (n.Code == drive.Kept || n.Code == drive.NotKept) && d.Result != nil || n.Code == drive.Unplugged && v.Out {
			continue // the sheet itself says so
		}
		if text := s.sentence(n); text != "" {
			v.Notices = append(v.Notices, text)
		}
	}
	waiting := slices.ContainsFunc(d.Notices, func(n drive.Notice) bool { return n.Code == drive.NoSuchRadio })
	switch {
	case d.Who != drive.Keyboard:
		s.keyboardSince = -1
	case s.keyboardSince < 0:
		s.keyboardSince = s.flight.live.Tick
	}
	if err := s.o.Loop.Trouble(); err != nil && d.Who == drive.Script {
		v.Notices = append(v.Notices, err.Error())
	}
	s.record.fill(v)
	early := d.Who == drive.Keyboard && s.flight.live.Tick-s.keyboardSince < keyboardNote
	if len(d.Choices) == 0 && !waiting && (d.Who == drive.Demo || d.Who == drive.Nobody || early) {
		v.Notices = append(v.Notices, phrase.NoRadio())
	}
	s.sound.fill(v)
	if t := s.open(); t != nil {
		t.fill(v)
	}
}

func who(w drive.Who) sheet.Driver {
	switch w {
	case drive.Demo:
		return sheet.Demo
	case drive.Keyboard:
		return sheet.Keyboard
	case drive.Radio, drive.Questions, drive.Which:
		return sheet.Radio
	case drive.Script:
		return sheet.Played
	}
	return sheet.Nobody
}

// Click does what a hit area stands for.
func (s *Screen) Click(h ink.Hit) {
	if n, ok := sheet.ChoiceOf(h.Name); ok {
		s.choose(n)
		return
	}
	if s.clickLearning(h.Name) {
		return
	}
	if t := s.open(); t != nil && t.hit(h.Name) || s.flight.hit(h.Name) {
		return
	}
	if a, ok := sheet.ActionOf(h.Name); ok {
		s.act(a)
		return
	}
	for _, b := range keyboard.Layout() { // a lever or a position of one
		if b.Code == h.Name {
			s.o.Driver.Press(b.Key)
			s.o.Driver.Release(b.Key)
		}
	}
}

// Type takes text that is typed, where a pupil is named: names are in any letters. It comes before the keys that it was typed by.
func (s *Screen) Type(text string) {
	if s.drills.typing && len(s.typed)+len(text) <= mostTyped {
		s.typed += text
	}
}

// mostTyped is how many bytes are taken of a pupil's name that is typed: more than a name may have, so that it is said which are too many.
const mostTyped = 200

// Key does what a key stands for on the sheet that is on top, or passes it on to the keyboard pilot.
func (s *Screen) Key(name string, down bool) {
	place := s.place()
	if s.typeName(name, down) {
		return
	}
	if t := s.open(); t != nil && t.key(name, down) || down && s.flight.key(name) {
		return
	}
	if down {
		if s.desk.hiddenKey(name, place) {
			return
		}
		if n := digit(name); n > 0 && place != sheet.OnCautions && s.number(n, place) {
			return
		}
		for _, a := range sheet.Acts() {
			if a.Physical == name && s.view.Shows(a, place) {
				s.idle = ""
				s.act(a.Action)
				return
			}
		}
		for _, a := range sheet.Acts() {
			if why := s.view.Idle(a, place); a.Physical == name && why != "" {
				s.idle, s.idleAt = why, s.flight.live.Tick
				return
			}
		}
	}
	k, ok := s.keys[name]
	if !ok {
		return
	}
	if !down {
		s.o.Driver.Release(k)
	} else if place&sheet.OnFlown != 0 {
		s.o.Driver.Press(k)
	}
}
