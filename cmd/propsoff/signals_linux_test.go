//go:build !window

package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/input/take"
)

// The test's own binary is the program (asProgram), and the shell above it (asShell), where this says so.
const (
	actAs     = "PROPSOFF_ACT_AS"
	asProgram = "program"
	asShell   = "shell"
)

func TestMain(m *testing.M) {
	switch os.Getenv(actAs) {
	case asProgram:
		os.Exit(start(os.Args[1:]))
	case asShell:
		os.Exit(beShell())
	}
	english() // for those that are started from here
	// What ignores a signal (a job that a script put aside, nohup) has its children ignore it; one that is listened for they get as ever.
	for _, s := range []os.Signal{syscall.SIGHUP, syscall.SIGINT, syscall.SIGTSTP} {
		if signal.Ignored(s) {
			signal.Notify(make(chan os.Signal, 1), s)
		}
	}
	os.Exit(m.Run())
}

// beShell starts the program in a group of its own before the terminal, as a shell with job control does, tells on file 3 what becomes of it, and has
// a stopped one go on for each line from file 4.
func beShell() int {
	hungUp := make(chan os.Signal, 1)
	signal.Notify(hungUp, syscall.SIGHUP)
	cmd := exec.Command(os.Args[0], os.Args[1:]...)
	cmd.Env = append(os.Environ(), actAs+"="+asProgram)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, os.Stdout, os.Stderr
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true, Foreground: true}
	if err := cmd.Start(); err != nil {
		return 1
	}
	go func() { // the system tells the shell of a hang-up, and the shell what it has started
		<-hungUp
		_ = syscall.Kill(-cmd.Process.Pid, syscall.SIGHUP)
	}()
	told, orders := os.NewFile(3, "told"), bufio.NewScanner(os.NewFile(4, "orders"))
	fmt.Fprintf(told, "started %d\n", cmd.Process.Pid)
	for {
		var s syscall.WaitStatus
		_, err := syscall.Wait4(cmd.Process.Pid, &s, syscall.WUNTRACED, nil)
		switch {
		case errors.Is(err, syscall.EINTR):
		case err != nil:
			return 1
		case s.Stopped():
			fmt.Fprintln(told, "stopped")
			orders.Scan()
			_ = syscall.Kill(-cmd.Process.Pid, syscall.SIGCONT)
		case s.Signaled():
			fmt.Fprintf(told, "killed by %v\n", s.Signal())
			return 0
		default:
			fmt.Fprintf(told, "ended %d\n", s.ExitStatus())
			return 0
		}
	}
}

// tty is the program before a real terminal.
type tty struct {
	t      *testing.T
	master *os.File
	out    *output
	told   chan string
	orders io.WriteCloser
	pid    int
}

func onTTY(t *testing.T, args ...string) *tty {
	t.Helper()
	master, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	require.NoError(t, err)
	t.Cleanup(func() { _ = master.Close() })
	fd := int(master.Fd())
	require.NoError(t, unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	require.NoError(t, err)
	require.NoError(t, unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Row: 30, Col: 100}))
	slave, err := os.OpenFile("/dev/pts/"+strconv.Itoa(n), os.O_RDWR|syscall.O_NOCTTY, 0)
	require.NoError(t, err)
	defer slave.Close()
	toldR, toldW, err := os.Pipe()
	require.NoError(t, err)
	ordersR, ordersW, err := os.Pipe()
	require.NoError(t, err)
	home := t.TempDir()
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), actAs+"="+asShell, "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home)
	cmd.Stdin, cmd.Stdout, cmd.Stderr, cmd.ExtraFiles = slave, slave, slave, []*os.File{toldW, ordersR}
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	require.NoError(t, cmd.Start())
	_, _ = toldW.Close(), ordersR.Close()
	x := &tty{t: t, master: master, out: &output{}, told: make(chan string, 16), orders: ordersW}
	go func() {
		for s := bufio.NewScanner(toldR); s.Scan(); {
			x.told <- s.Text()
		}
		_ = cmd.Wait()
	}()
	go func() { _, _ = io.Copy(x.out, master) }()
	_, err = fmt.Sscanf(x.event(), "started %d", &x.pid)
	require.NoError(t, err)
	t.Cleanup(func() {
		_ = syscall.Kill(x.pid, syscall.SIGKILL)
		_ = ordersW.Close()
	})
	return x
}

// generous is how long an event may take on a machine that is busy; nothing is measured by it.
const generous = 3 * time.Minute

func (x *tty) event() string {
	x.t.Helper()
	select {
	case e := <-x.told:
		return e
	case <-time.After(generous):
		x.t.Fatalf("nothing comes of it; so far: %q", x.out)
		return ""
	}
}

