package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
)

// A craft's time is told to its end: what was armed anew is disarmed in the end. A fall from 8 m breaks it, and its motors turn no more.
func TestACraftsTimeIsToldToItsEnd(t *testing.T) {
	o, err := lossrun.Demonstrate(lossrun.Options{Craft: sim.Default(), Stored: lossrun.ArmedLow, Height: 8, OffFor: 6000})
	require.NoError(t, err)
	say := words.English().Say
	told := func(i facts.OnLoss) (all []string) {
		end := &o.End[i]
		for _, m := range LossMarks(LossCraft{Cfg: &o.Config[i], Run: &end.Run, Snap: &end.Snap}) {
			all = append(all, say(m.Text))
		}
		return all
	}
	assert.Equal(t, []string{"before: the radio's last frame", "radio off", "motors stop", "silence limit, unnoticed", "on the ground at 10.9 m/s, broke",
		"radio back", "disarmed, may be armed", "armed again", "disarmed"}, told(facts.SendsStored))
	for i := range o.End {
		all := told(facts.OnLoss(i))
		assert.Equal(t, "disarmed", all[len(all)-1], "%d: %q", i, all)
	}
}
