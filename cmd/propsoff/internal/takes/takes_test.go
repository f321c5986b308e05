package takes

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/happening"
)

const minimal = "# mine\npropsoff: craft 1\nname: Mine\nchannels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}\njobs: {lights: {channel: 9, on: {from: 1600, to: 2180}}}\n"

// mine are the papers of a craft of one's own with the shipped gestures, and the craft.
func mine(t *testing.T) (Papers, sim.Config) {
	f, err := craftfile.Parse("mine.yaml", []byte(minimal))
	require.NoError(t, err)
	_, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	g, err := patternfile.Parse("examples", text, 20)
	require.NoError(t, err)
	f.Learn(&g.Gestures, &g.Menus)
	return Papers{Program: "test", CraftName: "Mine", CraftText: minimal, GesturesName: "examples", GesturesText: string(text)}, f.Config()
}

// Every word of an older model's tables is one that today's words still know: what was recorded can be told for ever.
func TestOldWordsAreKnownForEver(t *testing.T) {
	require.NotEmpty(t, tables)
	for model := 1; model < sim.Model; model++ {
		one := tables[model]
		require.NotNil(t, one, "model %d is no more and has no table: write down what it had", model)
		for n, word := range one.codes {
			_, ok := codes.CodeOf(word)
			assert.True(t, ok || n == 0, "happening %q of model %d", word, model)
		}
		for _, word := range one.refusals {
			r, ok := codes.RefusalOf(word)
			assert.True(t, ok, "refusal %q of model %d", word, model)
			assert.Equal(t, word, codes.Refusal(r))
			assert.NotContains(t, words.English().Say(words.Of("reason", codes.Refusal(r))), "refusal")
		}
	}
}

// The numbers of an older model are read by its own table, with the names in the take or without.
func TestRecordedByItsOwnTable(t *testing.T) {
	for _, names := range [][]string{nil, tables[1].codes, {"", "refused", "armed"}} {
		s := take.Settings{Model: 1, Codes: names}
		code := uint8(3)
		if len(names) == 3 {
			code = 1
		}
		h := recorded(&s, &take.Entry{Kind: take.Happening, Tick: 7, Code: code, A: 1<<9 | 1<<10 | 1<<11})
		assert.Equal(t, happening.Refused, h.Code)
		assert.Equal(t, []string{"on-cable", "menu-open", "pack-low"}, codes.Why(facts.Set(h.A)))
		assert.EqualValues(t, 7, h.Tick)
	}
	s := take.Settings{Model: 1, Codes: []string{"", "of another world"}}
	assert.Zero(t, recorded(&s, &take.Entry{Code: 1}).Code, "told as what nobody knows any more, and no panic")
	assert.EqualValues(t, 200, recorded(&s, &take.Entry{Code: 200}).Code)
}

// The person's own file is played where it says what stood on the bench; a drill's craft is played as it was filled in.
func TestThePersonsOwnFileIsUsedWhereItSaysTheSame(t *testing.T) {
	p, cfg := mine(t)
	s, err := p.Settings(&live.Start{Craft: cfg, Tick: 5, Note: "window"})
	require.NoError(t, err)
	assert.Equal(t, minimal, s.CraftText)
	assert.Contains(t, s.CraftFilled, "idle-speed: 9 %")
	part, err := Read("a.take", &s)
	require.NoError(t, err)
	assert.Len(t, part.Craft.More(), 1, "with the jobs that do nothing on the bench")
	assert.Equal(t, minimal, string(part.Craft.Text))
	assert.Equal(t, p.GesturesText, string(part.Gestures.Text))
	start := part.Start()
	papers := Papers(part.Settings)
	again, err := papers.Settings(start)
	require.NoError(t, err)
	assert.Equal(t, s, again, "its papers keep the same")
	assert.EqualValues(t, 5, start.Tick)
	assert.Equal(t, "window", start.Note)
	assert.True(t, craftfile.Same(&cfg, &start.Craft))
	assert.Equal(t, *cfg.Gestures, *start.Craft.Gestures)

	by := drill.Craft{Arming: 2, PackLimit: 14_000}
	other := by.On(cfg)
	s, err = p.Settings(&live.Start{Craft: other, Note: "drill x"})
	require.NoError(t, err)
	assert.Equal(t, minimal, s.CraftText, "the person's own stands beside it")
	part, err = Read("a.take", &s)
	require.NoError(t, err)
	got := part.Craft.Config()
	assert.True(t, craftfile.Same(&other, &got))
	assert.Empty(t, part.Craft.More())

	without := cfg
	without.Gestures, without.Menus = nil, nil
	s, err = p.Settings(&live.Start{Craft: without})
	require.NoError(t, err)
	assert.Empty(t, s.GesturesText+s.GesturesName+s.GesturesFilled)
	part, err = Read("a.take", &s)
	require.NoError(t, err)
	assert.Nil(t, part.Gestures)
}

