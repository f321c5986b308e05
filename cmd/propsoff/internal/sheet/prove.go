package sheet

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/prove"
)

// ProveView is what the sheet of prove may know. Its texts are made by whoever fills it, in the words of phrase.
type ProveView struct {
	// Of says which craft and radio were searched, or are to be.
	Of string
	// Searching: a search is under way. Begun: there was one, finished or not. Stale: craft or radio have changed since.
	Searching, Begun, Stale bool
	// Status says how far the search is, or what it came to; Done is the share that was searched of all that is known of so
	// far, 0 … 1. It may go back, because what is found brings more to be searched.
	Status string
	Done   float64
	// CalledOut says what the layout sheet has to call out of the same craft and radio; empty for nothing.
	CalledOut string
	// Rules in their order, and the index of the one looked at.
	Rules    []ProvedRule
	Selected int
	// Moved lists what the search moves, a line each.
	Moved []string
	// From is the first step of the way that is shown, from 0.
	From int
}

// ProvedRule is one rule and what the search found of it.
type ProvedRule struct {
	Outcome prove.Outcome
	// Short names the rule in a few words, Rule says it whole, Says what was found.
	Short, Rule, Says string
	// Way is the title over the steps; empty where there is no way to show.
	Way   string
	Steps []ProvedStep
}

// ProvedStep is one line of a way.
type ProvedStep struct {
	// Number is empty for a wait and for the start.
	Number string
	// Text is what the hand does, Then what the bench did, At when.
	Text, Then, At string
}

// rulePrefix and a number from 1 name the hit areas of the rules.
const rulePrefix = "rule-"

// RuleOf finds the index in ProveView.Rules of a rule's hit area.
func RuleOf(code string) (int, bool) {
	if len(code) <= len(rulePrefix) || code[:len(rulePrefix)] != rulePrefix {
		return 0, false
	}
	n, err := strconv.Atoi(code[len(rulePrefix):])
	return n - 1, err == nil && n > 0
}

// Prove draws the search of every situation: how far it is, each rule, and the shortest way to a broken one.
func Prove(p *ink.Page, v *View) {
	b := newBoard(p, v)
	if v.Class {
		b.classProve()
		return
	}
	r := b.footer(b.sheetArea(), OnProve)
	r = b.searched(r)
	if b.tall {
		top, bottom := r.CutTop(math.Min(r.H*0.58, float64(len(v.Prove.Rules))*40*b.u+b.sectionHeight()), b.gap)
		b.rules(top)
		b.finding(bottom)
		return
	}
	left, right := r.CutLeft(r.W*0.45, b.gap*1.6)
	b.rules(left)
	b.finding(right)
}

// classProve draws the same for a room: fewer words, larger.
func (b *board) classProve() {
	h := math.Min(b.H, b.W*ink.LeastHeight/ink.LeastWidth)
	text := math.Ceil(h * classText)
	if b.tall { // a portrait screen has the height for more
		text = math.Ceil(text * 1.3)
	}
	b.small, b.body, b.head, b.large, b.cap = text, text, text, text, text*1.45
	r := b.searched(b.keysOf(OnProve, ShowWay, MoreSteps, TurnFullScreen, ShowHelp, Leave))
	rules := float64(len(b.v.Prove.Rules))*math.Max(ink.LineHeight(b.body)+3*b.u, 24*b.u) + b.sectionHeight()
	if b.tall {
		top, bottom := r.CutTop(math.Min(r.H*0.6, 1.4*rules), b.gap)
		b.rules(top)
		b.finding(bottom)
		return
	}
	left, right := r.CutLeft(r.W*0.48, b.gap*1.2)
	b.rules(left)
	b.finding(right)
}

// searched draws what is searched and how far it is; it gives what is left below.
func (b *board) searched(r ink.Rect) ink.Rect {
	b.Group("search")
	v := &b.v.Prove
	if !b.v.Class {
		r = b.section(r, "search heading", phrase.ProveTitle())
	}
	lines, _ := ink.CountLines(v.Of, r.W, b.small, ink.Regular)
	lines = min(lines, 2)
	row, r := r.CutTop(ink.BlockHeight(b.small, lines), 3*b.u)
	b.Block("searched", row.X, row.Y, ink.Style{Size: b.small, Colour: ink.Faint, Within: row}, ink.Block{Width: row.W, MaxLines: lines, Shorten: true}, v.Of)
	status := v.Status
	lines, _ = ink.CountLines(status, r.W, b.head, ink.Bold)
	lines = min(lines, 2)
	row, r = r.CutTop(ink.BlockHeight(b.head, lines), 3*b.u)
	b.Block("status", row.X, row.Y, ink.Style{Size: b.head, Weight: ink.Bold, Within: row}, ink.Block{Width: row.W, MaxLines: lines, Shorten: true}, status)
	if v.CalledOut != "" && !b.v.Class { // a room sees it on the layout sheet
		row, r = r.CutTop(ink.BlockHeight(b.small, 1), 3*b.u)
		b.Block("called out", row.X, row.Y, ink.Style{Size: b.small, Within: row}, ink.Block{Width: row.W, MaxLines: 1, Shorten: true}, v.CalledOut)
	}
	// The line is kept free when nothing is searched, so that the list stays where it is.
	row, r = r.CutTop(8*b.u, b.gap)
	if v.Searching {
		b.filling(row, v.Done)
	}
	return r
}

