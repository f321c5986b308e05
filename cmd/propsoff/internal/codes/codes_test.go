package codes

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
)

var wordShape = regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)

func different(t *testing.T, what string, texts []string) {
	t.Helper()
	seen := map[string]bool{}
	for _, s := range texts {
		assert.False(t, seen[s], "%s: %q stands twice", what, s)
		seen[s] = true
	}
}

func TestEveryCodeHasAWordOfItsOwn(t *testing.T) {
	refusals, codes := Refusals(), Happenings()
	require.Len(t, refusals, len(arming.Shown()))
	require.Len(t, codes, int(happening.CodeCount)-1)
	var causes []string
	for c := happening.Cause(1); c < happening.CauseCount; c++ {
		causes = append(causes, Cause(c))
	}
	for _, w := range append(append(append([]string(nil), refusals...), codes...), causes...) {
		assert.Regexp(t, wordShape, w)
	}
	different(t, "refusals", refusals)
	different(t, "happenings", codes)
	different(t, "causes", causes)

	for _, r := range arming.Shown() {
		back, ok := RefusalOf(Refusal(r))
		assert.True(t, ok)
		assert.Equal(t, r, back)
	}
	for c := happening.Code(1); c < happening.CodeCount; c++ {
		back, ok := CodeOf(Code(c))
		assert.True(t, ok)
		assert.Equal(t, c, back)
		assert.Equal(t, Codes()[c], Code(c))
	}
	_, ok := CodeOf("")
	assert.False(t, ok)
	assert.Equal(t, "code 200", Code(200), "an unknown number must not fail")
	assert.Equal(t, "refusal 99", Refusal(99))
}
