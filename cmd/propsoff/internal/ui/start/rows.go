package start

import (
	"path/filepath"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/prove"
)

// row is one thing behind a door.
type row struct {
	ui.Offer
	do func()
}

// practice is how the drills of whoever practises stand.
type practice struct {
	pupil            string
	runs, due, fresh int
	day              int32
}

// practiceOf counts the drills that are due, and those that were never done.
func practiceOf(s *screen.Screen) practice {
	o := &s.Options.Drills
	runs := o.Pupils.Runs()
	p := practice{pupil: s.Pupil(), runs: len(runs), day: o.Day()}
	codes := make([]string, len(o.Drills))
	for i, d := range o.Drills {
		codes[i] = d.Config.Code
	}
	for _, c := range drill.Cards(codes, runs) {
		switch {
		case c.Box == 0:
			p.fresh++
		case c.Due <= p.day:
			p.due++
		}
	}
	return p
}

// stale tells whether it is of another pupil, day or number of runs than now.
func (p *practice) stale(s *screen.Screen) bool {
	o := &s.Options.Drills
	return p.pupil != s.Pupil() || p.runs != len(o.Pupils.Runs()) || p.day != o.Day()
}

// says is how they stand in a sentence.
func (p *practice) says() words.Text {
	switch {
	case p.due > 0:
		return words.T("start.due", words.Args{"n": words.Count(p.due)})
	case p.pupil == "":
		return words.T("start.not-kept")
	case p.fresh > 0:
		return words.T("start.fresh", words.Args{"n": words.Count(p.fresh)})
	}
	return words.T("start.none-due")
}

// proved tells whether a result is at hand of the layout as it now is, and what it is, or why there is none.
func (p *part) proved() (text words.Text, proved bool) {
	key, _, ok := p.s.Proof.Now()
	if !ok {
		return words.T("prove.no-craft"), true
	}
	found, on, _ := p.s.Proof.Proved(key)
	if found == nil {
		switch searching, _, why := p.s.Proof.Progress(); {
		case searching:
			return words.T("start.proving"), false
		case !why.Empty():
			return why, false
		}
		return words.T("start.not-proved"), false
	}
	day := words.Text{}
	if !on.IsZero() {
		day = tell.Day(on)
	}
	if v := found.Verdict(); v != prove.SomeBroken {
		return words.T("start.proved", words.Args{"all": words.Flag(v == prove.AllHold), "day": day}), true
	}
	return words.T("start.broken", words.Args{"n": words.Count(found.Count(prove.Broken)), "day": day}), true
}

// next is the door to begin with, by what is known.
func (p *part) next() int {
	_, proved := p.proved()
	switch {
	case len(p.files) == 0 && p.practice.runs == 0 && p.s.Driving.Who != whodrives.Radio:
		return Plug
	case p.practice.due > 0, proved, p.s.Driving.Who != whodrives.Radio:
		return Practise
	}
	return Check
}

// stands are how it is with each door.
func (p *part) stands() (all [Doors]words.Text) {
	all[Plug] = radiosText(len(p.s.Driving.Choices), p.s.Options.InPage)
	if d := &p.s.Driving; d.Who == whodrives.Radio && d.Plugged {
		all[Plug] = words.T("start.drives", words.Args{"name": words.Quote(d.Name)})
	}
	all[Practise] = p.practice.says()
	all[Check], _ = p.proved()
	all[Teach] = words.T("start.teach-stands")
	return all
}

// radiosText says how many radios are plugged in; in a page, how many the browser shows.
func radiosText(n int, inPage bool) words.Text {
	switch {
	case n == 0 && inPage:
		return words.T("start.no-radio-page")
	case n == 0:
		return words.T("start.no-radio")
	}
	return words.T("start.radios", words.Args{"n": words.Count(n)})
}

// note is what else there is to know behind the open door.
func (p *part) note() (t words.Text) {
	switch p.door {
	case Plug:
		if len(p.s.Driving.Choices) == 0 {
			t = p.s.NoRadio()
		}
		known := words.T("start.no-files")
		if len(p.files) > 0 {
			names := make([]words.Text, len(p.files))
			for i, f := range p.files {
				names[i] = words.AsIs(f)
			}
			known = words.T("start.files", words.Args{"names": words.Listed(names...)})
		}
		return words.Row(t, known)
	case Teach:
		where := p.s.Options.Drills.Pupils.Where()
		if p.s.Pupil() != "" { // the file of one
			where = filepath.Dir(where)
		}
		if where != "" && !p.s.Options.InPage { // there nobody could look into the folder
			t = words.T("start.logbook", words.Args{"path": words.Quote(where)})
		}
	}
	return t
}

// fillRows makes what is behind the open door.
func (p *part) fillRows() {
	p.rows = p.rows[:0]
	switch p.door {
	case Plug:
		p.plugRows()
	case Practise:
		p.practiseRows()
	case Check:
		p.checkRows()
	case Teach:
		p.teachRows()
	}
}

