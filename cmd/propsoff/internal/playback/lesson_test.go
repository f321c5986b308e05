package playback

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// overturned is a script whose craft rolls on its back in rate and comes down.
const overturned = `propsoff: script 1
craft: built-in
start:
  bench: air
  propellers: {front-left: clockwise, front-right: counter-clockwise, rear-left: counter-clockwise, rear-right: clockwise, checked: yes}
  throttle: 988
  arm: off
  mode: angle
steps:
  - {at: 2.5s, arm: on}
  - {at: 3.0s, throttle: 1450}
  - {at: 4.5s, throttle: 1370}
%s
end: 12s
`

// run gives what a run of a script prints, as text or as JSON Lines.
func run(t *testing.T, steps string, asJSON bool) string {
	path := filepath.Join(t.TempDir(), "a.yaml")
	require.NoError(t, os.WriteFile(path, fmt.Appendf(nil, overturned, steps), 0o600))
	p, err := New(bare(), &world.Named{}, path)
	require.NoError(t, err)
	defer p.Close()
	var out bytes.Buffer
	r := NewReport(p, asJSON, func(line func([]byte) []byte) { out.Write(line(nil)) })
	_, err = Through(t.Context(), p, nil, nil, func(pr *practice.Practice) { r.Observe(pr) })
	require.NoError(t, err)
	return out.String()
}

// What a wreck in a script teaches is told in both forms, and true: the same script with the hands that are said, at the moment that is said, ends without
// a wreck; a slot later it ends with one.
func TestAWreckTeaches(t *testing.T) {
	const turns = "  - {at: 5s, mode: rate}\n  - {at: 5.2s, roll: 1900}\n  - {at: 5.6s, roll: 1500}"
	text := run(t, turns, false)
	assert.Regexp(t, `could-be-saved\s+Until \d\.\d\d s before it broke it could be saved: by mode angle`, text)
	assert.Contains(t, text, "Last moments: disarming ")
	assert.Contains(t, text, "a person must see it first, and needs longer.")

	type way struct {
		Hands, Throttle string
		Before          int64 `json:"before_ms"`
	}
	var told struct {
		way
		At    int64 `json:"t_ms"`
		Tried int64 `json:"tried_ms"`
		Each  []way
	}
	for line := range strings.Lines(run(t, turns, true)) {
		if strings.Contains(line, `"could-be-saved"`) {
			require.NoError(t, json.Unmarshal([]byte(line), &told))
		}
	}
	require.NotZero(t, told.At)
	assert.InDelta(t, min(5000, told.At-2500), told.Tried, 50, "its last 5 s, or from where it was armed")
	cfg := sim.Default()
	gas := map[string]string{"as-it-was": "", "hovering": fmt.Sprintf(", throttle: %d", hover.Throttle(&cfg).Whole()), "full": fmt.Sprintf(", throttle: %d", pulse.High.Whole()), "closed": ", throttle: 988"}
	hands := map[string]string{"disarm": "arm: off", "let-go": "roll: 1500", "level": "mode: angle, roll: 1500", "throttle": "pitch: 1500"}
	assert.Contains(t, told.Each, told.way)
	tried := 0
	for _, w := range told.Each {
		if w.Before >= 1600 { // before the last step of the script
			continue
		}
		tried++
		for late := range int64(2) {
			at := told.At - w.Before + late*20
			saved := run(t, fmt.Sprintf("%s\n  - {at: %dms, %s%s}", turns, at, hands[w.Hands], gas[w.Throttle]), false)
			assert.Equal(t, late == 1, strings.Contains(saved, "It broke"), "%+v, %d slots late", w, late)
		}
	}
	assert.NotZero(t, tried)
}

// Whoever disarms on a call is told that he did right, and nobody is where no hand disarmed: the link was lost. What never saved it is in the JSON as in the text.
func TestOnlyAHandThatDisarmedIsPraised(t *testing.T) {
	for steps, praised := range map[string]bool{"  - {at: 6s, arm: off}": true, "  - {at: 6s, link: off}": false} {
		text := run(t, steps, false)
		require.Contains(t, text, "It broke: it hit the ground", steps)
		assert.Equal(t, praised, strings.Contains(text, "Whoever disarms because somebody calls does right"), steps)
		assert.Equal(t, !praised, strings.Contains(text, "disarming never; letting go never; the throttle alone never"), steps)
		assert.Contains(t, run(t, steps, true), map[bool]string{true: `"never":[]`, false: `"never":["disarm","let-go","throttle"]`}[praised], steps)
	}
}
