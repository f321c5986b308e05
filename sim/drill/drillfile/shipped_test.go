package drillfile_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
)

// known are the shipped gestures and menus.
func known(t testing.TB) drillfile.Known {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	return drillfile.Known{Gestures: &f.Gestures, Menus: &f.Menus}
}

func TestTheCourse(t *testing.T) {
	course, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	assert.GreaterOrEqual(t, len(drills), 20)
	assert.ElementsMatch(t, assets.Drills(), course.Drills, "every drill of assets/drills stands once in assets/drills/courses/beginner.yaml, which says only where it comes")
	assert.Empty(t, course.Unfit)
	assert.Len(t, drills, len(course.Drills))
}

// Every shipped drill stands in one chapter, in the order of the course, and says where what it teaches comes from.
func TestTheCourseHasChapters(t *testing.T) {
	course, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	var all []string
	for _, c := range course.Chapters {
		assert.NotEmpty(t, c.Name)
		assert.LessOrEqual(t, len(c.Drills), 8, "a chapter is one page: %s", c.Name)
		all = append(all, c.Drills...)
	}
	assert.Equal(t, course.Drills, all)
	for _, d := range drills {
		assert.NotEmpty(t, d.Source, "%s: write `source: common practice, not a published rule`, or what was published", d.Config.Code)
	}
}

// A course file of the first version has no chapters; each version knows its own part alone.
func TestCourseFilesOfBothVersions(t *testing.T) {
	c, err := drillfile.ParseCourse("c.yaml", []byte("propsoff: course 1\ncode: c\nname: c\nabout: c\ndrills: [a, b]\n"))
	require.NoError(t, err)
	assert.Equal(t, []string{"a", "b"}, c.Drills)
	assert.Empty(t, c.Chapters)
	c, err = drillfile.ParseCourse("c.yaml", []byte("propsoff: course 2\ncode: c\nname: c\nabout: c\nchapters: [{name: One, drills: [a]}, {name: Two, drills: [b, d]}]\n"))
	require.NoError(t, err)
	assert.Equal(t, []string{"a", "b", "d"}, c.Drills)
	assert.Equal(t, []drillfile.Chapter{{Name: "One", Drills: []string{"a"}}, {Name: "Two", Drills: []string{"b", "d"}}}, c.Chapters)
	for text, want := range map[string]string{
		"propsoff: course 1\ncode: c\nname: c\nabout: c\nchapters: []\n":                                                  "`drills`",
		"propsoff: course 2\ncode: c\nname: c\nabout: c\ndrills: [a]\n":                                                   "`chapters`",
		"propsoff: course 2\ncode: c\nname: c\nabout: c\nchapters: [{name: A, drills: [a]}, {name: B, drills: [b, a]}]\n": "`a` stands in line 5 already",
	} {
		_, err := drillfile.ParseCourse("c.yaml", []byte(text))
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), want)
		}
	}
}

// Nobody arms again after a lost link, and every alarm asks for the same: the arm switch first, the throttle after it.
func TestOneReflexForEveryAlarm(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	alarms := 0
	for _, d := range drills {
		for i := range d.Config.Cases {
			c := &d.Config.Cases[i]
			if d.Cases[i].Sound != "alarm" {
				continue
			}
			alarms++
			require.NotEmpty(t, c.Wants, d.Config.Code)
			first := c.Wants[0]
			assert.True(t, first.Kind == drill.ArmSwitch && first.A == 0 || first.Kind == drill.DisarmedBy, "%s: the arm comes first", d.Config.Code)
			for _, w := range c.Wants {
				assert.False(t, w.Kind == drill.Armed && w.A == 1, "%s: nobody arms again", d.Config.Code)
			}
			if c.Craft.Arming == 1 {
				require.Greater(t, len(c.Wants), 1, d.Config.Code)
				assert.True(t, c.InOrder)
				assert.Equal(t, drill.Want{Kind: drill.Stick, B: 1 << drill.Down}, c.Wants[1], "%s: the throttle follows", d.Config.Code)
			}
		}
	}
	assert.GreaterOrEqual(t, alarms, 7)
}

