package main

import (
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/serve"
	"propsoff.example/cmd/propsoff/internal/world"
)

// aPage is a folder with a page in it.
func aPage(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "index.html"), []byte("<!doctype html><title>bench</title>"), 0o666))
	return dir
}

// served runs the command until it has said where the page stands, has the page asked for there, and ends it.
func served(t *testing.T, prepare func(*world.World), args ...string) (code int, out, errs string) {
	t.Helper()
	w, o, e := testWorld(t)
	if prepare != nil {
		prepare(w)
	}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	ended := make(chan int, 1)
	go func() { ended <- execute(ctx, append([]string{"serve", "--port", "0"}, args...), w) }()
	var address string
	require.Eventually(t, func() bool {
		address = regexp.MustCompile(`http://localhost:\d+/`).FindString(o.String())
		return address != "" && strings.Contains(o.String(), "-C")
	}, time.Minute, time.Millisecond, "%s", e)
	a, err := http.Get(address)
	require.NoError(t, err)
	page, _ := io.ReadAll(a.Body)
	assert.Contains(t, string(page), "<title>bench</title>")
	cancel()
	return <-ended, o.String(), e.String()
}

func TestServeOpensThePage(t *testing.T) {
	page := aPage(t)
	var opened []string
	opens := func(w *world.World) {
		w.Getenv = func(name string) string { return map[string]string{"DISPLAY": ":1"}[name] }
		w.OpenPage = func(address string) error {
			opened = append(opened, address)
			return errors.New("none there")
		}
	}
	code, out, errs := served(t, opens, "--page", page)
	assert.Equal(t, exit.CodeDone, code, errs)
	require.Len(t, opened, 1)
	assert.Contains(t, out, "Your browser is asked to open it at\n  "+opened[0])
	assert.Contains(t, errs, "No browser could be opened (none there): open the address yourself.")
	assert.NotContains(t, out, "Other machines")
	assert.NotContains(t, out, "█", "a code for a phone would lead nowhere")

	code, out, errs = served(t, opens, "--page", page, "--no-open")
	assert.Equal(t, exit.CodeDone, code)
	assert.Empty(t, errs)
	assert.Len(t, opened, 1)
	assert.Contains(t, out, "Open this address in a browser on this machine:\n  http://localhost:")

	code, out, errs = served(t, func(w *world.World) {
		opens(w)
		w.Getenv = func(name string) string {
			return map[string]string{"SSH_CONNECTION": "192.0.2.1 4242 192.0.2.2 22"}[name]
		}
	}, "--page", page)
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Regexp(t, `ssh -L (\d+):localhost:(\d+)`, out)
	assert.Len(t, opened, 1, "no screen, no browser")
	assert.Contains(t, out, "The page is served at\n")
}

func TestServeForTheNetwork(t *testing.T) {
	_, out, errs := served(t, nil, "--page", aPage(t), "--lan")
	assert.Empty(t, errs)
	if strings.Contains(out, "on no network") {
		t.Skip("this machine is in no network")
	}
	assert.Contains(t, out, "Other machines on your network find it at\n  http://")
	assert.Contains(t, out, "may show no radio")
	assert.Contains(t, out, "█")
}

func TestServeRefuses(t *testing.T) {
	code, _, errs := command(t, "serve", "--page", t.TempDir())
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "no folder with the page in it")
	missing, file := filepath.Join(t.TempDir(), "missing"), filepath.Join(aPage(t), "index.html")
	code, _, errs = command(t, "serve", "--page", missing)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, missing+": there is no such folder; check the path")
	code, _, errs = command(t, "serve", "--page", file)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, file+": this is a file; give the folder with the page in it")
	code, _, errs = command(t, "serve", "--port", "70000")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "0 to 65535")

	l, err := net.Listen("tcp4", "127.0.0.1:0")
	require.NoError(t, err)
	defer l.Close()
	_, port, _ := net.SplitHostPort(l.Addr().String())
	code, _, errs = command(t, "serve", "--page", aPage(t), "--port", port)
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, errs, "another program has port "+port+" already: choose another with “propsoff serve --port”")
	assert.NotContains(t, errs, "listen tcp")
	code, _, errs = served(t, nil, "--page", aPage(t)) // with a port that is free
	assert.Equal(t, exit.CodeDone, code, errs)
}

