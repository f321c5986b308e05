// Package takes: what a take keeps of craft, radio and gestures, and how a take of any model is played and told.
//
// A take carries the texts of the files that it was recorded with, and the same with every default filled in, for a text is read by the
// rules of its own model for ever. A take of today's model must replay to the same; of an older one, what happened is told as it was
// recorded, and today's model only plays the same hands; one of a newer model is refused.
package takes

import (
	"errors"
	"sync"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
)

// Papers are the files that a practice goes by, as their people wrote them: the texts and names of take.Settings, with the program's version.
// What else stands there is of one part of a take.
type Papers take.Settings

// WithRadio is p with a radio file; info, where the device is known, fills in what the file leaves to it.
func (p Papers) WithRadio(f *radio.File, info *input.Info) Papers {
	p.RadioName, p.RadioText, p.RadioFilled = "", "", ""
	if f == nil {
		return p
	}
	p.RadioName, p.RadioText = f.Device.Name, string(f.Marshal())
	if info != nil {
		filled := f.Filled(info)
		p.RadioFilled = string(filled.Marshal())
	}
	return p
}

// Settings are those of the part of a take that begins so.
func (p *Papers) Settings(s *live.Start) (take.Settings, error) {
	out := take.Settings(*p)
	out.Model, out.Codes, out.Note, out.From, out.Stands = sim.Model, codes.Codes(), s.Note, s.Tick, s.Stands
	text, err := craftfile.Filled(p.CraftName, &s.Craft)
	if err != nil && !p.own(&s.Craft) {
		return out, err
	}
	out.CraftFilled = string(text)
	if s.Craft.Gestures == nil || s.Craft.Menus == nil {
		out.GesturesName, out.GesturesText, out.GesturesFilled = "", "", ""
		return out, nil
	}
	text, err = patternfile.Filled(s.Craft.Gestures, s.Craft.Menus)
	if err != nil {
		return out, err
	}
	out.GesturesFilled = string(text)
	return out, nil
}

// own tells whether a craft is the one of the person's own file, whose text then is enough.
func (p *Papers) own(cfg *sim.Config) bool {
	f, err := craftfile.Parse(p.CraftName, []byte(p.CraftText))
	if err != nil {
		return false
	}
	own := f.Config()
	return craftfile.Same(&own, cfg)
}

// Recorder keeps a practice for takes (live.Recorder). Use may be called from any goroutine, the rest by one.
type Recorder struct {
	*take.Tape

	mu     sync.Mutex
	papers Papers
	radio  bool // another one is to be noted
}

var _ live.Recorder = (*Recorder)(nil)

// NewRecorder begins with these papers.
func NewRecorder(p Papers) *Recorder { return &Recorder{Tape: take.NewTape(), papers: p} }

// Use gives the papers that count from now on: craft and gestures from the next part on, the radio at once.
func (r *Recorder) Use(p Papers) {
	r.mu.Lock()
	r.radio = r.radio || p.RadioText != r.papers.RadioText || p.RadioFilled != r.papers.RadioFilled
	r.papers = p
	r.mu.Unlock()
}

// Part begins another part.
func (r *Recorder) Part(s *live.Start) error {
	r.mu.Lock()
	p := r.papers
	r.radio = false
	r.mu.Unlock()
	settings, err := p.Settings(s)
	if err != nil {
		return words.Wrong("takes.craft-unrecorded", words.Args{"at": tell.Clock(s.Tick), "why": words.Error(err)}).Because(err)
	}
	return r.Tape.Part(settings)
}

// Flush hands everything on, and the radio where it is another one.
func (r *Recorder) Flush() error {
	r.mu.Lock()
	p, other := r.papers, r.radio
	r.radio = false
	r.mu.Unlock()
	if other {
		if err := r.Add(take.Settings{RadioName: p.RadioName, RadioText: p.RadioText, RadioFilled: p.RadioFilled}); err != nil {
			return err
		}
	}
	return r.Tape.Flush()
}

// Record is the tape's, once the radio was noted.
func (r *Recorder) Record(path string) error {
	return errors.Join(r.Flush(), r.Tape.Record(path))
}

// Stop is the tape's, once the radio was noted.
func (r *Recorder) Stop() error { return errors.Join(r.Flush(), r.Tape.Stop()) }

// Close is the tape's, once the radio was noted.
func (r *Recorder) Close() error { return errors.Join(r.Flush(), r.Tape.Close()) }
