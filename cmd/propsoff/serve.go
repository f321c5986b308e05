//go:build !js

package main

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"net"
	"os"
	"runtime"
	"strconv"
	"strings"

	"github.com/cli/browser"
	"github.com/spf13/cobra"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/scancode"
	"propsoff.example/cmd/propsoff/internal/serve"
	"propsoff.example/cmd/propsoff/internal/world"
)

// serving is how the page is to be served.
type serving struct {
	noOpen, lan bool
	port        uint16
	folder      string
	// alone: nobody sees it in a terminal, so it ends once no page is open any more.
	alone bool
	// asks is what the page is to begin with, as its address carries it; empty for nothing.
	asks string
}

// outside are the commands that a page has no use for.
func outside(w *world.World) []*cobra.Command {
	return []*cobra.Command{newServe(w), newKeep(w), newPack(w), newGive(w)}
}

func newServe(w *world.World) *cobra.Command {
	var o serving
	cmd := newCommand(w, "serve", words.T("command.serve"), words.T("command.serve-about", caution()))
	f := cmd.Flags()
	f.BoolVar(&o.noOpen, "no-open", false, w.Say(words.T("flag.no-open")))
	f.BoolVar(&o.lan, "lan", false, w.Say(words.T("flag.lan")))
	f.Uint16Var(&o.port, "port", serve.Port, w.Say(words.T("flag.port")))
	f.StringVar(&o.folder, "page", "", w.Say(words.T("flag.page")))
	_ = cmd.MarkFlagDirname("page")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error { return servePage(cmd.Context(), w, o) }
	return cmd
}

// page is the folder to be served.
func (o *serving) page() (fs.FS, error) {
	if o.folder != "" {
		folder, err := serve.Disk(o.folder)
		return folder, exit.BadInput(err)
	}
	if within := serve.Folder(); within != nil {
		return within, nil
	}
	return nil, exit.Trouble(words.Wrong("serve.none-built-in"))
}

// servePage gives the page to browsers until ctx ends.
func servePage(ctx context.Context, w *world.World, o serving) error {
	folder, err := o.page()
	if err != nil {
		return err
	}
	hosts := []string{serve.Home}
	if name, err := os.Hostname(); err == nil && o.lan {
		hosts = append(hosts, name, name+".local")
	}
	h, err := serve.NewHandler(folder, hosts...)
	if err != nil {
		return exit.BadInput(words.Wrong("serve.no-page", words.Args{"why": words.Error(door.Bare(err))}).In(o.folder).Because(err))
	}
	listen := serve.Listen
	if o.lan {
		listen = serve.ListenLAN
	}
	at, port, err := listen(ctx, int(o.port))
	address := serve.Address(port) + o.asks
	opens := o.opens(w)
	from, _, _ := strings.Cut(w.Environment("SSH_CONNECTION"), " ")
	far := from != "" && !o.lan
	number := words.Args{"port": words.Quote(strconv.Itoa(port))}
	switch {
	case errors.Is(err, serve.ErrThere) && (o.lan || o.folder != ""): // whoever serves it was told otherwise, for all that is known
		return exit.Trouble(words.Wrong("serve.there-otherwise", words.Args{"address": words.Quote(address)}))
	case errors.Is(err, serve.ErrThere):
		thereAlready(w, port, address, opens, far)
		return nil
	case serve.PortTaken(err):
		return exit.Trouble(words.Wrong("serve.port-taken", number).Because(err))
	case serve.PortNotAllowed(err):
		return exit.Trouble(words.Wrong("serve.port-not-allowed", number).Because(err))
	case err != nil:
		return exit.Trouble(words.Wrong("serve.no-port", words.Args{"port": words.Quote(strconv.Itoa(port)), "why": words.Error(err)}).Because(err))
	}
	ends := words.T("serve.until")
	if o.alone {
		h.EndsWithout, ends = serve.Gone, words.T("serve.until-gone", words.Args{"minutes": words.Whole(int(serve.Gone.Minutes()))})
	}
	said := w.Say(words.T("serve.here", words.Args{"address": words.Quote(address), "opens": words.Flag(opens), "far": words.Flag(far)})) + "\n"
	if o.lan {
		said += onTheNetwork(w, port)
	}
	if far {
		said += w.Say(fromAfar(port, address)) + "\n"
	}
	if err := put(w, []byte(said+w.Say(ends)+"\n")); err != nil {
		return err
	}
	openPage(w, opens, address)
	return exit.Trouble(h.Run(ctx, at...))
}

// thereAlready says that another run serves the page, and how to come to it from where one sits.
func thereAlready(w *world.World, port int, address string, opens, far bool) {
	w.Tell(words.T("serve.there", words.Args{"address": words.Quote(address), "opens": words.Flag(opens), "far": words.Flag(far)}))
	if far {
		w.Tell(fromAfar(port, address))
	}
	openPage(w, opens, address)
}

// fromAfar says how the page comes to the machine from which somebody is connected to this one.
func fromAfar(port int, address string) words.Text {
	return words.T("serve.far", words.Args{"forward": words.Quote(strconv.Itoa(port) + ":" + net.JoinHostPort(serve.Home, strconv.Itoa(port))), "address": words.Quote(address)})
}

// onTheNetwork says at which addresses other machines find the page, with a code for a phone to read.
func onTheNetwork(w *world.World, port int) string {
	reached := serve.Reached()
	if len(reached) == 0 {
		return w.Say(words.T("serve.no-network")) + "\n"
	}
	addresses := make([]string, len(reached))
	for i, ip := range reached {
		addresses[i] = "http://" + net.JoinHostPort(ip.String(), strconv.Itoa(port)) + "/"
	}
	return w.Say(words.T("serve.lan", words.Args{"addresses": words.Quote(strings.Join(addresses, "\n  "))})) + "\n" + scancode.Terminal(addresses[0])
}

// opens tells whether a browser is to be opened: not where that was asked for, nor where there is no screen for one.
func (o *serving) opens(w *world.World) bool {
	return !o.noOpen && w.OpenPage != nil && (runtime.GOOS != "linux" || w.Environment("DISPLAY") != "" || w.Environment("WAYLAND_DISPLAY") != "")
}

// openPage opens the browser, if it is to be opened.
func openPage(w *world.World, opens bool, address string) {
	if !opens {
		return
	}
	if err := w.OpenPage(address); err != nil {
		w.Tell(words.T("serve.not-opened", words.Args{"why": words.Error(err)}))
	}
}

// inBrowser opens an address in the browser of the system. What that prints is not for our terminal.
func inBrowser(address string) error {
	browser.Stdout, browser.Stderr = io.Discard, io.Discard
	return browser.OpenURL(address)
}
