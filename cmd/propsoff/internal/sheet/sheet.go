// Package sheet holds the screens: each a function from a snapshot to a page, one file each.
//
// A screen decides nothing and remembers nothing: everything it may know stands in a View, which the window fills, and
// the same View gives the same page. What is drawn is checked as a list (ink.Check) over sizes, themes and stick modes.
package sheet

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/input"
	"propsoff/input/learn"
	"propsoff/input/radio"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
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
	Chart      []loop.Point
	Happenings []happening.Happening
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
	Notices []string
	// StickMode is 1 to 4; anything else counts as 2.
	StickMode int

	// Recording is the path of the file that a take is written to; empty for none. CanRecord: one can be begun by its key.
	Recording string
	CanRecord bool
	// LastMenu is the value of pulse.Menu of the menu that is open, or was last.
	LastMenu uint8
	// Dark sheet, or light. Full screen, and Class view: readable from afar.
	Dark, Full, Class bool

	// Learning a radio: what is known of it, the device, whether it is pulled out, and where the answers were kept once all
	// are given (empty: not kept yet, or KeptError says why not).
	Learn           learn.View
	Device          input.Info
	Out             bool
	Kept, KeptError string
	// Naming: a name is typed for the switch found last, so far Typed.
	Naming bool
	Typed  string
	// Unkept: what is known of the radio that drives is in no file yet.
	Unkept bool
	// Carries are the craft's own words for what channels without a job of the bench do, empty for none.
	Carries [pulse.Channels]string
	// Alike are the radio files to choose from where it is not sure which one is Device's, the likeliest first.
	Alike []radio.Candidate

	// HelpOf is the sheet on which help was asked for; 0 means the bench.
	HelpOf Place

	// What the sheets over the bench know; each is filled while its sheet is open.
	Check  CheckView
	Layout LayoutView
	Prove  ProveView
	Card   CardView
	First  FirstView
	Three  ThreeView
	// Gestures, Loss, Drills and Desk likewise.
	Gestures GesturesView
	Loss     LossView
	Drills   DrillsView
	Desk     DeskView
	// Flight is filled while the craft is on the air bench.
	Flight FlightView
	Sound  SoundView

	pts   []ink.Point
	more  []ink.Point
	lines []note
	rows  []Row
	cells []ink.Rect
}

// board is a page being drawn for a view, with the text sizes and distances that fit it.
type board struct {
	*ink.Page
	v  *View
	on Place // the sheet that is drawn
	// Text sizes in pixels: labels, sentences, headings, the sentence that matters now.
	small, body, head, large float64
	// u is one pixel of the least window; gap the distance between two panels.
	u, gap float64
	cap    float64 // height of a key cap
	tall   bool    // portrait: two columns, or stacked
}

func newBoard(p *ink.Page, v *View) *board {
	tall := p.W/p.H < tallBelow
	if tall {
		p.Scale = min(p.H/ink.LeastHeight, p.W/tallWidth)
	}
	return &board{Page: p, v: v, tall: tall, small: p.TextSize(11), body: p.TextSize(12), head: p.TextSize(13), large: p.TextSize(16), u: p.Px(1), gap: p.Px(10), cap: p.Px(17)}
}

// stickKeys tells whether key caps stand beside sticks and switches: where they move them.
func (b *board) stickKeys() bool {
	return b.v.Driver != Radio && b.v.Driver != Played && b.on&OnFlown != 0 && !b.v.Flight.Replay.On
}

// sheetArea is the page without its margin, inside a thin frame as on a drafting sheet.
func (b *board) sheetArea() ink.Rect {
	b.Group("sheet")
	r := b.Bounds().Inset(b.Px(6))
	b.Rect("frame", r, ink.Paint{Line: ink.Rule})
	b.caption(r)
	b.recordingTag(r)
	_, in := r.Inset(b.Px(9)).CutTop(b.captionRoom()-b.Px(15), 0)
	return in
}

// section draws a heading with a rule to the right edge and gives what is left below it.
func (b *board) section(r ink.Rect, name, title string) ink.Rect {
	h := ink.BlockHeight(b.small, 1)
	b.fitted(name, ink.Rect{X: r.X, Y: r.Y, W: r.W, H: h}, ink.Style{Size: b.small, Weight: ink.Bold, Colour: ink.Faint}, title)
	if x := r.X + ink.Width(title, b.small, ink.Bold) + 6*b.u; x < r.Right() {
		b.Line(name+" rule", x, r.Y+h/2, r.Right(), r.Y+h/2, ink.Paint{Line: ink.Grid})
	}
	_, rest := r.CutTop(h, 3*b.u)
	return rest
}

// sectionHeight is what a heading takes.
func (b *board) sectionHeight() float64 { return ink.BlockHeight(b.small, 1) + 3*b.u }

// rowHeight is the height of one line of labels.
func (b *board) rowHeight() float64 { return ink.BlockHeight(b.small, 1) }

// fitted is text at a size that fits a width, shortened at the end where even the smallest does not.
func (b *board) fitted(name string, r ink.Rect, s ink.Style, text string) {
	s.Within = r
	blk := ink.Block{Width: r.W, MaxLines: 1, Shorten: true}
	b.Block(name, r.X, r.Y+(r.H-ink.BlockHeight(s.Size, 1))/2, s, blk, text)
}

func clamp(v, lo, hi float64) float64 { return max(lo, min(hi, v)) }
