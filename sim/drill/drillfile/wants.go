package drillfile

import (
	"slices"
	"strings"

	"propsoff/assets/yamldoc"
	"propsoff/sim/arming"
	"propsoff/sim/drill"
	"propsoff/sim/happening"
	"propsoff/sim/link"
	"propsoff/sim/pulse"
)

// wantForm is one field by which a condition is written.
type wantForm struct {
	name string
	read func(p *part, n yamldoc.Node, w *drill.Want) bool
}

// plainWants are those that are one word.
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
		{"mode", oneOf(drill.Mode, 0, modes()...)},
		{"mode-switch", oneOf(drill.ModeSwitch, 0, modes()...)},
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
	}
	for i, name := range sticks() {
		forms = append(forms, wantForm{name, stick(i)})
	}
	return append(forms,
		wantForm{"happens", happens}, wantForm{"gesture", gesture}, wantForm{"menu-value", menuValue}, wantForm{"answer", answer})
}

func modes() []string { return []string{"angle", "horizon", "rate"} }

// linkWords are those of link.Phase, by number.
func linkWords() []string {
	return []string{link.Never: "never", link.Lost: "lost", link.Fresh: "fresh", link.Good: "good"}
}

// wants reads a list of conditions, or a single one. Answers make sense only among what must follow.
func (p *part) wants(n yamldoc.Node, follow bool) (out []drill.Want, words []string) {
	if !n.Exists() {
		return nil, nil
	}
	list := []yamldoc.Node{n}
	if n.IsList() {
		list = n.List()
		if len(list) == 0 {
			n.Errorf("the list is empty: name at least one condition")
		}
	}
	if len(list) > drill.MostWants {
		n.Errorf("%d conditions: %d at most", len(list), drill.MostWants)
		return nil, nil
	}
	for _, one := range list {
		w, say, ok := p.want(one)
		if !ok {
			continue
		}
		if w.Kind == drill.Answer && !follow {
			one.Errorf("an answer can only be what must follow: every other choice is wrong by itself")
			continue
		}
		p.fits(one, &w)
		out, words = append(out, w), append(words, say)
	}
	return out, words
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
	m := n.Map("condition")
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
			v.Errorf("the condition has both `%s` and `%s`: write two conditions", found, f.name)
			continue
		}
		found, ok = f.name, f.read(p, v, &w)
	}
	if v, there := m.Field("is"); there { // a plain word with words of its own, or a time
		word, good := v.Word(plainNames()...)
		if found != "" {
			v.Errorf("the condition has both `%s` and `is`: write two conditions", found)
		} else if found = "is"; good {
			w, ok = plainWants()[word], true
		}
	}
	if found == "" {
		hint := ""
		for _, k := range m.Keys() {
			s, _ := k.Text()
			if near, is := yamldoc.Near(s, names); is && s != "say" && s != "for" {
				hint = "did you mean `" + near + "`? "
			}
		}
		n.Errorf("this says no condition: %swrite one of %s, or `is` with one of %s", hint, strings.Join(names, ", "), strings.Join(plainNames(), ", "))
		for range m.Rest() { // said already
		}
		return w, "", false
	}
	m.Done()
	if w.For = held; held > 0 && w.Kind.Happening() {
		m.Opt("for").Errorf("this happens in one moment and cannot hold for a time: delete `for`")
	}
	return w, say, ok
}

// fits notes what can never come true with the craft of this case.
func (p *part) fits(n yamldoc.Node, w *drill.Want) {
	switch {
	case w.Kind == drill.ArmSwitch && p.c.Craft.Arming == 2:
		n.Errorf("this craft arms by sticks and has no arm switch: delete this, or write `craft: {arming: switch}`")
	case w.Kind == drill.SecondSwitch && p.c.Craft.Second == 0:
		n.Errorf("this craft has no second switch: write `craft: {second-switch: 7}`, or delete this")
	case w.Kind == drill.ModeSwitch && p.c.Craft.FixedMode > 0:
		n.Errorf("this craft always flies in one mode and has no mode switch: delete this, or `always`")
	case w.Kind == drill.Flying && !p.c.Craft.OnAir:
		n.Errorf("the craft stands on the desk bench and never flies: write `bench: {bench: air}`, or delete this")
	}
}

