package main

import (
	"fmt"
	"slices"
	"time"

	"propsoff.example/assets"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/happening"
)

// drillLine is one line of `propsoff drill run --json`.
type drillLine struct {
	Code    string   `json:"code"`
	Drill   string   `json:"drill"`
	Case    int      `json:"case"`
	Step    int      `json:"step"`
	Want    int      `json:"want"`
	Choices []string `json:"choices"`
	Verdict string   `json:"verdict"`
	Say     string   `json:"say"`
	Text    string   `json:"text"`
	Off     int      `json:"off_mrad"`
}

func (l drillLine) String() string {
	return fmt.Sprintf("{%s %s case %d step %d %s %s %s}", l.Code, l.Drill, l.Case, l.Step, l.Verdict, l.Say, l.Text)
}

const (
	// courseLimit is how long one drill may take in the guest, tryAgain how long the hand waits before it does the same once more.
	courseLimit = 90 * time.Second
	tryAgain    = 1200 * time.Millisecond
	// axisSecond carries the second switch of drills that ask for one, on channel 7.
	axisSecond    = axisArm
	channelSecond = 7
)

// coursePupil does what the drills of a course ask for with a real radio, and types what a radio has no control for.
type coursePupil struct {
	*stream[drillLine]
	h     *hands
	all   map[string]*drillfile.Drill
	at    [gestures.Directions]float64
	now   *drillfile.Drill
	kase  *drill.Case
	words *drillfile.Words
	// todo are the wants that are still to be met, next the time of the next act.
	todo    []drill.Want
	order   bool
	done    uint32
	choices []string
	next    time.Time
	armed   bool // the arm switch stands on
	// acts counts the rounds, at0 is the want whose turn it is, before says that the cue has not come yet.
	acts, at0 int
	before    bool
	g         *gestures.Config
	menus     *menu.Config
	// asked is the bank for which the stick is held while a mark is followed, rad.
	asked float64
}

// course runs the shipped course with a hand on a real radio: one try of each drill, and each must be right.
func course(f *figures) (err error) {
	name, text, ok := assets.Gestures("examples")
	if !ok {
		return fmt.Errorf("no gestures are shipped")
	}
	file, err := patternfile.Parse(name, text, slotMS)
	if err != nil {
		return err
	}
	_, drills, err := drillfile.Shipped("beginner", drillfile.Known{Gestures: &file.Gestures, Menus: &file.Menus})
	if err != nil {
		return err
	}
	drills = slices.DeleteFunc(drills, (*drillfile.Drill).Flown) // for want of eyes; sim/drill/drillfile has pilots for them
	r := fakeradio.Main()
	p, err := plug(r)
	if err != nil {
		return err
	}
	h, err := hold(p, standing(r))
	if err != nil {
		closing(&err, p.out)
		return err
	}
	radio, err := tempFile("radio.yaml", pilotFile(r, byButton)+fmt.Sprintf("  channel %d: {axis: %d}\n", channelSecond, axisSecond+1))
	if err != nil {
		closing(&err, h.leave)
		return err
	}
	tried := triedInTheGuest(drills)
	c, err := start(started{typed: true}, "/"+propsoffPath, append([]string{"drill", "run", "--json", "--tries", "1", "--seed", "11", "--radio", radio}, tried...)...)
	if err != nil {
		closing(&err, h.leave)
		return err
	}
	q := &coursePupil{stream: &stream[drillLine]{child: c}, h: h, all: map[string]*drillfile.Drill{}, g: &file.Gestures, menus: &file.Menus}
	for _, d := range drills {
		q.all[d.Config.Code] = d
	}
	q.at = [gestures.Directions]float64{gestures.Throttle: 988, gestures.Roll: 1500, gestures.Pitch: 1500, gestures.Yaw: 1500}
	defer closing(&err, q.stop, q.h.leave)
	return q.through(len(tried), f)
}

