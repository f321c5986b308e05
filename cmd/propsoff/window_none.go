//go:build !windows && !js && !(darwin && cgo) && (!cgo || !window)

package main

import (
	"context"
	"errors"
	"io/fs"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/serve"
	"propsoff.example/cmd/propsoff/internal/world"
)

// windowProgram is the build of this program that has the window, beside this one. It is a file of its own on Linux because
// the engine that draws stops a program at its very start where there is no display, whatever the program was asked to do;
// without it every command works on a machine without a screen. It hands over to this one where it finds no display, and
// handedOver in its environment tells it that this one has handed over to it.
const (
	windowProgram = "propsoff-window"
	handedOver    = "PROPSOFF_HANDED_OVER"
)

// openWindow becomes the build that has the window, where there is one. Where there is none, or no display for it, and nothing was asked for that
// only a window does, the page opens in its place, if it is built in.
func openWindow(ctx context.Context, o windowOptions) error {
	program, err := withWindow()
	if err != nil && o.plain() && serve.Folder() != nil {
		o.world.Tell(words.T("serve.instead"))
		return servePage(ctx, o.world, serving{port: serve.Port, asks: o.asks(), alone: !o.world.Terminal()})
	}
	if err != nil {
		return exit.Trouble(orServe(err, serve.Folder()))
	}
	// In this process' own place, so that whatever ends or kills this program ends the window too, and none is left behind
	// recording.
	err = syscall.Exec(program, append([]string{program}, os.Args[1:]...), append(os.Environ(), handedOver+"=1"))
	return exit.Trouble(words.Wrong("refused.not-started", words.Args{"path": words.Quote(program), "why": words.Error(err)}).Because(err))
}

// orServe says beside why there is no window, which was asked for something that the page is not told of by an option, how the page is had, where it is built in.
func orServe(err error, page fs.FS) error {
	if page == nil {
		return err
	}
	return errors.Join(err, words.Wrong("serve.without-options"))
}

// withWindow finds the build that has the window, and a display for it.
func withWindow() (program string, err error) {
	if runtime.GOOS != "darwin" && os.Getenv("DISPLAY") == "" {
		return "", words.Wrong("notice.no-display")
	}
	self, err := os.Executable()
	if err != nil {
		return "", err
	}
	program = filepath.Join(filepath.Dir(self), windowProgram)
	if _, err := os.Stat(program); err != nil {
		return "", words.Wrong("notice.no-window")
	}
	// A machine without the libraries that draw and sound does not even load it; where nobody answers at the display, it ends at once with the code
	// for trouble, which a loader never gives.
	try := exec.Command(program, "version")
	try.Env = append(os.Environ(), handedOver+"=1")
	said, err := try.CombinedOutput()
	if err != nil && try.ProcessState != nil && try.ProcessState.ExitCode() == exit.CodeTrouble {
		return "", words.Wrong("notice.no-display")
	}
	if err != nil {
		return "", words.Wrong("refused.not-started", words.Args{"path": words.Quote(program), "why": words.Quote(strings.TrimSpace(string(said)))}).Because(err)
	}
	return program, nil
}

// plain tells that nothing was asked of the window that the page cannot have.
func (o *windowOptions) plain() bool {
	return !o.bare() && o.world != nil && *o.Named == (world.Named{}) && o.device == "" && o.pupil == "" && o.open == "" && o.size == "" && !o.outside
}

// asks is what the address of the page says of what was asked for: its language and its sheet are no business of a window alone.
func (o *windowOptions) asks() string {
	asks := url.Values{}
	if o.asked("language") {
		asks.Set("language", o.world.Language().Code())
	}
	if o.theme != "" && o.asked("sheet") {
		asks.Set("sheet", o.theme)
	}
	if len(asks) == 0 {
		return ""
	}
	return "?" + asks.Encode()
}
