package terminal

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/input/check"
	"propsoff/sim/pulse"
)

// Checked is a controls check in the terminal.
type Checked struct {
	// Book is its language, nil for English.
	Book *words.Book
	// Radio is its name; Notices are shown below the head.
	Radio   string
	Notices []words.Text
	View    *check.View
	// At is how long it has gone on, in µs.
	At int64
}

// checkItem is an item as a line of JSON. Widths are µs, rates reports a second; null where nothing was measured.
type checkItem struct {
	At      int64       `json:"t_us"`
	Code    string      `json:"code"`
	Control string      `json:"control,omitempty"`
	Called  string      `json:"called,omitempty"`
	Channel int         `json:"channel,omitempty"`
	Item    string      `json:"item"`
	Verdict string      `json:"verdict"`
	Value   json.Number `json:"value,omitempty"`
	Bound   bool        `json:"at_least_that,omitempty"`
	Side    string      `json:"must_be"`
	Limit   json.Number `json:"limit"`
	Unit    string      `json:"unit"`
	Why     string      `json:"matters,omitempty"`
	Cure    string      `json:"do,omitempty"`
	Text    string      `json:"text"`
	WhyText string      `json:"matters_text,omitempty"`
	DoText  string      `json:"do_text,omitempty"`
}

// AppendItemJSON appends one item as a line of JSON with the code "check-item".
func (c *Checked) AppendItemJSON(dst []byte, it *check.Item) []byte {
	return appendObject(dst, c.item(it))
}

func (c *Checked) item(it *check.Item) checkItem {
	number := func(n int64) json.Number {
		if it.Unit == check.Micros || it.Unit == check.PerSecond {
			return json.Number(thousandths(n))
		}
		return json.Number(strconv.FormatInt(n, 10))
	}
	out := checkItem{
		At: c.At, Code: "check-item", Item: it.Kind.Code(), Verdict: it.Verdict.Code(), Bound: it.Bound, Side: it.Side.Code(), Limit: number(it.Limit), Unit: it.Unit.Code(),
		Why: it.Why.Code(), Cure: it.Cure.Code(), Text: english(tell.CheckVerdictOf(c.View, it)), WhyText: english(tell.CheckWhy(it.Why)), DoText: english(tell.CheckCure(c.View, it)),
	}
	if it.Known {
		out.Value = number(it.Value)
	}
	if it.Control >= 0 {
		ct := &c.View.Controls[it.Control]
		out.Control, out.Called, out.Channel = ct.Job, ct.Called, ct.Channel+1
	}
	return out
}

// AppendItem appends one item as a line of text.
func (c *Checked) AppendItem(dst []byte, it *check.Item) []byte {
	return fmt.Appendf(dst, "%s  %s %s\n", c.clock(), checkMark(it.Verdict), say(c.Book, tell.CheckVerdictOf(c.View, it)))
}

// checkMark tells a verdict by its shape.
func checkMark(v check.Verdict) string {
	return [check.VerdictCount]string{check.Waiting: "..", check.Passes: "ok", check.Warns: "! ", check.Fails: "XX"}[v]
}

// clock is how long it has gone on, in a column.
func (c *Checked) clock() string { return right(say(c.Book, tell.CheckAt(c.At)), 9) }

// AppendAsk appends what is asked for as a line of text.
func (c *Checked) AppendAsk(dst []byte) []byte {
	return fmt.Appendf(dst, "%s  -> %s\n", c.clock(), say(c.Book, tell.CheckAsk(c.View)))
}

// AppendAskJSON appends what is asked for as a line of JSON with the code "check-asks".
func (c *Checked) AppendAskJSON(dst []byte) []byte {
	line := struct {
		At      int64  `json:"t_us"`
		Code    string `json:"code"`
		Asks    string `json:"asks"`
		Control string `json:"control,omitempty"`
		Text    string `json:"text"`
	}{At: c.At, Code: "check-asks", Asks: c.View.Ask.Code(), Text: english(tell.CheckAsk(c.View))}
	if c.View.Control >= 0 {
		line.Control = c.View.Controls[c.View.Control].Job
	}
	return appendObject(dst, line)
}

// AppendSaid appends a notice as a line of text.
func (c *Checked) AppendSaid(dst []byte, text words.Text) []byte {
	return fmt.Appendf(dst, "%s  %s\n", c.clock(), say(c.Book, text))
}

// AppendSaidJSON appends a notice as a line of JSON with the code "notice".
func (c *Checked) AppendSaidJSON(dst []byte, text words.Text) []byte {
	return appendObject(dst, struct {
		At   int64  `json:"t_us"`
		Code string `json:"code"`
		Text string `json:"text"`
	}{c.At, "notice", english(text)})
}

// AppendEndJSON appends the summary as a line of JSON with the code "check-finished": whether everything was seen, counts by
// verdict, and every item once more.
func (c *Checked) AppendEndJSON(dst []byte) []byte {
	v := c.View
	line := struct {
		At      int64       `json:"t_us"`
		Code    string      `json:"code"`
		Radio   string      `json:"radio"`
		Whole   bool        `json:"whole"`
		Passes  int         `json:"passes"`
		Warns   int         `json:"warns"`
		Fails   int         `json:"fails"`
		Waiting int         `json:"waiting"`
		Lost    int         `json:"lost"`
		Gone    int         `json:"gone"`
		Away    json.Number `json:"away_s"`
		Items   []checkItem `json:"items"`
		Text    string      `json:"text"`
	}{
		At: c.At, Code: "check-finished", Radio: c.Radio, Whole: v.Settled, Passes: v.Count[check.Passes], Warns: v.Count[check.Warns], Fails: v.Count[check.Fails],
		Waiting: v.Count[check.Waiting], Lost: v.Lost, Gone: v.Gone, Away: json.Number(thousandths(v.OutFor / 1000)), Text: english(tell.CheckSum(v)),
	}
	for i := range v.Items {
		line.Items = append(line.Items, c.item(&v.Items[i]))
	}
	return appendObject(dst, line)
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

// AppendEnd appends the table of every item, what is to be seen to, and the sum.
func (c *Checked) AppendEnd(dst []byte) []byte {
	v, w := c.View, c.columns()
	dst = append(dst, '\n')
	for i := range v.Items {
		dst = append(append(dst, c.row(&v.Items[i], w)...), '\n')
	}
	for _, it := range Findings(v) {
		dst = fmt.Appendf(dst, "\n%s %s\n", checkMark(it.Verdict), say(c.Book, tell.CheckVerdictOf(v, &it)))
		for _, text := range []words.Text{tell.CheckWhyLine(it.Why), tell.CheckDoLine(v, &it)} {
			for _, line := range wrap(say(c.Book, text), 110) {
				dst = fmt.Appendf(dst, "   %s\n", line)
			}
		}
	}
	dst = fmt.Appendf(dst, "\n%s\n", say(c.Book, tell.CheckSum(v)))
	if !v.Settled {
		dst = fmt.Appendf(dst, "%s\n", say(c.Book, tell.CheckUnfinished(v.Count[check.Waiting])))
	}
	return dst
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
	out = append(out, wrap("-> "+say(c.Book, tell.CheckAsk(v)), columns)...)
	out = append(append(out, ""), c.controlRows(w)...)
	out = append(out, "")
	for i := range v.Items {
		if it := &v.Items[i]; it.Control < 0 || it.Control == v.Control || it.Verdict > check.Passes {
			out = append(out, c.row(it, w))
		}
	}
	return fit(append(out, "", say(c.Book, tell.CheckSum(v))), columns, rows)
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