// through follows the program's lines until every drill was tried.
func (q *coursePupil) through(n int, f *figures) error {
	right, wrong := 0, []string(nil)
	seen, since := 0, time.Now()
	for right+len(wrong) < n {
		if time.Since(since) > courseLimit {
			return fmt.Errorf("%d of %d drills; nothing goes on in %s: %v", right+len(wrong), n, q.code(), q.seen[max(0, len(q.seen)-6):])
		}
		if q.ended() {
			return fmt.Errorf("the program ended after %d of %d drills: %v", right+len(wrong), n, q.seen[max(0, len(q.seen)-4):])
		}
		q.take()
		for ; seen < len(q.seen); seen++ {
			since = time.Now()
			l := q.seen[seen]
			if l.Code == "verdict" && l.Verdict != "does not count" {
				if l.Verdict == "right" {
					right++
				} else {
					wrong = append(wrong, fmt.Sprintf("%s: %s (%s)", q.code(), l.Verdict, l.Say))
				}
			}
			if err := q.hear(l); err != nil {
				return err
			}
		}
		if err := q.act(); err != nil {
			return err
		}
		time.Sleep(lookEvery)
	}
	f.add("drills right", fmt.Sprintf("%d of %d", right, n))
	if len(wrong) > 0 {
		return fmt.Errorf("%d of %d drills were not right: %v", len(wrong), n, wrong)
	}
	return nil
}

func (q *coursePupil) code() string {
	if q.now == nil {
		return "the beginning"
	}
	return q.now.Config.Code
}

// hear takes note of a line.
func (q *coursePupil) hear(l drillLine) error {
	switch l.Code {
	case "drill":
		if q.now = q.all[l.Drill]; q.now == nil {
			return fmt.Errorf("there is no drill %q in the course", l.Drill)
		}
		q.todo = nil
	case "try":
		q.kase, q.words = &q.now.Config.Cases[l.Case], &q.now.Cases[l.Case]
		q.todo, q.done = nil, 0
		return q.rest()
	case "first":
		q.todo, q.order, q.done, q.acts = q.kase.Before[l.Step].Until, false, 0, 0
		q.at0, q.before = 0, true
		q.next = time.Now().Add(150 * time.Millisecond)
	case "rest", "ready", "verdict":
		q.todo = nil
	case "hand": // seen, and on
		return q.child.write("")
	case "now":
		q.asked = 0
		q.todo, q.order, q.done, q.choices, q.acts = q.kase.Wants, q.kase.InOrder, 0, l.Choices, 0
		q.at0, q.before = 0, false
		q.next = time.Now().Add(250 * time.Millisecond) // a fair reaction
	case "mark":
		return q.follow(l.Off)
	case "seen":
		q.done |= 1 << l.Want
		q.next = time.Now().Add(200 * time.Millisecond)
		q.acts, q.at0 = 0, 0
	}
	return nil
}

// rest brings the hands where they belong.
func (q *coursePupil) rest() error {
	for d, us := range [gestures.Directions]float64{gestures.Throttle: 988, gestures.Roll: 1500, gestures.Pitch: 1500, gestures.Yaw: 1500} {
		if err := q.stick(gestures.Direction(d), us); err != nil {
			return err
		}
	}
	q.armed = false
	if err := q.h.press(buttonArm, false); err != nil {
		return err
	}
	if err := q.h.stick(axisMode, 988); err != nil {
		return err
	}
	return q.h.stick(axisSecond, 988)
}

// act does the next thing of what is still to be met, one after the other with a moment between: who raises the throttle while arming
// is refused. After the last one it begins again, after a while. What the drill itself sets is left to it the first time round.
func (q *coursePupil) act() error {
	if len(q.todo) == 0 || time.Now().Before(q.next) {
		return nil
	}
	i := q.at0
	for i < len(q.todo) && q.done>>i&1 == 1 {
		i++
	}
	if i >= len(q.todo) {
		q.at0 = 0
		q.acts++
		q.next = time.Now().Add(tryAgain)
		return nil
	}
	q.at0, q.next = i+1, time.Now().Add(300*time.Millisecond)
	if q.order {
		q.at0 = len(q.todo)
	}
	if q.before && q.acts == 0 {
		switch q.todo[i].Kind {
		case drill.Transmitter, drill.Power, drill.Cable, drill.Level, drill.Menu, drill.Checked:
			q.next = time.Now()
			return nil
		}
	}
	return q.do(&q.todo[i])
}

