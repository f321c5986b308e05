package drillfile

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// wantForm is one field by which a condition is written.
type wantForm struct {
	name string
	read func(p *part, n yamldoc.Node, w *drill.Want) bool
}

// plainWants are the conditions that are one word.
func plainWants() map[string]drill.Want {
	return map[string]drill.Want{
		"armed":    {Kind: drill.Armed, A: 1},
		"disarmed": {Kind: drill.Armed, A: 0},
		"ready":    {Kind: drill.Ready},
		"flying":   {Kind: drill.Flying, A: 1},
		"refused":  {Kind: drill.Refused},
	}
}

// plainNames are the words of plainWants in a fixed order.
func plainNames() []string { return []string{"armed", "disarmed", "ready", "flying", "refused"} }

// wantForms are all others, in the order in which messages name them.
func wantForms() []wantForm {
	forms := []wantForm{
		{"refuses", refusals(drill.Refuses)},
		{"refuses-only", refusals(drill.OnlyThose)},
		{"cured", refusals(drill.Clear)},
		{"refused", refusals(drill.Refused)},
		{"disarmed", func(_ *part, n yamldoc.Node, w *drill.Want) bool {
			w.Kind = drill.DisarmedBy
			return set(n, &w.A, Causes()...)
		}},
		{"link", func(_ *part, n yamldoc.Node, w *drill.Want) bool {
			w.Kind = drill.Link
			return set(n, &w.A, linkWords()...)
		}},
		{"mode", oneOf(drill.Mode, 0, pulse.ModeCodes()...)},
		{"mode-switch", oneOf(drill.ModeSwitch, 0, pulse.ModeCodes()...)},
		{"motors", oneOf(drill.Motors, 0, "still", "turning")},
		{"arm-switch", oneOf(drill.ArmSwitch, 0, "off", "on")},
		{"second-switch", oneOf(drill.SecondSwitch, 0, "off", "on")},
		{"radio", oneOf(drill.Transmitter, 0, "off", "on")},
		{"power", oneOf(drill.Power, 0, "off", "on")},
		{"cable", oneOf(drill.Cable, 0, "out", "in")},
		{"craft", oneOf(drill.Level, 0, "tilted", "level")},
		{"menu", oneOf(drill.Menu, pulse.MenuClosed, "closed", "open", "camera")},
		{"propellers", oneOf(drill.Checked, 0, "unchecked", "checked")},
		{"menu-left", oneOf(drill.MenuLeft, 0, "put-back", "kept")},
		{"flies", bounds(drill.Flies)},
		{"leaves", bounds(drill.Leaves)},
		{"touches-down", touchesDown},
	}
	for i, name := range sticks() {
		forms = append(forms, wantForm{name, stick(i)})
	}
	return append(forms,
		wantForm{"happens", happens}, wantForm{"gesture", gesture}, wantForm{"menu-value", menuValue}, wantForm{"answer", answer})
}

// linkWords are those of link.Phase, by number.
func linkWords() []string {
	return []string{link.Never: "never", link.Lost: "lost", link.Fresh: "fresh", link.Good: "good"}
}

// wants reads a list of conditions, or a single one. Answers make sense only among what must follow.
func (p *part) wants(n yamldoc.Node, follow bool) (out []drill.Want, says []string) {
	if !n.Exists() {
		return nil, nil
	}
	list := []yamldoc.Node{n}
	if n.IsList() {
		list = n.List()
		if len(list) == 0 {
			n.Wrong("drill-file.no-conditions")
		}
	}
	if len(list) > drill.MostWants {
		n.Wrong("drill-file.many-conditions", atMost(len(list), drill.MostWants))
		return nil, nil
	}
	for _, one := range list {
		w, say, ok := p.want(one)
		if !ok {
			continue
		}
		if w.Kind == drill.Answer && !follow {
			one.Wrong("drill-file.answer-elsewhere")
			continue
		}
		p.fits(one, &w)
		out, says = append(out, w), append(says, say)
	}
	return out, says
}

