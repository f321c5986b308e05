package serve

import (
	"context"
	"errors"
	"io/fs"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strconv"
	"syscall"
	"time"

	"propsoff.example/assets/words"
)

// Port is where the page is served unless another is asked for (ours): always the same, since a browser keeps files by the whole address.
const Port = 7767

// Home is the name by which a browser on this machine asks. It is a secure address to it (W3C Secure Contexts, 3.1), so that it gives radios.
const Home = "localhost"

// ErrThere: this page is served at that port already.
var ErrThere error = words.Wrong("serve.taken")

// Address is what a browser on this machine opens.
func Address(port int) string { return "http://" + net.JoinHostPort(Home, strconv.Itoa(port)) + "/" }

// Listen opens a port of this machine alone, by its old address and by its new one where it has that. Port 0 takes one that is free. ErrThere where the port
// is taken by another run of this program.
func Listen(ctx context.Context, port int) (at []net.Listener, got int, err error) {
	var lc net.ListenConfig
	first, err := lc.Listen(ctx, "tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if err != nil {
		return nil, port, taken(ctx, port, err)
	}
	got = first.Addr().(*net.TCPAddr).Port
	at = append(at, first)
	if second, err := lc.Listen(ctx, "tcp6", net.JoinHostPort("::1", strconv.Itoa(got))); err == nil {
		at = append(at, second)
	}
	return at, got, nil
}

// ListenLAN opens a port to every machine that reaches this one.
func ListenLAN(ctx context.Context, port int) (at []net.Listener, got int, err error) {
	var lc net.ListenConfig
	l, err := lc.Listen(ctx, "tcp", net.JoinHostPort("", strconv.Itoa(port)))
	if err != nil {
		return nil, port, taken(ctx, port, err)
	}
	return []net.Listener{l}, l.Addr().(*net.TCPAddr).Port, nil
}

// taken tells whether it is this very program that has the port.
func taken(ctx context.Context, port int, err error) error {
	if !PortTaken(err) {
		return err
	}
	ctx, cancel := context.WithTimeout(ctx, time.Second)
	defer cancel()
	req, bad := http.NewRequestWithContext(ctx, http.MethodHead, Address(port), nil)
	if bad != nil {
		return err
	}
	asks := http.Client{Transport: &http.Transport{Protocols: plain(), DisableKeepAlives: true},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }} // another program may lead anywhere
	if answer, bad := asks.Do(req); bad == nil {
		_ = answer.Body.Close()
		if answer.Header.Get("Server") == Named {
			return ErrThere
		}
	}
	return err
}

// PortTaken tells whether a port is not to be had since another program has it.
func PortTaken(err error) bool { return errors.Is(err, syscall.EADDRINUSE) || inUse(err) }

// PortNotAllowed tells whether the system lets this program have no such port.
func PortNotAllowed(err error) bool { return errors.Is(err, fs.ErrPermission) }

// inUse tells the same of Windows, which has a number of its own for it (WSAEADDRINUSE).
func inUse(err error) bool {
	var number syscall.Errno
	return errors.As(err, &number) && number == 10048
}

// Reached are the addresses at which other machines find this one: those of its networks, no local ones, the old kind first, since it is the shorter to type.
func Reached() (found []netip.Addr) {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	for _, a := range all {
		n, ok := a.(*net.IPNet)
		if !ok {
			continue
		}
		ip, ok := netip.AddrFromSlice(n.IP)
		if ip = ip.Unmap(); ok && ip.IsGlobalUnicast() {
			found = append(found, ip)
		}
	}
	slices.SortStableFunc(found, func(a, b netip.Addr) int { return a.BitLen() - b.BitLen() })
	return found
}
