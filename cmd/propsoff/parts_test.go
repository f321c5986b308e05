package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/input/take"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// takeOfParts writes a take in which the craft of every case of every shipped drill comes on the bench, one after another, on a pupil's craft
// with gestures; in each the arm control is moved. It gives how many parts it has.
func takeOfParts(t *testing.T, path, craftName string) int {
	c, err := bareWorld().LoadCraft(craftName, "")
	require.NoError(t, err)
	cfg := c.Config()
	g, err := bareWorld().LoadGestures("", "", false, cfg.SlotTicks)
	require.NoError(t, err)
	c.TakeUp(g)
	_, drills, err := drillfile.Shipped("beginner", drillfile.Known{Gestures: &g.Gestures, Menus: &g.Menus})
	require.NoError(t, err)
	starts := []live.Start{{Craft: c.Config(), Note: "window"}}
	for _, d := range drills {
		for i := range d.Config.Cases {
			starts = append(starts, live.Start{Craft: d.Config.Cases[i].Craft.On(c.Config()), Note: "drill " + d.Config.Code})
		}
	}
	rec := takes.NewRecorder(c.Papers())
	p := practice.New(c.Config())
	frame := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low, pulse.High}
	for n := range starts {
		s := &starts[n]
		s.Tick, s.Stands = p.Tick(), p.Stands([]pulse.Reading{})
		*p = *practice.Begin(s.Craft, s.Tick, s.Stands)
		require.NoError(t, rec.Part(s), s.Note)
		if n == 0 {
			require.NoError(t, rec.Record(path))
		}
		for i := range int64(2600) {
			var rs []pulse.Reading
			switch i {
			case 0:
				rs = []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Controls, Frame: frame}}
			case 2200:
				f := frame
				f[3], f[4] = pulse.High, pulse.High
				rs = []pulse.Reading{{Kind: pulse.Controls, Frame: f}}
			case 2599:
				rs = []pulse.Reading{{Kind: pulse.Power}}
			}
			p.Step(rs)
			playback.RecordTick(rec, p, rs)
		}
		require.NoError(t, rec.Digest(p.Tick()-1, p.Digest()))
	}
	require.NoError(t, rec.Close())
	return len(starts)
}

// partsOf reads the notes of a take's parts.
func partsOf(t *testing.T, path string) (notes []string) {
	r, err := take.Open(path)
	require.NoError(t, err)
	defer r.Close()
	notes = append(notes, r.Settings().Note)
	for {
		e, err := r.Next()
		if err == io.EOF {
			return notes
		}
		require.NoError(t, err)
		if e.Kind == take.Part {
			notes = append(notes, r.Settings().Note)
		}
	}
}

// A take of many parts replays part for part, and a copy of it is the same take; each part stands for itself. So every craft that a
// shipped drill puts on the bench can be recorded.
func TestATakeOfManyPartsReplays(t *testing.T) {
	for _, craft := range assets.Crafts() {
		t.Run(craft, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "parts.take")
			n := takeOfParts(t, path, craft)
			require.Greater(t, n, 40)
			assert.Len(t, partsOf(t, path), n)
			code, out, errs := command(t, "run", path, "--json")
			require.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
			assert.Contains(t, out, `"same":true`)
			again := filepath.Join(t.TempDir(), "again.take")
			code, _, errs = command(t, "run", path, "--record", again)
			require.Equal(t, exit.CodeDone, code, errs)
			assert.Equal(t, partsOf(t, path), partsOf(t, again))
			_, copied, _ := command(t, "run", again, "--json")
			assert.Equal(t, out, copied)

			// A part alone, as if the take had begun with it.
			whole, err := os.ReadFile(path)
			require.NoError(t, err)
			at := strings.LastIndex(string(whole), "\x01") // the last settings begin with their kind
			for ; at > 0; at = strings.LastIndex(string(whole[:at]), "\x01") {
				alone := filepath.Join(t.TempDir(), "alone.take")
				require.NoError(t, os.WriteFile(alone, append([]byte("propsoff take 2\n"), whole[at:]...), 0o600))
				if r, err := take.Open(alone); err == nil {
					_ = r.Close()
					code, out, errs := command(t, "run", alone, "--json")
					require.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
					assert.Contains(t, out, `"same":true`)
					break
				}
			}
			require.Positive(t, at)
		})
	}
}

// A take that was killed in a later part plays up to there; repair keeps whole parts, and another craft takes all of the hands.
func TestATakeOfPartsThatWasCut(t *testing.T) {
	path := filepath.Join(t.TempDir(), "parts.take")
	n := takeOfParts(t, path, "")
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	cut := filepath.Join(t.TempDir(), "cut.take")
	require.NoError(t, os.WriteFile(cut, whole[:len(whole)*2/3], 0o600))
	code, out, errs := command(t, "run", cut)
	require.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
	assert.Contains(t, out, "came out the same")
	assert.Contains(t, out, "breaks off")
	code, _, errs = command(t, "repair", cut)
	require.Equal(t, exit.CodeDone, code, errs)
	left := partsOf(t, take.RepairedPath(cut))
	assert.Greater(t, len(left), n/3)
	assert.Less(t, len(left), n)
	code, out, errs = command(t, "run", path, "--craft", "teasel-by-sticks")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "nothing was compared")
}

// A craft may go before it had a tick, or a take be cut off before it: such a part is played, and recorded again, too.
func TestPartsWithoutATick(t *testing.T) {
	c, err := bareWorld().LoadCraft("", "")
	require.NoError(t, err)
	for _, parts := range [][]int64{{0, 0, 2500}, {2500, 0, 0, 10}, {2500, 0}} {
		path := filepath.Join(t.TempDir(), "parts.take")
		rec := takes.NewRecorder(c.Papers())
		var p *practice.Practice
		for n, ticks := range parts {
			s := live.Start{Craft: c.Config()}
			if p != nil {
				s.Tick, s.Stands = p.Tick(), p.Stands([]pulse.Reading{})
			}
			p = practice.Begin(s.Craft, s.Tick, s.Stands)
			require.NoError(t, rec.Part(&s))
			if n == 0 {
				require.NoError(t, rec.Record(path))
			}
			for i := range ticks {
				var rs []pulse.Reading
				if i == 0 {
					rs = []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}
				}
				p.Step(rs)
				playback.RecordTick(rec, p, rs)
			}
		}
		require.NoError(t, rec.Close())
		again := filepath.Join(t.TempDir(), "again.take")
		code, out, errs := command(t, "run", path, "--json", "--record", again)
		require.Equal(t, exit.CodeDone, code, "%v: %s%s", parts, out, errs)
		assert.Contains(t, out, `"same":true`)
		code, copied, errs := command(t, "run", again, "--json")
		require.Equal(t, exit.CodeDone, code, "%v: %s%s", parts, copied, errs)
		assert.Contains(t, copied, `"same":true`)
		assert.Equal(t, partsOf(t, path), partsOf(t, again))
		code, _, errs = command(t, "run", again, "--live", "--json")
		require.Equal(t, exit.CodeDone, code, errs)
	}
}