// want reads one condition.
func (p *part) want(n yamldoc.Node) (w drill.Want, say string, ok bool) {
	if !n.IsMap() {
		word, ok := n.Word(plainNames()...)
		if !ok {
			return w, "", false
		}
		return plainWants()[word], "", true
	}
	m := n.Map("drill-file.condition")
	say = text(m.Opt("say"))
	held, _ := millis(m.Opt("for"), 0, mostFor)
	var names []string
	found := ""
	for _, f := range wantForms() {
		v, there := m.Field(f.name)
		names = append(names, f.name)
		if !there {
			continue
		}
		if found != "" {
			v.Wrong("drill-file.two-conditions", words.Args{"one": words.Quote(found), "other": words.Quote(f.name)})
			continue
		}
		found, ok = f.name, f.read(p, v, &w)
	}
	if v, there := m.Field("is"); there { // a plain word with a sentence of its own, or a time
		word, good := v.Word(plainNames()...)
		if found != "" {
			v.Wrong("drill-file.two-conditions", words.Args{"one": words.Quote(found), "other": words.Quote("is")})
		} else if found = "is"; good {
			w, ok = plainWants()[word], true
		}
	}
	if found == "" {
		meant := ""
		for _, k := range m.Keys() {
			s, _ := k.Text()
			if near, is := yamldoc.Near(s, names); is && s != "say" && s != "for" {
				meant = near
			}
		}
		n.Wrong("drill-file.no-condition", words.Args{"near": words.Quote(meant), "fields": listed(names), "words": listed(plainNames())})
		for range m.Rest() { // said already
		}
		return w, "", false
	}
	m.Done()
	if w.For = held; held > 0 && w.Kind.Happening() {
		m.Opt("for").Wrong("drill-file.for-a-moment")
	}
	return w, say, ok
}

// fits notes what can never come true with the craft of this case.
func (p *part) fits(n yamldoc.Node, w *drill.Want) {
	switch {
	case w.Kind == drill.ArmSwitch && p.c.Craft.Arming == 2:
		n.Wrong("drill-file.no-arm-switch")
	case w.Kind == drill.SecondSwitch && p.c.Craft.Second == 0:
		n.Wrong("drill-file.no-second-switch")
	case w.Kind == drill.ModeSwitch && p.c.Craft.FixedMode > 0:
		n.Wrong("drill-file.no-mode-switch")
	case (w.Kind == drill.Flying || w.Kind == drill.Flies || w.Kind == drill.Leaves || w.Kind == drill.TouchesDown || w.Kind == drill.HoverThrottle) && p.grounded:
		n.Wrong("drill-file.never-flies")
	}
}

func refusals(kind drill.WantKind) func(*part, yamldoc.Node, *drill.Want) bool {
	return func(_ *part, n yamldoc.Node, w *drill.Want) bool {
		w.Kind = kind
		var bits int32
		ever := refusalWords()
		all := set(n, &bits, ever...)
		for i, word := range ever {
			if r, ok := arming.RefusalOf(word); ok && bits>>i&1 == 1 {
				w.A |= 1 << r.Today()
			}
		}
		return all
	}
}

// listed are words as a list in a sentence.
func listed(all []string) words.Text { return words.Listed(words.AsAre(all...)...) }

// set reads a word or a list of words as bits.
func set(n yamldoc.Node, to *int32, choices ...string) bool {
	list := []yamldoc.Node{n}
	if n.IsList() {
		list = n.List()
		if len(list) == 0 {
			n.Wrong("drill-file.empty-set", words.Args{"words": listed(choices)})
			return false
		}
	}
	all := true
	for _, one := range list {
		w, ok := one.Word(choices...)
		if all = all && ok; ok {
			*to |= 1 << slices.Index(choices, w)
		}
	}
	return all
}

func oneOf(kind drill.WantKind, from int32, choices ...string) func(*part, yamldoc.Node, *drill.Want) bool {
	return func(_ *part, n yamldoc.Node, w *drill.Want) bool {
		word, ok := n.Word(choices...)
		w.Kind, w.A = kind, from+int32(slices.Index(choices, word))
		return ok
	}
}

func sticks() []string { return []string{"throttle", "roll", "pitch", "yaw"} }

// zoneWord is a word for where a stick stands, and the zones that it means.
type zoneWord struct {
	word string
	set  int32
}

func bits(zones ...drill.Zone) int32 {
	v := int32(0)
	for _, z := range zones {
		v |= 1 << z
	}
	return v
}

