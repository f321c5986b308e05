package engineaxes_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/engineaxes"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/usb"
)

func sixAxes() input.Info {
	info := input.Info{Name: "Moorland Desk", Way: usb.WayPortable, Buttons: 4}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: 0, Max: 65535})
	}
	return info
}

func TestSeventhAndEighthAxisAreFilledIn(t *testing.T) {
	now := int64(1000)
	f := engineaxes.New(func() int64 { return now })
	f.Saw([]engineaxes.Pad{{Name: "moorland desk", Axes: []float64{0, 0, 0, 0, 0, 0, -1, 0.5}}})
	r := inputtest.NewRadio(sixAxes())
	r.Move(5000, 0, 0, 65535)
	slow := r.OpenSlow(0)
	d := f.Wrap(slow, 0)
	require.Len(t, d.Info().Axes, 8)
	raws, err := d.Poll(nil)
	require.NoError(t, err)
	require.Len(t, raws, 1)
	assert.Equal(t, int32(-engineaxes.Range), raws[0].Axes[6])
	assert.Equal(t, int32(16383), raws[0].Axes[7])

	raws, err = d.Poll(raws[:0])
	require.NoError(t, err)
	assert.Empty(t, raws, "a still hand sends nothing")

	now = 3000
	f.Saw([]engineaxes.Pad{{Name: "moorland desk", Axes: []float64{0, 0, 0, 0, 0, 0, 1, 0.5}}})
	raws, _ = d.Poll(raws[:0])
	require.Len(t, raws, 1, "only the engine's axis moved")
	assert.Equal(t, int64(3000), raws[0].At, "stamped at update rate")
	assert.Equal(t, int32(engineaxes.Range), raws[0].Axes[6])
	assert.Equal(t, int32(32767), raws[0].Axes[0], "the device's own axes stand beside it")

	slow.Pass(10_000)
	raws, _ = d.Poll(raws[:0])
	require.Len(t, raws, 1)
	assert.Equal(t, int32(65535), raws[0].Axes[0])
	assert.Equal(t, int32(engineaxes.Range), raws[0].Axes[6])
}

func TestNothingToFillIn(t *testing.T) {
	f := engineaxes.New(func() int64 { return 0 })
	dev := inputtest.NewRadio(sixAxes()).Open(0)
	assert.Same(t, dev, f.Wrap(dev, 0), "the engine sees no pad")
	f.Saw([]engineaxes.Pad{{Name: "x", Axes: make([]float64, 6)}})
	assert.Same(t, dev, f.Wrap(dev, 0), "the engine sees no more axes")
	f.Saw([]engineaxes.Pad{{Name: "x", Axes: make([]float64, 8)}, {Name: "y", Axes: make([]float64, 8)}})
	assert.Same(t, dev, f.Wrap(dev, 0), "which of two it is cannot be told")
}
