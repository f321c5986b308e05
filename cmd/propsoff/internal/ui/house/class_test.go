package house_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/help"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/happening"
)

// every is every key of a keyboard that the program could take.
var every = strings.Fields("A B C D E F G H I J K L M N O P Q R S T U V W X Y Z F1 F2 F3 F4 F5 F6 F7 F8 F9 F10 F11 F12 Enter Tab Home End PageUp PageDown Insert Delete Backspace Minus Equal Comma Period Slash Semicolon " +
	"BracketLeft BracketRight Backslash Quote Backquote Left Right Up Down 0 1 2 3 4 5 6 7 8 9 Space")

// The sheet of a class shows how the craft was disarmed, in the words of the record, until it is armed again.
func TestClassViewTellsHowTheCraftWasDisarmed(t *testing.T) {
	p := ready(before("F11", nil)(t))
	require.False(t, p.reads("Disarmed: "), "it was not armed yet")
	p.tap("Space")
	require.True(t, p.snap().Armed)
	p.tap("L")
	p.wait(20_000)
	require.False(t, p.snap().Armed)
	hs, _ := p.loop.Happenings(nil, 0)
	i := slices.IndexFunc(hs, func(h happening.Happening) bool { return h.Code == happening.Disarmed })
	assert.True(t, p.reads(uitest.Say(tell.Happening(hs[i], p.loop.Craft()))), "%q", texts(p))
	p.taps("L Space")
	p.wait(2500)
	p.tap("Space")
	require.True(t, p.snap().Armed)
	assert.False(t, p.reads("Disarmed: "))
}

// What does not fit the sheet of a class stands on pages, which keys and clicks turn; nothing is left out.
func TestClassViewTurnsPages(t *testing.T) {
	craft, err := craftfile.Parse("asks.yaml", []byte(uitest.FullCraft))
	require.NoError(t, err)
	p := sitDownTo(t, "one that asks for everything", craft, func(_ *whodrives.Options, o *screen.Options) { o.Bare = true })
	p.taps("F11 S")
	p.hold("W", 473)
	p.taps("L L Space U M T T")
	seen := map[string]bool{}
	see := func() {
		for _, it := range ink.Describe(p.page).Items {
			if strings.HasPrefix(it.Name, "refusal ") {
				seen[it.Name] = true
			}
		}
	}
	see()
	require.True(t, p.reads("page 1 of 2"), "%q", texts(p))
	first := len(seen)
	p.tap("PageUp")
	assert.True(t, p.reads("page 1 of 2"), "there is none before")
	p.tap("PageDown")
	see()
	assert.Greater(t, len(seen), first)
	for _, l := range tell.Lines(&p.s.View().Facts) {
		assert.True(t, seen["refusal "+codes.Refusal(l.Refusal)], "%v", l.Refusal)
	}
	assert.True(t, p.reads("page 2 of 2"))
	p.press("leaf-back")
	assert.True(t, p.reads("page 1 of 2"))
	p.press("leaf-on")
	assert.True(t, p.reads("page 2 of 2"))
	p.taps("F6 F6")
	assert.True(t, p.reads("page 1 of 2"), "whoever comes back begins at the first")
	p.tap("F11")
	p.tap("PageDown")
	assert.False(t, p.reads("page 2"), "in the window there is room for all")
}

// Every key that does something on a sheet in class view is told of by its help, and does one thing.
func TestHelpListsEveryKeyThatWorks(t *testing.T) {
	for _, sc := range scenes(t) {
		if sc.on == ui.OnProve || sc.on == ui.OnCard { // a search goes on by the real clock
			continue
		}
		t.Run(sc.name+" "+string(sc.on), func(t *testing.T) {
			idle, p := sc.sit(t), sc.sit(t)
			idle.tap("F11")
			p.tap("F11")
			idle.wait(16)
			p.wait(16)
			keys, _ := help.Listed(p.s.View(), sc.on)
			told := strings.Join(append(keys, ""), " ")
			for from, to := range map[string]string{ui.Arrows: "Left Right Up Down", ui.Numbers: "1 2 3 4 5 6 7 8 9"} {
				told = strings.ReplaceAll(told, from, to)
			}
			types := sc.on == ui.OnWrite || sc.on == ui.OnHelp
			for _, key := range every {
				if strings.Contains(" "+told, " "+key+" ") || types && !ui.FunctionKey(key) && key != "Home" && key != "End" && key != "Tab" {
					continue
				}
				p.press1(key)
				idle.wait(32)
				if !assert.True(t, reflect.DeepEqual(ink.Describe(idle.page), ink.Describe(p.page)), "%s does something, and help does not tell of it", key) {
					return
				}
			}
		})
	}
}