// rules draws the list: mark, name and outcome of each.
func (b *board) rules(r ink.Rect) {
	b.Group("rules")
	v := &b.v.Prove
	if !b.v.Class {
		r = b.section(r, "rules heading", phrase.RulesTitle())
	}
	if len(v.Rules) == 0 {
		return
	}
	least, most := math.Max(25.5*b.u, ink.LineHeight(b.body)+4*b.u), math.Max(34*b.u, ink.LineHeight(b.body)+10*b.u)
	if b.tall {
		most *= 1.4
	}
	// Where there is no room for all, those around the one looked at.
	n := min(len(v.Rules), int(r.H/least))
	from := 0
	if n < len(v.Rules) {
		n = max(n-1, 1) // a line says how many more there are
		from = clampInt(v.Selected-n/2, 0, len(v.Rules)-n)
		note := ink.Rect{X: r.X, Y: r.Bottom() - least, W: r.W, H: least}
		b.fitted("rules left", note, ink.Style{Size: b.body, Colour: ink.Faint}, phrase.Unlisted("rule", from, len(v.Rules)-n-from))
		r.H -= least
	}
	height := math.Min(r.H/float64(n), most)
	r.Y -= float64(from) * height
	for i := from; i < from+n; i++ {
		rule := &v.Rules[i]
		row := ink.Rect{X: r.X, Y: r.Y + float64(i)*height, W: r.W, H: height - 2*b.u}
		style := ink.Style{Size: b.body}
		if i == v.Selected {
			b.RoundRect("rule looked at", row, 4*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 1.6 * b.u})
			style.Weight = ink.Bold
		}
		outcome := phrase.Outcome(rule.Outcome, b.v.Prove.Begun)
		mark := ink.CapHeight(b.body, ink.Bold)*0.5 + 1.5*b.u
		b.outcomeMark(row.X+mark+6*b.u, row.Centre().Y, mark, rule.Outcome)
		word := ink.Width(outcome, b.body, ink.Bold)
		x := row.X + 2*mark + 13*b.u
		b.fitted("rule", ink.Rect{X: x, Y: row.Y, W: row.Right() - x - word - 16*b.u, H: row.H}, style, rule.Short)
		b.Text("outcome", row.Right()-7*b.u, row.Centre().Y, ink.Style{Size: b.body, Weight: ink.Bold, Anchor: ink.Right | ink.Middle, Within: row}, outcome)
		b.Hit(rulePrefix+strconv.Itoa(i+1), "", ink.Rect{X: row.X, Y: row.Y - b.u, W: row.W, H: height})
	}
}

// outcomeMark tells an outcome by shape and colour: a tick for what holds, a filled triangle for what is broken, a half-filled
// diamond for what comes with the method, a bar for what is not asked, a broken ring for what is not decided.
func (b *board) outcomeMark(x, y, d float64, o prove.Outcome) {
	w := math.Max(1.5, d*0.24)
	switch o {
	case prove.Holds:
		pts := [...]ink.Point{{X: x - d*0.9, Y: y}, {X: x - d*0.2, Y: y + d*0.75}, {X: x + d, Y: y - d*0.85}}
		b.Polyline("holds", pts[:], ink.Paint{Line: ink.Link, Width: w * 1.3})
	case prove.Broken:
		a := [...]ink.Point{{X: x, Y: y - d}, {X: x + d*1.1, Y: y + d*0.9}, {X: x - d*1.1, Y: y + d*0.9}}
		b.Polygon("broken", a[:], ink.Paint{Fill: ink.Armed})
	case prove.WithIt:
		a := [...]ink.Point{{X: x, Y: y - d*1.1}, {X: x + d*1.1, Y: y}, {X: x, Y: y + d*1.1}, {X: x - d*1.1, Y: y}}
		b.Polygon("comes with it", a[:], ink.Paint{Line: ink.Focus, Width: w})
		h := [...]ink.Point{{X: x, Y: y - d*1.1}, {X: x, Y: y + d*1.1}, {X: x - d*1.1, Y: y}}
		b.Polygon("half", h[:], ink.Paint{Fill: ink.Focus})
	case prove.Undecided:
		b.Circle("undecided", x, y, d, ink.Paint{Line: ink.Ink, Width: w, Dash: ink.Dash{On: d * 0.6, Off: d * 0.5}})
	default:
		b.Line("not asked", x-d, y, x+d, y, ink.Paint{Line: ink.Rule, Width: w})
	}
}

