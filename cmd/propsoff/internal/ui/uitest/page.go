package uitest

import (
	"flag"
	"fmt"
	"image/png"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/raster"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// Pictures is a folder to which every scene is drawn, to be looked at; empty for none.
var Pictures = flag.String("pictures", "", "folder to draw every scene to")

// drawn leaves only the pictures of sizes that begin so, "960x" say: large ones take long.
var drawn = flag.String("drawn", "", "with -pictures: only sizes that begin so")

// asked tells whether a size is drawn: where pictures are asked for, only those of some sizes may be.
func asked(z Size) bool {
	return *Pictures == "" || strings.HasPrefix(fmt.Sprintf("%.0fx%.0f", z.W, z.H), *drawn)
}

// full draws every scene at every size in every theme, as scripts/long does.
var full = flag.Bool("full", false, "every scene at every size in every theme and language")

// Size is that of a window, in pixels.
type Size struct{ W, H float64 }

// Sizes are those at which sheets are drawn, the least first.
var Sizes = []Size{{960, 600}, {1280, 720}, {1280, 800}, {1366, 768}, {1920, 1080}, {2560, 1080}, {1200, 1920}, {3840, 2160}}

var themes = ink.Themes()

// ThemesAt are the themes in which a scene is drawn at a size. Where things stand and what is cut off is the same in all of them, and how
// colours stand out is the same at all sizes: so all themes are drawn at the least size, where most meets, and one at the others.
func ThemesAt(z Size) []*ink.Theme {
	if *full || *Pictures != "" || z == Sizes[0] {
		return themes
	}
	return themes[:1]
}

// BooksAt are the languages in which a scene is drawn at a size, English first: what differs is how long the words are, which three shapes of a
// window tell.
func BooksAt(z Size) []*words.Book {
	all := []*words.Book{words.English()}
	if *full || z == Sizes[0] || z == (Size{1280, 800}) || z == (Size{1200, 1920}) {
		all = append(all, wordstest.Other()...)
	}
	return all
}

// booksIn and modesIn are the languages and stick modes in which a scene is drawn in a theme. A strong theme differs by colours and by the width of lines, which
// one of each shows.
func booksIn(theme *ink.Theme, z Size) []*words.Book {
	if theme.Strong && !*full {
		return []*words.Book{words.English()}
	}
	return BooksAt(z)
}

func modesIn(theme *ink.Theme) []int {
	if theme.Strong && !*full {
		return []int{2}
	}
	return []int{1, 3, 4, 2}
}

// Everywhere draws a sheet for a stage's view at every size, in the themes and languages of each and in the four stick modes, and holds every page
// to Report; those of class view to its sizes, too. seen, where it is given, looks at each page in English in stick mode 2, by its texts.
func (s *Stage) Everywhere(t *testing.T, name string, draw func(*ink.Page, *ui.View), seen func(z Size, texts string)) {
	t.Helper()
	p := ink.NewPage(960, 600, 0, nil)
	defer func() { s.V.Book = nil }()
	for _, z := range Sizes {
		if !asked(z) {
			continue
		}
		for _, theme := range ThemesAt(z) {
			for _, book := range booksIn(theme, z) {
				s.V.Book, s.V.Theme = book, theme
				for _, mode := range modesIn(theme) {
					s.V.StickMode, s.V.Learn.StickMode = mode, mode
					what := fmt.Sprintf("%vx%v %s %s mode %d class %v", z.W, z.H, theme.Name, book.Code(), mode, s.V.Class)
					for range s.leaves(p, z, theme, draw) {
						report(t, what, p, s.V.Leaves.At > 0)
						s.spoken(t, what, p)
						if s.V.Class {
							afar(t, what, z, p)
						}
						if t.Failed() && *Pictures == "" {
							return // the others would say the same again
						}
						if leaf := s.V.Leaves.At; mode == 2 && leaf > 0 {
							Draw(t, fmt.Sprintf("%s class page %d %s", name, leaf+1, book.Code()), p)
						}
					}
				}
				s.leaf(0, p, z, theme, draw)
				Draw(t, name+map[bool]string{true: " class"}[s.V.Class]+" "+book.Code(), p)
				if seen != nil && book == words.English() {
					seen(z, Texts(p))
				}
			}
		}
	}
}

// paged tells whether what does not fit one page stands on several.
func (s *Stage) paged() bool { return s.V.Class || s.V.Touch }

// leaves draws the pages of what does not fit one, one after the other.
func (s *Stage) leaves(p *ink.Page, z Size, theme *ink.Theme, draw func(*ink.Page, *ui.View)) func(yield func() bool) {
	return func(yield func() bool) {
		for leaf := 0; leaf == 0 || s.paged() && leaf < s.V.Leaves.Of; leaf++ {
			if s.leaf(leaf, p, z, theme, draw); !yield() {
				return
			}
		}
	}
}

// leaf draws one page of what does not fit one.
func (s *Stage) leaf(n int, p *ink.Page, z Size, theme *ink.Theme, draw func(*ink.Page, *ui.View)) {
	if s.paged() {
		s.V.Leaves = ui.Leaves{At: n, Of: s.V.Leaves.Of}
	}
	p.Reset(z.W, z.H, 0, theme)
	draw(p, s.V)
}

// Check draws a sheet everywhere, and in the window by its changed parts alone; says are texts that must be on it.
func Check(t *testing.T, name string, s *Stage, draw func(*ink.Page, *ui.View), says ...string) {
	t.Helper()
	s.Everywhere(t, name, draw, func(z Size, texts string) { contains(t, z, texts, says) })
	s.touched(t, draw)
	if !s.V.Class {
		PartsAlone(t, s.V, draw, func() { s.Wait(40) })
	}
}

// touched draws a sheet for a finger, and asks that what can be pressed is as large as one.
func (s *Stage) touched(t *testing.T, draw func(*ink.Page, *ui.View)) {
	t.Helper()
	p := ink.NewPage(960, 600, 0, nil)
	hand := func(finger bool) {
		if s.V.Touch = finger; s.Retell != nil {
			s.Retell()
		}
	}
	defer func() { s.V.Book = nil; hand(false) }()
	hand(true)
	for _, z := range [...]Size{{960, 600}, {1280, 800}, {1200, 1920}} {
		for _, book := range BooksAt(z) {
			s.V.Book = book
			for range s.leaves(p, z, nil, draw) {
				what := fmt.Sprintf("finger %vx%v %s class %v", z.W, z.H, book.Code(), s.V.Class)
				report(t, what, p, s.V.Leaves.At > 0)
				s.spoken(t, what, p)
				ForFingers(t, what, p)
			}
		}
	}
}

// InEveryScene draws the scenes of a sheet everywhere, in the window and for a class, and by their changed parts alone; also are checks of the
// caller's on the English texts of a page.
func InEveryScene(t *testing.T, sheet string, all []Scene, draw func(*ink.Page, *ui.View), also ...func(s *Stage, texts string)) {
	for _, sc := range all {
		t.Run(sc.Name, func(t *testing.T) {
			s := sc.Make(t)
			for _, class := range []bool{false, true} {
				s.V.Class, s.V.Full = class, class
				s.Everywhere(t, sheet+" "+sc.Name, draw, func(z Size, texts string) {
					if !class {
						contains(t, z, texts, sc.Says)
					}
					for _, holds := range also {
						holds(s, texts)
					}
				})
				s.touched(t, draw)
			}
			s.V.Class = false
			PartsAlone(t, s.V, draw, func() { s.Wait(40) }, func() { s.V.Class = true })
		})
	}
}

func contains(t *testing.T, z Size, texts string, says []string) {
	t.Helper()
	for _, want := range says {
		assert.Contains(t, texts, want, "%v", z)
	}
}

// Texts are all texts of a page, the lines of a block joined.
func Texts(p *ink.Page) string {
	var out strings.Builder
	for _, d := range ink.Describe(p).Items {
		if d.Text != "" {
			out.WriteString(d.Text + "\n")
		}
	}
	return out.String()
}

// Report fails for each problem of a page, and where the words beside a key or a note are cut.
func Report(t *testing.T, what string, p *ink.Page) {
	t.Helper()
	report(t, what, p, false)
}

// report is Report; a page that goes on with what did not fit the first may have room to spare.
func report(t *testing.T, what string, p *ink.Page, goesOn bool) {
	t.Helper()
	found := ink.Check(p)
	if goesOn {
		found = slices.DeleteFunc(found, func(q ink.Problem) bool { return q.Fault == ink.DeadSpace })
	}
	for i, q := range found {
		if i == 30 {
			t.Errorf("%s: and more", what)
			return
		}
		t.Errorf("%s: %v", what, q)
	}
	for _, it := range ink.Describe(p).Items {
		if (it.Group == "keys" || it.Name == "note") && strings.HasSuffix(it.Text, "…") {
			t.Errorf("%s: %s %s is cut: %q", what, it.Group, it.Name, it.Text)
			return
		}
	}
}

// spoken fails where a page has a text that is missing from the catalogue or is cut short, or a page of another language one in English; names apart, which
// may be cut and are the same in every language.
func (s *Stage) spoken(t *testing.T, what string, p *ink.Page) {
	t.Helper()
	v := s.V
	names := append([]string{v.CraftName, v.DriverName, v.NextName, v.Device.Name, LongName, strings.TrimPrefix(filepath.Base(v.Recording), ".")}, v.Radios...)
	names = append(append(names, v.Carries[:]...), s.Names...)
	for _, it := range ink.Describe(p).Items {
		text := it.Text
		if strings.ContainsAny(text, "⟦⟧") {
			t.Errorf("%s: %s: no message for %q", what, it.Name, text)
		}
		for _, n := range names {
			text = without(text, n)
		}
		if cut.MatchString(text) && !slices.ContainsFunc(s.Cut, func(of string) bool { return strings.HasPrefix(it.Name, of) || strings.HasSuffix(it.Name, of) }) && !(v.Class && it.Name == "notice") { // what to do about a radio is for whoever holds it
			t.Errorf("%s: %s is cut: %q", what, it.Name, it.Text)
			return
		}
		if found := wordstest.English(t, v.Book, text); found != "" {
			t.Errorf("%s: %s: English in %s (%s): %q", what, it.Name, v.Book.Code(), found, text)
			return
		}
	}
}

// cut is how a text ends that is cut short; one that ends so by itself has a space before the sign.
var cut = regexp.MustCompile(`\S…$`)

// without takes a name out of a text, also one that is cut short at its end.
func without(text, name string) string {
	if len(name) < 2 { // no name, or a letter that other words have, too
		return text
	}
	text = strings.ReplaceAll(text, name, "")
	if head, cut := strings.CutSuffix(text, "…"); cut {
		for n := len(name); n > 2; n-- {
			if rest, found := strings.CutSuffix(head, name[:n]); found {
				return rest
			}
		}
	}
	return text
}

// afar asks for the sizes of class view.
func afar(t *testing.T, what string, z Size, p *ink.Page) {
	t.Helper()
	h := min(z.H, z.W*600/960)
	for _, it := range p.Items() {
		switch {
		case it.Kind == ink.KindText && it.Name == "state":
			assert.GreaterOrEqual(t, ink.CapHeight(it.Size, it.Weight), 0.12*h, what)
		case it.Kind == ink.KindText:
			assert.GreaterOrEqual(t, it.Size, 0.035*h, "%s: %s", what, it.Text)
		}
	}
}

// Draw writes a page as a picture, where pictures are asked for.
func Draw(t testing.TB, name string, p *ink.Page) {
	if *Pictures == "" || !asked(Size{p.W, p.H}) {
		return
	}
	im, err := raster.Image(p)
	require.NoError(t, err)
	path := filepath.Join(*Pictures, fmt.Sprintf("%s-%.0fx%.0f-%s.png", strings.ReplaceAll(name, " ", "-"), p.W, p.H, p.Theme.Name))
	require.NoError(t, door.Publish(path, door.Out{Over: true}, func(w io.Writer) error { return png.Encode(w, im) }))
}
