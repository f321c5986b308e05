package prove

import (
	"fmt"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/prove"
)

// What the keys of comparing do.
const (
	CompareEnter ui.Action = "compare-enter" // compare with the one looked at, or look at the way to the difference
	CompareAnew  ui.Action = "compare-anew"  // compare again, or stop comparing
	CompareBack  ui.Action = "compare-back"  // from the way back to the list
	CompareAbove ui.Action = "compare-above" // the one above, or the step
	CompareBelow ui.Action = "compare-below" // the one below, or the step
)

// AboutCompare is what there is to know of the sheet of comparing.
func AboutCompare() *ui.About { return new(comparePart).About() }

// About is what there is to know of the sheet.
func (p *comparePart) About() *ui.About {
	of := CompareOf
	several := func(v *ui.View) bool {
		c := of(v)
		return c.InWay && len(c.other().Steps) > 1 || !c.InWay && len(c.Others) > 1
	}
	return &ui.About{
		Place: ui.OnCompare, Key: "BracketRight", Everywhere: true, NotFrom: []ui.Place{ui.OnLayout},
		Shared: ui.Usual(),
		Own: []ui.Act{
			{Action: CompareEnter, Physical: "Enter", Do: p.enter, On: func(v *ui.View) bool { return len(of(v).other().Steps) > 0 },
				Shows: func(v *ui.View) bool {
					c := of(v)
					return len(c.Others) > 0 && !c.InWay && !c.Comparing
				}},
			{Action: CompareBack, Physical: "Backspace", Do: p.back, Shows: func(v *ui.View) bool { return of(v).InWay }},
			{Action: CompareAbove, Physical: "PageUp", Shows: several, Do: func() { p.move(-1) }},
			{Action: CompareBelow, Physical: "PageDown", Shows: several, Do: func() { p.move(1) }},
			{Action: CompareAnew, Physical: "Slash", Do: p.beginOrStop, On: func(v *ui.View) bool { return of(v).Comparing },
				Shows: func(v *ui.View) bool { return of(v).Comparing || of(v).other().Outcome != prove.NotAsked }},
		},
		More: ui.ArrowsMark,
		Picks: []ui.Pick{{Prefix: otherPrefix, Do: func(i int) {
			if again := i == p.view.At; i < len(p.view.Others) {
				if p.view.At = i; again {
					p.enter()
				}
			}
		}}, {Prefix: pairPrefix, Do: func(i int) { p.view.Step = i }}},
	}
}

// comparing is a comparison that is under way or done.
type comparing struct {
	underWay[prove.Progress, prove.Comparison]
	layouts [2]prove.Layout
	// at is the index of what it is compared with; of is the digest of the layout that is B.
	at int
	of string
}

// comparePart is the work behind the sheet: it compares beside the window.
type comparePart struct {
	screen.Base
	s *screen.Screen

	before before
	stale  bool // what it can be compared with is to be looked for anew
	key    screen.SearchKey
	edited *craftfile.File
	others []other
	under  *comparing
	view   CompareView
}

// NewCompare makes the sheet of comparing.
func NewCompare(s *screen.Screen) screen.Sheet { return &comparePart{s: s, stale: true} }

// Open looks anew what there is to compare with, where nothing is under way.
func (p *comparePart) Open() {
	if p.stale = p.stale || p.under == nil || p.under.over(); p.stale {
		p.view.InWay = false
	}
}

// Turn keeps what craft and radio were, and remembers what a comparison came to, also while another sheet is on top.
func (p *comparePart) Turn() {
	p.before.watch(p.s)
	p.settle()
}

// look finds anew what the layout can be compared with, once it is another. What came of it before is kept for what is the same still.
func (p *comparePart) look() {
	key, layout, ok := p.s.Proof.Now()
	if edited := p.unsaved(); key != p.key || edited != p.edited {
		p.stop()
		p.key, p.edited, p.stale = key, edited, true
		p.others, p.view.Others, p.view.InWay = nil, nil, false
	}
	if !ok || !p.stale {
		return
	}
	p.stale = false
	was, came := p.others, p.view.Others
	p.others = p.gather()
	p.view = CompareView{Of: tell.Searched(p.s.Options.Craft.Name, &layout.Radio, p.s.Known.By), At: min(p.view.At, max(len(p.others)-1, 0)), Status: p.view.Status}
	for i := range p.others {
		o := &p.others[i]
		one := p.plain(o)
		for k := range was {
			if was[k].same(o) {
				one = came[k]
			}
		}
		p.view.Others = append(p.view.Others, one)
	}
	if len(p.others) == 0 {
		p.view.Status = words.T("compare.nothing-there")
	} else if p.under == nil {
		p.view.Status = words.T("compare.choose")
	}
}

// plain is what can be compared with before it is.
func (p *comparePart) plain(o *other) Other {
	now := words.T("compare.as-now")
	one := Other{Short: o.says, Names: [2]words.Text{o.says, now}, Whole: words.T("compare.not-yet")}
	if o.edited {
		one.Names = [2]words.Text{words.T("compare.as-saved"), o.says}
	}
	one.Found = words.Row(tell.EachOf(0, one.Names[0]), tell.EachOf(1, one.Names[1]))
	return one
}

// Fill shows what it can be compared with, how far that is, and what came of it.
func (p *comparePart) Fill(v *ui.View) {
	if p.s.Options.Craft == nil {
		*CompareOf(v) = CompareView{Of: words.T("prove.no-craft")}
		return
	}
	p.look()
	p.settle()
	if u := p.under; u != nil && !u.over() {
		now := u.progress.Load()
		p.view.Status, p.view.Done, p.view.Comparing = tell.Progress(*now), share(now), true
	} else {
		p.view.Comparing = false
	}
	*CompareOf(v) = p.view
}