// add adds a row; that which it is says how it stands.
func (p *part) add(says, stands words.Text, next bool, do func()) {
	p.rows = append(p.rows, row{ui.Offer{Says: says, Stands: stands, Next: next, Marked: len(p.rows) == p.at}, do})
}

// sheet adds a row that opens a sheet.
func (p *part) sheet(place ui.Place, stands words.Text, next bool) {
	p.add(words.Of("start", "to-"+string(place)), stands, next, func() { p.s.Act(place.Open()) })
}

// plugRows are the radios that are plugged in, learning again the one that drives, and the keys.
func (p *part) plugRows() {
	d := &p.s.Driving
	for i, name := range d.Choices[:min(len(d.Choices), mostRadios)] {
		drives := i == d.Chosen && d.Who == whodrives.Radio
		stands := words.T("start.radio-stands", words.Args{"drives": words.Flag(drives)})
		do := func() { p.s.Choose(i) }
		if drives {
			do = p.toBench
		}
		p.add(words.AsIs(name), stands, !drives && len(p.files) == 0, do)
	}
	if d.Who == whodrives.Radio {
		p.add(words.T("start.learn-again", words.Args{"name": words.Quote(d.Name)}), words.T("start.learn-stands"), false, p.s.Options.Driver.AskAgain)
	}
	p.add(words.T("start.keys"), words.T("start.keys-stands"), false, func() {
		p.s.Options.Driver.UseKeys()
		p.toBench()
	})
}

// mostRadios is how many radios are listed (ours): two more rows stand below them.
const mostRadios = 5

func (p *part) toBench() { p.s.TurnTo(ui.OnBench.Open()) }

// practiseRows are what can be practised.
func (p *part) practiseRows() {
	d := &p.s.Driving
	p.sheet(ui.OnDrills, p.practice.says(), true)
	p.sheet(ui.OnForesee, words.T("start.foresee-stands"), false)
	p.add(words.T("start.to-bench"), words.T("start.bench-stands", words.Args{"radio": words.Flag(d.Who == whodrives.Radio && d.Plugged), "name": words.Quote(d.Name),
		"keys": words.Flag(d.Who == whodrives.Keyboard), "demo": words.Flag(d.Who == whodrives.Demo), "finger": words.Flag(p.s.View().Touch)}), false, p.toBench)
	p.sheet(ui.OnFirst, words.T("start.first-stands", words.Args{"air": words.Flag(p.s.Flight.Live.In.Air)}), false)
	p.whoRow()
	patterns, menus := 0, 0
	if g := p.s.Config.Gestures; g != nil {
		patterns = len(g.Patterns)
	}
	if m := p.s.Config.Menus; m != nil {
		menus = len(m.Menus)
	}
	p.sheet(ui.OnGestures, words.T("start.gestures-stands", words.Args{"gestures": words.T("start.gestures", words.Args{"n": words.Count(patterns)}),
		"menus": words.T("start.menus", words.Args{"n": words.Count(menus)})}), false)
}

// whoRow leads to whoever practises.
func (p *part) whoRow() {
	who := words.T("start.not-kept")
	if name := p.practice.pupil; name != "" {
		who = words.T("people.now", words.Args{"name": words.Quote(name)})
	}
	p.sheet(ui.OnPeople, who, false)
}

// checkRows are what shows whether the switches do what they should.
func (p *part) checkRows() {
	radio := p.s.Driving.Who == whodrives.Radio
	proof, proved := p.proved()
	p.sheet(ui.OnCheck, words.T("start.check-stands", words.Args{"radio": words.Flag(radio)}), false)
	p.sheet(ui.OnLayout, words.T("start.layout-stands", words.Args{"craft": words.Quote(p.s.Options.CraftName)}), false)
	p.sheet(ui.OnProve, proof, !proved)
	p.sheet(ui.OnCompare, words.T("start.compare-stands"), false)
	p.sheet(ui.OnCard, words.T("start.card-stands"), false)
	p.sheet(ui.OnFiles, words.T("start.files-stands"), false)
}

// teachRows are what an instructor shows.
func (p *part) teachRows() {
	air := p.s.Flight.Live.In.Air
	p.sheet(ui.OnDesk, words.T("start.desk-stands"), false)
	p.sheet(ui.OnLoss, words.T("start.loss-stands"), false)
	p.add(words.T("start.to-three"), words.T("start.three-stands", words.Args{"air": words.Flag(air)}), false, func() {
		if air {
			p.s.Act(ui.OnThree.Open())
		} else {
			p.s.Act(ui.OnFirst.Open())
		}
	})
	p.whoRow()
	p.add(words.T("start.class"), words.T("start.class-stands", words.Args{"on": words.Flag(p.s.View().Full)}), false, func() { p.s.Act(ui.TurnFullScreen) })
}
