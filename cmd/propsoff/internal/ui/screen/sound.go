package screen

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/sound"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/happening"
)

// Speaker plays tones.
type Speaker interface {
	// Play begins a tone; one that sounds gives way. It must not block.
	Play(sound.Code)
	// Played tells when a tone was handed over last, in µs of the loop's clock, and how much later it may have begun; ok false while it
	// has not.
	Played(sound.Code) (at, uncertain int64, ok bool)
	// Trouble says why nothing can be heard; nil while it can, or while that is not known yet.
	Trouble() error
}

// SoundOptions are what sounds need. The zero value plays none and keeps nothing; the captions stand all the same.
type SoundOptions struct {
	Speaker Speaker
	// File is where it is kept which tones are off; empty keeps nothing.
	File string
}

// All in µs of the clock (ours).
const (
	// captionFor is how long a caption stands, captionLeast how long at least: three others in a second are no flashing yet.
	captionFor   = 2_000_000
	captionLeast = 350_000
	// soundNoteFor is how long it is told that something is wrong with sounds.
	soundNoteFor = 12_000_000
	// captionMost is how many tones are named at once.
	captionMost = 3
)

// soundPart decides what is played and what is written about it. It belongs to the window's goroutine.
type soundPart struct {
	s        *Screen
	told     Events
	settings sound.Settings

	playing sound.Code // and until when
	until   int64
	later   sound.Code // came meanwhile, less urgent: to be played then

	shown, waiting []sound.Code // the caption, and what will be one
	since          int64        // when the caption came

	notes [2]soundNote // settings; device
	deaf  bool         // it was told that there is no device

	// What was last seen of the drill that runs.
	run, cue, tries int
	cueTone         sound.Code

	now []sound.Code
}

type soundNote struct {
	text  words.Text
	until int64
}

func newSound(s *Screen) *soundPart {
	p := &soundPart{s: s}
	if s.Options.Sounds.File != "" {
		var err error
		if p.settings, err = sound.Load(s.Options.Sounds.File); err != nil {
			p.note(0, words.T("sound.not-read", words.Args{"why": words.Error(err)}))
		}
	}
	return p
}

func (p *soundPart) note(which int, text words.Text) {
	p.notes[which] = soundNote{text, p.s.Options.Loop.Clock().Now() + soundNoteFor}
}

// Turn plays what has happened since the last turn.
func (p *soundPart) Turn() {
	p.now = p.now[:0]
	// What is looked at again is long over, and the demo pilot is not to be heard where it is not seen.
	place := p.s.Place()
	asked := place == ui.OnQuestions || place == ui.OnWhich // whoever is asked about a radio is not at the bench: its lost link frightens
	unseen := p.s.Driving.Who == whodrives.Demo && place != ui.OnBench && !p.s.House.Of(place).Flown
	quiet := asked || p.s.Flight.replay.on || unseen
	if asked {
		p.shown, p.waiting, p.later = p.shown[:0], p.waiting[:0], sound.None
	}
	for _, h := range p.told.Since(p.s.Options.Loop) {
		if c := sound.Of(h); c != sound.None && !quiet && !p.hidden(h.Code) {
			p.now = append(p.now, c)
		}
	}
	cue := p.drill()
	now := p.s.Options.Loop.Clock().Now()
	for _, c := range p.now { // of two words for the same thing the newer is the one that is true
		p.waiting = append(slices.DeleteFunc(p.waiting, c.SameThing), c)
	}
	p.waiting = sound.Order(p.waiting)
	p.waiting = p.waiting[:min(len(p.waiting), captionMost)]
	p.now = sound.Order(p.now)
	p.play(now)
	p.cued(cue, now)
	p.turnCaption(now)
	if sp := p.s.Options.Sounds.Speaker; sp != nil && !p.deaf && !p.s.Options.Bare && sp.Trouble() != nil {
		p.deaf = true
		p.note(1, words.T("sound.no-device"))
	}
}

// hidden tells whether a drill is just what this would give away: the mode is to be named from how the craft behaves.
func (p *soundPart) hidden(code happening.Code) bool {
	d := &p.s.Shared
	if code != happening.Mode || !d.Drilling() {
		return false
	}
	cases := d.Run.Config.Cases
	n := int(d.Run.State.Case)
	return n < len(cases) && cases[n].Craft.FixedMode > 0
}

