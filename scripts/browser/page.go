package browser

import (
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"
	"sync"
	"time"
)

// Page is one tab.
type Page struct {
	b               *Browser
	target, session string

	dead chan struct{} // closed once its process has crashed

	mu    sync.Mutex
	said  []string
	loads int
}

// with are the parameters of a call.
type with map[string]any

// Open opens a tab and goes to an address. New opens one that is still empty, so that it can be prepared.
func (b *Browser) Open(url string) (*Page, error) {
	p, err := b.New()
	if err != nil {
		return nil, err
	}
	return p, p.Go(url)
}

// New opens an empty tab.
func (b *Browser) New() (*Page, error) {
	p := &Page{b: b, dead: make(chan struct{})}
	var made struct{ TargetID string }
	if err := b.Call("", "Target.createTarget", with{"url": "about:blank"}, &made); err != nil {
		return nil, err
	}
	p.target = made.TargetID
	var joined struct{ SessionID string }
	if err := b.Call("", "Target.attachToTarget", with{"targetId": p.target, "flatten": true}, &joined); err != nil {
		return nil, err
	}
	p.session = joined.SessionID
	b.mu.Lock()
	b.pages[p.session] = p
	b.mu.Unlock()
	for _, domain := range []string{"Page", "Runtime", "Log", "Network", "Inspector"} {
		if err := p.Call(domain+".enable", nil, nil); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// Call asks for one thing of the protocol in this tab.
func (p *Page) Call(method string, params, into any) error {
	return p.b.call(p.session, method, params, into, p.dead)
}

func (p *Page) happened(method string, params json.RawMessage) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch method {
	case "Page.loadEventFired":
		p.loads++
	case "Inspector.targetCrashed":
		close(p.dead)
	case "Log.entryAdded":
		var m struct {
			Entry struct{ Level, Text, URL string }
		}
		_ = json.Unmarshal(params, &m)
		p.said = append(p.said, m.Entry.Level+": "+m.Entry.Text+" "+m.Entry.URL)
	case "Runtime.exceptionThrown":
		var m struct {
			ExceptionDetails struct {
				Text      string
				Exception struct{ Description string }
			}
		}
		_ = json.Unmarshal(params, &m)
		p.said = append(p.said, "exception: "+m.ExceptionDetails.Text+" "+m.ExceptionDetails.Exception.Description)
	case "Runtime.consoleAPICalled":
		var m struct {
			Type string
			Args []struct {
				Value       any
				Description string
			}
		}
		_ = json.Unmarshal(params, &m)
		text := m.Type + ":"
		for _, a := range m.Args {
			if a.Value != nil {
				text += fmt.Sprintf(" %v", a.Value)
			} else {
				text += " " + a.Description
			}
		}
		p.said = append(p.said, text)
	}
}

// Said is what the console was told, and what went wrong, in order.
func (p *Page) Said() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]string(nil), p.said...)
}

// Go goes to an address and waits until the page has loaded (its program has hardly begun then).
func (p *Page) Go(url string) error {
	return p.loading(func() error {
		var went struct{ ErrorText string }
		err := p.Call("Page.navigate", with{"url": url}, &went)
		if err == nil && went.ErrorText != "" {
			err = errors.New(url + ": " + went.ErrorText)
		}
		return err
	})
}

// Reload loads the page again.
func (p *Page) Reload() error {
	return p.loading(func() error { return p.Call("Page.reload", nil, nil) })
}

func (p *Page) loading(begin func() error) error {
	p.mu.Lock()
	before := p.loads
	p.mu.Unlock()
	if err := begin(); err != nil {
		return err
	}
	return p.until("a page that has loaded", Patience, func() (bool, error) {
		p.mu.Lock()
		defer p.mu.Unlock()
		return p.loads > before, nil
	})
}

func (p *Page) until(what string, most time.Duration, ok func() (bool, error)) error {
	for end := time.Now().Add(most); ; time.Sleep(20 * time.Millisecond) {
		done, err := ok()
		if done {
			return nil
		}
		if errors.Is(err, ErrCrashed) {
			return err
		}
		if time.Now().After(end) {
			return fmt.Errorf("not within %v: %s (last error: %v); the page said:\n%s", most, what, err, strings.Join(p.Said(), "\n"))
		}
	}
}