// finding draws the rule that is looked at: the rule, what was found, and the way as numbered steps.
func (b *board) finding(r ink.Rect) {
	b.Group("finding")
	v := &b.v.Prove
	if v.Selected < 0 || v.Selected >= len(v.Rules) {
		return
	}
	rule := &v.Rules[v.Selected]
	size := b.large
	if !b.v.Class {
		r = b.section(r, "finding heading", phrase.FindingTitle())
		size, _ = ink.FitBlock(r.W, ink.BlockHeight(b.large, 2), b.head, b.large, ink.Bold, rule.Rule)
	}
	h, _ := b.Block("rule whole", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, rule.Rule)
	_, r = r.CutTop(h, 5*b.u)
	h, _ = b.Block("found", r.X, r.Y, ink.Style{Size: b.head, Within: r}, ink.Block{Width: r.W}, rule.Says)
	_, r = r.CutTop(h, b.gap)
	if rule.Way == "" {
		b.moved(r)
		return
	}
	if b.v.Class {
		h, _ = b.Block("way", r.X, r.Y, ink.Style{Size: b.body, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, rule.Way)
		_, r = r.CutTop(h, 3*b.u)
	} else {
		r = b.section(r, "way heading", rule.Way)
	}
	b.way(r, rule.Steps)
}

// moved lists what the search moves, where there is no way to show.
func (b *board) moved(r ink.Rect) {
	lines := b.v.Prove.Moved
	if len(lines) == 0 || r.H < 4*ink.LineHeight(b.body) {
		return
	}
	if b.v.Class {
		b.fitted("moved heading", ink.Rect{X: r.X, Y: r.Y, W: r.W, H: ink.BlockHeight(b.body, 1)}, ink.Style{Size: b.body, Weight: ink.Bold}, phrase.MovedTitle())
		_, r = r.CutTop(ink.BlockHeight(b.body, 1), 3*b.u)
	} else {
		r = b.section(r, "moved heading", phrase.MovedTitle())
	}
	y := r.Y
	for i, text := range lines {
		n, _ := ink.CountLines(text, r.W, b.body, ink.Regular)
		h := ink.BlockHeight(b.body, n)
		room := r.Bottom() - y
		if i < len(lines)-1 {
			room -= ink.BlockHeight(b.body, 1) + 3*b.u
		}
		if h > room {
			b.fitted("moved left", ink.Rect{X: r.X, Y: y, W: r.W, H: ink.BlockHeight(b.body, 1)}, ink.Style{Size: b.body, Colour: ink.Faint}, phrase.MovedLeft(len(lines)-i))
			return
		}
		b.Block("moved", r.X, y, ink.Style{Size: b.body, Within: r}, ink.Block{Width: r.W}, text)
		y += h + 3*b.u
	}
}

// way draws steps from v.From on, as many as there is room for; the rest are counted.
func (b *board) way(r ink.Rect, steps []ProvedStep) {
	size := b.body
	from := max(min(b.v.Prove.From, len(steps)-1), 0)
	if b.v.Class && from == 0 && len(steps) > 1 {
		from = 1 // how everything stands at the beginning is left to the window
	}
	clock := 0.0
	for i := range steps {
		clock = math.Max(clock, ink.Width(steps[i].At, size, ink.Regular))
	}
	if b.v.Class {
		clock = 0 // times are left to the window
	}
	number := ink.Width("00", size, ink.Bold) + 8*b.u
	one := ink.BlockHeight(size, 1)
	y := r.Y
	for i := from; i < len(steps); i++ {
		s := &steps[i]
		text := ink.Rect{X: r.X + number, Y: y, W: r.W - number - clock - 10*b.u}
		n, _ := ink.CountLines(s.Text, text.W, size, ink.Regular)
		m := 0
		if s.Then != "" {
			m, _ = ink.CountLines(s.Then, text.W, size, ink.Bold)
		}
		need := ink.BlockHeight(size, n) + ink.BlockHeight(size, m)
		left := len(steps) - i
		room := r.Bottom() - y
		if left > 1 {
			room -= one + 4*b.u
		}
		if need > room {
			b.fitted("steps left", ink.Rect{X: text.X, Y: y, W: text.W, H: one}, ink.Style{Size: size, Colour: ink.Faint}, phrase.StepsLeft(left))
			return
		}
		style := ink.Style{Size: size, Within: r}
		if s.Number == "" {
			style.Colour = ink.Faint
		} else {
			b.Text("step number", r.X+number-8*b.u, y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Right | ink.Top, Within: r}, s.Number)
		}
		if clock > 0 {
			b.Text("step time", r.Right(), y, ink.Style{Size: size, Colour: ink.Faint, Anchor: ink.Right | ink.Top, Within: r}, s.At)
		}
		h, _ := b.Block("step", text.X, y, style, ink.Block{Width: text.W}, s.Text)
		y += h
		if s.Then != "" {
			h, _ = b.Block("step did", text.X, y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: text.W}, s.Then)
			y += h
		}
		y += 4 * b.u
	}
}

// steps are those of the rule that is looked at.
func (v *ProveView) steps() []ProvedStep {
	if v.Selected < 0 || v.Selected >= len(v.Rules) {
		return nil
	}
	return v.Rules[v.Selected].Steps
}
