package takes

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
)

// Every language says what is wrong with the files that a take carries.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("takes")
	p, cfg := mine(t)
	whole, err := p.Settings(&live.Start{Craft: cfg})
	require.NoError(t, err)
	for _, spoil := range []func(s *take.Settings){
		func(s *take.Settings) { s.CraftFilled, s.CraftText = "", "" },
		func(s *take.Settings) { s.CraftFilled, s.CraftText = "", "x" },
		func(s *take.Settings) { s.CraftFilled = "propsoff: craft 1\nname: broken\n" },
		func(s *take.Settings) { s.GesturesFilled, s.GesturesText = "", "x" },
		func(s *take.Settings) { s.GesturesFilled = "x" },
		func(s *take.Settings) { s.Model = sim.Model + 1 },
	} {
		s := whole
		spoil(&s)
		_, err := Read("a.take", &s)
		room.Error(t, err)
		require.ErrorContains(t, err, "take")
	}
	tiny := minimal + "body: {pack: {resistance: 0.00000000000000000000000000000000000123 mohm}}\n"
	f, err := craftfile.Parse("mine.yaml", []byte(tiny))
	require.NoError(t, err)
	cfg = f.Config()
	cfg.Arming.StillSlots = 10 // another craft than the file's, which no file can say
	room.Error(t, NewRecorder(Papers{CraftName: "Mine", CraftText: tiny}).Part(&live.Start{Craft: cfg, Tick: 12_000}))
	room.Whole(t)
}