func (q *coursePupil) stick(d gestures.Direction, us float64) error {
	q.at[d] = us
	return q.h.stick(axisOf[d], us)
}

// zone takes a stick where a want asks for it.
func (q *coursePupil) zone(w *drill.Want) error {
	if code := q.code(); code == "reversed-channel" && !q.before || code == "find-the-fault" && !q.before && w.A != int32(gestures.Throttle) {
		for d := range q.at { // what moves elsewhere than the hand, or the other way, shows when all are moved
			if err := q.stick(gestures.Direction(d), 2012); err != nil {
				return err
			}
		}
		return nil
	}
	bit := func(z drill.Zone) bool { return w.B>>z&1 == 1 }
	to := 2012.0
	switch {
	case bit(drill.Middle):
		to = 1500
	case bit(drill.High):
	case bit(drill.Low) || bit(drill.Down):
		to = 988
	}
	return q.stick(gestures.Direction(w.A), to)
}

// do is what a hand does for one want; the second time and later it begins the movement anew.
func (q *coursePupil) do(w *drill.Want) error {
	modes := []float64{988, 1500, 2012}
	word := func(on, off string) string {
		if w.A == 1 {
			return on
		}
		return off
	}
	switch w.Kind {
	case drill.Armed:
		if w.A == 1 {
			return q.arm()
		}
		return q.disarm()
	case drill.DisarmedBy:
		if w.A&(1<<happening.BySwitch|1<<happening.BySticks) != 0 {
			return q.disarm()
		}
	case drill.Ready:
		return q.disarm()
	case drill.Stick:
		return q.zone(w)
	case drill.ArmSwitch:
		q.armed = w.A == 1
		return q.h.press(buttonArm, q.armed)
	case drill.SecondSwitch:
		return q.h.stick(axisSecond, map[int32]float64{0: 988, 1: 2012}[w.A])
	case drill.Mode, drill.ModeSwitch:
		if f := q.kase.Set; w.Kind == drill.Mode && hasGap(f) {
			return q.h.stick(axisMode, 1500)
		}
		return q.h.stick(axisMode, modes[w.A])
	case drill.Transmitter:
		return q.child.write(word("link on", "link off"))
	case drill.Power:
		return q.child.write(word("power on", "power off"))
	case drill.Cable:
		return q.child.write(word("cable in", "cable out"))
	case drill.Level:
		return q.child.write("level")
	case drill.Menu:
		return q.child.write("menu closed")
	case drill.Checked:
		return q.child.write("propellers checked")
	case drill.Motors:
		if w.A == 1 {
			return q.stick(gestures.Throttle, 1500)
		}
	case drill.Flying:
		return q.stick(gestures.Throttle, 1500)
	case drill.Clear:
		return q.cure(arming.Set(w.A))
	case drill.Happens:
		if happening.Code(w.A) == happening.TravelShort {
			if err := q.stick(gestures.Throttle, 988); err != nil {
				return err
			}
			return q.stick(gestures.Yaw, 2012)
		}
	case drill.Gesture:
		return q.gesture(int(w.A))
	case drill.MenuValue:
		return q.errand(int(w.A), w.B)
	case drill.MenuLeft: // out of the value, out of the menu, and of the answers from the last one up to the first
		return q.push(back, back, up, up, in)
	case drill.Answer:
		if int(w.A) >= len(q.words.Choices) {
			return fmt.Errorf("%s has no choice %d", q.code(), w.A)
		}
		for k, text := range q.choices {
			if text == q.words.Choices[w.A] {
				return q.child.write(fmt.Sprintf("answer %d", k+1))
			}
		}
		return fmt.Errorf("%s: the choice %q is not shown among %q", q.code(), q.words.Choices[w.A], q.choices)
	}
	return nil
}
