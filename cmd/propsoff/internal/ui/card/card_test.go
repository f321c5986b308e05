package card_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff/assets"
	"propsoff/assets/words"
	"propsoff/assets/words/wordstest"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/radioreach"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/card"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/cmd/propsoff/internal/ui/uitest"
	"propsoff/sim/arming"
	"propsoff/sim/craftfile"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// faultsOf looks at a printed card: everything that ink.Check finds, and whatever lies outside the margins or is smaller
// than it may be.
func faultsOf(p *ink.Page) (out []string) {
	for _, q := range ink.Check(p) {
		out = append(out, q.String())
	}
	inside := p.Bounds().Inset((card.Margin - 1) * p.Scale)
	for i := range p.Items() {
		it := &p.Items()[i]
		if !inside.Holds(it.Box, 1) {
			out = append(out, fmt.Sprintf("%s/%s %q stands in the margin: %v", it.Group, it.Name, it.Text, it.Box))
		}
		if it.Kind == ink.KindText && it.Size < p.TextSize(card.Least) {
			out = append(out, fmt.Sprintf("%s/%s %q is %v px, below %v points", it.Group, it.Name, it.Text, it.Size, card.Least))
		}
		if it.Kind == ink.KindText && ink.Contrast(p.Theme.Colour(it.Fill), ink.Colour{R: 255, G: 255, B: 255}) < 4.5 {
			out = append(out, fmt.Sprintf("%s/%s %q is too pale on white", it.Group, it.Name, it.Text))
		}
	}
	return out
}

