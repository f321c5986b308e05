package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim/prove"
)

// layoutIn is the layout of a case, as prove reads it.
func layoutIn(t *testing.T, c layoutCase) prove.Layout {
	craft, err := bareWorld().LoadCraft(layoutFile(c.craft, "craft"), "")
	require.NoError(t, err)
	path := ""
	if c.radio != "" {
		path = layoutFile(c.radio, "radio")
	}
	file, err := bareWorld().LoadRadio(path, "", craft)
	require.NoError(t, err)
	return facts.LayoutOf(craft.File, file, nil)
}

// eachWay gives every way to every broken rule of every crafted layout, with what lies around it.
func eachWay(t *testing.T, do func(t *testing.T, l *prove.Layout, r *prove.Result, a *prove.Around)) {
	for _, c := range brokenLayouts {
		t.Run(strings.TrimSpace(c.craft+" "+c.radio), func(t *testing.T) {
			l := layoutIn(t, c)
			report, err := facts.Prove(l, nil)
			require.NoError(t, err)
			for i := range report.Results {
				if r := &report.Results[i]; r.Way != nil {
					a, err := prove.NewAround(&l, r)
					require.NoError(t, err)
					do(t, &l, r, a)
				}
			}
		})
	}
}

// Every way is made again as it was found, step by step, and is judged to break its rule; so it is where a control is taken to the way's own place. Some
// turns avoid it, and in some nothing does.
func TestEveryWayIsMadeAgainAsItWasFound(t *testing.T) {
	ways, avoided, never := 0, 0, 0
	eachWay(t, func(t *testing.T, _ *prove.Layout, r *prove.Result, a *prove.Around) {
		ways++
		plain := a.Plain()
		assert.True(t, plain.Happens, r.Rule.Code())
		assert.Equal(t, r.Way.Claim, plain.Way.Claim, r.Rule.Code())
		assert.Equal(t, r.Way.Steps, plain.Way.Steps, r.Rule.Code())
		assert.Equal(t, r.Way.Final, plain.Way.Final, r.Rule.Code())
		for _, turn := range a.Turns() {
			tried := a.Try(turn)
			require.GreaterOrEqual(t, len(tried.Places), 2, "%s: step %d", r.Rule.Code(), turn.Step)
			own := &tried.Came[tried.Own]
			assert.True(t, own.Happens, "%s: step %d", r.Rule.Code(), turn.Step)
			assert.Equal(t, r.Way.Claim, own.Way.Claim, "%s: step %d", r.Rule.Code(), turn.Step)
			if tried.Avoided {
				avoided++
			} else {
				never++
			}
		}
	})
	assert.Greater(t, ways, 60)
	assert.Greater(t, avoided, 100)
	assert.Greater(t, never, 60)
}

// elsewhereLine is a line of JSON of prove --elsewhere, as a reader of it sees it.
type elsewhereLine struct {
	Code, Rule, Cause, Number string
	Channel                   int
	Avoided                   bool
	Places                    []struct {
		Own, Happens, Armed bool
		Motors              bool `json:"motors_turn"`
		Us                  json.Number
		Mode, Text          string
		Refused             []string
	}
}

// What comes of one control elsewhere is told as text in both languages, and as JSON; the proof stands before it as without, and the status is the same.
func TestProveElsewhere(t *testing.T) {
	craft := layoutFile("held-switch", "craft")
	code, plain, _ := command(t, "prove", craft)
	assert.Equal(t, exit.CodeFailed, code)
	code, out, errs := command(t, "prove", craft, "--elsewhere")
	assert.Equal(t, exit.CodeFailed, code)
	assert.Empty(t, errs)
	assert.True(t, strings.HasPrefix(out, plain+"\n"))
	assert.Contains(t, out, "  Movement 2, the arm switch:\n"+
		"    Low (988 µs): here it does not happen. DISARMED, motors still, mode angle.\n"+
		"    Middle (1500 µs): here it does not happen. DISARMED, motors still, mode angle.\n"+
		"    High (2012 µs): as in the way\n"+
		"  Movement 3, throttle:\n"+
		"    Fully down (988 µs): it happens again. ARMED, motors still, mode angle.\n"+
		"    Fully up (2012 µs): as in the way\n"+
		"    Wherever throttle stands here, it happens.\n")
	_, german, _ := command(t, "prove", craft, "--elsewhere", "--language", "de")
	assert.Contains(t, german, "Niedrig (988 µs): hier geschieht es nicht. GESICHERT, die Motoren stehen, Modus Winkel.")

	_, out, _ = command(t, "prove", craft, "--elsewhere", "--json")
	rules, lines := map[string]int{}, 0
	for _, text := range strings.Split(strings.TrimSpace(out), "\n") {
		var l elsewhereLine
		require.NoError(t, json.Unmarshal([]byte(text), &l), text)
		if l.Code != "elsewhere" {
			assert.Zero(t, lines, "the proof comes first")
			continue
		}
		lines++
		rules[l.Rule]++
		own, spared := 0, false
		for _, p := range l.Places {
			if p.Own {
				own++
				assert.True(t, p.Happens)
			}
			spared = spared || !p.Happens
		}
		assert.Equal(t, 1, own, text)
		assert.Equal(t, spared, l.Avoided, text)
		if l.Rule == "loss-stops-motors" && l.Number == "" && l.Channel == 1 {
			assert.Equal(t, []string{"throttle-up", "off-first"}, l.Places[1].Refused)
			assert.Equal(t, "angle", l.Places[1].Mode)
		}
	}
	assert.Equal(t, map[string]int{"loss-stops-motors": 5, "link-back-never-arms": 4, "silence-stops-soon": 5}, rules)

	for _, args := range [][]string{{craft, "--elsewhere", "--mend"}, {craft, layoutFile("switch", "craft"), "--elsewhere"}} {
		code, _, errs := command(t, append([]string{"prove"}, args...)...)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, "--elsewhere")
	}
	code, out, _ = command(t, "prove", layoutFile("switch", "craft"), "--elsewhere", "--json")
	assert.Equal(t, exit.CodeDone, code)
	assert.NotContains(t, out, `"elsewhere"`, "nothing is broken")
}
