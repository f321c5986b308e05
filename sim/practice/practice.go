// Package practice is one practice: readings in, bench and gestures stepped, one snapshot out, digest kept.
package practice

import (
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Practice steps a bench and keeps a running digest of all it did, so that a recording can check itself.
type Practice struct {
	bench  sim.Bench
	log    happening.Log
	moves  moves
	faults faults
	digest uint64
}

// New begins a practice with the given craft, unpowered, before tick 0.
func New(cfg sim.Config) *Practice {
	p := &Practice{moves: newMoves(cfg.Gestures), digest: digestStart}
	p.faults.useCraft(&cfg)
	p.bench = sim.New(cfg)
	return p
}

// CopyTo makes dst an independent copy that can go on from here. It allocates only where dst has room for fewer gestures.
func (p *Practice) CopyTo(dst *Practice) {
	room := dst.moves.set
	*dst = *p
	dst.moves.set = append(room[:0], p.moves.set...)
}

// Step runs the next millisecond with the readings that fall on it.
func (p *Practice) Step(readings []pulse.Reading) { p.step(readings, false) }

// Leap is for a copy that is asked what would happen: it takes these readings and runs the next slot at once, as sim.Bench.Leap does.
func (p *Practice) Leap(readings []pulse.Reading) { p.step(readings, true) }

func (p *Practice) step(readings []pulse.Reading, leap bool) {
	p.log.Reset()
	if p.moves.tell { // what gestures and menu said in the last step
		p.moves.tell = false
		p.bench.Apply(p.moves.told[:], &p.log)
	}
	p.stepBench(readings, leap)
	p.stepMoves(&p.log)
	p.keepDigest()
}

// Tick is the tick that the next Step will run.
func (p *Practice) Tick() int64 { return p.bench.Tick() }

// Happenings are those of the last Step; valid until the next one.
func (p *Practice) Happenings() []happening.Happening { return p.log.All() }

// HappeningsLost is how many happenings of the last Step found no room.
func (p *Practice) HappeningsLost() int { return p.log.Lost }

// Snapshot fills dst from the last Step.
func (p *Practice) Snapshot(dst *sim.Snapshot) { p.bench.Snapshot(dst) }

// Bench is the bench that is stepped; to be read, not stepped.
func (p *Practice) Bench() *sim.Bench { return &p.bench }

// Digest is the running digest of every happening and, once a slot, of the state of the craft.
func (p *Practice) Digest() uint64 { return p.digest }

// The digest is FNV-1a with its published 64-bit start and prime, over whole 64-bit words instead of bytes.
const (
	digestStart = 0xcbf29ce484222325
	digestPrime = 0x100000001b3
)

func (p *Practice) word(w uint64) { p.digest = (p.digest ^ w) * digestPrime }

func (p *Practice) keepDigest() {
	for _, h := range p.log.All() {
		p.word(uint64(h.Tick)<<8 | uint64(h.Code))
		p.word(uint64(uint32(h.A))<<32 | uint64(uint32(h.B)))
	}
	if !p.bench.SlotRan() {
		return
	}
	p.word(p.bench.Words(0))
	p.word(p.bench.Words(1))
	for _, w := range p.bench.AirWords() {
		p.word(w)
	}
	f := p.bench.Received()
	for i := 0; i < pulse.Channels; i += 4 {
		p.word(uint64(uint16(f[i]))<<48 | uint64(uint16(f[i+1]))<<32 | uint64(uint16(f[i+2]))<<16 | uint64(uint16(f[i+3])))
	}
}
