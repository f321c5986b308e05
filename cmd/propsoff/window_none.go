//go:build !windows && !js && !(darwin && cgo) && (!cgo || !window)

package main

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"syscall"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
)

// windowProgram is the build of this program that has the window, beside this one. It is a file of its own on Linux because
// the engine that draws stops a program at its very start where there is no display, whatever the program was asked to do;
// without it every command works on a machine without a screen. It hands over to this one where it finds no display, and
// handedOver in its environment tells it that this one has handed over to it.
const (
	windowProgram = "propsoff-window"
	handedOver    = "PROPSOFF_HANDED_OVER"
)

// openWindow becomes the build that has the window, where there is one; it returns only where that cannot be done.
func openWindow(context.Context, windowOptions) error {
	if runtime.GOOS != "darwin" && os.Getenv("DISPLAY") == "" { // there none is needed for a window
		return exit.Trouble(words.Wrong("notice.no-display"))
	}
	self, err := os.Executable()
	if err != nil {
		return exit.Trouble(err)
	}
	program := filepath.Join(filepath.Dir(self), windowProgram)
	if _, err := os.Stat(program); err != nil {
		return exit.Trouble(words.Wrong("notice.no-window"))
	}
	// In this process' own place, so that whatever ends or kills this program ends the window too, and none is left behind
	// recording.
	err = syscall.Exec(program, append([]string{program}, os.Args[1:]...), append(os.Environ(), handedOver+"=1"))
	return exit.Trouble(words.Wrong("refused.not-started", words.Args{"path": words.Quote(program), "why": words.Error(err)}).Because(err))
}
