//go:build unix

package logbook

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"propsoff.example/assets/door"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// jobVariable makes the test binary another program that writes: "job folder number".
const jobVariable = "PROPSOFF_TEST_LOGBOOK"

func TestMain(m *testing.M) {
	if job := os.Getenv(jobVariable); job != "" {
		f := strings.SplitN(job, " ", 3)
		n, err := strconv.Atoi(f[1])
		if err == nil {
			err = map[string]func(Store, int) error{"for-ever": writeForEver, "many": writeMany, "limit": writeUnderLimits}[f[0]](Store{f[2]}, n)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

func other(t *testing.T, job string, n int, s Store) *exec.Cmd {
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	cmd.Env = append(os.Environ(), fmt.Sprintf("%s=%s %d %s", jobVariable, job, n, s.Dir))
	cmd.Stderr = os.Stderr
	t.Cleanup(func() {
		if cmd.Process != nil {
			_ = cmd.Process.Kill()
		}
	})
	return cmd
}

// numbered is entry n of a run of writers: small ones, and now and then one of many pages, which a kill can cut in two.
func numbered(n int) Entry {
	size := 20
	if n%2 == 1 {
		size = 300_000
	}
	return Began(begun.Add(time.Duration(n)*time.Second), Practice{Program: strconv.Itoa(n), Radio: strings.Repeat(string(rune('a'+n%26)), size)})
}

func writeForEver(s Store, from int) error {
	b, err := s.Open("A", begun)
	if err != nil {
		return err
	}
	for i := from; ; i++ {
		// As Append does, but for the making of the line, which would take most of the time: the kill is to come while it is written.
		e := numbered(i)
		long := e.Practice.Radio
		e.Practice.Radio = "RADIO"
		line, err := appendEntry(nil, &e)
		if err != nil {
			return err
		}
		b.waiting, b.held = bytes.Replace(line, []byte("RADIO"), []byte(long), 1), 1
		if err := b.flush(); err != nil {
			return err
		}
		if _, err := os.Stdout.WriteString(strconv.Itoa(i+1) + "\n"); err != nil {
			return err
		}
	}
}

// A writer is killed with SIGKILL again and again at random moments, 5 times on the same logbook. Everything it had appended is there each
// time, entry for entry, in order and once, whatever the kills before have torn.
func TestKilledAtAnyMoment(t *testing.T) {
	const inOne = 5
	times := killed
	if testing.Short() {
		times = inOne
	}
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	torn, entries, unfinished := 0, 0, 0
	kills := 0
	for book := 0; kills < times; book++ {
		s := Store{filepath.Join(t.TempDir(), strconv.Itoa(book))}
		var have []int // numbers that must be there
		next := 0
		for kill := range inOne {
			kills++
			cmd := other(t, "for-ever", next, s)
			out, err := cmd.StdoutPipe()
			require.NoError(t, err)
			require.NoError(t, cmd.Start())
			r := bufio.NewReader(out)
			told := next
			timer := time.AfterFunc(time.Duration(random.IntN(3_000))*time.Microsecond, func() {})
			for first := true; ; first = false {
				line, err := r.ReadString('\n')
				if err != nil {
					break
				}
				told, err = strconv.Atoi(strings.TrimSpace(line))
				require.NoError(t, err)
				if first { // the time runs from the first entry on
					timer = time.AfterFunc(time.Duration(random.IntN(3_000))*time.Microsecond, func() { _ = cmd.Process.Kill() })
				}
			}
			timer.Stop()
			_ = cmd.Wait()
			require.Greater(t, told, next, "kill %d: the writer never began", kill)
			for n := next; n < told; n++ {
				have = append(have, n)
			}
			c, err := s.all("A")
			require.NoError(t, err)
			if len(c.Entries) == len(have)+1 { // killed between the write and the word of it
				have = append(have, told)
				unfinished++
				told++
			}
			require.Len(t, c.Entries, len(have), "kill %d", kill)
			for i, n := range have {
				e := &c.Entries[i]
				if e.Practice.Program != strconv.Itoa(n) || e.Practice.Radio != numbered(n).Practice.Radio {
					t.Fatalf("kill %d: entry %d is number %s, want %d", kill, i, e.Practice.Program, n)
				}
			}
			if k := len(c.Notices); k > 0 && c.Notices[k-1].Torn {
				torn++
			}
			for _, n := range c.Notices[:max(0, len(c.Notices)-1)] {
				assert.False(t, n.Torn)
			}
			next = told + 1 // the torn one keeps its number
		}
		entries += len(have)
	}
	t.Logf("%d kills, %d entries read back, %d torn ends healed, %d killed between a write and the word of it", kills, entries, torn, unfinished)
	if torn == 0 { // the kernel's doing, not the logbook's; TestTornLines cuts ends for certain
		t.Log("no write was cut in two this time")
	}
}

func writeMany(s Store, from int) error {
	b, err := s.Open("A", begun)
	if err != nil {
		return err
	}
	for i := from; i < from+2000; i++ {
		e := numbered(i * 2) // the small ones
		e.Practice.Program = strconv.Itoa(i)
		if err := b.Append(e); err != nil {
			return err
		}
	}
	return b.Close()
}

// Programs that write at once, one of them this one, lose nothing and tear nothing; neither do two that begin the logbook at once.
func TestTwoProgramsAtOnceLoseNothing(t *testing.T) {
	s := Store{t.TempDir()}
	a, b := other(t, "many", 0, s), other(t, "many", 2000, s)
	require.NoError(t, a.Start())
	require.NoError(t, b.Start())
	var wg sync.WaitGroup
	wg.Go(func() { assert.NoError(t, writeMany(s, 4000)) })
	assert.NoError(t, a.Wait())
	assert.NoError(t, b.Wait())
	wg.Wait()
	c, err := s.all("A")
	require.NoError(t, err)
	assert.Empty(t, c.Notices)
	require.Len(t, c.Entries, 6000)
	last := map[int]int{}
	swaps := 0
	for i := range c.Entries {
		n, err := strconv.Atoi(c.Entries[i].Practice.Program)
		require.NoError(t, err)
		who := n / 2000
		require.Equal(t, last[who], n%2000, "the entries of each stand in their order")
		last[who]++
		if i > 0 && c.Entries[i-1].Practice.Program != strconv.Itoa(n-1) {
			swaps++
		}
	}
	t.Logf("they took turns %d times", swaps)
	assert.Greater(t, swaps, 10, "the writers did not run at once: the test shows nothing")
}

// A program that holds the lock and does not let go: the entry waits, and is not lost.
func TestBusy(t *testing.T) {
	s := Store{t.TempDir()}
	b := written(t, s, "A", 0, 2)
	f, err := os.OpenFile(b.Path(), os.O_RDWR, 0)
	require.NoError(t, err)
	defer f.Close()
	held, err := door.Lock(f, 0)
	require.NoError(t, err)
	require.True(t, held)
	err = b.Append(some(2))
	assert.ErrorIs(t, err, ErrBusy)
	assert.ErrorContains(t, err, "1 entry is not written yet")
	_, err = s.forget("A")
	assert.ErrorIs(t, err, ErrBusy)
	c, err := s.all("A") // reading goes on
	require.NoError(t, err)
	assert.Len(t, c.Entries, 2)
	require.NoError(t, f.Close())
	require.NoError(t, b.Append(some(3)))
	c, err = s.all("A")
	require.NoError(t, err)
	assert.Equal(t, wants(0, 4), bare(c.Entries))
}

// writeUnderLimits writes into logbooks whose files may grow to a limit only (RLIMIT_FSIZE), one logbook for each limit up to most:
// a disk that is full at that very byte. Then the limit goes, and what waited must go out.
func writeUnderLimits(s Store, most int) error {
	signal.Ignore(syscall.SIGXFSZ) // the write then fails with EFBIG
	var had syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &had); err != nil {
		return err
	}
	for limit := 1; limit <= most; limit++ {
		now := had
		now.Cur = uint64(limit)
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &now); err != nil {
			return err
		}
		name := strconv.Itoa(limit)
		b, err := s.Open(name, begun)
		full := 0
		if err == nil {
			for i := range 5 {
				if err = b.Append(some(i)); errors.Is(err, syscall.EFBIG) && strings.Contains(err.Error(), "the disk is full; make room") {
					full++
				} else if err != nil {
					return fmt.Errorf("limit %d: %w", limit, err)
				}
			}
		} else if !errors.Is(err, syscall.EFBIG) {
			return fmt.Errorf("limit %d: %w", limit, err)
		}
		// What a reader sees while the disk is full: whole entries, none lost.
		if c, bad := s.all(name); bad != nil {
			return bad
		} else if b != nil && (len(c.Entries) != 5-full || len(c.Notices) != 0) {
			return fmt.Errorf("limit %d: %d entries and %v with %d writes that failed", limit, len(c.Entries), c.Notices, full)
		}
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &had); err != nil {
			return err
		}
		if b == nil {
			if b, err = s.Open(name, begun); err != nil {
				return err
			}
			if err := b.Append(some(0), some(1), some(2), some(3), some(4)); err != nil {
				return err
			}
		} else if b.Waiting() != full {
			return fmt.Errorf("limit %d: %d wait, %d failed", limit, b.Waiting(), full)
		}
		if err := b.Close(); err != nil {
			return err
		}
		fmt.Println(limit, full)
	}
	return nil
}

