package sheet

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/body"
	"propsoff/sim/happening"
)

// puzzled is the sheet before the first flight with nothing done and the propellers mixed up.
func puzzled(t testing.TB) *stage {
	s := ready(t)
	d := body.Default()
	s.v.First = FirstView{Turns: d.Turns, Hands: [4]int8{-1, 1, 0, 1}}
	return s
}

// allSeen does everything that is asked for.
func allSeen(t testing.TB) *stage {
	s := puzzled(t)
	f := &s.v.First
	for i := range f.Needs {
		f.Needs[i] = Need{Done: true, Tick: int64(i) * 13_400}
	}
	f.Needs[NeedCheck].Tick = -1
	for i, h := range map[int]happening.Happening{NeedArmed: {Code: happening.Armed}, NeedDisarmed: {Code: happening.Disarmed, A: int32(happening.BySwitch)}, NeedLinkLost: {Code: happening.LinkLost, A: 240}} {
		f.Needs[i].How = phrase.Happening(h, s.cfg)
	}
	f.Hands, f.Checked, f.Selected = f.Turns, true, 3
	return s
}

var firstScenes = []scene{
	{"fresh", puzzled, []string{"Before the first flight", "Five things are still to do.", "motor turns clockwise", "motor turns counter-clockwise", "propeller lifts counter-clockwise", "no propeller", "seen from above", "next motor", "I checked them"}},
	{"half", func(t testing.TB) *stage {
		s := allSeen(t)
		s.v.First.Needs[NeedLinkLost] = Need{}
		s.v.First.Checked, s.v.First.Selected = false, 1
		return s
	}, []string{"Two things are still to do.", "press L to switch the radio off"}},
	{"solved", allSeen, []string{"Everything is done. Press Enter", "Done.", "the arm channel was read as off", "to air bench"}},
	{"flipped", func(t testing.TB) *stage {
		s := allSeen(t)
		f := &s.v.First
		f.Came, f.Tried = Flipped, f.Turns
		f.Tried[2] = -f.Tried[2]
		f.Hands, f.Checked = f.Tried, false
		return s
	}, []string{"The last flight tipped over.", "The propeller rear left was the wrong one"}},
	{"flipped by two", func(t testing.TB) *stage {
		s := allSeen(t)
		f := &s.v.First
		f.Came, f.Tried = Flipped, f.Turns
		f.Tried[1], f.Tried[3], f.Tried[0] = -f.Tried[1], 0, -f.Tried[0]
		s.v.Notices = []string{bluntedNotice}
		return s
	}, []string{"The propellers front left and front right were the wrong ones", "There was none rear right."}},
	{"never lifted", func(t testing.TB) *stage {
		s := allSeen(t)
		f := &s.v.First
		f.Came = NoLift
		for i := range f.Tried {
			f.Tried[i] = -f.Turns[i]
		}
		return s
	}, []string{"The last flight never left the ground.", "All four propellers"}},
	{"on the air bench", func(t testing.TB) *stage {
		s := outside(t)
		s.v.First = allSeen(t).v.First
		return s
	}, []string{"The craft is on the air bench", "to desk bench"}},
}

func TestFirstInEveryScene(t *testing.T) { inEveryScene(t, "first", firstScenes, First) }

// inEveryScene checks the scenes of a sheet over all sizes, themes and stick modes, in the window and for a class; also are checks
// of the caller's on the texts of a page.
func inEveryScene(t *testing.T, sheet string, all []scene, page func(*ink.Page, *View), also ...func(s *stage, texts string)) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, sc := range all {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			for _, class := range []bool{false, true} {
				s.v.Class, s.v.Full = class, class
				for _, z := range sizes {
					for _, theme := range themesAt(z) {
						for mode := 1; mode <= 4; mode++ {
							s.v.StickMode, s.v.Dark = mode, theme == ink.Dark()
							p.Reset(z.w, z.h, 0, theme)
							page(p, s.v)
							what := fmt.Sprintf("%vx%v %s mode %d class %v", z.w, z.h, theme.Name, mode, class)
							report(t, what, p)
							if class {
								afar(t, what, z, p)
							}
							if mode == 2 {
								draw(t, fmt.Sprintf("%s %s %v", sheet, sc.name, class), p)
							}
							if t.Failed() && *pictures == "" {
								return
							}
						}
					}
					all := texts(p)
					for _, want := range sc.says {
						if !class {
							assert.Contains(t, all, want, "%v", z)
						}
					}
					for _, holds := range also {
						holds(s, all)
					}
				}
			}
		})
	}
}
