package craftfile_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/assets"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

func us(a, b int) layout.Span { return layout.Span{Low: pulse.Micros(a), High: pulse.Micros(b)} }

func in(m layout.Mode, a, b int) layout.ModeSpan { return layout.ModeSpan{Mode: m, Span: us(a, b)} }

func shippedCraft(t testing.TB, name string) *craftfile.File {
	_, text, ok := assets.Craft(name)
	require.True(t, ok)
	f, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	return f
}

// Each change touches its own line only, as a person would have done it.
func TestEachChangeAsAPersonWouldWriteIt(t *testing.T) {
	eighth := layout.Span{Low: pulse.Micros(1400) + 1, High: pulse.Highest}
	for _, c := range []struct {
		craft  string
		change func(f *craftfile.File) (*craftfile.File, error)
		swap   []string // old, new, old, new …
	}{
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) { return f.SetArm(4, eighth) }, []string{"  on: {from: 1600, to: 2180}   # the arm", "  on: {from: 1400.125, to: 2180}   # the arm"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) { return f.SetArm(7, us(1600, 2180)) }, []string{"arm: 5,", "arm: 8,"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) { return f.SetLossAction(true) }, []string{"when-lost: cut  ", "when-lost: sink  "}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) { return f.SetReceiver(link.RepeatsLast) }, []string{"silent: falls-silent", "silent: repeats-last"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) { return f.SetSecond(6, us(1700, 2180)) }, []string{"mode: 6}\n\narming:", "second: 7, mode: 6}\n\narming:",
			"a camera's menu is open\n", "a camera's menu is open\n\nsecond-switch:\n  on: {from: 1700, to: 2180}\n"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) {
			return f.SetModes(5, []layout.ModeSpan{in(layout.Angle, 860, 1500), in(layout.Horizon, 1500, 2180)})
		}, []string{"to: 1250}\n  horizon: {from: 1250, to: 1750}\n  rate: {from: 1750, to: 2180}\n", "to: 1500}\n  horizon: {from: 1500, to: 2180}\n"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) {
			return f.SetModes(5, []layout.ModeSpan{in(layout.Angle, 860, 1250), in(layout.Horizon, 1250, 1750), in(layout.Angle, 1750, 2180)})
		}, []string{"angle: {from: 860, to: 1250}\n  horizon: {from: 1250, to: 1750}\n  rate: {from: 1750, to: 2180}\n",
			"angle: [{from: 860, to: 1250}, {from: 1750, to: 2180}]\n  horizon: {from: 1250, to: 1750}\n"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) {
			return f.SetJob(craftfile.Job{Name: "finder sound", Channel: 7, Spans: []layout.Span{us(1600, 2180)}})
		}, []string{"  rate: {from: 1750, to: 2180}\n", "  rate: {from: 1750, to: 2180}\n\njobs:\n  finder sound: {channel: 8, on: {from: 1600, to: 2180}}\n"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) { return f.SetField(craftfile.CameraTilt, 225) }, []string{"{tilt: 15 deg,", "{tilt: 22.5 deg,"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) { return f.SetField(craftfile.CameraView, 900) }, []string{"view: 100 deg}", "view: 90 deg}"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) { return f.SetChannel("roll", 8) }, []string{"roll: 2, pitch: 3", "roll: 9, pitch: 3"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) {
			return f.SetArming(arming.BySticks, layout.NoChannel)
		},
			[]string{"by: switch ", "by: sticks ", " arm: 5, mode", " mode", "  on: {from: 1600, to: 2180}   # the arm", "  # on: {from: 1600, to: 2180}   # the arm"}},
		{"teasel", func(f *craftfile.File) (*craftfile.File, error) {
			f, err := f.SetArm(4, us(1700, 2180))
			if err == nil {
				f, err = f.SetArming(arming.BySticks, layout.NoChannel)
			}
			if err == nil {
				f, err = f.SetArming(arming.BySwitch, 4)
			}
			return f, err
		}, []string{"  on: {from: 1600, to: 2180}   # the arm", "  on: {from: 1700, to: 2180}   # the arm"}},
		{"teasel-by-sticks", func(f *craftfile.File) (*craftfile.File, error) { return f.SetArming(arming.BySwitch, 4) }, []string{"by: sticks ", "by: switch ", "yaw: 4,", "yaw: 4, arm: 5,"}},
	} {
		f := shippedCraft(t, c.craft)
		got, err := c.change(f)
		require.NoError(t, err, c.swap)
		want := string(f.Text)
		for i := 0; i < len(c.swap); i += 2 {
			require.Equal(t, 1, strings.Count(want, c.swap[i]), c.swap[i])
			want = strings.Replace(want, c.swap[i], c.swap[i+1], 1)
		}
		assert.Equal(t, want, string(got.Text))
	}
}

