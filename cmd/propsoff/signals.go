package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"

	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/exit"
)

// oneHangUp is how long further hang-ups count as the first one: a shell passes it on to what it has started, and the system tells of it
// once more when the shell itself ends (ours).
const oneHangUp = 2 * time.Second

// listenForSignals gives a context that the first of the signals that end a program ends: whatever is under way is then brought to its end. The second ends
// the program at once by exit, whatever waits. The terminal's stop key puts the terminal back for as long as the program is stopped. What was
// ignored when the program was started is not listened for (nohup, a command that a script puts aside).
func listenForSignals(ctx context.Context, c *console.Console, exit func(code int)) (ended context.Context, interrupt func()) {
	ended, end := context.WithCancel(ctx)
	heard := make(chan os.Signal, 8)
	for _, s := range append(endingSignals(), console.StopKey()) {
		if s != nil && !signal.Ignored(s) {
			signal.Notify(heard, s)
		}
	}
	go func() {
		var hungUp time.Time
		for s := range heard {
			switch {
			case s == console.StopKey():
				c.Suspend()
				continue
			case ended.Err() == nil:
				end()
			case hangsUp(s) && time.Since(hungUp) < oneHangUp:
			default:
				c.Restore()
				exit(statusOf(s))
			}
			if hangsUp(s) && hungUp.IsZero() {
				hungUp = time.Now()
			}
		}
	}()
	return ended, func() {
		select {
		case heard <- os.Interrupt:
		default: // as many wait as anybody needs
		}
	}
}

// statusOf is the exit status of a program that a signal ended at once.
func statusOf(s os.Signal) int {
	if n, ok := s.(syscall.Signal); ok {
		return exit.CodeAtOnce + int(n)
	}
	return exit.CodeAtOnce
}
