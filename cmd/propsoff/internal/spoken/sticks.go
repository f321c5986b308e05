package spoken

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/pulse"
)

// moved is by how much a stick must stand elsewhere to be read out again (ours): more than hands tremble.
var moved = pulse.Micros(30)

// sticks reads out where the sticks stand as the radio says it, while that is asked for.
type sticks struct {
	on, begun bool
	at        [4]steady
	wide      [4]pulse.Width // as told
}

// ReadSticks has the sticks read out, or not, from the next look on: all at first, then each that has come to rest elsewhere.
func (b *Bench) ReadSticks(on bool) {
	if on != b.sticks.on {
		b.sticks = sticks{on: on}
	}
}

// reads says where sticks have come to rest.
func (b *Bench) reads(f *facts.Facts) {
	k := &b.sticks
	if !k.on {
		return
	}
	tick, held := f.Snap.Tick, drill.FactsOf(&f.Snap, &f.Craft)
	all := make([]words.Text, len(k.at))
	for i := range k.at {
		w, zone := held.Held[drill.Throttle+drill.Job(i)], held.Sticks[i]
		s := &k.at[i]
		if d := w - k.wide[i]; !k.begun || d >= moved || d <= -moved || !w.Valid() != !k.wide[i].Valid() {
			k.wide[i] = w
			s.set(tick, s.now+1, words.Text{})
		}
		all[i] = tell.StickReads(i, zone, w)
		s.text = words.T("spoken.reads", words.Args{"what": all[i]})
	}
	if !k.begun {
		k.begun = true
		for i := range k.at {
			k.at[i].quietly()
		}
		b.say(words.T("spoken.reads", words.Args{"what": words.Clauses(all...)}), false)
		return
	}
	for i := range k.at {
		b.tell(tick, &k.at[i], thing{settle: settleFor, unsteady: "sticks"})
	}
}
