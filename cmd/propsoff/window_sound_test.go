//go:build linux && cgo && window

package main

import (
	"context"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"propsoff.example/cmd/propsoff/internal/sound"
)

// soundScene runs the window with a script and a sound library that is set up by conf (asoundrc of alsa-lib).
func soundScene(t *testing.T, steps, after, conf string) (out string) {
	dir := t.TempDir()
	play, alsa := filepath.Join(dir, "scene.yaml"), filepath.Join(dir, "asound.conf")
	require.NoError(t, os.WriteFile(play, []byte(healthy+steps+"\n"), 0o600))
	require.NoError(t, os.WriteFile(alsa, []byte(conf), 0o600))
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
	defer cancel()
	self, err := filepath.Abs(os.Args[0])
	require.NoError(t, err)
	cmd := exec.CommandContext(ctx, self)
	cmd.Dir = dir
	args := []string{"--size", "960x600", "--play", play, "--picture", after + "=" + filepath.Join(dir, "sound.png")}
	cmd.Env = append(os.Environ(), "HOME="+dir, sceneIs+"="+strings.Join(args, "\n"), "PROPSOFF_RADIOS="+filepath.Join(dir, "radios"), "ALSA_CONFIG_PATH="+alsa)
	text, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", text)
	page, err := os.ReadFile(filepath.Join(dir, "sound.png.json"))
	require.NoError(t, err)
	assert.Contains(t, string(page), "♪ disarmed", "the caption")
	return string(text)
}

const armAndDisarm = "- {at: 2.2s, arm: on}\n- {at: 3.2s, arm: off}\nend: 60s"

// Without a sound device everything goes on, and nothing is written into the terminal.
func TestWindowWithoutASoundDevice(t *testing.T) {
	out := soundScene(t, armAndDisarm, "4s", "# no device at all\n")
	assert.Empty(t, strings.TrimSpace(out))
}

// What reaches the sound device are the tones themselves, sample by sample, at their times. The device is alsa-lib's own file plugin,
// which writes what is played into a pipe that is read at the pace of a real one.
func TestWindowIsHeard(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "played")
	require.NoError(t, unix.Mkfifo(pipe, 0o600))
	f, err := os.OpenFile(pipe, os.O_RDWR, 0)
	require.NoError(t, err)
	played := make(chan []float64, 1)
	go func() {
		var all []float64
		buf := make([]byte, 1920) // 5 ms of 32-bit floats on two channels
		begun := time.Now()
		for n := 0; ; n++ {
			if _, err := io.ReadFull(f, buf); err != nil {
				played <- all
				return
			}
			if n == 0 {
				begun = time.Now()
			}
			for i := 0; i < len(buf); i += 8 {
				all = append(all, float64(math.Float32frombits(binary.LittleEndian.Uint32(buf[i:]))))
			}
			time.Sleep(time.Until(begun.Add(time.Duration(n) * 5 * time.Millisecond)))
		}
	}()
	soundScene(t, armAndDisarm, "4s", fmt.Sprintf("pcm.!default { type file slave.pcm { type null } file %q format raw }\n", pipe))
	require.NoError(t, f.Close())
	all := <-played
	require.Greater(t, len(all), 2*sound.Rate, "two seconds were played")

	armed, like := find(all, sound.Armed)
	assert.Greater(t, like, 0.999, "armed")
	disarmed, like := find(all, sound.Disarmed)
	assert.Greater(t, like, 0.999, "disarmed")
	assert.InDelta(t, 1.0, float64(disarmed-armed)/sound.Rate, 0.5, "a second apart, as in the script; a busy machine draws late")
	_, like = find(all, sound.DrillAlarm)
	assert.Less(t, like, 0.5, "no alarm")
	for i := 1; i < len(all); i++ { // no click at any begin or end either: half of full scale would be a crack
		if math.Abs(all[i]-all[i-1]) > 0.2 {
			t.Fatalf("a step of %.2f at %.3f s", all[i]-all[i-1], float64(i)/sound.Rate)
		}
	}
}

// find is where a tone is in what was played, and how alike the two are, −1 … 1.
func find(all []float64, c sound.Code) (at int, like float64) {
	pcm := sound.PCM(c)
	want := make([]float64, 0, len(pcm)/sound.BytesPerFrame)
	power := 0.0
	for i := 0; i < len(pcm); i += sound.BytesPerFrame {
		v := float64(int16(binary.LittleEndian.Uint16(pcm[i:]))) / math.MaxInt16
		want, power = append(want, v), power+v*v
	}
	like = -1
	quiet := 0 // so many samples of silence
	for i, v := range all {
		if v == 0 {
			quiet++
			continue
		}
		begins := quiet > 10 // a tone begins where silence ends; its own first samples are 0 too
		quiet = 0
		for from := max(i-5, 0); begins && from <= i && from+len(want) <= len(all); from++ {
			dot, own := 0.0, 0.0
			for j, w := range want {
				dot, own = dot+w*all[from+j], own+all[from+j]*all[from+j]
			}
			if s := dot / math.Sqrt(power*own); s > like {
				at, like = from, s
			}
		}
	}
	return at, like
}
