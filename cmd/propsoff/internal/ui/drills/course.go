package drills

import (
	"path/filepath"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/drill"
)

// board is a page with the sheet of drills on it.
type board struct{ *figure.Board }

// Draw draws the course of drills, or the drill that runs.
func Draw(p *ink.Page, v *ui.View) {
	d := Of(v)
	if d.Run.On || d.Run.Over != nil {
		b, r := open(p, v)
		b.run(r)
		return
	}
	on, r := figure.Open(p, v, ui.OnDrills)
	(&board{on}).course(r)
}

// open begins the page of a run: the keys that are of use now at its lower edge, and over them what there is to know of the run; who drives is known.
func open(p *ink.Page, v *ui.View) (*board, ink.Rect) {
	b := &board{figure.NewBoard(p, v)}
	if v.Class {
		return b, b.ClassKeys(ui.OnDrills)
	}
	r := b.Actions(b.SheetArea(), ui.OnDrills)
	b.Group("driver")
	for _, t := range [...]words.Text{Of(v).Kept, Of(v).Trouble} { // and nothing that is not about the drill
		if !t.Empty() {
			r = b.Notice(r, ui.Notice{Text: t})
		}
	}
	return b, r
}

// course lists the chapters, or the drills of the one that is open; beside them stands what there is to know of the one looked at.
func (b *board) course(r ink.Rect) {
	b.Group("course")
	v := Of(b.V)
	size, share := b.TextSize(20), 0.6
	if b.V.Class { // one column, its names whole, and what the drill is about told whole
		size, share = b.Body*1.2, 0.57
	}
	title := words.T("drill.title", words.Args{"course": v.Course})
	if !v.atChapters() && len(v.Chapters) > 0 {
		title = words.T("drill.title", words.Args{"course": v.Chapters[v.Chapter].Name})
	}
	d := b.Down(r, 2*b.U)
	b.Fitted("title", d.Row(ink.BlockHeight(size, 1)), ink.Style{Size: size, Weight: ink.Bold}, b.Say(title))
	name, next := "next", tell.DrillNext(v.name(v.Next), v.Why)
	d.Gap = 6 * b.U
	if b.V.Class && !v.Trouble.Empty() { // a class has no notices at its foot
		name, next = "trouble", v.Trouble
	}
	d.Say(name, next, ink.Style{Size: b.Head, Weight: ink.Bold})
	high := 0.58
	if v.atChapters() {
		high = 0.8
	}
	left, right := b.Split(d.R, d.R.W*share, d.R.H*high, 1.6)
	if v.atChapters() {
		b.pages("chapters", left, len(v.Chapters), v.Looked, b.chapter)
	} else {
		all := v.listed()
		at := max(slices.Index(all, v.Selected), 0)
		rest := b.pages("chapter "+strconv.Itoa(v.Chapter), left, len(all), at, func(row ink.Rect, k int) { b.row(row, all[k]) })
		b.about(rest)
	}
	b.facts(right)
}

// about draws below a list that leaves room what the drill looked at is about.
func (b *board) about(r ink.Rect) {
	v := Of(b.V)
	if v.Selected >= len(v.Drills) || r.H < 7*b.Body {
		return
	}
	b.Group("picture")
	said, size := &v.Drills[v.Selected].Cases[0], min(r.H, r.W*0.5, 25*b.Body)
	name := said.Picture
	if name == "" && said.Motor.Place != "" {
		name = "motors"
	}
	b.picture(ink.Rect{X: r.Centre().X - size/2, Y: r.Centre().Y - size/2, W: size, H: size}, name)
}

// name is what drill i is called, nothing for −1.
func (v *View) name(i int) (name words.Text) {
	if i >= 0 && i < len(v.Drills) {
		name = tell.DrillText(v.Drills[i].Config.Code, v.Drills[i].Name)
	}
	return name
}

// aPage is how many rows a list has on one page at most where a finger points: as many as fingers find their way among.
const aPage = 8

