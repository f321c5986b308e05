package hand

import (
	"slices"
	"strings"

	"propsoff.example/scripts/rig/fakeradio"
)

// Asked is what the program under test asks for now, in its own words.
type Asked struct {
	Question, Job, Step, Phase, Notice string
	// Left are the jobs that the replay has not seen yet, with commas.
	Left string
}

// Words of the questions, steps and phases that a pilot acts upon, and what is typed.
const (
	AskMode     = "stick-mode"
	AskMore     = "more"
	AskCorner   = "top-right"
	AskReplay   = "replay"
	AskNothing  = "done"
	StepHigh    = "high-end"
	StepLow     = "low-end"
	StepLetGo   = "let-go"
	StepThrough = "through"

	PhaseMoving = "moving"

	WordSkip   = "skip"
	WordBack   = "back"
	WordEnough = "enough"
)

// Slip is something that a pilot does wrong, once.
type Slip struct {
	// When: the question's job (AskMore for any of its controls) and step.
	Job, Step string
	// Wrong is moved instead of what was asked for.
	Wrong []Move
	// Notice is what must be said of it.
	Notice string
	// Undo is moved and Word is typed when it was said, either may be empty.
	Undo []Move
	Word string
}

// Pilot answers the questions about one radio. It knows the radio and nothing of the program but its words.
type Pilot struct {
	made  *fakeradio.Made
	slips []Slip
	// turned are sticks that are first moved the wrong way round.
	turned []string
	// mode is typed to choose the stick mode.
	mode string

	done   Asked // what was answered last
	slip   *Slip // that was made and is not undone yet
	heard  bool  // its notice came
	lost   bool  // readings were lost: what was shown has to be shown again
	corner bool  // both sticks stand in the corner
	shown  map[string]int
	more   int  // how many controls were shown to AskMore
	ended  bool // that was all
	said   Asked
	// Said are the notices that came as they had to, in order.
	Said []string
}

// NewPilot makes a pilot who makes the slips in their order and moves the sticks in turned the wrong way round until the
// corner check tells.
func NewPilot(made *fakeradio.Made, mode string, turned []string, slips ...Slip) *Pilot {
	return &Pilot{made: made, mode: mode, turned: slices.Clone(turned), slips: slices.Clone(slips)}
}

// Slips are those that were not made yet, or not noticed.
func (p *Pilot) Slips() (left []string) {
	if p.slip != nil {
		left = append(left, p.slip.Job+" "+p.slip.Notice)
	}
	for _, s := range p.slips {
		left = append(left, s.Job+" "+s.Notice)
	}
	for _, job := range p.turned {
		left = append(left, job+" turned round")
	}
	return left
}

// Hears takes note of everything that the program says, also while the hand moves.
func (p *Pilot) Hears(a Asked) {
	p.lost = p.lost || a.Notice == SaysLost && p.said.Notice != SaysLost
	p.said = a
	p.heard = p.heard || p.slip != nil && a.Notice == p.slip.Notice
}

// Anew makes the pilot answer again what is asked now, as after the radio was gone.
func (p *Pilot) Anew() { p.done = Asked{} }

// Does says what the pilot does about what is asked now: movements, and a word to type (empty for none). It is asked when
// the hand has nothing left to do; doing nothing is waiting.
func (p *Pilot) Does(a Asked) (moves []Move, word string) {
	p.Hears(a)
	if p.lost {
		return p.startOver(a), ""
	}
	if p.slip != nil {
		if !p.heard {
			return nil, ""
		}
		s := p.slip
		p.slip, p.heard, p.done = nil, false, Asked{}
		p.Said = append(p.Said, s.Notice)
		return s.Undo, s.Word
	}
	if a.Question == AskCorner && a.Notice == SaysTurned && len(p.turned) > 0 {
		if slices.Contains(p.turned, a.Job) || a.Job == "" {
			p.turned, p.corner = p.turned[1:], false
			p.Said = append(p.Said, a.Notice)
			p.done = Asked{}
			return OutOfCorner(), WordBack
		}
	}
	key := Asked{Question: a.Question, Job: a.Job, Step: a.Step}
	if a.Question == AskMode {
		if key != p.done {
			p.done = key
			return nil, p.mode
		}
		return nil, ""
	}
	if a.Question == AskReplay && p.corner { // what is held up is not waited for
		p.corner = false
		return OutOfCorner(), ""
	}
	if a.Phase != PhaseMoving || key == p.done && a.Question != AskMore && a.Question != AskReplay {
		return nil, ""
	}
	for i, s := range p.slips {
		if s.Step == a.Step && (s.Job == a.Job || s.Job == a.Question) {
			p.slips = slices.Delete(p.slips, i, i+1)
			p.slip = &s
			return s.Wrong, ""
		}
	}
	return p.answers(a, key)
}

