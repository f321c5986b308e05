package main

import (
	"fmt"
	"image"
	"image/png"
	"os"
	"strings"
	"time"

	"golang.org/x/sys/unix"
)

// Where things are in the guest of mode window. The host's root is read-only; the folder outShare is the host's work
// folder of this run, writable, and lies at the host's /mnt for the programs that run inside.
const (
	hostRoot  = "/host"
	outInside = "/mnt"
	outShare  = hostRoot + outInside
	xDisplay  = ":7"
	xSocket   = hostRoot + "/tmp/.X11-unix/X7"
	xSize     = "1280x800"
)

// hostMounts makes the host's root usable: once a boot.
func hostMounts() error {
	if _, err := os.Stat(hostRoot + "/usr/bin"); err == nil {
		return nil
	}
	const nine = "trans=virtio,version=9p2000.L,msize=524288,cache=loose"
	for _, m := range []struct {
		source, kind, at, options string
		flags                     uintptr
	}{
		{"host", "9p", hostRoot, nine, unix.MS_RDONLY},
		{"out", "9p", outShare, "trans=virtio,version=9p2000.L,msize=524288", 0},
		{"proc", "proc", hostRoot + "/proc", "", 0},
		{"sysfs", "sysfs", hostRoot + "/sys", "", 0},
		{"devtmpfs", "devtmpfs", hostRoot + "/dev", "", 0},
		{"tmpfs", "tmpfs", hostRoot + "/tmp", "mode=1777", 0},
		{"tmpfs", "tmpfs", hostRoot + "/run", "mode=755", 0},
	} {
		if err := unix.Mount(m.source, m.at, m.kind, m.flags, m.options); err != nil {
			return fmt.Errorf("mount %s at %s: %w", m.source, m.at, err)
		}
	}
	// shared memory; the folder belongs to the guest's own /dev, so it can be made
	if err := os.MkdirAll(hostRoot+"/dev/shm", 0o1777); err != nil {
		return err
	}
	return unix.Mount("tmpfs", hostRoot+"/dev/shm", "tmpfs", 0, "mode=1777")
}

// display starts the X server in the host's root, which is mounted where it was not yet, and waits until it answers.
func display() (*child, *xscreen, error) {
	if err := hostMounts(); err != nil {
		return nil, nil, err
	}
	x, err := start(started{chroot: hostRoot}, "/usr/bin/Xvfb", xDisplay, "-screen", "0", xSize+"x24", "-nolisten", "tcp", "-noreset")
	if err != nil {
		return nil, nil, err
	}
	var screen *xscreen
	err = waitUntil(30*time.Second, "the X server", func() bool {
		if x.ended() {
			return true
		}
		screen, err = dialX(xSocket)
		return err == nil
	})
	if err == nil && screen == nil {
		err = fmt.Errorf("the X server ended")
	}
	if err != nil {
		x.stop()
		return nil, nil, fmt.Errorf("%w: %s", err, x.said())
	}
	return x, screen, nil
}

// windowEnvironment is what a program with a window needs to know in the host's root. Vectors of 128 bits are those that the emulator is quick at: less work.
func windowEnvironment() []string {
	return []string{"DISPLAY=" + xDisplay, "LIBGL_ALWAYS_SOFTWARE=1", "LP_NATIVE_VECTOR_WIDTH=128", "XDG_RUNTIME_DIR=/tmp"}
}

// windowDisplay shows that the way works before any window of ours is tried: mounts, server, picture, result outside.
func windowDisplay(f *figures) error {
	began := time.Now()
	if err := hostMounts(); err != nil {
		return err
	}
	f.add("mounted in", fmt.Sprintf("%.1f s", time.Since(began).Seconds()))
	if err := os.WriteFile(hostRoot+"/etc/propsoff-rig-must-not-write", nil, 0o600); err == nil {
		return fmt.Errorf("the host's root can be written to")
	}
	began = time.Now()
	x, screen, err := display()
	if err != nil {
		return err
	}
	defer x.stop()
	defer screen.Close()
	f.add("server answers in", fmt.Sprintf("%.1f s", time.Since(began).Seconds()))
	if got := fmt.Sprintf("%dx%d", screen.width, screen.height); got != xSize {
		return fmt.Errorf("the screen is %s, %s was asked for", got, xSize)
	}
	img, err := screen.picture()
	if err != nil {
		return err
	}
	if err := save(img, "display.png"); err != nil {
		return err
	}
	f.add("screen", xSize)
	f.add("vendor", strings.TrimSpace(screen.vendor))
	return nil
}

// save writes a picture into the share, where the host finds it.
func save(img image.Image, name string) error {
	file, err := os.Create(outShare + "/" + name)
	if err != nil {
		return err
	}
	fast := png.Encoder{CompressionLevel: png.BestSpeed} // an emulated machine packs slowly
	if err := fast.Encode(file, img); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}
