//go:build linux

package inputs

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/attack/child"
)

// A program that does each of these is found out, and only of that; one that does nothing wrong is let go.
func TestWhatTheJudgeNotices(t *testing.T) {
	for what, c := range map[string]struct {
		line  string
		trial trial
	}{
		"":                         {"echo fine: x.yaml; exit 2", trial{names: words("x.yaml")}},
		"crash":                    {"echo 'panic: oh' >&2; exit 2", trial{}},
		"hang":                     {"sleep 20", trial{}},
		"died of a signal":         {"echo; sleep 20", trial{spec: child.Spec{Signal: syscall.SIGHUP}}},
		"one signal is not enough": {"trap 'n=x$n; [ $n = xx ] && exit 0' TERM; echo; while :; do sleep 0.1; done", trial{spec: child.Spec{Signal: syscall.SIGTERM}}},
		"not refused":              {"exit 0", trial{fails: true}},
		"error without its file":   {"echo bad >&2; exit 2", trial{names: words("x.yaml")}},
		"control characters":       {`printf 'a\033[2J\n'`, trial{}},
		"overwritten":              {"echo other > dear.txt", trial{}},
		"left lying about":         {"echo > .propsoff-1.part", trial{fresh: words("work/new")}},
		"written unasked":          {"echo > other", trial{fresh: words("work/new")}},
		"link followed":            {"echo > nothing-there", trial{}},
	} {
		t.Run(what, func(t *testing.T) {
			good := map[string][][]byte{}
			for _, kind := range kinds {
				good[kind] = [][]byte{[]byte("a sample of ten or more bytes")}
			}
			g := &ground{root: t.TempDir()}
			g.work = filepath.Join(g.root, "work")
			require.NoError(t, g.lay(good))
			before, err := g.state()
			require.NoError(t, err)
			res, err := child.Run(child.Spec{Bin: "/bin/sh", Args: words("-c", c.line), Dir: g.work, Env: words("PATH=" + os.Getenv("PATH")), CPU: 5, Deadline: 6 * time.Second, Signal: c.trial.spec.Signal})
			require.NoError(t, err)
			after, err := g.state()
			require.NoError(t, err)
			var got []string
			for _, v := range c.trial.judge(&res, before, after) {
				got = append(got, v.what)
			}
			if what == "" {
				assert.Empty(t, got)
				return
			}
			assert.Equal(t, words(what), got)
		})
	}
}

func TestMemoryIsJudged(t *testing.T) {
	got := (&trial{}).judge(&child.Result{Peak: memoryMost + 1}, nil, nil)
	require.Len(t, got, 1)
	assert.Equal(t, "memory", got[0].what)
	res, err := child.Run(child.Spec{Bin: "/bin/sh", Args: words("-c", "head -c 100000000 /dev/zero | tail -c 90000000 > /dev/null"), Env: words("PATH=" + os.Getenv("PATH")), CPU: 20, Deadline: 20 * time.Second})
	require.NoError(t, err)
	assert.Greater(t, res.Peak, int64(80_000_000), "a child's memory is seen")
}

// What steers a terminal, in each form, and what does not.
func TestWhatSteers(t *testing.T) {
	for _, s := range []string{"\x1b[m", "\a", "\r", "\x7f", "\u009b", "\x9b", "\u202e", "\u2066", "a\x00"} {
		assert.NotEmpty(t, steering([]byte("before "+s+" behind")), "%q", s)
	}
	assert.Empty(t, steering([]byte("ä\t\u200d☃\n\xe2\x82"))) // the end is where we stopped looking
}

// A large file is shared between playgrounds by links: one more name elsewhere changes nothing, and one more byte does.
func TestALargeFileIsSeenToChange(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "big")
	require.NoError(t, os.WriteFile(path, make([]byte, hashedMost+1), 0o644))
	was, err := word(path)
	require.NoError(t, err)
	time.Sleep(20 * time.Millisecond) // a file system's clock may stand for a while
	require.NoError(t, os.Link(path, filepath.Join(dir, "another")))
	linked, err := word(path)
	require.NoError(t, err)
	assert.Equal(t, was, linked)

	f, err := os.OpenFile(path, os.O_RDWR, 0)
	require.NoError(t, err)
	_, err = f.WriteAt([]byte{1}, 9)
	require.NoError(t, err)
	require.NoError(t, f.Close())
	written, err := word(path)
	require.NoError(t, err)
	assert.NotEqual(t, was, written)
}
