package inpage_test

import (
	"fmt"
	"testing"
)

func TestWay(t *testing.T) {
	d := sit(t, keys, size{1280, 800, 1, false})
	d.reads("Before you start")
	d.picture("cautions")
	d.press("understood")
	d.reads("press a button on your radio")
	d.picture("start")
	d.plug(0, madeRadio)
	fmt.Println(d.reads("Pitch:", "pack", "hears"))
	s := d.sheet()
	fmt.Println(s.text(), s.Hits)
	d.picture("plugged")
	d.choose("ask-answer-2", "ask-below", "ask-take")
	d.reads("Pitch:")
	d.learn()
	d.picture("learned")
	d.press("seats-keep")
	d.reads("This radio is known now.")
	d.press("question-enough")
	d.reads("What do you want to do?")
	d.press("start-row-1")
	d.reads("It drives: take it to the bench.")
	d.press("start-row-1")
	d.reads("Nothing refuses arming")
	d.move(map[int]float64{throttle: -0.5})
	d.move(map[int]float64{arm: 1})
	d.press("leave")
	d.press("start-row-2")
	d.wait(200)
	d.show()
	d.press("leave")
	d.press("start-row-3")
	d.wait(200)
	d.show()
	d.press("leave")
	d.press("start-row-4")
	d.wait(200)
	d.show()
	d.press("leave")
	d.must(d.p.Press("Home"))
	d.press("start-row-2")
	d.press("start-row-1")
	d.wait(200)
	d.show()
	d.must(d.p.Press("Enter"))
	d.wait(200)
	d.show()
	d.must(d.p.Press("Enter"))
	d.wait(200)
	d.show()
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
