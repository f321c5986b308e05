// Package ui says what a sheet is, and holds the parts that all sheets share: the view, keys, columns, lists round a chosen row.
//
// A sheet decides nothing and remembers nothing: everything it may know stands in a View, which the screen fills, and the same View gives the
// same page. What is drawn is checked as a list (ink.Check) over sizes, themes, languages and stick modes.
package ui

import (
	"path/filepath"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Driver says who moves the sticks.
type Driver uint8

const (
	Nobody   Driver = iota // no radio, and nobody has pressed a stick key yet
	Demo                   // the demo pilot flies until a key is pressed
	Keyboard               // the keys of keyboard.Layout
	Radio                  // the radio DriverName
	Played                 // a script or take given at the start, DriverName; nothing else may drive
)

// View is everything that a sheet may know. The caller fills it anew for each picture and keeps the same View, whose
// buffers are used again; it belongs to the goroutine that draws.
type View struct {
	Snap sim.Snapshot
	// Facts are those of Snap: what may be said of it. Config is the craft as it now is, what is planted in it included.
	Facts  facts.Facts
	Config *sim.Config
	// CraftName is the craft file's name for the craft.
	CraftName string
	// Chart are the points of the last ten seconds, oldest first; Happenings those of at least that time, oldest first.
	Chart      []live.Point
	Happenings []happening.Happening
	// Disarmed is how the craft was disarmed last, the zero value where it is armed or was not yet.
	Disarmed happening.Happening
	// Refusals has been fed with every snapshot that was shown; nil shows those of Snap alone.
	Refusals *Refusals

	Driver Driver
	// Ended: what was Played is over, and the keyboard may take over.
	Ended      bool
	DriverName string
	// Next says who drives after the key for it: Nobody where there is nobody else, then the key is not shown.
	Next Driver
	// NextName is the radio's name where Next is Radio.
	NextName string
	// Blunted: the radio is read in a way that hides small movements round the centre.
	Blunted bool
	// Radios are the names of all radios plugged in; Reading is the index of the one being read, −1 for none. While
	// Choosing, number keys choose one of them and mean nothing else.
	Radios   []string
	Reading  int
	Choosing bool
	// Leads: the key of the next driver, pressed again and again, comes to a radio.
	Leads bool
	// Notices are sentences to show, the most urgent first.
	Notices []Notice
	// Handset is the radio that is known: what was learned of one so far, the one that drives, or an ideal one. HasSeats: it is a real one with
	// controls besides its sticks, so the pilot can say where they sit.
	Handset  handset.Radio
	HasSeats bool
	// StickMode is 1 to 4; anything else counts as 2.
	StickMode int

	// Recording is the path of the file that a take is written to; empty for none. CanRecord: one can be begun by its key.
	Recording string
	CanRecord bool
	// Practises says who practises; it says nothing where nobody can, as there is nowhere to keep it.
	Practises words.Text
	// Drives is what a question says of who drives; it says nothing where that is what other sheets say.
	Drives words.Text
	// LastMenu is the value of pulse.Menu of the menu that is open, or was last.
	LastMenu uint8
	// Caps is what is printed on the keys of the keyboard at hand.
	Caps Caps
	// House is all sheets.
	House *House
	// Book is the language of the sheets; nil means English.
	Book *words.Book
	// Waiting is what was told to the bench while time stands.
	Waiting live.Waiting
	// Drilling: a drill runs. DeskUsed: the instructor's desk was opened once; from then on time may be stopped and looked back at on both
	// benches. HideMode: a drill asks for the mode, so no sheet tells it. CannotRecord says why no gesture can be recorded now; empty where one
	// can. Goggles is the menu that is open.
	Drilling, DeskUsed bool
	HideMode           bool
	CannotRecord       words.Text
	Goggles            GogglesView
	// TextSize is the size of text that is wished, in percent of the usual one; 0 for that.
	TextSize int
	// textRoom is the largest for which the last page had room.
	textRoom float64
	// InPage: the sheet stands in a page of a browser, and nothing on it leaves the program.
	InPage bool
	// Theme is what is drawn in. Still: nothing is to move for its own sake.
	Theme *ink.Theme
	// SystemTheme is the one that the system says, nil where it is not asked. Chosen: a person chose the one that is drawn in.
	SystemTheme *ink.Theme
	Chosen      bool
	Still       bool
	// Full screen, and Class view: readable from afar.
	Full, Class bool
	// Leaves are the pages of what does not fit one.
	Leaves Leaves
	// Touch: a finger was used last, so what can be pressed is as large as one.
	Touch bool

	// Learning a radio: what is known of it, the device, whether it is pulled out, and where the answers were kept once all
	// are given (empty: not kept yet, or KeptError says why not).
	Learn     learn.View
	Device    input.Info
	Out       bool
	Kept      string
	KeptError words.Text
	// Unkept: what is known of the radio that drives is in no file yet.
	Unkept bool
	// Carries are the craft's own words for what channels without a job of the bench do, empty for none.
	Carries [pulse.Channels]string
	// Alike are the radio files to choose from where it is not sure which one is Device's, the likeliest first.
	Alike []radio.Candidate

	// HelpOf is the sheet on which help was asked for; empty means the bench.
	HelpOf Place

	// Flight is filled while the craft is on the air bench.
	Flight FlightView
	Sound  SoundView

	// Unseen is a page to measure on, the rest are buffers of the drawing.
	Unseen ink.Page

	Pts   []ink.Point
	More  []ink.Point
	Lines []Note
	Rows  []Row
	Cells []ink.Rect
	// rolls are the lists of the sheet that do not fit.
	rolls []rolled
	// own is what single sheets know besides, each a pointer to a type of its own.
	own []any
}

// Notice is a sentence to show. Good: it is good news and stands without the mark of a warning.
type Notice struct {
	words.Text
	Good bool
}

// Warnings are sentences as notices, each with the mark of a warning.
func Warnings(all ...words.Text) (out []Notice) {
	for _, t := range all {
		out = append(out, Notice{Text: t})
	}
	return out
}

// Notice adds a sentence to the notices, unless it says nothing.
func (v *View) Notice(t words.Text) { v.note(Notice{Text: t}) }

// GoodNews is Notice of what warns of nothing.
func (v *View) GoodNews(t words.Text) { v.note(Notice{Text: t, Good: true}) }

func (v *View) note(n Notice) {
	if !n.Empty() {
		v.Notices = append(v.Notices, n)
	}
}

// PathShown is a path as a sheet names it: in a browser there are no folders that a person could look into.
func (v *View) PathShown(path string) string {
	if v.InPage {
		return filepath.Base(path)
	}
	return path
}

// Own is what one sheet knows besides what all do: the value of a type of its own, made when it is asked for first and kept with the View.
func Own[T any](v *View) *T {
	for _, o := range v.own {
		if t, ok := o.(*T); ok {
			return t
		}
	}
	t := new(T)
	v.own = append(v.own, t)
	return t
}

// Note is one happening in the margin of the chart paper.
type Note struct {
	At    float64 // where its moment is on the paper
	Text  string
	Lines int
	// Tells: it says that the craft was armed, or why it no longer is, which nothing that came later makes less worth knowing.
	Tells bool
}

// GogglesView is the menu that is open, as the goggles show it. Its texts are made by whoever fills it.
type GogglesView struct {
	// Open: a menu is open. Name is what it is called; Camera: it is a camera's.
	Open   bool
	Name   words.Text
	Camera bool
	// Path are the pages from the first one to the one that is shown.
	Path []words.Text
	// Items of the page in their order; Mark is the one that the mark stands on.
	Items []GogglesItem
	Mark  int
	// Leaving: it is asked what is to become of what was changed. Answers in their order, Answer the one marked.
	Leaving bool
	Answers []words.Text
	Answer  int
	// Changed is how many values stand otherwise than when the menu was opened.
	Changed int
	// Moves says how the sticks move the menu, a sentence each.
	Moves []words.Text
	// Stands says in half a sentence which menu is open and where the mark stands, for the bench.
	Stands words.Text
}

// GogglesKind is what an item is.
type GogglesKind uint8

// The kinds.
const (
	GogglesValue GogglesKind = iota // a value that is changed
	GogglesPage                     // it opens a page
	GogglesLeave                    // it leaves the page or the menu
)

// GogglesItem is one line of a page.
type GogglesItem struct {
	Kind  GogglesKind
	Label words.Text
	// Holds is how many items a page holds, without its way out.
	Holds int
	// Value with its unit, and Was what it was when the menu was opened, where it was Changed. Less and More: there is room that way.
	Value, Was words.Text
	Changed    bool
	Less, More bool
	// Moves: the sticks move the value now, Upright by up and down. Inside: it was gone into for that.
	Moves, Upright, Inside bool
}