// said is all text of a page, blocks joined.
func said(p *ink.Page) string {
	var b strings.Builder
	for _, d := range ink.Describe(p).Items {
		b.WriteString(d.Text + "\n")
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// languages are those that a card is printed in.
var languages = wordstest.Books()

func TestTheCardFitsItsPaper(t *testing.T) {
	for _, sc := range scenes {
		c := sc.make(t)
		for _, book := range languages {
			for _, s := range paper.Sizes() {
				for _, dpi := range []float64{paper.Fine, 150} {
					p := s.Page(dpi)
					card.Print(p, book, &c)
					assert.Empty(t, faultsOf(p), "%s on %s at %v, %s", sc.name, s.Name, dpi, book.Tag())
					text := said(p)
					assert.NotContains(t, text, "⟦", "%s, %s", sc.name, book.Tag())
					for _, it := range ink.Describe(p).Named("does") {
						assert.False(t, sc.says != nil && strings.HasSuffix(it.Text, "…"), "%s on %s, %s: %q is cut", sc.name, s.Name, book.Tag(), it.Text)
					}
					if book != words.English() {
						if sc.name != "long" { // names that are cut
							assert.Empty(t, wordstest.English(t, book, named(&c).Replace(text)), "%s on %s, %s", sc.name, s.Name, book.Tag())
						}
						continue
					}
					for _, want := range sc.says {
						assert.Contains(t, text, want, "%s on %s at %v", sc.name, s.Name, dpi)
					}
				}
				draw(t, "card "+sc.name+" "+s.Name+" "+book.Code(), s, book, &c)
			}
		}
	}
}

// named takes out what people have named.
func named(c *card.Data) *strings.Replacer {
	out := []string{c.Craft, "", c.Radio.Name, ""}
	for _, k := range c.Radio.Controls {
		if k.Called != "" {
			out = append(out, k.Called, "")
		}
	}
	return strings.NewReplacer(out...)
}

// draw draws a card as a picture, smaller than it is printed, where pictures are asked for.
func draw(t testing.TB, name string, s paper.Size, book *words.Book, c *card.Data) {
	if *uitest.Pictures != "" {
		p := s.Page(110)
		card.Print(p, book, c)
		uitest.Draw(t, name, p)
	}
}

// The card of every craft that ships fits, whatever it says of it.
func TestTheCardOfEveryShippedCraftFits(t *testing.T) {
	for _, name := range assets.Crafts() {
		f := shippedCraft(t, name)
		for _, given := range []bool{false, true} {
			c := dated(f, radioreach.Ideal(f), given)
			for _, book := range languages {
				for _, s := range paper.Sizes() {
					p := s.Page(paper.Fine)
					card.Print(p, book, &c)
					assert.Empty(t, faultsOf(p), "%s on %s, %s", name, s.Name, book.Tag())
					draw(t, "shipped "+name+" "+s.Name+" "+book.Code(), s, book, &c)
				}
			}
		}
	}
}

// Every control that was learned is on the card with all of its positions, its number on the radio at its side where the
// side is known.
func TestEveryLearnedControlIsDrawnAtItsSide(t *testing.T) {
	for _, sc := range scenes {
		c := sc.make(t)
		p := paper.A4().Page(paper.Fine)
		card.Print(p, words.English(), &c)
		d := ink.Describe(p)
		body := d.Named("body")[0].Box
		middle := body[0] + body[2]/2
		drawn := map[string]ink.Point{}
		listed := map[string]bool{}
		for _, it := range d.Named("number") {
			if it.Group == "radio" {
				drawn[it.Text] = ink.Point{X: it.Box[0] + it.Box[2]/2, Y: it.Box[1] + it.Box[3]/2}
			} else {
				assert.False(t, listed[it.Text], "%s: %s twice", sc.name, it.Text)
				listed[it.Text] = true
			}
		}
		for _, s := range card.Controls(&c, false) {
			n := fmt.Sprint(s.Number)
			assert.True(t, listed[n], "%s: %s is not listed", sc.name, s.Control.Job)
			at, is := drawn[n]
			assert.Equal(t, s.Control.Side != handset.NoSide, is, "%s: %s", sc.name, s.Control.Job)
			switch s.Control.Side {
			case handset.Left:
				assert.Less(t, at.X, middle-10, "%s: %s", sc.name, s.Control.Job)
			case handset.Right:
				assert.Greater(t, at.X, middle+10, "%s: %s", sc.name, s.Control.Job)
			case handset.Top:
				assert.InDelta(t, middle, at.X, body[2]/5, "%s: %s", sc.name, s.Control.Job)
			}
		}
		for i, g := range figure.Gimbals[ui.StickMode(c.Radio.StickMode)] {
			name := [2]string{"left", "right"}[i]
			up, ok := d.Text(name + " up job")
			require.True(t, ok)
			assert.Contains(t, up, figure.JobFacts[g.Up].Word, sc.name)
			across, ok := d.Text(name + " across job")
			require.True(t, ok)
			assert.Contains(t, across, figure.JobFacts[g.Across].Word, sc.name)
		}
	}
}

// What stands at each position is what the bench's own layout step makes of it.
func TestPositionsSayWhatTheBenchDoes(t *testing.T) {
	for _, sc := range scenes {
		c := sc.make(t)
		l := &c.Config.Layout
		for _, joined := range []bool{false, true} {
			for _, s := range card.Controls(&c, joined) {
				for _, p := range s.Positions {
					for _, w := range []pulse.Width{p.Low, p.High, p.Low + (p.High-p.Low)/2} {
						if s.Control.Kind == handset.Switch && !slices.ContainsFunc(s.Control.Positions, func(q handset.Position) bool { return q.Width == w }) {
							continue // a value between two positions that do the same
						}
						var f pulse.Frame
						for ch := range f {
							f[ch] = pulse.Centre
						}
						f[s.Control.Channel] = w
						st, out := layout.Step(l, layout.State{}, &f)
						word, rest := p.State, p.Rest
						if s.Control.Channel == l.Arm && c.Config.Arming.By == arming.BySwitch {
							assert.Equal(t, out.Arm == layout.Inside, word == "ARMED" && p.Tone == card.Armed, "%s: arm at %v", sc.name, w)
							assert.Equal(t, out.Arm == layout.Outside, word == "disarmed" && p.Tone == card.Disarmed, "%s: arm at %v", sc.name, w)
						} else {
							assert.Empty(t, word)
						}
						if s.Control.Channel == l.Mode {
							mode := [...]string{"angle", "horizon", "rate"}[st.Mode]
							assert.True(t, strings.HasPrefix(rest, mode), "%s: %q at %v", sc.name, rest, w)
						}
						if s.Control.Channel == l.Second {
							assert.Equal(t, out.Second == layout.Inside, rest == "permits arming", "%s: second at %v", sc.name, w)
						}
						for _, j := range c.Jobs {
							on := j.Channel == s.Control.Channel && slices.ContainsFunc(j.Spans, func(x layout.Span) bool { return x.Contains(w) })
							assert.Equal(t, on, slices.Contains(strings.Split(strings.TrimPrefix(rest, "+ "), " + "), j.Name), "%s: %s on %s at %v", sc.name, j.Name, s.Control.Job, w)
						}
					}
				}
			}
		}
	}
}

// A dense card leaves nothing out that a pilot must know: every position of the usual number is there.
func TestPositionsAreLeftOutOnlyWhereTheyDoTheSame(t *testing.T) {
	for _, sc := range scenes {
		c := sc.make(t)
		p := paper.Letter().Page(paper.Fine)
		card.Print(p, words.English(), &c)
		assert.Empty(t, ink.Describe(p).Named("more-positions"), sc.name)
	}
}

// The same page is found in the PDF word by word in the order of drawing, and inside its page, by poppler.
func TestTheCardsTextIsInThePDF(t *testing.T) {
	path, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext (poppler-utils) is not installed, so this is not checked here")
	}
	for _, sc := range scenes {
		c := sc.make(t)
		for _, s := range paper.Sizes() {
			for _, book := range languages {
				page := s.Page(paper.Fine)
				card.Print(page, book, &c)
				d := card.Paper(page, book, &c)
				var b bytes.Buffer
				require.NoError(t, d.Write(&b, paper.PDF))
				file := filepath.Join(t.TempDir(), "card.pdf")
				require.NoError(t, os.WriteFile(file, b.Bytes(), 0o600))
				out, err := exec.Command(path, "-raw", file, "-").Output()
				require.NoError(t, err)
				want := ""
				for i := range page.Items() {
					want += page.Items()[i].Text + " "
				}
				plain := func(s string) string { return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), "") }
				assert.Equal(t, plain(want), plain(string(out)), "%s on %s, %s", sc.name, s.Name, book.Tag())
			}
		}
	}
}

