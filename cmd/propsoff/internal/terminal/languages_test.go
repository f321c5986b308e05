package terminal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input"
	"propsoff.example/input/check"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/input/usb"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// checkedView is a check under way: a stick, a switch that its pilot has named at length, and the radio as a whole.
func checkedView() *check.View {
	v := &check.View{
		Controls: []check.Control{
			{Job: "throttle", Known: true, Width: pulse.Micros(1700), Low: pulse.Micros(1012), High: pulse.Micros(1988)},
			{Job: "channel 9", Called: "the long one at the back of it", Form: check.Switch, Places: []check.Place{{Seen: true}, {}}},
			{Job: "mode", Form: check.Switch},
		},
		Items: []check.Item{
			{Kind: check.LowEnd, Verdict: check.Fails, Known: true, Unit: check.Micros, Value: 1_012_000, Limit: 1_000_000, Side: check.Below, Why: check.Why(1), Cure: check.Cure(1)},
			{Kind: check.Positions, Control: 1, Unit: check.Places, Limit: 2},
			{Kind: check.Rate, Control: -1, Verdict: check.Passes, Known: true, Unit: check.PerSecond, Value: 250_000, Bound: true},
		},
		Ask: check.AskMove,
	}
	for _, it := range v.Items {
		v.Count[it.Verdict]++
	}
	return v
}

// everything is all that the package has to show, in a language.
func everything(b *words.Book) map[string]string {
	cfg, s := sim.Default(), values()
	raw := NewRadio(1, &input.Info{Name: "Desk", Path: "x", Vendor: 5, Serial: "7", Port: "3", Axes: []input.Axis{{Min: -32768, Max: 32767}, {Max: 1, Hat: true}}, Buttons: 3}, &input.Raw{})
	raw.Trouble = tell.NotOpened("Desk")
	recent := []happening.Happening{{Tick: 1, Code: happening.LinkBack}, {Tick: 2, Code: happening.LinkLost, A: 240}}
	c := Checked{Form: Form{Book: b}, Radio: "Desk", View: checkedView(), At: 1_500_000, Notices: []words.Text{words.T("notice.no-radio")}}
	shown := map[string]string{
		"watch": strings.Join(Screen(&View{Book: b, Facts: told(s, &cfg), Recent: recent}, 0, 0), "\n"),
		"raw":   strings.Join(Screen(&View{Book: b, Facts: told(s, &cfg), Raw: &raw}, 0, 0), "\n"),
		"check": strings.Join(c.Screen(0, 0), "\n"),
		"end":   string(c.End(c.Ask(c.Item(nil, &c.View.Items[0])))),
	}
	f := Form{Book: b}
	failed := script.Failed{Expect: script.Expect{Pos: yamldoc.Pos{File: "a.yaml", Line: 3, Col: 4}}, Seen: words.T("state.nothing-refuses")}
	run := f.Failure(f.Finish(nil, &Finish{Replay: true, Same: true, Note: words.T("run.stopped")}), 5, failed)
	shown["run"] = string(f.Stopped(f.Raw(run, &input.Raw{At: 1, Resync: true}, 2), 3))

	info := input.Info{Name: "Desk", Way: usb.WayEvent, Axes: make([]input.Axis, 2), Buttons: 1}
	lines := LearnLines{Form: f}
	out := lines.NotKept(lines.Kept(lines.Radio(nil, 1, &info), 1, "Desk", "x"), 1, words.T("state.nothing-refuses"))
	for _, v := range learnViews() {
		lv := LearnView{Book: b, Info: &info, Learn: v, Naming: v.Question == learn.Replay, Typed: "x"}
		shown["learn "+codes.LearnQuestion(v.Question)] = strings.Join(LearnScreen(&lv, 0, 0), "\n")
		out = lines.See(out, 2, v)
	}
	shown["learning"] = string(out)
	return shown
}

func learnViews() []*learn.View {
	lean := view(learn.Pitch, learn.HighEnd, "pitch")
	lean.Notice = learn.Notice{Code: learn.NotAtEnd, Axis: 1, Button: -1, OtherAxis: -1, OtherButton: -1, Share: 800}
	hands := view(learn.StickMode, learn.Choose, "")
	corners := view(learn.TopRight, learn.Corners, "")
	corners.Corners = []learn.Corner{{Job: "throttle", There: true}, {Job: "yaw"}}
	again := view(learn.Replay, learn.Each, "")
	again.Replayed = []learn.Replayed{{Job: "arm", Seen: true}, {Job: "yaw"}}
	through := view(learn.Mode, learn.Through, "mode")
	through.Answers = []radio.Control{{Job: "arm", Form: radio.Button, Buttons: []int{4}}}
	through.Last, through.CanBack, through.CanSkip, through.Enough = 0, true, true, learn.TakeIt
	return []*learn.View{lean, hands, corners, again, through}
}

// Everything is said in every language, and each in its own words.
func TestEveryLanguageShowsEverything(t *testing.T) {
	english := everything(words.English())
	assert.Equal(t, english, everything(nil), "none is English")
	for _, tag := range words.Languages() {
		for name, text := range everything(words.In(tag.String())) {
			assert.NotContains(t, text, "⟦", "%s %s", tag, name)
			assert.NotEmpty(t, text, name)
			assert.Equal(t, tag == words.Languages()[0], text == english[name], "%s %s", tag, name)
		}
	}
}

