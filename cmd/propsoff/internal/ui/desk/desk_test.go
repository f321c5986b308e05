package desk_test

import (
	"testing"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/desk"
	"propsoff/cmd/propsoff/internal/ui/uitest"
	"propsoff/sim/fault"
	"propsoff/sim/handset"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
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

var deskScenes = []uitest.Scene{
	{Name: "planted", Make: planted, Says: []string{"Instructor's desk", "link drops out: planted", "lift it", "lift all", "what a pupil notices", "1012 µs"}},
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
