package main

import (
	"path/filepath"
	"runtime"
	"sync"

	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/sim"
	"propsoff/sim/practice"
)

// watched holds a take that drives the window against what it does there.
type watched struct {
	judge *records.Judge
	cfg   sim.Config // the loop's goroutine only

	mu   sync.Mutex
	text string
}

// newWatched is for a plan that is a take; nil for any other and for none.
func newWatched(p *plan) *watched {
	if p == nil || p.judge == nil {
		return nil
	}
	w := &watched{judge: p.judge, cfg: p.start.Craft}
	if w.judge.Older() {
		w.text = phrase.PlayedOlder(w.judge.Model, sim.Model)
	}
	p.onPart(func(part *records.Part) { w.cfg = part.Craft.Config() })
	return w
}

// listen looks at the tick that pr has just run, as long as the take plays.
func (w *watched) listen(pr *practice.Practice) {
	if w.judge == nil {
		return
	}
	w.judge.Tick(pr)
	_, text, ok := w.judge.Difference(&w.cfg)
	if !ok {
		return
	}
	if !w.judge.Older() {
		text = phrase.Differs(text)
	}
	w.judge = nil // only the first one means anything
	w.mu.Lock()
	w.text = text
	w.mu.Unlock()
}

// say is what there is to say of the take.
func (w *watched) say() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text
}

// takesFolder is where takes go that are begun by a key: beside the logbooks. Empty where there is no such place, as in a browser.
func takesFolder() string {
	dir, err := logbook.Folder()
	if err != nil || runtime.GOOS == "js" {
		return ""
	}
	return filepath.Join(filepath.Dir(dir), "takes")
}
