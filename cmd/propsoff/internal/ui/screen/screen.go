// Package screen decides which sheet is shown and what each key does.
//
// It stands between the window, which knows only pages and keys, and the practice: it fills the sheets' View from the loop and the driver, and
// turns keys and clicks into bench inputs. It is the same in a window and in a test.
package screen

import (
	"os"
	"path/filepath"
	"slices"
	"time"

	"propsoff/assets/door"
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/drillrun"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/input"
	"propsoff/input/keyboard"
	"propsoff/input/radio"
	"propsoff/sim"
	"propsoff/sim/craftfile"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/fault"
	"propsoff/sim/happening"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// Options of a Screen. Loop and Driver are needed.
type Options struct {
	Loop      *live.Loop
	Driver    *whodrives.Driver
	CraftName string
	// Craft is the craft file, CraftPath where it came from (a shipped craft's name has no folder), Names its words.
	Craft     *craftfile.File
	CraftPath string
	Names     input.Names
	// Radio is the file of --radio, nil where none was given.
	Radio *radio.File
	// Open is a sheet to be opened at once: an action that opens one.
	Open ui.Action
	// Gestures tells of the gesture file.
	Gestures GestureOptions
	// Drills are the course; the zero value has none.
	Drills DrillOptions
	// Now gives the date for what is printed; the zero time leaves it out.
	Now func() time.Time
	// Record is what recording a take needs.
	Record RecordOptions
	Dark   bool
	// Book is the language to begin with; nil means English.
	Book *words.Book
	// ReadFile is where it is remembered that the cautions were read; empty shows them at every start.
	ReadFile string
	// Ended carries sources that have ended, from the loop's goroutine.
	Ended <-chan whodrives.Ended
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
	Options  Options
	Config   sim.Config
	view     ui.View
	Driving  whodrives.View
	refusals ui.Refusals
	next     uint64 // the happening to ask for next
	recent   []happening.Happening
	shown    []happening.Happening
	keys     map[string]keyboard.Key
	Told     told
	// idle says why the key that was pressed last did nothing, since the tick idleAt.
	idle   words.Text
	idleAt int64

	// keyboardSince is the tick at which the keyboard began to drive, −1 while it does not.
	keyboardSince int64

	Known  known
	Flight *flight
	sheets []Sheet
	at     map[ui.Place]Sheet
	Shared
	sound  *soundPart
	Record *RecordPart
	House  *ui.House
	Tool   ui.Place // the open one, empty for none

	helpOf ui.Place // the sheet on which help was asked for

	// typed is what was typed so far.
	Typed string

	cautions, help, full, dark, Choosing, quit bool
}

// Shared is what a sheet tells the screen and the other sheets, besides what it shows.
type Shared struct {
	// Drilling tells whether a drill runs; Run is it as it stood at the last turn, Begun its number from 1, Drill what it is of.
	Drilling func() bool
	Run      drillrun.View
	Begun    uint64
	Drill    *drillfile.Drill
	// DeskUsed: the instructor's desk was opened once. Hands: the instructor has the sticks. Planted are the faults that stand.
	DeskUsed, Hands bool
	Planted         [fault.Count]bool
	// Goggles is the menu that is open, by the facts of now.
	Goggles func(*facts.Facts) ui.GogglesView
	// Proof is what was found of the layout, Checks the controls check.
	Proof  Proof
	Checks func() (ControlsCheck, bool)
	// Typing: text is typed that is taken as it comes.
	Typing bool
	// Filled bring their part of the view up to date for every picture.
	Filled []func(v *ui.View)
	// Notes are asked for a sentence for every picture, Drawn are told of each that was drawn, Hidden are asked whether they take a key that is pressed.
	Notes  []func() words.Text
	Drawn  []func(tick int64)
	Hidden []func(key string, on ui.Place) bool
}

// SearchKey tells one layout from another: by the texts of craft and gestures, and by what the radio can send.
type SearchKey struct{ Craft, Gestures, Radio string }

// Proof is the search of every situation.
type Proof interface {
	// Now is craft and radio as they are, and what they are called; ok is false without a craft file.
	Now() (key SearchKey, layout prove.Layout, of words.Text, ok bool)
	// Proved is what was found of a layout, or why nothing was.
	Proved(key SearchKey) (found *prove.Report, notProved words.Text)
}

// ControlsCheck is a controls check of the radio that drives, come to its end.
type ControlsCheck struct {
	Device   radio.Device
	Controls []radio.Control
	Fails    int
}

// keyboardNote is how long a person who drives by keyboard is told that no radio is plugged in, in ticks (ours).
const keyboardNote = 20_000

// idleNote is how long it stands why a key did nothing, in ticks (ours).
const idleNote = 6000

// newScreen makes a screen without a sheet.
func New(o Options) *Screen {
	s := &Screen{Options: o, Config: *o.Loop.Craft(), dark: o.Dark, keyboardSince: -1, keys: map[string]keyboard.Key{}}
	s.view.Book = o.Book
	for _, b := range keyboard.Layout() {
		s.keys[b.Physical] = b.Key
	}
	s.cautions = !o.Bare && !s.wereRead()
	s.Flight = newFlight(s)
	s.sound, s.Record = newSound(s), &RecordPart{S: s}
	return s
}

// View is what the sheets were given for the last picture.
func (s *Screen) View() *ui.View { return &s.view }

// Driver is who decides who drives.
func (s *Screen) Driver() *whodrives.Driver { return s.Options.Driver }

// Furnish gives the screen its sheets, the bench first.
func (s *Screen) Furnish(all []Sheet) {
	abouts := make([]*ui.About, len(all))
	s.at = map[ui.Place]Sheet{}
	for i, t := range all {
		abouts[i] = t.About()
		s.at[abouts[i].Place] = t
	}
	s.sheets, s.House = all, ui.NewHouse(abouts...)
	s.view.House = s.House
}

func (s *Screen) wereRead() bool {
	if s.Options.ReadFile == "" {
		return false
	}
	_, err := os.Stat(s.Options.ReadFile)
	return err == nil
}

// markRead remembers that the cautions were read. Where that cannot be written they are shown again next time, which
// does no harm.
func (s *Screen) markRead() {
	if s.Options.ReadFile == "" {
		return
	}
	if os.MkdirAll(filepath.Dir(s.Options.ReadFile), 0o700) == nil {
		_ = door.PublishBytes(s.Options.ReadFile, door.Out{Private: true}, []byte("The cautions were read.\n"))
	}
}

// Turn lets the driver look round, and says what is wished of the window.
func (s *Screen) Turn() (quit, full bool) {
	for {
		select {
		case e := <-s.Options.Ended:
			s.Options.Driver.Ended(e)
			continue
		default:
		}
		break
	}
	if !s.cautions { // nobody drives before the cautions are read
		s.Options.Driver.Turn()
	}
	s.Driving = s.Options.Driver.View()
	s.Config = *s.Options.Loop.Craft()
	s.NoteRadio()
	if s.Options.Open != ui.NoAction && !s.cautions && (s.Options.Open != ui.OnThree.Open() || s.view.Snap.In.Air) {
		s.TurnTo(s.Options.Open)
		s.Options.Open = ui.NoAction
	}
	s.Flight.turn()
	for _, t := range s.sheets {
		t.Turn()
	}
	s.sound.Turn()
	s.Record.Turn()
	return s.quit, s.full
}

// Focus tells that the window has the keyboard or lost it: then every key counts as released. A radio goes on being read.
func (s *Screen) Focus(on bool) {
	if !on {
		s.Options.Driver.ReleaseAll()
	}
}

// Page makes the sheet that is on top. It need not come to be shown.
func (s *Screen) Page(p *ink.Page, w, h float64) {
	theme := ink.Light()
	if s.dark {
		theme = ink.Dark()
	}
	p.Reset(w, h, 0, theme)
	s.fill()
	s.view.HelpOf = s.helpOf
	s.open().Draw(p, &s.view)
}

// Shown tells that the page that was made last goes to the screen now.
func (s *Screen) Shown() {
	for _, drawn := range s.Drawn {
		drawn(s.view.Snap.Tick)
	}
}

// Place is the sheet on top.
func (s *Screen) Place() ui.Place {
	switch {
	case s.cautions:
		return ui.OnCautions
	case s.help:
		return ui.OnHelp
	case s.Driving.Who == whodrives.Questions || s.Driving.Result != nil:
		return ui.OnQuestions
	case s.Driving.Who == whodrives.Which:
		return ui.OnWhich
	case s.Tool != "":
		return s.Tool
	}
	return ui.OnBench
}

// fill brings the view up to date.
func (s *Screen) fill() {
	v, d := &s.view, &s.Driving
	v.Facts = s.Told.now(s)
	v.Facts.Plain = s.Drilling() // nothing else may ask for anything
	v.Snap, v.Config = v.Facts.Snap, &v.Facts.Craft
	v.Goggles = s.Goggles(&v.Facts) // which menu is open is told on the bench too
	v.DeskUsed, v.Drilling, v.HideMode, v.CannotRecord = s.DeskUsed, s.Drilling(), false, words.Text{}
	v.CraftName = s.Options.CraftName
	if m := s.Flight.Live.In.Craft.Menu; m != pulse.MenuClosed {
		v.LastMenu = m
	}
	v.Chart = s.Options.Loop.Chart(v.Chart[:0])
	s.refusals.Update(&v.Facts)
	v.Refusals = &s.refusals
	s.Flight.fill(v)
	if v.Flight.Replay.On {
		craft := v.Facts.Craft
		if then := s.Options.Loop.CraftAt(v.Snap.Tick); then != s.Options.Loop.Craft() {
			craft = *then
		}
		v.Facts = facts.Seen(&v.Snap, &craft)
		v.Goggles = ui.GogglesView{} // nobody kept where the mark stood then
	}
	s.fillHappenings()

	v.Driver, v.DriverName, v.Blunted = Who(d.Who), d.Name, d.Blunted
	after, radio := s.Options.Driver.After()
	v.Next, v.NextName = Who(after), radio
	v.Radios, v.Reading = d.Choices, d.Chosen
	v.Choosing = s.Choosing
	v.Leads = s.Options.Driver.Leads()
	v.StickMode, v.Ended = d.StickMode, d.Ended
	v.Dark, v.Full, v.Class = s.dark, s.full, s.full
	for _, fill := range s.Filled {
		fill(v)
	}
	v.Notices = v.Notices[:0]
	if age := s.Flight.Live.Tick - s.idleAt; !s.idle.Empty() && age >= 0 && age < idleNote {
		v.Notices = append(v.Notices, s.idle)
	}
	for _, note := range s.Notes {
		if text := note(); !text.Empty() {
			v.Notices = append(v.Notices, text)
		}
	}
	for _, n := range d.Notices {
		if n.Code == whodrives.Blunted && v.Blunted || (n.Code == whodrives.Kept || n.Code == whodrives.NotKept) && d.Result != nil || n.Code == whodrives.Unplugged && v.Out {
			continue // the sheet itself says so
		}
		if text := s.sentence(n); !text.Empty() {
			v.Notices = append(v.Notices, text)
		}
	}
	waiting := slices.ContainsFunc(d.Notices, func(n whodrives.Notice) bool { return n.Code == whodrives.NoSuchRadio })
	switch {
	case d.Who != whodrives.Keyboard:
		s.keyboardSince = -1
	case s.keyboardSince < 0:
		s.keyboardSince = s.Flight.Live.Tick
	}
	if err := s.Options.Loop.Trouble(); err != nil && d.Who == whodrives.Script {
		v.Notices = append(v.Notices, words.Error(err))
	}
	s.Record.Fill(v)
	early := d.Who == whodrives.Keyboard && s.Flight.Live.Tick-s.keyboardSince < keyboardNote
	if len(d.Choices) == 0 && !waiting && (d.Who == whodrives.Demo || d.Who == whodrives.Nobody || early) {
		v.Notices = append(v.Notices, words.T("notice.no-radio"))
	}
	s.sound.Fill(v)
	s.open().Fill(v)
}

func Who(w whodrives.Who) ui.Driver {
	switch w {
	case whodrives.Demo:
		return ui.Demo
	case whodrives.Keyboard:
		return ui.Keyboard
	case whodrives.Radio, whodrives.Questions, whodrives.Which:
		return ui.Radio
	case whodrives.Script:
		return ui.Played
	}
	return ui.Nobody
}

// Click does what a hit area stands for.
func (s *Screen) Click(h ink.Hit) {
	if n, ok := ui.ChoiceOf(h.Name); ok {
		s.choose(n)
		return
	}
	if s.open().Hit(h.Name) || s.Flight.hit(h.Name) {
		return
	}
	if a := ui.Action(h.Name); s.House.KeyOf(a) != "" {
		s.Act(a)
		return
	}
	for _, b := range keyboard.Layout() { // a lever or a position of one
		if b.Code == h.Name {
			s.Options.Driver.Press(b.Key)
			s.Options.Driver.Release(b.Key)
		}
	}
}

// Type takes text that is typed, where a pupil is named: names are in any letters. It comes before the keys that it was typed by.
func (s *Screen) Type(text string) {
	if s.Typing && len(s.Typed)+len(text) <= mostTyped {
		s.Typed += text
	}
}

// mostTyped is how many bytes are taken of a pupil's name that is typed: more than a name may have, so that it is said which are too many.
const mostTyped = 200

// Key does what a key stands for on the sheet that is on top, or passes it on to the keyboard pilot.
func (s *Screen) Key(name string, down bool) {
	place := s.Place()
	if s.open().Key(name, down) || down && s.Flight.key(name) {
		return
	}
	if down {
		for _, takes := range s.Hidden {
			if takes(name, place) {
				return
			}
		}
		if n := Digit(name); n > 0 && place != ui.OnCautions && s.Choosing {
			s.choose(n - 1)
			return
		}
		for _, a := range s.House.Keys(place) {
			if a.Physical == name && s.view.Shows(a.Action, place) {
				s.idle = words.Text{}
				s.Act(a.Action)
				return
			}
		}
		for _, a := range s.House.Keys(place) {
			if why := s.view.Idle(a.Action, place); a.Physical == name && !why.Empty() {
				s.idle, s.idleAt = why, s.Flight.Live.Tick
				return
			}
		}
	}
	k, ok := s.keys[name]
	if !ok {
		return
	}
	if !down {
		s.Options.Driver.Release(k)
	} else if s.House.Flown(place) {
		s.Options.Driver.Press(k)
	}
}