// enter compares with the one looked at, or shows the way to what tells them apart.
func (p *comparePart) enter() {
	switch one := p.view.other(); {
	case p.view.InWay || p.under != nil && !p.under.over():
	case len(one.Steps) > 0:
		p.view.InWay, p.view.Step = true, 0
	case one.Outcome == prove.NotAsked || one.Outcome == prove.Undecided:
		p.begin()
	}
}

// beginOrStop compares once more, or stops.
func (p *comparePart) beginOrStop() {
	if p.under != nil && !p.under.over() {
		p.under.stop()
		return
	}
	p.view.InWay = false
	p.begin()
}

// begin compares with the one looked at.
func (p *comparePart) begin() {
	if p.view.At >= len(p.others) {
		return
	}
	p.stop()
	o := &p.others[p.view.At]
	l, of := p.layouts(o)
	u := &comparing{layouts: l, at: p.view.At, of: of}
	u.begin(func(progress func(prove.Progress) bool) (prove.Comparison, error) { return facts.Compare(l, progress) })
	p.under = u
	p.view.Others[p.view.At] = p.plain(o)
}

// layouts are the two that are compared, and the digest of B.
func (p *comparePart) layouts(o *other) (l [2]prove.Layout, of string) {
	now, known := p.s.Options.Craft, &p.s.Known
	var info *input.Info
	if known.Info.Name != "" {
		info = &known.Info
	}
	craft := *o.craft // which may be shared
	if cfg := now.Config(); craft.Config().SlotTicks == cfg.SlotTicks {
		craft.Learn(cfg.Gestures, cfg.Menus)
	}
	crafts, files, infos := [2]*craftfile.File{&craft, now}, [2]*radio.File{o.file, known.File}, [2]*input.Info{o.info, info}
	key, _, _ := p.s.Proof.Now()
	if o.edited {
		crafts, files, infos = [2]*craftfile.File{now, &craft}, [2]*radio.File{files[1], files[0]}, [2]*input.Info{infos[1], infos[0]}
	}
	b := p.s.LayoutOf(crafts[1])
	key.Craft, key.Radio = string(crafts[1].Text), fmt.Sprint(b.Radio)
	of = digest(&key, &b, p.s.Options.Record.Program)
	l = facts.LayoutsOf(crafts, files, infos)
	for i := range l {
		if files[i] == nil {
			l[i].Radio.StickMode = b.Radio.StickMode
		}
	}
	return l, of
}

// settle puts what a comparison came to into words, once, and remembers of which layout it is proved that it behaves as another.
func (p *comparePart) settle() {
	u := p.under
	if u == nil || u.shown || !u.over() || u.at >= len(p.others) {
		return
	}
	u.shown = true
	if u.err != nil {
		p.view.Status = words.T("prove.not-searched", words.Args{"why": words.Error(u.err)})
		return
	}
	o, c := &p.others[u.at], &u.report
	one := p.plain(o)
	ComparedTo(&one, &u.layouts, c)
	p.view.Others[u.at], p.view.Status = one, tell.Likeness(c)
	if c.Likeness() != prove.Alike {
		return
	}
	like := remembered.Like{Of: u.of, Craft: o.like.Craft, Radio: o.like.Radio, CraftWas: o.like.CraftWas, RadioWas: o.like.RadioWas}
	if now := p.s.Now(); !now.IsZero() {
		like.Day = int(logbook.Day(now))
	}
	p.s.Options.Proofs.NoteLike(like)
}

// ComparedTo fills in what a comparison came to; of two differences the graver one is shown.
func ComparedTo(one *Other, l *[2]prove.Layout, c *prove.Comparison) {
	one.Outcome = [...]prove.Outcome{prove.Alike: prove.Holds, prove.Different: prove.Broken, prove.Undetermined: prove.Undecided}[c.Likeness()]
	one.Whole, one.Notes = tell.Likeness(c), tell.ComparedNotes(l, c)
	d, graver := c.Difference, c.Graver != nil
	if graver {
		d = c.Graver
	}
	if d == nil {
		return
	}
	one.Way, one.Steps = tell.DifferenceTitle(d, graver), tell.ComparedSteps(l, d)
	for i := range one.Sides {
		side := &one.Sides[i]
		side.Radio, side.Layout = &l[i].Radio, &l[i].Config.Layout
		side.Moves, side.Frames = MovesOf(side.Radio, d.Ways[i]), FramesOf(d.Ways[i])
		one.Ends[i] = tell.Answered(&d.Answers[i])
	}
	one.Found = words.Row(tell.EachOf(0, one.Ends[0]), tell.EachOf(1, one.Ends[1]), tell.Lasts(d))
}

// move looks at another one, or in a way at another step.
func (p *comparePart) move(by int) {
	if p.view.InWay {
		p.view.Step = ui.ClampInt(p.view.Step+by, 0, max(len(p.view.other().Steps)-1, 0))
	} else if n := len(p.view.Others); n > 0 {
		p.view.At = (p.view.At + by + n) % n
	}
}

// back shows the list again.
func (p *comparePart) back() { p.view.InWay = false }

// Act goes back to the list before the sheet is left.
func (p *comparePart) Act(a ui.Action) bool {
	if a != ui.Leave || !p.view.InWay {
		return false
	}
	p.back()
	return true
}

// Key lets the arrows move what is looked at: nothing is flown here.
func (p *comparePart) Key(name string, down bool) bool {
	return ui.MovesMark(name, down, p.move)
}

// stop stops what is under way, if anything is.
func (p *comparePart) stop() {
	if p.under != nil {
		p.under.end()
		p.under = nil
	}
}

// Draw draws the sheet.
func (p *comparePart) Draw(page *ink.Page, v *ui.View) { DrawCompare(page, v) }
