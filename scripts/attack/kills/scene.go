//go:build linux

package kills

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"time"
)

// scene is one victim in a folder of its own.
type scene struct {
	*killing
	v   *victim
	dir string

	said   []byte // what it printed, whole lines
	ended  bool   // it came to its end before it was killed
	status int
}

// lay makes the folder anew.
func (c *scene) lay() error {
	if err := os.RemoveAll(c.dir); err != nil {
		return err
	}
	for _, sub := range []string{"home", "logs", "ways", "folder"} {
		if err := os.MkdirAll(filepath.Join(c.dir, sub), 0o755); err != nil {
			return err
		}
	}
	for name, text := range c.good {
		if err := os.WriteFile(filepath.Join(c.dir, name), text, 0o644); err != nil {
			return err
		}
	}
	if c.v.prepare != nil {
		return c.v.prepare(c)
	}
	return nil
}

func (c *scene) command(args ...string) *exec.Cmd {
	cmd := exec.Command(c.Program, args...)
	if c.v.saver {
		cmd = exec.Command(c.Saver, args...)
	}
	cmd.Dir = c.dir
	cmd.Env = []string{"HOME=" + filepath.Join(c.dir, "home"), "LANG=C.UTF-8", "PATH=/nowhere"}
	return cmd
}

// program asks the program something, and gives what it prints.
func (c *scene) program(more string, args []string) ([]byte, error) {
	cmd := c.command(append(slices.Clone(args), more)...)
	if c.v.saver {
		return nil, errors.New("it has no help")
	}
	return cmd.Output()
}

// whole runs the victim to its end; one that never ends saves once.
func (c *scene) whole() (took time.Duration, status int, said string, err error) {
	cmd := c.command(append(slices.Clone(c.v.args), c.v.over...)...)
	cmd.Env = append(cmd.Env, "SAVERS_TIMES=1")
	began := time.Now()
	out, err := cmd.CombinedOutput()
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		err = nil
	}
	return time.Since(began), cmd.ProcessState.ExitCode(), string(out), err
}

// run starts the victim and kills it: after a random time, or right upon a random one of the changes that it makes in its folder.
func (c *scene) run(r *rand.Rand) (moment string, err error) {
	cmd := c.command(append(slices.Clone(c.v.args), c.v.over...)...)
	var out lockedBuffer
	cmd.Stdout = &out
	watch, err := watcher(filepath.Join(c.dir, c.v.writesIn))
	if err != nil {
		return "", err
	}
	defer watch.Close()
	if err := cmd.Start(); err != nil {
		return "", err
	}
	most := c.v.takes + c.v.takes/10
	if c.v.saver {
		most = 150 * time.Millisecond
	}
	wait := time.Duration(r.Int64N(int64(most)))
	moment = fmt.Sprintf("after %v", wait)
	if r.IntN(2) == 0 {
		changes := 1 + r.IntN(6)
		if c.v.saver {
			changes = 1 + r.IntN(60)
		}
		moment = fmt.Sprintf("upon change %d", changes)
		await(watch, changes, 2*most)
	} else {
		time.Sleep(wait)
	}
	_ = cmd.Process.Kill()
	_ = cmd.Wait()
	c.status = cmd.ProcessState.ExitCode()
	c.ended = c.status >= 0
	c.said = out.whole()
	return moment, nil
}

// watcher tells of everything that comes, changes and goes in a folder (inotify(7)).
func watcher(dir string) (*os.File, error) {
	fd, err := syscall.InotifyInit1(syscall.IN_NONBLOCK | syscall.IN_CLOEXEC)
	if err != nil {
		return nil, err
	}
	const all = syscall.IN_CREATE | syscall.IN_MODIFY | syscall.IN_CLOSE_WRITE | syscall.IN_MOVED_FROM | syscall.IN_MOVED_TO | syscall.IN_DELETE | syscall.IN_ATTRIB
	if _, err := syscall.InotifyAddWatch(fd, dir, all); err != nil {
		return nil, errors.Join(err, syscall.Close(fd))
	}
	return os.NewFile(uintptr(fd), "inotify"), nil
}

