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

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/card"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// sizes are both cards.
var sizes = []card.Size{card.Bank, card.Page}

// white is the paper.
var white = ink.Colour{R: 255, G: 255, B: 255}

// faults looks at a printed card: everything that ink.Check finds, whatever lies where nothing may, or is smaller than it may be, and what stands in
// no frame whole.
func faults(z card.Size, p *ink.Page, frames []ink.Rect) (out []string) {
	limits, least, inside := ink.DefaultLimits(), p.TextSize(card.Least), p.Bounds().Inset((card.Margin-1)*p.Scale)
	if z == card.Bank {
		limits.TextSize, limits.Hole, least = 0, 1, p.TextSize(card.BankLeast) // most of the sheet is to be blank
		inside = p.Bounds().Inset(8 * p.Scale * 72 / 25.4)
	}
	for _, q := range ink.CheckWith(p, limits) {
		out = append(out, q.String())
	}
	for i := range p.Items() {
		it := &p.Items()[i]
		is := fmt.Sprintf("%s/%s %q", it.Group, it.Name, it.Text)
		if !inside.Holds(it.Box, 1) {
			out = append(out, fmt.Sprintf("%s stands in the margin: %v", is, it.Box))
		}
		if it.Kind == ink.KindText && it.Size < least {
			out = append(out, fmt.Sprintf("%s is %v px, below %v", is, it.Size, least))
		}
		if it.Kind == ink.KindText && ink.Contrast(p.Theme.Colour(it.Fill), white) < 4.5 {
			out = append(out, is+" is too pale on white")
		}
		out = append(out, framed(z, it, is, p.Scale*72/25.4, frames)...)
	}
	return out
}

// framed looks whether an item stands where it may of the frames: each text of the page whole in one of them, each of the bank-card clear of its
// edges; what leads scissors meets neither side.
func framed(z card.Size, it *ink.Item, is string, mm float64, frames []ink.Rect) (out []string) {
	whole, meets := false, false
	for _, f := range frames {
		in := f
		if z == card.Bank {
			in = f.Inset(2 * mm)
		}
		whole = whole || in.Holds(it.Box, 1)
		meets = meets || f.Inset(1).Meets(it.Box)
	}
	switch {
	case it.Name == "card-edge", it.Name == "fold-line":
	case it.Group == "marks":
		if meets {
			out = append(out, is+" meets the card")
		}
	case z == card.Bank && !whole:
		out = append(out, fmt.Sprintf("%s is too near to the edge: %v", is, it.Box))
	case z == card.Page && it.Kind == ink.KindText && it.Group != "title" && !whole:
		out = append(out, fmt.Sprintf("%s stands in no frame whole: %v, %v", is, it.Box, frames))
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
				for _, z := range sizes {
					p, frames := z.Lay(s, book, &c)
					assert.Empty(t, faults(z, p, frames), "%s %d on %s, %s", sc.name, z, s.Name, book.Tag())
					text := said(p)
					assert.NotContains(t, text, "⟦", "%s %d, %s", sc.name, z, book.Tag())
					for _, it := range ink.Describe(p).Items {
						whole := it.Name == "does" || it.Group == "hands" && it.Name != "switch" || it.Group == "lost"
						assert.False(t, whole && sc.says != nil && strings.HasSuffix(it.Text, "…"), "%s on %s, %s: %q is cut", sc.name, s.Name, book.Tag(), it.Text)
					}
					draw(t, "card "+sc.name+" "+s.Name+" "+book.Code(), z, s, book, &c)
					if book != words.English() {
						if sc.name != "long" { // names that are cut
							assert.Empty(t, wordstest.English(t, book, named(&c).Replace(text)), "%s %d on %s, %s", sc.name, z, s.Name, book.Tag())
						}
						continue
					}
					for _, want := range sc.says {
						if z == card.Page {
							assert.Contains(t, text, want, "%s on %s", sc.name, s.Name)
						}
					}
					for _, want := range sc.bank {
						if z == card.Bank {
							assert.Contains(t, text, want, "%s on %s", sc.name, s.Name)
						}
					}
				}
			}
		}
	}
}

// named takes out what people have named.
func named(c *card.Data) *strings.Replacer {
	out := []string{c.Craft, "", c.Radio.Name, ""}
	if c.Whom != "" {
		out = append(out, c.Whom, "")
	}
	for _, k := range c.Radio.Controls {
		if k.Called != "" {
			out = append(out, k.Called, "")
		}
	}
	return strings.NewReplacer(out...)
}