// With gestures of one's own one still gets every drill that names none of the shipped ones.
func TestTheCourseWithGesturesOfOnesOwn(t *testing.T) {
	f, err := patternfile.Parse("own.yaml", []byte("propsoff: gestures 1\ngestures:\n  wave:\n    name: a wave\n    stand: {yaw: left, throttle: low}\n    for: 300 ms\n"), 20)
	require.NoError(t, err)
	course, drills, err := drillfile.Shipped("beginner", drillfile.Known{Gestures: &f.Gestures, Menus: &f.Menus})
	require.NoError(t, err)
	assert.ElementsMatch(t, []string{"gesture-craft-menu", "gesture-camera-set-up", "gesture-camera-display", "gesture-by-call", "menu-errand"}, course.Unfit)
	assert.Len(t, drills, len(course.Drills)-len(course.Unfit))
}

// No two drills of the course share cue and answer: what is called and what must follow.
func TestNoTwoDrillsAreAlike(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	seen := map[string]string{}
	for _, d := range drills {
		for i := range d.Cases {
			c := &d.Config.Cases[i]
			key := fmt.Sprint(d.Cases[i].Say, d.Cases[i].Choices, c.Wants, c.InOrder)
			if other, taken := seen[key]; taken {
				assert.Equal(t, d.Config.Code, other, "%s has the cue and the answer of %s: %s", d.Config.Code, other, d.Cases[i].Say)
			}
			seen[key] = d.Config.Code
		}
	}
	assert.Greater(t, len(seen), len(drills))
	// The whole job is there: each refusal of the table once at least, each shipped gesture, an errand in a menu.
	var refusals arming.Set
	made := map[int32]bool{}
	errand := false
	for _, d := range drills {
		for i := range d.Config.Cases {
			c := &d.Config.Cases[i]
			for _, b := range c.Before {
				for _, w := range b.Until {
					if w.Kind == drill.OnlyThose || w.Kind == drill.Refuses {
						refusals |= arming.Set(w.A)
					}
				}
			}
			for _, w := range c.Wants {
				made[w.A] = made[w.A] || w.Kind == drill.Gesture
				errand = errand || w.Kind == drill.MenuValue
				if w.Kind == drill.Clear || w.Kind == drill.Refuses {
					refusals |= arming.Set(w.A)
				}
				if w.Kind == drill.Link { // a link that is too fresh is cured by waiting until it is good
					refusals |= 1 << arming.LinkTooFresh
				}
			}
		}
	}
	for _, r := range arming.Shown() {
		assert.True(t, refusals.Has(r), "no drill is about the refusal %s: add a case to that assets/drills/refused-by-*.yaml whose group it is of", r.Code())
	}
	for n := range known(t).Gestures.Patterns {
		assert.True(t, made[int32(n)], "no drill is about gesture %d", n)
	}
	assert.True(t, errand)
}

