//go:build !js

package door_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/browser"
	"propsoff.example/scripts/browser/onfloor"
)

const door = "propsoff.example/assets/door"

// The tests of this package, which were written for desktop systems, pass on the page's floor: in the browser's storage, in memory where it refuses that,
// and without its locks, which it gives on secure addresses only.
func TestTheseTestsPassInABrowser(t *testing.T) {
	place, b := onfloor.For(t, door), browser.For(t)
	for name, before := range map[string]string{
		"kept":     "",
		"refused":  "Object.defineProperty(window, 'indexedDB', {get() { throw new Error('refused') }})",
		"unlocked": "Object.defineProperty(navigator, 'locks', {value: undefined})",
	} {
		p := place.Open(b, before)
		place.Run(p, "^Test")
		var keeps bool
		require.NoError(t, p.Eval("floor.keeps", &keeps))
		assert.Equal(t, name != "refused", keeps)
		require.NoError(t, p.Close())
	}
}

// last is the last number behind a word.
func last(t *testing.T, said, word string) int {
	t.Helper()
	all := regexp.MustCompile(word+` (-?\d+)`).FindAllStringSubmatch(said, -1)
	if len(all) == 0 {
		return -1
	}
	n, err := strconv.Atoi(all[len(all)-1][1])
	require.NoError(t, err)
	return n
}

// A page that is killed while it writes leaves the old file or the new one, and what it had said to be written is there; so it is where the whole browser is
// killed, as a power cut would.
func TestKilledPages(t *testing.T) {
	place := onfloor.For(t, door)
	profile := t.TempDir()
	b, err := browser.Start(profile)
	require.NoError(t, err)
	defer func() { b.Kill() }()
	next := 0
	for kill := range 8 {
		p := place.Open(b, "")
		place.Begin(p, "^TestPageWrites$", "FLOOR=writes", fmt.Sprintf("FROM=%d", next))
		require.NoError(t, p.WaitFor("true", time.Second))
		require.Eventually(t, func() bool { return strings.Contains(strings.Join(p.Said(), "\n"), "written ") }, time.Minute, 5*time.Millisecond)
		time.Sleep(time.Duration(rand.IntN(300)) * time.Millisecond)
		if kill%2 == 0 {
			require.NoError(t, p.Crash())
		} else {
			b.Kill()
			b, err = browser.Start(profile)
			require.NoError(t, err)
		}
		acknowledged := last(t, strings.Join(p.Said(), "\n"), "written")
		require.GreaterOrEqual(t, acknowledged, next)
		p = place.Open(b, "")
		there := last(t, place.Run(p, "^TestPageReads$", "FLOOR=reads"), "there")
		assert.GreaterOrEqual(t, there, acknowledged, "kill %d", kill)
		next = there + 1
		require.NoError(t, p.Close())
	}
	p := place.Open(b, "")
	require.NoError(t, p.Reload())
	assert.Equal(t, next-1, last(t, place.Run(p, "^TestPageReads$", "FLOOR=reads"), "there"), "after a reload")
}

// A browser that gives no more room is a full disk; what is taken away makes room again.
func TestAFullBrowser(t *testing.T) {
	place, b := onfloor.For(t, door), browser.For(t)
	p, err := b.New()
	require.NoError(t, err)
	// Before the page has written anything: for half a minute after that a browser goes by the room that it saw then.
	require.NoError(t, p.Call("Storage.overrideQuotaForOrigin", map[string]any{"origin": place.URL, "quotaSize": 8 << 20}, nil))
	require.NoError(t, p.Go(place.URL))
	for range 2 {
		assert.Contains(t, place.Run(p, "^TestPageFull$", "FLOOR=full"), "log: full")
	}
}
