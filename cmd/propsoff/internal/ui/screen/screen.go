// Package screen decides which sheet is shown and what each key does.
//
// It stands between the window, which knows only pages and keys, and the practice: it fills the sheets' View from the loop and the driver, and
// turns keys and clicks into bench inputs. It is the same in a window and in a test.
package screen

import (
	"cmp"
	"os"
	"path/filepath"
	"time"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/comfort"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/radio"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove"
)

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
	deeds    map[ui.Action]func()
	Told     told
	// idle says on the sheet idleOn why the key that was pressed last did nothing, or what it did where that is not to be seen (idleGood), since the tick
	// idleAt.
	idle     words.Text
	idleAt   int64
	idleOn   ui.Place
	idleGood bool
	// unseen: nobody can see the sheet; rests: the bench stands still (Rest). stood says why it stood still until the tick stoodAt.
	unseen, rests bool
	stood         words.ID
	stoodAt       int64

	// keyboardSince is the tick at which somebody else than the keyboard drove last.
	keyboardSince int64

	Known     known
	practised practised // at revision
	revision  int

	Flight *flight
	sheets []Sheet
	at     map[ui.Place]Sheet
	Shared
	sound  *soundPart
	Record *RecordPart
	House  *ui.House
	Tool   ui.Place // the open one, empty for none
	from   ui.Place // where one goes back to in the end: the first sheet, or empty for the bench
	// besides is the sheet from which the open one was opened, where it is neither of these.
	besides ui.Place

	// Pointed is where in a hit area a pointer was let go, PointedFrom where it came down, in shares of it.
	Pointed, PointedFrom ink.Point
	// reached is the radio at reachedAt, a revision.
	reached   handset.Radio
	reachedAt int

	helpOf ui.Place // the sheet on which help was asked for
	// Leaf is the page that is shown of what does not fit one, from 0, on the sheet leafOf.
	Leaf   int
	leafOf ui.Place
	// asked is the question that stands, nil for none; quitting: it is whether to leave the program.
	asked    *Question
	quitting bool

	writing *Writing // what is typed, nil for nothing

	// wheel is which list the mouse's wheel turned last, and what is left of that which was less than a row.
	wheel struct {
		list string
		left float64
	}

	// grips are what pointers that are down have hold of; touch: the last of them was a finger.
	grips []grip
	touch bool

	hearing *hearing // nil where nothing is said

	theme *ink.Theme // that was chosen, nil for none

	cautions, help, seats, full, Choosing, quit bool
}

// Shared is what a sheet tells the screen and the other sheets, besides what it shows.
type Shared struct {
	// Drilling tells whether a drill runs; Run is it as it stood at the last turn, Begun its number from 1, Drill what it is of.
	Drilling func() bool
	Run      drillrun.View
	Begun    uint64
	Drill    *drillfile.Drill
	// DeskUsed: the instructor's desk was opened once.
	DeskUsed bool
	// Goggles is the menu that is open, by the facts of now.
	Goggles func(*facts.Facts) ui.GogglesView
	// Proof is what was found of the layout, Checks the controls check.
	Proof  Proof
	Checks func() (ControlsCheck, bool)
	// Edit takes a changed craft file to the sheet of the switch layout, as a change that is not saved yet; it says why where it does not.
	Edit func(*craftfile.File) (why words.Text)
	// Unsaved is the craft file as it was changed on that sheet and is not saved yet, nil for none.
	Unsaved func() *craftfile.File
	// Fly puts a craft file on the bench, that of a path, and says from when on it flies, or why it does not. Moved tells that a file has another path now.
	Fly   func(f *craftfile.File, path string) (said words.Text)
	Moved func(from, to string)
	// WithFile does something with a file that is kept, by its name, on the sheet of them.
	WithFile func(a ui.Action, name string)
	// Losses are what would be lost where a sheet is left, or the program.
	Losses []Loss
	// Filled bring their part of the view up to date for every picture.
	Filled []func(v *ui.View)
	// Notes are asked for good news for every picture, Drawn are told of each that was drawn, Hidden are asked whether they take a key that is pressed.
	Notes  []func() words.Text
	Drawn  []func(tick int64)
	Hidden []func(key string, on ui.Place) bool
	// Unseen are told that nobody can see the sheet any more.
	Unseen []func()
}

// SearchKey tells one layout from another: by the texts of craft and gestures, and by what the radio can send.
type SearchKey struct{ Craft, Gestures, Radio string }

