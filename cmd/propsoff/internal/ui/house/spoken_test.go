package house_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// listener is assistive technology: it keeps what it is given to say.
type listener struct {
	lines  []string
	urgent []string
}

// news gives what was said since the last call.
func (l *listener) news() string {
	all := strings.Join(l.lines, "\n")
	l.lines, l.urgent = nil, nil
	return all
}

func overheard(t *testing.T, more func(*screen.Options)) (*person, *listener) {
	l := &listener{}
	book := &notebook{}
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
		o.Drills.Pupils = book
		o.Say = func(text words.Text, urgent bool) {
			said := words.English().Say(text)
			if said == "" {
				return
			}
			l.lines = append(l.lines, said)
			if urgent {
				l.urgent = append(l.urgent, said)
			}
		}
		if more != nil {
			more(o)
		}
	})
	return p, l
}

// Whoever does not see the window gets about by its keys: each sheet says what it is and which keys it has, a list says what is chosen, and a question is
// read out.
func TestSomebodyWhoDoesNotSeeGetsAbout(t *testing.T) {
	p, l := overheard(t, nil)
	p.wait(300)
	said := l.news()
	assert.Contains(t, said, "The cautions.")
	assert.Contains(t, said, "Disconnect the pack of every craft bound to it", "they are read out")
	assert.Contains(t, said, "Keys: F5, dark sheet; ")
	p.tap("Enter")
	p.tap("W")
	p.tap("X")
	p.wait(3000)
	said = l.news()
	assert.Contains(t, said, "The bench.")
	assert.Contains(t, said, "Nothing refuses arming.")
	p.wait(5000)
	l.news()
	p.wait(20_000)
	assert.Empty(t, l.news(), "nothing changes, so nothing is said")
	p.tap("Space")
	p.wait(500)
	assert.Contains(t, l.urgent, "Armed.")
	l.news()
	p.tap("Space")
	p.wait(500)
	assert.Contains(t, l.urgent[0], "Disarmed: ")
	l.news()
	p.tap("C")
	p.wait(600)
	said = l.news()
	assert.Contains(t, said, "The drills.")
	assert.Contains(t, said, "Enter, open")
	assert.Contains(t, said, "Find your controls", "what is chosen")
	p.tap("PageDown")
	p.wait(600)
	assert.Contains(t, l.news(), "Switches")
	p.tap("Enter")
	p.wait(600)
	said = l.news()
	assert.Contains(t, said, "Find the arm switch")
	p.tap("Enter")
	p.wait(300)
	said = l.news()
	assert.Contains(t, said, "Drill: Find the arm switch\n")
	assert.Contains(t, said, "It counts as learned after 4 right ones in a row.")
	assert.Contains(t, said, "Arm switch o")
	if strings.Contains(said, "Arm switch on") {
		p.tap("Space")
	}
	p.wait(12_000)
	assert.NotEmpty(t, l.urgent)
	assert.Contains(t, l.news(), "Press Enter to go on.", "it came too late, and is said")
	p.tap("Esc")
	p.wait(300)
	said = l.news()
	assert.Contains(t, said, "A question.")
	assert.Contains(t, said, "If you leave it now, it counts neither way.", "the question is read out")
}

// Every sheet has a title that is said.
func TestEverySheetHasATitle(t *testing.T) {
	room := wordstest.Of("spoken-title")
	var titles []string
	for _, place := range house.Places() {
		title := words.Of("spoken-title", string(place))
		room.Text(t, title)
		require.NotEmpty(t, words.English().Say(title), place)
		titles = append(titles, words.English().Say(title))
	}
	room.Whole(t)
	slices.Sort(titles)
	assert.Len(t, slices.Compact(titles), len(house.Places()))
}
