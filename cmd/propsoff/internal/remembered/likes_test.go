package remembered_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/remembered"
)

// What a layout was found to behave like is there at the next start, beside what was proved; of too many the oldest is forgotten.
func TestLikenessIsRemembered(t *testing.T) {
	path := filepath.Join(t.TempDir(), remembered.ProofsName)
	p := remembered.OpenProofs(path)
	p.Note(proof(0))
	like := remembered.Like{Of: proof(1).Of, Day: 20_787, Craft: "it's “old”.yaml", Radio: "r.yaml", CraftWas: true, RadioWas: true}
	p.NoteLike(remembered.Like{Of: like.Of, Craft: "another"})
	p.NoteLike(like)
	again := remembered.OpenProofs(path)
	require.True(t, again.Trouble.Empty())
	assert.Len(t, again.All, 1)
	assert.Equal(t, []remembered.Like{like}, again.Likes)
	assert.Equal(t, &like, again.LikeOf(like.Of))
	assert.Nil(t, again.LikeOf(proof(0).Of))
	for i := range 30 {
		p.NoteLike(remembered.Like{Of: fmt.Sprintf("%064x", i)})
	}
	assert.Len(t, remembered.OpenProofs(path).Likes, 24)
	assert.Nil(t, p.LikeOf(like.Of))
}

// A file with a likeness that nobody could have written is none.
func TestADamagedLikenessIsNone(t *testing.T) {
	good := string((&remembered.Proofs{Likes: []remembered.Like{{Of: proof(1).Of, Day: 1, CraftWas: true}}}).Marshal())
	_, _, err := remembered.ParseProofs("searched.yaml", []byte(good))
	require.NoError(t, err)
	for _, bad := range [][2]string{{"day: 1", "day: soon"}, {proof(1).Of, "xyz"}, {"since: yes", "since: perhaps"}, {"craft-changed-since", "craft-eaten-since"}} {
		require.Contains(t, good, bad[0])
		_, likes, err := remembered.ParseProofs("searched.yaml", []byte(strings.Replace(good, bad[0], bad[1], 1)))
		assert.Error(t, err, bad[1])
		assert.Empty(t, likes, bad[1])
	}
}