// Whatever a radio and a craft look like, up to twelve switches with up to six positions, the card stands on its paper.
func TestAnyRadioFitsOnTheCard(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, err := craftfile.Parse("test.yaml", []byte(busyCraft))
		require.NoError(t, err)
		var more []handset.Control
		for i := range rapid.IntRange(0, 12).Draw(t, "switches") {
			jobs := []string{"arm", "mode", "second", "finder sound"}
			job := fmt.Sprintf("channel %d", i+5)
			if i < len(jobs) {
				job = jobs[i]
			}
			side := handset.Side(rapid.IntRange(0, 3).Draw(t, "side"))
			c := aSwitch(int8(4+i), job, side, rapid.IntRange(2, 6).Draw(t, "positions"))
			c.Called = rapid.StringMatching(`[a-zA-Z]{0,12}( [a-z]{1,12}){0,6}`).Draw(t, "called")
			if rapid.IntRange(0, 5).Draw(t, "knob") == 0 {
				c = handset.Control{Channel: c.Channel, Job: job, Called: c.Called, Kind: handset.Knob, Side: side, Low: pulse.Low, High: pulse.High, Source: c.Source}
			}
			more = append(more, c)
		}
		r := measured(rapid.StringMatching(`[A-Z][a-z]{0,12}( [A-Za-z0-9]{1,14}){0,12}`).Draw(t, "radio"), more...)
		r.StickMode = rapid.IntRange(1, 4).Draw(t, "mode")
		c := dated(f, r, true)
		for i := range rapid.IntRange(0, 12).Draw(t, "jobs") {
			c.Jobs = append(slices.Clone(c.Jobs), craftfile.Job{Name: fmt.Sprintf("extra job %d", i), Channel: int8(rapid.IntRange(4, 15).Draw(t, "job's channel")),
				Spans: []layout.Span{{Low: pulse.Micros(rapid.IntRange(900, 1500).Draw(t, "from")), High: pulse.Micros(rapid.IntRange(1501, 2100).Draw(t, "to"))}}})
		}
		if rapid.Bool().Draw(t, "proved") {
			rep := prove.Report{Situations: 537664, Standing: 348e6, Partial: rapid.Bool().Draw(t, "partial")}
			for i := range prove.RuleCount {
				rep.Results = append(rep.Results, prove.Result{Rule: i, Outcome: prove.Outcome(rapid.IntRange(0, int(prove.OutcomeCount)-1).Draw(t, "outcome")), Searched: 537664})
			}
			c.Proved = &rep
		}
		p := paper.Sizes()[rapid.IntRange(0, 1).Draw(t, "paper")].Page(paper.Fine)
		card.Print(p, languages[rapid.IntRange(0, len(languages)-1).Draw(t, "language")], &c)
		if bad := faultsOf(p); len(bad) > 0 {
			t.Fatalf("%v", bad)
		}
	})
}

