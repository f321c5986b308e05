package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// figures are what a scenario measured, in the order in which it measured them.
type figures []string

// add notes one figure: a name and a value that stays readable in a log.
func (f *figures) add(name string, value any) { *f = append(*f, fmt.Sprintf("%s %v", name, value)) }

// scenario is one named check. It may measure figures whether it holds or not.
type scenario struct {
	name string
	// needs is what must be there: nothing, the program under test, the host's root, or a person beside it.
	needs string
	run   func(*figures) error
	// at, where given: scenarios one after the other that have the same run at once.
	at string
}

// What a scenario may need.
const (
	needsNothing  = ""
	needsPropsoff = "propsoff"
	needsHost     = "host"
	needsPerson   = "person"
)

// scenarios in the order in which they run, all in one boot.
var scenarios = slices.Concat([]scenario{
	{name: "kernel-nodes", needs: needsNothing, run: kernelNodes},
	{name: "kernel-facts", needs: needsNothing, run: kernelFacts},
	{name: "kernel-controls", needs: needsNothing, run: kernelControls},
	{name: "names-and-counts", needs: needsPropsoff, run: namesAndCounts},
	{name: "two-radios", needs: needsPropsoff, run: twoRadios},
	{name: "late-plug", needs: needsPropsoff, run: latePlug},
	{name: "sweep-12-bit", needs: needsPropsoff, run: sweep(fakeradio.Main(), 1, time.Millisecond)},
	{name: "sweep-11-bit", needs: needsPropsoff, run: sweep(fakeradio.Nine(), 1, 1500*time.Microsecond)},
	{name: "sweep-16-signed", needs: needsPropsoff, run: sweep(fakeradio.Signed(), 32, 1500*time.Microsecond)},
	{name: "sweep-8-bit", needs: needsPropsoff, run: sweep(fakeradio.Small(), 1, 1500*time.Microsecond)},
	{name: "arm-by-switch", needs: needsPropsoff, run: armBySwitch},
	{name: "arm-by-sticks", needs: needsPropsoff, run: armBySticks},
	{name: "unplug-axis", needs: needsPropsoff, run: unplugAndBack(byAxis)},
	{name: "unplug-button", needs: needsPropsoff, run: unplugAndBack(byButton)},
	{name: "classic-way", needs: needsPropsoff, run: classicWay},
	{name: "delay", needs: needsPropsoff, run: delay},
	{name: "flood", needs: needsPropsoff, run: flood},
	{name: "flood-marks", needs: needsPropsoff, run: floodMarks},
}, learnScenarios(), []scenario{
	{name: "twins", needs: needsPropsoff, run: twins},
}, checkScenarios(), gestureScenarios(), []scenario{
	{name: "course", needs: needsPropsoff, run: course},
	{name: "window-display", needs: needsHost, run: windowDisplay},
	{name: "window-radio", needs: needsHost, run: windowRadio},
	{name: "attended", needs: needsPerson, run: attended},
})

// asked says whether a scenario belongs to a mode: "probe" are those that need nothing but the kernel, "all" also those that
// run propsoff, "window" those that need the host's root, "attended" the one with a person.
func (s scenario) asked(mode string) bool {
	switch s.needs {
	case needsHost:
		return mode == "window"
	case needsPerson:
		return mode == "attended"
	case needsPropsoff:
		return mode == "all"
	}
	return mode == "all" || mode == "probe"
}

// runAll runs the scenarios of a mode. only, when given, is a list of names with commas.
func runAll(mode, only string) (ok, failed int) {
	want := map[string]bool{}
	for _, n := range strings.FieldsFunc(only, func(r rune) bool { return r == ',' }) {
		want[n] = true
	}
	var run []scenario
	for _, s := range scenarios {
		if s.asked(mode) && (only == "" || want[s.name]) {
			run = append(run, s)
			delete(want, s.name)
		}
	}
	for len(run) > 0 {
		n := 1
		for n < len(run) && run[0].at != "" && run[n].at == run[0].at {
			n++
		}
		for _, held := range atOnce(run[:n]) {
			if held {
				ok++
			} else {
				failed++
			}
		}
		run = run[n:]
	}
	for n := range want {
		failed++
		fmt.Printf("FAIL %-18s there is no scenario of this name in mode %s\n", n, mode)
	}
	return ok, failed
}

// atOnce runs scenarios together and prints the line of each as it ends.
func atOnce(run []scenario) []bool {
	held := make([]bool, len(run))
	var wait sync.WaitGroup
	var print sync.Mutex
	for i, s := range run {
		wait.Go(func() {
			start := time.Now()
			var f figures
			err := attempt(s, &f)
			print.Lock()
			defer print.Unlock()
			held[i] = err == nil
			report(s, time.Since(start), f, err)
		})
	}
	wait.Wait()
	return held
}

func report(s scenario, d time.Duration, f figures, err error) {
	took, text := fmt.Sprintf("%5.1f s", d.Seconds()), strings.Join(f, ", ")
	if err == nil {
		fmt.Printf("ok   %-18s %s  %s\n", s.name, took, text)
		return
	}
	fmt.Printf("FAIL %-18s %s  %s\n", s.name, took, strings.ReplaceAll(err.Error(), "\n", "\n       "))
	if text != "" {
		fmt.Printf("       %s\n", text)
	}
}

// attempt runs one scenario; a panic in it is its failure and not the rig's.
func attempt(s scenario, f *figures) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the scenario broke: %v", r)
		}
	}()
	if s.needs == needsPropsoff {
		if _, err := os.Stat("/" + propsoffPath); err != nil {
			return fmt.Errorf("the program under test is not in the guest")
		}
	}
	return s.run(f)
}
