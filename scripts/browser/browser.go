// Package browser drives a headless Chromium from tests: pages, keys, pointers, fingers, pictures.
//
// It speaks the DevTools protocol over the two pipes that Chromium reads and writes (--remote-debugging-pipe), so that no port is open and nothing else is needed.
package browser

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"sync"
	"syscall"
	"testing"
	"time"
)

// Patience is how long one answer of Chromium is waited for: a busy machine with software drawing takes its time (ours).
const Patience = 2 * time.Minute

// Path is where Chromium stands on this machine; empty where it is not.
func Path() string {
	for _, name := range []string{"chromium", "chromium-browser"} {
		if p, err := exec.LookPath(name); err == nil {
			return p
		}
	}
	return ""
}

// Browser is one Chromium that runs, with a profile of its own.
type Browser struct {
	cmd  *exec.Cmd
	to   io.WriteCloser
	gone chan struct{}

	mu    sync.Mutex
	last  int
	waits map[int]chan<- answer
	pages map[string]*Page // by session
	ended error
}

type answer struct {
	Result json.RawMessage
	Error  *struct{ Message string }
}

// For starts Chromium for one test, with an empty profile, and ends it with the test; the test is skipped where there is none.
func For(t testing.TB, flags ...string) *Browser {
	t.Helper()
	if Path() == "" {
		t.Skip("chromium is not installed: scripts/test installs it (page_packages of scripts/need.sh)")
	}
	b, err := Start(t.TempDir(), flags...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(b.Kill)
	return b
}

// Start starts Chromium with a folder for its profile: whoever starts it again with the same folder finds what was kept.
func Start(profile string, flags ...string) (*Browser, error) {
	in, to, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	from, out, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	args := []string{
		"--headless=new", "--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--remote-debugging-pipe", "--user-data-dir=" + profile,
		"--no-first-run", "--no-default-browser-check", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--mute-audio",
		"--disable-extensions", "--disable-dev-shm-usage", "--disable-renderer-backgrounding", "--disable-backgrounding-occluded-windows", "--hide-scrollbars",
	}
	cmd := exec.Command(Path(), append(append(args, flags...), "about:blank")...)
	cmd.ExtraFiles = []*os.File{in, out} // its descriptors 3 and 4
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	in.Close()
	out.Close()
	b := &Browser{cmd: cmd, to: to, gone: make(chan struct{}), waits: map[int]chan<- answer{}, pages: map[string]*Page{}}
	go b.read(from)
	return b, nil
}

// Kill ends Chromium at once, as a power cut would, with every process of its own.
func (b *Browser) Kill() {
	_ = syscall.Kill(-b.cmd.Process.Pid, syscall.SIGKILL)
	_ = b.to.Close()
	_ = b.cmd.Wait()
	<-b.gone
}

// Close has Chromium end by itself, so that what it keeps is on the disk.
func (b *Browser) Close() {
	_ = b.Call("", "Browser.close", nil, nil)
	select {
	case <-b.gone:
	case <-time.After(20 * time.Second):
	}
	b.Kill()
}

// read takes what Chromium says: answers go to who waits, happenings to their page.
func (b *Browser) read(from io.ReadCloser) {
	defer close(b.gone)
	defer from.Close()
	r := bufio.NewReaderSize(from, 1<<20)
	for {
		text, err := r.ReadBytes(0)
		if err != nil {
			b.mu.Lock()
			defer b.mu.Unlock()
			b.ended = fmt.Errorf("chromium has ended: %w", err)
			for id, w := range b.waits {
				close(w)
				delete(b.waits, id)
			}
			return
		}
		var m struct {
			ID        int
			Method    string
			SessionID string
			Params    json.RawMessage
			answer
		}
		if json.Unmarshal(bytes.TrimRight(text, "\x00"), &m) != nil {
			continue
		}
		b.mu.Lock()
		w, p := b.waits[m.ID], b.pages[m.SessionID]
		delete(b.waits, m.ID)
		b.mu.Unlock()
		switch {
		case w != nil:
			w <- m.answer
		case p != nil:
			p.happened(m.Method, m.Params)
		}
	}
}

// Call asks Chromium for one thing of the protocol; session is a page's, or empty for the browser itself. into may be nil.
func (b *Browser) Call(session, method string, params, into any) error {
	return b.call(session, method, params, into, nil)
}

func (b *Browser) call(session, method string, params, into any, dead <-chan struct{}) error {
	if params == nil {
		params = struct{}{}
	}
	b.mu.Lock()
	if b.ended != nil {
		defer b.mu.Unlock()
		return b.ended
	}
	b.last++
	m := map[string]any{"id": b.last, "method": method, "params": params}
	if session != "" {
		m["sessionId"] = session
	}
	text, err := json.Marshal(m)
	if err != nil {
		b.mu.Unlock()
		return err
	}
	got := make(chan answer, 1)
	b.waits[b.last] = got
	_, err = b.to.Write(append(text, 0))
	b.mu.Unlock()
	if err != nil {
		return err
	}
	select {
	case a, ok := <-got:
		switch {
		case !ok:
			return errors.New(method + ": chromium has ended")
		case a.Error != nil:
			return errors.New(method + ": " + a.Error.Message)
		case into != nil:
			return json.Unmarshal(a.Result, into)
		}
		return nil
	case <-dead:
		return ErrCrashed
	case <-time.After(Patience):
		return errors.New(method + ": no answer")
	}
}