func (x *tty) until(what string, so func() bool) {
	x.t.Helper()
	require.Eventually(x.t, so, generous, time.Millisecond, "%s; so far: %q", what, x.out)
}

func (x *tty) key(k string) {
	x.t.Helper()
	_, err := x.master.WriteString(k)
	require.NoError(x.t, err)
}

// settings are those of the terminal, asked at its other end.
func (x *tty) settings() unix.Termios {
	x.t.Helper()
	s, err := unix.IoctlGetTermios(int(x.master.Fd()), unix.TCGETS)
	require.NoError(x.t, err)
	return *s
}

func (x *tty) count(code string) int { return strings.Count(x.out.String(), code) }

// asFound waits until the terminal is as it was: its settings, and the cursor as often shown as hidden.
func (x *tty) asFound(was unix.Termios, hidden int) {
	x.t.Helper()
	assert.Equal(x.t, was, x.settings())
	x.until("the cursor comes back", func() bool { return x.count("\x1b[?25h") == hidden })
	assert.Equal(x.t, hidden, x.count("\x1b[?25l"))
	assert.Greater(x.t, strings.LastIndex(x.out.String(), "\x1b[?25h"), strings.LastIndex(x.out.String(), "\x1b[?25l"))
}

// The stop key gives the terminal back for as long as the program is stopped, where the terminal sends the signal (watch) and where the program reads
// the key (learn); then keys, cursor and picture come back.
func TestStopKey(t *testing.T) {
	for _, c := range []struct {
		command, says, leave, ended string
		keyed                       bool
	}{
		{"watch", "propsoff watch", "\x03", "ended 0", false},
		{"learn", "propsoff learn", "q", "ended 3", true},
		{"learn", "propsoff learn", "\x03", "ended 3", true},
	} {
		t.Run(c.command, func(t *testing.T) {
			x := onTTY(t, c.command)
			x.until("a picture", func() bool { return strings.Contains(x.out.String(), c.says) && x.count("\x1b[?25l") == 1 })
			with := x.settings()
			assert.Equal(t, c.keyed, with.Lflag&unix.ICANON == 0)
			was := with
			if c.keyed { // as the terminal is made: it was found so
				fresh := onTTY(t, "watch")
				was = fresh.settings()
			}
			for round := 1; round <= 2; round++ {
				x.key("\x1a")
				require.Equal(t, "stopped", x.event())
				x.asFound(was, round)
				pictures := x.count("\x1b[2J")
				_, err := io.WriteString(x.orders, "go on\n")
				require.NoError(t, err)
				x.until("the picture comes back", func() bool { return x.count("\x1b[2J") > pictures && x.count("\x1b[?25l") == round+1 })
				x.until("so do the keys", func() bool { return x.settings() == with })
			}
			x.key(c.leave)
			require.Equal(t, c.ended, x.event())
			x.asFound(was, 3)
		})
	}
}

// A hang-up ends what is recorded, as Ctrl-C does.
func TestHangUp(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.take")
	x := onTTY(t, "watch", "--record", path)
	x.until("a picture", func() bool { return x.count("\x1b[?25l") == 1 })
	require.NoError(t, x.master.Close())
	assert.Contains(t, []string{"ended 0", "ended 3"}, x.event(), "3 where the terminal was found gone first")
	assert.True(t, closed(t, path), "the take has its end")
}

// closed reports whether a take has its end, and how far it goes.
func closed(t *testing.T, path string) bool {
	t.Helper()
	r, err := take.Open(path)
	require.NoError(t, err)
	defer r.Close()
	for {
		if _, err := r.Next(); err != nil {
			return r.Closed()
		}
	}
}

// A terminal that takes nothing (Ctrl-S) stops neither the practice nor its take; the first signal writes the take's end all the same, the second ends
// the program at once.
func TestAStuckTerminalStopsNoPractice(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.take")
	x := onTTY(t, "watch", "--record", path)
	x.until("a picture", func() bool { return x.count("\x1b[?25l") == 1 })
	x.key("\x13")
	size := func() int64 {
		st, err := os.Stat(path)
		require.NoError(t, err)
		return st.Size()
	}
	first, stood, shown := size(), time.Now(), len(x.out.String())
	x.until("the terminal stands still", func() bool { // ten pictures' time without one
		if n := len(x.out.String()); n != shown {
			shown, stood = n, time.Now()
		}
		return time.Since(stood) > 10*termlive.RedrawEvery
	})
	for more := 0; more < 3; more++ { // a digest a second
		from := size()
		x.until("the take goes on", func() bool { return size() > from })
	}
	assert.Greater(t, size(), first)
	require.NoError(t, syscall.Kill(x.pid, syscall.SIGTERM))
	x.until("the take has its end", func() bool { return closed(t, path) })
	assert.Empty(t, x.told, "but the program waits for its terminal")
	require.NoError(t, syscall.Kill(x.pid, syscall.SIGTERM))
	assert.Equal(t, fmt.Sprintf("ended %d", exit.CodeAtOnce+int(syscall.SIGTERM)), x.event())
}

