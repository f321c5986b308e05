package comfort

import (
	"context"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/windows/registry"
)

// set writes a number into the registry of this user.
func set(t *testing.T, path, name string, n uint32) {
	t.Helper()
	key, _, err := registry.CreateKey(registry.CURRENT_USER, path, registry.SET_VALUE)
	require.NoError(t, err)
	defer key.Close()
	require.NoError(t, key.SetDWordValue(name, n))
}

// Windows itself answers each question, and what a person sets is taken while the program runs. It changes settings of whoever runs it: so it runs on a
// Windows that was made for it alone (scripts/wine/run).
func TestWhatWindowsSays(t *testing.T) {
	if os.Getenv("PROPSOFF_MADE_WINDOWS") == "" {
		t.Skip("this is somebody's own Windows")
	}
	assert.Equal(t, Wishes{}, read(), "nobody has set anything")
	ctx, end := context.WithCancel(context.Background())
	defer end()
	now := Watch(ctx)
	set(t, `Software\Microsoft\Accessibility`, "TextScaleFactor", 125)
	set(t, `Software\Microsoft\Windows\CurrentVersion\Themes\Personalize`, "AppsUseLightTheme", 0)
	want := Wishes{Dark: true, Text: 125}
	assert.Equal(t, want, read())
	assert.Eventually(t, func() bool { return now() == want }, 5*lookEvery, 20*time.Millisecond)
	const spiSetClientAreaAnimated = 0x1043
	if ok, _, _ := settings.Call(spiSetClientAreaAnimated, 0, 0, 0); ok != 0 {
		want.LessMotion = true
		assert.Equal(t, want, read())
	} else {
		t.Log("animation cannot be switched off here")
	}
}