// await waits for so many changes, or for a time.
func await(watch *os.File, changes int, most time.Duration) {
	_ = watch.SetReadDeadline(time.Now().Add(most))
	b := make([]byte, 4096)
	for changes > 0 {
		n, err := watch.Read(b)
		if err != nil {
			return
		}
		for at := 0; at+syscall.SizeofInotifyEvent <= n; changes-- {
			at += syscall.SizeofInotifyEvent + int(b[at+12]) + int(b[at+13])<<8 // the length of its name stands in its last 4 bytes
		}
	}
}

// look says what is wrong after the kill.
func (c *scene) look() []finding {
	var out []finding
	for name, text := range c.good {
		now, err := os.ReadFile(filepath.Join(c.dir, name))
		if (err != nil || !bytes.Equal(now, text)) && !slices.Contains(c.v.outs, name) {
			out = append(out, found(Lost, "%s, which it only reads, is not what it was (%v)", name, err)...)
		}
	}
	if c.v.look != nil {
		return append(out, c.v.look(c)...)
	}
	for rel, whole := range c.v.whole {
		got, err := os.ReadFile(filepath.Join(c.dir, rel))
		switch {
		case err == nil && bytes.Equal(got, whole):
		case c.ended && c.status == c.v.status, c.v.ack != "" && bytes.Contains(c.said, []byte(c.v.ack)):
			out = append(out, found(Lost, "it had ended or said that it is done, and %s is not what it should be (%d of %d bytes, %v)", rel, len(got), len(whole), err)...)
		case err != nil && c.v.old == nil:
		case err != nil:
			out = append(out, found(Lost, "the old %s is gone: %v", rel, err)...)
		case c.v.old != nil && bytes.Equal(got, c.v.old):
		case c.v.take:
			out = append(out, c.plays(rel, got)...)
		default:
			out = append(out, found(Torn, "%s holds %d of %d bytes", rel, len(got), len(whole))...)
		}
	}
	return out
}

// again runs the victim once more, to its end, and looks whether that finds everything in order and clears up.
func (c *scene) again() []finding {
	for rel := range c.v.whole {
		if c.v.old == nil && !c.v.saver {
			_ = os.Rename(filepath.Join(c.dir, rel), filepath.Join(c.dir, rel+".moved-away"))
		}
	}
	_, status, said, err := c.whole()
	if err != nil || status != c.v.status && !slices.Contains(c.v.alsoThen, status) {
		return found(NextStart, "status %d, %v: %.200q", status, err, said)
	}
	var out []finding
	if !c.v.saver && status == c.v.status {
		for rel, whole := range c.v.whole {
			if got, err := os.ReadFile(filepath.Join(c.dir, rel)); err != nil || !bytes.Equal(got, whole) {
				out = append(out, found(NextStart, "%s has %d of %d bytes (%v)", rel, len(got), len(whole), err)...)
			}
		}
	}
	_ = filepath.WalkDir(c.dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && (strings.HasPrefix(d.Name(), ".propsoff-") || strings.HasSuffix(d.Name(), ".part")) {
			out = append(out, found(PartLeft, "%s", d.Name())...)
		}
		return nil
	})
	return out
}

// lockedBuffer keeps what a child prints.
type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

// whole are the whole lines.
func (l *lockedBuffer) whole() []byte {
	l.mu.Lock()
	defer l.mu.Unlock()
	b := l.b.Bytes()
	return b[:bytes.LastIndexByte(b, '\n')+1]
}

// saver is a process that saves, beside others.
type saver struct {
	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader
	err bytes.Buffer
}

func (k *killing) start(args ...string) (*saver, error) {
	s := &saver{cmd: exec.Command(k.Saver, args...)}
	var err error
	if s.in, err = s.cmd.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	s.out, s.cmd.Stderr = bufio.NewReader(out), &s.err
	return s, s.cmd.Start()
}

func (s *saver) begin() error {
	_, err := s.in.Write([]byte("\n"))
	return err
}

// lines hands on every whole line.
func (s *saver) lines(to chan<- string) {
	for {
		line, err := s.out.ReadString('\n')
		if err != nil {
			return
		}
		to <- strings.TrimSpace(line)
	}
}

func (s *saver) kill() { _ = s.cmd.Process.Kill() }

// end waits for its end, and gives what it printed.
func (s *saver) end() (string, error) {
	b, _ := io.ReadAll(s.out)
	if err := s.cmd.Wait(); err != nil {
		return string(b), fmt.Errorf("%w: %s", err, s.err.String())
	}
	return string(b), nil
}
