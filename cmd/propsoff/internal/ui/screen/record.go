package screen

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// RecordOptions are what recording a take needs; the zero value records nothing.
type RecordOptions struct {
	// Recorder is the one that the loop has been given.
	Recorder *takes.Recorder
	// Folder is where takes go that are begun by a key; empty where none can be begun so.
	Folder string
	// Program is its version, for the take.
	Program string
	// Played is told of a take that drives the window: what is to be said of it now; nil for none.
	Played func() words.Text
}

// RecordPart begins and ends takes, and keeps the recorder's papers as the files of the practice are.
type RecordPart struct {
	S     *Screen
	seen  int           // the revision that the papers are of
	told  live.Recorded // how the recording stood last
	since int64         // tick since which it stands so
	key   bool          // the last one was begun by the key
}

// recordNote is how long it is said what came of a recording, in ticks (ours).
const recordNote = 20_000

// Turn looks what became of the files and of the recording.
func (p *RecordPart) Turn() {
	s := p.S
	if now := s.Revision(); now != p.seen {
		p.seen = now
		if r := s.Options.Record.Recorder; r != nil {
			r.Use(p.papers())
		}
	}
	if r := s.Options.Loop.Recording(); r != p.told {
		p.told, p.since = r, s.Flight.Live.Tick
	}
}

// papers are the files as they are now.
func (p *RecordPart) papers() takes.Papers {
	o := &p.S.Options
	out := takes.Papers{Program: o.Record.Program, CraftName: o.CraftName, GesturesName: o.Gestures.Name, GesturesText: string(o.Gestures.Text)}
	if o.Craft != nil {
		out.CraftText = string(o.Craft.Text)
	}
	if d := &p.S.Driving; d.File != nil {
		out = out.WithRadio(d.File, &d.Info)
	}
	return out
}

// turnOver begins a take, or ends the one that is written.
func (p *RecordPart) turnOver() {
	if p.told.To != "" {
		p.S.Options.Loop.StopRecording()
		return
	}
	if folder := p.S.Options.Record.Folder; folder != "" {
		_ = os.MkdirAll(folder, 0o700) // where that fails the recorder says so
		p.key = true
		p.S.Options.Loop.StartRecording(newTake(folder, p.S.Now()))
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

// Now is the time that is printed and by which files are named, the zero time where none is known.
func (s *Screen) Now() time.Time {
	if s.Options.Now == nil {
		return time.Time{}
	}
	return s.Options.Now()
}

// fill tells what is recorded, and what came of a recording.
func (p *RecordPart) fill(v *ui.View) {
	r := &p.told
	v.Recording, v.CanRecord = r.To, p.S.Options.Record.Folder != ""
	early := p.S.Flight.Live.Tick-p.since < recordNote
	switch {
	case r.Err != nil && r.NotBegun && early:
		v.Notice(words.T("notice.recording-not-begun", words.Args{"why": words.Error(r.Err)}))
	case r.Err != nil && !r.NotBegun:
		v.Notice(tell.RecordingStopped(words.Error(r.Err)))
	case r.To != "" && v.Flight.Again.Apart:
		v.Notice(words.T("notice.recording-rests", words.Args{"key": v.KeyFor(ui.StandAgain, p.S.Place())}))
	case r.To != "" && p.key && early:
		v.GoodNews(words.T("notice.recording-from"))
	case r.Kept != "" && early:
		v.GoodNews(words.T("notice.recording-kept", words.Args{"path": words.Quote(v.PathShown(r.Kept))}))
	}
	if played := p.S.Options.Record.Played; played != nil {
		v.Notice(played())
	}
}
