//go:build unix

package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// stoodClock stands still but where a test moves it.
type stoodClock struct{ now int64 }

func (c *stoodClock) Now() int64    { return c.now }
func (c *stoodClock) Passed() int64 { return c.now }

// noDriverRadios is a window into which no radio is plugged.
type noDriverRadios struct{ noNews }

func (noDriverRadios) Open(string, int64) (input.Device, error) { return nil, os.ErrNotExist }

// sitter sits before the window as the command line opens it, without an engine.
type sitter struct {
	t     *testing.T
	s     *screen.Screen
	l     *live.Loop
	clock *stoodClock
	page  *ink.Page
}

func sitBefore(t *testing.T, flags *world.Named) *sitter {
	w, _, _ := testWorld(t)
	win := &windowFlags{theme: "light"}
	o, err := win.options(w, flags)
	require.NoError(t, err)
	p := &sitter{t: t, clock: &stoodClock{now: 1_000_000}, page: ink.NewPage(1280, 800, 0, nil)}
	p.l = live.New(live.Options{Craft: o.craft.Config(), Clock: p.clock, Begin: []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}})
	t.Cleanup(func() { p.l.Close() })
	d := whodrives.New(whodrives.Options{Loop: p.l, Clock: p.clock, Names: o.craft.Words, Radios: noDriverRadios{}, File: o.radio})
	so := o.screen(p.l, d)
	so.Bare, so.Start, so.Drills = true, false, screen.DrillOptions{Coach: drillrun.New(), Day: func() int32 { return 0 }}
	p.s = house.New(so)
	p.turn()
	return p
}

func (p *sitter) turn() {
	p.clock.now += 16_000
	p.s.Turn()
	p.l.Turn()
	p.s.Page(p.page, 1280, 800)
}

func (p *sitter) tap(key string) {
	p.s.Key(key, true)
	p.turn()
	p.s.Key(key, false)
	p.turn()
}

// texts are those of a group and a name, in order; an empty name takes all.
func (p *sitter) texts(group, name string) (out []string) {
	for _, it := range ink.Describe(p.page).Items {
		if it.Text != "" && it.Group == group && (name == "" || it.Name == name) {
			out = append(out, it.Text)
		}
	}
	return out
}

// searched waits for the end of the search.
func (p *sitter) searched() (status string) {
	p.t.Helper()
	for range 3000 {
		p.turn()
		if status = strings.Join(p.texts("search", "status"), " "); !strings.HasPrefix(status, "Searching") && !strings.HasPrefix(status, "Looking a second time") {
			return status
		}
		time.Sleep(10 * time.Millisecond)
	}
	p.t.Fatal("the search does not end")
	return ""
}

var standing = regexp.MustCompile(`, standing for [^.]*(\.\d[^.]*)?\. `)

// Whoever asks, at whichever of the four doors, is told the same of the same files: prove and card in the terminal, F8 and F9 in the
// window. Gestures and menus belong to what is searched.
func TestFourDoorsOneVerdict(t *testing.T) {
	broken := 0
	for _, c := range []struct{ craft, radio, gestures string }{
		{"switch", "", ""}, {"switch", "full", ""}, {"sticks", "full", ""}, {"sticks", "full", "arm-corner"}, {"switch", "full", "arm-corner"},
		{"held-switch", "", ""}, {"stored-late", "", ""}, {"stored-off", "", "arm-corner"}, {"switch", "pitch-no-pulse", ""},
		{"sticks", "throttle-short", "arm-corner"}, {"switch", "unscaled", ""}, {"sinks", "no-mode", ""},
	} {
		name := strings.Join([]string{c.craft, c.radio, c.gestures}, " ")
		flags := &world.Named{Craft: layoutFile(c.craft, "craft")}
		args := []string{"--craft", flags.Craft}
		var files []string
		if c.radio != "" {
			flags.Radio = layoutFile(c.radio, "radio")
			args, files = append(args, "--radio", flags.Radio), append(files, flags.Radio)
		}
		if c.gestures != "" {
			flags.Gestures = layoutFile(c.gestures, "gestures")
			args, files = append(args, "--gestures", flags.Gestures), append(files, "--gestures", flags.Gestures)
		}
		status, rules, end := proveIt(t, layoutCase{craft: c.craft}, files...)
		var names []string
		for _, r := range rules {
			if r.Outcome == "broken" {
				names = append(names, shortOf(t, r.Rule))
			}
		}
		broken += len(names)
		code, text, _ := command(t, append([]string{"prove", flags.Craft}, files...)...)
		require.Equal(t, status, code, name)
		verdict := lastSentences(text)

		// F8, on the same files.
		p := sitBefore(t, flags)
		p.tap("F8")
		assert.Equal(t, verdict, p.searched(), "%s: F8", name)
		outcomes, shorts := p.texts("rules", "outcome"), p.texts("rules", "rule")
		require.Equal(t, len(outcomes), len(shorts), name)
		var f8 []string
		for i := range outcomes {
			if outcomes[i] == words.English().Say(tell.Outcome(prove.Broken, true)) {
				f8 = append(f8, shorts[i])
			}
		}
		assert.Equal(t, names, f8, "%s: F8", name)

		// The card, without the situations that each stands for.
		short := standing.ReplaceAllString(verdict, ". ")
		path := filepath.Join(t.TempDir(), "card.svg")
		code, out, errs := command(t, append([]string{"card", "--size", "page", "--prove", "-o", path, "--date", "none"}, args...)...)
		assert.Empty(t, errs, name)
		assert.Equal(t, status, code, "%s: card --prove", name)
		assert.Equal(t, short+"\nSaved: "+path+"\n", out, "%s: card --prove", name)
		words := svgWords(t, madeFile(t, path))
		assert.Contains(t, words, short, name)

		// F9, after F8, on the page.
		p.tap("F9")
		p.tap("Right")
		printed := strings.ReplaceAll(strings.Join(p.texts("printed", ""), " "), "\u00a0", " ")
		assert.Contains(t, printed, short, "%s: F9", name)
		for _, n := range names {
			assert.Contains(t, words, n, "%s: card --prove", name)
			assert.Contains(t, printed, n, "%s: F9", name)
		}
		assert.Equal(t, end.Broken, len(names), name)
		assert.Equal(t, end.Verdict == "all-hold", status == exit.CodeDone, name)
	}
	assert.Greater(t, broken, 10)
}

// lastSentences is the last paragraph of what prove prints: what it came to as a whole.
func lastSentences(text string) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	for i := len(lines) - 1; i >= 0; i-- {
		if strings.HasPrefix(lines[i], "Every situation was searched") || strings.HasPrefix(lines[i], "Stopped before the end") {
			return strings.Join(lines[i:], " ")
		}
	}
	return ""
}

// shortOf is a rule in a few words by its code.
func shortOf(t *testing.T, code string) string {
	i := slices.IndexFunc(tell.Rules(), func(r prove.Rule) bool { return r.Code() == code })
	require.GreaterOrEqual(t, i, 0, code)
	return words.English().Say(tell.RuleShort(tell.Rules()[i]))
}
