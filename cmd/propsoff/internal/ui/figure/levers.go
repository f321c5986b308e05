package figure

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// position is one span of a switch's channel and what the craft does there.
type position struct {
	span layout.Span
	Word words.Text
	gap  bool // no span of the craft file stands here
}

// mostPositions is how many positions of one switch are drawn; of more, those round the live one (ours).
const mostPositions = 5

// Lever is one switch as it is drawn: positions from high to low.
type Lever struct {
	Name    string
	Channel int8
	At      []position
	key     keyboard.Key // one key that changes it over, or 0
}

func (l *Lever) add(p position) {
	if p.span.Low < p.span.High {
		l.At = append(l.At, p)
	}
}

// Levers are the switches of a craft: arm, second, mode.
func Levers(v *ui.View) (all []Lever) {
	c := &v.Config.Layout
	for _, l := range [...]Lever{onOff("arm", c.Arm, c.ArmSpan, keyboard.Arm), onOff("second", c.Second, c.SecondSpan, keyboard.Second), modeLever(c)} {
		if l.Channel != layout.NoChannel {
			all = append(all, l)
		}
	}
	return all
}

func onOff(name string, channel int8, on layout.Span, key keyboard.Key) Lever {
	l := Lever{Name: name, Channel: channel, key: key}
	l.add(position{span: layout.Span{Low: on.High, High: pulse.Highest}, Word: tell.Position(false)})
	l.add(position{span: on, Word: tell.Position(true)})
	l.add(position{span: layout.Span{Low: pulse.Lowest, High: on.Low}, Word: tell.Position(false)})
	return l
}

func modeLever(c *layout.Config) Lever {
	l := Lever{Name: "mode", Channel: c.Mode}
	spans := c.Spans
	list := spans[:c.SpanCount]
	slices.SortFunc(list, func(a, b layout.ModeSpan) int { return int(b.Span.Low) - int(a.Span.Low) })
	top := pulse.Highest
	for _, s := range list {
		l.add(position{span: layout.Span{Low: s.Span.High, High: top}, Word: tell.Mode(layout.Rate), gap: true})
		l.add(position{span: s.Span, Word: tell.Mode(s.Mode)})
		top = s.Span.Low
	}
	l.add(position{span: layout.Span{Low: pulse.Lowest, High: top}, Word: tell.Mode(layout.Rate), gap: true})
	return l
}

// word is what the craft does in a position.
func (p *position) word() words.Text {
	if p.gap {
		return words.T("sheet.gap", words.Args{"mode": p.Word})
	}
	return p.Word
}

// Stands says where a switch stands, in one line.
func (l *Lever) Stands(v *ui.View) words.Text {
	w, name := v.Snap.In.Sent[l.Channel], tell.JobName(l.Name)
	if at := l.Live(w); at >= 0 && v.Snap.In.HasSent {
		return words.T("class.switch", words.Args{"name": name, "position": l.At[at].Word, "value": tell.Micros(w)})
	}
	return words.T("class.switch", words.Args{"name": name, "position": words.Text{}, "value": words.Quote("–")})
}

// Live is the position in which a width stands, −1 for none.
func (l *Lever) Live(w pulse.Width) int {
	return slices.IndexFunc(l.At, func(p position) bool { return p.span.Contains(w) })
}

// Keys are the keys of the keyboard's layout that move a switch, from high to low.
func (l *Lever) Keys() (all []string) {
	if l.key != 0 {
		return []string{ui.KeyOf(l.key)}
	}
	for i := range l.At {
		if k := modeKey(l.At[i].span); k != 0 && l.Name == "mode" {
			all = append(all, ui.KeyOf(k))
		}
	}
	return all
}

// positionHeight is the height of one position: its word over its span.
func (b *Board) positionHeight() float64 { return b.ForFinger(ink.BlockHeight(b.Small, 2) + 7*b.U) }

// leversHeight is what the switches take, 0 where the craft has none.
func (b *Board) leversHeight(all []Lever) float64 {
	most := 0
	for i := range all {
		for live := range all[i].At {
			most = max(most, len(b.shown(&all[i], live)))
		}
	}
	if most == 0 {
		return 0
	}
	return b.SectionHeight() + b.leverHead() + float64(most)*b.positionHeight()
}

// keyHit lets a key of the keyboard's layout be clicked.
func (b *Board) keyHit(key keyboard.Key, r ink.Rect) {
	for _, k := range ui.LayoutKeys {
		if k.Key == key {
			b.Hold(k.Code, k.Physical, r)
		}
	}
}

// LeverHit lets a position of a switch be pressed, wherever it is drawn, where the keyboard moves it and it is not there already.
func (b *Board) LeverHit(l *Lever, i int, live bool, r ink.Rect) {
	switch k := modeKey(l.At[i].span); {
	case !b.StickKeys():
	case l.Name == "mode" && k != 0:
		b.keyHit(k, r)
	case !live && l.key != 0:
		b.keyHit(l.key, r)
	}
}

// leverHead is the height of a lever's name and key.
func (b *Board) leverHead() float64 { return b.ForFinger(25 * b.U) }

// levers draws the switches side by side.
func (b *Board) levers(r ink.Rect, all []Lever) {
	b.Group("switches")
	rest := b.SectionOf(r, "switches-heading", words.T("sheet.switches"), words.T("sheet.switches-short"))
	var parts []ink.Part // each gets room in proportion to what its words take
	for i := range all {
		parts = append(parts, ink.Share(b.leverNeeds(&all[i]), 0))
	}
	for i, cell := range rest.Columns(nil, 6*b.U, parts...) {
		b.lever(cell, &all[i])
	}
}

