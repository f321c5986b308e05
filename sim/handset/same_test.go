package handset

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/sim/pulse"
)

// One piece of the radio on two channels: what the second sends where the first stands, by hand from their ends and where they rest.
func TestOneControlOnTwoChannels(t *testing.T) {
	us := pulse.Micros
	stick := Control{Kind: Stick, Low: us(1000), Rest: us(1500), High: us(2000)}
	for _, c := range []struct {
		with       Control
		at, expect int
	}{
		{Control{Kind: Knob, Low: us(1000), Rest: us(1500), High: us(2000)}, 1250, 1250},
		{Control{Kind: Knob, Low: us(1000), Rest: us(1500), High: us(2000), Turned: true}, 1250, 1750},
		{Control{Kind: Knob, Low: us(1200), Rest: us(1600), High: us(1800)}, 1250, 1400}, // half way from the low end to rest
		{Control{Kind: Knob, Low: us(1200), Rest: us(1600), High: us(1800)}, 1750, 1700},
		{Control{Kind: Knob, Low: us(1200), Rest: us(1600), High: us(1800), Turned: true}, 1250, 1700},
		{Control{Kind: Knob, Low: us(1000), Rest: us(1000), High: us(2000)}, 1250, 1250}, // rests at an end: by the ends alone
		{Control{Kind: Knob, Low: us(1000), Rest: us(1000), High: us(2000), Turned: true}, 1250, 1750},
	} {
		assert.Equal(t, us(c.expect), stick.Carries(&c.with, 0, us(c.at), 0), "%+v", c)
	}
	lever := Control{Kind: Switch, Positions: []Position{{Width: us(1000)}, {Width: us(1500)}, {Width: us(2000)}}}
	with := Control{Kind: Switch, Positions: []Position{{Width: us(1100)}, {Width: us(1400)}, {Width: us(1900)}}}
	assert.Equal(t, us(1402), lever.Carries(&with, 1, us(1502), us(2)))
	with.Turned = true
	assert.Equal(t, us(1898), lever.Carries(&with, 0, us(1002), us(2)))
}

// Whichever of them is moved, the others go along.
func TestWhatOneHandMoves(t *testing.T) {
	us := pulse.Micros
	at := func(n ...int) (all []Position) {
		for _, w := range n {
			all = append(all, Position{Width: us(w)})
		}
		return all
	}
	r := Radio{Controls: []Control{{Kind: Switch, Positions: at(1000, 1500, 2000)}, {Kind: Switch, Positions: at(1100, 1400, 1900), Same: 1, Turned: true}, {Kind: Switch, Positions: at(1010, 1510, 2010), Same: 1},
		{Kind: Stick, Low: us(1000), Rest: us(1500), High: us(2000)}, {Kind: Knob, Low: us(1200), Rest: us(1600), High: us(1800), Same: 4, Turned: true}}}
	assert.Equal(t, []int{0, 2}, r.Together(1))
	assert.Equal(t, us(1900), r.Sends(0, 1, 0, 0))
	assert.Equal(t, us(2000), r.Sends(1, 0, 0, 0))
	assert.Equal(t, us(2010), r.Sends(1, 2, 0, 0))
	assert.Equal(t, us(1510), r.Sends(0, 2, 1, 0))
	assert.Equal(t, us(1700), r.Sends(3, 4, 0, us(1250)))
	assert.Equal(t, us(1500), r.Sends(4, 3, 0, us(1500)))
}

func TestWhatCanBeTheSame(t *testing.T) {
	two, three := make([]Position, 2), make([]Position, 3)
	r := Radio{Controls: []Control{{Kind: Switch, Positions: two}, {Kind: Switch, Positions: two}, {Kind: Switch, Positions: three}, {Kind: Stick}, {Kind: Knob}}}
	for i, c := range []struct {
		control, same int
		fits          bool
	}{{1, 1, true}, {1, 0, true}, {2, 1, false}, {0, 2, false}, {1, 2, false}, {3, 1, false}, {4, 4, true}, {4, -1, false}} {
		k := r
		k.Controls = append([]Control(nil), r.Controls...)
		k.Controls[c.control].Same = c.same
		assert.Equal(t, c.fits, k.SameFits(c.control), "row %d", i)
	}
	r.Controls[1].Same = 1
	assert.Equal(t, []int{1}, r.With(0))
	assert.Empty(t, r.With(1))
	assert.Equal(t, []int{1}, r.Together(0))
	assert.Equal(t, []int{0}, r.Together(1))
	r.Controls[1].Positions, r.Controls[2].Positions, r.Controls[2].Same = two, two, 2
	assert.False(t, r.SameFits(2), "the same as one that is the same as another")
}
