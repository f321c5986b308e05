package ui

import (
	"slices"

	"propsoff.example/cmd/propsoff/internal/ink"
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
	k := b.keyRows(own, common, r.W)
	least := 0.0
	if s := b.V.House.Of(on); s.Still && !b.V.Class {
		all := slices.Clone(s.Front)
		for _, a := range s.Own {
			all = append(all, a.Action)
		}
		least = b.keyRows(all, common, r.W).high
	}
	for i := len(k.end) - 1; i >= 0 && !k.beside; i-- {
		var row ink.Rect
		row, r = r.CutBottom(b.keyHigh(b.Small), 2*b.U)
		b.keysIn(row, k.end[i], b.Small, k.gap, row.W-rowWidth(k.end[i], k.gap))
	}
	for i := len(k.rows) - 1; i >= 0; i-- {
		var row ink.Rect
		if row, r = r.CutBottom(b.keyHigh(b.Body), 2*b.U); i == len(k.rows)-1 && k.beside {
			b.keysIn(row, k.end[0], b.Small, k.gap, row.W-rowWidth(k.end[0], k.gap))
		}
		b.keysIn(row, k.rows[i], b.Body, k.gap, 0)
	}
	r.H -= 3*b.U + max(0, least-k.high)
	return r
}

// keyRows are keys in rows: those of a sheet, and the common ones at the end, beside the last row where there is room. high is how high all are
// with what is kept free above each.
type keyRows struct {
	rows, end [][]keyOf
	beside    bool
	gap, high float64
}

func (b *Board) keyRows(own, common []Action, w float64) keyRows {
	k := keyRows{gap: 10 * b.U}
	k.rows, k.end = wrapped(b.keysOf(own, b.Body), w, k.gap), wrapped(b.keysOf(common, b.Small), w, k.gap)
	last := len(k.rows) - 1
	k.beside = last >= 0 && len(k.end) == 1 && rowWidth(k.rows[last], k.gap)+1.2*k.gap+rowWidth(k.end[0], k.gap) <= w
	k.high = float64(len(k.rows)) * (b.keyHigh(b.Body) + 2*b.U)
	if !k.beside {
		k.high += float64(len(k.end)) * (b.keyHigh(b.Small) + 2*b.U)
	}
	return k
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
