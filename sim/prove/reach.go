package prove

import (
	"propsoff/assets/words"
	"propsoff/sim/prove/explore"
)

// Reached are situations that hands can bring a layout into, those that take the fewest movements first, each with the shortest way to it.
// What a radio does only by its noise is no hand's work and is left out.
type Reached struct {
	x *space
	w *explore.Walk
}

// Reach searches a layout until about so many situations are found, or all that there are. It fails where the layout cannot be searched.
func Reach(l *Layout, most uint64) (*Reached, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	quiet := l.quiet()
	h, err := newHands(&quiet, question{})
	if err != nil {
		return nil, err
	}
	x, fits := newSpace(h, noWatch)
	if !fits {
		return nil, words.Wrong("search.too-long")
	}
	x.guesses = guessed(x.cfg)
	w := explore.New(explore.Options{Every: 1 << 10, Progress: func(w *explore.Walk, _ explore.Cost) bool { return w.Found() >= most }})
	x.stop, x.marks = w.Stop, w.Marks()
	w.Begin(uint64(h.start))
	w.Run(x)
	return &Reached{x, w}, nil
}

// Movements are how many human movements the farthest of them takes.
func (r *Reached) Movements() int {
	layers := r.w.Layers()
	return int(layers[len(layers)-1].Moves)
}

// Taking is where those begin that take so many human movements, and how many there are: places for Way.
func (r *Reached) Taking(movements int) (first, n int) {
	first, end := -1, int(r.w.Found())
	for _, l := range r.w.Layers() {
		switch {
		case int(l.Moves) == movements && first < 0:
			first = int(l.First)
		case int(l.Moves) > movements:
			end = min(end, int(l.First))
		}
	}
	if first < 0 {
		return 0, 0
	}
	return first, end - first
}

// Way is the shortest way to the situation at a place.
func (r *Reached) Way(place int) *Way {
	t := newTeller(r.x.h)
	r.x.along(r.w, uint32(place), func(m move, to uint64) { t.do(m, uint32(r.x.plainKey(to)&r.x.c.handMask)) })
	return t.end()
}