// Proof is the search of every situation.
type Proof interface {
	// Now is craft and radio as they are; ok is false without a craft file.
	Now() (key SearchKey, layout prove.Layout, ok bool)
	// Begin begins the search of craft and radio as they are, where it was not begun yet; it goes on until it is done or stopped.
	Begin()
	// Progress says whether a search of them goes on, the share that was searched of all that is known of so far, and in words what it came to once it
	// is over.
	Progress() (searching bool, done float64, cameTo words.Text)
	// Proved is what was found of a layout and on which day, the zero time where that is not known, or why nothing was found. It may be remembered.
	Proved(key SearchKey) (found *prove.Report, on time.Time, notProved words.Text)
	// Like is what craft and radio as they are were found to behave like, nil for nothing known.
	Like() *tell.Like
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

// New makes a screen without a sheet; Furnish gives it its sheets.
func New(o Options) *Screen {
	s := &Screen{Options: o, Config: *o.Loop.Craft(), theme: o.Theme, Pointed: inTheMiddle, PointedFrom: inTheMiddle, touch: o.Touch}
	s.view.Book, s.view.InPage = o.Book, o.InPage
	s.cautions = !o.Bare && !s.wereRead()
	if s.Options.Remembered == nil {
		s.Options.Remembered = new(remembered.File)
	}
	if s.Options.Proofs == nil {
		s.Options.Proofs = new(remembered.Proofs)
	}
	if s.Options.Drills.Pupils == nil {
		s.Options.Drills.Pupils = nobody{}
	}
	if !o.Bare {
		o.Driver.Guard(func(d radio.Device) bool { return s.Options.Remembered.IsConfirmed(s.confirmed(d)) })
	}
	s.Flight = &flight{s: s, slow: 1}
	s.sound, s.Record, s.hearing = newSound(s), &RecordPart{S: s}, newHearing(s)
	s.deeds, s.Losses = s.shared(), s.losses()
	return s
}

// View is what the sheets were given for the last picture.
func (s *Screen) View() *ui.View { return &s.view }

// Driver is who decides who drives.
func (s *Screen) Driver() *whodrives.Driver { return s.Options.Driver }

// Furnish gives the screen its sheets, the bench first.
func (s *Screen) Furnish(all []Sheet) {
	abouts := make([]*ui.About, len(all))
	s.sheets, s.at = all, map[ui.Place]Sheet{}
	for i, t := range all {
		abouts[i] = t.About()
		s.at[abouts[i].Place] = t
	}
	s.House = ui.NewHouse(abouts...)
	s.view.House = s.House
	if s.Options.Start {
		s.Tool, s.from = ui.OnStart, ui.OnStart
	}
}

// wereRead tells whether it is remembered that the cautions were read.
func (s *Screen) wereRead() bool {
	_, err := os.Stat(s.Options.ReadFile)
	return err == nil
}

// markRead remembers that the cautions were read. Where that cannot be written they are shown again next time, which
// does no harm.
func (s *Screen) markRead() {
	s.cautions = false
	if s.Options.ReadFile != "" && os.MkdirAll(filepath.Dir(s.Options.ReadFile), 0o700) == nil {
		_ = door.PublishBytes(s.Options.ReadFile, door.Out{Private: true}, []byte("The cautions were read.\n"))
	}
}

// Turn lets the driver look round, and says what is wished of the window.
func (s *Screen) Turn() (quit, full bool) {
	for len(s.Options.Ended) > 0 {
		s.Options.Driver.Ended(<-s.Options.Ended)
	}
	if !s.cautions { // nobody drives before the cautions are read
		s.Options.Driver.Turn()
	}
	s.Driving = s.Options.Driver.View()
	s.confirm()
	s.Config = *s.Options.Loop.Craft()
	s.NoteRadio()
	s.seats = s.seats && s.HasSeats()
	if open := s.House.Of(ui.Place(s.Options.Open)); open != nil && !s.cautions && (!open.InAir || s.view.Snap.In.Air) {
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

// Keyboard tells what the keys write as the keyboard is set, by the names of their places.
func (s *Screen) Keyboard(writes map[string]string) { s.view.Caps = ui.NewCaps(writes) }

// Focus tells that the window has the keyboard or lost it: then every key counts as released. A radio goes on being read.
func (s *Screen) Focus(on bool) {
	if !on {
		s.Options.Driver.ReleaseAll()
	}
}

// Page makes the sheet that is on top. It need not come to be shown.
func (s *Screen) Page(p *ink.Page, w, h float64) {
	s.suit()
	p.Reset(w, h, 0, s.view.Theme)
	s.fill()
	s.view.HelpOf = s.helpOf
	s.open().Draw(p, &s.view)
	s.hearing.page(p)
}

// suit takes what suits whoever looks: what was chosen here, and for the rest what the system says.
func (s *Screen) suit() {
	v, wish := &s.view, comfort.Wishes{}
	if s.Options.System != nil {
		wish = s.Options.System()
	}
	v.Theme, v.Chosen, v.SystemTheme = s.theme, s.theme != nil, nil
	says := ink.ThemeOf(wish.Dark, wish.MoreContrast)
	if s.Options.System != nil {
		v.SystemTheme = says
	}
	if !v.Chosen {
		v.Theme = says
	}
	v.Still, v.TextSize = wish.LessMotion, cmp.Or(s.Options.Remembered.TextSize, wish.Text)
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
	case s.asked != nil && !(s.help && s.helpOf == ui.OnAsk):
		return ui.OnAsk
	case s.cautions:
		return ui.OnCautions
	case s.writing != nil:
		return ui.OnWrite
	case s.help:
		return ui.OnHelp
	case s.seats:
		return ui.OnSeats
	case s.Driving.Who == whodrives.Questions || s.Driving.Result != nil:
		return ui.OnQuestions
	case s.Driving.Who == whodrives.Which:
		return ui.OnWhich
	case s.Tool != "":
		return s.Tool
	}
	return ui.OnBench
}
