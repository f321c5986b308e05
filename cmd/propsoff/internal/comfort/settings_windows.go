package comfort

import (
	"context"
	"time"
	"unsafe"

	"golang.org/x/sys/windows"
	"golang.org/x/sys/windows/registry"
)

// Of winuser.h.
const (
	spiGetHighContrast       = 0x0042
	spiGetClientAreaAnimated = 0x1042
	highContrastOn           = 1
	colourOfWindow           = 5
)

// lookEvery is how often the settings are read again (ours): to be told of a change takes a window of one's own.
const lookEvery = 2 * time.Second

var (
	user32   = windows.NewLazySystemDLL("user32.dll")
	settings = user32.NewProc("SystemParametersInfoW")
	colour   = user32.NewProc("GetSysColor")
)

// follow reads the settings at once, and again from time to time.
func follow(ctx context.Context, tell func(Wishes)) {
	tell(read())
	go func() {
		for t := time.NewTicker(lookEvery); ; {
			select {
			case <-ctx.Done():
				t.Stop()
				return
			case <-t.C:
				tell(read())
			}
		}
	}()
}

// highContrast is HIGHCONTRASTW.
type highContrast struct {
	size, flags uint32
	scheme      *uint16
}

func read() (w Wishes) {
	animated := uint32(1)
	if ok, _, _ := settings.Call(spiGetClientAreaAnimated, 0, uintptr(unsafe.Pointer(&animated)), 0); ok != 0 {
		w.LessMotion = animated == 0
	}
	var c highContrast
	c.size = uint32(unsafe.Sizeof(c))
	if ok, _, _ := settings.Call(spiGetHighContrast, uintptr(c.size), uintptr(unsafe.Pointer(&c)), 0); ok != 0 {
		w.MoreContrast = c.flags&highContrastOn != 0
	}
	light, ok := number(`Software\Microsoft\Windows\CurrentVersion\Themes\Personalize`, "AppsUseLightTheme")
	if w.Dark = ok && light == 0; w.MoreContrast { // then a scheme of colours holds, which may be either
		ground, _, _ := colour.Call(colourOfWindow)
		w.Dark = ground>>8&0xFF < 0x80 // its green, the better part of what the eye calls bright
	}
	if text, ok := number(`Software\Microsoft\Accessibility`, "TextScaleFactor"); ok {
		w.Text = percent(float64(text) / 100)
	}
	return w
}

// number is a number that the registry has of this user.
func number(path, name string) (n uint64, ok bool) {
	key, err := registry.OpenKey(registry.CURRENT_USER, path, registry.QUERY_VALUE)
	if err != nil {
		return 0, false
	}
	defer key.Close()
	n, _, err = key.GetIntegerValue(name)
	return n, err == nil
}
