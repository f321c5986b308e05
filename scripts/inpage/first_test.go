package inpage_test

import (
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/browser"
)
type drawn struct { Group, Name, Key, Text string; Box [4]float64 }
type sheet struct { Width, Height, Scale float64; Items, Hits []drawn }
var folder = flag.String("page", "../../dist/page", "")
//go:embed pilot.js
var pilot string

func TestFirst(t *testing.T) {
	b := browser.For(t)
	s := httptest.NewServer(http.FileServer(http.Dir(*folder)))
	defer s.Close()
	p, err := b.New()
	require.NoError(t, err)
	require.NoError(t, p.Viewport(1280, 800, 1, false))
	require.NoError(t, p.Before(pilot))
	t0 := time.Now()
	require.NoError(t, p.Go(s.URL))
	require.NoError(t, p.WaitFor("propsoffPage.sheet", 60*time.Second))
	fmt.Println("sheet", time.Since(t0))
	for i := 0; i < 5; i++ {
		var text string
		t1 := time.Now()
		require.NoError(t, p.Eval("propsoffPage.sheet()", &text))
		var sh sheet
		require.NoError(t, json.Unmarshal([]byte(text), &sh))
		fmt.Println(time.Since(t0), time.Since(t1), len(sh.Items), sh.Width, sh.Height)
		if i == 4 {
			for _, d := range sh.Items { if d.Text != "" { fmt.Println(d.Group, d.Name, d.Text) } }
			for _, d := range sh.Hits { fmt.Println(d.Name, d.Key, d.Box) }
		}
		time.Sleep(500 * time.Millisecond)
	}
	png, _ := p.Picture()
	os.WriteFile("/tmp/drive/a.png", png, 0o644)
	fmt.Println(p.Said())
}