// zoneWords are the words for where stick n (0 throttle, 1 roll, 2 pitch, 3 yaw) stands.
func zoneWords(n int) []zoneWord {
	low, high := bits(drill.Down, drill.Low), bits(drill.High)
	if n == 0 {
		return []zoneWord{
			{"down", bits(drill.Down)}, {"low", low}, {"middle", bits(drill.Middle)}, {"up", high},
			{"raised", bits(drill.Low, drill.Below, drill.Middle, drill.Above, drill.High)},
			{"flying", bits(drill.Below, drill.Middle, drill.Above)},
		}
	}
	names := [...][2]string{{"left", "right"}, {"back", "forward"}, {"left", "right"}}[n-1]
	return []zoneWord{
		{names[0], low}, {"middle", bits(drill.Middle)}, {names[1], high},
		{"fully", low | high}, {"moved", bits(drill.Down, drill.Low, drill.Below, drill.Above, drill.High)},
	}
}

// hovers is the word for a throttle that stands where the craft hovers.
const hovers = "hovers"

func stick(i int) func(*part, yamldoc.Node, *drill.Want) bool {
	return func(_ *part, n yamldoc.Node, w *drill.Want) bool {
		var zones []string
		for _, z := range zoneWords(i) {
			zones = append(zones, z.word)
		}
		if i == 0 {
			zones = append(zones, hovers)
		}
		word, ok := n.Word(zones...)
		if word == hovers {
			w.Kind = drill.HoverThrottle
			return ok
		}
		w.Kind, w.A = drill.Stick, int32(i)
		if ok {
			w.B = zoneWords(i)[slices.Index(zones, word)].set
		}
		return ok
	}
}

// happeningWord is a happening that a condition may name; for the rest there are other conditions that say it better.
type happeningWord struct {
	word string
	code happening.Code
}

func happeningWords() []happeningWord {
	return []happeningWord{
		{"link-lost", happening.LinkLost}, {"link-back", happening.LinkBack}, {"link-clean", happening.LinkClean},
		{"sinking", happening.Sinking}, {"settled", happening.Settled}, {"air-mode", happening.AirMode}, {"travel-short", happening.TravelShort},
		{"took-off", happening.TookOff}, {"touched-down", happening.TouchedDown}, {"tipped-over", happening.TippedOver}, {"broke", happening.Broke},
		{"nudged", happening.Nudged}, {"gesture-missed", happening.GestureNear},
	}
}

func happens(_ *part, n yamldoc.Node, w *drill.Want) bool {
	var names []string
	for _, h := range happeningWords() {
		names = append(names, h.word)
	}
	word, ok := n.Word(names...)
	w.Kind, w.B = drill.Happens, -1
	if ok {
		w.A = int32(happeningWords()[slices.Index(names, word)].code)
	}
	return ok
}

func gesture(p *part, n yamldoc.Node, w *drill.Want) bool {
	w.Kind = drill.Gesture
	g := p.known.Gestures
	if g == nil || len(g.Patterns) == 0 {
		n.Wrong("drill-file.no-gestures")
		return false
	}
	p.c.Craft.Gestures, p.c.Craft.Menus = g, p.known.Menus
	word, ok := n.Word(g.Codes()...)
	w.A = int32(slices.Index(g.Codes(), word))
	return ok
}

func answer(p *part, n yamldoc.Node, w *drill.Want) bool {
	w.Kind = drill.Answer
	p.answered = true
	if len(p.names) == 0 {
		n.Wrong("drill-file.no-choices")
		return false
	}
	word, ok := n.Word(p.names...)
	w.A = int32(slices.Index(p.names, word))
	return ok
}

// refusalWords are the code words of today's refusals in the order in which they are shown, and after them those of model 1, which an old
// file may have.
func refusalWords() []string {
	var today, old []string
	for _, r := range arming.Ever() {
		if r.Today() == r {
			today = append(today, r.Code())
		} else {
			old = append(old, r.Code())
		}
	}
	return append(today, old...)
}

// Causes are the words for how a craft came to be disarmed, by the number of the happening.Cause; the first is for none that is known.
func Causes() []string {
	return []string{"unknown", "by-switch", "by-sticks", "cut-on-loss", "sunk", "power-lost", "by-stored-values", "by-repeated-values"}
}

// Happenings are the words of the happenings that a condition may name.
func Happenings() map[happening.Code]string {
	out := map[happening.Code]string{}
	for _, h := range happeningWords() {
		out[h.code] = h.word
	}
	return out
}