func TestChangesThatMakeABadFileAreRefusedInTheReadersWords(t *testing.T) {
	f := shippedCraft(t, "teasel")
	for want, change := range map[string]func() (*craftfile.File, error){
		"used twice, for arm and for mode": func() (*craftfile.File, error) { return f.SetArm(5, us(1600, 2180)) },
		"never be moved off":               func() (*craftfile.File, error) { return f.SetArm(4, us(860, 2180)) },
		"backwards":                        func() (*craftfile.File, error) { return f.SetArm(4, us(1700, 1600)) },
		"overlaps the one of": func() (*craftfile.File, error) {
			return f.SetModes(5, []layout.ModeSpan{in(layout.Angle, 860, 1300), in(layout.Rate, 1200, 2000)})
		},
		"means something already": func() (*craftfile.File, error) {
			return f.SetJob(craftfile.Job{Name: "yaw", Channel: 7, Spans: []layout.Span{us(1600, 2180)}})
		},
		"the list has 0 items": func() (*craftfile.File, error) { return f.SetJob(craftfile.Job{Name: "x", Channel: 7}) },
		"no field `roll`":      func() (*craftfile.File, error) { return f.SetChannel("roll", layout.NoChannel) },
		"above 16":             func() (*craftfile.File, error) { return f.SetChannel("roll", 16) },
	} {
		got, err := change()
		require.Error(t, err, want)
		assert.Nil(t, got)
		assert.Contains(t, err.Error(), want)
	}
	assert.Equal(t, shippedCraft(t, "teasel").Text, f.Text, "the file that was changed stays as it is")
}

// comments are the comments of a craft file; no text in one has a # of its own here.
func comments(text []byte) (out []string) {
	for l := range strings.Lines(string(text)) {
		if _, c, ok := strings.Cut(strings.TrimRight(l, "\r\n"), "#"); ok {
			out = append(out, c)
		}
	}
	return out
}

// Whatever is changed, one thing after another, the craft is what was asked for and every comment is still there.
func TestAnyRowOfChangesKeepsTheComments(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := shippedCraft(t, rapid.SampledFrom(assets.Crafts()).Draw(rt, "craft"))
		if rapid.Bool().Draw(rt, "windows") {
			var err error
			f, err = craftfile.Parse("w.yaml", []byte(strings.ReplaceAll(string(f.Text), "\n", "\r\n")))
			require.NoError(t, err)
		}
		want := comments(f.Text)
		draw := func(lo, hi int) int { return rapid.IntRange(lo, hi).Draw(rt, "n") }
		span := func() layout.Span {
			a := draw(int(pulse.Micros(1000)), int(pulse.Micros(1900)))
			return layout.Span{Low: pulse.Width(a), High: pulse.Width(draw(a+1, int(pulse.Micros(1999))))}
		}
		for range draw(1, 12) {
			var next *craftfile.File
			var err error
			var holds func(f *craftfile.File) bool
			cfg := f.Config()
			switch channel := int8(draw(0, 15)); draw(0, 8) {
			case 0:
				s := span()
				next, err = f.SetArm(channel, s)
				holds = func(f *craftfile.File) bool {
					c := f.Config()
					return c.Layout.Arm == channel && c.Layout.ArmSpan == s && c.Arming.By == arming.BySwitch
				}
			case 1:
				s := span()
				next, err = f.SetSecond(channel, s)
				holds = func(f *craftfile.File) bool {
					c := f.Config()
					return c.Layout.Second == channel && c.Layout.SecondSpan == s
				}
			case 2:
				var all []layout.ModeSpan
				low := pulse.Lowest
				for range draw(0, 5) {
					high := low + pulse.Width(draw(1, 1500))
					all = append(all, layout.ModeSpan{Mode: layout.Mode(draw(0, 2)), Span: layout.Span{Low: low, High: high}})
					low = high + pulse.Width(draw(0, 200))
				}
				next, err = f.SetModes(channel, all)
				holds = func(f *craftfile.File) bool {
					c := f.Config()
					ok := c.Layout.Mode == channel && int(c.Layout.SpanCount) == len(all)
					for _, s := range all {
						ok = ok && c.Layout.ModeAt(s.Span.Low) == s.Mode && c.Layout.ModeAt(s.Span.High-1) == s.Mode
					}
					return ok
				}
			case 3:
				by := arming.By(draw(0, 1))
				next, err = f.SetArming(by, channel)
				holds = func(f *craftfile.File) bool {
					c := f.Config()
					return c.Arming.By == by && (c.Layout.Arm == channel) == (by == arming.BySwitch)
				}
			case 4:
				sink := rapid.Bool().Draw(rt, "sink")
				next, err = f.SetLossAction(sink)
				holds = func(f *craftfile.File) bool { return (f.Config().Arming.SinkSlots > 0) == sink }
			case 5:
				way := link.OnLoss(draw(0, 2))
				next, err = f.SetReceiver(way)
				holds = func(f *craftfile.File) bool { return f.Config().Link.OnLoss == way }
			case 6:
				j := craftfile.Job{Name: rapid.SampledFrom([]string{"lights", "finder sound", "no-1"}).Draw(rt, "job"), Channel: channel}
				low := pulse.Lowest
				for range draw(1, 3) {
					high := low + pulse.Width(draw(1, 1500))
					j.Spans = append(j.Spans, layout.Span{Low: low, High: high})
					low = high
				}
				next, err = f.SetJob(j)
				holds = func(f *craftfile.File) bool {
					for _, o := range f.More() {
						if o.Name == j.Name {
							return assert.ObjectsAreEqual(j, o)
						}
					}
					return false
				}
			case 7:
				next, err = f.RemoveJob("lights")
				holds = func(f *craftfile.File) bool { _, has := f.Names().Channel["lights"]; return !has }
			case 8:
				job := rapid.SampledFrom([]string{"second", "mode"}).Draw(rt, "job")
				next, err = f.SetChannel(job, layout.NoChannel)
				holds = func(f *craftfile.File) bool { _, has := f.Names().Channel[job]; return !has }
			}
			if err != nil {
				if !strings.Contains(err.Error(), "used twice") && !strings.Contains(err.Error(), "stored value") {
					rt.Fatalf("%v\n%s", err, f.Text)
				}
				continue
			}
			if !holds(next) {
				rt.Fatalf("not what was asked for:\n%s\n%+v", next.Text, cfg)
			}
			f = next
		}
		got := comments(f.Text)
		for _, c := range want {
			if !assert.ObjectsAreEqual(true, contains(got, c)) {
				rt.Fatalf("lost %q:\n%s", c, f.Text)
			}
		}
		if len(got) != len(want) {
			rt.Fatalf("%d comments instead of %d:\n%s", len(got), len(want), f.Text)
		}
	})
}

