package inpage_test

import (
	"fmt"
	"strings"
	"time"
)

// The axes of the made radio.
const (
	roll = iota
	pitch
	throttle
	yaw
	arm
	mode
	axes
)

// madeRadio is what the browser calls it.
const madeRadio = "Curlew Desk 2 (Vendor: 1f4a Product: 0007)"

// plug plugs the made radio in, at rest.
func (d *desk) plug(i int, id string) {
	d.t.Helper()
	d.eval(fmt.Sprintf("pilot.plug(%d, %q, [0, 0, -1, 0, -1, -1], 4)", i, id))
}

// move brings axes to values as a hand does.
func (d *desk) move(to map[int]float64) {
	d.t.Helper()
	var sticks, switches []string
	for axis, v := range to {
		if moved := fmt.Sprintf("%d: %g", axis, v); axis < arm {
			sticks = append(sticks, moved)
		} else {
			switches = append(switches, moved)
		}
	}
	d.eval(fmt.Sprintf("pilot.to(0, {%s}, 150).then(() => pilot.to(0, {%s}, 0))", strings.Join(sticks, ", "), strings.Join(switches, ", ")))
}

// sweep leads one axis evenly to a value, as a hand does that feels its way.
func (d *desk) sweep(axis int, to float64, ms int) {
	d.t.Helper()
	d.eval(fmt.Sprintf("pilot.to(0, {%d: %g}, %d)", axis, to, ms))
}

// rest is how everything stands before anything is moved.
var rest = map[int]float64{roll: 0, pitch: 0, throttle: -1, yaw: 0, arm: -1, mode: -1}

// answers are what a hand does where a question of learning is read: movements one after the other, or what is pressed.
var answers = []struct {
	reads string
	moves []map[int]float64
	press string
}{
	{reads: "Pitch: lean the craft forward", moves: []map[int]float64{{pitch: 1}}},
	{reads: "Pitch: now lean it back", moves: []map[int]float64{{pitch: -1}}},
	{reads: "Pitch: let go", moves: []map[int]float64{{pitch: 0}}},
	{reads: "Yaw: turn the craft to the right", moves: []map[int]float64{{yaw: 1}}},
	{reads: "Yaw: now turn it to the left", moves: []map[int]float64{{yaw: -1}}},
	{reads: "Yaw: let go", moves: []map[int]float64{{yaw: 0}}},
	{reads: "Roll: lean the craft to the right", moves: []map[int]float64{{roll: 1}}},
	{reads: "Roll: now lean it to the left", moves: []map[int]float64{{roll: -1}}},
	{reads: "Roll: let go", moves: []map[int]float64{{roll: 0}}},
	{reads: "Throttle: make the craft climb", moves: []map[int]float64{{throttle: 1}}},
	{reads: "Throttle: now set it down again", moves: []map[int]float64{{throttle: -1}}},
	{reads: "Throttle: take your hand away"},
	{reads: "Arm switch: move it", moves: []map[int]float64{{arm: 1}}},
	{reads: "Flight mode switch: move it", moves: []map[int]float64{{mode: 0}, {mode: 1}}},
	{reads: "Anything else?", press: "question-enough"},
	{reads: "Which of these four are your hands", press: "picture-2"},
	{reads: "Everything at once", moves: []map[int]float64{{throttle: 1, yaw: 1, pitch: 1, roll: 1}}},
	{reads: "Show every control once more", moves: []map[int]float64{
		{roll: 1}, {roll: -1}, {roll: 0}, {pitch: 1}, {pitch: -1}, {pitch: 0}, {yaw: 1}, {yaw: -1}, {yaw: 0}, {throttle: 1}, {throttle: -1},
		{arm: 1}, {arm: -1}, {mode: 0}, {mode: 1}, {mode: -1},
	}},
}

// learn answers every question until the radio is known.
func (d *desk) learn() {
	d.t.Helper()
	last := ""
	for begun := time.Now(); ; time.Sleep(look) {
		s := d.sheet()
		text := s.text()
		if strings.Contains(text, "This radio is known now") || strings.Contains(text, "sit?") {
			return
		}
		if time.Since(begun) > 3*patience {
			d.fail("the radio is not learned")
		}
		if strings.Contains(text, "Put back what you moved") {
			d.move(rest)
			last = ""
			continue
		}
		ready := strings.Contains(text, "Ready when you are") || strings.Contains(text, "please.") || strings.Contains(text, "Hands off now")
		for _, a := range answers {
			if !strings.Contains(text, a.reads) || a.reads == last {
				continue
			}
			if len(a.moves) > 0 && !ready && !strings.Contains(a.reads, "now") {
				break
			}
			d.picture("learn")
			last = a.reads
			if a.press != "" {
				d.press(a.press)
			}
			for _, m := range a.moves {
				d.move(m)
				d.wait(500)
			}
			break
		}
		if h, ok := s.hit("question-skip"); ok && strings.Contains(text, "If your radio has none for this, skip it") {
			d.press(h.Name)
			d.wait(200)
		}
	}
}