// Before has a script run in every page that this tab loads, before the page's own.
func (p *Page) Before(script string) error {
	return p.Call("Page.addScriptToEvaluateOnNewDocument", with{"source": script}, nil)
}

// Eval works an expression out in the page, waits for it if it is a promise, and gives its value as JSON does. into may be nil.
func (p *Page) Eval(expression string, into any) error {
	var got struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails *struct {
			Text      string
			Exception struct {
				Description string
				Value       any
			}
		}
	}
	err := p.Call("Runtime.evaluate", with{"expression": expression, "awaitPromise": true, "returnByValue": true, "userGesture": true}, &got)
	switch {
	case err != nil:
		return err
	case got.ExceptionDetails != nil:
		e := got.ExceptionDetails
		return fmt.Errorf("%s: %s %s %v", expression, e.Text, e.Exception.Description, e.Exception.Value)
	case into == nil || got.Result.Value == nil:
		return nil
	}
	return json.Unmarshal(got.Result.Value, into)
}

// WaitFor waits until an expression is true in the page.
func (p *Page) WaitFor(expression string, most time.Duration) error {
	return p.until(expression, most, func() (ok bool, err error) {
		err = p.Eval("!!("+expression+")", &ok)
		return ok, err
	})
}

// Picture is what the tab shows, as PNG.
func (p *Page) Picture() ([]byte, error) {
	var got struct{ Data string }
	if err := p.Call("Page.captureScreenshot", with{"format": "png"}, &got); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(got.Data)
}

// PictureTo writes what the tab shows into a file.
func (p *Page) PictureTo(file string) error {
	b, err := p.Picture()
	if err != nil {
		return err
	}
	return os.WriteFile(file, b, 0o644)
}

// Viewport makes the tab so many CSS pixels large, at a number of the screen's pixels for each; phone: with fingers, as a phone's browser.
func (p *Page) Viewport(w, h int, scale float64, phone bool) error {
	if err := p.Call("Emulation.setDeviceMetricsOverride", with{"width": w, "height": h, "deviceScaleFactor": scale, "mobile": phone}, nil); err != nil {
		return err
	}
	return p.Call("Emulation.setTouchEmulationEnabled", with{"enabled": phone, "maxTouchPoints": 5}, nil)
}

// Prefers sets what a person prefers: media features by name, as {"prefers-color-scheme": "dark"}.
func (p *Page) Prefers(features map[string]string) error {
	list := []with{}
	for name, value := range features {
		list = append(list, with{"name": name, "value": value})
	}
	return p.Call("Emulation.setEmulatedMedia", with{"features": list}, nil)
}

// Language sets what the browser asks for and what it says it speaks, as "de-DE"; from the next load on.
func (p *Page) Language(code string) error {
	var v struct{ UserAgent string }
	if err := p.b.Call("", "Browser.getVersion", nil, &v); err != nil {
		return err
	}
	return p.Call("Emulation.setUserAgentOverride", with{"userAgent": v.UserAgent, "acceptLanguage": code}, nil)
}

// Offline cuts the tab off the network, or joins it again; slow networks pass so many bytes a second (0: as fast as it goes).
func (p *Page) Offline(off bool, bytesPerSecond int) error {
	if bytesPerSecond == 0 {
		bytesPerSecond = -1
	}
	return p.Call("Network.emulateNetworkConditions", with{"offline": off, "latency": 0, "downloadThroughput": bytesPerSecond, "uploadThroughput": -1}, nil)
}

// ErrCrashed: the tab's process has ended.
var ErrCrashed = errors.New("the tab has crashed")

// Close closes the tab.
func (p *Page) Close() error {
	return p.b.Call("", "Target.closeTarget", with{"targetId": p.target}, nil)
}

// Crash ends the tab's process at once, as a kill would.
func (p *Page) Crash() error {
	if err := p.Call("Page.crash", nil, nil); !errors.Is(err, ErrCrashed) {
		return err
	}
	return nil
}

// Front brings the tab before the others.
func (p *Page) Front() error { return p.Call("Page.bringToFront", nil, nil) }
