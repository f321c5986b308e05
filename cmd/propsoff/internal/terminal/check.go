package terminal

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/check"
	"propsoff.example/sim/pulse"
)

// Checked is a controls check in the terminal.
type Checked struct {
	Form
	// Radio is its name; Notices are shown below the head.
	Radio   string
	Notices []words.Text
	View    *check.View
	// At is how long it has gone on, in µs.
	At int64
}

// line appends one line: time, code and fields as JSON, or time, a mark and a sentence.
func (c *Checked) line(dst []byte, code, mark string, text words.Text, fields ...any) []byte {
	if c.JSON {
		return AppendFields(dst, append([]any{"t_us", c.At, "code", code}, fields...)...)
	}
	return fmt.Appendf(dst, "%s  %s%s\n", right(say(c.Book, tell.CheckAt(c.At)), 9), mark, say(c.Book, text))
}

// Item appends one item as a line with the code "check-item".
func (c *Checked) Item(dst []byte, it *check.Item) []byte {
	return c.line(dst, "check-item", checkMark(it.Verdict)+" ", tell.CheckVerdictOf(c.View, it), c.item(it)...)
}

// item are the fields of an item. Widths are µs, rates reports a second; a value that was not measured is left out.
func (c *Checked) item(it *check.Item) []any {
	number := func(n int64) json.Number {
		if it.Unit == check.Micros || it.Unit == check.PerSecond {
			return thousandths(n)
		}
		return json.Number(strconv.FormatInt(n, 10))
	}
	var of check.Control
	channel, value := 0, any(nil)
	if it.Control >= 0 {
		of = c.View.Controls[it.Control]
		channel = of.Channel + 1
	}
	if it.Known {
		value = number(it.Value)
	}
	return []any{
		"control", orNil(of.Job), "called", orNil(of.Called), "channel", orNil(channel), "item", it.Kind.Code(), "verdict", it.Verdict.Code(),
		"value", value, "at_least_that", orNil(it.Bound), "must_be", it.Side.Code(), "limit", number(it.Limit), "unit", it.Unit.Code(),
		"matters", orNil(it.Why.Code()), "do", orNil(it.Cure.Code()), "text", tell.CheckVerdictOf(c.View, it),
		"matters_text", orNil(english(tell.CheckWhy(it.Why))), "do_text", orNil(english(tell.CheckCure(c.View, it))),
	}
}

// checkMark tells a verdict by its shape.
func checkMark(v check.Verdict) string {
	return [check.VerdictCount]string{check.Waiting: "..", check.Passes: "ok", check.Warns: "! ", check.Fails: "XX"}[v]
}

// Ask appends what is asked for as a line with the code "check-asks".
func (c *Checked) Ask(dst []byte) []byte {
	job := ""
	if c.View.Control >= 0 {
		job = c.View.Controls[c.View.Control].Job
	}
	text := tell.CheckAsk(c.View)
	return c.line(dst, "check-asks", "-> ", text, "asks", c.View.Ask.Code(), "control", orNil(job), "text", text)
}

// Said appends a sentence as a line with the code "notice".
func (c *Checked) Said(dst []byte, text words.Text) []byte {
	return c.line(dst, "notice", "", text, "text", text)
}

// End appends the summary: as JSON a line with the code "check-finished", which says whether everything was seen, counts by verdict, and has
// every item once more; as text the table of every item, what is to be seen to, and the sum.
func (c *Checked) End(dst []byte) []byte {
	v, w := c.View, c.columns()
	if c.JSON {
		items := make([]Fields, len(v.Items))
		for i := range v.Items {
			items[i] = append(Fields{"t_us", c.At, "code", "check-item"}, c.item(&v.Items[i])...)
		}
		return c.line(dst, "check-finished", "", words.Text{}, "radio", c.Radio, "whole", v.Settled, "passes", v.Count[check.Passes],
			"warns", v.Count[check.Warns], "fails", v.Count[check.Fails], "waiting", v.Count[check.Waiting], "lost", v.Lost, "gone", v.Gone,
			"away_s", thousandths(v.OutFor/1000), "items", items, "text", tell.CheckSum(v))
	}
	dst = append(dst, '\n')
	for i := range v.Items {
		dst = append(append(dst, c.row(&v.Items[i], w)...), '\n')
	}
	for _, it := range Findings(v) {
		dst = fmt.Appendf(dst, "\n%s %s\n", checkMark(it.Verdict), say(c.Book, tell.CheckVerdictOf(v, &it)))
		for _, text := range []words.Text{words.T("check.why", words.Args{"why": tell.CheckWhy(it.Why)}), words.T("check.do", words.Args{"cure": tell.CheckCure(v, &it)})} {
			for _, line := range wrap(say(c.Book, text), 110) {
				dst = fmt.Appendf(dst, "   %s\n", line)
			}
		}
	}
	dst = fmt.Appendf(dst, "\n%s\n", say(c.Book, tell.CheckSum(v)))
	if !v.Settled {
		dst = fmt.Appendf(dst, "%s\n", say(c.Book, words.T("check.unfinished", words.Args{"n": words.Count(v.Count[check.Waiting])})))
	}
	return dst
}

// checkColumns are how many places the columns of the check's tables take: whose an item is, the item, its verdict, what was measured.
type checkColumns struct{ of, item, verdict, value int }

// mostName is how many places the name of a control gets at most, since a pilot may have called it anything (ours).
const mostName = 24