func refusals(kind drill.WantKind) func(*part, yamldoc.Node, *drill.Want) bool {
	return func(_ *part, n yamldoc.Node, w *drill.Want) bool {
		w.Kind = kind
		words := Refusals()
		var bits int32
		// A file of model 1 may have two words more, which are one now.
		all := set(n, &bits, append(words, "on-cable", "menu-open")...)
		for i, r := range append(arming.Shown(), arming.BeingSetUp, arming.BeingSetUp) {
			if bits>>i&1 == 1 {
				w.A |= 1 << r
			}
		}
		return all
	}
}

// set reads a word or a list of words as bits.
func set(n yamldoc.Node, to *int32, words ...string) bool {
	list := []yamldoc.Node{n}
	if n.IsList() {
		list = n.List()
		if len(list) == 0 {
			n.Errorf("the list is empty: write one or more of %s", strings.Join(words, ", "))
			return false
		}
	}
	all := true
	for _, one := range list {
		w, ok := one.Word(words...)
		if all = all && ok; ok {
			*to |= 1 << slices.Index(words, w)
		}
	}
	return all
}

func oneOf(kind drill.WantKind, from int32, words ...string) func(*part, yamldoc.Node, *drill.Want) bool {
	return func(_ *part, n yamldoc.Node, w *drill.Want) bool {
		word, ok := n.Word(words...)
		w.Kind, w.A = kind, from+int32(slices.Index(words, word))
		return ok
	}
}

func sticks() []string { return []string{"throttle", "roll", "pitch", "yaw"} }

// zones of a stick by word.
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

func stick(i int) func(*part, yamldoc.Node, *drill.Want) bool {
	return func(_ *part, n yamldoc.Node, w *drill.Want) bool {
		var words []string
		for _, z := range zoneWords(i) {
			words = append(words, z.word)
		}
		word, ok := n.Word(words...)
		w.Kind, w.A = drill.Stick, int32(i)
		if ok {
			w.B = zoneWords(i)[slices.Index(words, word)].set
		}
		return ok
	}
}

// happenings that a condition may name; what the others say other conditions say better.
type happeningWord struct {
	word string
	code happening.Code
}

func happeningWords() []happeningWord {
	return []happeningWord{
		{"link-lost", happening.LinkLost}, {"link-back", happening.LinkBack}, {"link-clean", happening.LinkClean},
		{"sinking", happening.Sinking}, {"settled", happening.Settled}, {"air-mode", happening.AirMode}, {"travel-short", happening.TravelShort},
		{"took-off", happening.TookOff}, {"touched-down", happening.TouchedDown}, {"tipped-over", happening.TippedOver},
		{"nudged", happening.Nudged}, {"gesture-missed", happening.GestureNear},
	}
}

func happens(_ *part, n yamldoc.Node, w *drill.Want) bool {
	var words []string
	for _, h := range happeningWords() {
		words = append(words, h.word)
	}
	word, ok := n.Word(words...)
	w.Kind, w.B = drill.Happens, -1
	if ok {
		w.A = int32(happeningWords()[slices.Index(words, word)].code)
	}
	return ok
}

func gesture(p *part, n yamldoc.Node, w *drill.Want) bool {
	w.Kind = drill.Gesture
	g := p.known.Gestures
	if g == nil || len(g.Patterns) == 0 {
		n.Errorf("no gestures are known here: name a gesture file, or delete this")
		return false
	}
	p.c.Craft.Gestures, p.c.Craft.Menus = g, p.known.Menus
	words := g.Codes()
	word, ok := n.Word(words...)
	w.A = int32(slices.Index(words, word))
	return ok
}

func answer(p *part, n yamldoc.Node, w *drill.Want) bool {
	w.Kind = drill.Answer
	p.answered = true
	if len(p.names) == 0 {
		n.Errorf("there are no choices to answer with: add `choices: {a: …, b: …}`, or delete this")
		return false
	}
	word, ok := n.Word(p.names...)
	w.A = int32(slices.Index(p.names, word))
	return ok
}

// Refusals are the code words of the refusals of today, in the order of arming.Shown. They are the same as everywhere in this program.
func Refusals() []string {
	return []string{"throttle-up", "off-first", "second-switch-off", "not-self-levelling", "no-link", "link-too-fresh", "channel-missing",
		"not-yet-still", "tilted", "being-set-up", "pack-low", "propellers-unchecked"}
}

// Causes are the words for how a craft came to be disarmed, by number; the first is none.
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
