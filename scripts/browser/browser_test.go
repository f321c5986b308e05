package browser

import (
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Keys, a mouse and fingers arrive in the page as a person's do; what a crash ends is told, and another tab goes on.
func TestHandsArriveInThePage(t *testing.T) {
	b := For(t)
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = w.Write([]byte(`<meta name=viewport content=width=device-width><body><script>heard=[];for(const n of ["keydown","keyup","mousedown","touchstart","touchend","wheel"])addEventListener(n,e=>heard.push(n+":"+(e.code||e.touches?.length||Math.round(e.clientX||0))));console.log("begun", 7)</script>`))
	}))
	defer s.Close()
	p, err := b.New()
	require.NoError(t, err)
	require.NoError(t, p.Viewport(390, 844, 2, true))
	require.NoError(t, p.Language("de-DE"))
	require.NoError(t, p.Prefers(map[string]string{"prefers-color-scheme": "dark"}))
	require.NoError(t, p.Before("early = 5"))
	require.NoError(t, p.Go(s.URL))
	require.NoError(t, p.Press("KeyA", "F12", "Enter"))
	require.NoError(t, p.Click(Point{30, 40}))
	require.NoError(t, p.Touch("touchStart", Point{30, 40}, Point{90, 40}))
	require.NoError(t, p.Touch("touchEnd"))
	require.NoError(t, p.WaitFor("heard.includes('touchend:0')", 10*time.Second))
	var got []string
	require.NoError(t, p.Eval("Promise.resolve([...heard, early, innerWidth, devicePixelRatio, navigator.language, matchMedia('(prefers-color-scheme: dark)').matches].map(String))", &got))
	assert.Equal(t, []string{"keydown:KeyA", "keyup:KeyA", "keydown:F12", "keyup:F12", "keydown:Enter", "keyup:Enter", "mousedown:30", "touchstart:1", "touchstart:2", "touchend:1", "touchend:0", "5", "390", "2", "de-DE", "true"}, got)
	assert.Contains(t, p.Said(), "log: begun 7")
	assert.ErrorContains(t, p.Eval("nothing.here", nil), "nothing is not defined")
	assert.ErrorContains(t, p.WaitFor("false", 50*time.Millisecond), "false")
	png, err := p.Picture()
	require.NoError(t, err)
	assert.Equal(t, "\x89PNG", string(png[:4]))

	other, err := b.Open(s.URL)
	require.NoError(t, err)
	require.NoError(t, p.Crash())
	assert.ErrorIs(t, p.WaitFor("true", time.Second), ErrCrashed)
	require.NoError(t, other.Reload())
	require.NoError(t, other.Close())
}
