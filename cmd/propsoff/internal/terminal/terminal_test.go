package terminal

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/gestures"
	"propsoff.example/input"
	"propsoff.example/input/script"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// The lines of all codes as they are documented in the package's comment.
var documented = []struct {
	h    happening.Happening
	want string
}{
	{happening.Happening{Code: happening.Armed}, `{"t_ms":4200,"code":"armed"}`},
	{happening.Happening{Code: happening.Disarmed, A: int32(happening.BySinkEnd)}, `{"t_ms":4200,"code":"disarmed","cause":"sunk"}`},
	{happening.Happening{Code: happening.Refused, A: 1<<arming.ThrottleUp | 1<<arming.PackLow}, `{"t_ms":4200,"code":"refused","why":["throttle-up","pack-low"]}`},
	{happening.Happening{Code: happening.LinkLost, A: 240}, `{"t_ms":4200,"code":"link-lost","ms":240}`},
	{happening.Happening{Code: happening.LinkBack}, `{"t_ms":4200,"code":"link-back"}`},
	{happening.Happening{Code: happening.LinkClean}, `{"t_ms":4200,"code":"link-clean"}`},
	{happening.Happening{Code: happening.Sinking, A: 4000}, `{"t_ms":4200,"code":"sinking","ms":4000}`},
	{happening.Happening{Code: happening.SinkEnded, A: 1480}, `{"t_ms":4200,"code":"control-back","ms":1480}`},
	{happening.Happening{Code: happening.Mode, A: int32(layout.Rate), B: int32(layout.Angle)}, `{"t_ms":4200,"code":"mode","mode":"rate","from":"angle"}`},
	{happening.Happening{Code: happening.AirMode}, `{"t_ms":4200,"code":"air-mode"}`},
	{happening.Happening{Code: happening.Settled}, `{"t_ms":4200,"code":"settled"}`},
	{happening.Happening{Code: happening.Power, A: 1}, `{"t_ms":4200,"code":"power","on":true}`},
	{happening.Happening{Code: happening.Cable}, `{"t_ms":4200,"code":"cable","on":false}`},
	{happening.Happening{Code: happening.Transmitter, A: 1}, `{"t_ms":4200,"code":"transmitter","on":true}`},
	{happening.Happening{Code: happening.Plug}, `{"t_ms":4200,"code":"plug","on":false}`},
	{happening.Happening{Code: happening.Tilted, A: 305}, `{"t_ms":4200,"code":"tilt","degrees":30.5}`},
	{happening.Happening{Code: happening.Nudged}, `{"t_ms":4200,"code":"nudged"}`},
	{happening.Happening{Code: happening.Menu, A: pulse.MenuCamera}, `{"t_ms":4200,"code":"menu","menu":"camera"}`},
	{happening.Happening{Code: happening.Pack, A: 14805}, `{"t_ms":4200,"code":"pack-volts","volts":14.805}`},
	{happening.Happening{Code: happening.TravelShort, A: 3, B: int32(pulse.Micros(1900)) + 4}, `{"t_ms":4200,"code":"travel-short","channel":4,"job":"yaw","highest_us":1900.5}`},
	{happening.Happening{Code: happening.ReadingsLost}, `{"t_ms":4200,"code":"readings-lost"}`},
	{happening.Happening{Code: happening.Slept, A: 3000}, `{"t_ms":4200,"code":"slept","ms":3000}`},
	{happening.Happening{Code: happening.Moved, A: 1}, `{"t_ms":4200,"code":"bench","bench":"air"}`},
	{happening.Happening{Code: happening.Moved, A: pulse.HoverAt(2500)}, `{"t_ms":4200,"code":"bench","bench":"hover","height_m":2.5}`},
	{happening.Happening{Code: happening.Fitted, A: pulse.PropellersValue([4]int8{1, -1, 0, 1}, true)},
		`{"t_ms":4200,"code":"propellers","fitted":["clockwise","counter-clockwise","none","clockwise"],"checked":true}`},
	{happening.Happening{Code: happening.TookOff}, `{"t_ms":4200,"code":"took-off"}`},
	{happening.Happening{Code: happening.TouchedDown, A: 3250, B: 12040}, `{"t_ms":4200,"code":"touched-down","speed_ms":3.25,"highest_m":12.04}`},
	{happening.Happening{Code: happening.TippedOver}, `{"t_ms":4200,"code":"tipped-over"}`},
	{happening.Happening{Code: happening.Broke, A: int32(happening.OnTop | happening.TooFast | happening.MotorsOff), B: 9810},
		`{"t_ms":4200,"code":"broke","by":["on-top","too-fast","motors-off"],"speed_ms":9.81}`},
	{happening.Happening{Code: happening.StickMode, A: 3}, `{"t_ms":4200,"code":"stick-mode","mode":3}`},
	{happening.Happening{Code: happening.Gesture, A: 1, B: 620}, `{"t_ms":4200,"code":"gesture","gesture":"camera","held_ms":620}`},
	{happening.Happening{Code: happening.GestureNear, A: 0, B: int32(happening.NearCorner) | int32(gestures.Yaw)<<8},
		`{"t_ms":4200,"code":"gesture-missed","gesture":"own-menu","near":"corner","control":"yaw"}`},
	{happening.Happening{Code: happening.MenuMark}, `{"t_ms":4200,"code":"menu-mark","item":"0"}`},
	{happening.Happening{Code: happening.MenuValue, B: 12}, `{"t_ms":4200,"code":"menu-value","item":"0","value":"12"}`},
	{happening.Happening{Code: happening.MenuLeft, A: 1}, `{"t_ms":4200,"code":"menu-left","kept":true}`},
	{happening.Happening{Code: happening.Instructed, A: int32(pulse.DeedMark), B: 7}, `{"t_ms":4200,"code":"instructor","did":"mark","number":7}`},
}