func TestFullAtEveryByte(t *testing.T) {
	s := Store{t.TempDir()}
	most := 1400
	if testing.Short() {
		most = 200
	}
	out, err := other(t, "limit", most, s).Output()
	require.NoError(t, err)
	lines := strings.Fields(string(out))
	require.Len(t, lines, 2*most)
	failed := map[string]int{}
	for i := range most {
		failed[lines[2*i+1]]++
		c, err := s.all(lines[2*i])
		require.NoError(t, err)
		require.Empty(t, c.Notices, "limit %s", lines[2*i])
		require.Equal(t, wants(0, 5), bare(c.Entries), "limit %s", lines[2*i])
	}
	t.Logf("of %d limits: writes that failed → limits: %v", most, failed)
	if !testing.Short() {
		assert.Len(t, failed, 6, "limits in every entry, and beyond the last")
	}
}

// Whoever is given the entries may pause, as a pager does: meanwhile others write, and what they write is not read.
func TestReadingHoldsNobodyUp(t *testing.T) {
	s := Store{t.TempDir()}
	written(t, s, "A", 0, 3)
	seen := 0
	_, err := s.Read("A", func(*Contents, *Entry) error {
		seen++
		b, err := s.Open("A", begun)
		if err == nil {
			err = b.Append(some(7))
		}
		return err
	})
	require.NoError(t, err)
	all, err := s.all("A")
	require.NoError(t, err)
	assert.Len(t, all.Entries, 2*seen)
}
