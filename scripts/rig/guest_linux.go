package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"golang.org/x/sys/unix"
)

// Words of the kernel's command line that the rig's script sets.
const (
	wordMode     = "rig.mode="
	wordOnly     = "rig.only="
	wordLanguage = "rig.language="
)

// guest is the life of process 1. Whatever happens the guest is switched off at its end, and the last line says how
// many scenarios held; the script takes a guest without that line for a failed one.
func guest() {
	defer off()
	defer func() {
		if r := recover(); r != nil {
			fmt.Printf("FAIL guest the rig itself broke: %v\n%s\n", r, debug.Stack())
		}
	}()
	start := time.Now()
	if err := prepare(); err != nil {
		fmt.Println("FAIL guest", err)
		return
	}
	var up unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_BOOTTIME, &up); err == nil {
		fmt.Printf("guest ready %.1f s after power-up (of it %.1f s to prepare)\n",
			float64(up.Nano())/1e9, time.Since(start).Seconds())
	}
	ok, failed := runAll(word(wordMode, "all"), word(wordOnly, ""))
	fmt.Printf("RIG: %d ok, %d failed\n", ok, failed)
}

// word gives what stands behind a word of the kernel's command line.
func word(name, otherwise string) string {
	b, err := os.ReadFile("/proc/cmdline")
	if err != nil {
		return otherwise
	}
	for _, w := range strings.Fields(string(b)) {
		if s, ok := strings.CutPrefix(w, name); ok {
			return s
		}
	}
	return otherwise
}

// off switches the guest off; started without reboot, the emulator also ends on a restart.
func off() {
	unix.Sync()
	time.Sleep(50 * time.Millisecond) // the console's last line
	unix.Reboot(unix.LINUX_REBOOT_CMD_POWER_OFF)
	unix.Reboot(unix.LINUX_REBOOT_CMD_RESTART)
	select {}
}

// prepare mounts what every Linux program expects and loads the modules.
func prepare() error {
	for _, m := range []struct{ kind, at, options string }{
		{"proc", "/proc", ""}, {"sysfs", "/sys", ""}, {"devtmpfs", "/dev", ""}, {"tmpfs", "/tmp", "mode=1777"},
	} {
		if err := unix.Mount(m.kind, m.at, m.kind, 0, m.options); err != nil && !errors.Is(err, unix.EBUSY) {
			return fmt.Errorf("mount %s: %w", m.at, err)
		}
	}
	os.Setenv("PATH", "/bin:/usr/bin:/usr/sbin")
	os.Setenv("HOME", "/tmp")
	files, err := filepath.Glob("/modules/*.ko")
	if err != nil || len(files) == 0 {
		return fmt.Errorf("no modules in the archive (%v)", err)
	}
	for _, f := range files { // Glob sorts, and the names begin with the order
		if err := load(f); err != nil {
			return err
		}
	}
	return waitUntil(2*time.Second, "the node of uhid", func() bool {
		_, err := os.Stat("/dev/uhid")
		return err == nil
	})
}

func load(file string) error {
	f, err := os.Open(file)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := unix.FinitModule(int(f.Fd()), "", 0); err != nil && !errors.Is(err, unix.EEXIST) {
		return fmt.Errorf("module %s: %w", filepath.Base(file), err)
	}
	return nil
}

// waitUntil asks every 2 ms until done holds, for at most limit; the error names what was waited for.
func waitUntil(limit time.Duration, what string, done func() bool) error {
	end := time.Now().Add(limit)
	for !done() {
		if time.Now().After(end) {
			return fmt.Errorf("waited %v in vain for %s", limit, what)
		}
		time.Sleep(2 * time.Millisecond)
	}
	return nil
}
