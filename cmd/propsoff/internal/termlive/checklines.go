package termlive

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/check"
)

// CheckLines tells of a check as it goes on, in a terminal or as lines.
type CheckLines struct {
	// Shown is the check as it stands.
	Shown terminal.Checked

	shows
	told  []check.Verdict // of each item, as it was told last
	asked [2]int          // ask and control, as told last
}

// NewCheckLines tells of a check as view has it, on the live screen where there is a terminal, else in lines of JSON or text.
func NewCheckLines(w *world.World, view *check.View, asJSON bool) *CheckLines {
	k := &CheckLines{asked: [2]int{-1, -1}}
	k.shows = newShows(w, asJSON, PlainNever, func(dst []byte, t words.Text) []byte { return k.Shown.Said(dst, t) })
	k.Shown.Form, k.Shown.View = k.form, view
	return k
}

func (k *CheckLines) say(t words.Text) {
	k.note(t)
	k.add(func(dst []byte) []byte { return k.Shown.Said(dst, t) })
}

// Tell shows what is new.
func (k *CheckLines) Tell() {
	if k.screen {
		k.Shown.Notices = k.notices
		k.show(k.Shown.Screen)
		return
	}
	if len(k.told) != len(k.Shown.View.Items) {
		k.told = make([]check.Verdict, len(k.Shown.View.Items))
	}
	for i := range k.Shown.View.Items {
		it := &k.Shown.View.Items[i]
		if it.Verdict == k.told[i] {
			continue
		}
		k.told[i] = it.Verdict
		k.add(func(dst []byte) []byte { return k.Shown.Item(dst, it) })
	}
	if asked := [2]int{int(k.Shown.View.Ask), k.Shown.View.Control}; asked != k.asked && !k.Shown.View.Settled {
		k.asked = asked
		k.add(k.Shown.Ask)
	}
}

// Finish writes the summary. The error is that of writing.
func (k *CheckLines) Finish() error {
	if k.screen {
		if err := k.end(true); err != nil {
			return err
		}
	}
	k.lines.Add(k.Shown.End)
	return k.lines.Flush()
}
