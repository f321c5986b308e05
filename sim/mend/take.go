package mend

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// Take makes those changes of a mend in a craft file that a craft file can say; all comments stay. l is the layout that the mend was found
// for, of which f is the craft.
func Take(f *craftfile.File, l *prove.Layout, changes []Change) (*craftfile.File, error) {
	now, _ := Apply(l, nil)
	for i := range changes {
		ch := &changes[i]
		apply(&now, ch)
		if ch.Kind == Travel {
			continue
		}
		var err error
		if f, err = take(f, &now, ch); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// take makes one change in a craft file. l is the layout after it.
func take(f *craftfile.File, l *prove.Layout, ch *Change) (*craftfile.File, error) {
	lay := &l.Config.Layout
	switch ch.Kind {
	case ArmOn, ArmCarried:
		return f.SetArm(lay.Arm, lay.ArmSpan)
	case ArmBySwitch:
		f, err := f.SetArm(lay.Arm, lay.ArmSpan)
		if err == nil && l.Config.Link.OnLoss == link.SendsStored {
			f, err = f.SetStored(lay.Arm, l.Config.Link.Stored[lay.Arm])
		}
		return f, err
	case ArmBySticks:
		return f.SetArming(arming.BySticks, layout.NoChannel)
	case SecondOn, SecondCarried:
		return f.SetSecond(lay.Second, lay.SecondSpan)
	case NoSecond:
		return f.SetChannel("second", layout.NoChannel)
	case ModesAt, ModeCarried:
		return f.SetModes(lay.Mode, lay.Spans[:lay.SpanCount])
	case NoModes:
		return f.SetChannel("mode", layout.NoChannel)
	case AlwaysMode:
		return f.SetField(craftfile.AlwaysMode, ch.Is)
	case WhenLost:
		f, err := f.SetLossAction(ch.Is > 0)
		if err == nil && ch.Is > 0 {
			f, err = f.SetField(craftfile.SinkTime, ch.Is)
		}
		return f, err
	case Receiver:
		return f.SetReceiver(link.OnLoss(ch.Is))
	case Stored:
		return f.SetStored(ch.Channel, pulse.Width(ch.Is))
	}
	for _, n := range numbers() {
		if n.kind == ch.Kind {
			return f.SetField(n.field, ch.Is)
		}
	}
	return f, nil
}