func contains(all []string, want string) bool {
	for _, s := range all {
		if s == want || strings.HasPrefix(s, " on: ") && strings.HasSuffix(s, "#"+want) {
			return true // the arm span's comment, when the span is a comment too
		}
	}
	return false
}

func TestSaveNeverWritesOverWhatSomeoneElseChanged(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.yaml")
	f := shippedCraft(t, "teasel")
	require.NoError(t, os.WriteFile(path, f.Text, 0o600))
	g, err := f.SetLossAction(true)
	require.NoError(t, err)
	require.NoError(t, g.Save(path, f.Text))
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, g.Text, now)
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "its rights are kept")

	assert.ErrorIs(t, f.Save(path, f.Text), craftfile.ErrChanged, "what is on disk is not what was read")
	now, _ = os.ReadFile(path)
	assert.Equal(t, g.Text, now)
	assert.Error(t, f.Save(filepath.Join(dir, "gone.yaml"), f.Text))

	// Through a link the file is written, and the link stays.
	link := filepath.Join(dir, "link.yaml")
	require.NoError(t, os.Symlink(path, link))
	require.NoError(t, f.Save(link, g.Text))
	where, err := os.Readlink(link)
	require.NoError(t, err)
	assert.Equal(t, path, where)
	now, _ = os.ReadFile(path)
	assert.Equal(t, f.Text, now)
	entries, _ := os.ReadDir(dir)
	assert.Len(t, entries, 2, "no part is left behind")
}

func TestSaveNewTakesTheNextFreeName(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "crafts")
	f := shippedCraft(t, "teasel")
	for _, want := range []string{"my-craft.yaml", "my-craft-2.yaml", "my-craft-3.yaml"} {
		path, err := f.SaveNew(dir, "../My Craft")
		require.NoError(t, err)
		assert.Equal(t, filepath.Join(dir, want), path)
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, f.Text, text)
	}
	entries, _ := os.ReadDir(dir)
	assert.Len(t, entries, 3)
	blocked := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(blocked, nil, 0o600))
	_, err := f.SaveNew(filepath.Join(blocked, "crafts"), "x")
	assert.Error(t, err)
}
