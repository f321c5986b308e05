package lesson

import (
	"slices"

	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// Told is a reading, with the tick that consumed it.
type Told struct {
	Tick    int64
	Reading pulse.Reading
}

// Past is what was kept of a wreck: the practice some seconds before it, and what it was told from there on.
type Past struct {
	Broke int64
	from  practice.Practice
	told  []Told
}

// since is what was told from a tick on.
func (p *Past) since(tick int64) []Told {
	i, _ := slices.BinarySearchFunc(p.told, tick, func(t Told, tick int64) int { return int(t.Tick - tick) })
	return p.told[i:]
}

// Back is the tick from which hands may try again: Again before the wreck, or where the radio was silent then, Ahead of the moment at which its switch or plug
// silenced it, if that is earlier; the earliest that was kept where that is not. It lies whole tenths of a second before the wreck.
func (p *Past) Back() int64 {
	at := p.Broke - Again
	if since, silent := p.silent(); silent {
		at = min(at, since-Ahead)
	}
	at = max(at, p.from.Tick())
	return at + (p.Broke-at)%100
}

// silent is since when the radio's switch or its plug kept it silent as the craft broke; false where it sent.
func (p *Past) silent() (since int64, silent bool) {
	in := p.from.Bench().State().In
	since = p.from.Tick()
	for _, t := range p.told {
		was := in.Transmitter && in.Plugged
		switch on := t.Reading.Value != 0; t.Reading.Kind {
		case pulse.Link:
			in.Transmitter = on
		case pulse.Plug:
			in.Plugged = on
		}
		if was {
			since = t.Tick
		}
	}
	return since, !in.Transmitter || !in.Plugged
}

// At makes dst the practice as it was before a tick, or the earliest that was kept; it is stepped there.
func (p *Past) At(dst *practice.Practice, tick int64) {
	p.from.CopyTo(dst)
	for told := p.told; dst.Tick() < tick; {
		told = step(dst, told, nil)
	}
}

// every is how many ticks lie between two copies, and copies how many are kept, so that the oldest is at least kept back.
const (
	every  = 1000
	copies = kept/every + 2
)

var down = vec.V{Z: 1}

// Keeper keeps what is needed to fly the last seconds of a practice again. The zero one has kept nothing.
type Keeper struct {
	at   []practice.Practice // oldest first
	told []Told
	next int64
}

// Before notes what the practice is told by the step that comes next. A practice that does not go on from the last step begins anew.
func (k *Keeper) Before(p *practice.Practice, readings []pulse.Reading) {
	tick := p.Tick()
	if tick != k.next {
		k.Forget()
	}
	if k.next = tick + 1; len(k.at) == 0 || tick%every == 0 {
		k.copy(p)
	}
	for _, r := range readings {
		k.told = append(k.told, Told{tick, r})
	}
}

// copy keeps the practice in the place of the oldest, with what was told since.
func (k *Keeper) copy(p *practice.Practice) {
	var room practice.Practice
	if len(k.at) == copies {
		room = k.at[0]
		k.at = k.at[:copy(k.at, k.at[1:])]
		k.told = slices.Delete(k.told, 0, len(k.told)-len((&Past{told: k.told}).since(k.at[0].Tick())))
	}
	p.CopyTo(&room)
	k.at = append(k.at, room)
}

// Forget forgets everything: another craft is there.
func (k *Keeper) Forget() { k.at, k.told, k.next = k.at[:0], k.told[:0], 0 }

// Past is what is kept of a wreck that the step just made has told of; nil where nothing is.
func (k *Keeper) Past(broke int64) *Past {
	if len(k.at) == 0 {
		return nil
	}
	past := &Past{Broke: broke, told: slices.Clone(k.told)}
	k.at[0].CopyTo(&past.from)
	return past
}
