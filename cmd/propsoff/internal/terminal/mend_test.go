package terminal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

func mends(t *testing.T, found *mend.Report) *Mends {
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	l := prove.Layout{Config: f.Config(), Radio: radioreach.Ideal(f)}
	for i := range found.Mends {
		var ok bool
		found.Mends[i].After, ok = mend.Apply(&l, found.Mends[i].Changes)
		require.True(t, ok)
	}
	return &Mends{Proof: Proof{Layout: &l, Report: &found.Before, Of: words.AsIs("Of.")}, Found: found, Hint: true}
}

// Rules that stand in each other's way are listed in full sentences; no mend is offered.
func TestRulesInEachOthersWayAreListed(t *testing.T) {
	found := &mend.Report{Changes: 3, Tried: 560, Exclude: []prove.Rule{prove.CanArm, prove.ArmControlStays}, Fewest: true}
	found.Before.Results = []prove.Result{{Rule: prove.CanArm, Outcome: prove.Holds}, {Rule: prove.ArmControlStays, Outcome: prove.Undecided}}
	p := mends(t, found)
	text := string(p.AppendText(nil))
	assert.Contains(t, text, "None of the 560 sets of up to 3 changes that were tried mends this layout.\n"+
		"These 2 rules stand in each other's way: each set that was tried breaks one of them, and of no fewer rules is that so:\n"+
		"  This radio can arm this craft.\n  The arm switch stays where it is put.\n")
	assert.NotContains(t, text, "--take")
	json := string(p.AppendJSON(nil))
	assert.Contains(t, json, `"code":"mends","verdict":"not-mended","mends":0,"changes":3,"tried":560,"searched_whole":0,"partial":false,"exclude":["can-arm","arm-control-stays"],"fewest":true}`)
}

// How a mend is taken over is told only where one changes what a craft file says.
func TestTakingOverIsOfferedForTheCraft(t *testing.T) {
	travel := mend.Change{Kind: mend.Travel, Relearn: 10, Was: int64(pulse.Micros(1012)), Is: int64(pulse.Low)}
	silent := mend.Change{Kind: mend.Receiver, Relearn: 4, Control: -1, Channel: -1, Was: 1}
	for _, offered := range []bool{false, true} {
		found := &mend.Report{Mends: []mend.Mend{{Changes: []mend.Change{travel}}}}
		if offered {
			found.Mends = append(found.Mends, mend.Mend{Changes: []mend.Change{travel, silent}})
		}
		found.Before.Results = []prove.Result{{Rule: prove.CanArm, Outcome: prove.Broken}}
		assert.Equal(t, offered, strings.Contains(string(mends(t, found).AppendText(nil)), "--take"))
	}
}

// A change says as JSON what it is of, in µs, with channels from 1 and positions by their code words.
func TestChangesAsJSON(t *testing.T) {
	found := &mend.Report{Mends: []mend.Mend{{Relearn: 70, Changes: []mend.Change{
		{Kind: mend.Travel, Relearn: 10, Control: 0, Channel: 0, Was: int64(pulse.Micros(1012)), Is: int64(pulse.Low)},
		{Kind: mend.ArmOn, Relearn: 60, Control: 4, Channel: 4, Places: []int8{1, 0, 0}},
		{Kind: mend.ModesAt, Relearn: 1, Control: 5, Channel: 5, Places: []int8{0, 1, 2}},
		{Kind: mend.Receiver, Relearn: 4, Control: -1, Channel: -1, Was: 1},
	}}}}
	found.Before.Results = []prove.Result{{Rule: prove.CanArm, Outcome: prove.Broken}}
	line := string(mends(t, found).AppendJSON(nil))
	for _, want := range []string{
		`{"kind":"travel","in_radio":true,"relearn":10,"channel":1,"was":1012,"is":988}`,
		`{"kind":"arm-positions","in_radio":false,"relearn":60,"channel":5,"positions":["on","off","off"]}`,
		`{"kind":"mode-positions","in_radio":false,"relearn":1,"channel":6,"positions":["angle","horizon","rate"]}`,
		`{"kind":"receiver","in_radio":false,"relearn":4,"was":"repeats-last","is":"falls-silent"}`,
		`{"lever":"Arm switch:","positions":["low (988 µs): disarms → arms"`,
	} {
		assert.Contains(t, line, want)
	}
}