// apart is the program with pipes. before is what a shell does first.
func apart(t *testing.T, before string, args ...string) (cmd *exec.Cmd, in io.WriteCloser, out *os.File) {
	t.Helper()
	r, w, err := os.Pipe()
	require.NoError(t, err)
	_, err = unix.FcntlInt(w.Fd(), unix.F_SETPIPE_SZ, 4096)
	require.NoError(t, err)
	home := t.TempDir()
	cmd = exec.Command("/bin/sh", append([]string{"-c", before + ` exec "$0" "$@"`, os.Args[0]}, args...)...)
	cmd.Env = append(os.Environ(), actAs+"="+asProgram, "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home)
	cmd.Stdout = w
	in, err = cmd.StdinPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	require.NoError(t, w.Close())
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = r.Close() })
	// It listens once the stop key's signal is caught, which nothing else does.
	require.Eventually(t, func() bool { return signals(t, cmd.Process.Pid, "SigCgt")&(1<<(syscall.SIGTSTP-1)) != 0 }, generous, time.Millisecond)
	return cmd, in, r
}

// signals reads a set of signals that the system keeps of a process (proc(5)).
func signals(t *testing.T, pid int, which string) uint64 {
	b, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	require.NoError(t, err)
	for line := range bytes.Lines(b) {
		if rest, ok := bytes.CutPrefix(line, []byte(which+":")); ok {
			n, err := strconv.ParseUint(string(bytes.TrimSpace(rest)), 16, 64)
			require.NoError(t, err)
			return n
		}
	}
	return 0
}

// Whatever waits, the second signal ends the program: here a pipe that nobody reads.
func TestTheSecondSignalEndsAtOnce(t *testing.T) {
	for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		t.Run(s.String(), func(t *testing.T) {
			cmd, _, out := apart(t, "", "fly", "demo")
			require.Eventually(t, func() bool { n, err := unix.IoctlGetInt(int(out.Fd()), unix.TIOCINQ); return err == nil && n == 4096 }, generous, time.Millisecond)
			done := make(chan struct{})
			go func() { defer close(done); _ = cmd.Wait() }()
			for over := false; !over; {
				_ = cmd.Process.Signal(s) // signals that wait are one, and hang-ups that follow each other too
				select {
				case <-done:
					over = true
				case <-time.After(20 * time.Millisecond):
				}
			}
			assert.Equal(t, exit.CodeAtOnce+int(s), cmd.ProcessState.ExitCode())
		})
	}
}

// What waits for standard input, by either of its names, waits no longer once a signal has come.
func TestASignalEndsTheReadingOfStandardInput(t *testing.T) {
	for _, name := range []string{"-", "/dev/stdin"} {
		cmd, _, _ := apart(t, "", "run", name)
		require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
		require.Error(t, cmd.Wait())
		assert.Equal(t, exit.CodeTrouble, cmd.ProcessState.ExitCode(), name)
	}
}

// A program that was told to outlive its terminal (nohup) does; and a run that is stopped says so where its output is read.
func TestSignalsThatEndInOrder(t *testing.T) {
	cmd, _, out := apart(t, `trap "" HUP;`, "watch", "--json")
	require.NoError(t, cmd.Process.Signal(syscall.SIGHUP))
	assert.NotZero(t, signals(t, cmd.Process.Pid, "SigIgn")&1)
	require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
	_, err := io.ReadAll(out)
	require.NoError(t, err)
	require.NoError(t, cmd.Wait(), "had the hang-up counted, this would be the second signal")

	for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		path := filepath.Join(t.TempDir(), "a.take")
		cmd, _, out := apart(t, "", "run", "demo", "--live", "--json", "--record", path)
		lines := bufio.NewScanner(out)
		require.True(t, lines.Scan())
		require.NoError(t, cmd.Process.Signal(s))
		last := ""
		for lines.Scan() {
			last = lines.Text()
		}
		assert.Contains(t, last, `"code":"stopped"`)
		_ = cmd.Wait()
		assert.Equal(t, exit.CodeTrouble, cmd.ProcessState.ExitCode())
		assert.True(t, closed(t, path))
	}
}
