// Package report is the pupil's one-page report, on paper and as HTML.
//
// Of counts what a logbook holds, Draw puts it on one page for paper, HTML writes a page that stands by itself: no network, no
// script, every plot with a table that says the same. No clock is asked: the date is an argument.
package report

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/drill"
)

// Drill is one drill of the course that the pupil takes. Alarm: its cue is the alarm.
type Drill struct {
	Code, Name string
	Alarm      bool
}

// Options are what is not in the logbook.
type Options struct {
	// Course are its drills in order. Drills that the logbook has beside it follow them.
	Course []Drill
	// Date is printed as the day of the report; the zero time leaves it out. Program is the version that stands at the foot.
	Date    time.Time
	Program string
}

// Data is what a report shows. Days are those of logbook.Day, times are in µs unless named ms.
type Data struct {
	Pupil   string
	Date    time.Time
	Program string
	// From and To are the first and the last day with an entry; Any is false where there is none.
	From, To int32
	Any      bool
	Sums     phrase.ReportSums
	// Panels are the plots of reaction times, at most two: of drills whose cue comes unannounced those with the alarm first, then those with
	// the least time.
	Panels []Panel
	// Stands is how many drills stood learned and mastered at the end of each day with a run, in order; Total is how many there are.
	Stands []Stand
	Total  int
	Rows   []Row
	// Refusals are in order, most first.
	Refusals []Count
	// Damaged is how many lines of the logbook could not be used.
	Damaged int
}

// Panel is the times of one drill.
type Panel struct {
	Code, Name string
	// Allowed are the times that pass, in ms, least first.
	Allowed []int32
	// Marks are in order of days; each stands for Days days.
	Marks []Mark
	Days  int32
}

// Mark is the times of some days.
type Mark struct {
	// Day is the first of them.
	Day            int32
	Median, Spread int64
	Times          int
}

// Stand is how many drills stood where after a day.
type Stand struct {
	Day               int32
	Learned, Mastered int
}

// Row is one drill in the table.
type Row struct {
	Code, Name                      string
	Card                            drill.Card
	Runs, Tries, Right, FalseStarts int
	Times                           int
	Median, Spread                  int64
}

// Count is how often arming was refused for a reason, by its code word.
type Count struct {
	Code  string
	Times int64
}

// The most panels, and the most marks in one (ours: more are not told apart in half the width of a page).
const (
	mostPanels = 2
	mostMarks  = 60
)

// timed is one answer whose time is known.
type timed struct {
	day int32
	us  int64
}

// drills is what is gathered of one drill.
type gathered struct {
	Row
	alarm, unannounced bool
	allowed            map[int32]bool
	times              []timed
}

// Of counts what a logbook holds.
func Of(c *logbook.Contents, o Options) Data {
	d := Data{Pupil: c.Pupil, Date: o.Date, Program: o.Program, Damaged: len(c.Notices)}
	entries := slices.Clone(c.Entries)
	slices.SortStableFunc(entries, func(a, b logbook.Entry) int { return a.At.Compare(b.At) }) // two programs may have written
	var order []*gathered
	by := map[string]*gathered{}
	see := func(code, name string, alarm bool) *gathered {
		g := by[code]
		if g == nil {
			g = &gathered{Row: Row{Code: code, Name: code}, allowed: map[int32]bool{}}
			by[code] = g
			order = append(order, g)
		}
		if name != "" {
			g.Name = name
		}
		g.alarm = g.alarm || alarm
		return g
	}
	for _, x := range o.Course {
		see(x.Code, x.Name, x.Alarm)
	}
	days, refused := map[int32]bool{}, map[string]int64{}
	ended := 0
	for i := range entries {
		e := &entries[i]
		days[e.Day] = true
		switch e.Kind {
		case logbook.KindBegan:
			d.Sums.Practices++
		case logbook.KindEnded:
			ended++
			d.Sums.Lasted += e.Lasted
		case logbook.KindRefusals:
			for code, n := range e.Counts {
				refused[code] += n
			}
		case logbook.KindDrill:
			name := e.Drill.Name
			if g := by[e.Drill.Code]; g != nil && g.Name != g.Code {
				name = "" // the course's name counts
			}
			d.take(e, see(e.Drill.Code, name, false))
			d.stood(e.Day, order)
		}
	}
	d.Sums.Days, d.Sums.Unended = len(days), max(0, d.Sums.Practices-ended)
	if d.Any = len(days) > 0; d.Any {
		d.From, d.To = slices.Min(slices.Collect(maps.Keys(days))), slices.Max(slices.Collect(maps.Keys(days)))
	}
	d.Total = len(order)
	for _, g := range order {
		us := make([]int64, len(g.times))
		for i, t := range g.times {
			us[i] = t.us
		}
		g.Times, g.Median, g.Spread = len(us), drill.Median(us), drill.Spread(us)
		if g.Runs > 0 {
			d.Sums.Drills++
		}
		d.Rows = append(d.Rows, g.Row)
	}
	for code, n := range refused {
		if n > 0 {
			d.Refusals = append(d.Refusals, Count{code, n})
		}
	}
	slices.SortFunc(d.Refusals, func(a, b Count) int { return cmp.Or(cmp.Compare(b.Times, a.Times), cmp.Compare(a.Code, b.Code)) })
	d.panels(order)
	return d
}

