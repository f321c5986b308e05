package drills

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/pulse"
)

// hold notes what the pupil practises with, as long as he does.
func (p *part) hold() {
	d, o := &p.s.Driving, &p.s.Options
	switch d.Who {
	case whodrives.Radio:
		p.held.Radio = d.Name
	case whodrives.Keyboard:
		p.held.Radio = codes.Keyboard
	default:
		return
	}
	p.held.StickMode, p.held.Craft, p.held.Gestures = d.StickMode, o.Craft, o.Gestures.Name
}

// part is the work behind the sheet of drills. A drill that runs goes on while other sheets are open.
type part struct {
	screen.Base
	s       *screen.Screen
	o       *screen.DrillOptions
	view    View
	was     bool        // a drill ran at the last turn
	held    screen.Held // what the pupil held last in the run
	asked   bool        // a drill was to begin, and the pupil's hand was not there
	kept    error
	cue     int // the last cue that was shown
	ended   chan drillrun.Result
	refused []int32
	sumOf   int       // the drill that the sum is about; −1 for none
	way     drill.Way // of the try that is looked at
	alarm   facts.AlarmCurve
	meaning *meaning // nil where nothing of the last run is still worked out
	heard   *heard   // nil where nobody listens
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s, o: &s.Options.Drills, ended: make(chan drillrun.Result, 8)}
	s.Drilling, s.Drawn, s.Unseen = p.on, append(s.Drawn, p.drawn), append(s.Unseen, p.o.Coach.Unseen)
	s.Losses = append(s.Losses, screen.Loss{At: ui.OnDrills, Stays: true, Lost: p.lost})
	p.heard = p.hear()
	p.o.Coach.Attach(drillrun.Options{Bench: s.Options.Loop, Put: s.Options.Loop.Desk().Put, Told: p.heard.told(), Ended: func(r drillrun.Result) {
		select {
		case p.ended <- r:
		default: // nobody looks any more
		}
	}})
	p.view.Course, p.view.Drills, p.view.Chapters, p.view.Chapter = p.o.Course, p.o.Drills, p.o.Chapters, -1
	p.choose()
	p.look(p.view.Next)
	return p
}

// look looks at a drill, and at its chapter: in the list of chapters, or opened where one is open; the first where there is no such drill.
func (p *part) look(n int) {
	v := &p.view
	v.Selected = max(n, 0)
	v.Looked = max(slices.IndexFunc(v.Chapters, func(c screen.DrillChapter) bool { return slices.Contains(c.Drills, v.Selected) }), 0)
	if v.Chapter >= 0 {
		v.Chapter = v.Looked
	}
}

// Open has the time of a drill that runs run: it may have been stopped on another sheet, where nothing of the drill is told.
func (p *part) Open() {
	if p.on() {
		p.s.Flight.RealTime()
	}
}

// Close puts away what was read of a run that is over: whoever comes back comes to the course.
func (p *part) Close() {
	if !p.on() {
		p.view.Run.Over = nil
	}
}

// choose finds what is next, and how each drill stands; called when there is something new. A logbook may be long, and a picture has
// a sixtieth of a second.
func (p *part) choose() {
	codes := make([]string, len(p.o.Drills))
	for i, d := range p.o.Drills {
		codes[i] = d.Config.Code
	}
	p.view.Cards, p.sumOf = drill.Cards(codes, p.o.Pupils.Runs()), -1
	p.view.Next, p.view.Why = drill.Next(codes, p.o.Pupils.Runs(), p.o.Day(), p.o.Seed)
}

// Turn keeps what has ended, and notes that time does not run as it must.
func (p *part) Turn() {
	p.asked = p.asked && !p.needsHand().Empty()
	p.refused = p.o.Coach.Refusals(p.refused[:0])
	for _, set := range p.refused {
		p.o.Pupils.Refused(set)
	}
	if p.s.Options.Loop.Pace() != live.Running || p.s.Rests() {
		p.o.Coach.OffPace()
	}
	p.o.Coach.View(&p.s.Run)
	p.hearTurn()
	for len(p.ended) > 0 {
		p.over(<-p.ended)
	}
	if p.was = p.s.Run.On && p.s.Run.State.Phase != drill.Over; p.was {
		p.hold()
		p.alarms()
	}
	p.meanOn()
}

func (p *part) over(r drillrun.Result) {
	p.hearOver(&r)
	p.view.Run.Over = &r
	p.view.Run.Before = before(p.o.Pupils.Runs(), p.view.Run.hand())
	p.kept = p.o.Pupils.Keep(&r, p.view.Run.One, p.held)
	p.means(&r)
	p.choose()
	if !r.BrokenOff && p.view.Next >= 0 {
		p.look(p.view.Next)
	}
}

// on tells whether a drill runs.
func (p *part) on() bool { return p.was && p.s.Run.On && p.s.Run.State.Phase != drill.Over }

