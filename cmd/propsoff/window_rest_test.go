//go:build linux && cgo && window

package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/jezek/xgb"
	"github.com/jezek/xgb/damage"
	"github.com/jezek/xgb/xproto"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/input/usb"
)

// What the window costs, seen from outside: the display tells of every picture that is put on it, and the system of the processor's time.
// An empty program of the same engine runs between, so that a busy machine slows both. Nothing here is a bound: see DEVELOPERS.md for how
// to run it.

// emptyScene has this test program show nothing, as fast as the engine goes.
const emptyScene = "empty"

// moveRadioAs has the fake radio of a scene move by itself: its mode switch at once and for ever ("flips"), with its sticks ("all").
const moveRadioAs = "PROPSOFF_RADIO_MOVES"

type emptyGame struct{}

func (emptyGame) Update() error              { return nil }
func (emptyGame) Draw(*ebiten.Image)         {}
func (emptyGame) Layout(w, h int) (int, int) { return w, h }

func playEmpty() int {
	w, h, err := parseSize(os.Getenv("PROPSOFF_SIZE"))
	if err == nil {
		ebiten.SetWindowSize(w, h)
		err = ebiten.RunGame(emptyGame{})
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return exit.CodeTrouble
	}
	return 0
}

// moveRadio moves the fake radio, and says on standard output at what time its mode switch was moved, in µs.
func moveRadio(b *bus, path string) {
	how := os.Getenv(moveRadioAs)
	if how == "" {
		return
	}
	time.Sleep(4 * time.Second)
	axes := []int32{0, 1024, 1021, 1026, 0, 0}
	begun, next := time.Now(), time.Now()
	for n := 0; ; {
		if time.Now().After(next) {
			n++
			axes[5] = int32(2047 * (n % 2))
			next = time.Now().Add(time.Duration(900+n*37%100) * time.Millisecond)
			fmt.Println(usb.Now())
		}
		if how == "all" {
			at := time.Since(begun).Seconds()
			for i := range 4 {
				axes[i] = int32(1023 + 600*math.Sin((3+float64(i)/2)*at))
			}
		}
		if err := b.packet(path, axes); err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
		time.Sleep(8 * time.Millisecond)
	}
}

// onlooker sees each picture that is put on the display.
type onlooker struct {
	b    testing.TB
	conn *xgb.Conn
	root xproto.Window
	w, h int
	at   image.Point // where the window lies, once it was seen
	seen chan int64  // when pictures were put there, in µs
}

func onlook(b testing.TB, w, h int) *onlooker {
	conn, err := xgb.NewConn()
	require.NoError(b, err)
	require.NoError(b, damage.Init(conn))
	_, err = damage.QueryVersion(conn, 1, 1).Reply()
	require.NoError(b, err)
	id, err := damage.NewDamageId(conn)
	require.NoError(b, err)
	o := &onlooker{b: b, conn: conn, root: xproto.Setup(conn).DefaultScreen(conn).Root, w: w, h: h, seen: make(chan int64, 1<<16)}
	require.NoError(b, damage.CreateChecked(conn, id, xproto.Drawable(o.root), damage.ReportLevelRawRectangles).Check())
	go func() {
		for {
			e, err := conn.WaitForEvent()
			if e == nil && err == nil {
				return
			}
			if n, ok := e.(damage.NotifyEvent); ok && int(n.Area.Width) == w && int(n.Area.Height) == h {
				o.at = image.Pt(int(n.Area.X), int(n.Area.Y))
				o.seen <- usb.Now()
			}
		}
	}()
	return o
}

// pixels are those of a part of the window as the display shows it.
func (o *onlooker) pixels(r image.Rectangle) []byte {
	p, err := xproto.GetImage(o.conn, xproto.ImageFormatZPixmap, xproto.Drawable(o.root), int16(o.at.X+r.Min.X), int16(o.at.Y+r.Min.Y), uint16(r.Dx()), uint16(r.Dy()), math.MaxUint32).Reply()
	require.NoError(o.b, err)
	return p.Data
}

// all is the whole window.
func (o *onlooker) all() []byte { return o.pixels(image.Rect(0, 0, o.w, o.h)) }

// next waits for a picture.
func (o *onlooker) next() int64 {
	select {
	case at := <-o.seen:
		return at
	case <-time.After(time.Minute):
		o.b.Fatal("no picture came")
		return 0
	}
}

// forget leaves out what was seen so far.
func (o *onlooker) forget() {
	for len(o.seen) > 0 {
		<-o.seen
	}
}

// shown is a program that runs.
type shown struct {
	*onlooker
	cmd   *exec.Cmd
	begun int64
	lines chan string
}

