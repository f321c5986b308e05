package inpage_test

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

func TestWay(t *testing.T) {
	d := sit(t, keys, size{1280, 800, 1, false})
	d.way()
}

// way is what a newcomer does from the first moment on.
func (d *desk) way() {
	d.t.Helper()
	d.begin()
	d.learnRadio()
	d.checkControls()
	d.armAndFly()
	d.passDrill()
	d.show()
}

// begin reads the cautions, and says who practises.
func (d *desk) begin() {
	d.t.Helper()
	d.reads("Before you start")
	d.picture("cautions")
	d.press("understood")
	d.reads("press a button on your radio")
	d.picture("start")
	d.press("start-row-2")
	d.row("Who practises")
	d.choose("people-row-2", "people-new")
	d.reads("?")
	d.picture("name")
	d.write("ada")
	d.reads("ada practises.")
	d.press("leave")
	d.reads("What do you want to do?")
}

// learnRadio plugs a radio in, and answers what it is asked.
func (d *desk) learnRadio() {
	d.t.Helper()
	d.plug(0, madeRadio)
	d.reads("Have you disconnected the pack of every craft bound to it?")
	d.picture("plugged")
	d.choose("ask-answer-2", "ask-below", "ask-take")
	d.reads("Pitch: lean")
	d.learn()
	d.picture("seats")
	d.press("seats-keep")
	d.reads("This radio is known now.")
	d.picture("known")
	d.press("question-enough")
	d.reads("What do you want to do?")
}

// checkControls moves every control full and free.
func (d *desk) checkControls() {
	d.t.Helper()
	d.press("start-row-3")
	d.row("Controls check")
	d.reads("Push both sticks to the top right")
	d.move(map[int]float64{roll: 1, pitch: 1, yaw: 1, throttle: 1})
	d.wait(800)
	d.move(rest)
	d.wait(1500)
	for axis := roll; axis <= yaw; axis++ {
		for _, to := range []float64{1, -1, rest[axis]} {
			d.move(map[int]float64{axis: to})
			d.wait(400)
		}
	}
	for _, m := range []map[int]float64{{arm: 1}, {arm: -1}, {mode: 0}, {mode: 1}, {mode: -1}} {
		d.move(m)
		d.wait(400)
	}
	d.show()
	d.press("leave")
	d.press("leave")
	d.reads("What do you want to do?")
}

// armAndFly is refused, arms, changes the mode, and loses the radio.
func (d *desk) armAndFly() {
	d.t.Helper()
	d.press("start-row-2")
	d.row("The bench")
	d.reads("Nothing refuses arming")
	d.picture("bench")
	d.move(map[int]float64{throttle: -0.5})
	d.move(map[int]float64{arm: 1})
	d.reads("Throttle reads 1244 µs; bring it below 1000.")
	d.picture("refused")
	d.move(rest)
	d.reads("Nothing refuses arming")
	d.move(map[int]float64{arm: 1})
	d.reads("\nARMED")
	d.picture("armed")
	d.move(map[int]float64{mode: 0})
	d.reads("Mode horizon; ")
	d.eval("pilot.pull(0)")
	d.reads("is unplugged")
	d.reads("Disarmed: the link was lost")
	d.picture("unplugged")
	d.plug(0, madeRadio)
	d.reads("Nothing refuses arming")
	d.press("leave")
	d.reads("What do you want to do?")
}

// passDrill learns a drill.
func (d *desk) passDrill() {
	d.t.Helper()
	d.press("start-row-2")
	d.row("Drills")
	d.choose("chapter-1", "drill-begin")
	d.reads("Begin this drill")
	d.picture("drill")
	d.choose("drill-begin", "drill-begin")
	for begun := time.Now(); ; d.wait(20) {
		s := d.sheet()
		text := s.text()
		switch {
		case strings.Contains(text, "Throttle fully up!"):
			d.move(map[int]float64{throttle: 1})
		case strings.Contains(text, "Throttle to the middle!"):
			d.move(map[int]float64{throttle: 0})
		case strings.Contains(text, "Learned"):
			d.picture("learned")
			return
		case strings.Contains(text, "First"):
			d.move(rest)
		}
		if time.Since(begun) > 2*patience {
			d.picture("failed")
			d.t.Fatalf("the drill is not passed:\n%s\n%q", text, d.p.Said())
		}
	}
}

func (d *desk) show() {
	d.picture("x")
	s := d.sheet()
	fmt.Println("-----", s.text())
	for _, h := range s.Hits {
		fmt.Print(h.Name, "=", h.Key, " ")
	}
	fmt.Println()
}
