package ui

import (
	"slices"
	"strings"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
)

// rolled is a list that did not fit when it was drawn last: what was shown of it, and what else could be.
type rolled struct {
	name string
	// n rows, of which those from first up to end are shown; last is the furthest that may be shown first. mark is the one that stands out.
	n, first, end, last, mark int
	// byHand: somebody turned it, so it does not stand round its mark.
	byHand bool
}

// Rolled is which rows of a list, of heights high, are shown in r: all of them, or, where they do not fit, as many as do from the one that is usual on, or
// from where the list was turned to by hand. There it takes a wheel and a drag. It stays where a hand left it until another row is marked that is out of
// sight; a mark below 0 is none, and one that is another calls it back.
func (b *Board) Rolled(name string, r ink.Rect, high []float64, mark, usual int) (first, end int) {
	n, sum := len(high), 0.0
	for _, h := range high {
		sum += h
	}
	i := slices.IndexFunc(b.V.rolls, func(l rolled) bool { return l.name == name })
	if n == 0 || sum <= r.H+0.5 {
		if i >= 0 {
			b.V.rolls = slices.Delete(b.V.rolls, i, i+1)
		}
		return 0, n
	}
	if i < 0 {
		i, b.V.rolls = len(b.V.rolls), append(b.V.rolls, rolled{name: name, n: n, mark: mark})
	}
	l := &b.V.rolls[i]
	last := n - 1
	for left := r.H + 0.5 - high[last]; last > 0 && left >= high[last-1]; last-- {
		left -= high[last-1]
	}
	if l.last = max(last, usual); !l.byHand || l.n != n {
		l.byHand, l.first = false, usual
	}
	fits := func() {
		l.first = ClampInt(l.first, 0, l.last)
		l.end = l.first + 1
		for left := r.H + 0.5 - high[l.first]; l.end < n && left >= high[l.end]; l.end++ {
			left -= high[l.end]
		}
	}
	if fits(); l.byHand && mark != l.mark && (mark < l.first || mark >= l.end) {
		l.byHand, l.first = false, usual
		fits()
	}
	l.n, l.mark = n, mark
	b.Page.List(ink.List{Name: name, Box: r, Step: max(sum/float64(n), b.U)})
	return l.first, l.end
}

// rollPrefix and the name of a list name the hit area that turns it on by what is shown of it, at its end back to its beginning.
const rollPrefix = "roll "

// Unlisted counts below a list what there is no room for above and below; pressed, it turns the list on. first and end are those of Rolled.
func (b *Board) Unlisted(name string, line ink.Rect, first, end, n int) {
	b.Fitted("unlisted", line, ink.Style{Size: b.Small, Weight: ink.Bold}, b.Say(tell.Unlisted(first, n-end)))
	b.TurnedBy(name, line)
}

// TurnedBy has a list turned on by a press on a line that counts what is not shown of it, where that is large enough to be pressed.
func (b *Board) TurnedBy(name string, line ink.Rect) {
	if b.Free(line) {
		b.Hit(rollPrefix+name, "", line)
	}
}

// UnlistedHeight is how high the line is that Unlisted takes: it can be pressed.
func (b *Board) UnlistedHeight() float64 { return max(ink.BlockHeight(b.Small, 1), b.Least()) }

// Turn turns a list that was drawn last by so many rows.
func (v *View) Turn(name string, by int) {
	if i := slices.IndexFunc(v.rolls, func(l rolled) bool { return l.name == name }); i >= 0 {
		l := &v.rolls[i]
		l.byHand, l.first = true, ClampInt(l.first+by, 0, l.last)
	}
}

// TurnOn turns a list that was drawn last by what was shown of it, at its end back to its beginning.
func (v *View) TurnOn(name string) {
	if i := slices.IndexFunc(v.rolls, func(l rolled) bool { return l.name == name }); i >= 0 {
		l := &v.rolls[i]
		by := l.end - l.first
		if l.end >= l.n {
			by = -l.first
		}
		v.Turn(name, by)
	}
}

// Unrolled forgets which lists were turned by hand: another sheet is shown.
func (v *View) Unrolled() { v.rolls = v.rolls[:0] }

// RollOf is the list that a hit area turns on.
func RollOf(hit string) (name string, ok bool) { return strings.CutPrefix(hit, rollPrefix) }
