package drillfile

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/drill"
)

// menuValue reads {item: name, value: …}: the item is named as the menu shows it, the value is a number without its unit, or one of
// the item's words.
func menuValue(p *part, n yamldoc.Node, w *drill.Want) bool {
	w.Kind = drill.MenuValue
	menus := p.known.Menus
	if menus == nil || len(menus.Items) == 0 {
		n.Wrong("drill-file.no-menus")
		return false
	}
	p.c.Craft.Gestures, p.c.Craft.Menus = p.known.Gestures, menus
	m := n.Map("drill-file.menu-value")
	at, value := m.Need("item"), m.Need("value")
	m.Done()
	var names []string
	for i := range menus.Items {
		if it := &menus.Items[i]; it.Kind == menu.Value || it.Kind == menu.Choice {
			names = append(names, it.Name)
		}
	}
	name, ok := at.Word(names...)
	if !ok {
		return false
	}
	w.A = int32(slices.IndexFunc(menus.Items, func(it menu.Item) bool {
		return it.Name == name && (it.Kind == menu.Value || it.Kind == menu.Choice)
	}))
	it := &menus.Items[w.A]
	if it.Kind == menu.Choice {
		word, ok := value.Word(it.Choices...)
		w.B = int32(slices.Index(it.Choices, word))
		return ok
	}
	d, _, ok := value.Amount("")
	if !ok {
		return false
	}
	scale := int64(1)
	for range it.Decimals {
		scale *= 10
	}
	v, whole := d.Times(scale)
	if !whole || v < int64(it.Low) || v > int64(it.High) || (v-int64(it.Start))%int64(it.By) != 0 {
		value.Wrong("drill-file.value-unreachable", words.Args{"value": words.Quote(d.String())})
		return false
	}
	w.B = int32(v)
	return true
}