// startOver puts what was moved for this question back where it stood, to show it again.
func (p *Pilot) startOver(a Asked) (moves []Move) {
	p.lost, p.done = false, Asked{}
	if p.slip != nil {
		p.slips = slices.Insert(p.slips, 0, *p.slip)
		moves, p.slip, p.heard = p.slip.Undo, nil, false
	}
	switch {
	case a.Question == AskMore && p.more > 0:
		p.more--
		a.Job = p.spare(p.more)
	case a.Question == AskCorner || a.Question == AskReplay:
		p.corner = false
		return append(moves, OutOfCorner()...)
	}
	switch c, ok := p.made.Control(a.Job); {
	case !ok:
	case len(c.Places) > 0:
		moves = append(moves, Move{Job: a.Job, To: 0, Hold: Stop})
	case c.Springs:
		moves = append(moves, Gone(a.Job))
	default:
		moves = append(moves, To(a.Job, Low))
	}
	return moves
}

// answers gives what was asked for.
func (p *Pilot) answers(a, key Asked) (moves []Move, word string) {
	p.done = key
	high, low := High, Low
	if slices.Contains(p.turned, a.Job) {
		high, low = Low, High
	}
	switch {
	case a.Question == AskCorner:
		p.corner = true
		return Corner(), ""
	case a.Question == AskReplay:
		return p.replays(a.Left), ""
	case a.Question == AskMore:
		return p.anyMore()
	case a.Step == StepHigh:
		return []Move{To(a.Job, high)}, ""
	case a.Step == StepLow:
		return []Move{To(a.Job, low)}, ""
	case a.Step == StepLetGo:
		return []Move{Gone(a.Job)}, ""
	case a.Step == StepThrough:
		if c, ok := p.made.Control(a.Job); ok {
			return Through(c), ""
		}
		return nil, WordSkip
	}
	return nil, ""
}

// replays shows the next control that is left once more; one that is not taken is shown again later.
func (p *Pilot) replays(left string) []Move {
	if p.shown == nil {
		p.shown = map[string]int{}
	}
	next := -1
	for i, c := range p.made.Controls {
		if n := p.shown[c.Job]; slices.Contains(strings.Split(left, ","), c.Job) && n < 3 &&
			(next < 0 || n < p.shown[p.made.Controls[next].Job]) {
			next = i
		}
	}
	if next < 0 {
		return nil
	}
	p.shown[p.made.Controls[next].Job]++
	return Again(p.made.Controls[next])
}

// spare is the job of control n (from 0) that is not asked for by name; empty where there are no more.
func (p *Pilot) spare(n int) string {
	for _, c := range p.made.Controls {
		if Spare(c.Job) {
			if n == 0 {
				return c.Job
			}
			n--
		}
	}
	return ""
}

// anyMore shows the next control that was not asked for by name; after the last one it says so, once.
func (p *Pilot) anyMore() (moves []Move, word string) {
	c, ok := p.made.Control(p.spare(p.more))
	switch {
	case ok:
		p.more++
		return Through(c), ""
	case !p.ended:
		p.ended = true
		return nil, WordEnough
	}
	return nil, ""
}

// Spare says that a job has only a channel's number for a name.
func Spare(job string) bool { return len(job) > 7 && job[:7] == "channel" }