// lost says that a drill runs; left, it counts neither way.
func (p *part) lost() (t words.Text) {
	if p.on() {
		t = words.T("asked.lost-drill", words.Args{"drill": p.view.Run.text(p.view.Run.One.Name)})
	}
	return t
}

// needsHand says whose hand a drill waits for; nothing where the pupil's is there.
func (p *part) needsHand() words.Text {
	d, v := &p.s.Driving, p.s.View()
	after, radio := p.s.Options.Driver.After()
	h := tell.DrillHand{Driving: tell.Driving{Who: int(screen.Who(d.Who)), Name: d.Name, Next: int(screen.Who(after)), NextName: radio, Key: v.Named(ui.NextDriver, ui.OnDrills), Ended: d.Ended},
		StickKey: v.PilotKey(keyboard.ThrottleDown), Unplugged: !d.Plugged, Instructor: d.Instructor != "" && p.s.SticksTaken()}
	return tell.DrillNeedsHand(h)
}

// begin runs the drill that is looked at, once the pupil's hand is there.
func (p *part) begin() {
	v := &p.view
	if v.Selected < 0 || v.Selected >= len(v.Drills) {
		return
	}
	if p.asked = !p.needsHand().Empty(); p.asked {
		return
	}
	v.Run, p.cue, p.kept = Run{One: v.Drills[v.Selected], Way: &p.way}, 0, nil
	p.alarm, p.meaning = facts.AlarmCurve{}, nil
	p.s.Begun++
	p.hearBegin()
	p.hold()
	p.s.Flight.RealTime()
	p.s.Drill = v.Run.One
	p.o.Coach.Start(&p.s.Drill.Config, *p.s.Options.Loop.Craft(), p.o.Day(), p.o.Seed+p.s.Begun)
	p.o.Coach.View(&p.s.Run)
	p.was = true
}

// Act does what a key of the sheet stands for.
func (p *part) Act(a ui.Action) bool {
	v, r := &p.view, &p.view.Run
	switch a {
	case Begin:
		switch {
		case r.looks():
			p.o.Coach.GoOn()
		case r.asks():
			p.answer(min(r.Mark, len(r.Choices)-1))
		case p.on():
		case r.Over != nil:
			r.Over = nil
		case v.atChapters():
			p.open(v.Looked)
		default:
			p.begin()
		}
	case Above, Below:
		p.move(map[ui.Action]int{Above: -1, Below: 1}[a])
	case LeaveRun:
		switch {
		case p.on():
			p.leave()
		case v.Chapter >= 0:
			v.Chapter = -1
		}
	case PropellersRight:
		p.s.Options.Loop.Desk().Put(pulse.Propellers, pulse.PropellersValue(p.s.Flight.Live.In.Hands, true))
	case ui.Leave:
		if !p.on() {
			return false
		}
		p.leave() // first out of the drill, then off the sheet
	default:
		return false
	}
	return true
}

// leave leaves the run, once that was asked.
func (p *part) leave() {
	p.s.Leaving(ui.OnDrills, true, func() {
		p.o.Coach.Leave()
		p.Turn()
	})
}

// open opens a chapter, at the drill that is next where it has that, else at the first that is due, or the first.
func (p *part) open(n int) {
	v := &p.view
	v.Chapter, v.Looked = n, n
	c := v.Chapters[n].Drills
	v.Selected = c[0]
	for _, i := range slices.Backward(c) {
		if card := &v.Cards[i]; card.Box == 0 || card.Failed || card.Due <= p.o.Day() {
			v.Selected = i
		}
	}
	if slices.Contains(c, v.Next) {
		v.Selected = v.Next
	}
}

// move moves the mark by a step: among answers, chapters, or drills.
func (p *part) move(step int) {
	v, r := &p.view, &p.view.Run
	switch n := v.rows(); {
	case r.On && len(r.Choices) > 0: // also in a try that is looked at: there may be more of them than there is room for
		r.Mark = (r.Mark + step + len(r.Choices)) % len(r.Choices)
	case p.on() || n == 0:
	case v.atChapters():
		v.Looked, r.Over = (v.Looked+step+n)%n, nil
		v.Selected = v.Chapters[v.Looked].Drills[0]
	default:
		all := v.listed()
		v.Selected, r.Over = all[(max(slices.Index(all, v.Selected), 0)+step+n)%n], nil
	}
}

// answer takes the answer that stands at a place.
func (p *part) answer(i int) {
	r := &p.view.Run
	r.Mark = i
	p.o.Coach.Answer(r.Choices[i])
}

