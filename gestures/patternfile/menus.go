package patternfile

import (
	"slices"

	"propsoff/assets/yamldoc"
	"propsoff/gestures/menu"
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
	outOfPage    = "to the page before"
	outOfMenu    = "close this menu"
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
// Each page ends with an item that goes out of it, which is not written.
func readMenus(n yamldoc.Node, slotTicks uint16) menu.Config {
	r := menuReader{cfg: menu.Default(max(slotTicks, 1))}
	if !n.Exists() {
		return r.cfg
	}
	m := n.Map("menus part")
	for key, value := range m.Rest() {
		code, ok := codeWord(key)
		if !ok {
			continue
		}
		if len(r.cfg.Menus) == mostMenus {
			key.Errorf("more than %d menus: delete some", mostMenus)
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
	full   bool // that there is too much was said
}

func (r *menuReader) menu(code string, n yamldoc.Node) {
	m := n.Map("menu")
	t := menu.Tree{Code: code, Name: short(m.Need("name"), longestName)}
	if w, ok := m.Opt("camera").Word("no", "yes"); ok {
		t.Camera = w == "yes"
	}
	if w, ok := m.Opt("moved-by").Word("one-stick", "two-sticks"); ok && w == "two-sticks" {
		t.Way = menu.TwoSticks
	}
	t.First, t.Count = r.page(m.Need("items"), 1, outOfMenu)
	m.Done()
	r.cfg.Menus = append(r.cfg.Menus, t)
}

// short reads a text of so many letters at most.
func short(n yamldoc.Node, most int) string {
	s, ok := n.Text()
	if ok && (s == "" || len([]rune(s)) > most) {
		n.Errorf("%q has no room on its line: write 1 to %d letters", s, most)
	}
	return s
}

// page reads the items of a page. They stand one after the other; the items of the pages in it follow.
func (r *menuReader) page(n yamldoc.Node, depth int, out string) (first, count int) {
	list, _ := n.ListOf(1, mostOnPage)
	first, count = len(r.cfg.Items), len(list)+1
	if first+count > menu.MostItems {
		r.tooMuch(n, "more than %d items in all menus: delete some", menu.MostItems)
		return 0, 0
	}
	r.cfg.Items = append(r.cfg.Items, make([]menu.Item, count)...)
	r.cfg.Items[first+count-1] = menu.Item{Name: out, Kind: menu.Out}
	for i, one := range list {
		it := r.item(one, depth)
		r.cfg.Items[first+i] = it
	}
	return first, count
}

func (r *menuReader) tooMuch(n yamldoc.Node, format string, most int) {
	if !r.full {
		n.Errorf(format, most)
	}
	r.full = true
}

func (r *menuReader) item(n yamldoc.Node, depth int) menu.Item {
	if !n.IsMap() {
		n.Errorf("this is no item: write {page: …, items: […]}, {value: …, from: …} or {choice: …, of: […]}")
		return menu.Item{Kind: menu.Out}
	}
	m := n.Map("item")
	defer m.Done()
	if name, ok := m.Field("page"); ok {
		it := menu.Item{Name: short(name, longestItem), Kind: menu.Page}
		items := m.Need("items")
		if depth == menu.MostDepth {
			name.Errorf("pages may stand %d deep, this one is deeper: put its items on the page before", menu.MostDepth)
			return it
		}
		it.First, it.Count = r.page(items, depth+1, outOfPage)
		return it
	}
	if name, ok := m.Field("choice"); ok {
		return r.choice(m, name)
	}
	if name, ok := m.Field("value"); ok {
		return r.value(m, name)
	}
	n.Errorf("this is no item: it needs one of the fields page, value and choice")
	return menu.Item{Kind: menu.Out}
}

// index is the place of one more value.
func (r *menuReader) index(n yamldoc.Node) int {
	if r.values == menu.MostValues {
		r.tooMuch(n, "more than %d values in all menus: delete some", menu.MostValues)
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
			w.Errorf("%q stands twice in this list: delete one", word)
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
				nodes[i].Errorf("%s cannot stand here: write a number with at most %d digits behind the point, not too large", numbers[i], mostDecimals)
				return it
			}
			*to = int32(v)
		}
	}
	switch {
	case it.Low >= it.High:
		nodes[1].Errorf("the value goes from %s to %s, which leaves nothing to choose: let `to` be above `from`", numbers[0], numbers[1])
	case it.By <= 0 || it.By > it.High-it.Low:
		nodes[2].Errorf("a step of %s leads nowhere between %s and %s: write one above 0 that fits in between", numbers[2], numbers[0], numbers[1])
	case it.Start < it.Low || it.Start > it.High:
		nodes[3].Errorf("%s lies outside %s to %s: begin within the limits", numbers[3], numbers[0], numbers[1])
	}
	return it
}