// A take reads to the craft that it was recorded with, whatever its person's file comes to mean: what is filled in counts.
func TestWhatIsFilledInCounts(t *testing.T) {
	p, cfg := mine(t)
	s, err := p.Settings(&live.Start{Craft: cfg})
	require.NoError(t, err)
	s.CraftText = "propsoff: craft 9\nsomething of the future: yes\n"
	s.GesturesText = "propsoff: gestures 9\n"
	part, err := Read("a.take", &s)
	require.NoError(t, err)
	got := part.Craft.Config()
	assert.True(t, craftfile.Same(&cfg, &got))
	assert.Equal(t, *cfg.Gestures, part.Gestures.Gestures)
	s.CraftFilled = "propsoff: craft 1\nname: broken\n"
	_, err = Read("a.take", &s)
	assert.ErrorContains(t, err, "a.take: its craft:")
	s.CraftFilled = ""
	_, err = Read("a.take", &s)
	assert.ErrorContains(t, err, "a.take: its craft file:1:11")
	s.CraftText = ""
	_, err = Read("a.take", &s)
	assert.ErrorIs(t, err, ErrNoCraft)
	s.Model = sim.Model + 1
	_, err = Read("a.take", &s)
	assert.ErrorContains(t, err, "use a newer propsoff")
}

// A craft that no file can say cannot be recorded, but the person's own, whose text is enough.
func TestACraftThatCannotBeWritten(t *testing.T) {
	tiny := minimal + "body: {pack: {resistance: 0.00000000000000000000000000000000000123 mohm}}\n" // in ohm it has more digits than a file may have
	f, err := craftfile.Parse("mine.yaml", []byte(tiny))
	require.NoError(t, err)
	p := Papers{CraftName: "Mine", CraftText: tiny}
	cfg := f.Config()
	cfg.Arming.StillSlots = 10 // another craft than the file's
	r := NewRecorder(p)
	assert.ErrorContains(t, r.Part(&live.Start{Craft: cfg, Tick: 12_000}), "the craft that came on the bench at 12.000 s cannot be recorded")
	cfg = f.Config()
	require.NoError(t, r.Part(&live.Start{Craft: cfg}))
	s, err := p.Settings(&live.Start{Craft: cfg})
	require.NoError(t, err)
	part, err := Read("a.take", &s)
	require.NoError(t, err)
	got := part.Craft.Config()
	assert.True(t, craftfile.Same(&cfg, &got))
}

// The radio may come after the part has begun, and stands in the take all the same.
func TestTheRecorderNotesTheRadio(t *testing.T) {
	p, cfg := mine(t)
	r := NewRecorder(p)
	require.NoError(t, r.Part(&live.Start{Craft: cfg}))
	path := filepath.Join(t.TempDir(), "a.take")
	require.NoError(t, r.Record(path))
	info := input.Info{Name: "Moorland Desk 7", Axes: []input.Axis{{Max: 4095}}}
	file := &radio.File{Device: radio.DeviceOf(info), StickMode: 3, Controls: []radio.Control{{Job: "throttle", Form: radio.Axis, Backwards: true}}}
	r.Use(p.WithRadio(file, &info))
	require.NoError(t, r.Flush())
	require.NoError(t, r.Close())
	in, err := take.Open(path)
	require.NoError(t, err)
	defer in.Close()
	assert.Empty(t, in.Settings().RadioText)
	for err == nil {
		_, err = in.Next()
	}
	s := in.Settings()
	assert.Equal(t, "Moorland Desk 7", s.RadioName)
	assert.Contains(t, s.RadioText, "scale: backwards")
	assert.Contains(t, s.RadioFilled, "scale: {988: 4095, 1500: 2047.5, 2012: 0}")
	assert.Empty(t, strings.TrimSpace(p.WithRadio(nil, nil).RadioText))
}
