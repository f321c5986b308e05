//go:build linux

package hostile

import (
	"bytes"
	"io"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/input/take"
)

const aTake = "../../../cmd/propsoff/testdata/takes/model-1/switch.take"

// What is sealed anew is what the reader of takes reads: unchanged records come out as the same bytes, and a moment far away gets past the
// check sums to the reader itself.
func TestSealedAnew(t *testing.T) {
	good, err := os.ReadFile(aTake)
	require.NoError(t, err)
	same := records(func(_ *rand.Rand, all []record) []record { return all })(nil, good)
	require.Equal(t, good, same)
	require.Greater(t, Records(good), 3)
	require.Zero(t, Records(good[:100]))

	r := rand.New(rand.NewPCG(1, 2))
	sealed := 0
	for _, s := range Takes {
		for range 20 {
			rd, err := take.NewReader(bytes.NewReader(s.Make(r, good)), "x.take")
			for err == nil {
				_, err = rd.Next()
			}
			if err == io.EOF {
				sealed++
			}
		}
	}
	require.Greater(t, sealed, 20, "some are whole takes to the reader, which takes none that lasts longer than a day")
}

// Every way to spoil a text changes it, now and then at least, and does not mind an empty one.
func TestTextsAreSpoilt(t *testing.T) {
	good := []byte("propsoff: craft 1\nname: Teasel\nx: [1, 2.5]\n")
	r := rand.New(rand.NewPCG(1, 2))
	for _, s := range Texts {
		changed := false
		for range 20 {
			changed = !bytes.Equal(s.Make(r, good), good) || changed
			_ = s.Make(r, nil)
		}
		require.True(t, changed, s.Name)
	}
}
