package provescript

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/script"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

func TestExpectsTheClaim(t *testing.T) {
	w := &prove.Way{Final: 2020, Claim: prove.Claim{Armed: true}}
	armed := script.Expect{At: 2_020_000, Kind: script.Armed}
	assert.Equal(t, []script.Expect{armed}, Expects(w))
	// That it arms in that very millisecond: it was not armed the millisecond before.
	w.Claim.Happens = uint8(happening.Armed)
	assert.Equal(t, []script.Expect{{At: 2_019_000, Kind: script.Disarmed}, armed}, Expects(w))
	w.Claim = prove.Claim{Happens: uint8(happening.Disarmed)}
	assert.Equal(t, []script.Expect{{At: 2_019_000, Kind: script.Armed}, {At: 2_020_000, Kind: script.Disarmed}}, Expects(w))
	w.Claim.Happens = uint8(happening.Mode)
	assert.Equal(t, script.Expect{At: 2_020_000, Kind: script.Happens, Codes: []string{"mode"}}, Expects(w)[1])
	w.Final, w.Claim.Happens = 0, uint8(happening.Armed)
	assert.Len(t, Expects(w), 1, "there is no millisecond before the first")
}

// What is written is read again, tells its rule and its steps, and names its craft.
func TestScriptTellsWhatItIs(t *testing.T) {
	name, text, ok := assets.Craft(assets.BuiltIn)
	require.True(t, ok)
	f, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	names := f.Names()
	names.Refusals, names.Happenings = codes.Refusals(), codes.Happenings()
	l := prove.Layout{Config: f.Config(), Radio: radioreach.Ideal(f)}
	var frame pulse.Frame
	for _, c := range l.Radio.Controls {
		frame[c.Channel] = c.Rest
	}
	r := prove.Result{Rule: prove.LossStopsMotors, Outcome: prove.Broken, Cause: prove.HeldSwitch, Control: -1, Position: -1, Way: &prove.Way{
		Steps:     []prove.Step{{Kind: prove.Start, At: -20, Control: -1}, {Kind: prove.PowerOn, Control: -1}},
		Movements: 1, Final: 500,
		Readings: []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power}, {Kind: pulse.Controls, Frame: frame}, {At: 20_000, Kind: pulse.Power, Value: 1}},
	}}
	got, err := Script(words.English(), &l, &r, "../held.yaml", "", names)
	require.NoError(t, err)
	for _, want := range []string{"# Written by propsoff prove: the way to a broken rule: a silent radio does not disarm.", "# Rule: When the radio falls silent", "# Found: BROKEN. The receiver repeats", "#   1    0.020 s  Connect the craft's pack."} {
		assert.Contains(t, string(got), want)
	}
	s, err := script.Parse("way.yaml", got, names)
	require.NoError(t, err)
	assert.Equal(t, "../held.yaml", s.Craft)
	assert.Len(t, s.Expectations(), 1)
	assert.Equal(t, "the way to a broken rule: a silent radio does not disarm", s.Name)

	try := r
	try.Rule, try.Cause = prove.CanArm, prove.ArmNeverOn
	got, err = Script(words.English(), &l, &try, "../held.yaml", "", names)
	require.NoError(t, err)
	assert.Contains(t, string(got), "# Written by propsoff prove: a try that does not get there: it cannot be armed.")
	s, err = script.Parse("way.yaml", got, names)
	require.NoError(t, err)
	assert.Equal(t, "a try that does not get there: it cannot be armed", s.Name)

	german := words.In("de")
	got, err = Script(german, &l, &r, "../held.yaml", "", names)
	require.NoError(t, err)
	for _, want := range []string{"# Written by propsoff prove: der Weg zu einer gebrochenen Regel: ein stummer Sender sichert nicht.", "# Regel: Verstummt der Sender", "# Ergebnis: GEBROCHEN. Der Empfänger", "#   1    0,020 s  Den Akku des Copters anstecken."} {
		assert.Contains(t, string(got), want)
	}
	for _, rule := range tell.Rules() { // a name has to be short enough for a script, whatever the rule
		for _, outcome := range []prove.Outcome{prove.Broken, prove.WithIt} {
			one := r
			one.Rule, one.Outcome, one.Cause = rule, outcome, prove.NoControl
			for _, book := range []*words.Book{words.English(), german} {
				got, err = Script(book, &l, &one, "", "", names)
				require.NoError(t, err)
				s, err = script.Parse("way.yaml", got, names)
				if assert.NoError(t, err, "%s", got) {
					assert.Equal(t, book.Say(tell.WayName(&one)), s.Name)
				}
			}
		}
	}
	r.Way = nil
	_, err = Script(words.English(), &l, &r, "", "", names)
	assert.Error(t, err)
}

// A script names a file beside it so that it is not taken for the shipped craft of that name.
func TestACraftIsNamedFromWhereTheScriptLies(t *testing.T) {
	dir := t.TempDir()
	for path, want := range map[string]string{filepath.Join(dir, "teasel"): "./teasel", filepath.Join(dir, "a", "mine.yaml"): "a/mine.yaml", "teasel": "teasel"} {
		named, err := craftFrom(dir, path)
		require.NoError(t, err)
		assert.Equal(t, want, named)
	}
}

// Scripts of rules that have no way any more go; what is not decided, not asked for, not known again or somebody else's stays.
func TestStaleScriptsAreTakenAway(t *testing.T) {
	dir := t.TempDir()
	write := func(r prove.Rule, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, r.Code()+".yaml"), []byte(text), 0o666))
	}
	mine := "# " + codes.WayMark + "the way to a broken rule.\n"
	var rep prove.Report
	for r := range prove.RuleCount {
		rep.Results = append(rep.Results, prove.Result{Rule: r, Outcome: prove.Holds})
		write(r, mine)
	}
	rep.Results[prove.LossStopsMotors] = prove.Result{Rule: prove.LossStopsMotors, Outcome: prove.Broken, Way: &prove.Way{}}
	rep.Results[prove.CanArm].Outcome = prove.Undecided
	rep.Results[prove.ModeStays].Outcome = prove.NotAsked
	rep.Results[prove.TakingArmsNothing].Outcome = prove.NotAsked
	write(prove.CanDisarm, "# my own\n"+mine)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "difference-a.yaml"), []byte(mine), 0o666))
	gone, err := ClearStale(dir, &rep)
	require.NoError(t, err)
	assert.Len(t, gone, int(prove.RuleCount)-4)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, f := range left {
		names = append(names, f.Name())
	}
	assert.ElementsMatch(t, []string{"loss-stops-motors.yaml", "can-arm.yaml", "can-disarm.yaml", "taking-arms-nothing.yaml", "difference-a.yaml"}, names)
}
