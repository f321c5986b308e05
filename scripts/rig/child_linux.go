package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"
)

// child is a running program. Its output goes into a file, so that a slow reader here never holds it up; lines are
// taken from the file as they come.
type child struct {
	cmd       *exec.Cmd
	out, errs *os.File
	in        io.WriteCloser // nil where nothing is typed
	rest      []byte         // an unfinished line
	buf       []byte         // to read into
	done      chan struct{}
	err       error // of the program's end, once done is closed
}

// started says how a child is to live.
type started struct {
	uid    uint32   // 0: stays root
	chroot string   // "": stays in the guest's own root
	env    []string // beside PATH, HOME and XDG_CONFIG_HOME, or in their place
	typed  bool     // something will be typed; else there is nothing to read
}

func start(how started, name string, args ...string) (*child, error) {
	out, err := os.CreateTemp("/tmp", "out")
	if err != nil {
		return nil, err
	}
	errs, err := os.CreateTemp("/tmp", "errs")
	if err != nil {
		return nil, err
	}
	home, err := os.MkdirTemp("/tmp", "home")
	if err != nil {
		return nil, err
	}
	if err := os.Chown(home, int(how.uid), int(how.uid)); err != nil {
		return nil, err
	}
	if how.chroot != "" {
		home = "/tmp"
	}
	c := &child{cmd: exec.Command(name, args...), out: out, errs: errs, done: make(chan struct{})}
	w, err := os.OpenFile(out.Name(), os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		return nil, err
	}
	defer w.Close()
	c.cmd.Stdout, c.cmd.Stderr = w, errs
	c.cmd.Dir = "/"
	c.cmd.Env = append([]string{"PATH=/usr/local/bin:/usr/bin:/bin:/usr/sbin:/sbin", "HOME=" + home, "XDG_CONFIG_HOME=" + home}, how.env...)
	c.cmd.SysProcAttr = &syscall.SysProcAttr{Chroot: how.chroot}
	if how.uid != 0 {
		c.cmd.SysProcAttr.Credential = &syscall.Credential{Uid: how.uid, Gid: how.uid, NoSetGroups: false}
	}
	if how.typed {
		if c.in, err = c.cmd.StdinPipe(); err != nil {
			return nil, err
		}
	}
	if err := c.cmd.Start(); err != nil {
		return nil, fmt.Errorf("start %s: %w", name, err)
	}
	go func() {
		c.err = c.cmd.Wait()
		close(c.done)
	}()
	return c, nil
}

// lines gives the lines that were finished since the last call.
func (c *child) lines() [][]byte {
	if c.buf == nil {
		c.buf = make([]byte, 1<<16)
	}
	for {
		n, err := c.out.Read(c.buf)
		c.rest = append(c.rest, c.buf[:n]...)
		if n == 0 || err != nil {
			break
		}
	}
	end := bytes.LastIndexByte(c.rest, '\n')
	if end < 0 {
		return nil
	}
	whole := bytes.Clone(c.rest[:end])
	c.rest = append(c.rest[:0], c.rest[end+1:]...)
	return bytes.Split(whole, []byte{'\n'})
}

// write types a line.
func (c *child) write(line string) error {
	_, err := io.WriteString(c.in, line+"\n")
	return err
}

// ended says whether the program has ended.
func (c *child) ended() bool {
	select {
	case <-c.done:
		return true
	default:
		return false
	}
}

// said gives the end of what the program wrote to its standard error, for a message.
func (c *child) said() string {
	b, _ := os.ReadFile(c.errs.Name())
	if len(b) > 1500 {
		b = b[len(b)-1500:]
	}
	return strings.TrimSpace(string(b))
}

// wait waits for the program's own end.
func (c *child) wait(limit time.Duration) error {
	select {
	case <-c.done:
	case <-time.After(limit):
		return errors.Join(fmt.Errorf("%s did not end within %v", c.cmd.Path, limit), c.stop())
	}
	if c.err != nil {
		return fmt.Errorf("%s ended with %w: %s", strings.Join(c.cmd.Args, " "), c.err, c.said())
	}
	return nil
}

