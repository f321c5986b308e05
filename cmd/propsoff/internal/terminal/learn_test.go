package terminal

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

func view(q learn.Question, s learn.Step, job string) *learn.View {
	return &learn.View{Question: q, Step: s, Phase: learn.Moving, Job: job, Plan: make([]learn.Item, 10), Now: int(q), StickMode: 2, Begun: true, Axis: -1, Button: -1, Last: -1}
}

// The craft is drawn on a line, o where its stick brings it, and / where it is to go; no stick is drawn.
func TestTheLineOnWhichTheCraftLeans(t *testing.T) {
	for _, c := range []struct {
		v    *learn.View
		lean int
		zone [2]int
		want string
	}{
		{view(learn.Pitch, learn.HighEnd, "pitch"), 0, [2]int{700, 1000}, "    back |--------------------o-------------///////| forward"},
		{view(learn.Yaw, learn.LowEnd, "yaw"), 1000, [2]int{-1000, -700}, "    left |///////---------------------------------o| right"},
		{view(learn.Roll, learn.LetGo, "roll"), -1000, [2]int{-200, 200}, "    left |o---------------/////////----------------| right"},
		{view(learn.Throttle, learn.HighEnd, "throttle"), 0, [2]int{700, 1000}, "  ground |o---------------------------/////////////| climb"},
		{view(learn.Throttle, learn.LowEnd, "throttle"), 500, [2]int{0, 300}, "  ground |/////////////-------o--------------------| climb"},
	} {
		c.v.Lean, c.v.Zone = c.lean, c.zone
		assert.Equal(t, []string{c.want, "          o: the craft; /: where it is to go"}, learnPicture(nil, c.v, 80))
	}
}

// The hands to choose from move as the sticks do; beside them the corners of the check of all at once.
func TestHandsInLetters(t *testing.T) {
	v := view(learn.StickMode, learn.Choose, "")
	v.Corners = []learn.Corner{{Job: "throttle", Share: 0}, {Job: "yaw", Share: 1000, There: true}, {Job: "pitch", Share: 500}, {Job: "roll", Share: 500}}
	want := `
1                   2*                  3                   4
   left     right      left     right      left     right      left     right
  pitch    throttle  throttle   pitch     pitch    throttle  throttle   pitch
 +-----+   +-----+   +-----+   +-----+   +-----+   +-----+   +-----+   +-----+
 |     |   |     |   |     |   |     |   |     |   |     |   |     |   |     |
 |    o|   |     |   |     |   |  o  |   |  o  |   |     |   |     |   |    o|
 |     |   |  o  |   |    o|   |     |   |     |   |    o|   |  o  |   |     |
 +-----+   +-----+   +-----+   +-----+   +-----+   +-----+   +-----+   +-----+
   yaw       roll      yaw       roll      roll      yaw       roll      yaw`
	assert.Equal(t, strings.TrimPrefix(want, "\n"), strings.Join(learnPicture(nil, v, 80), "\n"))
	narrow := strings.Join(learnPicture(nil, v, 79), "\n")
	assert.Contains(t, narrow, "2  left hand throttle up and down, yaw across; right hand pitch up and down,\n   roll across")
	lv := &LearnView{Name: "Moorland", Info: &input.Info{}, Learn: v}
	assert.Contains(t, strings.Join(LearnScreen(lv, 80, 0), "\n"), "one picture moves as your hands do")
	assert.NotContains(t, strings.Join(LearnScreen(lv, 79, 0), "\n"), "picture", "there are none")

	corners := view(learn.TopRight, learn.Corners, "")
	corners.Corners = []learn.Corner{{Job: "throttle", Share: 1000, There: true}, {Job: "yaw", Share: 1000, There: true}, {Job: "pitch", Share: 0, Turned: true}, {Job: "roll", Share: 500}}
	got := strings.Join(learnPicture(nil, corners, 80), "\n")
	assert.Contains(t, got, "   |           /o|   |           //|\n")
	assert.Contains(t, got, "   |             |   |      o      |\n   +")
	assert.Contains(t, got, "pitch: at its wrong end")
}