// Hit opens a chapter, looks at a drill, begins the one that is looked at already, gives an answer, or goes on after a try that was looked at.
func (p *part) Hit(name string) bool {
	v, r := &p.view, &p.view.Run
	if name == onPress && r.looks() {
		p.o.Coach.GoOn()
		return true
	}
	if i, ok := ui.NumberOf(name, chapterPrefix); ok && i < len(v.Chapters) && !p.on() {
		p.open(i)
		return true
	}
	if i, ok := ui.NumberOf(name, drillPrefix); ok && i < len(v.Drills) && !p.on() {
		if v.Selected == i {
			p.begin()
		} else {
			v.Selected = i
		}
		return true
	}
	for _, prefix := range [...]string{motorPrefix, answerPrefix} {
		if i, ok := ui.NumberOf(name, prefix); ok && r.asks() && i < len(r.Choices) {
			p.answer(i)
			return true
		}
	}
	return false
}

// drawn is told after a page was drawn: a cue that is on it has been seen for the first time now.
func (p *part) drawn(tick int64) {
	if p.s.Place() != ui.OnDrills || !Of(p.s.View()).Run.Cue() || p.s.Run.Cue == 0 || p.s.Run.Cue == p.cue {
		return
	}
	p.cue = p.s.Run.Cue
	p.o.Coach.Shown(p.cue, tick, picturePeriod)
}

// picturePeriod is one picture at sixty a second in ms, rounded up: how much of the time of a cue is not known.
const picturePeriod = 17

// Fill tells of the course, or of the drill that runs.
func (p *part) Fill(v *ui.View) {
	d, r := &p.view, &p.view.Run
	if now := p.o.Pupils.Pupil(); now != d.Pupil { // another one has been named
		p.choose()
		p.look(d.Next)
	}
	d.Day, d.Pupil, d.Where = p.o.Day(), p.o.Pupils.Pupil(), p.o.Pupils.Where()
	d.Hands = tell.DrillHands{StickMode: uint8(p.s.Driving.StickMode), Shipped: p.o.ShippedGestures}
	if p.s.Driving.Who == whodrives.Keyboard {
		d.Hands.Up, d.Hands.Down, d.Hands.Gentle = v.PilotKey(keyboard.ThrottleUp), v.PilotKey(keyboard.ThrottleDown), v.PilotKey(keyboard.Gentle)
	}
	p.sumUp()
	d.Trouble, d.Kept = words.Text{}, words.Text{}
	switch {
	case p.on() && p.s.Driving.Who == whodrives.Radio && !p.s.Driving.Plugged:
		d.Trouble = words.T("drill.unplugged", words.Args{"name": words.Quote(p.s.Driving.Name)})
	case p.asked:
		d.Trouble = p.needsHand()
	case p.s.Run.Trouble == drillrun.OtherHand:
		d.Trouble = tell.DrillOtherHand(p.s.Run.Other.Code())
	case p.s.Run.Trouble == drillrun.OffPace:
		d.Trouble = words.T("drill.off-pace")
	case p.s.Run.Trouble == drillrun.Unseen:
		d.Trouble = words.T("drill.unseen")
	}
	if !d.Trouble.Empty() { // first of all: there is room for few
		v.Notices = slices.Insert(v.Notices, 0, ui.Notice{Text: d.Trouble})
	}
	if p.kept != nil {
		d.Kept = words.Error(p.kept)
		v.Notice(words.Error(p.kept))
	}
	d.Gestures, _ = p.s.Options.Loop.Gestures(d.Gestures)
	p.follow(v)
	if r.On {
		c, _ := r.asked()
		v.HideMode = c.Craft.FixedMode > 0
	}
	*Of(v) = *d
}

// follow takes in how far the run has come.
func (p *part) follow(v *ui.View) {
	r, now := &p.view.Run, &p.s.Run
	looked := r.looks()
	r.On, r.State, r.Missing, r.Tries, r.Did, r.Followed = p.on(), now.State, now.Missing, now.Tries, now.Did, now.Mark
	if r.Choices = r.Choices[:0]; r.Cue() || r.looks() {
		r.Choices = drill.Choices(&r.One.Config, &r.State, r.Choices)
		r.Mark = min(r.Mark, max(len(r.Choices)-1, 0))
	}
	if r.looks() && !looked {
		p.o.Coach.Way(&p.way)
		r.Follow(v.Happenings, p.view.Hands.StickMode)
	}
}

// sumUp says what all tries of the drill looked at came to.
func (p *part) sumUp() {
	n := p.view.Selected
	if n == p.sumOf || n < 0 || n >= len(p.view.Drills) {
		return
	}
	var tries []drill.Try
	for _, r := range p.o.Pupils.Runs() {
		if r.Drill == p.view.Drills[n].Config.Code && !r.BrokenOff {
			tries = append(tries, r.Tries...)
		}
	}
	p.sumOf, p.view.Sum = n, tell.DrillCount(drill.Summarise(tries))
}

// Draw draws the course, or the drill that runs.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About { return About() }