// show starts a scene in a window of so many pixels; "" is the empty program.
func show(b testing.TB, w, h int, env []string, args ...string) *shown {
	dir := b.TempDir()
	require.NoError(b, os.WriteFile(filepath.Join(dir, "cautions-read"), nil, 0o600))
	self, err := filepath.Abs(os.Args[0])
	require.NoError(b, err)
	ctx, cancel := context.WithCancel(context.Background())
	s := &shown{onlooker: onlook(b, w, h), cmd: exec.CommandContext(ctx, self), lines: make(chan string, 1<<12)}
	s.cmd.Dir = dir
	size := fmt.Sprintf("%dx%d", w, h)
	scene := emptyScene
	if len(args) > 0 {
		scene = strings.Join(append(args, "--size", size), "\n")
	}
	s.cmd.Env = append(os.Environ(), "HOME="+dir, sceneIs+"="+scene, "PROPSOFF_SIZE="+size, "PROPSOFF_RADIOS="+filepath.Join(dir, "radios"))
	s.cmd.Env = append(s.cmd.Env, env...)
	s.cmd.Stderr = os.Stderr
	out, err := s.cmd.StdoutPipe()
	require.NoError(b, err)
	s.begun = usb.Now()
	require.NoError(b, s.cmd.Start())
	go func() {
		for in := bufio.NewScanner(out); in.Scan(); {
			s.lines <- in.Text()
		}
	}()
	b.Cleanup(func() {
		cancel()
		_ = s.cmd.Wait()
		s.conn.Close()
	})
	return s
}

// processor is the time that the program has taken of the processors.
func (s *shown) processor() time.Duration {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", s.cmd.Process.Pid))
	require.NoError(s.b, err)
	f := strings.Fields(string(text[bytes.LastIndexByte(text, ')')+1:]))
	ticks := 0
	for _, field := range f[11:13] { // user and system time, in hundredths of a second: proc(5)
		n, err := strconv.Atoi(field)
		require.NoError(s.b, err)
		ticks += n
	}
	return time.Duration(ticks) * 10 * time.Millisecond
}

// pictures are how many come in some time, and what the processors spend meanwhile.
func (s *shown) pictures(d time.Duration) (n int, spent time.Duration) {
	s.forget()
	was := s.processor()
	time.Sleep(d)
	return len(s.seen), s.processor() - was
}

// delays are how long after the mode switch was moved a picture shows it, in ms, sorted.
func (s *shown) delays(n int) []float64 {
	flipped := func() int64 {
		at, err := strconv.ParseInt(<-s.lines, 10, 64)
		require.NoError(s.b, err)
		return at
	}
	// A pixel that shows the switch and nothing else: the same at each of its places whatever the sticks do.
	var places [2][]byte
	steady := make([]bool, s.w*s.h)
	for i := range 12 {
		flipped()
		time.Sleep(800 * time.Millisecond)
		now, was := s.all(), &places[i%2]
		for k := range steady {
			steady[k] = (i < 2 || steady[k]) && (*was == nil || bytes.Equal((*was)[4*k:4*k+4], now[4*k:4*k+4]))
		}
		*was = now
	}
	at := -1
	for k, ok := range steady {
		if ok && !bytes.Equal(places[0][4*k:4*k+4], places[1][4*k:4*k+4]) {
			at = k
			break
		}
	}
	require.GreaterOrEqual(s.b, at, 0, "some pixel shows the switch")
	one := image.Rect(at%s.w, at/s.w, at%s.w+1, at/s.w+1)
	var all []float64
	for range n {
		from := flipped()
		s.forget() // pictures from before; there may be more of them than can be looked at
		was := s.pixels(one)
		for {
			seen := s.next()
			for len(s.seen) > 0 {
				seen = s.next()
			}
			if !bytes.Equal(s.pixels(one), was) {
				all = append(all, float64(seen-from)/1000)
				break
			}
		}
	}
	slices.Sort(all)
	return all
}

// first is how long after its start the program's first picture is seen, in ms.
func (s *shown) first() float64 {
	paper := ink.Light().Colour(ink.Paper)
	for {
		at := s.next()
		if p := s.pixels(image.Rect(2, 2, 3, 3)); p[0] == paper.B && p[1] == paper.G && p[2] == paper.R {
			return float64(at-s.begun) / 1000
		}
	}
}

// waving is a script in which all sticks move for a minute, or none.
func waving(b testing.TB, moves bool) string {
	text := strings.Builder{}
	text.WriteString(healthy)
	text.WriteString("- {at: 0s, arm: off}\n")
	for ms := 20; moves && ms < 60_000; ms += 20 {
		at := func(speed float64) int { return 1500 + int(400*math.Sin(speed*float64(ms)/1000)) }
		fmt.Fprintf(&text, "- {at: %dms, throttle: %d, yaw: %d, pitch: %d, roll: %d}\n", ms, at(3), at(3.5), at(4), at(4.5))
	}
	text.WriteString("end: 600s\n")
	file := filepath.Join(b.TempDir(), "waving.yaml")
	require.NoError(b, os.WriteFile(file, []byte(text.String()), 0o600))
	return file
}