var asJSON = Form{JSON: true}

func TestEveryHappeningAsJSONAndText(t *testing.T) {
	cfg := sim.Default()
	cfg.Gestures = &gestures.Config{Patterns: []gestures.Pattern{{Name: "own menu", Code: "own-menu"}, {Name: "camera", Code: "camera", Physical: true}}}
	seen := map[happening.Code]bool{}
	for _, c := range documented {
		c.h.Tick, seen[c.h.Code] = 4200, true
		line := string(asJSON.Happening(nil, sim.Model, c.h, &cfg))
		assert.Equal(t, c.want+"\n", line)
		assert.True(t, json.Valid([]byte(line)))
		text := string(Form{}.Happening(nil, sim.Model, c.h, &cfg))
		assert.Contains(t, text, "     4.200 s  "+codes.Code(c.h.Code)+" ")
		assert.Contains(t, text, words.English().Say(tell.Happening(c.h, &cfg))+"\n")
	}
	assert.Len(t, seen, int(happening.CodeCount)-1, "every code stands in the table")
	lost := happening.Happening{Tick: 1, Code: happening.ReadingsLost, A: 12}
	assert.Equal(t, `{"t_ms":1,"code":"readings-lost","ms":12}`+"\n", string(asJSON.Happening(nil, sim.Model, lost, &cfg)))
}

func values() *sim.Snapshot {
	s := &sim.Snapshot{Tick: 1234, Link: link.Lost, Mode: layout.Horizon, Refusals: 1<<arming.NoLink | 1<<arming.BeingSetUp}
	s.In.Sent = pulse.Frame{pulse.Micros(988), pulse.Micros(1500) + 1, pulse.Micros(2200), pulse.Micros(1064) + 6}
	s.Received = s.In.Sent
	s.In.Craft.Cable, s.Senses.Cable = true, true
	s.In.Powered, s.In.HasSent, s.In.Plugged = true, true, true
	return s
}

// told are the facts of a made snapshot, every cure of which holds.
func told(s *sim.Snapshot, cfg *sim.Config) *facts.Facts {
	f := facts.Seen(s, cfg)
	for i := range f.Refusals() {
		f.Refusing[i].Cure.OK = true
	}
	return &f
}

func TestValues(t *testing.T) {
	s := values()
	line := string(AppendValues(nil, s))
	assert.Equal(t, `{"t_ms":1234,"code":"values","channels":[988,1500.125,null,1064.75,null,null,null,null,null,null,null,null,null,null,null,null],`+
		`"armed":false,"refusals":["no-link","being-set-up"],"link":"lost","hears":"nothing","mode":"horizon"}`+"\n", line)
	assert.True(t, json.Valid([]byte(line)))
	v := ValuesOf(s)
	s.Tick++
	assert.Equal(t, v, ValuesOf(s), "time alone makes no new line")
	for _, change := range []func(){
		func() { s.In.Sent[15]++ }, func() { s.Armed = true }, func() { s.Refusals = 0 }, func() { s.Link = link.Good }, func() { s.Receiving = true }, func() { s.Mode = layout.Rate },
	} {
		before := ValuesOf(s)
		change()
		assert.NotEqual(t, before, ValuesOf(s))
	}
}