func TestTheSameCardGivesTheSamePage(t *testing.T) {
	c := scenes[3].make(t)
	a, b := paper.A4().Page(paper.Fine), paper.A4().Page(paper.Fine)
	card.Print(a, words.English(), &c)
	card.Print(b, words.English(), &c)
	assert.Equal(t, ink.Describe(a), ink.Describe(b))
}

func TestColumnsAreFilledEvenlyAndInOrder(t *testing.T) {
	assert.Equal(t, [][2]int{{0, 2}, {2, 4}}, card.Split([]float64{10, 10, 10, 10}, 2, 1))
	assert.Equal(t, [][2]int{{0, 1}, {1, 4}}, card.Split([]float64{30, 10, 10, 10}, 2, 0))
	assert.Equal(t, [][2]int{{0, 1}}, card.Split([]float64{5}, 3, 1))
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.SliceOfN(rapid.Float64Range(1, 50), 1, 9).Draw(t, "heights")
		n := rapid.IntRange(1, 4).Draw(t, "columns")
		parts := card.Split(h, n, 2)
		high, at := 0.0, 0
		sum := func(from, to int) (s float64) {
			for i := from; i < to; i++ {
				s += h[i] + 2
			}
			return s - 2
		}
		for _, p := range parts {
			require.Equal(t, at, p[0])
			at, high = p[1], max(high, sum(p[0], p[1]))
		}
		require.Equal(t, len(h), at)
		require.LessOrEqual(t, len(parts), n)
		// The reference tries every way.
		var best func(from, left int) float64
		best = func(from, left int) float64 {
			if left == 1 || from == len(h) {
				if from == len(h) {
					return 0
				}
				return sum(from, len(h))
			}
			least := math.Inf(1)
			for to := from + 1; to <= len(h); to++ {
				least = min(least, max(sum(from, to), best(to, left-1)))
			}
			return least
		}
		require.InDelta(t, best(0, n), high, 1e-6)
	})
}

// The sheet shows the page as it will be printed: every word at its place, whole and part by part.
func TestTheCardOnTheScreen(t *testing.T) {
	c := scenes[3].make(t)
	for _, s := range paper.Sizes() {
		pages := map[*words.Book]*ink.Page{}
		for _, book := range languages {
			pages[book] = s.Page(paper.Fine)
			card.Print(pages[book], book, &c)
		}
		for _, size := range []uitest.Size{{W: 960, H: 600}, {W: 1280, H: 800}, {W: 1366, H: 768}, {W: 1920, H: 1080}, {W: 1200, H: 1920}, {W: 2560, H: 1080}} {
			for _, book := range uitest.BooksAt(size) {
				for _, theme := range []*ink.Theme{ink.Light(), ink.Dark()} {
					showsEveryWord(t, pages[book], book, s, size, theme)
				}
			}
		}
	}
}

func showsEveryWord(t *testing.T, page *ink.Page, book *words.Book, s paper.Size, size uitest.Size, theme *ink.Theme) {
	v := uitest.Ready(t).V
	v.Book = book
	*card.Of(v) = card.View{Page: page, Paper: s.Name, Other: "Letter", Folder: "/home/somebody/with/a/rather/long/name/Documents"}
	all := 0
	for i := range page.Items() {
		all += len(strings.Fields(strings.ReplaceAll(page.Items()[i].Text, "\u00a0", "x")))
	}
	seen := map[string]int{}
	for part := 0; part <= card.Parts; part++ {
		card.Of(v).Part, card.Of(v).Said = part, words.AsIs(strings.Repeat("Saved: /home/somebody/a/long/folder ", part%2))
		p := ink.NewPage(size.W, size.H, 0, theme)
		card.Draw(p, v)
		for _, q := range ink.CheckWith(p, screenLimits(part)) {
			// A page made smaller has small letters whose places are rounded; the print itself is checked above.
			if strings.HasPrefix(q.Item, "printed/") && q.Fault != ink.TextOffPage && q.Fault != ink.ShapeOffPage && q.Fault != ink.TextGlyph {
				continue
			}
			t.Errorf("%v %s %s part %d: %v", size, s.Name, book.Tag(), part, q)
		}
		drawn := 0
		for i := range p.Items() {
			if it := &p.Items()[i]; it.Group == "printed" && it.Kind == ink.KindText {
				drawn++
				if part > 0 {
					seen[it.Text]++
				}
			}
		}
		if part == 0 && size.W < size.H {
			assert.Equal(t, all, drawn, "%v %s %s", size, s.Name, book.Tag())
		} else if part == 0 { // the whole page, and its top part beside it
			assert.Greater(t, drawn, all+20, "%v %s %s", size, s.Name, book.Tag())
		}
	}
	for i := range page.Items() {
		for _, w := range strings.Split(page.Items()[i].Text, " ") {
			assert.True(t, w == "" || seen[w] > 0, "%v %s %s: %q is in no part", size, s.Name, book.Tag(), w)
		}
	}
}

