//go:build unix

package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/usb"
)

const radioText = `propsoff: radio 1
device: {name: "Moorland Desk 7", vendor: "1f4a", product: "0007", serial: "A", port: "1-A"}
controls:
  throttle: {axis: 1}
  roll: {axis: 2}
  pitch: {axis: 3}
  yaw: {axis: 4}
  arm: {button: 1}
  mode: {axis: 6}
`

// watching is a watch that runs beside the test.
type watching struct {
	bus    *bus
	out    *output
	err    *output
	cancel context.CancelFunc
	code   chan int
}

func startWatch(t *testing.T, b *bus, change func(*world.World), args ...string) *watching {
	t.Helper()
	return startCommand(t, b, change, append([]string{"watch"}, args...)...)
}

// startCommand begins any command that reads the radios of a bus.
func startCommand(t *testing.T, b *bus, change func(*world.World), args ...string) *watching {
	t.Helper()
	w, out, errs := testWorld(t)
	w.Radios, w.Now = b, usb.Now
	if change != nil {
		change(w)
	}
	ctx, cancel := context.WithCancel(context.Background())
	r := &watching{bus: b, out: out, err: errs, cancel: cancel, code: make(chan int, 1)}
	go func() { r.code <- execute(ctx, args, w) }()
	t.Cleanup(cancel)
	return r
}

// until waits for a text in the output.
func (r *watching) until(t *testing.T, text string) {
	t.Helper()
	if !assert.Eventually(t, func() bool { return strings.Contains(r.out.String(), text) }, 2*time.Minute, 3*time.Millisecond) {
		t.Fatalf("no %q in:\n%s%s", text, r.out.String(), r.err.String())
	}
}

func (r *watching) stop(t *testing.T) int {
	t.Helper()
	r.cancel()
	select {
	case c := <-r.code:
		return c
	case <-time.After(2 * time.Minute):
		t.Fatal("watch does not end")
		return -1
	}
}

func radioFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "desk.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
	return path
}

// From device node to armed, through unplugging while armed and back, and the take of it replays to the same.
func TestWatchFromDeviceToArmed(t *testing.T) {
	b := newBus()
	take := filepath.Join(t.TempDir(), "watch.take")
	r := startWatch(t, b, nil, "--json", "--radio", radioFile(t, radioText), "--record", take)
	r.until(t, "No radio is plugged in")
	r.until(t, `"code":"power","on":true`)
	assert.NotContains(t, r.out.String(), `"code":"transmitter"`)
	desk := found("Moorland Desk 7", "/dev/input/event5", "A")
	b.last[desk.Path] = input.Raw{Axes: [input.MaxAxes]int32{0, 1024, 1024, 1024, 0, 0}}
	b.plug(desk)
	r.until(t, "Reading Moorland Desk 7")
	r.until(t, `"code":"transmitter","on":true`)
	r.until(t, `"code":"link-back"`)
	r.until(t, `"channels":[988,1500.25,1500.25,1500.25,988,988,null`)
	r.until(t, `"refusals":[],"link":"good"`)
	b.send(t, desk.Path, nil, 1)
	r.until(t, `"code":"armed"`)
	b.send(t, desk.Path, []int32{1000})
	b.unplug(desk.Path)
	r.until(t, `"code":"plug","on":false`)
	r.until(t, `"code":"disarmed","cause":"cut-on-loss"`)
	r.until(t, "was unplugged")
	b.plug(desk)
	assert.Eventually(t, func() bool { return strings.Count(r.out.String(), `"code":"plug","on":true`) == 2 }, 2*time.Minute, 3*time.Millisecond)
	r.until(t, `"channels":[1488.25,1500.25,1500.25,1500.25,988,`)
	time.Sleep(50 * time.Millisecond)
	assert.Equal(t, exit.CodeDone, r.stop(t), r.err.String())

	previous := int64(-1)
	for _, l := range strings.Split(strings.TrimSpace(r.out.String()), "\n") {
		var v struct {
			T    *int64 `json:"t_ms"`
			Code string `json:"code"`
		}
		require.NoError(t, json.Unmarshal([]byte(l), &v), l)
		require.NotNil(t, v.T, l)
		if v.Code == "values" {
			assert.Greater(t, *v.T, previous, "at most one a tick")
			previous = *v.T
		}
	}
	code, again, errs := command(t, "run", take, "--json")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Equal(t, happenings(r.out.String()), happenings(again))
	assert.Contains(t, again, `"same":true`)
}

