package drills

import (
	"sync"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/spoken"
	"propsoff.example/sim/drill"
)

// heard is what a drill has to say to whoever listens: its events are noted in the loop's goroutine and said in the window's.
type heard struct {
	drill spoken.Drill

	mu    sync.Mutex
	queue []event
}

// event is an event of a drill, and as much of its run as is said with it.
type event struct {
	tick int64
	of   drill.Event
	view drillrun.View
}

// told notes an event; nil where nobody listens.
func (h *heard) told() func(int64, drill.Event, *drillrun.View) {
	if h == nil {
		return nil
	}
	return func(tick int64, e drill.Event, v *drillrun.View) {
		h.mu.Lock()
		defer h.mu.Unlock()
		h.queue = append(h.queue, event{tick, e, drillrun.View{On: v.On, Config: v.Config, State: v.State, Missing: v.Missing, Did: v.Did, Alone: v.Alone}})
	}
}

// hear makes it, nil where nobody listens.
func (p *part) hear() *heard {
	say := p.s.Options.Say
	if say == nil {
		return nil
	}
	return &heard{drill: spoken.Drill{Say: say}}
}

// hearBegin says which drill begins.
func (p *part) hearBegin() {
	if h := p.heard; h != nil {
		h.drill.GoOn = words.T("spoken.go-on", words.Args{"key": words.T("key-cap.enter")})
		h.drill.Hands = p.view.Hands
		h.drill.Begins(p.view.Run.One)
	}
}

// hearTurn says what has come since the last turn.
func (p *part) hearTurn() {
	h := p.heard
	if h == nil {
		return
	}
	h.mu.Lock()
	now := h.queue
	h.queue = nil
	h.mu.Unlock()
	for i := range now {
		h.drill.Told(now[i].tick, now[i].of, &now[i].view)
		h.drill.Propellers(now[i].of, &p.s.Flight.Live, &p.s.Config)
	}
	p.s.ReadSticks(h.drill.Asks(&p.s.Run))
	h.drill.Look(p.s.Flight.Live.Tick, &p.s.Run)
}

// hearOver says what a run came to.
func (p *part) hearOver(r *drillrun.Result) {
	if h := p.heard; h != nil {
		h.drill.Ended(r)
	}
}
