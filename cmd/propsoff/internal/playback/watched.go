package playback

import (
	"sync"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim"
	"propsoff.example/sim/practice"
)

// Watched holds a take that drives the window against what it does there.
type Watched struct {
	judge *takes.Judge
	cfg   sim.Config // the loop's goroutine only

	mu   sync.Mutex
	text words.Text
}

// NewWatched is for a plan that is a take; nil for any other and for none.
func NewWatched(p *Plan) *Watched {
	if p == nil || p.Judge == nil {
		return nil
	}
	w := &Watched{judge: p.Judge, cfg: p.Start.Craft}
	if w.judge.Older() {
		w.text = tell.PlayedOlder(w.judge.Model, sim.Model)
	}
	p.OnPart(func(part *takes.Part) { w.cfg = part.Craft.Config() })
	return w
}

// Listen looks at the tick that pr has just run, as long as the take plays.
func (w *Watched) Listen(pr *practice.Practice) {
	if w.judge == nil {
		return
	}
	w.judge.Tick(pr)
	_, text, ok := w.judge.Difference(&w.cfg)
	if !ok {
		return
	}
	if !w.judge.Older() {
		text = words.T("model.differs", words.Args{"how": text})
	}
	w.judge = nil // only the first one means anything
	w.mu.Lock()
	w.text = text
	w.mu.Unlock()
}

// Say is what there is to say of the take, empty for nothing.
func (w *Watched) Say() words.Text {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text
}