// drill adds what the drill that runs sounds like; it gives the number of a cue that is new, 0 for none.
func (p *soundPart) drill() (cue int) {
	d := &p.s.Shared
	if run := int(d.Begun); run != p.run {
		p.run, p.cue, p.tries = run, 0, 0
	}
	if p.run == 0 {
		return 0
	}
	for ; p.tries < len(d.Run.Tries); p.tries++ {
		switch d.Run.Tries[p.tries].Verdict {
		case drill.Right:
			p.now = append(p.now, sound.DrillRight)
		case drill.Wrong, drill.TooLate, drill.FalseStart, drill.Anticipated:
			p.now = append(p.now, sound.DrillWrong)
		}
	}
	if d.Run.Cue == p.cue {
		return 0
	}
	p.cue = d.Run.Cue
	if n := int(d.Run.State.Case); p.cue > 0 && d.Drilling() && n < len(d.Drill.Cases) {
		tone, heard := map[string]sound.Code{"alarm": sound.DrillAlarm, "call": sound.DrillCall}[d.Drill.Cases[n].Sound]
		if heard {
			p.cueTone, p.now = tone, append(p.now, tone)
			return p.cue
		}
	}
	return 0
}

// cued tells the coach of a cue that is only heard, at what tick its tone was handed to the player and how many ms later it may have begun: its
// sheet is not on top. Where it is, the picture is seen first.
func (p *soundPart) cued(cue int, now int64) {
	speaker := p.s.Options.Sounds.Speaker
	if cue == 0 || speaker == nil || p.s.Place() == ui.OnDrills {
		return
	}
	if at, later, ok := speaker.Played(p.cueTone); ok && at >= now {
		ago := p.s.Options.Loop.Clock().Now() - at
		p.s.Options.Drills.Coach.Shown(cue, p.s.Flight.Live.Tick-ago/1000, uint16((later+999)/1000))
	}
}

// play hands the most urgent tone of this turn to the speaker. While a more urgent one sounds it waits for its end; of those that wait
// the most urgent is played then.
func (p *soundPart) play(now int64) {
	best := sound.None
	if i := slices.IndexFunc(p.now, p.settings.Plays); i >= 0 {
		best = p.now[i]
	}
	if now < p.until && p.playing.Before(best) {
		if best.Before(p.later) {
			p.later = best
		}
		return
	}
	if p.later.Before(best) {
		best = p.later
	}
	p.later = sound.None
	if best == sound.None || !p.settings.Plays(best) {
		return
	}
	p.playing, p.until = best, now+best.Length().Microseconds()
	if p.s.Options.Sounds.Speaker != nil {
		p.s.Options.Sounds.Speaker.Play(best)
	}
}

// turnCaption shows what waits as soon as what stands has stood long enough, and takes away what has stood its time.
func (p *soundPart) turnCaption(now int64) {
	switch {
	case len(p.waiting) > 0 && (p.since == 0 || now-p.since >= captionLeast):
		p.shown, p.waiting, p.since = append(p.shown[:0], p.waiting...), p.waiting[:0], now
	case len(p.shown) > 0 && now-p.since >= captionFor:
		p.shown, p.since = p.shown[:0], now
	}
}

// turnAll turns all sounds off or on, and keeps that.
func (p *soundPart) turnAll() {
	p.settings.Off = !p.settings.Off
	p.notes[0] = soundNote{}
	if file := p.s.Options.Sounds.File; file != "" {
		if err := p.settings.Save(file); err != nil {
			p.note(0, words.T("sound.not-kept", words.Args{"why": words.Error(err)}))
		}
	}
}

// Fill gives the view what is written about sounds.
func (p *soundPart) Fill(v *ui.View) {
	quiet := !slices.ContainsFunc(p.shown, p.settings.Plays)
	v.Sound = ui.SoundView{Caption: tell.SoundCaptions(p.shown, quiet), Off: p.settings.Off}
	now := p.s.Options.Loop.Clock().Now()
	for _, n := range p.notes {
		if now < n.until {
			v.Notice(n.text)
		}
	}
}
