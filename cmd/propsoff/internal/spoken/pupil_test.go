package spoken_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/sim/pulse"
)

const (
	readingTime = 250 // from a line to the hand, in ms
	between     = 120 // from one act to the next
)

// ability is one thing that a hand can do: started once, then waited for.
type ability struct {
	do   func(q *pupil)
	done func(q *pupil, ms int64) bool // nil: at once
}

// pupil knows a radio, what each control of it does, a phrase book of a language, and nothing else: what goes on he hears as lines. Answers that he does not
// know he tries, and remembers by what he had heard before.
type pupil struct {
	l      *lab
	b      *phrases
	read   int // lines that were read
	queue  []string
	now    *ability
	since  int64 // from when what is being done is done
	due    int64
	begins bool // the lines say what a drill is about
	over   bool // a try is over, and the next has not been asked for

	bySticks, clear, turns, linkGood, armed bool
	refusals                                []string // what refuses, by the cure
	heardAt                                 int64

	cue     string
	heard   []string // since the call
	choices []string
	place   int    // how many answers of this try were right
	said    string // the last answer, until it was judged
	key     string
	known   map[string]map[int]string          // by cue and what was heard: the right answers in their order
	crossed map[string]map[int]map[string]bool // and the wrong ones

	recipes map[string][]string // how a gesture is made, by its name
	making  string
	mark    string // the item on which the mark of a menu stands
	value   string
}

func newPupil(l *lab, b *phrases) *pupil {
	return &pupil{l: l, b: b, known: map[string]map[int]string{}, crossed: map[string]map[int]map[string]bool{}, recipes: map[string][]string{}}
}

// turn lets the pupil read and act once a tick.
func (q *pupil) turn() {
	now := q.l.p.Tick()
	for q.read < len(q.l.lines) && q.l.lines[q.read].tick+readingTime <= now || q.l.ended != nil && q.read < len(q.l.lines) {
		q.hear(q.l.lines[q.read].text)
		q.read++
	}
	if q.now == nil && len(q.queue) > 0 && now >= q.due {
		what := q.queue[0]
		q.queue = q.queue[1:]
		q.now, q.since = q.able(what), now
		if q.now.do != nil {
			q.now.do(q)
		}
	}
	if q.now != nil && (q.now.done == nil || q.now.done(q, now-q.since)) {
		q.now, q.due = nil, now+between
	}
}

// hear reads one line.
func (q *pupil) hear(s string) {
	b := q.b
	switch {
	case b.drill.MatchString(s):
		q.begins, q.over, q.bySticks = true, false, b.sticks.MatchString(s)
		q.queue, q.now, q.making = nil, nil, b.gestureIn(s)
		return
	case q.begins:
		if q.making != "" && b.stick.MatchString(s) {
			q.recipes[q.making] = b.parts.Split(s, -1)
		}
		q.bySticks = q.bySticks || b.sticks.MatchString(s)
		q.begins = !b.learns.MatchString(s)
		return
	case b.right.MatchString(s) && !q.over, b.wrong.MatchString(s) && !q.over:
		if b.right.MatchString(s) {
			q.judged(true)
		}
		q.queue, q.now, q.over = nil, nil, b.wrong.MatchString(s)
		q.choices, q.cue = nil, ""
		return
	case b.goOn.MatchString(s):
		q.over = false
		q.l.typed("")
		return
	case q.over:
		if b.notSo.MatchString(s) {
			q.judged(false)
		}
		return
	}
	if m := b.answer.FindStringSubmatch(s); m != nil {
		n, _ := strconv.Atoi(m[1])
		if n == 1 {
			q.choices = nil
		}
		q.choices = append(q.choices, m[2])
		if !slices.Contains(q.queue, "answer") {
			q.queue = append(q.queue, "answer")
		}
		return
	}
	if q.told(s) {
		if q.cue != "" && q.said == "" && q.place == 0 {
			q.heard = append(q.heard, b.digits.ReplaceAllStringFunc(s, coarse))
		}
		q.heardAt = q.l.p.Tick()
		return
	}
	if strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") {
		q.cue, q.heard, q.place, q.said, q.key = s, nil, 0, "", ""
	}
	q.bySticks = q.bySticks || b.sticks.MatchString(s)
	q.queue = append(q.queue, b.acts(s)...)
}

