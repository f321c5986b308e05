package desk_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/desk"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// planted is the instructor's desk with two things planted.
func planted(t testing.TB) *uitest.Stage {
	s := uitest.Ready(t)
	d := desk.Of(s.V)
	s.V.DeskUsed = true
	*d = desk.View{Looked: fault.ShortTravel, Number: 1}
	for i := pulse.Deed(1); i < fault.Count; i++ {
		d.Chosen[i][0], d.Chosen[i][1], _ = fault.Usual(i, &s.Cfg.Layout)
	}
	d.Planted = 1<<fault.Dropouts | 1<<fault.ShortTravel
	d.Radio = words.T("desk.radio", words.Args{"radio": words.Quote(""), "takes": words.Text{}, "key": words.Text{}, "several": words.Flag(false), "switch": words.Flag(true)})
	return s
}

// windy is the desk with a wind planted that comes from so many degrees, at a craft that flies or stands at the desk.
func windy(t testing.TB, s *uitest.Stage, f pulse.Deed, from int32) *uitest.Stage {
	v, ok := fault.Plant(f, 40, from)
	require.True(t, ok)
	s.Tell(pulse.Instructor, v).Wait(500)
	s.V.DeskUsed = true
	d := desk.Of(s.V)
	*d = desk.View{Looked: f, Planted: 1 << f}
	d.Chosen[f] = [2]int32{40, from}
	return s
}

// The arrow of the wind points as it blows for a pilot who looks up the page, and the words tell where it comes from.
func TestTheWindThatBlowsNow(t *testing.T) {
	for _, c := range []struct {
		from        int32
		right, down float64
		says        string
	}{{0, 0, 1, "from ahead"}, {90, -1, 0, "from the right"}, {180, 0, -1, "from behind"}, {270, 1, 0, "from the left"}} {
		for speed, s := range map[string]*uitest.Stage{ // nearer to the ground it blows less (sim/wind)
			"4.0 m/s": windy(t, uitest.Ready(t), fault.Breeze, c.from), "3.6 m/s": windy(t, uitest.Airborne(t, 3), fault.Breeze, c.from),
		} {
			p := ink.NewPage(1280, 800, 0, ink.Light())
			desk.Draw(p, s.V)
			seen := ink.Describe(p)
			shaft, head := seen.Named("wind-now"), seen.Named("wind-now-head")
			require.Len(t, shaft, 1)
			require.Len(t, head, 1)
			mid := func(d ink.Described) (x, y float64) { return d.Box[0] + d.Box[2]/2, d.Box[1] + d.Box[3]/2 }
			sx, sy := mid(shaft[0])
			hx, hy := mid(head[0])
			sign := func(x float64) float64 {
				if math.Abs(x) < 2 {
					return 0
				}
				return math.Copysign(1, x)
			}
			assert.Equal(t, [2]float64{c.right, c.down}, [2]float64{sign(hx - sx), sign(hy - sy)}, "from %d", c.from)
			said, _ := seen.Text("wind-words")
			assert.Contains(t, said, c.says)
			assert.Contains(t, strings.ReplaceAll(said, "\u00a0", " "), speed)
		}
	}
	gusts := windy(t, uitest.Airborne(t, 3), fault.Gusts, 180)
	said := func() string {
		p := ink.NewPage(1280, 800, 0, ink.Light())
		desk.Draw(p, gusts.V)
		text, _ := ink.Describe(p).Text("wind-words")
		return text
	}
	before := said()
	gusts.Wait(2000)
	assert.NotEqual(t, before, said(), "what blows now, not what was planted")
	calm := ink.NewPage(1280, 800, 0, ink.Light())
	desk.Draw(calm, planted(t).V)
	assert.Empty(t, ink.Describe(calm).Named("wind-words"))
}

var deskScenes = []uitest.Scene{
	{Name: "planted", Make: planted, Says: []string{"Instructor's desk", "link drops out: planted", "lift it", "lift all", "what a pupil notices", "1012 µs"}},
	{Name: "a breeze", Make: func(t testing.TB) *uitest.Stage { return windy(t, uitest.Ready(t), fault.Breeze, 270) }, Says: []string{"On the air bench: wind", "from the left"}},
	{Name: "a breeze outside", Make: func(t testing.TB) *uitest.Stage { return windy(t, uitest.Airborne(t, 3), fault.Breeze, 45) }, Says: []string{"Now: wind", "from ahead on the right"}},
	{Name: "gusts outside", Make: func(t testing.TB) *uitest.Stage { return windy(t, uitest.Airborne(t, 3), fault.Gusts, 180) }, Says: []string{"Now: wind", "m/s"}},
	{Name: "hidden keys", Make: func(t testing.TB) *uitest.Stage {
		s := planted(t)
		desk.Of(s.V).Hidden = true
		desk.Of(s.V).Marks = []happening.Happening{{B: 1, Tick: 61_200}, {B: 2, Tick: 83_400}}
		return s
	}, Says: []string{"Hidden keys are on", "Bookmark 2 at"}},
	{Name: "second radio", Make: func(t testing.TB) *uitest.Stage {
		s := planted(t)
		s.V.Radios = []string{uitest.LongName, "Fen Trainer 2"}
		s.V.Driver, s.V.DriverName = ui.Radio, uitest.LongName
		desk.Of(s.V).Radio, desk.Of(s.V).Hands = words.T("desk.radio", words.Args{"radio": words.Quote(uitest.LongName), "takes": tell.ControlName(&handset.Control{Kind: handset.Switch, Job: "channel 9", Called: "take over"}), "key": words.AsIs("T"), "several": words.Flag(true), "switch": words.Flag(true)}), words.T("desk.hands", words.Args{"instructor": words.Flag(true)})
		return s
	}, Says: []string{"The instructor has the sticks.", "While its channel 9 switch (take over) stands high"}},
	{Name: "looking back", Make: func(t testing.TB) *uitest.Stage {
		s := planted(t)
		s.V.Flight.Pace = ui.Pace{Paused: true, Slow: 1}
		s.V.Flight.Replay = ui.Replay{On: true, At: 12_000, Length: 30_000}
		return s
	}, Says: nil},
	{Name: "nothing for this craft", Make: func(t testing.TB) *uitest.Stage {
		s := planted(t)
		desk.Of(s.V).Looked, desk.Of(s.V).Chosen[fault.Swapped] = fault.Swapped, [2]int32{1, 1}
		s.V.Notices = ui.Warnings(uitest.BluntedNotice, words.T("notice.no-radio"))
		return s
	}, Says: []string{"This craft has nothing for"}},
}

func TestDeskInEveryScene(t *testing.T) { uitest.InEveryScene(t, "desk", deskScenes, desk.Draw) }
