//go:build linux

// Package child runs one program under limits, and says how it ended and what it took.
package child

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"
)

// Bounds that hold for every child (ours).
const (
	keptOutput = 4 << 20   // bytes of each output that are looked at
	rssMost    = 700 << 20 // bytes of memory at which a child is killed, so that the machine stays usable
	grace      = time.Second
	patience   = 6               // times its deadline is the most that a child gets, whatever it does
	polite     = 3 * time.Second // between the first signal and the second
)

// Stdin is what a child's standard input is.
type Stdin uint8

// Standard inputs.
const (
	InNull    Stdin = iota // ended from the beginning
	InClosed               // not there at all
	InFile                 // Spec.InPath
	InWaiting              // open, and nothing ever comes
)

// Spec is one run.
type Spec struct {
	Bin    string
	Args   []string
	Dir    string
	Env    []string
	In     Stdin
	InPath string
	// OutPath is where standard output goes; empty keeps it in the result, "-" closes it.
	OutPath string
	// Signal is sent soon after the first output, or some time without one, and once more where that is not enough; 0 for none.
	Signal syscall.Signal
	// FileMost bounds each file that is written, in KiB; 0 for no bound.
	FileMost int
	// CPU is how many seconds of it a run may take, Deadline how long it may stand still; a machine that is busy with other things makes
	// neither a hang.
	CPU      int
	Deadline time.Duration
	Nobody   bool
}

// Result is how it ended.
type Result struct {
	Status   int // -1 where a signal ended it
	Signal   syscall.Signal
	Out, Err []byte
	Hung     bool  // neither its time nor its seconds of CPU were enough
	Swollen  bool  // killed for its memory
	Twice    bool  // one signal was not enough
	Peak     int64 // bytes
	Took     time.Duration
}

// Run runs it to its end, or to that of its time.
func Run(s Spec) (Result, error) {
	out, errs := &kept{}, &kept{}
	cmd, err := s.command(out, errs)
	if err != nil {
		return Result{}, err
	}
	if in, ok := cmd.Stdin.(*os.File); ok {
		defer in.Close()
	}
	if s.In == InWaiting {
		r, w, err := os.Pipe()
		if err != nil {
			return Result{}, err
		}
		defer w.Close()
		defer r.Close()
		cmd.Stdin = r
	}
	first := make(chan struct{}, 2)
	out.first, errs.first = first, first
	began := time.Now()
	if err := cmd.Start(); err != nil {
		return Result{}, err
	}
	var res Result
	done := make(chan struct{})
	var wg sync.WaitGroup
	wg.Go(func() { s.guard(cmd.Process.Pid, first, done, &res) })
	err = cmd.Wait()
	close(done)
	wg.Wait()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) && !errors.Is(err, exec.ErrWaitDelay) {
		return res, err
	}
	res.Took, res.Out, res.Err = time.Since(began), out.b.Bytes(), errs.b.Bytes()
	ws, usage := cmd.ProcessState.Sys().(syscall.WaitStatus), cmd.ProcessState.SysUsage().(*syscall.Rusage)
	res.Status = ws.ExitStatus()
	res.Peak = usage.Maxrss << 10 // of the child, or of this program where that has more
	if ws.Signaled() {
		res.Signal = ws.Signal()
		// Nobody else kills: it was the limit of CPU. What the kernel counts there by its ticks may differ from what it gives here.
		res.Hung = res.Hung || res.Signal == syscall.SIGKILL && !res.Swollen
	}
	return res, nil
}

// command begins through a shell, which sets limits and closes what is to be closed, and then becomes the program.
func (s *Spec) command(out, errs *kept) (*exec.Cmd, error) {
	line := "ulimit -c 0; ulimit -t " + strconv.Itoa(s.CPU) + "; "
	if s.FileMost > 0 {
		line += "ulimit -f " + strconv.Itoa(2*s.FileMost) + "; " // in blocks of 512 bytes
	}
	line += `exec "$0" "$@"`
	if s.In == InClosed {
		line += " <&-"
	}
	switch s.OutPath {
	case "":
	case "-":
		line += " >&-"
	default:
		line += " >" + s.OutPath
	}
	cmd := exec.Command("/bin/sh", append([]string{"-c", line, s.Bin}, s.Args...)...)
	cmd.Dir, cmd.Env, cmd.Stdout, cmd.Stderr = s.Dir, s.Env, out, errs
	cmd.WaitDelay = grace
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true}
	if s.Nobody {
		cmd.SysProcAttr.Credential = &syscall.Credential{Uid: 65534, Gid: 65534}
	}
	if s.In == InFile {
		in, err := os.Open(s.InPath)
		if err != nil {
			return nil, err
		}
		cmd.Stdin = in
	}
	return cmd, nil
}

// guard interrupts the child where that is asked for, and kills it where its time or memory ends.
func (s *Spec) guard(pid int, first <-chan struct{}, done <-chan struct{}, res *Result) {
	began, used := time.Now(), int64(0)
	end := time.NewTimer(s.Deadline)
	defer end.Stop()
	look := time.NewTicker(20 * time.Millisecond)
	defer look.Stop()
	var interrupt <-chan time.Time
	interrupted := false
	if s.Signal != 0 {
		interrupt = time.After(polite)
	}
	for {
		select {
		case <-done:
			return
		case <-first:
			if interrupt != nil && !interrupted {
				interrupt = time.After(30 * time.Millisecond)
			}
		case <-interrupt:
			interrupt = time.After(polite)
			res.Twice, interrupted = interrupted, true
			_ = syscall.Kill(pid, s.Signal)
		case <-look.C:
			if resident(pid) > rssMost {
				res.Swollen = true
				_ = syscall.Kill(-pid, syscall.SIGKILL)
				return
			}
		case <-end.C:
			if time.Since(began) < patience*s.Deadline && works(pid, &used) {
				end.Reset(grace)
				continue
			}
			res.Hung = true
			_ = syscall.Kill(-pid, syscall.SIGKILL)
			return
		}
	}
}

// resident is how much memory a process has, 0 where it has ended.
func resident(pid int) int64 {
	b, err := os.ReadFile("/proc/" + strconv.Itoa(pid) + "/statm")
	f := strings.Fields(string(b))
	if err != nil || len(f) < 2 {
		return 0
	}
	pages, _ := strconv.ParseInt(f[1], 10, 64)
	return pages * int64(os.Getpagesize())
}

// works reports whether a process has got on since the last time, or would if the machine let it: a thread of it wants to run, or waits for
// the disk (proc(5)). used is its time of CPU so far.
func works(pid int, used *int64) bool {
	tasks, _ := filepath.Glob("/proc/" + strconv.Itoa(pid) + "/task/*/stat")
	total, ready := int64(0), false
	for _, t := range tasks {
		b, _ := os.ReadFile(t)
		f := strings.Fields(string(b[bytes.LastIndexByte(b, ')')+1:]))
		if len(f) < 13 {
			continue
		}
		ready = ready || f[0] == "R" || f[0] == "D"
		user, _ := strconv.ParseInt(f[11], 10, 64)
		system, _ := strconv.ParseInt(f[12], 10, 64)
		total += user + system
	}
	was := *used
	*used = total
	return ready || total > was
}

// kept keeps the beginning of what is written.
type kept struct {
	b     bytes.Buffer
	first chan<- struct{}
	begun bool
}

func (k *kept) Write(p []byte) (int, error) {
	if !k.begun && len(p) > 0 {
		k.begun = true
		k.first <- struct{}{}
	}
	k.b.Write(p[:min(len(p), max(0, keptOutput-k.b.Len()))])
	return len(p), nil
}
