package drillfile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/sim/drill/drillfile"
)

// Every language says each thing that can be wrong with a drill or course file.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("drill-file")
	const head = "propsoff: drill 1\ncode: x\nname: x\nabout: x\nruns: {tries: 5, in-a-row: 2}\ncue: {say: go}\n"
	const follow = head + "follow: {within: 1 s, all: [armed]}\n"
	many := func(n int, one string) string { return "[" + strings.Repeat(one+", ", n-1) + one + "]" }
	for _, text := range []string{
		"x", "code: B\nname: " + strings.Repeat("x", 601) + "\nruns: x\ncases: [x]\n", "runs: {tries: 5, in-a-row: 9}\n",
		"runs: {tries: 5, in-a-row: 9, right: 5}\n", "runs: {tries: 5, right: 9, of: 8}\ncraft: x\nbench: x\ncue: x\nchoices: x\nwait: {from: 5s, to: 2.0005s}\nfollow: x\n", "runs: {tries: 5}\nhands: x\ncue: {motor: x}\n",
		head + "wait: x\nwith-cue: x\nbefore: [x]\nfollow: {within: 1s, all: [{menu-value: x}]}\n", head + "wait: {from: 5s, to: 2s}\nbench: {propellers: x, faults: [{x: 1}]}\n",
		head + "wait: {}\nwith-cue: [{after: 2s}, {after: 1s}]\n",
		head + "choices: {a: A}\n", head + "choices: {a: A, b: B}\nfollow: {within: 1s, all: [armed]}\nnever: [armed, {answer: a}]\n",
		follow + "never: " + many(9, "{is: armed}"), head + "follow: {within: 1s, all: " + many(17, "armed") + "}\n",
		follow + "bench: {faults: " + many(30, "radio-off") + "}\n", follow + "before: [{say: x, until: [], bench: {faults: " + many(30, "radio-off") + "}}]\n",
		follow + "with-cue: [{faults: " + many(30, "radio-off") + "}]\n",
		follow + "bench: {faults: [reversed, {noisy: x}, {swapped: roll, with: roll}, {reversed: second}, {dropouts: 1ms, every: 1ms}, {radio-off: x}]}\n",
		head + "follow: {within: 1s, all: [{is: armed, colour: red}, {mode: angle, link: lost, is: armed}, {x: 1}, {armswitch: on}, {happens: link-lost, for: 1s}]}\n",
		head + "craft: {arming: sticks, always: angle}\nfollow: {within: 1s, all: [{arm-switch: on}, {second-switch: on}, {mode-switch: rate}, {is: flying}, {refuses: []}, {answer: a}]}\n",
		head + "bench: {bench: air}\nfollow: {within: 1s, all: [{flies: x}, {flies: {}}, {flies: {height: x}}, {flies: {height: {}}}, {leaves: {climb: {from: 2 m/s, to: 1 m/s}, nose: x}}, {touches-down: {}}]}\n",
		head + "follow: {within: 1s, all: [{menu-value: {item: warn of a low pack at, value: 3.61}}]}\n",
		follow + "before: [{say: x, flown-to: 3 m, until: [armed]}]\n", follow + "craft: {arming: switch}\nbench: {bench: air}\nbefore: [{say: x, flown-to: 3 m, until: [armed]}]\n",
		head + "mark: x\n", follow + "choices: {a: A, b: B}\nmark: {axis: roll, mode: rate, run-in: 5 s, for: 60500 ms, size: 30 deg}\n",
	} {
		_, err := drillfile.Parse("d.yaml", []byte(text), known(t))
		room.Error(t, err)
	}
	_, err := drillfile.Parse("d.yaml", []byte(head+"follow: {within: 1s, all: [{gesture: x}, {menu-value: x}]}\n"), drillfile.Known{})
	room.Error(t, err)

	_, err = drillfile.ParseCourse("c.yaml", []byte("x"))
	room.Error(t, err)
	_, err = drillfile.ParseCourse("c.yaml", []byte("propsoff: course 1\ncode: c\nname: c\nabout: c\ndrills: [a, a]\n"))
	room.Error(t, err)
	_, err = drillfile.ParseCourse("c.yaml", []byte("propsoff: course 2\ncode: c\nname: c\nabout: c\nchapters: [x]\n"))
	room.Error(t, err)
	_, _, err = drillfile.Shipped("none such", known(t))
	room.Error(t, err)
	c, err := drillfile.ParseCourse("c.yaml", []byte("propsoff: course 1\ncode: c\nname: c\nabout: c\ndrills: [a, b]\n"))
	require.NoError(t, err)
	_, err = c.Read(known(t), func(code string) (string, []byte, bool) { return "a.yaml", []byte(follow), code == "a" })
	room.Error(t, err)

	room.Whole(t)
}