func TestRaw(t *testing.T) {
	raw := input.Raw{At: 1234567, Axes: [input.MaxAxes]int32{-32768, 0, 2047}, Buttons: [2]uint64{1<<0 | 1<<63, 1}, Resync: true}
	assert.Equal(t, `{"t_us":1234567,"axes":[-32768,0,2047],"pressed":[1,64,65],"resync":true}`+"\n", string(asJSON.Raw(nil, &raw, 3)))
	assert.Equal(t, `{"t_us":0,"axes":[],"pressed":[],"resync":false}`+"\n", string(asJSON.Raw(nil, &input.Raw{}, 0)))
	assert.Equal(t, input.MaxAxes-1, strings.Count(string(asJSON.Raw(nil, &raw, 100)), ",")-5, "no more axes than there can be")
	assert.Equal(t, "    1.234567 s  axes -32768 0 2047  pressed 1 64 65  (readings were lost before this one)\n", string(Form{}.Raw(nil, &raw, 3)))
}

func TestForeignTextsAreEscaped(t *testing.T) {
	info := input.Info{Name: "a\"b\x1b\n", Path: `c:\x`, Axes: []input.Axis{{Min: -5, Max: 5, Hat: true}}}
	r := NewRadio(2, &info, nil)
	line := asJSON.Radio(nil, &r)
	assert.True(t, json.Valid(line))
	assert.Equal(t, 1, bytes.Count(line, []byte("\n")))
	assert.Contains(t, string(line), `"value":null`, "nothing was read")
	failed := script.Failed{Expect: script.Expect{Pos: yamldoc.Pos{File: "a\"\n\x1b.yaml", Line: 3, Col: 4}}, Seen: words.AsIs(`x"y`)}
	assert.True(t, json.Valid(asJSON.Failure(nil, 0, failed)))
	assert.True(t, json.Valid(asJSON.Difference(nil, 0, words.AsIs("\x00\""), false)))
	assert.True(t, json.Valid(asJSON.Notice(nil, 5, words.AsIs("a\"\n"))))
	end := Finish{Tick: 10, Expected: 3, Failed: 1, Digest: 0xab, Note: words.AsIs("\""), Replay: false}
	assert.True(t, json.Valid(asJSON.Finish(nil, &end)))
	assert.Contains(t, string(asJSON.Finish(nil, &end)), `"digest":"00000000000000ab"`)
	text := Form{}
	for _, l := range [][]byte{text.Radio(nil, &r), text.Failure(nil, 0, failed), text.Notice(nil, 0, words.AsIs("x\x1b[2Jy"))} {
		assert.NotContains(t, string(l), "\x1b", "what devices and files are called must not steer the terminal")
	}
}

func TestScreenFitsAndSaysEverything(t *testing.T) {
	cfg := sim.Default()
	s := values()
	s.Jobs.Throttle = pulse.Micros(1200)
	raw := NewRadio(1, &input.Info{Name: "Desk", Axes: []input.Axis{{Max: 2047}}, Buttons: 3}, &input.Raw{})
	for _, size := range [][2]int{{0, 0}, {80, 24}, {40, 10}, {200, 60}, {8, 3}, {1, 1}} {
		for _, r := range []*Radio{nil, &raw} {
			v := View{Source: "Desk", Notices: []words.Text{words.T("notice.no-radio")}, Facts: told(s, &cfg), Raw: r,
				Recent: []happening.Happening{{Tick: 1, Code: happening.LinkBack}, {Tick: 2, Code: happening.LinkLost, A: 240}}}
			lines := Screen(&v, size[0], size[1])
			if size[1] > 0 {
				assert.LessOrEqual(t, len(lines), size[1])
			}
			for _, l := range lines {
				if size[0] > 0 {
					assert.LessOrEqual(t, utf8.RuneCountInString(l), size[0])
				}
				assert.NotContains(t, l, "\n")
			}
			if size[0] != 0 {
				continue
			}
			all := strings.Join(lines, "\n")
			for _, want := range []string{"DISARMED", "Desk", "1.234 s", words.English().Say(words.T("notice.no-radio")), "is plugged into a computer", "pull the cable out", "link-lost", "motors: front left still"} {
				assert.Contains(t, all, want)
			}
			assert.Less(t, strings.Index(all, "link-lost"), strings.Index(all, "link-back"), "the newest first")
			if r == nil {
				assert.Contains(t, all, "   1     throttle  988  O---")
				assert.Contains(t, all, "   3     pitch       -")
			} else {
				assert.Contains(t, all, "3 buttons, pressed: none")
			}
		}
	}
}

