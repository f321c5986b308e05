package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// Whatever is noticed has a code word of its own and a sentence with its numbers; whatever is asked has a sentence.
func TestEverythingThatLearningSaysHasWords(t *testing.T) {
	known := map[string]bool{}
	for c := learn.StillMoving; c <= learn.Stayed; c++ {
		n := learn.Notice{Code: c, Axis: 2, OtherAxis: 3, Button: -1, OtherButton: -1, Share: 123, Job: "yaw", Count: 4}
		assert.NotEmpty(t, spoken(Noticed(n)), "notice %d", c)
		w := codes.LearnNotice(c)
		assert.False(t, known[w] || w == "" || strings.HasPrefix(w, "notice "), "%d: %s", c, w)
		known[w] = true
	}
	assert.Empty(t, spoken(Noticed(learn.Notice{})))
	assert.Empty(t, codes.LearnNotice(learn.Nothing))
	assert.Equal(t, "notice 200", codes.LearnNotice(200))
	asked := map[string]bool{}
	for q := learn.Pitch; q <= learn.Throttle; q++ {
		for _, s := range []learn.Step{learn.HighEnd, learn.LowEnd, learn.LetGo} {
			v := &learn.View{Question: q, Step: s, Job: q.Job(), StickMode: 1}
			text, first := spoken(Ask(v, "")), spoken(AskFirst(v))
			assert.Contains(t, strings.ToLower(text), q.Job())
			asked[text] = true
			for mode := 2; mode <= 4; mode++ {
				v.StickMode = mode
				assert.Equal(t, text, spoken(Ask(v, "")), "nobody knows yet which hand carries what")
				assert.Equal(t, first, spoken(AskFirst(v)))
			}
			for _, word := range []string{"left stick", "right stick", "hand carries", "left hand", "right hand"} {
				assert.NotContains(t, text+first, word)
			}
		}
	}
	assert.Len(t, asked, 12, "each movement")
	for _, q := range []learn.Question{learn.StickMode, learn.Arm, learn.Mode, learn.Also, learn.More, learn.TopRight, learn.Replay, learn.Once, learn.Done} {
		assert.NotContains(t, codes.LearnQuestion(q), "question ")
	}
	assert.Contains(t, spoken(Ask(&learn.View{Question: learn.Also, Step: learn.Through, Job: "channel 9"}, "finder sound, lights")), "Channel 9 (finder sound, lights)")
	assert.Contains(t, spoken(Noticed(learn.Notice{Code: learn.Mixed, Share: -250, Axis: 0, OtherAxis: 1, Job: "roll", OtherJob: "pitch", Button: -1, OtherButton: -1})),
		"Axis 1 (roll) takes axis 2 (pitch) against it, by 25 %")
}

func TestWhatWasFoundIsSaidInMicroseconds(t *testing.T) {
	scale := radio.Own(input.Axis{Max: 4095})
	turned := scale.Turned()
	for want, c := range map[string]radio.Control{
		"axis 3, 1012 to 2012 µs":                                {Form: radio.Axis, Axis: 2, Scale: &scale, Reach: &radio.Reach{Low: 96, Rest: 100, High: 4095}, Stays: true},
		"axis 1 turned round, 988 to 2012 µs, rests at 1500":     {Form: radio.Axis, Scale: &turned, Reach: &radio.Reach{Low: 0, Rest: 2047, High: 4095}},
		"axis 2, 2 positions at 988 and 2012 µs, at the left":    {Form: radio.Axis, Axis: 1, Scale: &scale, Positions: []radio.Position{{At: 0}, {At: radio.Halves(4095)}}, Side: radio.Left},
		"button 5 at 988 and 2012 µs, springs back":              {Form: radio.Button, Buttons: []int{4}, Momentary: true},
		"buttons 7, none, 8 at 988, 1500 and 2012 µs, on top":    {Form: radio.Row, Buttons: []int{6, radio.None, 7}, Side: radio.Top},
		"button 3 at 988 and 2012 µs, on the left shoulder":      {Form: radio.Button, Buttons: []int{2}, Side: radio.Left, Spot: radio.Spot{View: radio.Shoulders, X: 100, Way: radio.GoesUp}},
		"button 3 at 988 and 2012 µs, on the back, at the right": {Form: radio.Button, Buttons: []int{2}, Side: radio.Right, Spot: radio.Spot{View: radio.Back, X: 900, Way: radio.GoesIn}},
		"axis 9": {Form: radio.Axis, Axis: 8},
		"button 1 at 988 and 2012 µs, called “the red button”": {Form: radio.Button, Buttons: []int{0}, Called: "the red button"},
	} {
		assert.Equal(t, want, spoken(LearnedInFull(&c)))
	}
}

