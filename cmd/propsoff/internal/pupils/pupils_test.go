package pupils

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/door"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
)

// entriesOf are the entries of a logbook without damage.
func entriesOf(t *testing.T, s logbook.Store, pupil string) (all []logbook.Entry) {
	t.Helper()
	c, err := s.Read(pupil, func(_ *logbook.Contents, e *logbook.Entry) error {
		all = append(all, *e)
		return nil
	})
	require.NoError(t, err)
	require.Empty(t, c.Notices)
	return all
}

// A run says on which radio and in which stick mode it was flown, where that is news.
func TestTheLogbookHasWhatThePupilHeld(t *testing.T) {
	c, err := (&world.World{Door: new(door.Keeper)}).LoadCraft("", "")
	require.NoError(t, err)
	at := time.Date(2031, 4, 5, 8, 0, 0, 0, time.UTC)
	p := &Pupils{store: logbook.Store{Dir: t.TempDir()}, craft: craftEntry(c.File, "examples"), now: func() time.Time { return at }}
	require.NoError(t, p.Open("Ann"))
	_, shipped, err := drillfile.Shipped("beginner", drillfile.Known{})
	require.NoError(t, err)
	d := shipped[0]
	run := drillrun.Result{Run: drill.Run{Drill: d.Config.Code, Day: logbook.Day(at), Tries: []drill.Try{{Verdict: drill.Right, Reaction: -1}}}, Radio: true}
	changed, err := c.SetLossAction(true)
	require.NoError(t, err)
	first, second := screen.Held{Radio: "Curlew Field 2", StickMode: 2, Craft: c.File, Gestures: "examples"}, screen.Held{Radio: "keyboard", StickMode: 1, Craft: c.File, Gestures: "examples"}
	third := second // the layout sheet has changed the craft meanwhile
	third.Craft, third.Gestures = changed, "my.yaml"
	for _, held := range []screen.Held{first, first, second, third} {
		require.NoError(t, p.Keep(&run, d, held))
	}
	require.NoError(t, p.Keep(&drillrun.Result{Run: drill.Run{Drill: d.Config.Code, BrokenOff: true}}, d, first), "left at once: no run")
	left := drillrun.Result{Run: run.Run, Radio: true, Keyboard: true, Other: drillrun.Instructor}
	left.BrokenOff = true
	require.NoError(t, p.Keep(&left, d, third))
	require.NoError(t, p.Close())
	all := entriesOf(t, p.store, "Ann")
	var kinds []logbook.Kind
	var held []string
	var last logbook.Entry
	for _, e := range all {
		kinds = append(kinds, e.Kind)
		switch e.Kind {
		case logbook.KindChanged:
			h := e.Practice.Craft
			held = append(held, fmt.Sprint(e.Practice.Radio, ", mode ", h.StickMode, ", ", h.Gestures, ", ", h.Digest))
			assert.Equal(t, c.Name, h.Name)
		case logbook.KindDrill:
			last = e
		}
	}
	const began, changes, ran, ended = logbook.KindBegan, logbook.KindChanged, logbook.KindDrill, logbook.KindEnded
	assert.Equal(t, []logbook.Kind{began, changes, ran, ran, changes, ran, changes, ran, ran, ended}, kinds)
	was, now := craftEntry(c.File, "").Digest, craftEntry(changed, "").Digest
	require.NotEqual(t, was, now)
	assert.Equal(t, []string{"Curlew Field 2, mode 2, examples, " + was, "keyboard, mode 1, examples, " + was, "keyboard, mode 1, my.yaml, " + now}, held)
	assert.Equal(t, []string{"radio", "keyboard"}, last.Drill.Hands)
	assert.Equal(t, "instructor", last.Drill.CameIn)
	assert.True(t, last.Drill.BrokenOff)
	assert.Equal(t, []string{"radio"}, all[2].Drill.Hands)
	assert.Empty(t, all[2].Drill.CameIn)
}

// A practice that is left at once leaves no line; one in which something was noted does, and so does one that has lasted.
func TestAPracticeThatIsLeftAtOnceIsNone(t *testing.T) {
	c, err := (&world.World{Door: new(door.Keeper)}).LoadCraft("", "")
	require.NoError(t, err)
	at := time.Date(2031, 4, 5, 8, 0, 0, 0, time.UTC)
	p := &Pupils{store: logbook.Store{Dir: t.TempDir()}, craft: craftEntry(c.File, ""), now: func() time.Time { return at }}
	kinds := func() (out []logbook.Kind) {
		for _, e := range entriesOf(t, p.store, "Ann") {
			out = append(out, e.Kind)
		}
		return out
	}
	require.NoError(t, p.Open("Ann"))
	at = at.Add(59 * time.Second)
	require.NoError(t, p.Close())
	assert.Empty(t, kinds())
	require.NoError(t, p.Open("Ann"))
	p.Refused(1)
	require.NoError(t, p.Close())
	assert.Equal(t, []logbook.Kind{logbook.KindBegan, logbook.KindRefusals, logbook.KindEnded}, kinds())
	require.NoError(t, p.Open("Ann"))
	began := at
	at = at.Add(time.Minute)
	require.NoError(t, p.Open("Ben"), "another takes his place")
	assert.Equal(t, []logbook.Kind{logbook.KindBegan, logbook.KindRefusals, logbook.KindEnded, logbook.KindBegan, logbook.KindEnded}, kinds())
	all := entriesOf(t, p.store, "Ann")
	assert.Equal(t, began, all[3].At)
	assert.Equal(t, time.Minute, all[4].Lasted)
}

// What a pupil did before is there again, in order of time, but no drill that is not in the course.
func TestThePupilsRunsComeBack(t *testing.T) {
	s := logbook.Store{Dir: t.TempDir()}
	at := time.Date(2031, 4, 5, 8, 0, 0, 0, time.UTC)
	b, err := s.Open("Ann", at)
	require.NoError(t, err)
	for i, code := range []string{"find-yaw", "a-strangers", "find-throttle"} {
		require.NoError(t, b.Append(logbook.OfRun(at.Add(-time.Duration(i)*time.Hour), &drill.Run{Drill: code}, nil, "")))
	}
	p := &Pupils{store: s, course: []string{"find-throttle", "find-yaw"}, now: func() time.Time { return at }}
	require.NoError(t, p.Open("aNN"))
	require.Len(t, p.Runs(), 2)
	assert.Equal(t, "find-throttle", p.Runs()[0].Drill)
	assert.Equal(t, "Ann", p.Pupil())
	assert.ErrorContains(t, p.Open("\u3164"), "at least one letter")
	assert.Equal(t, "Ann", p.Pupil(), "who practises goes on")
}