// coarse is a number as a pupil remembers it.
func coarse(s string) string {
	if n, err := strconv.Atoi(s); err == nil && n > 800 {
		return fmt.Sprint((n + 25) / 50 * 50)
	}
	return "#"
}

// told takes a line about the bench, and tells whether it was one.
func (q *pupil) told(s string) bool {
	b := q.b
	for _, r := range b.refusals {
		if r.re.MatchString(s) {
			q.clear = false
			if !slices.Contains(q.refusals, r.acts) {
				q.refusals = append(q.refusals, r.acts)
			}
			return true
		}
	}
	switch {
	case b.clear.MatchString(s):
		q.clear, q.refusals = true, nil
	case b.rightOne.MatchString(s):
		q.judged(true)
	case b.armed.MatchString(s):
		q.armed = true
	case b.disarmed.MatchString(s):
		q.armed = false
	case b.turn.MatchString(s):
		q.turns = true
	case b.still.MatchString(s):
		q.turns = false
	case b.good.MatchString(s):
		q.linkGood = true
	case b.lost.MatchString(s):
		q.linkGood = false
	case b.mark.MatchString(s):
		q.mark = b.mark.FindStringSubmatch(s)[1]
	case b.value.MatchString(s):
		q.value = b.value.FindStringSubmatch(s)[1]
	default:
		return b.other.MatchString(s)
	}
	return true
}

// judged remembers what was said of the last answer.
func (q *pupil) judged(right bool) {
	if q.said == "" {
		return
	}
	if right {
		if q.known[q.key] == nil {
			q.known[q.key] = map[int]string{}
		}
		q.known[q.key][q.place] = q.said
		q.place++
	} else {
		q.cross(q.said)
	}
	q.said = ""
}

func (q *pupil) cross(answer string) {
	if q.crossed[q.key] == nil {
		q.crossed[q.key] = map[int]map[string]bool{}
	}
	if q.crossed[q.key][q.place] == nil {
		q.crossed[q.key][q.place] = map[string]bool{}
	}
	q.crossed[q.key][q.place][answer] = true
}

// choose gives an answer: the one that was right, or one that was not wrong yet. What was right before in this try is not asked again.
func (q *pupil) choose() {
	if q.key == "" {
		heard := slices.Clone(q.heard)
		var order []string // what the sticks read counts in its order, the rest as it comes
		for _, s := range heard {
			if q.b.reads.MatchString(s) {
				order = append(order, s)
			}
		}
		heard = slices.DeleteFunc(heard, q.b.reads.MatchString)
		slices.Sort(heard)
		q.key = q.cue + "\n" + strings.Join(append(order, slices.Compact(heard)...), "\n")
	}
	var was []string
	for i := range q.place {
		was = append(was, q.known[q.key][i])
	}
	pick := q.known[q.key][q.place]
	for _, c := range q.choices {
		if pick == "" && !q.crossed[q.key][q.place][c] && !slices.Contains(was, c) {
			pick = c
		}
	}
	if pick == "" { // all were wrong: it was heard badly, and he begins anew
		delete(q.crossed, q.key)
		pick = q.choices[0]
	}
	q.said = pick
	q.l.typed(fmt.Sprintf("answer %d", 1+slices.Index(q.choices, pick)))
}

// stick puts a stick direction to an end or its middle.
func (q *pupil) stick(job, to byte) {
	lay := &q.l.base.Layout
	channel := map[byte]int8{'T': lay.Throttle, 'R': lay.Roll, 'P': lay.Pitch, 'Y': lay.Yaw}[job]
	q.l.move(channel, map[byte]pulse.Width{'-': pulse.Low, '0': pulse.Centre, '+': pulse.High}[to])
}

// hands moves several stick directions: "T- Y0".
func (q *pupil) hands(s string) {
	for _, f := range strings.Fields(s) {
		q.stick(f[0], f[1])
	}
}
