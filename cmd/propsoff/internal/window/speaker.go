//go:build cgo || windows || js

package window

import (
	"bytes"
	"fmt"
	"io"
	"sync"
	"time"

	"github.com/ebitengine/oto/v3"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/sound"
)

// Speaker plays tones. It uses the player that the engine's own audio package uses, and not that package: there, a machine without a
// sound device, or one whose device is pulled out, ends the whole program. Here it is merely silent, and Trouble says why.
//
// Its methods may be called from any goroutine and do not wait for the device.
type Speaker struct {
	now func() int64

	mu      sync.Mutex
	ready   chan struct{}
	context *oto.Context
	players [sound.CodeCount]*oto.Player
	playing sound.Code
	handed  [sound.CodeCount]int64
	was     [sound.CodeCount]bool
	trouble error
}

const (
	// soundBuffer is how much the device is asked to hold, some 43 ms (ours): short, so that a tone comes soon, and long enough not to run dry. A browser
	// takes powers of two only (Web Audio API, createScriptProcessor).
	soundBuffer = (2048*time.Second + sound.Rate - 1) / sound.Rate
	// SoundLag is the most that a tone begins after it was handed over, in µs, on this side of the system's own sound server: what the
	// device holds, and on Linux and in the browser the half of that which was mixed already. What a server, or a headset without a
	// wire, adds is not known.
	SoundLag = int64(soundBuffer/time.Microsecond) * 3 / 2
)

// NewSpeaker opens the machine's sound device, which goes on in the background. now is the clock that Played tells times of, in µs. One
// program can have one speaker; a second one is silent.
func NewSpeaker(now func() int64) *Speaker {
	s := &Speaker{now: now, ready: make(chan struct{})}
	go s.open()
	return s
}

func (s *Speaker) open() {
	defer close(s.ready)
	defer func() { // a browser throws where it has no sound, or not at this rate
		if r := recover(); r != nil {
			s.fail(words.Wrong("sound.not-opened", words.Args{"why": words.Quote(fmt.Sprint(r))}))
		}
	}()
	hush()
	context, ready, err := oto.NewContext(&oto.NewContextOptions{
		SampleRate: sound.Rate, ChannelCount: sound.Channels, Format: oto.FormatSignedInt16LE, BufferSize: soundBuffer,
	})
	if err != nil {
		s.fail(err)
		return
	}
	<-ready
	if err := context.Err(); err != nil {
		s.fail(err)
		return
	}
	var players [sound.CodeCount]*oto.Player
	for _, c := range sound.All() { // made once, so that nothing is computed while something is played
		players[c] = context.NewPlayer(bytes.NewReader(sound.PCM(c)))
	}
	s.mu.Lock()
	s.context, s.players = context, players
	s.mu.Unlock()
}

func (s *Speaker) fail(err error) {
	s.mu.Lock()
	s.trouble = err
	s.mu.Unlock()
}

// Play begins a tone now, or never: what comes before the device is open, or where there is none, is dropped. A tone that sounds fades
// out within one buffer; the same one goes on.
func (s *Speaker) Play(c sound.Code) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.context == nil || c <= sound.None || c >= sound.CodeCount || s.broken() {
		return
	}
	p := s.players[c]
	if s.playing == c && p.IsPlaying() {
		return
	}
	if s.playing != sound.None {
		s.players[s.playing].SetVolume(0) // the mixer goes there evenly
	}
	p.Pause() // what it had mixed is thrown away by Seek
	p.SetVolume(1)
	if _, err := p.Seek(0, io.SeekStart); err != nil {
		return
	}
	p.Play()
	s.playing, s.handed[c], s.was[c] = c, s.now(), true
}

// broken notes that the device went away. The lock is held.
func (s *Speaker) broken() bool {
	if s.trouble == nil && s.context != nil {
		s.trouble = s.context.Err()
	}
	return s.trouble != nil
}

// Played tells when a tone was handed over last, on the clock, and how many µs later at most it began; ok false while it never was.
func (s *Speaker) Played(c sound.Code) (at, uncertain int64, ok bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if c >= sound.CodeCount || !s.was[c] {
		return 0, 0, false
	}
	return s.handed[c], SoundLag, true
}

// Trouble says why nothing can be heard; nil while it can, or while that is not known yet.
func (s *Speaker) Trouble() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.broken()
	return s.trouble
}
