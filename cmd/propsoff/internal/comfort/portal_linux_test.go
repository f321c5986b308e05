package comfort

import (
	"bufio"
	"context"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// soon is how long what goes on beside is waited for (ours).
const soon = 10 * time.Second

// bus begins a bus of this test's own, and gives its address.
func bus(t *testing.T) string {
	t.Helper()
	daemon, err := exec.LookPath("dbus-daemon")
	if err != nil {
		t.Skip("no dbus-daemon here: " + err.Error())
	}
	// A bus without services: what a desktop would start must not come in between.
	config := filepath.Join(t.TempDir(), "bus.conf")
	require.NoError(t, os.WriteFile(config, []byte(`<busconfig><type>session</type><listen>unix:tmpdir=/tmp</listen><auth>EXTERNAL</auth>
<policy context="default"><allow send_destination="*" eavesdrop="true"/><allow eavesdrop="true"/><allow own="*"/></policy></busconfig>`), 0o600))
	cmd := exec.Command(daemon, "--config-file="+config, "--nofork", "--print-address")
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
	address, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	return strings.TrimSpace(address)
}

// desktop is a made portal.
type desktop struct {
	t    *testing.T
	conn *dbus.Conn
	mu   sync.Mutex
	says map[string]map[string]dbus.Variant
}

// ReadAll answers as the interface has it: of the namespaces that are asked for.
func (d *desktop) ReadAll(spaces []string) (map[string]map[string]dbus.Variant, *dbus.Error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	out := map[string]map[string]dbus.Variant{}
	for _, s := range spaces {
		if v, ok := d.says[s]; ok {
			out[s] = v
		}
	}
	return out, nil
}

// opens puts a portal on a bus.
func opens(t *testing.T, address string, says map[string]map[string]dbus.Variant) *desktop {
	t.Helper()
	conn, err := dbus.Connect(address)
	require.NoError(t, err)
	t.Cleanup(func() { conn.Close() })
	d := &desktop{t: t, conn: conn, says: says}
	require.NoError(t, conn.Export(d, portalPath, portalSettings))
	got, err := conn.RequestName(portal, dbus.NameFlagDoNotQueue)
	require.NoError(t, err)
	require.Equal(t, dbus.RequestNameReplyPrimaryOwner, got)
	return d
}

// changes tells of a change as a portal does.
func (d *desktop) changes(space, key string, value any) {
	d.t.Helper()
	require.NoError(d.t, d.conn.Emit(portalPath, portalSettings+".SettingChanged", space, key, dbus.MakeVariant(value)))
}

// watched watches a bus until the test ends.
func watched(t *testing.T, address string) func() Wishes {
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", address)
	ctx, end := context.WithCancel(context.Background())
	t.Cleanup(end)
	begun := time.Now()
	now := Watch(ctx)
	assert.Less(t, time.Since(begun), time.Second/4, "nobody waits for it")
	return now
}

func becomes(t *testing.T, now func() Wishes, want Wishes) {
	t.Helper()
	if !assert.Eventually(t, func() bool { return now() == want }, soon, 5*time.Millisecond) {
		t.Errorf("%+v, want %+v", now(), want)
	}
}

// By a real bus, with a portal that answers as its interface is published: what is wished at first, and each change of it.
func TestThePortalIsHeard(t *testing.T) {
	address := bus(t)
	d := opens(t, address, map[string]map[string]dbus.Variant{
		appearance: {"color-scheme": dbus.MakeVariant(uint32(1)), "contrast": dbus.MakeVariant(uint32(1)), "reduced-motion": dbus.MakeVariant(uint32(1))},
		interfaces: {"text-scaling-factor": dbus.MakeVariant(1.25), "enable-animations": dbus.MakeVariant(true)},
		"other":    {"contrast": dbus.MakeVariant("not asked for")},
	})
	now := watched(t, address)
	becomes(t, now, Wishes{LessMotion: true, MoreContrast: true, Dark: true, Text: 125})
	d.changes(appearance, "color-scheme", uint32(2))
	becomes(t, now, Wishes{LessMotion: true, MoreContrast: true, Text: 125})
	d.changes(appearance, "reduced-motion", uint32(0))
	becomes(t, now, Wishes{MoreContrast: true, Text: 125})
	d.changes(interfaces, "enable-animations", false)
	becomes(t, now, Wishes{LessMotion: true, MoreContrast: true, Text: 125})
	d.changes(appearance, "contrast", uint32(0))
	becomes(t, now, Wishes{LessMotion: true, Text: 125})
	d.changes(accessibility, "high-contrast", true)
	becomes(t, now, Wishes{LessMotion: true, MoreContrast: true, Text: 125})
	d.changes(interfaces, "text-scaling-factor", 1e9)
	becomes(t, now, Wishes{LessMotion: true, MoreContrast: true, Text: mostText})
	d.changes(interfaces, "text-scaling-factor", "large") // of another kind: as if it said nothing
	becomes(t, now, Wishes{LessMotion: true, MoreContrast: true})
	d.changes("elsewhere", "text-scaling-factor", 2.0)
	d.changes(appearance, "color-scheme", uint32(1))
	becomes(t, now, Wishes{LessMotion: true, MoreContrast: true, Dark: true})
}

// Only the portal is believed: another program on the bus may say what it likes.
func TestAnotherProgramIsNotHeard(t *testing.T) {
	address := bus(t)
	d := opens(t, address, map[string]map[string]dbus.Variant{interfaces: {"text-scaling-factor": dbus.MakeVariant(1.5)}})
	now := watched(t, address)
	becomes(t, now, Wishes{Text: 150})
	other, err := dbus.Connect(address)
	require.NoError(t, err)
	defer other.Close()
	require.NoError(t, other.Emit(portalPath, portalSettings+".SettingChanged", appearance, "contrast", dbus.MakeVariant(uint32(1))))
	d.changes(interfaces, "text-scaling-factor", 1.0)
	becomes(t, now, Wishes{Text: 100})
}

// Without a bus, on one without a portal, and on one that takes a connection and says nothing, nothing is wished, nobody waits, and it ends with its context.
func TestWithoutAPortalNothingIsWished(t *testing.T) {
	deaf := filepath.Join(t.TempDir(), "deaf")
	l, err := net.Listen("unix", deaf)
	require.NoError(t, err)
	defer l.Close()
	for name, address := range map[string]string{
		"no bus": "unix:path=" + filepath.Join(t.TempDir(), "none"), "nonsense": "a:;=", "autolaunch": "autolaunch:", "deaf": "unix:path=" + deaf, "no portal": bus(t),
	} {
		t.Run(name, func(t *testing.T) {
			now := watched(t, address)
			ctx, end := context.WithTimeout(context.Background(), time.Second/5)
			defer end()
			done := make(chan error, 1)
			go func() { done <- hear(ctx, address, func(w Wishes) { t.Errorf("told: %+v", w) }) }()
			select {
			case err := <-done:
				assert.Error(t, err)
			case <-time.After(soon):
				t.Error("it goes on after its context has ended")
			}
			assert.Equal(t, Wishes{}, now())
		})
	}
}

// The bus of a login is where its address says, and else where systemd puts it (sd_bus_default_user(3)).
func TestWhereTheBusIs(t *testing.T) {
	t.Setenv("XDG_RUNTIME_DIR", "/run/user/1000")
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", "")
	assert.Equal(t, "unix:path=/run/user/1000/bus", session())
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", "unix:abstract=/tmp/bus")
	assert.Equal(t, "unix:abstract=/tmp/bus", session())
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", "")
	t.Setenv("XDG_RUNTIME_DIR", "")
	assert.Empty(t, session())
}