// pages lists n rows on pages of as many as there is room for, for a finger of eight at most: the page of the one looked at, and how many there are besides.
// It gives what is left below.
func (b *board) pages(name string, r ink.Rect, n, at int, draw func(row ink.Rect, i int)) (rest ink.Rect) {
	if n == 0 {
		return r
	}
	least, room := max(ink.BlockHeight(b.Body, 1)+8*b.U, b.Least()+b.U), r
	pages := func() int {
		per := max(1, int(r.H/least))
		if b.V.Touch {
			per = min(per, aPage)
		}
		return (n + per - 1) / per
	}
	line := max(ink.BlockHeight(b.Small, 1)+6*b.U, b.Least())
	if pages() > 1 {
		_, r = room.CutBottom(line, 0)
	}
	per := (n + pages() - 1) / pages() // pages of one length
	most := 1.3 * least                // in a large window they stay together
	if Of(b.V).atChapters() && (!b.V.Touch || b.Tall || r.W >= 48*b.Body) {
		most = 1.8 * least // each with the names of its drills
	}
	if b.Tall {
		most *= 2.2
	}
	h := min(r.H/float64(per), most)
	place := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: float64(per) * h}
	first, end := b.Rolled(name, place, slices.Repeat([]float64{h}, n), at, at/per*per)
	for k := first; k < end; k++ {
		if y := r.Y + float64(k-first)*h; k > first {
			b.Line("row-rule", r.X, y, r.Right(), y, ink.Paint{Line: ink.Grid, Under: true})
		}
		draw(ink.Rect{X: r.X, Y: r.Y + float64(k-first)*h, W: r.W, H: h}, k)
	}
	if per < n {
		left := ink.Rect{X: r.X, Y: place.Bottom(), W: r.W, H: line}
		b.Unlisted(name, left, first, end, n)
		_, rest = room.CutTop(left.Bottom()-room.Y, b.Gap)
		return rest
	}
	_, rest = r.CutTop(place.H, b.Gap)
	return rest
}

// chapter is one chapter: its name, how many of its drills are learned, and how many wait.
func (b *board) chapter(r ink.Rect, i int) {
	v := Of(b.V)
	c := &v.Chapters[i]
	learned, due := 0, 0
	for _, k := range c.Drills {
		card := &v.Cards[k]
		if card.Box > 0 && !card.Failed {
			learned++
		}
		if card.Box > 0 && card.Due <= v.Day {
			due++
		}
	}
	style := ink.Style{Size: b.Body}
	if i == v.Looked {
		style.Weight = ink.Bold
		b.Chosen(r)
	}
	in := r.Inset(6 * b.U)
	in.Y, in.H = r.Y, r.H
	back := words.Text{}
	if due > 0 {
		back = tell.Plain(words.Whole(due))
	}
	stands := b.Say(words.T("drill.chapter-stands", words.Args{"learned": words.Whole(learned), "n": words.Whole(len(c.Drills)), "due": back}))
	name := b.Say(words.T("drill.chapter", words.Args{"n": words.Whole(i + 1), "name": c.Name}))
	if ink.Width(stands, b.Small, ink.Regular)+ink.Width(name, b.Body, ink.Bold)+12*b.U < in.W {
		in = b.AtRight(in, "stands "+strconv.Itoa(i+1), stands, ink.Style{Size: b.Small, Colour: ink.Faint}, 2*b.U, 6*b.U)
	}
	d := b.Body * 0.42 // a mark for each of its drills, where there is room
	if b.Tall {
		d = min(r.H*0.2, in.W*0.03)
	}
	if all := 3 * d * float64(len(c.Drills)); ink.Width(name, b.Body, ink.Bold)+all+2*b.Gap < in.W {
		for k, n := range c.Drills {
			b.mark(in.Right()-all+3*d*float64(k)+d, r.Centre().Y, d, &v.Cards[n], v.Day)
		}
		in.W -= all + b.Gap
	}
	if line, second := ink.BlockHeight(b.Body, 1), ink.BlockHeight(b.Small, 1); r.H >= line+second+10*b.U && r.W >= 48*b.Body && !b.V.Class {
		in.Y, in.H = r.Y+(r.H-line-second)/2, line
		b.names(in, second, c.Drills)
	}
	b.Fitted("chapter "+strconv.Itoa(i+1), in, style, name)
	b.Hit(chapterPrefix+strconv.Itoa(i+1), "", r)
}

// names writes under a line the names of drills, as many as there is room for whole.
func (b *board) names(line ink.Rect, high float64, drills []int) {
	all := ""
	for _, i := range drills {
		more := b.Say(Of(b.V).name(i))
		if all != "" {
			more = all + " · " + more
		}
		if ink.Width(more+" · …", b.Small, ink.Regular) > line.W {
			all += " · …"
			break
		}
		all = more
	}
	b.Fitted("names", ink.Rect{X: line.X, Y: line.Bottom(), W: line.W, H: high}, ink.Style{Size: b.Small, Colour: ink.Faint}, all)
}

// row is one drill: its mark, its name, and how it stands where there is room for that; else its mark tells, and the words beside the list do.
func (b *board) row(r ink.Rect, i int) {
	v := Of(b.V)
	style := ink.Style{Size: b.Body}
	if i == v.Selected {
		style.Weight = ink.Bold
		b.Chosen(r)
	}
	indent := b.indent(r.H)
	d := (indent - 14*b.U) / 2
	b.mark(r.X+4*b.U+d, r.Centre().Y, d, &v.Cards[i], v.Day)
	name, stands := b.Say(v.name(i)), b.Say(tell.DrillStands(&v.Cards[i], v.Day))
	_, in := r.CutLeft(indent-4*b.U, 0)
	in.W -= 4 * b.U
	if w := ink.Width(stands, b.Small, ink.Regular) + 2*b.U; w+6*b.U+ink.Width(name, b.Body, ink.Bold)+2*b.U < in.W {
		in = b.AtRight(in, "stands "+strconv.Itoa(i+1), stands, ink.Style{Size: b.Small, Colour: ink.Faint}, 2*b.U, 6*b.U)
	}
	b.Fitted("drill "+strconv.Itoa(i+1), in, style, name)
	b.Hit(drillPrefix+strconv.Itoa(i+1), "", r)
}