// In a usual terminal each sentence stands whole, broken into lines; where there is little room the state is what stays.
func TestScreenCutsNoSentence(t *testing.T) {
	cfg := sim.Default()
	long := words.AsIs(strings.Repeat("a notice that goes on and on ", 9))
	v := View{Source: "Desk", Notices: []words.Text{long, long, long}, Facts: told(values(), &cfg), Recent: []happening.Happening{
		{Tick: 2, Code: happening.TravelShort, B: 8000}, {Tick: 3, Code: happening.Fitted, A: pulse.PropellersValue([4]int8{1, -1, 0, 1}, true)}}}
	all := strings.Join(strings.Fields(strings.Join(Screen(&v, 80, 0), " ")), " ")
	for _, h := range v.Recent {
		assert.Contains(t, all, words.English().Say(tell.Happening(h, &cfg)))
	}
	assert.Contains(t, all, words.English().Say(tell.FlightMotors(&v.Facts.Snap, &cfg)))
	assert.NotContains(t, all, "…")
	assert.Contains(t, strings.Join(Screen(&v, 80, 4), "\n"), "DISARMED")
	assert.Contains(t, strings.Join(Screen(&v, 30, 4), "\n"), "DISARMED")
	assert.True(t, strings.HasSuffix(Screen(&v, 80, 12)[11], "…"), "there is more")
}

func TestArmedScreenShowsNoRefusals(t *testing.T) {
	cfg := sim.Default()
	s := values()
	s.Armed, s.Link = true, link.Good
	v := View{Facts: told(s, &cfg)}
	assert.NotContains(t, strings.Join(Screen(&v, 0, 0), "\n"), "cable")
	s.Armed, s.Refusals = false, 0
	v.Facts = told(s, &cfg)
	assert.Contains(t, Screen(&v, 0, 0), words.English().Say(words.T("state.nothing-refuses")))
}

func TestScreenIsHeadedByItsCommand(t *testing.T) {
	cfg := sim.Default()
	for _, command := range []string{"watch", "run"} {
		v := View{Command: command, Source: "Desk", Facts: told(values(), &cfg)}
		assert.True(t, strings.HasPrefix(Screen(&v, 0, 0)[0], "propsoff "+command+" · Desk · "))
	}
}

func TestFinishOfATakeThatHoldsNothing(t *testing.T) {
	f := Finish{Tick: 1500, Replay: true, Same: true}
	assert.Contains(t, string(Form{}.Finish(nil, &f)), "the take holds nothing to compare.")
	assert.NotContains(t, string(Form{}.Finish(nil, &f)), "came out the same")
	f.Compared = 2
	assert.Contains(t, string(Form{}.Finish(nil, &f)), "all 2 lines of its record came out the same.")
	f.Same, f.Compared = false, 0
	assert.NotContains(t, string(Form{}.Finish(nil, &f)), "holds nothing")
}

func TestPen(t *testing.T) {
	for _, c := range []struct {
		w    pulse.Width
		want int
	}{{pulse.Lowest, 0}, {pulse.Low, 0}, {pulse.Centre, penWidth / 2}, {pulse.High, penWidth - 1}, {pulse.Highest, penWidth - 1}} {
		assert.Equal(t, c.want, strings.IndexByte(pen(c.w), 'O'))
		assert.Len(t, pen(c.w), penWidth)
	}
}

