package playback

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// modelOne are takes of an older model of the bench.
const modelOne = "../../testdata/takes/model-1"

// bare is a world that has nothing but a way in for files.
func bare() *world.World { return &world.World{Door: new(door.Keeper)} }

// lookAt plays a take as the window does and gives what the window has to say of it at the beginning and at the end.
func lookAt(t *testing.T, path string) (first, last string) {
	p, err := New(bare(), &world.Named{}, path)
	require.NoError(t, err)
	defer p.Close()
	w := NewWatched(p)
	require.NotNil(t, w)
	first = words.English().Say(w.Say())
	_, err = Through(t.Context(), p, nil, nil, w.Listen)
	require.NoError(t, err)
	return first, words.English().Say(w.Say())
}

// A take of an older model is said to be one while it plays, and what the model does otherwise once it has come to that.
func TestAnOlderTakeIsWatched(t *testing.T) {
	first, last := lookAt(t, modelOne+"/sinks-outside.take")
	assert.Contains(t, first, "recorded with model 1")
	assert.Contains(t, last, "The model has changed: at 3.456 s")
	first, last = lookAt(t, modelOne+"/switch.take")
	assert.Contains(t, first, "recorded with model 1")
	assert.Equal(t, first, last, "it comes out the same")

	p, err := New(bare(), &world.Named{}, modelOne+"/demo.take")
	require.NoError(t, err)
	defer p.Close()
	assert.True(t, p.Craft.Gestures.Shipped, "those of that model's examples")
	demo, err := New(bare(), &world.Named{}, "demo")
	require.NoError(t, err)
	defer demo.Close()
	assert.Nil(t, NewWatched(demo), "a script is no take")
	assert.Nil(t, NewWatched(nil))
}

// A take of today's model has nothing to say, unless it plays otherwise: here because it names another craft than the one that was flown.
func TestATakeOfTodayIsWatched(t *testing.T) {
	c, err := bare().LoadCraft("built-in", "")
	require.NoError(t, err)
	made := func(still uint16) string {
		path := filepath.Join(t.TempDir(), "a.take")
		rec := takes.NewRecorder(c.Papers())
		cfg := c.Config()
		cfg.Arming.StillSlots = still
		p := practice.New(cfg)
		require.NoError(t, rec.Part(&live.Start{Craft: c.Config(), Stands: p.Stands([]pulse.Reading{})}))
		require.NoError(t, rec.Record(path))
		for i := range 3000 {
			var rs []pulse.Reading
			if i == 0 {
				rs = []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}
			}
			p.Step(rs)
			RecordTick(rec, p, rs)
		}
		require.NoError(t, rec.Digest(p.Tick()-1, p.Digest()))
		require.NoError(t, rec.Close())
		return path
	}
	cfg := c.Config()
	first, last := lookAt(t, made(cfg.Arming.StillSlots))
	assert.Empty(t, first)
	assert.Empty(t, last)
	first, last = lookAt(t, made(cfg.Arming.StillSlots+10))
	assert.Empty(t, first)
	assert.Contains(t, last, "This take does not replay to what was recorded: at 2.000 s the take says nothing, the replay says settled.")
}