// Without a terminal nobody sees it, nor ends it by Ctrl-C: it ends by itself, and says so.
func TestServedWithoutATerminal(t *testing.T) {
	w, out, errs := testWorld(t)
	require.False(t, w.Terminal())
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- servePage(ctx, w, serving{folder: aPage(t), alone: !w.Terminal()}) }()
	require.Eventually(t, func() bool {
		return strings.Contains(out.String(), "It ends by itself 5 minutes after the last page is closed.")
	}, time.Minute, time.Millisecond, "%s", errs)
	assert.NotContains(t, out.String(), "Ctrl-C")
	cancel()
	assert.NoError(t, <-done)
	w.Asks = true
	assert.True(t, w.Terminal())
}

// All that it says, in every language.
func TestServeInEveryLanguage(t *testing.T) {
	page := aPage(t)
	for _, book := range wordstest.Other() {
		far := func(w *world.World) {
			w.Getenv = func(name string) string {
				return map[string]string{"SSH_CONNECTION": "192.0.2.1 4242 192.0.2.2 22"}[name]
			}
		}
		_, out, _ := served(t, far, "--page", page, "--language", book.Code())
		_, lan, _ := served(t, nil, "--page", page, "--lan", "--language", book.Code())
		_, _, none := command(t, "serve", "--page", t.TempDir(), "--language", book.Code())
		for _, english := range []string{"The page", "Other machines", "It stays", "from afar", "scripts/web makes"} {
			assert.NotContains(t, out+lan+none, english)
		}
		for _, text := range []words.Text{
			words.T("serve.until-gone", words.Args{"minutes": words.Whole(5)}), words.Error(words.Wrong("serve.no-folder")), words.Error(serve.ErrTooMuch),
			words.T("serve.there", words.Args{"address": words.Quote("x"), "opens": words.Flag(true)}), words.T("serve.there", words.Args{"address": words.Quote("x"), "far": words.Flag(true), "opens": words.Flag(false)}),
			words.Error(words.Wrong("serve.port-taken", words.Args{"port": words.Quote("7")})),
			words.Error(words.Wrong("serve.port-not-allowed", words.Args{"port": words.Quote("7")})),
		} {
			assert.NotEqual(t, words.English().Say(text), book.Say(text))
			assert.Empty(t, wordstest.English(t, book, book.Say(text)))
		}
	}
}

// A second start opens the page that is there; what that run was not told of is no longer to be had.
func TestServedAlready(t *testing.T) {
	h, err := serve.NewHandler(os.DirFS(aPage(t)), serve.Home)
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	at, port, err := serve.Listen(ctx, 0)
	require.NoError(t, err)
	ended := make(chan error, 1)
	go func() { ended <- h.Run(ctx, at...) }()
	defer func() { cancel(); require.NoError(t, <-ended) }()
	args := []string{"serve", "--port", strconv.Itoa(port)}
	w, _, errs := testWorld(t)
	err = servePage(ctx, w, serving{port: uint16(port), folder: aPage(t)})
	code, said := exit.Code(err)
	assert.Equal(t, exit.CodeTrouble, code)
	assert.ErrorContains(t, said, "end it first")
	for _, book := range wordstest.Other() {
		assert.NotEqual(t, w.Error(said), (&world.World{Book: book}).Error(said))
	}
	code, _, e := command(t, append(args, "--page", aPage(t), "--lan")...)
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, e, "for --lan or --page end it first")
	assert.Empty(t, errs.String())

	thereAlready(w, 7767, "http://localhost:7767/", false, false)
	assert.Contains(t, errs.String(), "Open this address in a browser on this machine: http://localhost:7767/")
	w, _, errs = testWorld(t) // from another machine, no browser of this one is of use
	thereAlready(w, 7767, "http://localhost:7767/", false, true)
	assert.Contains(t, errs.String(), "The page is served already at http://localhost:7767/\n")
	assert.Contains(t, errs.String(), "ssh -L 7767:localhost:7767 (this machine)")
	assert.NotContains(t, errs.String(), "in a browser on this machine")
}