// stop asks the program to end and ends it by force when it does not within two seconds.
func (c *child) stop() error {
	defer c.out.Close()
	defer c.errs.Close()
	if c.ended() {
		return nil
	}
	c.cmd.Process.Signal(os.Interrupt)
	select {
	case <-c.done:
		return nil
	case <-time.After(2 * time.Second):
	}
	c.cmd.Process.Kill()
	<-c.done
	return fmt.Errorf("%s did not end when interrupted", strings.Join(c.cmd.Args, " "))
}

// leave interrupts the program and lets it write what it keeps, on a busy host too.
func (c *child) leave() error {
	c.cmd.Process.Signal(os.Interrupt)
	return errors.Join(waitUntil(time.Minute, "the program to end", c.ended), c.stop())
}

// stream reads a child's JSON Lines as values of T.
type stream[T any] struct {
	*child
	seen []T
}

// take reads what has come, adds it to seen and gives the new part.
func (s *stream[T]) take() ([]T, error) {
	from := len(s.seen)
	for _, l := range s.lines() {
		var v T
		if err := json.Unmarshal(l, &v); err != nil {
			return nil, fmt.Errorf("line %q of %s: %w", l, strings.Join(s.cmd.Args, " "), err)
		}
		if w, ok := any(v).(interface{ spoken() bool }); ok && w.spoken() {
			continue
		}
		s.seen = append(s.seen, v)
	}
	return s.seen[from:], nil
}

// await takes lines until one that came at or after index from holds, and gives its index.
func (s *stream[T]) await(limit time.Duration, from int, what string, holds func(T) bool) (int, error) {
	end := time.Now().Add(limit)
	for {
		gone := s.ended()
		if _, err := s.take(); err != nil {
			return 0, err
		}
		for ; from < len(s.seen); from++ {
			if holds(s.seen[from]) {
				return from, nil
			}
		}
		if gone {
			return 0, fmt.Errorf("waiting for %s: the program ended (%v): %s", what, s.err, s.said())
		}
		if time.Now().After(end) {
			last := "no line at all"
			if n := len(s.seen); n > 0 {
				last = fmt.Sprintf("last of %d lines:", n)
				for _, l := range s.seen[max(0, n-12):] {
					last += fmt.Sprintf("\n%+v", l)
				}
			}
			return 0, fmt.Errorf("waited %v in vain for %s; %s; %s", limit, what, last, s.said())
		}
		time.Sleep(time.Millisecond)
	}
}

// never takes lines for a while and fails as soon as one that came at or after index from holds.
func (s *stream[T]) never(during time.Duration, from int, what string, holds func(T) bool) error {
	for end := time.Now().Add(during); ; {
		if _, err := s.take(); err != nil {
			return err
		}
		for ; from < len(s.seen); from++ {
			if holds(s.seen[from]) {
				return fmt.Errorf("%s, which must not be: %+v", what, s.seen[from])
			}
		}
		if s.ended() {
			return fmt.Errorf("the program ended (%v): %s", s.err, s.said())
		}
		if time.Now().After(end) {
			return nil
		}
		time.Sleep(2 * time.Millisecond)
	}
}

// freeze stops the program and waits until every one of its threads stands still.
func (c *child) freeze() error {
	if err := c.cmd.Process.Signal(syscall.SIGSTOP); err != nil {
		return err
	}
	return waitUntil(2*time.Second, "the program to stand still", func() bool {
		stats, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/stat", c.cmd.Process.Pid))
		for _, s := range stats {
			b, err := os.ReadFile(s)
			// the state is the word after the name, which stands in brackets (proc(5))
			if at := bytes.LastIndexByte(b, ')'); err == nil && !bytes.HasPrefix(b[at+1:], []byte(" T")) {
				return false
			}
		}
		return len(stats) > 0
	})
}

// holds says whether the program has the file open: the kernel shows the name as the program's own root has it, or ours.
func (c *child) holds(file string) bool {
	links, _ := filepath.Glob(fmt.Sprintf("/proc/%d/fd/*", c.cmd.Process.Pid))
	return slices.ContainsFunc(links, func(l string) bool {
		to, err := os.Readlink(l)
		return err == nil && strings.HasSuffix(to, file)
	})
}