func TestWatchRawLosesNothing(t *testing.T) {
	b := newBus()
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
	r := startWatch(t, b, nil, "--json", "--raw")
	r.until(t, `"pressed":[]`)
	const n = 3000
	for i := range n {
		b.send(t, "/dev/input/event5", []int32{int32(i % 2048)}, int32(i%2))
		if i%10 == 0 {
			time.Sleep(3 * time.Millisecond)
		}
	}
	b.send(t, "/dev/input/event5", []int32{5, 5, 5})
	r.until(t, `"axes":[5,5,5,0,0,0]`)
	assert.Equal(t, exit.CodeDone, r.stop(t))
	i, last := -1, int64(-1)
	for _, l := range strings.Split(r.out.String(), "\n") {
		if !strings.Contains(l, "t_us") {
			continue
		}
		var v struct {
			T       int64   `json:"t_us"`
			Axes    []int32 `json:"axes"`
			Pressed []int   `json:"pressed"`
			Resync  bool    `json:"resync"`
		}
		require.NoError(t, json.Unmarshal([]byte(l), &v), l)
		assert.GreaterOrEqual(t, v.T, last)
		last = v.T
		assert.False(t, v.Resync)
		if i >= 0 && i < n {
			require.Equal(t, int32(i%2048), v.Axes[0])
			require.Equal(t, i%2 == 1, len(v.Pressed) == 1)
		}
		i++
	}
	assert.Equal(t, n+1, i, "every state is a line")
	assert.NotContains(t, r.out.String(), `"code":"values"`)
}

func TestWatchOfARadioThatIsNotLearned(t *testing.T) {
	b := newBus()
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
	r := startWatch(t, b, nil, "--plain=false")
	r.until(t, "has not been learned yet")
	r.until(t, "--radio FILE")
	r.until(t, "axes 0 0 0 0 0 0  pressed none")
	time.Sleep(2 * termlive.CalmEvery * time.Microsecond)
	b.send(t, "/dev/input/event5", []int32{7, 8}, 0, 1)
	r.until(t, "axes 7 8 0 0 0 0  pressed 2")
	b.unplug("/dev/input/event5")
	r.until(t, "was unplugged")
	b.plug(found("Moorland Desk 7", "/dev/input/event6", "A"))
	assert.Eventually(t, func() bool { return strings.Count(r.out.String(), "Reading Moorland Desk 7") == 2 }, 2*time.Minute, 5*time.Millisecond)
	assert.Equal(t, exit.CodeDone, r.stop(t))
}

func TestWatchFindsWhatWasLearned(t *testing.T) {
	b := newBus()
	b.blunted = true
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
	r := startWatch(t, b, func(w *world.World) {
		require.NoError(t, os.MkdirAll(w.Store.Dir, 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(w.Store.Dir, "desk.yaml"), []byte(radioText), 0o600))
	})
	r.until(t, "blunted centre")
	r.until(t, "The link is there; ")
	assert.NotContains(t, r.out.String(), "not been learned")
	assert.Equal(t, exit.CodeDone, r.stop(t))
}

