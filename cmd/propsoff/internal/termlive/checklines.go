package termlive

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/cmd/propsoff/internal/world"
	"propsoff/input/check"
)

// CheckLines tells of a check as it goes on, in a terminal or as lines.
type CheckLines struct {
	// Shown is the check as it stands.
	Shown terminal.Checked

	w      *world.World // of the live screen alone
	manner manner
	told   []check.Verdict // of each item, as it was told last
	asked  [2]int          // ask and control, as told last
	lines  *terminal.Lines
}

// NewCheckLines tells in lines, as JSON or as text.
func NewCheckLines(lines *terminal.Lines, asJSONLines bool) *CheckLines {
	k := &CheckLines{lines: lines, asked: [2]int{-1, -1}}
	if asJSONLines {
		k.manner = asJSON
	}
	return k
}

func (k *CheckLines) say(t words.Text) {
	if k.manner != asScreen {
		k.lines.Add(func(dst []byte) []byte { return k.appendSaid(dst, t) })
		return
	}
	k.Shown.Notices = newest(k.Shown.Notices, t)
}

func (k *CheckLines) appendSaid(dst []byte, t words.Text) []byte {
	if k.manner == asJSON {
		return k.Shown.AppendSaidJSON(dst, t)
	}
	return k.Shown.AppendSaid(dst, t)
}

// Tell shows what is new.
func (k *CheckLines) Tell() {
	if k.manner == asScreen {
		columns, rows, _ := k.w.Console.Size()
		k.w.Console.Show(k.Shown.Screen(columns, rows))
		return
	}
	add, addAsk := k.Shown.AppendItem, k.Shown.AppendAsk
	if k.manner == asJSON {
		add, addAsk = k.Shown.AppendItemJSON, k.Shown.AppendAskJSON
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
		k.lines.Add(func(dst []byte) []byte { return add(dst, it) })
	}
	if asked := [2]int{int(k.Shown.View.Ask), k.Shown.View.Control}; asked != k.asked && !k.Shown.View.Settled {
		k.asked = asked
		k.lines.Add(addAsk)
	}
}

// Finish writes the summary. The error is that of writing.
func (k *CheckLines) Finish() error {
	end := k.Shown.AppendEnd
	switch k.manner {
	case asJSON:
		end = k.Shown.AppendEndJSON
	case asScreen:
		if err := k.w.Console.End(true); err != nil {
			return err
		}
	}
	k.lines.Add(end)
	return k.lines.Flush()
}