// take counts one run. What was broken off counts neither way.
func (d *Data) take(e *logbook.Entry, g *gathered) {
	if e.Drill.BrokenOff {
		d.Sums.Broken++
		return
	}
	d.Sums.Runs++
	g.Runs++
	g.Card = g.Card.After(e.Day, e.Drill.Learned)
	g.unannounced = g.unannounced || e.Drill.Unannounced
	for _, t := range e.Drill.Tries {
		v, ok := phrase.VerdictOf(t.Verdict)
		if !ok || v == drill.Void {
			continue
		}
		d.Sums.Tries++
		g.Tries++
		switch v {
		case drill.Right:
			d.Sums.Right++
			g.Right++
		case drill.FalseStart, drill.Anticipated:
			d.Sums.FalseStarts++
			g.FalseStarts++
		}
		if t.Allowed > 0 {
			g.allowed[t.Allowed] = true
		}
		// Late answers count as well as right ones: a median of those that passed would never see the others.
		if t.Reaction >= 0 && (v == drill.Right || v == drill.TooLate) {
			g.times = append(g.times, timed{e.Day, int64(t.Reaction) * 1000})
		}
	}
}

// stood notes how many drills stand where at the end of a day, the last run of which this is so far.
func (d *Data) stood(day int32, order []*gathered) {
	s := Stand{Day: day}
	for _, g := range order {
		if g.Card.Box > 0 && !g.Card.Failed {
			s.Learned++
		}
		if g.Card.Mastered() {
			s.Mastered++
		}
	}
	n := len(d.Stands)
	switch {
	case n > 0 && d.Stands[n-1].Day >= day: // the same day, or one before it by the calendar of another place
		s.Day = d.Stands[n-1].Day
		d.Stands[n-1] = s
	default:
		d.Stands = append(d.Stands, s)
	}
}

// panels chooses the drills whose times are plotted.
func (d *Data) panels(order []*gathered) {
	var can []*gathered
	for _, g := range order {
		if g.unannounced && len(g.times) > 0 {
			can = append(can, g)
		}
	}
	least := func(g *gathered) int32 {
		if len(g.allowed) == 0 {
			return 1 << 30
		}
		return slices.Min(slices.Collect(maps.Keys(g.allowed)))
	}
	alarm := func(g *gathered) int {
		if g.alarm {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(can, func(a, b *gathered) int {
		return cmp.Or(cmp.Compare(alarm(a), alarm(b)), cmp.Compare(least(a), least(b)), cmp.Compare(len(b.times), len(a.times)))
	})
	for _, g := range can[:min(len(can), mostPanels)] {
		d.Panels = append(d.Panels, panelOf(g, d.From, d.To))
	}
}

// panelOf puts the times of a drill into marks: of one day each, or of so many that there are not too many marks.
func panelOf(g *gathered, from, to int32) Panel {
	p := Panel{Code: g.Code, Name: g.Name, Days: 1, Allowed: slices.Sorted(maps.Keys(g.allowed))}
	for _, days := range []int32{1, 7, 28, 91, 364, 3640, 36400, 364000} {
		if p.Days = days; (to-from)/days < mostMarks {
			break
		}
	}
	if p.Days > 1 { // few days with times in a long span stay days
		seen := map[int32]bool{}
		for _, t := range g.times {
			seen[t.day] = true
		}
		if len(seen) <= mostMarks {
			p.Days = 1
		}
	}
	in := map[int32][]int64{}
	for _, t := range g.times {
		n := (t.day - from) / p.Days
		in[n] = append(in[n], t.us)
	}
	for _, n := range slices.Sorted(maps.Keys(in)) {
		p.Marks = append(p.Marks, Mark{from + n*p.Days, drill.Median(in[n]), drill.Spread(in[n]), len(in[n])})
	}
	return p
}

// sentences are the report's words on the whole.
func (d *Data) sentences() string {
	text := phrase.ReportSentence(d.Sums)
	for i := range d.Panels {
		p := &d.Panels[i]
		first, last := p.Marks[0], p.Marks[len(p.Marks)-1]
		text += " " + phrase.ReportChange(p.Name, first.Median, last.Median, len(p.Marks))
	}
	if d.Damaged > 0 {
		text += " " + phrase.ReportDamaged(d.Damaged)
	}
	return text
}

// span is from which to which day.
func (d *Data) span() string {
	if !d.Any {
		return ""
	}
	return phrase.ReportSpan(logbook.Date(d.From), logbook.Date(d.To))
}
