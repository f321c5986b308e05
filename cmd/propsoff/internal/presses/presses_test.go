package presses_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/presses"
)

func types(key string) string {
	if len(key) == 1 {
		return strings.ToLower(key)
	}
	return ""
}

// follow gives what one picture after another tells, such as "+K -K".
func follow(k *presses.Keys, pictures ...presses.Seen) string {
	var out []string
	for _, s := range pictures {
		s.Types = types
		k.Follow(s, func(key string, down bool) { out = append(out, map[bool]string{true: "+", false: "-"}[down]+key) })
	}
	return strings.Join(out, " ")
}

func words(s string) []string { return strings.Fields(s) }

func TestKeysKeepTheirOrder(t *testing.T) {
	for _, c := range []struct {
		name, want string
		pictures   []presses.Seen
	}{
		{"a press and a release", "+K -K", []presses.Seen{{Pressed: words("K"), Held: words("K"), Text: "k"}, {Released: words("K")}}},
		{"both in one picture", "+K -K", []presses.Seen{{Pressed: words("K"), Released: words("K"), Held: words("K"), Text: "k"}, {}}},
		{"two in the order of what they typed", "+P +B", []presses.Seen{{Pressed: words("B P"), Held: words("B P"), Text: "pb"}}},
		{"capitals too", "+P +B", []presses.Seen{{Pressed: words("B P"), Held: words("B P"), Text: "PB"}}},
		{"those that type nothing keep their places", "+P +Enter +B", []presses.Seen{{Pressed: words("B Enter P"), Held: words("B Enter P"), Text: "pb"}}},
		{"the space bar types a space", "+S +Space", []presses.Seen{{Pressed: words("Space S"), Held: words("Space S"), Text: "s "}}},
		{"let go and pressed again", "+S -S +S", []presses.Seen{{Pressed: words("S"), Held: words("S"), Text: "s"}, {Pressed: words("S"), Released: words("S"), Held: words("S"), Text: "s"}}},
		{"what was let go of comes first", "+S -S +X", []presses.Seen{{Pressed: words("S"), Held: words("S"), Text: "s"}, {Pressed: words("X"), Released: words("S"), Held: words("X"), Text: "x"}}},
		{"pressed twice in one picture", "+S -S +S -S", []presses.Seen{{Pressed: words("S"), Released: words("S"), Held: words("S"), Text: "ss"}, {Held: words("S")}, {}}},
		{"a release that nobody told of", "+S -S", []presses.Seen{{Pressed: words("S"), Held: words("S")}, {}}},
		{"a key that is held is told of once", "+S", []presses.Seen{{Pressed: words("S"), Held: words("S")}, {Held: words("S"), Text: "s"}, {Pressed: words("S"), Held: words("S")}}},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, follow(&presses.Keys{}, c.pictures...)) })
	}
}

// Whatever comes, a key goes down and up in turn, and is up in the end.
func TestNoKeyIsLeftDown(t *testing.T) {
	some := rapid.SliceOfNDistinct(rapid.SampledFrom(words("A B S Space Enter Shift")), 0, 4, rapid.ID[string])
	rapid.Check(t, func(t *rapid.T) {
		var k presses.Keys
		down := map[string]bool{}
		tell := func(key string, is bool) {
			require.NotEqual(t, down[key], is, key)
			down[key] = is
		}
		for range rapid.IntRange(0, 20).Draw(t, "pictures") {
			k.Follow(presses.Seen{Pressed: some.Draw(t, "pressed"), Released: some.Draw(t, "released"), Held: some.Draw(t, "held"),
				Text: rapid.StringOf(rapid.SampledFrom([]rune("abs "))).Draw(t, "text"), Types: types}, tell)
		}
		k.Follow(presses.Seen{}, tell)
		for key, is := range down {
			require.False(t, is, key)
		}
	})
}