// draw draws a card as a picture, smaller than it is printed, where pictures are asked for.
func draw(t testing.TB, name string, z card.Size, s paper.Size, book *words.Book, c *card.Data) {
	if *uitest.Pictures == "" {
		return
	}
	p := s.Page(110)
	if z == card.Bank {
		p = s.Page(220)
		card.PrintBank(p, book, c)
	} else {
		card.Print(p, book, c)
	}
	uitest.Draw(t, fmt.Sprintf("%s %s", card.SizeCodes()[z], name), p)
}

// Which way a lever goes that nobody has placed is a guess, and the cards say so beside it; of one that is placed they do not.
func TestAGuessedWayIsSaidToBeOne(t *testing.T) {
	for _, name := range []string{"teasel", "teasel-by-sticks"} {
		f := shippedCraft(t, name)
		for _, guessed := range []bool{true, false} {
			r := measured("Moorland Desk 7", aSwitch(4, "arm", handset.Left, 2), aSwitch(5, "mode", handset.Right, 3))
			for i := range r.Controls {
				if c := &r.Controls[i]; c.Kind == handset.Switch && !guessed {
					c.Spot = handset.Spot{View: handset.OnShoulders, X: int16(200 * i), Y: 500, Way: handset.GoesDown}
				}
			}
			c := dated(f, r, true)
			for b, book := range languages {
				for _, s := range paper.Sizes() {
					for _, z := range sizes {
						p, frames := z.Lay(s, book, &c)
						assert.Empty(t, faults(z, p, frames), "%s, guessed %v: %d on %s, %s", name, guessed, z, s.Name, book.Tag())
						says := false
						for _, it := range p.Items() {
							says = says || strings.Contains(it.Text, []string{"Dashed:", "Gestrichelt:"}[b])
						}
						assert.Equal(t, guessed, says, "%s, guessed %v: %d on %s, %s", name, guessed, z, s.Name, book.Tag())
					}
				}
			}
		}
	}
}

// The cards of every craft that ships fit, whatever they say of it.
func TestTheCardOfEveryShippedCraftFits(t *testing.T) {
	for _, name := range assets.Crafts() {
		f := shippedCraft(t, name)
		for _, given := range []bool{false, true} {
			c := dated(f, radioreach.Ideal(f), given)
			for _, book := range languages {
				for _, s := range paper.Sizes() {
					for _, z := range sizes {
						p, frames := z.Lay(s, book, &c)
						assert.Empty(t, faults(z, p, frames), "%s %d on %s, %s", name, z, s.Name, book.Tag())
						draw(t, "shipped "+name+" "+s.Name+" "+book.Code(), z, s, book, &c)
					}
				}
			}
		}
	}
}

// Every control that was learned is on the page with all of its positions, and on the drawn radio by its number. On the bank-card those are
// numbered that are told of there.
func TestEveryLearnedControlIsDrawnWithItsNumber(t *testing.T) {
	for _, sc := range scenes {
		c := sc.make(t)
		for _, z := range sizes {
			p, _ := z.Lay(paper.A4(), words.English(), &c)
			d := ink.Describe(p)
			drawn, listed, told := map[string]bool{}, map[string]bool{}, map[string]bool{}
			for _, it := range d.Items {
				switch {
				case it.Group == "radio" && it.Name == "control-name":
					assert.False(t, drawn[it.Text], "%s: %s twice", sc.name, it.Text)
					drawn[it.Text] = true
				case it.Group == "switches" && it.Name == "number":
					assert.False(t, listed[it.Text], "%s: %s twice", sc.name, it.Text)
					listed[it.Text] = true
				case it.Group == "hands" && it.Name == "number":
					told[it.Text] = true
				}
			}
			if z == card.Bank {
				for n := range told {
					assert.True(t, drawn[n], "%s: %s is not on the drawn radio", sc.name, n)
				}
				assert.LessOrEqual(t, len(drawn), len(told)+1, sc.name)
				continue
			}
			for _, s := range card.Controls(&c, false) {
				n := fmt.Sprint(s.Number)
				assert.True(t, listed[n], "%s: %s is not listed", sc.name, s.Control.Job)
				assert.True(t, drawn[n], "%s: %s is not drawn", sc.name, s.Control.Job)
			}
			for _, it := range d.Items { // each stick's directions are told at its side
				if it.Group == "radio" && it.Name == "stick-up" {
					told[it.Text] = true
				}
			}
			for _, g := range figure.Gimbals[ui.StickMode(c.Radio.StickMode)] {
				assert.True(t, told[figure.JobFacts[g.Up].Word], sc.name)
			}
		}
	}
}

