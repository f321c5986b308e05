package usb

import (
	"fmt"
	"io/fs"
	"testing"

	"github.com/stretchr/testify/assert"
)

// said makes short words of changes.
func said(changes []Change) (words []string) {
	names := map[ChangeKind]string{Arrived: "arrived", Altered: "altered", Departed: "departed", OtherArrived: "other", OtherDeparted: "other gone"}
	for _, c := range changes {
		words = append(words, fmt.Sprint(names[c.Kind], " ", c.Radio.Name, c.Notice.Name))
	}
	return words
}

func TestRosterOfRadios(t *testing.T) {
	a := Found{Name: "a", key: "1", Way: WayEvent}
	b := Found{Name: "b", key: "2", Way: WayClassic, Trouble: fs.ErrPermission}
	again := Found{Name: "a", key: "3", Way: WayEvent} // the same radio in the same node, plugged in again
	better := b
	better.Way, better.Trouble = WayEvent, nil
	shut := a
	shut.Way, shut.Trouble = "", fs.ErrPermission
	var r roster
	for i, x := range []struct {
		now   int64
		found []Found
		want  []string
		soon  bool
	}{
		{0, []Found{a, b}, []string{"arrived a", "arrived b"}, false}, // no grace at the beginning
		{1, []Found{a, b}, nil, false},
		{2, []Found{a, better}, []string{"altered b"}, false},
		{3, []Found{shut, better}, nil, true}, // it may be on its way out
		{3 + graceTime, []Found{shut, better}, []string{"altered a"}, false},
		{3 + graceTime*2, []Found{shut, better}, nil, false},
		{4 + graceTime*2, []Found{again}, []string{"departed a", "departed b", "arrived a"}, false},
		{5 + graceTime*2, nil, []string{"departed a"}, false},
		{graceTime * 3, []Found{b}, nil, true},
		{graceTime*4 - 1, []Found{b}, nil, true},
		{graceTime * 4, []Found{b}, []string{"arrived b"}, false},
		{graceTime*4 + 1, nil, []string{"departed b"}, false},
		{graceTime * 5, []Found{b}, nil, true},
		{graceTime*5 + 1, []Found{better}, []string{"arrived b"}, false},
		{graceTime*5 + 2, []Found{better, {Name: "c", key: "4", Trouble: fs.ErrPermission}}, nil, true},
		{graceTime*5 + 3, []Found{better}, nil, false}, // never told of, so it does not depart either
	} {
		changes, soon := r.step(x.now, x.found, nil)
		assert.Equal(t, x.want, said(changes), "step %d", i)
		assert.Equal(t, x.soon, soon, "step %d", i)
	}
}

func TestRosterOfOtherDevices(t *testing.T) {
	stick := Notice{Name: "stick", key: "1", Storage: true}
	lamp := Notice{Name: "lamp", key: "2"}
	radio := Notice{Name: "radio", key: "3"}
	wrongMode := Notice{Name: "radio", key: "4", Storage: true}
	late := lamp
	late.SerialPort = true
	var r roster
	for i, x := range []struct {
		now  int64
		bus  []Notice
		want []string
	}{
		{0, []Notice{stick, lamp}, nil},
		{settleTime * 2, []Notice{stick, late}, nil}, // there from the beginning, whatever it offers later
		{settleTime * 3, []Notice{stick, lamp, radio}, nil},
		{settleTime * 5, []Notice{stick, lamp, radio}, nil}, // a joystick, so it offers nothing that concerns us
		{settleTime * 6, []Notice{stick, lamp, wrongMode}, nil},
		{settleTime*7 - 1, []Notice{stick, lamp, wrongMode}, nil},
		{settleTime * 7, []Notice{stick, lamp, wrongMode}, []string{"other radio"}},
		{settleTime * 8, []Notice{stick, lamp, wrongMode}, nil},
		{settleTime * 9, nil, []string{"other gone radio"}},
		{settleTime * 10, []Notice{stick}, nil},
		{settleTime * 11, nil, nil},
	} {
		changes, _ := r.step(x.now, nil, x.bus)
		assert.Equal(t, x.want, said(changes), "step %d", i)
	}
}
