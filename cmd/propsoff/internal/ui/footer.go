package ui

import (
	"slices"

	"propsoff/cmd/propsoff/internal/ink"
)

// usualCommon are the shared keys that a sheet prints which names none: those that are there to be done only where something is to be seen to, and who
// drives.
var usualCommon = []Action{NextDriver, ChooseRadio, KeepAgain}

// Printed are the actions whose keys stand on a sheet now: its own, and the few that others have too, of which the last lead to all others and
// away.
func (v *View) Printed(on Place) (own, common []Action) {
	s := v.House.Of(on)
	own = slices.Clone(s.Front)
	for _, a := range s.Own {
		own = append(own, a.Action)
	}
	switch common = s.Common; {
	case v.Class: // what is to be read from afar needs the room
		common = nil
	case common == nil:
		common = usualCommon
	}
	not := func(a Action) bool { return a == Understood || !v.Shows(a, on) }
	own = slices.DeleteFunc(own, not)
	common = slices.DeleteFunc(append(slices.Clone(common), ShowHelp, Leave), func(a Action) bool { return not(a) || slices.Contains(own, a) })
	return own, common
}

// keyOf is a key that is printed: what it does, and how wide that is.
type keyOf struct {
	Act
	does string
	wide float64
}

// Actions draws the keys of a sheet that are printed, each to be clicked: its own large from the left, the common ones small at the right end. It gives
// what is left above them.
func (b *Board) Actions(r ink.Rect, on Place) ink.Rect {
	b.On = on
	b.Group("keys")
	own, common := b.V.Printed(on)
	large, small := b.keysOf(own, b.Body), b.keysOf(common, b.Small)
	gap := 10 * b.U
	rows, end := wrapped(large, r.W, gap), wrapped(small, r.W, gap)
	high, low := b.keyHigh(b.Body), b.keyHigh(b.Small)
	last := len(rows) - 1
	beside := last >= 0 && len(end) == 1 && rowWidth(rows[last], gap)+1.2*gap+rowWidth(end[0], gap) <= r.W
	for i := len(end) - 1; i >= 0 && !beside; i-- {
		var row ink.Rect
		row, r = r.CutBottom(low, 2*b.U)
		b.keysIn(row, end[i], b.Small, gap, row.W-rowWidth(end[i], gap))
	}
	for i := last; i >= 0; i-- {
		var row ink.Rect
		if row, r = r.CutBottom(high, 2*b.U); i == last && beside {
			b.keysIn(row, end[0], b.Small, gap, row.W-rowWidth(end[0], gap))
		}
		b.keysIn(row, rows[i], b.Body, gap, 0)
	}
	r.H -= 3 * b.U
	return r
}

// keysOf are keys with what they do, in a size of text.
func (b *Board) keysOf(actions []Action, size float64) (all []keyOf) {
	for _, a := range actions {
		act, does := b.V.House.acts[a], b.Say(b.V.Does(a, b.On))
		all = append(all, keyOf{act, does, b.keyWidth(act.Physical, does, size)})
	}
	return all
}

// wrapped sets keys one after another in rows that are not wider than w.
func wrapped(all []keyOf, w, gap float64) (rows [][]keyOf) {
	for from, at := 0, 0.0; from < len(all); at = 0 {
		n := from
		for ; n < len(all) && (n == from || at+all[n].wide <= w); n++ {
			at += all[n].wide + gap
		}
		rows, from = append(rows, all[from:n]), n
	}
	return rows
}

// rowWidth is the width of a row of keys.
func rowWidth(row []keyOf, gap float64) (w float64) {
	for _, k := range row {
		w += k.wide + gap
	}
	return w - gap
}

// keysIn draws keys one after another, from so far in their row.
func (b *Board) keysIn(r ink.Rect, row []keyOf, size, gap, from float64) {
	for _, k := range row {
		b.keyRow(ink.Rect{X: r.X + from, Y: r.Y, W: min(k.wide, r.W), H: r.H}, k.Action.Code(), k.Physical, k.does, size)
		from += k.wide + gap
	}
}

// keyHigh is how high a row of keys is whose words have a size.
func (b *Board) keyHigh(size float64) float64 {
	return max(b.keyCap(size)+4*b.U, b.Least())
}

// keyCap is how high a cap is beside words of a size.
func (b *Board) keyCap(size float64) float64 {
	if size > b.Small {
		return max(b.Cap, 1.75*size)
	}
	return b.Cap + b.U
}

// KeyRow draws a key with what it does in a row, to be clicked.
func (b *Board) KeyRow(r ink.Rect, code, physical, does string) {
	b.keyRow(r, code, physical, does, b.Small)
}

func (b *Board) keyRow(r ink.Rect, code, physical, does string, size float64) {
	rest := b.KeyAt(r, code+" key", physical, b.keyCap(size), 5*b.U)
	b.Fitted(code, rest, ink.Style{Size: size}, does)
	b.Hit(code, physical, r)
}

// KeyWidth is the width that KeyRow needs.
func (b *Board) KeyWidth(physical, does string) float64 { return b.keyWidth(physical, does, b.Small) }

// keyWidth is the width that keyRow needs.
func (b *Board) keyWidth(physical, does string, size float64) float64 {
	return b.CapWidth(b.keyCap(size), physical) + ink.Width(does, size, ink.Regular) + 8*b.U
}

// ClassKeys begins a class view of a sheet: its large text sizes, and its keys; it gives what is left.
func (b *Board) ClassKeys(on Place) ink.Rect {
	b.ClassSizes(1.45)
	return b.Actions(b.SheetArea(), on)
}

// ClassSizes takes the large text sizes of class view, and lengths that go with them; keys are so many times as high as text.
func (b *Board) ClassSizes(key float64) {
	high := min(b.H, b.W*ink.LeastHeight/ink.LeastWidth)
	b.Scale = b.fit() * b.dense()
	b.U, b.Gap = b.Px(1), b.Px(10)
	b.Body = high * ClassText
	b.Larger(1)
	b.Cap = b.Body * key
}