// What stands large beside a position is what the bench's own layout step makes of it, and all positions are told, each once, as they lie.
func TestLargeWordsSayWhatTheBenchDoes(t *testing.T) {
	for _, sc := range scenes {
		c := sc.make(t)
		l := &c.Config.Layout
		for _, h := range card.Holds(&c) {
			if h.Control == nil {
				assert.Equal(t, arming.BySticks, c.Config.Arming.By)
				assert.Equal(t, "ARM", h.Ways[0].Word)
				assert.Equal(t, "DISARM", h.Ways[1].Word)
				continue
			}
			if h.Control.Kind == handset.Knob {
				continue
			}
			seen := map[int]bool{}
			for _, w := range h.Ways {
				for i := w.First; i <= w.Last; i++ {
					assert.False(t, seen[i], sc.name)
					seen[i] = true
					var f pulse.Frame
					for ch := range f {
						f[ch] = pulse.Centre
					}
					f[h.Control.Channel] = h.Control.Positions[i].Width
					st, out := layout.Step(l, layout.State{}, &f)
					if w.Word == "ARM" || w.Word == "DISARM" {
						assert.Equal(t, out.Arm == layout.Inside, w.Word == "ARM", "%s: %v", sc.name, f[h.Control.Channel])
					} else {
						assert.True(t, strings.HasPrefix(w.Word, [...]string{"angle", "horizon", "rate"}[st.Mode]), "%s: %q", sc.name, w.Word)
					}
				}
			}
			assert.Len(t, seen, len(h.Control.Positions), sc.name)
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
		p, _ := card.Page.Lay(paper.Letter(), words.English(), &c)
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
		for i, z := range [...]card.Size{card.Bank, card.Page, card.Bank, card.Page} {
			s := paper.Sizes()[i/2]
			for _, book := range languages {
				page, _ := z.Lay(s, book, &c)
				d := z.Paper(page, book, &c)
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
			if rapid.Bool().Draw(t, "placed") {
				c.Spot = handset.Spot{View: handset.View(rapid.IntRange(1, 3).Draw(t, "view")), X: int16(rapid.IntRange(0, 1000).Draw(t, "x")), Y: int16(rapid.IntRange(0, 1000).Draw(t, "y")), Way: handset.Way(rapid.IntRange(0, int(handset.WayCount)-1).Draw(t, "way"))}
			}
			more = append(more, c)
		}
		r := measured(rapid.StringMatching(`[A-Z][a-z]{0,12}( [A-Za-z0-9]{1,14}){0,12}`).Draw(t, "radio"), more...)
		r.StickMode = rapid.IntRange(1, 4).Draw(t, "mode")
		c := dated(f, r, true)
		c.Whom = rapid.StringMatching(`([A-Z][a-zäöüß]{0,14}( |-)?){0,5}`).Draw(t, "whom")
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
		if rapid.Bool().Draw(t, "alike") {
			name := rapid.StringMatching(`([a-z0-9]{1,16}[-_ ]?){0,3}`)
			c.Like = &tell.Like{Craft: name.Draw(t, "old craft"), Radio: name.Draw(t, "old radio"), CraftWas: rapid.Bool().Draw(t, "changed"), RadioWas: rapid.Bool().Draw(t, "learned"), On: c.Date}
		}
		s, book := paper.Sizes()[rapid.IntRange(0, 1).Draw(t, "paper")], languages[rapid.IntRange(0, len(languages)-1).Draw(t, "language")]
		for _, z := range sizes {
			p, frames := z.Lay(s, book, &c)
			if bad := faults(z, p, frames); len(bad) > 0 {
				t.Fatalf("%d: %v", z, bad)
			}
		}
	})
}

func TestTheSameCardGivesTheSamePage(t *testing.T) {
	c := scenes[3].make(t)
	for _, z := range sizes {
		a, _ := z.Lay(paper.A4(), words.English(), &c)
		b, _ := z.Lay(paper.A4(), words.English(), &c)
		assert.Equal(t, ink.Describe(a), ink.Describe(b))
	}
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
