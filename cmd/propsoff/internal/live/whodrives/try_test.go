package whodrives

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// ofMoorland is the file that somebody else learned of a moorland; its pitch runs backwards.
func ofMoorland(r *inputtest.Radio) radio.File {
	scale := func() *radio.Scale { s := radio.Own(input.Axis{Max: 2047}); return &s }
	mid, full := radio.Reach{Low: 0, Rest: 1023, High: 2047}, radio.Reach{Low: 0, Rest: 0, High: 2047}
	back := scale().Turned()
	return radio.File{Device: radio.DeviceOf(r.Info()), StickMode: 3, Controls: []radio.Control{
		{Job: "roll", Form: radio.Axis, Axis: 0, Scale: scale(), Reach: &mid},
		{Job: "pitch", Form: radio.Axis, Axis: 1, Scale: &back, Reach: &mid},
		{Job: "throttle", Form: radio.Axis, Axis: 2, Scale: scale(), Reach: &full, Stays: true},
		{Job: "yaw", Form: radio.Axis, Axis: 3, Scale: scale(), Reach: &mid},
		{Job: "arm", Form: radio.Axis, Axis: 4, Scale: scale(), Reach: &full, Positions: []radio.Position{{At: 0}, {At: 4094}}},
	}}
}

// given keeps a file as one that came from elsewhere.
func (d *desk) given(f radio.File) string {
	path, _, err := d.store.Take(f, true)
	require.NoError(d.t, err)
	return path
}

// shown moves every control of a moorland as a try asks for it, beginning at at.
func shown(r *inputtest.Radio, at int64) {
	h := &hand{r, at + 1_000_000}
	for axis, corner := range []int32{2047, 0, 2047, 2047} {
		r.Move(h.at, 100_000, axis, corner)
	}
	h.at += 1_500_000
	for axis, rest := range []int32{1023, 1023, 0, 1023} {
		r.Move(h.at, 100_000, axis, rest)
	}
	h.at += 1_500_000
	for _, s := range [][3]int32{{1, 0, 1023}, {3, 2047, 1023}, {0, 2047, 1023}, {2, 2047, 0}, {4, 2047, 2047}} {
		h.to(int(s[0]), s[1])
		h.to(int(s[0]), s[2])
		h.at += 1_500_000
	}
	r.Until(at + 120_000_000)
}

func (d *desk) stored(r *inputtest.Radio) radio.File {
	f, err := d.store.Find(r.Info())
	require.NoError(d.t, err)
	require.Equal(d.t, radio.Exact, f.Match)
	return f.File
}

func TestAFileThatWasGivenIsTriedBeforeItDrives(t *testing.T) {
	d := newDesk(t, nil)
	r := moorland("A1")
	d.given(ofMoorland(r))
	shown(r, d.clock.now)
	d.bus.plug("A1", r)
	d.pass(50)
	v := d.View()
	require.Equal(t, Questions, v.Who)
	require.True(t, v.Learn.Trying)
	assert.False(t, d.snap().In.HasSent)
	d.pass(30_000)
	v = d.View()
	require.Equal(t, Radio, v.Who, "%s: %+v", v.Learn.Job, v.Learn.Notice)
	assert.False(t, d.has(NotTried))
	assert.True(t, d.has(Kept))
	require.NotNil(t, v.Result)
	assert.True(t, v.Result.Learn.Trying)
	assert.Equal(t, 3, v.StickMode)
	assert.Equal(t, ofMoorland(r), d.stored(r), "tried, and nothing else of it is changed")

	d.AskAgain()
	d.pass(50)
	assert.True(t, d.View().Learn.Trying, "it can be tried once more")
	d.Enough()
	d.pass(50)
	assert.Equal(t, ofMoorland(r), d.stored(r), "and stays tried")

	again := newDesk(t, func(o *Options) { o.Store = d.store })
	again.bus.plug("A1", moorland("A1"))
	again.pass(50)
	assert.Equal(t, Radio, again.View().Who, "the next start asks nothing")
}