// What is wrong in a drill file is said with its place and what to do.
func TestDrillErrors(t *testing.T) {
	const head = "propsoff: drill 1\ncode: x\nname: x\nabout: x\nruns: {tries: 5, in-a-row: 2}\ncue: {say: go}\n"
	for text, want := range map[string]string{
		"follow: {within: 1 s, all: [flown]}":                                                                                                  "d.yaml:7:29: `flown` cannot stand here",
		"follow: {within: 1 s, all: []}":                                                                                                       "d.yaml:7:28: the list is empty: name at least one condition",
		"follow: {within: 1 s, all: [{arm-switch: up}]}":                                                                                       "write off or on",
		"follow: {within: 1 s, all: [{armswitch: on}]}":                                                                                        "did you mean `arm-switch`?",
		"follow: {within: 1 s, all: [{gesture: craft-men}]}":                                                                                   "did you mean `craft-menu`?",
		"follow: {within: 1 s, all: [{answer: a}]}":                                                                                            "d.yaml:7:",
		"follow: {within: 1 s, all: [{is: flying}]}":                                                                                           "on this bench the craft never flies",
		"follow: {within: 1 s, all: [{menu-value: {item: warn of a low pack at, value: 3.61}}]}":                                               "3.61 is no value that this item comes to",
		"follow: {within: 1 s, all: [{menu-value: {item: colours, value: 1}}]}":                                                                "cannot stand here",
		"follow: {within: 90 m, all: [armed]}":                                                                                                 "d.yaml:7:18: ",
		"follow: {within: 1 s, all: [armed]}\nbench: {faults: [{reversd: roll}]}":                                                              "this names no fault: write one of radio-off",
		"follow: {within: 1 s, all: [armed]}\nwait: {from: 5 s, to: 2 s}":                                                                      "d.yaml:8:",
		"mark: {axis: throttle, mode: rate, run-in: 5 s, for: 60 s, size: 30 deg}":                                                             "write roll, pitch or yaw",
		"mark: {axis: roll, mode: rate, run-in: 5 s, for: 200 s, size: 30 deg}":                                                                "d.yaml:7:50: ",
		"mark: {axis: roll, mode: rate, run-in: 5 s, for: 60 s, size: 90 deg}":                                                                 "d.yaml:7:62: ",
		"mark: {axis: roll, mode: rate, run-in: 5 s, for: 60 s, size: 30 deg}\nfollow: {within: 1 s, all: [armed]}":                            "leave out `mark`",
		"follow: {within: 1 s, all: [armed]}\nsound: loud":                                                                                     "unknown field `sound`",
		"follow: {within: 1 s, all: [{flies: {height: {to: 2 m}}}]}":                                                                           "on this bench the craft never flies",
		"bench: {bench: air}\nfollow: {within: 1 s, all: [{flies: {high: {to: 2 m}}}]}":                                                        "d.yaml:8:38: unknown field `high`",
		"bench: {bench: air}\nfollow: {within: 1 s, all: [{flies: {height: {to: 2 km}}}]}":                                                     "d.yaml:8:51: `km` is no unit that can stand here",
		"bench: {bench: air}\nfollow: {within: 1 s, all: [{flies: {climb: {from: 1 m/s, to: 1 m/s}}}]}":                                        "d.yaml:8:45: the span is empty",
		"bench: {bench: air}\ncraft: {arming: switch}\nfollow: {within: 1 s, all: [armed]}\nbefore: [{say: x, flown-to: 3 m, until: [armed]}]": "the craft is flown there as the last step begins, so the step before it must ask for `{throttle: hovers}` and `{arm-switch: on}`",
		"bench: {bench: air}\ncraft: {arming: switch}\nfollow: {within: 1 s, all: [armed]}\nbefore: [{say: x, until: [{throttle: hovers}]}, {say: x, flown-to: 3 m, until: [armed]}]": "d.yaml:10:68: the craft is flown there",
		"bench: {bench: air}\nfollow: {within: 1 s, all: [armed]}\nbefore: [{say: x, flown-to: 3 m, until: [armed]}]":                                                                 "only with `craft: {arming: switch}` and `bench: {bench: air}`",
		"bench: {bench: air}\nfollow: {within: 1 s, all: [{flies: {nose: {points: north, within: 30 deg}}}]}":                                                                         "`north` cannot stand here",
	} {
		_, err := drillfile.Parse("d.yaml", []byte(head+text+"\n"), known(t))
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), want, text)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, name := range assets.Drills() {
		_, text, _ := assets.Drill(name)
		f.Add(text)
	}
	k := known(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		d, err := drillfile.Parse("d.yaml", text, k)
		if err != nil {
			return
		}
		if len(d.Cases) != len(d.Config.Cases) || len(d.Cases) == 0 {
			t.Fatalf("%d cases, %d words", len(d.Config.Cases), len(d.Cases))
		}
		s := drill.Begin(1) // whatever a file says, a run of it does not break
		var out drill.Events
		for tick := range int64(3000) {
			in := drill.Input{Tick: tick, Facts: drill.Facts{Powered: true}, Cued: s.CueAt < 0, CueAt: tick}
			s = drill.Step(&d.Config, s, &in, &out)
		}
	})
}

// Whoever disarms lets the craft fall: no call that asks for it is about somebody below it, and where one says that it flies at somebody, the pupil was told to fly along.
func TestNoAlarmCallsForACraftToFallOnSomebody(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	seen := 0
	for _, d := range drills {
		for i := range d.Cases {
			c, say := &d.Config.Cases[i], d.Cases[i].Say
			if d.Cases[i].Sound != "alarm" || !c.Flown() || len(c.Wants) == 0 || c.Wants[0].Kind != drill.DisarmedBy {
				continue
			}
			seen++
			assert.NotRegexp(t, `(?i)\b(under|below|beneath)\b`, say, d.Config.Code)
			assert.Contains(t, d.Caution, "come before this drill", "local rules come first")
			assert.Equal(t, c.Asks()>>drill.OfSpeed&1 == 1, strings.Contains(say, "flying at somebody"), "%s, case %d: %s", d.Config.Code, i, say)
		}
	}
	assert.Equal(t, 3, seen)
}
