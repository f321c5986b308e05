package patternfile

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/gestures/menu"
)

// Limits of menus (ours); lengths are in letters, so that an item fits its line.
const (
	mostMenus    = 8
	mostOnPage   = 9
	longestItem  = 30
	longestWord  = 16
	longestUnit  = 8
	mostDecimals = 3
	largest      = 1 << 29 // in the last digit; then a value and one step more still fit 32 bits
)

// readMenus reads the menus: a group with one field for each, named by its code word.
//
//	menus:
//	  craft-menu:
//	    name: the craft's own menu
//	    camera: no                 # yes: a camera's, of which a craft often knows nothing
//	    moved-by: one-stick        # one-stick | two-sticks
//	    items:
//	      - {page: how it turns, items: [{value: turning at full stick, from: 180, to: 780, by: 30, start: 420, unit: deg/s}]}
//	      - {choice: at low throttle, of: [stand still, turn slowly], start: stand still}
//
// Each page ends with an item that goes out of it: it is not written, and has no name.
func readMenus(n yamldoc.Node, slotTicks uint16) menu.Config {
	r := menuReader{cfg: menu.Default(max(slotTicks, 1))}
	if !n.Exists() {
		return r.cfg
	}
	m := n.Map("gesture-file.menus")
	for key, value := range m.Rest() {
		code, ok := codeWord(key)
		if !ok {
			continue
		}
		if len(r.cfg.Menus) == mostMenus {
			key.Wrong("gesture-file.many-menus", words.Args{"most": words.Whole(mostMenus)})
			break
		}
		r.menu(code, value)
	}
	m.Done()
	r.cfg.Values = r.values
	return r.cfg
}

type menuReader struct {
	cfg    menu.Config
	values int
	full   bool // it has been said that there is too much
}

func (r *menuReader) menu(code string, n yamldoc.Node) {
	m := n.Map("gesture-file.menu")
	t := menu.Tree{Code: code, Name: short(m.Need("name"), longestName)}
	if w, ok := m.Opt("camera").Word("no", "yes"); ok {
		t.Camera = w == "yes"
	}
	if w, ok := m.Opt("moved-by").Word("one-stick", "two-sticks"); ok && w == "two-sticks" {
		t.Way = menu.TwoSticks
	}
	t.First, t.Count = r.page(m.Need("items"), 1)
	m.Done()
	r.cfg.Menus = append(r.cfg.Menus, t)
}

// short reads a text of at most so many letters.
func short(n yamldoc.Node, most int) string {
	s, ok := n.Text()
	if ok && (s == "" || len([]rune(s)) > most) {
		n.Wrong("gesture-file.no-room", words.Args{"text": words.Typed(s), "most": words.Whole(most)})
	}
	return s
}

// page reads the items of a page. They stand one after the other, and the items of the pages among them follow.
func (r *menuReader) page(n yamldoc.Node, depth int) (first, count int) {
	list, _ := n.ListOf(1, mostOnPage)
	first, count = len(r.cfg.Items), len(list)+1
	if first+count > menu.MostItems {
		r.tooMuch(n, "gesture-file.many-items", menu.MostItems)
		return 0, 0
	}
	r.cfg.Items = append(r.cfg.Items, make([]menu.Item, count)...)
	r.cfg.Items[first+count-1] = menu.Item{Kind: menu.Out}
	for i, one := range list {
		it := r.item(one, depth)
		r.cfg.Items[first+i] = it
	}
	return first, count
}

func (r *menuReader) tooMuch(n yamldoc.Node, id words.ID, most int) {
	if !r.full {
		n.Wrong(id, words.Args{"most": words.Whole(most)})
	}
	r.full = true
}

func (r *menuReader) item(n yamldoc.Node, depth int) menu.Item {
	if !n.IsMap() {
		n.Wrong("gesture-file.no-item")
		return menu.Item{Kind: menu.Out}
	}
	m := n.Map("gesture-file.item")
	defer m.Done()
	if name, ok := m.Field("page"); ok {
		it := menu.Item{Name: short(name, longestItem), Kind: menu.Page}
		items := m.Need("items")
		if depth == menu.MostDepth {
			name.Wrong("gesture-file.too-deep", words.Args{"most": words.Whole(menu.MostDepth)})
			return it
		}
		it.First, it.Count = r.page(items, depth+1)
		return it
	}
	if name, ok := m.Field("choice"); ok {
		return r.choice(m, name)
	}
	if name, ok := m.Field("value"); ok {
		return r.value(m, name)
	}
	n.Wrong("gesture-file.item-kind")
	return menu.Item{Kind: menu.Out}
}

// index is the place of one more value.
func (r *menuReader) index(n yamldoc.Node) int {
	if r.values == menu.MostValues {
		r.tooMuch(n, "gesture-file.many-values", menu.MostValues)
		return 0
	}
	r.values++
	return r.values - 1
}

func (r *menuReader) choice(m *yamldoc.Map, name yamldoc.Node) menu.Item {
	it := menu.Item{Name: short(name, longestItem), Kind: menu.Choice, Index: r.index(name), By: 1}
	list, ok := m.Need("of").ListOf(2, menu.MostChoices)
	for _, w := range list {
		word := short(w, longestWord)
		if word != "" && slices.Contains(it.Choices, word) {
			w.Wrong("gesture-file.word-twice", words.Args{"word": words.Typed(word)})
		}
		it.Choices = append(it.Choices, word)
	}
	it.High = int32(len(it.Choices) - 1)
	start := m.Need("start")
	if w, given := start.Word(it.Choices...); given && ok {
		for i, c := range it.Choices {
			if c == w {
				it.Start = int32(i)
			}
		}
	}
	return it
}

func (r *menuReader) value(m *yamldoc.Map, name yamldoc.Node) menu.Item {
	it := menu.Item{Name: short(name, longestItem), Kind: menu.Value, Index: r.index(name)}
	if u, ok := m.Field("unit"); ok {
		it.Unit = short(u, longestUnit)
	}
	nodes := [4]yamldoc.Node{m.Need("from"), m.Need("to"), m.Need("by"), m.Need("start")}
	var numbers [4]yamldoc.Decimal
	for i, n := range nodes {
		d, _, ok := n.Amount("")
		if !ok {
			return it
		}
		numbers[i] = d
	}
	for fits := false; !fits; {
		fits = true
		scale := int64(1)
		for range it.Decimals {
			scale *= 10
		}
		for i, to := range [4]*int32{&it.Low, &it.High, &it.By, &it.Start} {
			v, whole := numbers[i].Times(scale)
			if !whole && it.Decimals < mostDecimals {
				it.Decimals++
				fits = false
				break
			}
			if !whole || v < -largest || v > largest {
				nodes[i].Wrong("gesture-file.number-form", words.Args{"value": words.Quote(numbers[i].String()), "places": words.Whole(mostDecimals)})
				return it
			}
			*to = int32(v)
		}
	}
	low, high := words.Quote(numbers[0].String()), words.Quote(numbers[1].String())
	switch {
	case it.Low >= it.High:
		nodes[1].Wrong("gesture-file.nothing-to-choose", words.Args{"low": low, "high": high})
	case it.By <= 0 || it.By > it.High-it.Low:
		nodes[2].Wrong("gesture-file.step-nowhere", words.Args{"step": words.Quote(numbers[2].String()), "low": low, "high": high})
	case it.Start < it.Low || it.Start > it.High:
		nodes[3].Wrong("gesture-file.start-outside", words.Args{"value": words.Quote(numbers[3].String()), "low": low, "high": high})
	}
	return it
}
