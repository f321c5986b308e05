package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/prove"
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
