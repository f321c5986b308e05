package drillrun

import (
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// given is how long a bench that is given back may take to stand as it did, in ticks (ours): what begins sooner goes back to the same.
const given = 120

// before is the bench as it stood before drills came to it.
type before struct {
	stands []pulse.Reading
	// power: its pack was in. at is the tick in which it was given back last, ever whether it was, used that a run began on it.
	power, ever, used bool
	at                int64
}

// look notes how the bench stands, unless it is just being put back.
func (b *before) look(p *practice.Practice) {
	if tick := p.Tick() - 1; !b.ever || tick > b.at+given {
		b.power, b.stands = p.Bench().State().In.Powered, p.Stands(b.stands[:0])
	}
	b.used = true
}

// giveBack puts the bench back as it stood, after the drill has left it with nothing on it. One that a demonstration or a script has taken over, and tidied, gets
// its propellers alone: what else stands there is theirs.
func (c *Coach) giveBack() {
	b := &c.before
	if !b.used {
		return
	}
	b.at, b.ever, b.used = c.tick, true, false
	taken := c.run.Other == Demo || c.run.Other == Script
	fitted, link := pulse.PropellersValue([4]int8{}, false), int32(0)
	for _, r := range b.stands {
		switch r.Kind {
		case pulse.Propellers:
			fitted = r.Value
		case pulse.Link:
			link = r.Value
		case pulse.Instructor:
			if !taken {
				c.hands.back = append(c.hands.back, r.Value)
				c.o.Put(r.Kind, r.Value)
			}
		case pulse.Tilt, pulse.Menu, pulse.Cable, pulse.Pack:
			if !taken {
				c.o.Put(r.Kind, r.Value)
			}
		}
	}
	c.o.Put(pulse.Propellers, fitted)
	if taken {
		return
	}
	if c.o.Put(pulse.Link, link); !b.power {
		c.o.Put(pulse.Power, 0)
	}
	for _, r := range b.stands { // last, so that it stands or hangs there with all of that
		if r.Kind == pulse.Air {
			c.o.Put(r.Kind, r.Value)
		}
	}
}