// page has two areas: "left" from 100 to 200 and "right" from 300 to 400, both from 100 to 200 down.
func page() *ink.Page {
	p := ink.NewPage(960, 600, 1, nil)
	p.Hit("left", "", ink.Rect{X: 100, Y: 100, W: 100, H: 100})
	p.Hit("right", "", ink.Rect{X: 300, Y: 100, W: 100, H: 100})
	return p
}

type told struct {
	phase  ink.Phase
	id     int
	hit    string
	finger bool
}

// point gives what one sight after another tells; each is 16 ms after the one before, unless it says when.
func point(p *presses.Pointers, sights ...presses.Sight) (out []told) {
	now := int64(0)
	for _, s := range sights {
		if s.Now == 0 {
			s.Now = now + 16_000
		}
		now, s.Size = s.Now, 1
		p.Follow(&s, page(), func(e ink.Pointer) { out = append(out, told{e.Phase, e.ID, e.Hit.Name, e.Finger}) })
	}
	return out
}

func at(x, y float64) presses.Sight { return presses.Sight{Cursor: ink.Point{X: x, Y: y}} }

func mouse(s presses.Sight, b presses.Button) presses.Sight {
	s.Buttons[presses.First] = b
	return s
}

var (
	pressed  = presses.Button{Pressed: true, Held: true}
	held     = presses.Button{Held: true}
	released = presses.Button{Released: true}
	tapped   = presses.Button{Pressed: true, Released: true, Held: true}
)

func TestAMouse(t *testing.T) {
	var p presses.Pointers
	require.Equal(t, []told{{ink.Down, 0, "left", false}, {ink.Move, 0, "", false}, {ink.Up, 0, "right", false}},
		point(&p, at(140, 150), at(150, 150), mouse(at(150, 150), pressed), mouse(at(300, 150), held), mouse(at(300, 150), released)))
	require.Equal(t, []told{{ink.Down, 0, "right", false}, {ink.Up, 0, "right", false}}, point(&p, mouse(at(300, 150), tapped), at(300, 150)), "a short click counts")
	require.Equal(t, []told{{ink.Down, 0, "right", false}, {ink.Up, 0, "right", false}, {ink.Down, 0, "right", false}, {ink.Up, 0, "right", false}},
		point(&p, mouse(at(300, 150), pressed), mouse(at(300, 150), tapped)), "two clicks, of which the first ends and the second is made in one picture")
	require.Equal(t, []told{{ink.Down, 0, "", false}}, point(&p, at(210, 150), mouse(at(207, 150), pressed)), "a mouse is beside what it is beside of")
}

func TestAFingerThatTheSystemTellsOfAsAMouse(t *testing.T) {
	var p presses.Pointers
	leap := mouse(at(205, 150), pressed)
	leap.Now = 1_000_000
	require.Equal(t, []told{{ink.Down, 0, "left", true}, {ink.Up, 0, "left", true}}, point(&p, at(600, 500), leap, mouse(at(205, 150), released)))
	again := mouse(at(205, 150), tapped)
	require.Equal(t, told{ink.Down, 0, "left", true}, point(&p, again)[0], "at the same place it is a finger still")
	require.False(t, point(&p, at(215, 150), at(225, 150), mouse(at(225, 150), tapped))[0].finger, "it glides: a mouse")
	quick := mouse(at(600, 150), pressed)
	require.False(t, point(&p, at(225, 151), at(235, 150), quick)[0].finger, "a quick hand is no finger")
}

