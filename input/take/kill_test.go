//go:build unix

package take

import (
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"
)

// killVariable makes the test binary the recorder that is killed.
const killVariable = "PROPSOFF_TEST_RECORD_TO"

func TestMain(m *testing.M) {
	if path := os.Getenv(killVariable); path != "" {
		if err := recordForEver(path); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}

// killEntry is the i-th entry that the recorder writes.
func killEntry(i int) Entry {
	tick := int64(i)
	switch {
	case i%40 == 39:
		return Entry{Kind: Part, Tick: tick}
	case i%50 == 49:
		return Entry{Kind: Digest, Tick: tick, Digest: uint64(i) * 0x9e3779b97f4a7c15}
	case i%7 == 6:
		return Entry{Kind: Happening, Tick: tick, Code: uint8(i), A: int32(i)}
	}
	return moving(tick, i)
}

// recordForEver flushes after every third entry and tells on its output how many entries are flushed.
func recordForEver(path string) error {
	w := NewTape()
	err := w.Part(testSettings)
	if err == nil {
		err = w.Record(path)
	}
	if err != nil {
		return err
	}
	fmt.Println(0)
	for i := 0; ; i++ {
		e := killEntry(i)
		switch e.Kind {
		case Reading:
			err = w.Reading(e.Tick, e.Reading)
		case Happening:
			err = w.Happening(e.Tick, e.Code, e.A, e.B)
		case Digest:
			err = w.Digest(e.Tick, e.Digest)
		case Part:
			err = w.Part(partFrom(e.Tick))
		}
		if err == nil && i%3 == 2 {
			if err = w.Flush(); err == nil {
				_, err = os.Stdout.WriteString(strconv.Itoa(i+1) + "\n")
			}
		}
		if err != nil {
			return err
		}
	}
}

// A recorder, whose practice changes its craft again and again, is killed with SIGKILL again and again, at random moments. Everything it had flushed is there each time, entry for
// entry, and a torn end can be repaired away.
func TestKilledAtAnyMoment(t *testing.T) {
	times := killed
	if testing.Short() {
		times = 10
	}
	dir := t.TempDir()
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	torn, entries, unfinished, parts := 0, 0, 0, 0
	for n := range times {
		path := filepath.Join(dir, fmt.Sprintf("%d.take", n))
		cmd := exec.Command(os.Args[0], "-test.run=^$")
		cmd.Env = append(os.Environ(), killVariable+"="+path)
		cmd.Stderr = os.Stderr
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		flushed := make(chan int)
		started := make(chan struct{})
		go func() {
			last := -1
			r := bufio.NewReader(out)
			for {
				line, err := r.ReadString('\n')
				if v, bad := strconv.Atoi(strings.TrimSuffix(line, "\n")); err == nil && bad == nil {
					if last < 0 {
						close(started)
					}
					last = v
				}
				if err != nil {
					break
				}
			}
			if last < 0 {
				close(started)
			}
			flushed <- last
		}()
		<-started
		time.Sleep(time.Duration(random.IntN(20_000)) * time.Microsecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		told := <-flushed
		cmd.Wait()
		if told < 0 {
			t.Fatal("the recorder never began")
		}

		r, err := Open(path)
		if err != nil {
			t.Fatalf("kill %d: %v", n, err)
		}
		count := 0
		for ; ; count++ {
			e, end := r.Next()
			if end != nil {
				err = end
				break
			}
			if want := killEntry(count); e != want {
				t.Fatalf("kill %d: entry %d is %+v, want %+v", n, count, e, want)
			}
			if e.Kind == Part {
				parts++
				if !reflect.DeepEqual(r.Settings(), partFrom(e.Tick)) {
					t.Fatalf("kill %d: the part of entry %d has %+v", n, count, r.Settings())
				}
			}
		}
		r.Close()
		if err != io.EOF || count < told || r.Closed() {
			t.Fatalf("kill %d: %d entries, the recorder had flushed %d; %v, closed %v", n, count, told, err, r.Closed())
		}
		entries += count
		if count > told {
			unfinished++
		}
		if r.Torn() != nil {
			torn++
			copied, _, err := Repair(path)
			if err != nil {
				t.Fatalf("kill %d: %v", n, err)
			}
			b, err := os.ReadFile(copied)
			if err != nil {
				t.Fatal(err)
			}
			if es, r := load(t, b); len(es) != count || r.Torn() != nil {
				t.Fatalf("kill %d: repaired to %d entries of %d", n, len(es), count)
			}
			os.Remove(copied)
		}
		os.Remove(path)
	}
	t.Logf("%d kills, %d entries in %d parts read back, %d torn ends, %d killed between a write and the word of it", times, entries, parts, torn, unfinished)
	if entries == 0 || parts == 0 {
		t.Error("no kill came after the first flush: the test proves nothing")
	}
}
