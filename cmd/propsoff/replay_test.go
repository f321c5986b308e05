package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/radio"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// writeBusyTake records minutes of practice with hands that move fifty times a second, and arms and disarms now and then.
func writeBusyTake(tb testing.TB, path string, minutes int) {
	c, err := bareWorld().LoadCraft("", "")
	require.NoError(tb, err)
	w, err := bareWorld().BeginTake(path, c.Papers(), &live.Start{Craft: c.Config()})
	require.NoError(tb, err)
	p := practice.New(c.Config())
	f := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}
	rs := []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Controls, Frame: f}}
	for t := int64(0); t < int64(minutes)*60_000; t++ {
		if t%20 == 7 {
			f[0] = pulse.Low + pulse.Width(t/7%4000)
			f[1] = pulse.Centre + pulse.Width(t/3%2000)
			f[4] = pulse.Low
			if t/5000%2 == 1 {
				f[4] = pulse.High
			}
			rs = append(rs, pulse.Reading{At: t * 1000, Kind: pulse.Controls, Frame: f})
		}
		for _, r := range rs {
			require.NoError(tb, w.Reading(t, r))
		}
		p.Step(rs)
		rs = rs[:0]
		for _, h := range p.Happenings() {
			require.NoError(tb, w.Happening(h.Tick, uint8(h.Code), h.A, h.B))
		}
		if t%1000 == 0 {
			require.NoError(tb, w.Digest(t, p.Digest()))
		}
	}
	require.NoError(tb, w.Digest(p.Tick()-1, p.Digest()))
	require.NoError(tb, w.Close())
}

func TestBusyTakeReplaysToTheSame(t *testing.T) {
	path := filepath.Join(t.TempDir(), "busy.take")
	writeBusyTake(t, path, 3)
	code, out, errs := command(t, "run", path)
	require.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
}

// BenchmarkReplay replays takes of one minute to ten hours: the multiple of real time must stay about the same.
func BenchmarkReplay(b *testing.B) {
	for _, minutes := range []int{1, 10, 60, 600} {
		path := filepath.Join(b.TempDir(), fmt.Sprint(minutes, ".take"))
		writeBusyTake(b, path, minutes)
		b.Run(fmt.Sprintf("%d-min", minutes), func(b *testing.B) {
			w := &world.World{Out: io.Discard, Err: io.Discard, Radios: noRadios{}, Store: radio.Store{Dir: b.TempDir()},
				Screen: func() (int, int, bool) { return 0, 0, false }, Now: func() int64 { return time.Now().UnixMicro() }}
			for b.Loop() {
				if code := execute(context.Background(), []string{"run", path}, w); code != exit.CodeDone {
					b.Fatal(code)
				}
			}
			b.ReportMetric(float64(minutes)*60/(b.Elapsed().Seconds()/float64(b.N)), "×real-time")
		})
	}
}
