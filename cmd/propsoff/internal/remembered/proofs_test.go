package remembered_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/sim/prove"
)

// proof is of layout n, its rules with all outcomes in turn.
func proof(n int) remembered.Proof {
	p := remembered.Proof{Of: fmt.Sprintf("%064x", n), Day: 20000 + n, Report: prove.Report{Partial: n%2 == 1, Situations: 1<<53 - uint64(n), Standing: 1e29 / float64(n+1)}}
	for r := range prove.RuleCount {
		p.Report.Results = append(p.Report.Results, prove.Result{Rule: r, Outcome: prove.Outcome(int(r)+n) % prove.OutcomeCount, Control: -1, Position: -1})
	}
	return p
}

func TestWhatSearchesCameToComesBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", remembered.ProofsName)
	p := remembered.OpenProofs(path)
	assert.Nil(t, p.Of(proof(1).Of))
	for n := range 6 {
		full := proof(n)
		full.Report.Results[0].Way, full.Report.Bytes = &prove.Way{Movements: 3}, 99 // only what it came to is kept
		p.Note(full)
		assert.NotNil(t, full.Report.Results[0].Way, "what is noted stays whole where it came from")
	}
	again := remembered.OpenProofs(path)
	require.True(t, again.Trouble.Empty())
	for n := range 6 {
		require.NotNil(t, again.Of(proof(n).Of))
		assert.Equal(t, proof(n), *again.Of(proof(n).Of))
		want := proof(n)
		assert.Equal(t, want.Report.Verdict(), again.Of(proof(n).Of).Report.Verdict())
	}
	later := proof(2)
	later.Day, later.Report.Results[3].Outcome = 30000, prove.Broken
	again.Note(later)
	assert.Len(t, again.All, 6)
	assert.Equal(t, later, *remembered.OpenProofs(path).Of(later.Of))
}

// However much is searched, the file stays within what is read again, and the newest is there.
func TestOldSearchesAreForgotten(t *testing.T) {
	path := filepath.Join(t.TempDir(), remembered.ProofsName)
	p := remembered.OpenProofs(path)
	for n := range 100 {
		p.Note(proof(n))
	}
	again := remembered.OpenProofs(path)
	require.True(t, again.Trouble.Empty())
	assert.Equal(t, p.All, again.All)
	assert.NotNil(t, again.Of(proof(99).Of))
	assert.Nil(t, again.Of(proof(0).Of))
	st, err := os.Stat(path)
	require.NoError(t, err)
	assert.Less(t, st.Size(), int64(1<<16))
}

func TestADamagedFileOfSearchesIsPutAside(t *testing.T) {
	digest := strings.Repeat("a", 64)
	for _, bad := range []string{"", "propsoff: remembered 1\n", "propsoff: searched 1\nlayouts: [7]\n", "\x00\xff", "propsoff: searched 1\nlayouts:\n  - {digest: short, day: 1, situations: 1, standing-for: 1}\n",
		"propsoff: searched 1\nlayouts:\n  - {digest: " + digest + ", day: 1, situations: 1, standing-for: 1, broken: [no-such-rule]}\n",
		"propsoff: searched 1\nlayouts:\n  - {digest: " + digest + ", day: 1, situations: 1, standing-for: 1, broken: [can-arm, can-arm]}\n",
		"propsoff: searched 1\nlayouts:\n  - {digest: " + digest + ", day: 1, situations: 1, standing-for: 1, broken: [can-arm], undecided: [can-arm]}\n"} {
		path := filepath.Join(t.TempDir(), remembered.ProofsName)
		require.NoError(t, os.WriteFile(path, []byte(bad), 0o600))
		p := remembered.OpenProofs(path)
		assert.False(t, p.Trouble.Empty(), "%.90q", bad)
		assert.Empty(t, p.All)
		p.Note(proof(1))
		aside, err := os.ReadFile(filepath.Join(filepath.Dir(path), "searched-damaged.yaml"))
		require.NoError(t, err)
		assert.Equal(t, bad, string(aside))
		assert.NotNil(t, remembered.OpenProofs(path).Of(proof(1).Of))
	}
}

func FuzzParseProofs(f *testing.F) {
	p := remembered.Proofs{All: []remembered.Proof{proof(0), proof(1)}}
	f.Add(p.Marshal())
	p.Likes = []remembered.Like{{Of: proof(1).Of, Day: 20_000, Craft: "old.yaml", CraftWas: true}, {Of: proof(0).Of, Radio: "a: b", RadioWas: true}}
	f.Add(p.Marshal())
	f.Fuzz(func(t *testing.T, data []byte) {
		all, likes, err := remembered.ParseProofs("searched.yaml", data)
		if err != nil {
			assert.Empty(t, all)
			assert.Empty(t, likes)
			return
		}
		p := remembered.Proofs{All: all, Likes: likes}
		again, alike, err := remembered.ParseProofs("searched.yaml", p.Marshal())
		require.NoError(t, err)
		assert.Equal(t, all, again)
		assert.Equal(t, likes, alike)
	})
}
