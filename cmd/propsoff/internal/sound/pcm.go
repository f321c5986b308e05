package sound

import (
	"encoding/binary"
	"math"
	"time"
)

// What samples are: 16 bits signed, little endian, left and right the same, Rate of them a second.
const (
	Rate          = 48_000
	Channels      = 2
	BytesPerFrame = 2 * Channels
)

// PCM are the samples of the tone of a code; nil for none. The same code gives the same bytes.
func PCM(c Code) []byte {
	t := c.Tone()
	return t.PCM()
}

// PCM are the samples of a tone. A tone that begins or ends with a sounding step begins or ends at 0.
func (t *Tone) PCM() []byte {
	n := frames(t.Length())
	if n == 0 {
		return nil
	}
	out := make([]byte, 0, n*BytesPerFrame)
	phase, at := 0.0, 0
	for _, s := range t.Steps {
		at += s.Ms
		length := frames(time.Duration(at)*time.Millisecond) - len(out)/BytesPerFrame
		for i := range length {
			v := int16(0)
			if s.From > 0 {
				// The pitch in the middle of the sample's time; the phase goes on from step to step.
				f := s.From * math.Pow(s.To/s.From, (float64(i)+0.5)/float64(length))
				v = int16(math.Round(math.MaxInt16 * t.Level * t.edge(i, length) * t.wave(phase)))
				phase += 2 * math.Pi * f / Rate
			}
			for range Channels {
				out = binary.LittleEndian.AppendUint16(out, uint16(v))
			}
		}
		phase = math.Mod(phase, 2*math.Pi)
	}
	return out
}

// wave is pitch and octave together, within −1 … 1.
func (t *Tone) wave(phase float64) float64 {
	return (math.Sin(phase) + t.Octave*math.Sin(2*phase)) / (1 + t.Octave)
}

// edge is how loud sample i of a step of n is, 0 … 1: half a cosine up, and down again so that the last is 0.
func (t *Tone) edge(i, n int) float64 {
	e := float64(min(frames(time.Duration(t.Edge)*time.Millisecond), n/2))
	if d := float64(min(i, n-1-i)); d < e {
		return (1 - math.Cos(math.Pi*d/e)) / 2
	}
	return 1
}

func frames(d time.Duration) int { return int(d * Rate / time.Second) }