func TestWrap(t *testing.T) {
	assert.Equal(t, []string{"ab cd", "efghijk", "l"}, wrap("ab cd efghijk l", 7))
	assert.Equal(t, []string{"ab cd"}, wrap("ab cd", 0))
	assert.Equal(t, []string{""}, wrap("", 5))
	assert.Equal(t, "ä…", cut("äöü", 2), "what was cut off is not hidden")
	assert.Equal(t, "b[U+001B][31m", cut("b\x1b[31m", 0), "what steers is seen, and shortened as it is seen")
	assert.Equal(t, "b[U…", cut("b\x1b[31m", 4))
}

type slowWriter struct {
	mu   sync.Mutex
	b    bytes.Buffer
	fail error
}

func (s *slowWriter) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.fail != nil {
		return 0, s.fail
	}
	return s.b.Write(p)
}

func TestLinesKeepOrderAndLoseNothing(t *testing.T) {
	w := &slowWriter{}
	l := NewLines(w, nil)
	var group sync.WaitGroup
	group.Go(func() {
		for i := range 20_000 {
			l.Add(func(dst []byte) []byte { return fmt.Appendf(dst, "%d\n", i) })
		}
	})
	for range 50 {
		require.NoError(t, l.Flush())
	}
	group.Wait()
	require.NoError(t, l.Flush())
	lines := strings.Split(strings.TrimSpace(w.b.String()), "\n")
	require.Len(t, lines, 20_000)
	for i, x := range lines {
		require.Equal(t, fmt.Sprint(i), x)
	}
}

func TestLinesTellOfTrouble(t *testing.T) {
	gone := errors.New("gone")
	l := NewLines(&slowWriter{fail: gone}, nil)
	require.NoError(t, l.Flush(), "nothing to write")
	l.Add(func(dst []byte) []byte { return append(dst, 'x') })
	assert.ErrorIs(t, l.Flush(), gone)
	assert.ErrorIs(t, l.Flush(), gone)
}

// stuckWriter takes nothing until it is let go, like a terminal at Ctrl-S.
type stuckWriter struct {
	slowWriter
	began, let chan struct{}
	once       sync.Once
}

func newStuck() *stuckWriter {
	return &stuckWriter{began: make(chan struct{}), let: make(chan struct{})}
}

func (s *stuckWriter) Write(p []byte) (int, error) {
	s.once.Do(func() { close(s.began) })
	<-s.let
	return s.slowWriter.Write(p)
}

// Whoever adds lines does not wait for a writer that takes none; where there is no more room, what is missing is said at its place.
func TestLinesLeftOutAreTold(t *testing.T) {
	w := newStuck()
	l := NewLines(w, func(dst []byte, n int) []byte { return fmt.Appendf(dst, "%d left out\n", n) })
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- l.Run(ctx) }()
	l.Add(func(dst []byte) []byte { return append(dst, "first\n"...) })
	<-w.began // and now it is stuck
	l.Add(func(dst []byte) []byte { return append(make([]byte, linesMost), "second\n"...) })
	for range 3 {
		l.Add(func([]byte) []byte { t.Error("there is no room"); return nil })
	}
	close(w.let)
	require.Eventually(t, func() bool { l.mu.Lock(); defer l.mu.Unlock(); return l.lost == 0 }, time.Minute, time.Millisecond)
	l.Add(func(dst []byte) []byte { return append(dst, "third\n"...) })
	stop()
	require.NoError(t, <-done)
	require.NoError(t, l.Flush())
	out := w.b.Bytes()
	assert.True(t, bytes.HasPrefix(out, []byte("first\n\x00")))
	assert.Equal(t, "second\n3 left out\nthird\n", string(bytes.Trim(out[len("first\n"):], "\x00")))
}

func TestAddingLinesDoesNotAllocate(t *testing.T) {
	cfg := sim.Default()
	s := values()
	raw := input.Raw{}
	buf := make([]byte, 0, 4096)
	h := happening.Happening{Tick: 5, Code: happening.TravelShort, B: 8000}
	assert.LessOrEqual(t, testing.AllocsPerRun(100, func() { buf = asJSON.Raw(buf[:0], &raw, 8) }), 0.0)
	assert.LessOrEqual(t, testing.AllocsPerRun(100, func() { buf = AppendValues(buf[:0], s) }), 40.0)
	assert.LessOrEqual(t, testing.AllocsPerRun(100, func() { buf = asJSON.Happening(buf[:0], sim.Model, h, &cfg) }), 10.0)
}
