package examine

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/flight"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/practice"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// bySwitch is the default craft and a radio that nothing is wrong with, changed.
func bySwitch(change ...func(*prove.Layout)) *prove.Layout {
	p := &prove.Layout{Config: sim.Default()}
	for _, c := range change {
		c(p)
	}
	l := &p.Config.Layout
	wants := []handset.Want{{Channel: l.Throttle, Job: "throttle"}, {Channel: l.Roll, Job: "roll"}, {Channel: l.Pitch, Job: "pitch"}, {Channel: l.Yaw, Job: "yaw"}}
	for _, w := range []handset.Want{{Channel: l.Arm, Job: "arm"}, {Channel: l.Mode, Job: "mode"}, {Channel: l.Second, Job: "second"}} {
		if w.Channel != layout.NoChannel {
			w.Kind = handset.Switch
			wants = append(wants, w)
		}
	}
	p.Radio = handset.Ideal(wants)
	return p
}

func sticks(p *prove.Layout) {
	p.Config.Layout.Arm, p.Config.Arming.By = layout.NoChannel, arming.BySticks
	p.Config.Link.Needed = p.Config.Layout.Needed()
}

func second(p *prove.Layout) {
	p.Config.Layout.Second, p.Config.Layout.SecondSpan = 6, layout.Span{Low: pulse.Micros(1600), High: pulse.Micros(2100)}
}

func idles(p *prove.Layout) { p.Config.Flight.AtLowThrottle = flight.Idle }

// layouts are those that the tests examine.
func layouts() map[string]*prove.Layout {
	return map[string]*prove.Layout{"switch": bySwitch(), "second": bySwitch(second), "idle": bySwitch(idles), "sticks": bySwitch(sticks), "sinks": bySwitch(func(p *prove.Layout) { p.Config.Arming.SinkSlots = 200 })}
}

func TestSample(t *testing.T) {
	for name, l := range layouts() {
		at := time.Now()
		e, err := New(l, name)
		require.NoError(t, err)
		fmt.Println(name, "new", time.Since(at))
		var asked []Asked
		at = time.Now()
		for range 30 {
			q, ok := e.Next(7, asked)
			if !ok {
				fmt.Println("none")
				break
			}
			asked = append(asked, Asked{ID: q.ID, Ask: q.Ask, About: q.About})
			fmt.Printf("%s %s alike %v\n", q.Ask.Code(), q.About.Code(), q.Alike())
			for i := range q.Stories {
				s := &q.Stories[i]
				for n, st := range s.Way.Steps {
					if st.Kind == prove.Start || st.Kind == prove.Wait && st.Ms <= pace {
						continue
					}
					m := " "
					if n >= s.Differs[0] && n < s.Differs[1] {
						m = "*"
					}
					if n == s.Last {
						m = ">"
					}
					what := fmt.Sprint(st.Kind)
					if st.Kind < prove.KindCount {
						what = [...]string{"start", "move", "letgo", "radio off", "radio on", "power on", "power off", "cable in", "cable out", "nudge", "wait", "tremble"}[st.Kind]
					}
					c := ""
					if st.Control >= 0 {
						c = fmt.Sprint(l.Radio.Controls[st.Control].Job, " ", st.To.Micros())
					}
					fmt.Printf("  %s %s %s %d;", m, what, c, st.Ms)
				}
				fmt.Println("  ==", s.Ends)
			}
		}
		fmt.Println(name, "30 questions", time.Since(at))
	}
}

var _ = assert.Equal
var _ = practice.New
