package sheet

import (
	"flag"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/ink/raster"
	"propsoff/cmd/propsoff/internal/phrase"
)

var bluntedNotice = phrase.BluntedCentre("Moorland Desk 7")

// pictures is a folder to which every scene is drawn, to be looked at.
var pictures = flag.String("pictures", "", "folder to draw every scene to")

// drawn leaves only the pictures of sizes that begin so, "960x" say: large ones take long.
var drawn = flag.String("drawn", "", "with -pictures: only sizes that begin so")

type size struct{ w, h float64 }

var sizes = []size{{960, 600}, {1280, 720}, {1280, 800}, {1366, 768}, {1920, 1080}, {2560, 1080}, {1200, 1920}, {3840, 2160}}

var themes = []*ink.Theme{ink.Light(), ink.Dark()}

// full draws every scene at every size in every theme, as scripts/long does.
var full = flag.Bool("full", false, "every scene at every size in every theme")

// themesAt are the themes in which a scene is drawn at a size. Where things stand and what is cut off is the same in all of them, and how
// colours stand out is the same at all sizes: so all themes are drawn at the least size, where most meets, and one at the others.
func themesAt(z size) []*ink.Theme {
	if *full || *pictures != "" || z == sizes[0] {
		return themes
	}
	return themes[:1]
}

// texts are all texts of a page, the lines of a block joined.
func texts(p *ink.Page) string {
	var out strings.Builder
	for _, d := range ink.Describe(p).Items {
		if d.Text != "" {
			out.WriteString(d.Text + "\n")
		}
	}
	return out.String()
}

// report fails for each problem of a page.
func report(t *testing.T, what string, p *ink.Page) {
	t.Helper()
	for i, q := range ink.Check(p) {
		if i == 3 {
			t.Errorf("%s: and more", what)
			return
		}
		t.Errorf("%s: %v", what, q)
	}
	for _, it := range ink.Describe(p).Items {
		if it.Group == "keys" && strings.HasSuffix(it.Text, "…") {
			t.Errorf("%s: the words beside a key are cut: %q", what, it.Text)
			return
		}
		if it.Name == "note" && strings.HasSuffix(it.Text, "…") {
			t.Errorf("%s: a note is cut: %q", what, it.Text)
			return
		}
	}
}

func draw(t testing.TB, name string, p *ink.Page) {
	if *pictures == "" || !strings.HasPrefix(fmt.Sprintf("%.0fx%.0f", p.W, p.H), *drawn) {
		return
	}
	im, err := raster.Image(p)
	require.NoError(t, err)
	f, err := os.Create(filepath.Join(*pictures, fmt.Sprintf("%s-%.0fx%.0f-%s.png", strings.ReplaceAll(name, " ", "-"), p.W, p.H, p.Theme.Name)))
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, im))
	require.NoError(t, f.Close())
}

func TestBenchInEveryScene(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, sc := range scenes {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			for _, z := range sizes {
				for _, theme := range themesAt(z) {
					for mode := 1; mode <= 4; mode++ {
						s.v.StickMode, s.v.Dark = mode, theme == ink.Dark()
						p.Reset(z.w, z.h, 0, theme)
						Bench(p, s.v)
						report(t, fmt.Sprintf("%vx%v %s mode %d", z.w, z.h, theme.Name, mode), p)
						if mode == 2 {
							draw(t, sc.name, p)
						}
						if t.Failed() && *pictures == "" {
							return // the others would say the same again
						}
					}
				}
				all := texts(p)
				for _, want := range sc.says {
					assert.Contains(t, all, want, "%v", z)
				}
				for _, l := range phrase.Lines(&s.v.Facts) {
					if s.v.Snap.Armed { // advice on arming is none to one who is armed
						assert.NotContains(t, all, l.Text, "%v", z)
					} else {
						assert.Contains(t, all, l.Text, "%v", z)
					}
				}
				if s.v.Snap.Armed {
					assert.Contains(t, all, phrase.WhatDisarms(&s.v.Facts), "%v", z)
				}
			}
		})
	}
}

// Class view keeps its two sizes whatever it shows; portrait screens are measured by their width.
func TestClassViewIsReadableFromAfar(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, sc := range scenes {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			s.v.Class, s.v.Full = true, true
			for _, z := range sizes {
				for _, theme := range themesAt(z) {
					for mode := 1; mode <= 4; mode++ {
						s.v.StickMode, s.v.Dark = mode, theme == ink.Dark()
						p.Reset(z.w, z.h, 0, theme)
						Bench(p, s.v)
						what := fmt.Sprintf("%vx%v %s mode %d", z.w, z.h, theme.Name, mode)
						report(t, what, p)
						h := min(z.h, z.w*600/960)
						for _, it := range p.Items() {
							switch {
							case it.Kind == ink.KindText && it.Name == "state":
								assert.GreaterOrEqual(t, ink.CapHeight(it.Size, it.Weight), 0.12*h, what)
							case it.Kind == ink.KindText:
								assert.GreaterOrEqual(t, it.Size, 0.035*h, "%s: %s", what, it.Text)
							}
						}
						if mode == 2 {
							draw(t, "class "+sc.name, p)
						}
						if t.Failed() && *pictures == "" {
							return
						}
					}
				}
				assert.Contains(t, texts(p), phrase.Armed(s.v.Snap.Armed))
			}
		})
	}
}

// A keyboard's switch without a job is no line until it is moved, also in what is played of one.
func TestAPlayedKeyboardShowsNoNamelessChannel(t *testing.T) {
	for _, d := range []Driver{Keyboard, Played, Radio} {
		s := ready(t).set(8, 988).wait(100)
		s.v.Driver = d
		p := ink.NewPage(1280, 800, 0, nil)
		shows := func() bool {
			p.Reset(1280, 800, 0, nil)
			Bench(p, s.v)
			for _, it := range p.Items() {
				if it.Name == "channel number" && it.Text == "9" {
					return true
				}
			}
			return false
		}
		assert.Equal(t, d == Radio, shows(), "driver %v", d)
		s.set(8, 2012).wait(100)
		s.v.Driver = d
		assert.True(t, shows(), "driver %v", d)
	}
}