// A class of identical radios: the terminal reads with the likeliest file, and says which one and how to choose.
func TestWatchOfATwinSaysWhichFileItReadsBy(t *testing.T) {
	store := func(texts ...string) func(w *world.World) {
		return func(w *world.World) {
			require.NoError(t, os.MkdirAll(w.Store.Dir, 0o700))
			for i, text := range texts {
				require.NoError(t, os.WriteFile(filepath.Join(w.Store.Dir, fmt.Sprintf("desk-%d.yaml", i)), []byte(text), 0o600))
			}
		}
	}
	twin := strings.Replace(radioText, `serial: "A"`, `serial: "C"`, 1)
	b := newBus()
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "B"))
	r := startWatch(t, b, store(radioText, twin))
	r.until(t, "is read with the radio file of one like it (")
	r.until(t, "desk-0.yaml")
	r.until(t, "There are 2 such files; choose another by --radio FILE")
	r.until(t, "The link is there; ")
	b.unplug("/dev/input/event5")
	r.until(t, "was unplugged")
	b.plug(found("Moorland Desk 7", "/dev/input/event6", "A"))
	r.until(t, "Reading Moorland Desk 7")
	require.Eventually(t, func() bool { return strings.Count(r.out.String(), "Reading Moorland Desk 7") == 2 }, 2*time.Minute, 5*time.Millisecond)
	assert.Equal(t, 1, strings.Count(r.out.String(), "one like it"), "the other one has a file of its own")
	assert.Equal(t, exit.CodeDone, r.stop(t))
}

func TestWatchWithTheFileOfAnotherRadio(t *testing.T) {
	b := newBus()
	b.plug(found("Hedge Small", "/dev/input/event3", "B"))
	r := startWatch(t, b, nil, "--radio", radioFile(t, radioText))
	r.until(t, "The radio file was learned from Moorland Desk 7 and is used for Hedge Small because you asked for it")
	r.until(t, "The link is there; ")
	assert.Equal(t, exit.CodeDone, r.stop(t))
}

// A radio that was there all along does not take the place of one that was pulled out; one that comes does.
func TestWatchWaitsForTheRadioThatWasPulledOut(t *testing.T) {
	b := newBus()
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
	b.plug(found("Hedge Small", "/dev/input/event3", "B"))
	r := startWatch(t, b, nil, "--json")
	r.until(t, "Reading Moorland Desk 7")
	b.unplug("/dev/input/event5")
	r.until(t, "was unplugged")
	time.Sleep(termlive.LookEvery + 200*time.Millisecond)
	assert.NotContains(t, r.out.String(), "Reading Hedge Small")
	b.plug(found("Heath Long", "/dev/input/event8", "D"))
	require.Eventually(t, func() bool { return strings.Count(r.out.String(), "Reading ") > 1 }, 2*time.Minute, 5*time.Millisecond)
	assert.Equal(t, exit.CodeDone, r.stop(t))
}

func TestWatchChoosesAmongTwo(t *testing.T) {
	two := func() *bus {
		b := newBus()
		b.plug(found("Hedge Small", "/dev/input/event3", "B"))
		b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
		return b
	}
	for _, c := range []struct {
		name, want string
		args       []string
	}{
		{"by number", "Reading Moorland Desk 7", []string{"--device", "2"}},
		{"by name", "Reading Moorland Desk 7", []string{"--device", "moorland"}},
		{"by the radio file", "Reading Moorland Desk 7", []string{"--radio", radioFile(t, radioText)}},
		{"the first", "Reading Hedge Small", nil},
		{"none of that name", "No radio called “heath”", []string{"--device", "heath"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := startWatch(t, two(), nil, c.args...)
			r.until(t, c.want)
			assert.Equal(t, exit.CodeDone, r.stop(t))
		})
	}
}

// Where there is none at all, watch says that it waits for the one that was asked for, in each of its three manners.
func TestWatchWaitsForTheRadioAskedFor(t *testing.T) {
	screen := func(w *world.World) { w.Screen = func() (int, int, bool) { return 200, 30, true } }
	for name, c := range map[string]struct {
		change func(*world.World)
		args   []string
		want   []string
	}{
		"text":   {nil, nil, []string{`No radio called “3” is plugged in; waiting for it.`}},
		"json":   {nil, []string{"--json"}, []string{`"code":"notice"`, `No radio called “3” is plugged in; waiting for it.`}},
		"screen": {screen, nil, []string{"\x1b[H", "propsoff watch · ", `No radio called “3” is plugged in; waiting for it.`}},
	} {
		t.Run(name, func(t *testing.T) {
			r := startWatch(t, newBus(), c.change, append(c.args, "--device", "3")...)
			for _, want := range c.want {
				r.until(t, want)
			}
			assert.Equal(t, exit.CodeDone, r.stop(t))
		})
	}
}

