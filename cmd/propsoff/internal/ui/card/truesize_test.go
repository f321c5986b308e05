package card_test

import (
	"bytes"
	"encoding/binary"
	"image/png"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/ui/card"
)

// The format ID-1 of ISO/IEC 7810 in millimetres.
const idWidth, idHeight = 85.6, 54.0

// written is a bank-card in a format, with its two sides as they lie on its page.
func written(t *testing.T, s paper.Size, f paper.Format) (file []byte, page *ink.Page, sides []ink.Rect) {
	c := scenes[2].make(t)
	page, sides = card.Bank.Lay(s, words.English(), &c)
	d := card.Bank.Paper(page, words.English(), &c)
	var b bytes.Buffer
	require.NoError(t, d.Write(&b, f))
	return b.Bytes(), page, sides
}

// number reads a number out of a file.
func number(t *testing.T, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// holdsID1 holds both sides against the format, by the millimetres that a pixel of the page takes on the paper as the file says.
func holdsID1(t *testing.T, sides []ink.Rect, across, down float64) {
	require.Len(t, sides, 2)
	for _, r := range sides {
		assert.InDelta(t, idWidth, r.W*across, 0.02)
		assert.InDelta(t, idHeight, r.H*down, 0.02)
	}
	assert.InDelta(t, sides[0].Right(), sides[1].X, 0.01, "they share the line of the fold")
	assert.InDelta(t, sides[0].Y, sides[1].Y, 0.01)
}

func TestTheBankCardIsOfTrueSizeInAPDF(t *testing.T) {
	for _, s := range paper.Sizes() {
		file, page, sides := written(t, s, paper.PDF)
		box := regexp.MustCompile(`/MediaBox \[0 0 (\S+) (\S+)\]`).FindSubmatch(file)
		require.NotNil(t, box)
		w, h := number(t, string(box[1])), number(t, string(box[2])) // user units: 1/72 inch
		assert.NotContains(t, string(file), "/UserUnit")
		assert.InDelta(t, s.Width, w/72*25.4, 0.1)
		assert.InDelta(t, s.Height, h/72*25.4, 0.1)
		holdsID1(t, sides, w/72*25.4/page.W, h/72*25.4/page.H)
	}
}

func TestTheBankCardIsOfTrueSizeInAnSVG(t *testing.T) {
	for _, s := range paper.Sizes() {
		file, page, sides := written(t, s, paper.SVG)
		box := regexp.MustCompile(`width="(\S+)mm" height="(\S+)mm" viewBox="0 0 (\S+) (\S+)"`).FindSubmatch(file)
		require.NotNil(t, box)
		assert.Equal(t, page.W, number(t, string(box[3])))
		assert.Equal(t, page.H, number(t, string(box[4])))
		holdsID1(t, sides, number(t, string(box[1]))/number(t, string(box[3])), number(t, string(box[2]))/number(t, string(box[4])))
	}
}

// A PNG has 600 dots to the inch and says so, and its edge stands where the format has it.
func TestTheBankCardIsOfTrueSizeInAPNG(t *testing.T) {
	file, page, sides := written(t, paper.A4(), paper.PNG)
	at := bytes.Index(file, []byte("pHYs"))
	require.Positive(t, at)
	across, down, unit := binary.BigEndian.Uint32(file[at+4:]), binary.BigEndian.Uint32(file[at+8:]), file[at+12]
	assert.Equal(t, byte(1), unit, "metres")
	assert.InDelta(t, 600/0.0254, float64(across), 1)
	assert.Equal(t, across, down)
	m, err := png.Decode(bytes.NewReader(file))
	require.NoError(t, err)
	assert.Equal(t, int(page.W), m.Bounds().Dx())
	assert.Equal(t, int(page.H), m.Bounds().Dy())
	holdsID1(t, sides, 1000/float64(across), 1000/float64(down))
	ink := func(x, y float64) bool { r, _, _, _ := m.At(int(x), int(y)).RGBA(); return r < 0xf000 }
	middle := sides[0].Centre().Y
	left, right := -1.0, -1.0 // the first and the last dark pixel on a line through the middle
	for x := range m.Bounds().Dx() {
		if ink(float64(x), middle) {
			if left < 0 {
				left = float64(x)
			}
			right = float64(x) + 1
		}
	}
	assert.InDelta(t, 2*idWidth, (right-left)/float64(across)*1000, 0.15)
	top, bottom := -1.0, -1.0
	x := sides[0].X + sides[0].W/3
	for y := int(sides[0].Y) - 20; y < int(sides[0].Bottom())+20; y++ {
		if ink(x, float64(y)) {
			if top < 0 {
				top = float64(y)
			}
			bottom = float64(y) + 1
		}
	}
	assert.InDelta(t, idHeight, (bottom-top)/float64(down)*1000, 0.15)
}

// What leads scissors begins outside the card and points at its corners; the fold lies where the sides meet.
func TestMarksStandOutsideTheCard(t *testing.T) {
	_, page, sides := written(t, paper.Letter(), paper.SVG)
	both := sides[0].Union(sides[1])
	cuts, folds, edges := 0, 0, 0
	for i := range page.Items() {
		switch it := &page.Items()[i]; it.Name {
		case "cut-mark":
			cuts++
			assert.False(t, both.Meets(it.Box), "%v", it.Box)
			near := func(a, b float64) bool { return math.Abs(a-b) <= 1 } // lines stand on whole pixels
			upright, level := near(it.A.X, it.B.X), near(it.A.Y, it.B.Y)
			along := upright && (near(it.A.X, both.X) || near(it.A.X, both.Right())) || level && (near(it.A.Y, both.Y) || near(it.A.Y, both.Bottom()))
			assert.True(t, along, "%v is in line with an edge", it.Box)
		case "fold-line":
			folds++
			assert.InDelta(t, sides[1].X, it.A.X, 1)
			assert.Equal(t, it.A.X, it.B.X)
			assert.Positive(t, it.Dash.On)
			assert.Less(t, it.A.Y, both.Y)
			assert.Greater(t, it.B.Y, both.Bottom())
		case "card-edge":
			edges++
			assert.InDelta(t, 3.18, it.Radius/600*25.4, 0.01)
		}
	}
	assert.Equal(t, [3]int{8, 1, 1}, [3]int{cuts, folds, edges})
	fold, ok := ink.Describe(page).Text("fold")
	assert.True(t, ok)
	assert.Equal(t, "fold", fold)
}