// One that is left untried is used all the same, until the program ends, and tried at the next start.
func TestAFileMayBeUsedUntried(t *testing.T) {
	for name, leave := range map[string]func(d *desk){"said so": func(d *desk) { d.Enough() }, "the sheet is left": func(d *desk) { d.LeaveQuestions() }} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t, nil)
			r := moorland("A1")
			d.given(ofMoorland(r))
			r.Move(d.clock.now+100_000, 10_000, 0, 1100)
			r.Until(d.clock.now + 120_000_000)
			d.bus.plug("A1", r)
			d.pass(1000)
			require.True(t, d.View().Learn.Trying)
			leave(d)
			d.pass(50)
			require.Equal(t, Radio, d.View().Who)
			assert.True(t, d.has(NotTried))
			assert.Nil(t, d.View().Result)
			assert.True(t, d.stored(r).Given)
			d.UseKeys()
			d.Choose(0)
			d.pass(50)
			require.Equal(t, Radio, d.View().Who, "it is not asked for again and again")
			d.AskAgain()
			d.pass(50)
			require.True(t, d.View().Learn.Trying, "but it can be tried yet")
			assert.False(t, d.has(NotTried))
			d.LearnAnew()
			d.pass(50)
			require.Equal(t, Questions, d.View().Who)
			require.False(t, d.View().Learn.Trying)
			require.Equal(t, learn.Pitch, d.View().Learn.Question)
			d.LeaveQuestions()
			d.pass(50)
			require.Equal(t, Radio, d.View().Who)
			assert.True(t, d.stored(r).Given)
		})
	}
}

func TestPulledOutInTheMiddleOfATry(t *testing.T) {
	d := newDesk(t, nil)
	r := moorland("A1")
	d.given(ofMoorland(r))
	shown(r, d.clock.now)
	r.Vanish(d.clock.now + 8_500_000)
	d.bus.plug("A1", r)
	d.pass(8600)
	asked := d.View().Learn
	require.Equal(t, learn.Once, asked.Question)
	assert.False(t, d.View().Plugged)
	d.LearnAnew() // while it is out nothing can be learned
	d.bus.pull("A1")
	d.pass(500)
	back := moorland("A1")
	back.Move(d.clock.now+100_000, 10_000, 0, 1100)
	back.Until(d.clock.now + 60_000_000)
	d.bus.plug("A1", back)
	d.pass(600)
	v := d.View()
	assert.True(t, v.Plugged)
	assert.True(t, v.Learn.Trying)
	assert.Equal(t, asked.Job, v.Learn.Job)
	assert.True(t, v.Learn.Plan[0].Answered)
}

// A file that comes while its radio is learned is looked for again: the very radio's is tried, of one of its kind it is asked.
func TestAFileThatComesWhileItsRadioIsLearned(t *testing.T) {
	d := newDesk(t, nil)
	r := moorland("A1")
	d.bus.plug("A1", r)
	d.pass(50)
	require.Equal(t, Questions, d.View().Who)
	require.False(t, d.View().Learn.Trying)
	d.LookAgain()
	d.pass(50)
	require.False(t, d.View().Learn.Trying, "nothing came")
	d.given(ofMoorland(moorland("B2")))
	d.LookAgain()
	d.pass(50)
	require.Equal(t, Which, d.View().Who)
	d.LearnAnew()
	d.LookAgain()
	d.pass(50)
	require.Equal(t, Questions, d.View().Who, "nothing new came since")
	d.given(ofMoorland(r))
	d.LookAgain()
	d.pass(50)
	require.Equal(t, Questions, d.View().Who)
	require.True(t, d.View().Learn.Trying)
	d.given(ofMoorland(moorland("C3")))
	d.LookAgain()
	d.pass(50)
	require.True(t, d.View().Learn.Trying, "a try is not begun again")
}

// A file of a radio of the same kind that a person chose is tried on this one, and kept as its own at once.
func TestAFileOfOnesKindIsTriedToo(t *testing.T) {
	d := newDesk(t, nil)
	d.given(ofMoorland(moorland("B2")))
	r := moorland("A1")
	shown(r, d.clock.now)
	d.bus.plug("A1", r)
	d.pass(50)
	require.Equal(t, Which, d.View().Who)
	d.Apply(0)
	d.pass(50)
	require.True(t, d.View().Learn.Trying)
	assert.True(t, d.has(Adopted))
	assert.True(t, d.stored(r).Given)
	d.pass(30_000)
	require.Equal(t, Radio, d.View().Who)
	assert.Equal(t, ofMoorland(r), d.stored(r))
	assert.True(t, d.stored(moorland("B2")).Given, "that of the other radio was not tried on it")
}

// A file named by a person drives at once; that it was not tried is said.
func TestANamedFileIsNotTried(t *testing.T) {
	f := ofMoorland(moorland("A1"))
	f.Given = true
	d := newDesk(t, func(o *Options) { o.File = &f })
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	require.Equal(t, Radio, d.View().Who)
	assert.True(t, d.has(NotTried))
}
