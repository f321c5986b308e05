package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"propsoff.example/scripts/rig/fakeradio"
)

// twins plugs two radios in that are alike in all but the serial number, and reads each by its own file, which say different
// axes. A third of their kind has no file: the program reads it with one of theirs and says with which.
func twins(f *figures) (err error) {
	a, b := fakeradio.Twins()
	if err := bothLearned(&a, &b); err != nil {
		return err
	}
	var held []*live
	for i, m := range []fakeradio.Made{a, b} {
		l, err := pickUp(m, uint64(i))
		if err != nil {
			return err
		}
		defer closing(&err, l.away)
		held = append(held, l)
	}
	for _, l := range held {
		if err := readsAsLearned(l, l.event, &figures{}); err != nil {
			return fmt.Errorf("%s: %w", l.made.Serial, err)
		}
		if notice, err := alikeNotice(l.event); err != nil || notice != "" {
			return fmt.Errorf("%s has a file of its own, and the program says %q (err %v)", l.made.Serial, notice, err)
		}
		f.add(l.made.Serial, fmt.Sprintf("roll on axis %d", l.made.Controls[0].Axis+1))
	}
	c, err := pickUp(a.Twin("LP-0003", "rig/lapwing/3"), 3)
	if err != nil {
		return err
	}
	defer closing(&err, c.away)
	notice, err := alikeNotice(c.event)
	if err != nil {
		return err
	}
	if notice == "" {
		return fmt.Errorf("%s has no file of its own, and the program does not say whose it takes", c.made.Serial)
	}
	f.add(c.made.Serial, "told: "+notice)
	return nil
}

// bothLearned sees to it that there is a file for each: the one that was learned, else one that is written.
func bothLearned(twins ...*fakeradio.Made) error {
	for _, m := range twins {
		if _, ok := learned.Load(m.Serial); ok {
			continue
		}
		dir := filepath.Join(configHome, radioFolder)
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return err
		}
		file := filepath.Join(dir, strings.ToLower(m.Serial)+".yaml")
		if err := os.WriteFile(file, []byte(madeFile(m, jobsOf(m))), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// alikeNotice starts `propsoff watch` on a radio until its values come, and gives the notice that names a kept file, if one
// does.
func alikeNotice(device string) (notice string, err error) {
	w, err := watchLearned(device)
	if err != nil {
		return "", err
	}
	defer closing(&err, w.stop)
	if _, err := w.await(firstLine, 0, "values of "+device, func(l line) bool {
		return l.Code == codeValues && !math.IsNaN(l.channel(chanRoll))
	}); err != nil {
		return "", err
	}
	for _, l := range w.seen {
		if l.Code == codeNotice && strings.Contains(l.Text, configHome+"/") {
			notice = l.Text
		}
	}
	return notice, nil
}
