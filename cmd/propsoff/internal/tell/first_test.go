package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/sim/body"
)

func TestWrongPropellersAreNamed(t *testing.T) {
	turns := body.Default().Turns
	wrong := func(in *words.Book, places ...int) string {
		tried := turns
		for _, i := range places {
			tried[i] = -tried[i]
		}
		return in.Say(WrongPropellers(turns, tried, true))
	}
	english, german := words.English(), words.In("de")
	assert.Equal(t, "The last flight tipped over. The rear right propeller was the wrong one: its motor turns clockwise, so it pushed down instead of lifting.", wrong(english, 3))
	assert.Equal(t, "Beim letzten Flug ist er umgekippt. Der Propeller hinten rechts war der falsche: Sein Motor dreht im Uhrzeigersinn, deshalb drückte er nach unten, statt zu heben.", wrong(german, 3))
	assert.Equal(t, "The last flight tipped over. The front left and rear right propellers were the wrong ones: they pushed down instead of lifting.", wrong(english, 0, 3))
	assert.Equal(t, "The last flight tipped over. All four propellers were the wrong ones: each pushed down instead of lifting.", wrong(english, 0, 1, 2, 3))
	tried := turns
	tried[0] = 0
	assert.Equal(t, "The last flight tipped over. There was no propeller at the front left.", english.Say(WrongPropellers(turns, tried, true)))
	assert.Equal(t, "The last flight tipped over. The propellers were right; it was flown over.", english.Say(WrongPropellers(turns, turns, true)))
	assert.Equal(t, "The last flight never left the ground. The propellers were right; it needs more throttle.", english.Say(WrongPropellers(turns, turns, false)))
}

// What is still to do is counted in words, and never as more than there is a word for.
func TestWhatIsStillToDo(t *testing.T) {
	assert.Equal(t, "One thing is still to do.", words.English().Say(FirstReady(false, 1, words.AsIs("G"))))
	assert.Equal(t, "Fünf Dinge sind noch zu tun.", words.In("de").Say(FirstReady(false, 6, words.AsIs("G"))))
}