func (c *Checked) columns() (w checkColumns) {
	for i := range c.View.Controls {
		w.of = max(w.of, widest(c.Book, tell.CheckName(&c.View.Controls[i])))
	}
	for i := range c.View.Items {
		it := &c.View.Items[i]
		w.of = max(w.of, widest(c.Book, tell.CheckOf(c.View, it)))
		w.item = max(w.item, widest(c.Book, tell.CheckItem(it.Kind)))
		w.value = max(w.value, widest(c.Book, tell.CheckValue(it)))
	}
	for v := range check.VerdictCount {
		w.verdict = max(w.verdict, widest(c.Book, tell.CheckVerdict(v)))
	}
	w.of = min(w.of, mostName)
	return w
}

// row is one line of the table: mark, control, item, verdict, measured, limit.
func (c *Checked) row(it *check.Item, w checkColumns) string {
	s := checkMark(it.Verdict) + " " + left(say(c.Book, tell.CheckOf(c.View, it)), w.of) + "  " + left(say(c.Book, tell.CheckItem(it.Kind)), w.item) + "  " +
		left(say(c.Book, tell.CheckVerdict(it.Verdict)), w.verdict) + "  " + left(say(c.Book, tell.CheckValue(it)), w.value)
	if it.Verdict != check.Passes {
		s += "  " + say(c.Book, tell.CheckMust(it))
	}
	return strings.TrimRight(s, " ")
}

// Findings are the items that fail, then those that warn.
func Findings(v *check.View) (out []check.Item) {
	for _, verdict := range []check.Verdict{check.Fails, check.Warns} {
		for _, it := range v.Items {
			if it.Verdict == verdict {
				out = append(out, it)
			}
		}
	}
	return out
}

// Screen makes the lines of the live check, at most rows of them, each at most columns wide (0: no limit).
func (c *Checked) Screen(columns, rows int) []string {
	v, w := c.View, c.columns()
	out := []string{"propsoff check · " + c.Radio + " · " + say(c.Book, tell.CheckAt(c.At))}
	for _, n := range c.Notices {
		out = append(out, wrap(say(c.Book, n), columns)...)
	}
	out = append(out, "")
	out = append(out, hang("-> ", say(c.Book, tell.CheckAsk(v)), columns)...)
	out = append(append(out, ""), c.controlRows(w)...)
	out = append(out, "")
	for i := range v.Items {
		if it := &v.Items[i]; it.Control < 0 || it.Control == v.Control || it.Verdict > check.Passes {
			out = append(out, c.row(it, w))
		}
	}
	out = append(out, "")
	return fit(append(out, wrap(say(c.Book, tell.CheckSum(v)), columns)...), columns, rows)
}

// controlRows are the controls as they stand, how far each was taken, and the worst that is known of it, below their heads.
func (c *Checked) controlRows(w checkColumns) []string {
	heads := []string{say(c.Book, tell.CheckColumn(0)), say(c.Book, words.T("terminal.ends-seen")), say(c.Book, tell.CheckColumn(6))}
	seen := make([]string, len(c.View.Controls))
	name, ends := max(w.of, places(heads[0])), places(heads[1])
	for i := range c.View.Controls {
		seen[i] = c.seen(&c.View.Controls[i])
		ends = max(ends, places(seen[i]))
	}
	row := func(mark, of, at, line, seen, verdict string) string {
		return strings.TrimRight(mark+" "+left(of, name)+" "+right(at, 5)+"  "+left(line, penWidth)+"  "+left(seen, ends)+"  "+verdict, " ")
	}
	out := []string{row("  ", heads[0], "µs", "", heads[1], heads[2])}
	for i := range c.View.Controls {
		ct := &c.View.Controls[i]
		at, line, mark := "-", "", "  "
		if ct.Known {
			at, line = micros(ct.Width), reached(ct)
		}
		if c.View.Control == i {
			mark = "->"
		}
		out = append(out, row(mark, say(c.Book, tell.CheckName(ct)), at, line, seen[i], checkMark(WorstOf(c.View, i))))
	}
	return out
}

// seen is how far a control was taken: in how many positions, or between which values.
func (c *Checked) seen(ct *check.Control) string {
	switch {
	case ct.Form == check.Switch:
		n := 0
		for _, p := range ct.Places {
			if p.Seen {
				n++
			}
		}
		return say(c.Book, tell.CheckSeen(n, len(ct.Places)))
	case ct.Known:
		return micros(ct.Low) + "–" + micros(ct.High)
	}
	return ""
}

// reached draws where a control stands, with the way it has gone.
func reached(c *check.Control) string {
	line := []byte(pen(c.Width))
	if c.Form == check.Switch {
		return string(line)
	}
	at := func(w pulse.Width) int {
		return int(min(max(w, pulse.Low), pulse.High)-pulse.Low) * (penWidth - 1) / int(pulse.High-pulse.Low)
	}
	for i := at(c.Low); i <= at(c.High); i++ {
		if line[i] == '-' {
			line[i] = '='
		}
	}
	return string(line)
}

// WorstOf is the verdict that stands for control i: the worst of its items; Waiting only where none is worse than passing.
func WorstOf(v *check.View, i int) check.Verdict {
	worst, waits := check.Passes, false
	for k := range v.Items {
		if it := &v.Items[k]; it.Control == i {
			waits = waits || it.Verdict == check.Waiting
			worst = max(worst, it.Verdict)
		}
	}
	if worst == check.Passes && waits {
		return check.Waiting
	}
	return worst
}