// indent is what the mark takes in a row of a height, with the room around it.
func (b *board) indent(h float64) float64 { return min(h-6*b.U, ink.BlockHeight(b.Small, 1)) + 14*b.U }

// mark tells by its shape how a drill stands on a day: an empty ring is untried, one with a dot due, a half-filled one learned, one with a tick
// mastered, and a cross failed.
func (b *board) mark(x, y, d float64, c *drill.Card, day int32) {
	line := b.ringLine(d)
	in := d - line.Width/2
	switch {
	case c.Box == 0:
	case c.Failed, c.Due > day && c.Mastered():
		b.verdict(x, y, d, !c.Failed)
		return
	case c.Due <= day:
		b.Circle("due", x, y, in*0.42, ink.Paint{Fill: ink.Ink})
	default:
		b.Arc("learned", x, y, in*0.5, -1.57, 1.57, ink.Paint{Line: ink.Ink, Width: in})
	}
	b.Circle("ring", x, y, in, line)
}

// verdict is a tick in a ring for what is right, a cross for what is not.
func (b *board) verdict(x, y, d float64, right bool) {
	line := b.ringLine(d)
	if d -= line.Width / 2; right {
		b.Tick("mastered", x, y, d*0.55, line)
		b.Circle("ring", x, y, d, line)
	} else {
		b.Cross("failed", x, y, d*0.7, line)
	}
}

// ringLine is the line of a mark so large.
func (b *board) ringLine(d float64) ink.Paint {
	return ink.Paint{Line: ink.Ink, Width: max(1.3*b.U, d*0.16)}
}

// facts is what there is to know of the drill looked at, or of the chapter.
func (b *board) facts(r ink.Rect) {
	v := Of(b.V)
	if v.Selected < 0 || v.Selected >= len(v.Drills) {
		return
	}
	b.Group("facts")
	one := v.Drills[v.Selected]
	body := ink.Style{Size: b.Body}
	if !b.V.Class {
		goes := words.T("drill.not-kept", words.Args{"why": words.T("drill.nobody")})
		if v.Pupil != "" {
			goes = words.T("drill.kept", words.Args{"pupil": words.Quote(v.Pupil), "path": words.Quote(filepath.Dir(v.Where))})
		}
		kept := words.AsIs(ui.BreakLong(b.Say(goes), r.W, b.Small, ink.Regular))
		_, r = b.Foot(r, 6*b.U, 3, "kept", kept, ink.Style{Size: b.Small, Colour: ink.Faint})
	}
	d := b.Down(r, 6*b.U)
	if v.atChapters() {
		c := &v.Chapters[v.Looked]
		if !b.V.Class {
			d.Lines(2, "name", b.Say(c.Name), ink.Style{Size: b.Large, Weight: ink.Bold})
		}
		one := ink.BlockHeight(b.Body, 1)
		x := d.R.X
		_, d.R = d.R.CutLeft(one, 6*b.U)
		for _, i := range c.Drills {
			y := d.R.Y
			if d.Lines(2, "holds", b.Say(v.name(i)), body); d.R.Y > y {
				b.mark(x+one*0.45, y+one*0.5, one*0.38, &v.Cards[i], v.Day)
			}
		}
		return
	}
	_, d.R = b.Foot(d.R, 6*b.U, 2, "source", tell.DrillSource(one), ink.Style{Size: b.Small, Colour: ink.Faint})
	if !b.V.Class { // the list has both, and a key names the third
		o := ui.Offer{Says: words.T("drill.begin"), Marked: true}
		var row ink.Rect
		row, d.R = d.R.CutBottom(b.OfferHeight(d.R.W, &o), 6*b.U)
		b.Offer(row, Begin.Code(), "Enter", &o)
		d.Lines(2, "name", b.Say(v.name(v.Selected)), ink.Style{Size: b.Large, Weight: ink.Bold})
		d.Say("fact", tell.DrillStands(&v.Cards[v.Selected], v.Day), body)
	}
	d.Say("fact", tell.DrillAbout(one, v.Hands), body)
	b.Beware(d, "fact", tell.DrillText(one.Config.Code, one.Caution), body)
	if d.Whole("fact", tell.DrillAsks(&one.Config), body) {
		d.Whole("fact", v.Sum, body)
	}
}
