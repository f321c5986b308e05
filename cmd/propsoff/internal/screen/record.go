package screen

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/input/radio"
	"propsoff/sim/craftfile"
)

// RecordOptions are what recording a take needs; the zero value records nothing.
type RecordOptions struct {
	// Recorder is the one that the loop has been given.
	Recorder *records.Recorder
	// Folder is where takes go that are begun by a key; empty where none can be begun so.
	Folder string
	// Program is its version, for the take.
	Program string
	// Played is told of a take that drives the window: what is to be said of it now; nil for none.
	Played func() string
}

// recordPart begins and ends takes, and keeps the recorder's papers as the files of the practice are.
type recordPart struct {
	s     *Screen
	seen  papersSeen
	told  loop.Recorded // how the recording stood last
	since int64         // tick since which it stands so
	key   bool          // the last one was begun by the key
}

// papersSeen tells whether the files are others than they were.
type papersSeen struct {
	craft    *craftfile.File
	gestures *byte
	radio    *radio.File
	who      drive.Who
	name     string
	learned  bool
	controls int
}

// recordNote is how long it is said what came of a recording, in ticks (ours).
const recordNote = 20_000

// turn looks what became of the files and of the recording.
func (p *recordPart) turn() {
	s, d := p.s, &p.s.driver
	now := papersSeen{craft: s.o.Craft, radio: d.File, who: d.Who, name: d.Name, learned: d.Result != nil}
	if len(s.o.Gestures.Text) > 0 {
		now.gestures = &s.o.Gestures.Text[0]
	}
	if d.File != nil {
		now.controls = len(d.File.Controls)
	}
	if r := s.o.Record.Recorder; r != nil && now != p.seen {
		r.Use(p.papers())
	}
	p.seen = now
	if r := s.o.Loop.Recording(); r != p.told {
		p.told, p.since = r, s.flight.live.Tick
	}
}

// papers are the files as they are now.
func (p *recordPart) papers() records.Papers {
	o := &p.s.o
	out := records.Papers{Program: o.Record.Program, CraftName: o.CraftName, GesturesName: o.Gestures.Name, GesturesText: string(o.Gestures.Text)}
	if o.Craft != nil {
		out.CraftText = string(o.Craft.Text)
	}
	if d := &p.s.driver; d.File != nil {
		out = out.WithRadio(d.File, &d.Info)
	}
	return out
}

// turnOver begins a take, or ends the one that is written.
func (p *recordPart) turnOver() {
	if p.told.To != "" {
		p.s.o.Loop.StopRecording()
		return
	}
	if folder := p.s.o.Record.Folder; folder != "" {
		_ = os.MkdirAll(folder, 0o700) // where that fails the recorder says so
		p.key = true
		p.s.o.Loop.StartRecording(newTake(folder, p.s.now()))
	}
}

// newTake is the path of a take that is not there yet, named by the time.
func newTake(folder string, now time.Time) string {
	name := now.Format("2006-01-02-150405")
	for n := 1; ; n++ {
		path := filepath.Join(folder, name+".take")
		if n > 1 {
			path = filepath.Join(folder, fmt.Sprintf("%s-%d.take", name, n))
		}
		if _, err := os.Lstat(path); err != nil {
			return path
		}
	}
}

// now is the time, as far as it is known.
func (s *Screen) now() time.Time {
	if s.o.Now == nil {
		return time.Time{}
	}
	return s.o.Now()
}

func (p *recordPart) fill(v *sheet.View) {
	r := &p.told
	v.Recording, v.CanRecord = r.To, p.s.o.Record.Folder != ""
	early := p.s.flight.live.Tick-p.since < recordNote
	switch {
	case r.Err != nil && r.NotBegun && early:
		v.Notices = append(v.Notices, phrase.RecordingNotBegun(r.Err.Error()))
	case r.Err != nil && !r.NotBegun:
		v.Notices = append(v.Notices, phrase.RecordingStopped(r.Err.Error()))
	case r.To != "" && p.key && early:
		v.Notices = append(v.Notices, phrase.RecordingFrom())
	case r.Kept != "" && early:
		v.Notices = append(v.Notices, phrase.RecordingKept(r.Kept))
	}
	if played := p.s.o.Record.Played; played != nil {
		if text := played(); text != "" {
			v.Notices = append(v.Notices, text)
		}
	}
}
