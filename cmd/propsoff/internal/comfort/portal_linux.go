package comfort

import (
	"context"
	"os"
	"path/filepath"
	"time"

	"github.com/godbus/dbus/v5"
)

// The desktop portal's settings (XDG Desktop Portal, org.freedesktop.portal.Settings; freedesktop.org): what every desktop tells by the same names, and
// what one of them tells besides, which others tell too.
const (
	portal         = "org.freedesktop.portal.Desktop"
	portalPath     = "/org/freedesktop/portal/desktop"
	portalSettings = "org.freedesktop.portal.Settings"
	appearance     = "org.freedesktop.appearance"
	interfaces     = "org.gnome.desktop.interface"
	accessibility  = "org.gnome.desktop.a11y.interface"
)

// patience is how long a bus and a portal are waited for, which may have to be started first (ours). Only this goroutine waits.
const patience = 5 * time.Second

// follow asks the portal, and hears of changes. Where there is no bus, no portal or no answer, nothing is told.
func follow(ctx context.Context, tell func(Wishes)) {
	if address := session(); address != "" {
		go func() { _ = hear(ctx, address, tell) }()
	}
}

// session is the address of the bus of this login, empty for none. None is started, and the environment stays as it is: the libraries that draw read it.
func session() string {
	if a := os.Getenv("DBUS_SESSION_BUS_ADDRESS"); a != "" {
		return a
	}
	if dir := os.Getenv("XDG_RUNTIME_DIR"); dir != "" {
		return "unix:path=" + dbus.EscapeBusAddressValue(filepath.Join(dir, "bus"))
	}
	return ""
}

// hear tells what the portal says until the context ends; the error is why it says nothing any more.
func hear(ctx context.Context, address string, tell func(Wishes)) error {
	ctx, end := context.WithCancel(ctx)
	defer end()
	waits := time.AfterFunc(patience, end)
	bus, err := dbus.Dial(address, dbus.WithContext(ctx))
	if err != nil {
		return err
	}
	defer bus.Close()
	if err := bus.Auth(nil); err != nil {
		return err
	}
	if err := bus.Hello(); err != nil {
		return err
	}
	changes := make(chan *dbus.Signal, 32)
	bus.Signal(changes)
	err = bus.AddMatchSignalContext(ctx, dbus.WithMatchSender(portal), dbus.WithMatchObjectPath(portalPath),
		dbus.WithMatchInterface(portalSettings), dbus.WithMatchMember("SettingChanged"))
	if err != nil {
		return err
	}
	said := map[string]map[string]dbus.Variant{}
	ask := bus.Object(portal, portalPath).CallWithContext(ctx, portalSettings+".ReadAll", 0, []string{appearance, interfaces, accessibility})
	if err := ask.Store(&said); err != nil {
		return err
	}
	waits.Stop()
	for tell(wishes(said)); ; tell(wishes(said)) {
		change, ok := <-changes
		if !ok {
			return ctx.Err()
		}
		var space, key string
		var value dbus.Variant
		if dbus.Store(change.Body, &space, &key, &value) == nil && (space == appearance || space == interfaces || space == accessibility) {
			if said[space] == nil {
				said[space] = map[string]dbus.Variant{}
			}
			said[space][key] = value
		}
	}
}

// wishes are what settings ask for. One of another kind than it should be says nothing.
func wishes(said map[string]map[string]dbus.Variant) (w Wishes) {
	number := func(key string) uint32 { n, _ := said[appearance][key].Value().(uint32); return n }
	is := func(space, key string, want bool) bool {
		b, ok := said[space][key].Value().(bool)
		return ok && b == want
	}
	factor, _ := said[interfaces]["text-scaling-factor"].Value().(float64)
	return Wishes{
		LessMotion:   number("reduced-motion") == 1 || is(interfaces, "enable-animations", false),
		MoreContrast: number("contrast") == 1 || is(accessibility, "high-contrast", true),
		Dark:         number("color-scheme") == 1,
		Text:         percent(factor),
	}
}
