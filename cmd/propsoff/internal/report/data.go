// Package report is the pupil's one-page report, on paper and as HTML.
//
// Of counts what a logbook holds, Draw puts it on one page for paper, HTML writes a page that stands by itself: no network, no
// script, every plot with a table that says the same. No clock is asked: the date is an argument, and so is the language.
package report

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/drill"
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
	Sums     tell.ReportSums
	// Panels are the plots of reaction times, at most two: of drills whose cue comes unannounced those with the alarm first, then those with
	// the least time.
	Panels []Panel
	// Stands is how many drills stood learned and mastered at the end of each day with a run, in order, of very many days only some; Total
	// is how many drills there are.
	Stands []Stand
	Total  int
	Rows   []Row
	// Hands are the measured ones, by axis and mode.
	Hands []hands
	// Refusals are in order, most first.
	Refusals []Count
	// Damaged is how many lines of the logbook could not be used. Left is how many runs and refusals are not counted because their code
	// words are too many.
	Damaged, Left int

	learned, mastered int // how many drills stand so now
}

// Panel is the times of one drill.
type Panel struct {
	Code, Name string
	// Allowed are the times that pass, in ms, least first; of very many only the least.
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

// What a logbook may bring at most (ours: far more than a pupil does; a file from a stranger must not fill the memory).
const (
	mostDrills   = 2000
	mostRefusals = 500
	mostAllowed  = 16
	mostStands   = 5000
	mostName     = 200 // bytes
)

// gathered is what is gathered of one drill.
type gathered struct {
	Row
	alarm, unannounced bool
	allowed            []int32 // least first
	// us are the answers whose time is known, in µs, days the day of each.
	us   []int64
	days []int32
}

func (g *gathered) allow(ms int32) {
	if i, had := slices.BinarySearch(g.allowed, ms); !had && i < mostAllowed {
		g.allowed = slices.Insert(g.allowed, i, ms)
		g.allowed = g.allowed[:min(len(g.allowed), mostAllowed)]
	}
}

// Of counts what a logbook holds, given its entries in order of time.
func Of(c *logbook.Contents, each func(logbook.Taker) error, o Options) (Data, error) {
	d := Data{Pupil: c.Pupil, Date: o.Date, Program: o.Program, Damaged: c.Damaged}
	var order []*gathered
	by := map[string]*gathered{}
	see := func(code, name string, alarm bool) *gathered {
		g := by[code]
		if g == nil {
			g = &gathered{Row: Row{Code: code, Name: code}}
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
	days, refused := map[int32]struct{}{}, map[string]int64{}
	ended := 0
	err := each(func(_ *logbook.Contents, e *logbook.Entry) error {
		days[e.Day] = struct{}{}
		switch e.Kind {
		case logbook.KindBegan:
			d.Sums.Practices++
		case logbook.KindEnded:
			ended++
			d.Sums.Lasted += e.Lasted
		case logbook.KindRefusals:
			for code, n := range e.Counts {
				code = logbook.Shortened(code, mostName)
				if _, had := refused[code]; !had && len(refused) >= mostRefusals {
					d.Left++
					continue
				}
				refused[code] += n
			}
		case logbook.KindDrill:
			code, name := logbook.Shortened(e.Drill.Code, mostName), logbook.Shortened(e.Drill.Name, mostName)
			g := by[code]
			switch {
			case g == nil && len(order) >= mostDrills:
				d.Left++
				return nil
			case g != nil && g.Name != g.Code:
				name = "" // the course's name counts
			}
			d.take(e, see(code, name, false))
			d.takeHand(e)
			d.stood(e.Day)
		}
		return nil
	})
	if err != nil {
		return d, err
	}
	d.Sums.Days, d.Sums.Unended = len(days), max(0, d.Sums.Practices-ended)
	if d.Any = len(days) > 0; d.Any {
		d.From, d.To = slices.Min(slices.Collect(maps.Keys(days))), slices.Max(slices.Collect(maps.Keys(days)))
	}
	d.Total = len(order)
	for _, g := range order {
		g.Times, g.Median, g.Spread = len(g.us), drill.Median(g.us), drill.Spread(g.us)
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
	return d, nil
}

// take counts one run. What was broken off counts neither way.
func (d *Data) take(e *logbook.Entry, g *gathered) {
	if e.Drill.BrokenOff {
		d.Sums.Broken++
		return
	}
	d.Sums.Runs++
	g.Runs++
	d.stands(&g.Card, -1)
	g.Card = g.Card.After(e.Day, e.Drill.Learned)
	d.stands(&g.Card, +1)
	g.unannounced = g.unannounced || e.Drill.Unannounced
	for _, t := range e.Drill.Tries {
		v, ok := codes.VerdictOf(t.Verdict)
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
			g.allow(t.Allowed)
		}
		// Late answers count as well as right ones: a median of those that passed would never see the others.
		if t.Reaction != nil && (v == drill.Right || v == drill.TooLate) {
			g.us, g.days = append(g.us, int64(*t.Reaction)*1000), append(g.days, e.Day)
		}
	}
}

// stands counts a drill among those that stand learned and mastered, or takes it out.
func (d *Data) stands(c *drill.Card, by int) {
	if c.Box > 0 && !c.Failed {
		d.learned += by
	}
	if c.Mastered() {
		d.mastered += by
	}
}

// stood notes how many drills stand where at the end of a day, the last run of which this is so far.
func (d *Data) stood(day int32) {
	n := len(d.Stands)
	if n > 0 && d.Stands[n-1].Day >= day { // the same day, or one before it by the calendar of another place
		n--
		day = d.Stands[n].Day
	} else if n == 2*mostStands {
		n = mostStands
		for i := range n {
			d.Stands[i] = d.Stands[2*i+1]
		}
	}
	d.Stands = append(d.Stands[:n], Stand{Day: day, Learned: d.learned, Mastered: d.mastered})
}

// panels chooses the drills whose times are plotted.
func (d *Data) panels(order []*gathered) {
	var can []*gathered
	for _, g := range order {
		if g.unannounced && len(g.us) > 0 {
			can = append(can, g)
		}
	}
	least := func(g *gathered) int32 {
		if len(g.allowed) == 0 {
			return 1 << 30
		}
		return g.allowed[0]
	}
	alarm := func(g *gathered) int {
		if g.alarm {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(can, func(a, b *gathered) int {
		return cmp.Or(cmp.Compare(alarm(a), alarm(b)), cmp.Compare(least(a), least(b)), cmp.Compare(len(b.us), len(a.us)))
	})
	for _, g := range can[:min(len(can), mostPanels)] {
		d.Panels = append(d.Panels, panelOf(g, d.From, d.To))
	}
}

// panelOf puts the times of a drill into marks: of one day each, or of so many that there are not too many marks.
func panelOf(g *gathered, from, to int32) Panel {
	p := Panel{Code: g.Code, Name: g.Name, Days: 1, Allowed: g.allowed}
	for _, days := range []int32{1, 7, 28, 91, 364, 3640, 36400, 364000} {
		if p.Days = days; (to-from)/days < mostMarks {
			break
		}
	}
	if p.Days > 1 { // few days with times in a long span stay days
		seen := map[int32]bool{}
		for _, day := range g.days {
			seen[day] = true
		}
		if len(seen) <= mostMarks {
			p.Days = 1
		}
	}
	in := map[int32][]int64{}
	for i, day := range g.days {
		n := (day - from) / p.Days
		in[n] = append(in[n], g.us[i])
	}
	for _, n := range slices.Sorted(maps.Keys(in)) {
		p.Marks = append(p.Marks, Mark{from + n*p.Days, drill.Median(in[n]), drill.Spread(in[n]), len(in[n])})
	}
	return p
}

// sentences are the report's words on the whole.
func (d *Data) sentences() words.Text {
	all := []words.Text{tell.ReportSentence(d.Sums)}
	for i := range d.Panels {
		p := &d.Panels[i]
		first, last := p.Marks[0], p.Marks[len(p.Marks)-1]
		all = append(all, tell.ReportChange(tell.DrillText(p.Code, p.Name), first.Median, last.Median, len(p.Marks)))
	}
	if d.Damaged > 0 {
		all = append(all, words.T("report.damaged", words.Args{"n": words.Count(d.Damaged)}))
	}
	if d.Left > 0 {
		all = append(all, words.T("report.left", words.Args{"n": words.Count(d.Left)}))
	}
	return words.Row(all...)
}

// span is from which to which day.
func (d *Data) span() words.Text {
	if !d.Any {
		return words.Text{}
	}
	return tell.Days(logbook.Date(d.From), logbook.Date(d.To))
}