// Once it was saved, or could not be, nothing says any more where it will be saved; whose radio is drawn is said where it needs saying.
func TestTheCardOnTheScreenSaysOnlyWhatIsTrue(t *testing.T) {
	const where = "It will be saved into"
	for _, c := range []struct {
		name string
		said words.Text
		bad  bool
		of   facts.By
		says []string
		not  string
	}{
		{"to be saved", words.Text{}, false, facts.ItsFile, []string{where}, "The radio is"},
		{"saved", words.T("card.saved", words.Args{"path": words.Quote("/home/somebody/Documents/switch-card-teasel.pdf")}), false, facts.ItsFile, []string{"Saved: /home/somebody/Documents/switch-card-teasel.pdf"}, where},
		{"not saved", words.T("card.not-saved", words.Args{"why": words.AsIs("there is no such folder to write into")}), true, facts.GivenFile, []string{"could not be saved", "The radio is that of the file given by --radio."}, where},
		{"no radio drives", words.Text{}, false, facts.NoneDrives, []string{"No radio drives, so an ideal one is drawn.", where}, "--radio"},
	} {
		data := scenes[2].make(t)
		data.NotProved = tell.CardNotProved(ui.CapWord(uitest.AllSheets().KeyOf(ui.OnProve.Open())))
		pages := map[*words.Book]*ink.Page{}
		for _, book := range languages {
			pages[book] = paper.A4().Page(paper.Fine)
			card.Print(pages[book], book, &data)
		}
		v := uitest.Ready(t).V
		for _, z := range uitest.Sizes {
			for _, theme := range uitest.ThemesAt(z) {
				for _, book := range uitest.BooksAt(z) {
					v.Dark, v.Book = theme == ink.Dark(), book
					*card.Of(v) = card.View{Page: pages[book], Paper: "A4", Other: "Letter", Folder: "/home/somebody/Documents", Said: c.said, Bad: c.bad, Of: tell.CardOf(c.of)}
					p := ink.NewPage(z.W, z.H, 0, theme)
					card.Draw(p, v)
					for _, q := range ink.CheckWith(p, screenLimits(0)) {
						if !strings.HasPrefix(q.Item, "printed/") {
							t.Errorf("%v %s, %s: %v", z, c.name, book.Tag(), q)
						}
					}
					uitest.Draw(t, "card on screen "+c.name+" "+book.Code(), p)
					if book != words.English() {
						continue
					}
					for _, want := range c.says {
						assert.Contains(t, said(p), want, c.name)
					}
					assert.NotContains(t, said(p), c.not, c.name)
				}
			}
		}
		v.Dark, v.Book = false, nil
		uitest.PartsAlone(t, v, card.Draw, func() { card.Of(v).Part = 1 }, func() { card.Of(v).Part = 2 })
	}
}

func screenLimits(part int) ink.Limits {
	l := ink.DefaultLimits()
	if part == 0 {
		l.Hole = 0.5 // beside the page there is little to say
	}
	return l
}

func TestWithoutACraftTheSheetSaysSo(t *testing.T) {
	v := uitest.Ready(t).V
	p := ink.NewPage(960, 600, 0, nil)
	card.Draw(p, v)
	assert.Contains(t, said(p), "There is no craft file to make a card of.")
	for _, a := range uitest.AllSheets().All() {
		if a.Action == card.SaveCard {
			assert.False(t, v.Shows(a.Action, ui.OnCard))
		}
	}
}
