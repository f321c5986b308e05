package terminal

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/check"
	"propsoff/sim/pulse"
)

// Checked is a controls check in the terminal.
type Checked struct {
	// Radio is its name; Notices are shown below the head.
	Radio   string
	Notices []string
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
			return json.Number(phrase.Thousandths(n))
		}
		return json.Number(strconv.FormatInt(n, 10))
	}
	out := checkItem{
		At: c.At, Code: "check-item", Item: it.Kind.Code(), Verdict: it.Verdict.Code(), Bound: it.Bound, Side: it.Side.Code(), Limit: number(it.Limit), Unit: it.Unit.Code(),
		Why: it.Why.Code(), Cure: it.Cure.Code(), Text: phrase.CheckVerdictOf(c.View, it), WhyText: phrase.CheckWhy(it.Why), DoText: phrase.CheckCure(c.View, it),
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
	return fmt.Appendf(dst, "%s  %s %s\n", checkClock(c.At), checkMark(it.Verdict), mouth.Printable(phrase.CheckVerdictOf(c.View, it)))
}

// checkMark tells a verdict by its shape.
func checkMark(v check.Verdict) string {
	return [check.VerdictCount]string{check.Waiting: "..", check.Passes: "ok", check.Warns: "! ", check.Fails: "XX"}[v]
}

func checkClock(us int64) string { return fmt.Sprintf("%7.1f s", float64(us)/1e6) }

// AppendAsk appends what is asked for as a line of text.
func (c *Checked) AppendAsk(dst []byte) []byte {
	return fmt.Appendf(dst, "%s  -> %s\n", checkClock(c.At), mouth.Printable(phrase.CheckAsk(c.View)))
}

// AppendAskJSON appends what is asked for as a line of JSON with the code "check-asks".
func (c *Checked) AppendAskJSON(dst []byte) []byte {
	line := struct {
		At      int64  `json:"t_us"`
		Code    string `json:"code"`
		Asks    string `json:"asks"`
		Control string `json:"control,omitempty"`
		Text    string `json:"text"`
	}{At: c.At, Code: "check-asks", Asks: c.View.Ask.Code(), Text: phrase.CheckAsk(c.View)}
	if c.View.Control >= 0 {
		line.Control = c.View.Controls[c.View.Control].Job
	}
	return appendObject(dst, line)
}

// AppendSaid appends a notice as a line of text.
func (c *Checked) AppendSaid(dst []byte, text string) []byte {
	return fmt.Appendf(dst, "%s  %s\n", checkClock(c.At), mouth.Printable(text))
}

// AppendSaidJSON appends a notice as a line of JSON with the code "notice".
func (c *Checked) AppendSaidJSON(dst []byte, text string) []byte {
	return appendObject(dst, struct {
		At   int64  `json:"t_us"`
		Code string `json:"code"`
		Text string `json:"text"`
	}{c.At, "notice", text})
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
		Waiting: v.Count[check.Waiting], Lost: v.Lost, Gone: v.Gone, Away: json.Number(phrase.Thousandths(v.OutFor / 1000)), Text: phrase.CheckSum(v),
	}
	for i := range v.Items {
		line.Items = append(line.Items, c.item(&v.Items[i]))
	}
	return appendObject(dst, line)
}

// checkRow is one line of the table: mark, control, item, verdict, measured, limit.
func (c *Checked) row(it *check.Item) string {
	s := fmt.Sprintf("%s %s %-15s %-7s %s", checkMark(it.Verdict), padded(phrase.CheckOf(c.View, it), 18), phrase.CheckItem(it.Kind), phrase.CheckVerdict(it.Verdict),
		padded(phrase.CheckValue(it), 17))
	if it.Verdict > check.Passes || it.Verdict == check.Waiting {
		s += " must be " + phrase.CheckLimit(it)
	}
	return strings.TrimRight(s, " ")
}

// padded is a text of at least so many places, and shortened where it is longer.
func padded(s string, places int) string {
	s = mouth.Printable(s)
	if n := utf8.RuneCountInString(s); n < places {
		return s + strings.Repeat(" ", places-n)
	}
	return string([]rune(s)[:places])
}

// AppendEnd appends the table of every item, what is to be seen to, and the sum.
func (c *Checked) AppendEnd(dst []byte) []byte {
	v := c.View
	dst = append(dst, '\n')
	for i := range v.Items {
		dst = append(append(dst, c.row(&v.Items[i])...), '\n')
	}
	for _, it := range Findings(v) {
		dst = fmt.Appendf(dst, "\n%s %s\n", checkMark(it.Verdict), mouth.Printable(phrase.CheckVerdictOf(v, &it)))
		for _, text := range []string{phrase.CheckWhyWord() + phrase.CheckWhy(it.Why), phrase.CheckDoWord() + phrase.CheckCure(v, &it)} {
			for _, line := range wrap(mouth.Printable(text), 110) {
				dst = fmt.Appendf(dst, "   %s\n", line)
			}
		}
	}
	dst = fmt.Appendf(dst, "\n%s\n", phrase.CheckSum(v))
	if !v.Settled {
		dst = fmt.Appendf(dst, "%s\n", phrase.CheckUnfinished(v.Count[check.Waiting]))
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
	v := c.View
	out := []string{"propsoff check · " + c.Radio + " · " + strings.TrimSpace(checkClock(c.At))}
	for _, n := range c.Notices {
		out = append(out, wrap(n, columns)...)
	}
	out = append(out, "")
	out = append(out, wrap("-> "+phrase.CheckAsk(v), columns)...)
	out = append(out, "", fmt.Sprintf("   %-18s %5s  %-*s  %-13s %s", "control", "µs", penWidth, "", "ends seen", "so far"))
	for i := range v.Controls {
		out = append(out, c.controlRow(i))
	}
	out = append(out, "")
	for i := range v.Items {
		if it := &v.Items[i]; it.Control < 0 || it.Control == v.Control || it.Verdict > check.Passes {
			out = append(out, c.row(it))
		}
	}
	out = append(out, "", phrase.CheckSum(v))
	if rows > 0 && len(out) > rows {
		out = out[:rows]
	}
	for i := range out {
		out[i] = cut(out[i], columns)
	}
	return out
}

// controlRow is one control as it stands, how far it was taken, and the worst that is known of it.
func (c *Checked) controlRow(i int) string {
	v := c.View
	ct := &v.Controls[i]
	at, line := "-", ""
	if ct.Known {
		at, line = phrase.Micros(ct.Width), reached(ct)
	}
	seen := ""
	switch {
	case ct.Form == check.Switch:
		n := 0
		for _, p := range ct.Places {
			if p.Seen {
				n++
			}
		}
		seen = phrase.CheckSeen(n, len(ct.Places))
	case ct.Known:
		seen = phrase.Micros(ct.Low) + "–" + phrase.Micros(ct.High)
	}
	mark := "  "
	if v.Control == i {
		mark = "->"
	}
	return strings.TrimRight(fmt.Sprintf("%s %s %5s  %-*s  %s %s", mark, padded(phrase.CheckName(ct), 18), at, penWidth, line, padded(seen, 13), checkMark(WorstOf(v, i))), " ")
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
