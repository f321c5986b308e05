package house_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/keyboard"
	"propsoff.example/input/script"
)

// strange are the letters of a keyboard that has none where the US layout has it.
var strange = func() map[string]string {
	writes := map[string]string{}
	for i, r := range []rune("ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚ") {
		writes[string(rune('A'+i))] = string(r)
	}
	return writes
}()

// works tells whether a key does something on the sheet that is shown, or on another.
func (p *person) works(key string, place ui.Place) bool {
	v := p.s.View()
	called := func(key, physical string) bool { return v.Say(v.Caps.Word(physical)) == key }
	pilots := v.House.Flown(place) && v.Driver != ui.Played && v.Driver != ui.Radio
	return slices.ContainsFunc(uitest.AllSheets().All(), func(a ui.Act) bool { return called(key, a.Physical) && v.Shows(a.Action, place) }) ||
		slices.ContainsFunc(p.page.Hits(), func(h ink.Hit) bool { return called(key, h.Key) && place == p.s.Place() }) ||
		pilots && slices.ContainsFunc(keyboard.Layout(), func(b keyboard.Binding) bool { return called(key, b.Physical) })
}

// seat is where somebody begins to press keys or buttons at random.
type seat struct {
	name string
	sit  func(*testing.T) *person
	keys string // what is pressed first
}

// inLanguage sits down there in one of two languages.
func (s *seat) inLanguage(t *testing.T, german bool) *person {
	p := s.sit(t)
	if german {
		p.s.Act(ui.TurnLanguage)
		p.wait(20)
		require.Equal(t, "de", p.s.View().Language().Code())
	}
	return p
}

// randomSeats are those of the tests below.
func randomSeats(t *testing.T) []seat {
	bare := func(more func(*whodrives.Options, *screen.Options)) func(*testing.T) *person {
		return func(t *testing.T) *person {
			return sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
				if s.Bare = true; more != nil {
					more(d, s)
				}
			})
		}
	}
	plays := func(end string) func(*whodrives.Options, *screen.Options) {
		return func(d *whodrives.Options, s *screen.Options) {
			played, err := script.Parse("lesson", []byte("name: a lesson\nsteps:\n  - {at: 1s, link: off}\n  - {at: 3s, link: on}\n  - {at: 4s, menu: camera}\nend: "+end+"\n"), d.Names)
			require.NoError(t, err)
			d.Script, d.Radios = played.Source(), twoRadios{}
		}
	}
	return []seat{

		{"demo", bare(nil), ""},
		{"at a strange keyboard", func(t *testing.T) *person {
			p := bare(nil)(t)
			p.s.Keyboard(strange)
			return p
		}, "B O O F F C C S L P P L"},
		{"by sticks", func(t *testing.T) *person { return sitDownAt(t, "teasel-by-sticks", nil) }, "Enter"},
		{"outside", bare(func(_ *whodrives.Options, s *screen.Options) { s.Outside = true }), "S B Enter"},
		{"three", bare(func(_ *whodrives.Options, s *screen.Options) { s.Outside = true }), "S B Enter End P I End P End"},
		{"link lost", bare(nil), "S F L F P F"},
		{"drills", bare(nil), "S C Enter L B C I G I C C P C"},
		{"two radios that cannot be read", bare(func(d *whodrives.Options, _ *screen.Options) { d.Radios = twoRadios{} }), ""},
		{"a radio", func(t *testing.T) *person { p, _ := atTheRadio(t); return p }, ""},
		{"a radio to learn", func(t *testing.T) *person { p, _ := plugIn(t); return p }, ""},
		{"which file", func(t *testing.T) *person { p, _ := plugIn(t, "A1", "B2"); return p }, ""},
		{"gestures", func(t *testing.T) *person { return atGestures(t, assets.BuiltIn, "", nil) }, "S"},
		{"prove", func(t *testing.T) *person { return sitAtProve(t, heldCraft) }, ""},
		{"played", bare(plays("60s")), ""},
		{"played to its end", bare(plays("5s")), ""},
	}
}

// A key that a sentence names works on the sheet on which it stands, in the state in which it stands; one that works on the bench alone is
// told so. Where any stick key is said to take over, each does. So wherever somebody comes who presses keys at random.
func TestKeysThatSentencesNameWork(t *testing.T) {
	var all []string
	for _, a := range uitest.AllSheets().All() {
		all = append(all, a.Physical)
	}
	for _, b := range keyboard.Layout() {
		all = append(all, b.Physical)
	}
	named := map[string]bool{}
	for _, seat := range randomSeats(t) {
		t.Run(seat.name, func(t *testing.T) {
			for seed := range uint64(2) {
				r := rand.New(rand.NewPCG(seed, 12))
				p := seat.inLanguage(t, seed == 1)
				look := func() (takes bool) {
					place := p.s.Place()
					if place == ui.OnHelp { // it tells of the keys of another sheet
						return false
					}
					for _, it := range ink.Describe(p.page).Items {
						takes = takes || uitest.SaysStickKey(it.Text)
						for _, key := range uitest.KeysNamed(it.Text) {
							named[key] = true
							low := strings.ToLower(it.Text)
							there := p.works(key, place) || (strings.Contains(low, "on the bench") || strings.Contains(low, "auf der werkbank")) && p.works(key, ui.OnBench)
							assert.True(t, there, "%q names %s, on place %s, driver %d", it.Text, key, place, p.s.View().Driver)
						}
					}
					return takes
				}
				for _, key := range strings.Fields(seat.keys) {
					p.wait(300)
					p.tap(key)
					look()
				}
				for range 200 {
					key := all[r.IntN(len(all))]
					for try := 0; try < 4 && (!p.works(p.s.View().Say(p.s.View().Caps.Word(key)), p.s.Place()) || key == "F1" || key == "Esc"); try++ {
						key = all[r.IntN(len(all))]
					}
					p.s.Key(key, true)
					p.wait([]int{30, 50, 400, 900}[r.IntN(4)])
					p.s.Key(key, false)
					p.wait(30)
					if stick, place := keyboard.Layout()[r.IntN(8)].Physical, p.s.Place(); look() && r.IntN(4) == 0 {
						p.tap(stick)
						assert.Equal(t, ui.Keyboard, p.s.View().Driver, "%s does not take over, on place %s", stick, place)
					}
				}
			}
		})
	}
	assert.Greater(t, len(named), 12, "%v", named)
}

