package prove_test

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	provesheet "propsoff.example/cmd/propsoff/internal/ui/prove"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// compared is a view of what can be compared with: one that is alike, one that is not, one that noise leaves open, and some with long names.
func compared(t testing.TB, at int) *uitest.Stage {
	s := uitest.Ready(t)
	c := provesheet.CompareOf(s.V)
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	l := [2]prove.Layout{{Config: f.Config(), Radio: radioreach.Ideal(f)}, {Config: f.Config(), Radio: radioreach.Ideal(f)}}
	l[1].Radio.Controls = slices.Clone(l[1].Radio.Controls)
	l[1].Radio.Controls[0].Stays, l[1].Radio.Controls[0].Rest = false, pulse.Centre
	c.Of = tell.Searched("Teasel", &handset.Radio{Name: "Moorland Desk 7", Measured: true}, facts.ItsFile)
	for i, says := range []words.Text{
		words.T("compare.with-edited"), words.T("compare.with-radio-was", words.Args{"radio": words.Quote("Moorland Desk 7")}),
		words.T("compare.with-radio", words.Args{"radio": words.Quote(uitest.LongName), "file": words.Quote("moorland-desk-7.yaml")}),
		words.T("compare.with-craft", words.Args{"craft": words.Quote(uitest.LongName), "file": words.Quote("old.yaml"), "shipped": words.Flag(false)}),
	} {
		one := provesheet.Other{Short: says, Names: [2]words.Text{says, words.T("compare.as-now")}, Whole: words.T("compare.not-yet"), Found: words.Row(tell.EachOf(0, says), tell.EachOf(1, words.T("compare.as-now")))}
		switch i {
		case 0:
			provesheet.ComparedTo(&one, &l, &prove.Comparison{Situations: 86_948, Apart: prove.ApartFlight})
		case 1:
			r, err := prove.Compare(l[0], l[1], prove.Options{})
			require.NoError(t, err)
			require.Equal(t, prove.Different, r.Likeness())
			provesheet.ComparedTo(&one, &l, &r)
		case 2:
			provesheet.ComparedTo(&one, &l, &prove.Comparison{Situations: 86_948, ByNoise: true, Shaken: []prove.Shaken{{Layout: 1, Control: 4, Position: 1, At: pulse.Micros(1595), To: pulse.Micros(1600)}}})
		}
		c.Others = append(c.Others, one)
	}
	c.At, c.Status = at, c.Others[at].Whole
	s.Names = append(s.Names, "Transmitter, the Second")
	return s
}

var compareScenes = []uitest.Scene{
	{Name: "nothing there", Make: func(t testing.TB) *uitest.Stage {
		s := compared(t, 0)
		*provesheet.CompareOf(s.V) = provesheet.CompareView{Of: provesheet.CompareOf(s.V).Of, Status: words.T("compare.nothing-there")}
		return s
	}, Says: []string{"There is nothing to compare with yet"}},
	{Name: "alike", Make: func(t testing.TB) *uitest.Stage { return compared(t, 0) }, Says: []string{"They behave alike", "NOT ALIKE", "not compared"}},
	{Name: "not alike", Make: func(t testing.TB) *uitest.Stage { return compared(t, 1) }, Says: []string{"They do not behave alike", "the throttle was up"}},
	{Name: "noise", Make: func(t testing.TB) *uitest.Stage { return compared(t, 2) }, Says: []string{"but noise may"}},
	{Name: "under way", Make: func(t testing.TB) *uitest.Stage {
		s := compared(t, 3)
		c := provesheet.CompareOf(s.V)
		c.Comparing, c.Done, c.Status = true, 0.4, tell.Progress(prove.Progress{Situations: 120_337, Open: 8_120, Movements: 3, Slots: 212})
		return s
	}, Says: []string{"Searching: 120,337 situations so far", "Not compared yet"}},
	{Name: "way", Make: func(t testing.TB) *uitest.Stage {
		s := compared(t, 1)
		c := provesheet.CompareOf(s.V)
		c.InWay, c.Step = true, 3
		return s
	}, Says: []string{"A: It has stood still long enough and it ARMS", "B: ", "B: DISARMED"}},
	{Name: "way, the beginning", Make: func(t testing.TB) *uitest.Stage {
		s := compared(t, 1)
		provesheet.CompareOf(s.V).InWay = true
		return s
	}, Says: []string{"A: At the beginning", "B: At the beginning"}},
}

func TestCompareInEveryScene(t *testing.T) {
	for _, sc := range compareScenes {
		t.Run(sc.Name, func(t *testing.T) {
			s := sc.Make(t)
			for _, class := range []bool{false, true} {
				s.V.Class, s.V.Full = class, class
				if class { // the one looked at stands whole beside the list
					s.Cut = []string{"other", "side", "step", "step-did"}
				}
				s.Everywhere(t, "compare "+sc.Name, provesheet.DrawCompare, func(z uitest.Size, texts string) {
					for _, want := range sc.Says {
						if !class || z.H > 1000 {
							assert.Contains(t, texts, want, "%v class %v", z, class)
						}
					}
				})
			}
			s.V.Class = false
			uitest.PartsAlone(t, s.V, provesheet.DrawCompare, func() { provesheet.CompareOf(s.V).Step++ }, func() { s.V.Class = true })
		})
	}
}

// Whichever step is looked at, it is seen and can be pressed, and both radios stand there, at every size.
func TestEveryStepOfTwoCanBeLookedAt(t *testing.T) {
	s := compared(t, 1)
	c := provesheet.CompareOf(s.V)
	c.InWay = true
	for _, z := range uitest.Sizes {
		for _, class := range []bool{false, true} {
			s.V.Class, s.V.Full = class, class
			for c.Step = range c.Others[1].Steps {
				p := ink.NewPage(z.W, z.H, 0, nil)
				provesheet.DrawCompare(p, s.V)
				name := "compare-step-" + strconv.Itoa(c.Step+1)
				at := slices.IndexFunc(p.Hits(), func(h ink.Hit) bool { return h.Name == name })
				require.GreaterOrEqual(t, at, 0, "%v class %v: %s", z, class, name)
				radios := 0
				for _, it := range p.Items() {
					if it.Group == "radio" && it.Name == "face" {
						radios++
					}
				}
				assert.Equal(t, 2, radios, "%v class %v", z, class)
			}
		}
	}
}

// What can be done on the sheet is on it with its key.
func TestEveryActionOfCompareIsOnItsSheet(t *testing.T) {
	v := compared(t, 1).V
	uitest.KeysAreThere(t, ui.OnCompare, provesheet.DrawCompare, v, provesheet.CompareEnter, provesheet.CompareAnew)
	provesheet.CompareOf(v).InWay = true
	uitest.KeysAreThere(t, ui.OnCompare, provesheet.DrawCompare, v, provesheet.CompareBack)
}