func TestFingers(t *testing.T) {
	var p presses.Pointers
	two := func(a, b ink.Point) presses.Sight {
		return presses.Sight{Touches: []presses.Touch{{ID: 3, At: a}, {ID: 4, At: b}}}
	}
	require.Equal(t, []told{
		{ink.Down, 3, "left", true}, {ink.Down, 4, "right", true}, {ink.Move, 4, "", true}, {ink.Up, 4, "right", true}, {ink.Lost, 3, "", true},
	}, func() []told {
		out := point(&p, two(ink.Point{X: 150, Y: 150}, ink.Point{X: 350, Y: 150}), two(ink.Point{X: 150, Y: 150}, ink.Point{X: 350, Y: 160}),
			presses.Sight{Touches: []presses.Touch{{ID: 3, At: ink.Point{X: 150, Y: 150}}}})
		p.Lose(func(e ink.Pointer) { out = append(out, told{e.Phase, e.ID, e.Hit.Name, e.Finger}) })
		return out
	}())
	require.Equal(t, []told{{ink.Down, 5, "left", true}}, point(&p, presses.Sight{Touches: []presses.Touch{{ID: 5, At: ink.Point{X: 210, Y: 205}}}}), "beside it is near enough")
}

// A wheel turns the list under the mouse, or where it is over none the only one of the page; a press tells of the list under it.
func TestTheWheelTurnsTheListUnderIt(t *testing.T) {
	p := page()
	p.List(ink.List{Name: "upper", Box: ink.Rect{X: 0, Y: 0, W: 960, H: 300}})
	var points presses.Pointers
	follow := func(s presses.Sight) (out []ink.Pointer) {
		s.Size = 1
		points.Follow(&s, p, func(e ink.Pointer) { out = append(out, e) })
		return out
	}
	turned := func(x, y, by float64) ink.Pointer {
		s := at(x, y)
		s.Wheel = by
		all := follow(s)
		require.Len(t, all, 1)
		require.Equal(t, ink.Wheel, all[0].Phase)
		require.InDelta(t, by, all[0].By, 0)
		return all[0]
	}
	require.Equal(t, "upper", turned(50, 50, -0.5).List.Name)
	require.Equal(t, "upper", turned(50, 500, 2).List.Name, "there is no other")
	p.List(ink.List{Name: "lower", Box: ink.Rect{X: 0, Y: 300, W: 960, H: 200}})
	require.Equal(t, "lower", turned(50, 400, 2).List.Name)
	require.False(t, turned(50, 550, 2).OnList, "which one is not said")
	all := follow(mouse(at(150, 150), tapped))
	require.Len(t, all, 2)
	require.Equal(t, [2]string{"upper", "left"}, [2]string{all[0].List.Name, all[0].Hit.Name})
}

// Where an engine tells what fingers did, and not only which are down, a tap that was over before the picture counts, and a touch that was taken back is lost.
func TestFingersToldOfByWhatTheyDid(t *testing.T) {
	var p presses.Pointers
	did := func(all ...presses.Touched) presses.Sight {
		return presses.Sight{Touched: append([]presses.Touched{}, all...)}
	}
	touched := func(id int, phase ink.Phase, x float64) presses.Touched {
		return presses.Touched{Phase: phase, Touch: presses.Touch{ID: id, At: ink.Point{X: x, Y: 150}}}
	}
	require.Equal(t, []told{{ink.Down, 1, "left", true}, {ink.Up, 1, "left", true}, {ink.Down, 1, "right", true}, {ink.Up, 1, "right", true}},
		point(&p, did(touched(1, ink.Down, 150), touched(1, ink.Up, 150), touched(1, ink.Down, 350), touched(1, ink.Up, 350))), "two taps between two pictures")
	require.Equal(t, []told{{ink.Down, 1, "left", true}, {ink.Down, 2, "right", true}, {ink.Move, 2, "", true}, {ink.Lost, 1, "left", true}, {ink.Up, 2, "right", true}},
		point(&p, did(touched(1, ink.Down, 150), touched(2, ink.Down, 350)), did(), did(touched(2, ink.Move, 360), touched(1, ink.Lost, 150)), did(touched(1, ink.Move, 150), touched(2, ink.Up, 360))))
	point(&p, did(touched(3, ink.Down, 150)))
	p.Lose(func(ink.Pointer) {})
	require.Empty(t, point(&p, did(touched(3, ink.Move, 160), touched(3, ink.Up, 160))), "what was lost with the window says no more")
}
