package card

import (
	"propsoff.example/assets/words"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

// What the tests look at from outside: uitest, which they use, knows this package.
const (
	Margin, Least, BankLeast = margin, least, bankLeast
	Armed, Disarmed          = armed, disarmed
)

var Split = split

// Control is a control of the card, its positions with what is said of them in English.
type Control struct {
	*handset.Control
	Number    int
	Positions []Position
}

// Position is one of them: state stands before rest where the switch arms.
type Position struct {
	Low, High   pulse.Width
	State, Rest string
	Tone        tone
}

// Controls are those of a card.
func Controls(c *Data, joined bool) (out []Control) {
	s := speaker{words.English()}
	for _, k := range c.controls() {
		if joined {
			k.positions = join(k.positions, same)
		}
		one := Control{k.Control, k.number, nil}
		for i := range k.positions {
			p := Position{Low: k.positions[i].low, High: k.positions[i].high}
			p.State, p.Rest, p.Tone = s.does(c, &k.positions[i])
			one.Positions = append(one.Positions, p)
		}
		out = append(out, one)
	}
	return out
}

// Hold is what hands do with one control, in English; Control is nil for sticks.
type Hold struct {
	Control *handset.Control
	Ways    []Way
}

// Way is one thing that they do.
type Way struct {
	Word, How   string
	First, Last int
}

// Holds are those of a card.
func Holds(c *Data) (out []Hold) {
	for _, h := range (speaker{words.English()}).holds(c, c.controls()) {
		one := Hold{}
		if h.k != nil {
			one.Control = h.k.Control
		}
		for _, w := range h.ways {
			one.Ways = append(one.Ways, Way{w.word, w.how, w.first, w.last})
		}
		out = append(out, one)
	}
	return out
}