func TestWatchWithoutRights(t *testing.T) {
	b := newBus()
	b.refuse = true
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
	r := startWatch(t, b, nil, "--json", "--radio", radioFile(t, radioText))
	r.until(t, "may not be read")
	time.Sleep(termlive.LookEvery + 200*time.Millisecond)
	assert.Equal(t, 1, strings.Count(r.out.String(), "may not be read"), "said once")
	b.mu.Lock()
	b.refuse = false
	b.mu.Unlock()
	r.until(t, "Reading Moorland Desk 7")
	assert.Equal(t, exit.CodeDone, r.stop(t))
}

// A radio file that asks for an axis that the device has not is bad input, named by its place.
func TestWatchWithARadioFileThatDoesNotFit(t *testing.T) {
	b := newBus()
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
	path := radioFile(t, strings.Replace(radioText, "axis: 6", "axis: 12", 1))
	r := startWatch(t, b, nil, "--radio", path)
	select {
	case code := <-r.code:
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, r.err.String(), path+":9:16: ")
	case <-time.After(2 * time.Minute):
		t.Fatal("watch goes on")
	}
}

func TestWatchScreen(t *testing.T) {
	b := newBus()
	b.plug(found("Moorland \x1b[31mDesk", "/dev/input/event5", "A"))
	screen := func(w *world.World) { w.Screen = func() (int, int, bool) { return 80, 30, true } }
	r := startWatch(t, b, screen)
	r.until(t, "has not been learned yet")
	r.until(t, "\x1b[H")
	assert.Equal(t, exit.CodeDone, r.stop(t))
	assert.NotContains(t, r.out.String(), "\x1b[31m", "a device's name does not steer the terminal")
	assert.True(t, strings.HasSuffix(r.out.String(), "\x1b[?25h\r\n"), "the cursor is back")
}

func TestRadiosLists(t *testing.T) {
	b := newBus()
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
	b.plug(usb.Found{Name: "Locked", Path: "/dev/input/event6", Trouble: fs.ErrPermission})
	b.last["/dev/input/event5"] = input.Raw{Axes: [input.MaxAxes]int32{3, 2047}, Buttons: [2]uint64{2}}
	w, out, errs := testWorld(t)
	w.Radios, w.Now = b, usb.Now
	require.Equal(t, exit.CodeDone, execute(context.Background(), []string{"radios", "--json"}, w))
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	require.Len(t, lines, 2)
	assert.JSONEq(t, `{"number":1,"name":"Moorland Desk 7","path":"/dev/input/event5","vendor":"1f4a","product":"0007","serial":"A","port":"1-A",
		"way":"event interface","blunted":false,"buttons":2,"pressed":[2],"axes":[
		{"number":1,"min":0,"max":2047,"value":3},{"number":2,"min":0,"max":2047,"value":2047},{"number":3,"min":0,"max":2047,"value":0},
		{"number":4,"min":0,"max":2047,"value":0},{"number":5,"min":0,"max":2047,"value":0},{"number":6,"min":0,"max":2047,"value":0}]}`, lines[0])
	var second struct {
		Number  int
		Trouble string
	}
	require.NoError(t, json.Unmarshal([]byte(lines[1]), &second))
	assert.Equal(t, 2, second.Number)
	assert.Contains(t, second.Trouble, "may not be read")
	assert.Contains(t, errs.String(), "Odd Stick was plugged in and offers storage but no joystick")

	w, out, _ = testWorld(t)
	w.Radios, w.Now = b, usb.Now
	require.Equal(t, exit.CodeDone, execute(context.Background(), []string{"radios"}, w))
	for _, want := range []string{"1  Moorland Desk 7", "USB 1f4a:0007", "serial number A", "   1           0     2047      3", "2 buttons, pressed: 2", "2  Locked"} {
		assert.Contains(t, out.String(), want)
	}
}