func TestLearnScreenFitsAndSaysWhatCanBeDone(t *testing.T) {
	v := view(learn.Mode, learn.Through, "mode")
	scale := radio.Own(input.Axis{Max: 2047})
	v.Answers = []radio.Control{{Job: "throttle", Form: radio.Axis, Scale: &scale, Reach: &radio.Reach{High: 2047}, Stays: true}, {Job: "arm", Form: radio.Button, Buttons: []int{4}}}
	v.Last, v.Positions, v.Enough, v.CanBack, v.CanSkip, v.Axis = 1, 2, learn.TakeIt, true, true, 1
	v.Held, v.HoldFor = 750_000, 1_500_000
	v.Notice = learn.Notice{Code: learn.Two, Axis: 1, OtherAxis: 2, Button: -1, OtherButton: -1}
	v.Shares[0], v.Shares[1] = 0, 1000
	lv := &LearnView{Name: "Moor\x1bland", Info: &input.Info{Axes: make([]input.Axis, 2), Buttons: 8}, Learn: v}
	all := strings.Join(LearnScreen(lv, 0, 0), "\n")
	for _, want := range []string{"2 positions so far", "[##########..........]", "! Axis 2 and axis 3 moved together", "positions so far: # #", "Enter take as it is · B one step back · K skip this one · O start over · Q leave",
		"arm: L left side · R right side · T on top · M springs back · C give a name", "throttle   axis 1, 988 to 2012 µs", "> axis  2       0  --------------------------------O answers", "8 buttons, pressed: none"} {
		assert.Contains(t, all, want)
	}
	small := LearnScreen(lv, 60, 20)
	assert.Len(t, small, 20)
	for _, l := range small {
		assert.LessOrEqual(t, len([]rune(l)), 60)
	}
	lv.Naming, lv.Typed, lv.Out = true, "hor", true
	all = strings.Join(LearnScreen(lv, 0, 0), "\n")
	assert.Contains(t, all, "its name, then Enter: hor_")
	assert.Contains(t, all, "The radio is unplugged")
	assert.NotContains(t, all, "moved together", "while it is pulled out nothing is said of how its controls stand")
	assert.NotContains(t, all, "answers")
	assert.NotEmpty(t, LearnScreen(&LearnView{}, 80, 24))
}

// Lines tell what is new and nothing twice.
func TestLearnLinesTellWhatIsNew(t *testing.T) {
	tell := LearnLines{Form: Form{JSON: true}}
	v := view(learn.Pitch, learn.HighEnd, "pitch")
	codes := func(dst []byte) (out []string) {
		for _, line := range strings.Split(strings.TrimSpace(string(dst)), "\n") {
			var o map[string]any
			if line == "" {
				continue
			}
			require.NoError(t, json.Unmarshal([]byte(line), &o), line)
			out = append(out, o["code"].(string))
		}
		return out
	}
	assert.Equal(t, []string{"question", "phase"}, codes(tell.See(nil, 0, v)))
	assert.Empty(t, tell.See(nil, 1, v))
	v.Shares[2], v.Held = 500, 10
	assert.Empty(t, tell.See(nil, 2, v), "that it moves is no news")
	v.Notice = learn.Notice{Code: learn.NotAtEnd, Axis: 2, Share: 800, Button: -1, OtherAxis: -1, OtherButton: -1}
	got := string(tell.See(nil, 3, v))
	assert.JSONEq(t, `{"t_ms":3,"code":"noticed","notice":"not-at-end","axis":3,"button":null,"other_axis":null,"other_button":null,"job":"","other_job":"","share":80,"count":0,
		"text":"Axis 3 stands at 80 % of its way. On to its end; if it goes no farther, take it as it is."}`, got)
	v.Step, v.Notice = learn.LowEnd, learn.Notice{}
	v.Answers = []radio.Control{{Job: "pitch", Form: radio.Axis, Axis: 2, Reach: &radio.Reach{High: 5}}}
	assert.Equal(t, []string{"found", "question", "phase"}, codes(tell.See(nil, 4, v)))
	v.Answers[0].Reach = &radio.Reach{High: 6}
	assert.Empty(t, tell.See(nil, 5, v), "nor that a reach has grown by a step")
	v.Answers[0].Side = radio.Left
	assert.Equal(t, []string{"found"}, codes(tell.See(nil, 6, v)))
	info := input.Info{Name: "Desk", Path: "/dev/x"}
	tell.Radio(nil, 7, &info)
	assert.Equal(t, []string{"question", "phase"}, codes(tell.See(nil, 8, v)), "whoever comes back is asked again")
	v.Answers = nil
	tell.See(nil, 9, v)
	v.Answers = []radio.Control{{Job: "pitch", Form: radio.Axis, Axis: 2, Side: radio.Left}}
	assert.Equal(t, []string{"found"}, codes(tell.See(nil, 10, v)), "found anew after it was asked again")

	v = view(learn.Replay, learn.Each, "")
	v.Replayed = []learn.Replayed{{Job: "yaw"}, {Job: "arm", Seen: true}}
	assert.Contains(t, string(tell.See(nil, 11, v)), `"code":"replayed","job":"arm","left":["yaw"]`)
	v.Replayed[0].Seen = true
	assert.Contains(t, string(tell.See(nil, 12, v)), `"code":"replayed","job":"yaw","left":[]`)

	// The stick mode is told once it is known.
	v = view(learn.Yaw, learn.HighEnd, "yaw")
	assert.NotContains(t, string(tell.See(nil, 13, v)), "stick_mode")
	v = view(learn.TopRight, learn.Corners, "")
	v.ModeKnown, v.Corners = true, []learn.Corner{{Job: "yaw", There: true}}
	got = string(tell.See(nil, 14, v))
	assert.Contains(t, got, `"stick_mode":2`)
	assert.Contains(t, got, `"there":["yaw"]`)
}