// column is where a text begins in the line that has it, in places; −1 where none has.
func column(lines []string, text string) int {
	for _, l := range lines {
		if before, _, ok := strings.Cut(l, text); ok {
			return places(before)
		}
	}
	return -1
}

// Whatever a language calls things, what belongs together stands below each other.
func TestColumnsAreAsWideAsTheWordsOfALanguage(t *testing.T) {
	cfg := sim.Default()
	for _, tag := range words.Languages() {
		b := words.In(tag.String())
		rows := channelRows(b, values(), &cfg)
		head := column(rows, "µs") + 2
		pens := 0
		for _, l := range rows[1:] {
			if all := []rune(l); len(all) > head {
				pens++
				assert.Len(t, strings.TrimLeft(string(all[head:]), " "), penWidth, "%s: %s", tag, l)
				assert.Equal(t, "  ", string(all[head:head+2]), l)
			}
		}
		assert.Equal(t, 3, pens)

		c := Checked{Form: Form{Book: b}, View: checkedView()}
		shown := c.controlRows(c.columns())
		for _, id := range []words.ID{"terminal.channel", "terminal.job", "terminal.ends-seen"} {
			assert.NotEqual(t, -1, column(append(rows, shown...), say(b, words.T(id))), "%s: %s is shown whole", tag, id)
		}
		require.NotEqual(t, -1, column(shown, say(b, tell.CheckColumn(6))), tag)
		for _, want := range []string{"XX", ".."} {
			assert.Equal(t, column(shown, say(b, tell.CheckColumn(6))), column(shown, want), "%s: %q", tag, shown)
		}
		table := strings.Split(string(c.End(nil)), "\n")[1:4]
		require.NotEqual(t, -1, column(table[:1], " "+say(b, tell.CheckVerdict(check.Fails))+" "), "%s: %q", tag, table)
		for i, verdict := range []check.Verdict{check.Fails, check.Waiting, check.Passes} {
			assert.Equal(t, column(table[:1], " "+say(b, tell.CheckVerdict(check.Fails))+" "), column(table[i:i+1], " "+say(b, tell.CheckVerdict(verdict))+" "), "%s: %q", tag, table)
			assert.LessOrEqual(t, c.columns().of, mostName)
		}

		raw := NewRadio(1, &input.Info{Axes: []input.Axis{{Min: -32768, Max: 32767}, {Max: 1}}}, &input.Raw{})
		axes := strings.Split(strings.TrimSpace(string(raw.appendAxes([]byte("x"), b))), "\n")
		for _, l := range axes[1:] {
			assert.Equal(t, places(axes[0])-1, places(l), "%s: %q", tag, axes)
		}

		hands := stickModes(b, view(learn.StickMode, learn.Choose, ""))
		for _, l := range hands {
			assert.LessOrEqual(t, places(l), 8*stickCell(b), tag)
		}
		assert.Equal(t, strings.ReplaceAll(hands[3], "-", " "), strings.Map(func(r rune) rune {
			if r == '|' {
				return '+'
			}
			return ' '
		}, hands[4]), "%s: frames stand straight", tag)
		lean := leanLine(b, view(learn.Pitch, learn.HighEnd, "pitch"))
		assert.Equal(t, column(lean[:1], "|")+1, column(lean[1:], "o: "), tag)
	}
}

// What a search came to is said in every language, broken at its width, and what belongs to a rule is set in under it.
func TestProofInEveryLanguage(t *testing.T) {
	craft, err := craftfile.Parse("meadow.yaml", []byte("propsoff: craft 1\nname: Meadow\nchannels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}\n"))
	require.NoError(t, err)
	l := facts.LayoutOf(craft, nil, nil)
	report := &prove.Report{Situations: 9, Results: []prove.Result{
		{Rule: tell.Rules()[0], Outcome: prove.Holds, Searched: 3}, {Rule: tell.Rules()[1], Outcome: prove.NotAsked},
		{Rule: tell.Rules()[2], Outcome: prove.Undecided, Searched: 9},
	}}
	for _, tag := range words.Languages() {
		p := Proof{Book: words.In(tag.String()), Layout: &l, Report: report, Of: tell.Searched("Meadow", &l.Radio, facts.NoneGiven),
			CalledOut: []words.Text{words.T("notice.no-radio"), words.T("state.nothing-refuses")}, Written: []string{"", "", "way.yaml"}}
		text := string(p.AppendText(nil))
		assert.NotContains(t, text, "⟦")
		in := strings.Repeat(" ", places(say(p.Book, tell.Outcome(prove.Undecided, true))))
		for _, line := range strings.Split(text, "\n") {
			assert.LessOrEqual(t, places(line), textWidth, line)
		}
		assert.Contains(t, text, "\n"+in)
		assert.Contains(t, text, say(p.Book, tell.Outcome(prove.Holds, true))+" ")
		assert.NotContains(t, string(p.AppendJSON(nil)), "⟦")
	}
}