// Whatever the learner does, what is waited for has words, unless the question says it all; and a control is only said to answer where
// one does.
func TestEveryPhaseHasWords(t *testing.T) {
	for q := learn.Pitch; q < learn.Done; q++ {
		steps := map[bool][]learn.Step{true: {learn.HighEnd, learn.LowEnd, learn.LetGo}}[q <= learn.Throttle]
		switch {
		case q >= learn.Arm && q <= learn.More:
			steps = []learn.Step{learn.Through}
		case q == learn.StickMode:
			steps = []learn.Step{learn.Choose}
		case q == learn.TopRight:
			steps = []learn.Step{learn.Corners}
		case q == learn.Replay:
			steps = []learn.Step{learn.Each}
		case q == learn.Once:
			steps = []learn.Step{learn.ItsWay, learn.AndBack}
		}
		for _, s := range steps {
			for p := learn.Settling; p < learn.Finished; p++ {
				v := &learn.View{Question: q, Step: s, Phase: p, Job: q.Job(), Begun: true, Axis: -1, Button: -1}
				if p == learn.Holding && s != learn.Corners {
					v.Axis = 4
				}
				text := spoken(AskPhase(v, false))
				assert.Equal(t, s == learn.Choose, text == "", "question %d, step %d, phase %d", q, s, p)
				assert.NotContains(t, text, "A control", "nothing is known by no number")
				assert.Equal(t, "The radio is unplugged. Plug it in again and the questions go on here.", spoken(AskPhase(v, true)))
				v.Begun = false
				assert.Equal(t, "Nothing has been read yet: move any stick a little.", spoken(AskPhase(v, false)))
			}
		}
	}
	assert.True(t, AskPhase(&learn.View{Question: learn.Done, Step: learn.Over, Phase: learn.Finished}, true).Empty())
}

// What is asked of a file that is tried, by what each control is in it.
func TestATryAsksForEachControlAsTheFileHasIt(t *testing.T) {
	scale := radio.Own(input.Axis{Max: 4095})
	two := []radio.Position{{At: 0}, {At: radio.Halves(4095)}}
	for want, c := range map[string]radio.Control{
		"Pitch: lean the craft forward, then let go.":                                  {Job: "pitch", Form: radio.Axis, Scale: &scale},
		"Yaw: turn the craft to the right, then let go.":                               {Job: "yaw", Form: radio.Axis, Scale: &scale},
		"Roll: lean the craft to the right, then let go.":                              {Job: "roll", Form: radio.Axis, Scale: &scale},
		"Throttle: make the craft climb, then set it down.":                            {Job: "throttle", Form: radio.Axis, Scale: &scale, Stays: true},
		"Throttle: make the craft climb, then let go.":                                 {Job: "throttle", Form: radio.Axis, Scale: &scale},
		"Arm switch: from off to its last position, step by step.":                     {Job: "arm", Form: radio.Axis, Scale: &scale, Positions: two},
		"Arm switch: to each of its positions, then let go.":                           {Job: "arm", Form: radio.Button, Buttons: []int{4}, Momentary: true},
		"Mode switch: from its first position to its last, step by step.":              {Job: "mode", Form: radio.Row, Buttons: []int{4, 5}},
		"Channel 9 (finder sound): from its first position to its last, step by step.": {Job: "channel 9", Form: radio.Button, Buttons: []int{4}},
		"Channel 9 (finder sound): turn it from end to end.":                           {Job: "channel 9", Form: radio.Axis, Scale: &scale, Stays: true},
	} {
		carries := ""
		if c.Job == "channel 9" {
			carries = "finder sound"
		}
		v := learn.View{Trying: true, Question: learn.Once, Step: learn.ItsWay, Job: c.Job, Answers: []radio.Control{c}}
		assert.Equal(t, want, spoken(Ask(&v, carries)))
		first := spoken(AskFirst(&v))
		assert.Contains(t, first, "In the file: "+spoken(LearnedInFull(&c)))
		assert.Equal(t, c.IsSwitch() && !c.Momentary, strings.Contains(first, "leave it at the last"))
		v.Step = learn.AndBack
		if v.Job == "throttle" && c.Stays {
			assert.Equal(t, "Throttle: now set the craft down.", spoken(Ask(&v, "")))
		} else {
			assert.Equal(t, "Now let go.", spoken(Ask(&v, "")))
		}
	}
	v := learn.View{Trying: true, Question: learn.Once, Step: learn.ItsWay, Job: "second", Plan: []learn.Item{{Question: learn.Once, Job: "second"}}}
	assert.NotContains(t, spoken(AskFirst(&v)), "In the file", "this radio has no such one")
	assert.Equal(t, "Second switch: from its first position to its last, step by step.", spoken(Ask(&v, "")))
	assert.Equal(t, "a given file: 1 of 1", spoken(AskedTitle(&v)))
	assert.Equal(t, "leave untried", spoken(EnoughWord(learn.Untried, learn.Once)))
	v.Question, v.Step = learn.Done, learn.Over
	assert.Equal(t, "Every control of this radio answers as its file says.", spoken(Ask(&v, "")))
	assert.Equal(t, "a given file, tried", spoken(AskedTitle(&v)))
	v.Plan[0].Skipped = true
	assert.Equal(t, "This radio’s file was not tried to the end.", spoken(Ask(&v, "")))
	assert.Equal(t, "a given file, left untried", spoken(AskedTitle(&v)))
	n := learn.Notice{Code: learn.Another, Job: "yaw", Axis: 3, Button: -1, OtherAxis: -1, OtherButton: 6, OtherJob: "arm"}
	assert.Equal(t, "Yaw is asked for, in the file on axis 4, but button 7 (arm) moved. Put that back. If it was the right one to move, the file does not fit this radio: learn it anew.",
		spoken(Noticed(n)))
	assert.Contains(t, spoken(ToTry("Desk", "desk.yaml", "A")), "or A.")
	assert.Contains(t, spoken(NotTried("Desk", RawName(0, -1), false)), "axis 1 tries it")
	assert.NotContains(t, spoken(NotTried("Desk", RawName(-1, -1), false)), "propsoff learn")
	assert.Contains(t, spoken(NotTried("Desk", words.Text{}, true)), "propsoff learn")
}
