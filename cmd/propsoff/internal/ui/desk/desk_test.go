package desk_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/desk"
	"propsoff/cmd/propsoff/internal/ui/uitest"
	"propsoff/sim/fault"
	"propsoff/sim/handset"
	"propsoff/sim/pulse"
)

// planted is the instructor's desk with two things planted.
func planted(t testing.TB) *uitest.Stage {
	s := uitest.Ready(t)
	d := desk.Of(s.V)
	s.V.DeskUsed = true
	*d = desk.View{Selected: int(fault.ShortTravel) - 1, Number: 1}
	for i := pulse.Deed(1); i < fault.Count; i++ {
		d.Faults = append(d.Faults, desk.Fault{Name: tell.FaultName(i), On: i == fault.Dropouts || i == fault.ShortTravel, Fits: i != fault.WrongPropeller})
	}
	v, ok := fault.Plant(fault.ShortTravel, 1, 1012)
	require.True(t, ok)
	_, number := pulse.InstructorOf(v)
	d.Does, d.Seen = tell.FaultDoes(fault.ShortTravel, number, &s.Cfg.Layout), tell.FaultSeen(fault.ShortTravel, 1, 1012, s.Cfg)
	d.Numbers = []desk.Number{{Name: tell.FaultQuantity(fault.Channel), Value: tell.FaultValue(fault.Channel, 1, &s.Cfg.Layout)}, {Name: tell.FaultQuantity(fault.EndsAt), Value: tell.FaultValue(fault.EndsAt, 1012, &s.Cfg.Layout)}}
	d.Radio = tell.DeskRadio("", words.Text{}, words.Text{}, false)
	return s
}

var deskScenes = []uitest.Scene{
	{Name: "planted", Make: planted, Says: []string{"Instructor's desk", "link drops out: planted", "lift it", "lift all", "what a pupil notices", "1012 µs"}},
	{Name: "hidden keys", Make: func(t testing.TB) *uitest.Stage {
		s := planted(t)
		desk.Of(s.V).Hidden = true
		for i := range 6 {
			desk.Of(s.V).Faults[i].Key = string(rune('4' + i))
		}
		desk.Of(s.V).Marks = []words.Text{tell.DeskMark(2, 83_400), tell.DeskMark(1, 61_200)}
		return s
	}, Says: []string{"Hidden keys are on", "Mark 2 at"}},
	{Name: "second radio", Make: func(t testing.TB) *uitest.Stage {
		s := planted(t)
		s.V.Radios = []string{uitest.LongName, "Fen Trainer 2"}
		s.V.Driver, s.V.DriverName = ui.Radio, uitest.LongName
		desk.Of(s.V).Radio, desk.Of(s.V).Hands = tell.DeskRadio(uitest.LongName, tell.ControlName(&handset.Control{Kind: handset.Switch, Job: "channel 9", Called: "take over"}), words.AsIs("T"), true), tell.DeskHands(true)
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
		desk.Of(s.V).Selected = int(fault.WrongPropeller) - 1
		desk.Of(s.V).Does, desk.Of(s.V).Numbers = tell.DeskRefused(tell.FaultName(fault.WrongPropeller)), nil
		s.V.Notices = []words.Text{uitest.BluntedNotice, words.T("notice.no-radio")}
		return s
	}, Says: []string{"This craft has nothing for"}},
}

func TestDeskInEveryScene(t *testing.T) { uitest.InEveryScene(t, "desk", deskScenes, desk.Draw) }