// BenchmarkWindow reports pictures a second of the window with all sticks moving and of an empty program, the share of one processor that
// the window takes at rest, how long a reading takes to be seen, and how long after the start the first picture comes.
func BenchmarkWindow(b *testing.B) {
	if os.Getenv("DISPLAY") == "" {
		b.Fatal("no display: run this by xvfb-run, as scripts/test runs the window's tests")
	}
	learned := func(moves string) []string { return []string{"PROPSOFF_RADIO=learned", moveRadioAs + "=" + moves} }
	for _, size := range []image.Point{{X: 1280, Y: 800}, {X: 960, Y: 600}} {
		b.Run(fmt.Sprintf("%dx%d", size.X, size.Y), func(b *testing.B) {
			const rounds, each = 3, 4 * time.Second
			rate := [2]float64{}
			spent := [2]time.Duration{}
			for range rounds {
				for k, args := range [2][]string{{"--play", waving(b, true)}, nil} {
					s := show(b, size.X, size.Y, nil, args...)
					time.Sleep(3 * time.Second)
					n, cost := s.pictures(each)
					rate[k] += float64(n) / each.Seconds() / rounds
					spent[k] += cost / time.Duration(rounds*max(n, 1))
					require.NoError(b, s.cmd.Process.Kill())
				}
			}
			b.ReportMetric(rate[0], "moving-pictures/s")
			b.ReportMetric(rate[1], "empty-pictures/s")
			b.ReportMetric(rate[0]/rate[1], "of-empty")
			b.ReportMetric(spent[0].Seconds()*1000, "processor-ms/moving-picture")
			b.ReportMetric(spent[1].Seconds()*1000, "processor-ms/empty-picture")
			s := show(b, size.X, size.Y, nil, "--play", waving(b, false))
			b.ReportMetric(s.first(), "first-picture-ms")
			b.ReportMetric(float64(s.processor().Milliseconds()), "processor-ms/first-picture")
			time.Sleep(15 * time.Second) // until the chart holds nothing but rest
			n, cost := s.pictures(10 * time.Second)
			b.ReportMetric(float64(n)/10, "pictures/s-at-rest")
			b.ReportMetric(cost.Seconds()*10, "%-of-a-processor-at-rest")
			require.NoError(b, s.cmd.Process.Kill())
			for _, how := range []string{"flips", "all"} {
				s := show(b, size.X, size.Y, learned(how), "--sheet", "light")
				d := s.delays(25)
				b.ReportMetric(d[len(d)/2], "delay-p50-ms-"+how)
				b.ReportMetric(d[len(d)*95/100], "delay-p95-ms-"+how)
				require.NoError(b, s.cmd.Process.Kill())
			}
			b.ReportMetric(0, "ns/op")
		})
	}
}

// counted are how many pictures the window had drawn at each of these times of a script, and how many pixels anew for them.
func counted(t *testing.T, steps string, times ...string) (pictures []int, pixels []float64) {
	dir := t.TempDir()
	play := filepath.Join(dir, "scene.yaml")
	require.NoError(t, os.WriteFile(play, []byte(healthy+steps+"\nend: 600s\n"), 0o600))
	args := []string{"--size", "960x600", "--play", play}
	for _, at := range times {
		args = append(args, "--picture", at+"="+filepath.Join(dir, at+".png"))
	}
	self, err := filepath.Abs(os.Args[0])
	require.NoError(t, err)
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, self)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "HOME="+dir, sceneIs+"="+strings.Join(args, "\n"), "PROPSOFF_RADIOS="+filepath.Join(dir, "radios"))
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	for _, at := range times {
		text, err := os.ReadFile(filepath.Join(dir, at+".png.json"))
		require.NoError(t, err)
		var told struct {
			Pictures, Patched int
			Pixels            float64
		}
		require.NoError(t, json.Unmarshal(text, &told))
		assert.Zero(t, told.Patched, "at %s: pixels that look otherwise than the page drawn whole and at once", at)
		pictures, pixels = append(pictures, told.Pictures), append(pixels, told.Pixels)
	}
	return pictures, pixels
}

// A page that has not changed is not drawn, and of one that has changed only that.
func TestWindowAtRest(t *testing.T) {
	pictures, _ := counted(t, "- {at: 0s, arm: off}", "16s", "18s", "20s")
	assert.Greater(t, pictures[0], 10, "while the chart filled")
	assert.Equal(t, pictures[0], pictures[1], "on a bench that stands")
	assert.Equal(t, pictures[1], pictures[2], "on a bench that stands")
	pictures, pixels := counted(t, "- {at: 17s, roll: 1700}", "16s", "18s")
	more := pictures[1] - pictures[0]
	assert.Greater(t, more, 1, "while a stick's mark moves down the chart")
	assert.Less(t, pixels[1]-pixels[0], 0.4*960*600*float64(more), "of the page, chart and stick are drawn")
}