// To whoever uses a finger no sentence names a key, wherever somebody comes who presses buttons at random.
func TestNoSentenceNamesAKeyToAFinger(t *testing.T) {
	buttons := map[string]bool{}
	for _, seat := range randomSeats(t) {
		t.Run(seat.name, func(t *testing.T) {
			for seed := range uint64(2) {
				r := rand.New(rand.NewPCG(seed, 18))
				p := seat.inLanguage(t, seed == 1)
				for _, key := range strings.Fields(seat.keys) {
					p.wait(300)
					p.tap(key)
				}
				p.point(ink.Pointer{ID: 1, Finger: true}, ink.Rect{}, 0, 0)
				for range 100 {
					require.True(t, p.s.View().Touch)
					uitest.ForFingers(t, string(p.s.Place()), p.page)
					for _, it := range ink.Describe(p.page).Items {
						for _, m := range buttonNamed.FindAllStringSubmatch(it.Text, -1) {
							buttons[m[1]] = true
							if low := strings.ToLower(it.Text); !strings.Contains(low, "on the bench") && !strings.Contains(low, "auf der werkbank") {
								assert.True(t, p.stands(m[1]), "%q names a button that does not stand on place %s", it.Text, p.s.Place())
							}
						}
					}
					if hits := p.page.Hits(); len(hits) > 0 {
						p.fingers(hits[r.IntN(len(hits))].Name)
					}
				}
			}
		})
	}
	assert.Greater(t, len(buttons), 6, "%v", buttons)
}

// stands tells whether a button stands on the page with these words.
func (p *person) stands(words string) bool {
	return slices.ContainsFunc(ink.Describe(p.page).Items, func(it ink.Described) bool { return it.Group == "keys" && it.Text == words })
}

// What a finger is told to do does it: a stick that is drawn takes over, and the buttons that are named are those that stand there.
func TestWhatAFingerIsToldWorks(t *testing.T) {
	p := sitDown(t, "")
	p.fingers("understood")
	require.True(t, p.reads("The demo pilot drives. Pull a drawn stick to take over."), "%q", texts(p))
	require.True(t, p.reads("Watch the demo pilot, or pull a drawn stick to take over."))
	left := p.hit(stick(true))
	p.point(ink.Pointer{ID: 1, Finger: true}, left.Room, 0.5, 1)
	p.point(ink.Pointer{ID: 1, Finger: true, Phase: ink.Up}, left.Room, 0.5, 1)
	require.Equal(t, ui.Keyboard, p.s.View().Driver)
	require.True(t, p.reads("You drive by finger."))
	p.wait(2500)
	require.True(t, p.reads("To arm, move the arm switch on."), "%q", texts(p))
	p.fingers("arm-switch")
	require.True(t, p.snap().Armed)
	p.fingers("arm-switch")
	require.False(t, p.snap().Armed)

	p.fingers("radio-switch")
	p.wait(2000)
	require.False(t, p.snap().In.Transmitter)
	require.True(t, p.reads("Press “switch radio on” to switch it on.") && p.stands("switch radio on"), "%q", texts(p))
	p.fingers("radio-switch")
	require.True(t, p.snap().In.Transmitter)
	p.fingers("pack")
	require.True(t, p.reads("Press “connect pack” to connect its pack.") && p.stands("connect pack"), "%q", texts(p))
	p.fingers("pack")
	require.True(t, p.snap().In.Powered)

	// A keyboard beside a screen that is touched: whose hand is at the keys reads of keys again. A phone's text field has two of them.
	p.taps("Enter Backspace")
	require.True(t, p.s.View().Touch)
	p.tap("Shift")
	require.False(t, p.s.View().Touch)
}

// A drill that waits for a hand tells a finger how it takes over, and so it does.
func TestADrillTellsAFingerHowToTakeOver(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
		o.Bare, o.Open, o.Touch = true, ui.OnDrills.Open(), true
	})
	p.wait(500)
	p.goTo("Stop at the alarm, by switch") // by keys
	p.s.Point(ink.Pointer{ID: 1, Finger: true})
	p.s.Point(ink.Pointer{ID: 1, Finger: true, Phase: ink.Up})
	p.tap("Enter")
	require.True(t, p.reads("a drill needs your own hand: pull a stick on the bench, or plug your radio in."), "%q", texts(p))
	p.fingers("leave")
	require.Equal(t, ui.OnBench, p.s.Place())
	left := p.hit(stick(true))
	p.point(ink.Pointer{ID: 1, Finger: true}, left.Room, 0.5, 1)
	p.point(ink.Pointer{ID: 1, Finger: true, Phase: ink.Up}, left.Room, 0.5, 1)
	require.Equal(t, ui.Keyboard, p.s.View().Driver)
	p.tap("C")
	require.False(t, p.reads("a drill needs your own hand"))
}

// buttonNamed is how a sentence names a button.
var buttonNamed = regexp.MustCompile(`(?:[Pp]ress|[Dd]rücke|mit|by) [“„]([^”“]+)[”“]`)
