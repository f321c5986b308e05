package prove

import (
	"propsoff.example/assets/words"
	"propsoff.example/sim/prove/explore"
)

// Reached are situations that hands can bring a layout into, those that take the fewest movements first, each with the shortest way to it.
// What a radio does only by its noise is no hand's work and is left out.
type Reached struct {
	x *space
	w *explore.Walk
}

// reachAsks is after how many situations Reach asks whether it is to stop (ours): some ms.
const reachAsks = 1 << 10

// Reach searches a layout until about so many situations are found, or all that there are, or until stop, where given, says so; it is asked again
// and again. It fails where the layout cannot be searched.
func Reach(l *Layout, most uint64, stop func() bool) (*Reached, error) {
	h, err := l.firmHands()
	if err != nil {
		return nil, err
	}
	x, fits := newSpace(h, noWatch)
	if !fits {
		return nil, words.Wrong("search.too-long")
	}
	x.guesses = guessed(x.cfg)
	w := explore.New(explore.Options{Every: reachAsks, Progress: func(w *explore.Walk, _ explore.Cost) bool {
		return w.Found() >= most || stop != nil && stop()
	}})
	x.stop, x.marks = w.Stop, w.Marks()
	w.Begin(uint64(h.start))
	w.Run(x)
	return &Reached{x, w}, nil
}

// Each gives every situation in which the craft has its pack, in order of human movements: its place for Way, how many movements it takes, and
// whether the craft is armed in it.
func (r *Reached) Each(is func(place, movements int, armed bool)) {
	var at situation
	layers := r.w.Layers()
	for n, l := range layers {
		end := uint32(r.w.Found())
		if n+1 < len(layers) {
			end = layers[n+1].First
		}
		for place := l.First; place < end; place++ {
			if r.x.c.unpack(r.x.plainKey(r.w.Key(place)), &at); at.powered {
				is(int(place), int(l.Moves), at.slot.Arming.Armed)
			}
		}
	}
}

// Way is the shortest way to the situation at a place.
func (r *Reached) Way(place int) *Way {
	t := newTeller(r.x.h)
	r.x.along(r.w, uint32(place), func(m move, to uint64) { t.do(m, uint32(r.x.plainKey(to)&r.x.c.handMask)) })
	return t.end()
}
