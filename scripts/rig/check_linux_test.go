package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/hand"
)

// rightEnd is the last line of a check that says of a radio what is true of it.
func rightEnd(k checking, m *fakeradio.Made) checkLine {
	end := checkLine{Code: codeFinished, Whole: true}
	add := func(control, item string) {
		it := checkItem{Control: control, Item: item, Verdict: verdictPasses}
		if v, ok := k.found[strings.TrimSpace(control+" "+item)]; ok {
			it.Verdict = v
		}
		if c, ok := m.Control(control); ok {
			if us, _, is := madeValue(m, c, item); is {
				it.Value = json.Number(strings.TrimRight(jsonOf(us), "\n"))
			}
		}
		end.Items = append(end.Items, it)
	}
	for _, c := range m.Controls {
		for _, item := range []string{"direction", "low-end", "high-end", "centre", "noise", "jumps"} {
			add(c.Job, item)
		}
	}
	add("", "lost-readings")
	add("", "report-rate")
	return end
}

func jsonOf(v float64) string { b, _ := json.Marshal(v); return string(b) }

// A check that is right passes for every radio; each wrong one is named, and only what a guest that is held up may cause is
// laid at its door.
func TestJudge(t *testing.T) {
	for _, k := range checkings() {
		m := k.made.Twin(k.made.Serial, k.made.Port)
		if k.since != nil {
			k.since(&m)
		}
		judge := func(change func(*checkLine), gap time.Duration) (string, int) {
			end := rightEnd(k, &m)
			change(&end)
			wrong, guests := k.judge(end, gap, &figures{})
			return strings.Join(append(wrong, measured(&m, end, &figures{})...), "\n"), guests
		}
		set := func(control, item, verdict string) func(*checkLine) {
			return func(l *checkLine) {
				for i := range l.Items {
					if l.Items[i].Control == control && l.Items[i].Item == item {
						l.Items[i].Verdict = verdict
					}
				}
			}
		}
		wrong, _ := judge(func(*checkLine) {}, 0)
		assert.Empty(t, wrong, k.name)
		wrong, _ = judge(func(l *checkLine) { l.Whole = false }, 0)
		assert.Contains(t, wrong, "before everything was seen")
		wrong, _ = judge(func(l *checkLine) { l.Items = l.Items[6:] }, 0)
		assert.Contains(t, wrong, "nothing is said of "+m.Controls[0].Job)
		wrong, guests := judge(set("yaw", "high-end", verdictWarns), time.Second)
		assert.Contains(t, wrong, "yaw high-end warns")
		assert.Zero(t, guests)
		wrong, guests = judge(set("yaw", "jumps", verdictWarns), 0)
		assert.Contains(t, wrong, "yaw jumps warns")
		assert.Zero(t, guests, "the guest was not held up")
		_, guests = judge(set("yaw", "jumps", verdictWarns), time.Second)
		assert.Equal(t, 1, guests)
		_, guests = judge(set("", "lost-readings", verdictWarns), 0)
		assert.Equal(t, 1, guests)
		for key, verdict := range k.found {
			at := strings.LastIndexByte(key, ' ')
			wrong, _ = judge(set(key[:at], key[at+1:], verdictPasses), 0)
			assert.Contains(t, wrong, "it must say "+verdict, k.name)
		}
		wrong, _ = judge(func(l *checkLine) {
			for i := range l.Items {
				if l.Items[i].Control == "throttle" && l.Items[i].Item == "low-end" {
					l.Items[i].Value = "1300"
				}
			}
		}, 0)
		assert.Contains(t, wrong, "throttle low-end")
	}
}

// What is wrong with each radio follows from how it was made, by the numbers of the check's limits.
func TestCheckings(t *testing.T) {
	found := map[string]map[string]string{}
	for _, k := range checkings() {
		found[k.name] = k.found
	}
	for _, healthy := range []string{"dunlin", "knot", "sanderling"} {
		assert.Empty(t, found[healthy])
	}
	assert.Equal(t, map[string]string{
		"roll noise": verdictWarns, "pitch noise": verdictWarns, "yaw noise": verdictWarns, "arm noise": verdictWarns, "channel 7 noise": verdictWarns,
	}, found["whimbrel"], "throttle and mode rest at the end of their axes")
	assert.Equal(t, verdictFails, found["worn"]["roll noise"])
	assert.Equal(t, verdictWarns, found["worn"]["throttle noise"])
	a, b := fakeradio.Twins()
	for _, m := range []fakeradio.Made{fakeradio.Restless(), worn(b)} {
		for _, c := range m.Controls {
			us := noiseOf(&m, c)
			for _, limit := range []float64{noisePasses, noiseWarns} {
				assert.Greater(t, math.Abs(us-limit)/limit, 0.15, "%s of %s: %.2f µs is too near a limit to tell", c.Job, m.Name, us)
			}
		}
	}
	turned := a.Twin("x", "y")
	turnPitch(&turned)
	was, _ := a.Control("pitch")
	is, _ := turned.Control("pitch")
	assert.Equal(t, [2]int32{was.High, was.Low}, [2]int32{is.Low, is.High})
	assert.False(t, was.Backwards(), "the radio as it was learned stays as it is")
}

// What is done about each thing that is asked.
func TestMovesFor(t *testing.T) {
	m := fakeradio.Whole()
	assert.Equal(t, hand.Corner(), movesFor(&m, checkLine{Asks: asksCorner}, 1))
	assert.Empty(t, movesFor(&m, checkLine{Asks: asksCorner}, 2), "it holds")
	assert.Empty(t, movesFor(&m, checkLine{Asks: asksHandsOff}, 1))
	assert.Len(t, movesFor(&m, checkLine{Asks: asksMove, Control: "yaw"}, 1), 5, "both ends twice, and back")
	assert.Len(t, movesFor(&m, checkLine{Asks: asksMove, Control: "throttle"}, 1), 2)
	assert.Len(t, movesFor(&m, checkLine{Asks: asksMove, Control: "mode"}, 1), 4)
	quick := movesFor(&m, checkLine{Asks: asksQuickly}, 1)
	assert.Less(t, quick[0].Over, hand.Way)
	h := hand.New(&m, 1)
	_, err := h.Begin(0, quick...)
	assert.NoError(t, err)
}