// leverNeeds is the width that the words of a switch take.
func (b *Board) leverNeeds(l *Lever) float64 {
	head := ink.Width(b.Say(tell.JobName(l.Name))+" 2012", b.Small, ink.Bold) + 6*b.U
	if b.StickCaps() && l.key != 0 {
		head += b.CapWidth(b.Cap, ui.KeyOf(l.key)) + 5*b.U
	}
	need := 0.0
	for i := range l.At {
		need = max(need, ink.Width(b.Say(l.At[i].word()), b.Small, ink.Bold), ink.Width(b.Say(tell.SpanWords(l.At[i].span)), b.Small, ink.Regular))
	}
	need += 24 * b.U
	if b.StickCaps() && l.Name == "mode" {
		need += b.Cap + 3*b.U // a key beside each
	}
	return max(head, need)
}

// lever draws one switch: a slot with its positions, the lever standing at the live one, and beside each position what
// it means and where it begins and ends.
func (b *Board) lever(r ink.Rect, l *Lever) {
	w := b.V.Snap.In.Sent[l.Channel]
	known := b.V.Snap.In.HasSent && w.Valid()
	live := -1
	if known {
		live = l.Live(w)
	}
	head, rest := r.CutTop(b.leverHead(), 0)
	x := head.X
	if b.StickCaps() && l.key != 0 {
		key := ui.KeyOf(l.key)
		cw := b.CapWidth(b.Cap, key)
		b.KeyCap(l.Name+" key", x+cw/2, head.Centre().Y, b.Cap, key)
		x += cw + 5*b.U
	}
	if b.StickKeys() && l.key != 0 {
		b.keyHit(l.key, head)
	}
	box := b.Text(l.Name+" name", x, head.Centre().Y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Middle}, b.Say(tell.JobName(l.Name)))
	value := "–"
	if known {
		value = b.Say(tell.Plain(tell.Micros(w)))
	}
	at := box.Right() + 5*b.U // where there is no room for it, it is found among the channels
	b.WholeLine(l.Name+" value", ink.Rect{X: at, Y: head.Y, W: r.Right() - at, H: head.H}, ink.Style{Size: b.Small, Weight: ink.Bold}, words.AsIs(value))

	shown, h := b.shown(l, live), b.positionHeight()
	slot := rest.X + 7*b.U
	b.Line(l.Name+" slot", slot, rest.Y+h*0.3, slot, rest.Y+float64(len(shown))*h-h*0.3, ink.Paint{Line: ink.Rule, Width: 2 * b.U})
	for n, i := range shown {
		b.position(ink.Rect{X: rest.X, Y: rest.Y + float64(n)*h, W: rest.W, H: h}, l, i, i == live)
	}
}

// shown are the positions of a switch that are drawn: of many, those round the live one. For a finger, whose positions are high, those between the
// spans of the craft file are left out unless one is live.
func (b *Board) shown(l *Lever, live int) (all []int) {
	at := 0
	for i := range l.At {
		if i == live {
			at = len(all)
		}
		if !b.V.Touch || !l.At[i].gap || i == live {
			all = append(all, i)
		}
	}
	from := ui.ClampInt(at-mostPositions/2, 0, max(0, len(all)-mostPositions))
	return all[from:min(len(all), from+mostPositions)]
}

func (b *Board) position(r ink.Rect, l *Lever, i int, live bool) {
	p := &l.At[i]
	x, y := r.X+7*b.U, r.Centre().Y
	text := r.X + 20*b.U
	role, weight := ink.Faint, ink.Regular
	if live {
		role, weight = ink.Ink, ink.Bold
		b.RoundRect(l.Name+" live", ink.Rect{X: r.X + 15*b.U, Y: r.Y + 0.5*b.U, W: r.W - 15*b.U, H: r.H - b.U}, 3*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Rule})
		b.Rect(l.Name+" lever", ink.Rect{X: x - 7*b.U, Y: y - 4*b.U, W: 14 * b.U, H: 8 * b.U}, ink.Paint{Fill: ink.Ink})
	} else {
		b.Circle(l.Name+" place", x, y, 3*b.U, ink.Paint{Fill: ink.Paper, Line: ink.Rule})
	}
	line := ink.LineHeight(b.Small)
	top := r.Y + (r.H-ink.BlockHeight(b.Small, 2))/2 - 0.5*b.U
	width := r.Right() - text - 3*b.U
	k := modeKey(p.span)
	if !b.StickCaps() || l.Name != "mode" {
		k = 0
	}
	if k != 0 {
		width -= b.Cap + 3*b.U
	}
	one := ink.Block{Width: width, MaxLines: 1, Shorten: true}
	b.Block(l.Name+" position", text, top, ink.Style{Size: b.Small, Weight: weight, Within: r}, one, b.Say(p.word()))
	b.WholeLine(l.Name+" span", ink.Rect{X: text, Y: top + line, W: width, H: line}, ink.Style{Size: b.Small, Colour: role}, tell.SpanWords(p.span))
	if k != 0 {
		b.KeyCap("mode-key", r.Right()-11*b.U, y, b.Cap, ui.KeyOf(k))
	}
	b.LeverHit(l, i, live, r)
}

// modeKey is the key that puts the mode switch into a span, 0 for none.
func modeKey(s layout.Span) keyboard.Key {
	for i, w := range [...]pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
		if s.Contains(w) {
			return [...]keyboard.Key{keyboard.ModeLow, keyboard.ModeMiddle, keyboard.ModeHigh}[i]
		}
	}
	return 0
}
