package patternfile

import (
	"fmt"
	"math/big"
	"reflect"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
)

// Filled writes gestures and menus as a gesture file with every field filled in, so that it reads back as the same ones, whatever
// becomes of the defaults. It fails where they cannot be written so that they read back the same.
func Filled(g *gestures.Config, menus *menu.Config) ([]byte, error) {
	var w yamldoc.Writer
	w.Text("propsoff", Kind)
	fillEdges(&w, g)
	if len(g.Patterns) > 0 {
		w.Open("gestures")
		for i := range g.Patterns {
			w.Inline(g.Patterns[i].Code, fillPattern(g, i, menus))
		}
		w.Close()
	}
	if len(menus.Menus) > 0 {
		w.Open("menus")
		for i := range menus.Menus {
			t := &menus.Menus[i]
			w.Inline(t.Code, yamldoc.InlineGroup(
				field("name", t.Name), word("camera", map[bool]string{false: "no", true: "yes"}[t.Camera]),
				word("moved-by", map[menu.Way]string{menu.OneStick: "one-stick", menu.TwoSticks: "two-sticks"}[t.Way]),
				yamldoc.InlineField{Name: "items", Value: fillPage(menus, t.First, t.Count)},
			))
		}
		w.Close()
	}
	text := w.Bytes()
	f, err := Parse("gestures", text, g.SlotTicks)
	if err != nil {
		return nil, words.Wrong("gesture-file.not-written", words.Args{"why": words.Error(err)}).Because(err)
	}
	if !reflect.DeepEqual(&f.Gestures, g) || !reflect.DeepEqual(&f.Menus, menus) {
		return nil, words.Wrong("gesture-file.reads-to-others")
	}
	return text, nil
}

func field(name, text string) yamldoc.InlineField {
	return yamldoc.InlineField{Name: name, Value: yamldoc.InlineText(text)}
}

func word(name, word string) yamldoc.InlineField {
	return yamldoc.InlineField{Name: name, Value: yamldoc.InlineWord(word)}
}

// fillEdges writes the edges, in the tenths of a percent that give them.
func fillEdges(w *yamldoc.Writer, g *gestures.Config) {
	find := func(least, most int, is func(*gestures.Config) bool) yamldoc.Inline {
		for n := least; n <= most; n++ {
			var c gestures.Config
			if c.SetEdges(n, n, n, n); is(&c) {
				return yamldoc.InlineValue(tenthsText(n) + " %")
			}
		}
		return yamldoc.InlineText("none")
	}
	pair := func(in, out yamldoc.Inline) yamldoc.Inline {
		return yamldoc.InlineGroup(yamldoc.InlineField{Name: "in", Value: in}, yamldoc.InlineField{Name: "out", Value: out})
	}
	w.Open("edges")
	w.Inline("ends", pair(
		find(leastEnd, mostEnd, func(c *gestures.Config) bool { return c.HighIn == g.HighIn && c.LowIn == g.LowIn }),
		find(leastEnd, mostEnd, func(c *gestures.Config) bool { return c.HighOut == g.HighOut && c.LowOut == g.LowOut })))
	w.Inline("middle", pair(
		find(leastGap, mostMiddle, func(c *gestures.Config) bool { return c.MiddleIn == g.MiddleIn }),
		find(leastGap, mostMiddle, func(c *gestures.Config) bool { return c.MiddleOut == g.MiddleOut })))
	w.Close()
}

func tenthsText(n int) string { return strings.TrimSuffix(fmt.Sprintf("%d.%d", n/10, n%10), ".0") }

func fillPattern(g *gestures.Config, i int, menus *menu.Config) yamldoc.Inline {
	p := &g.Patterns[i]
	e := Entry{Pattern: *p, SlotTicks: g.SlotTicks}
	if n := int(p.Opens); n > 0 && n <= len(menus.Menus) {
		e.Opens = menus.Menus[n-1].Code
	}
	var with []yamldoc.Inline
	for k := range g.Patterns {
		if p.With>>k&1 == 1 {
			with = append(with, yamldoc.InlineWord(g.Patterns[k].Code))
		}
	}
	return e.inline(with...)
}

func fillPage(menus *menu.Config, first, count int) yamldoc.Inline {
	var items []yamldoc.Inline
	for _, it := range menus.Items[first : first+count-1] { // the last one goes out, and is not written
		items = append(items, fillItem(menus, &it))
	}
	return yamldoc.InlineList(items...)
}

func fillItem(menus *menu.Config, it *menu.Item) yamldoc.Inline {
	number := func(name string, v int32) yamldoc.InlineField {
		scale := int64(1)
		for range it.Decimals {
			scale *= 10
		}
		return yamldoc.InlineField{Name: name, Value: yamldoc.InlineValue(big.NewRat(int64(v), scale).FloatString(int(it.Decimals)))}
	}
	switch it.Kind {
	case menu.Page:
		return yamldoc.InlineGroup(field("page", it.Name), yamldoc.InlineField{Name: "items", Value: fillPage(menus, it.First, it.Count)})
	case menu.Choice:
		var of []yamldoc.Inline
		for _, c := range it.Choices {
			of = append(of, yamldoc.InlineText(c))
		}
		return yamldoc.InlineGroup(field("choice", it.Name), yamldoc.InlineField{Name: "of", Value: yamldoc.InlineList(of...)}, field("start", it.Choices[it.Start]))
	}
	fields := []yamldoc.InlineField{field("value", it.Name), number("from", it.Low), number("to", it.High), number("by", it.By), number("start", it.Start)}
	if it.Unit != "" {
		fields = append(fields, field("unit", it.Unit))
	}
	return yamldoc.InlineGroup(fields...)
}

// millis writes slots as a time, no longer than most: a time rounds up to slots.
func millis(slots, slotTicks uint16, most int64) yamldoc.Inline {
	return yamldoc.InlineValue(strconv.FormatInt(min(int64(slots)*max(int64(slotTicks), 1), most), 10) + "ms")
}
