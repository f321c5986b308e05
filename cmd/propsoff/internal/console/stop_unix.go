//go:build unix

package console

import (
	"os"
	"os/signal"

	"golang.org/x/sys/unix"
)

// StopKey is the signal of the terminal's stop key.
func StopKey() os.Signal { return unix.SIGTSTP }

// PressStop does what the terminal does at its stop key, which it leaves to the program while keys come one at a time: the signal goes to all
// programs of the line that was typed, to this one too.
func PressStop() { _ = unix.Kill(0, unix.SIGTSTP) }

// canGoOn reports whether somebody is there who could have this program go on once it is stopped: a shell of the same session with the program
// in a group of its own. Else the stop key stops nothing, as in any group that nobody looks after (POSIX.1-2017, general information,
// section 2.4.3: orphaned process groups).
func canGoOn() bool {
	own, err := unix.Getsid(0)
	above, noParent := unix.Getsid(unix.Getppid())
	return err == nil && noParent == nil && own == above && unix.Getpgrp() != own
}

// stop stops this program and comes back once it goes on. It is the signal that always stops: the library does not give the stop key's own
// back to the system, once it was listened for.
func stop() {
	on := make(chan os.Signal, 1)
	signal.Notify(on, unix.SIGCONT)
	defer signal.Stop(on)
	if unix.Kill(unix.Getpid(), unix.SIGSTOP) == nil {
		<-on
	}
}
