package lookup

import (
	"embed"
	"slices"
	"strings"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/sound"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill/drillfile"
)

// Files in which those fields stand that no shipped file has; the first of each kind is shown as an example.
//
//go:embed specimens
var specimens embed.FS

func specimen(name string) string {
	text, err := specimens.ReadFile("specimens/" + name + ".yaml")
	if err != nil {
		panic(err) // they are part of the program
	}
	return string(text)
}

// shipped is the text of a file that ships.
func shipped(_ string, text []byte, ok bool) string {
	if !ok {
		panic("a shipped file is not there")
	}
	return string(text)
}

// files are the topics of files.
func files() []Topic {
	return []Topic{
		named("craft-file", func() []Part {
			lead := []Part{{Says: words.Each("look-up", "craft-copy", "file-words")}, example(specimen("craft"))}
			return append(lead, craftKind().parts(words.T("look-up.in-built-in"))...)
		}),
		fileTopic("radio-file", radioKind), fileTopic("gesture-file", gestureKind), fileTopic("script-file", scriptKind),
		fileTopic("drill-file", drillKind, courseKind), fileTopic("sound-file", soundKind),
	}
}

// slot is a slot in ms: any will do to read gestures.
const slot = 20

// fileTopic is the topic of kinds of file: an example of each, then its fields.
func fileTopic(name string, kinds ...func() *kind) Topic {
	return named(name, func() []Part {
		parts := []Part{{Says: words.Each("look-up", "file-words")}}
		for _, make := range kinds {
			k := make()
			parts = append(append(parts, example(k.specimens[0])), k.parts(words.T("look-up.such-as"))...)
		}
		return parts
	})
}

func example(text string) Part { return Part{Heading: words.T("look-up.example"), Example: text} }

// parts are the fields by the group at the top in which they stand; such heads the column of what stands there.
func (k *kind) parts(such words.Text) (out []Part) {
	columns := []words.Text{words.T("look-up.field"), such, words.T("look-up.can-be"), words.T("look-up.means")}
	at := map[string]int{}
	for _, f := range k.fields() {
		group, name := "", f.path[0]
		if len(f.path) > 1 {
			group, name = f.path[0], strings.Join(f.path[1:], ".")
		}
		i, there := at[group]
		if !there {
			i, at[group] = len(out), len(out)
			p := Part{Heading: words.T("look-up.in-group", words.Args{"group": words.Quote(group)}), Columns: columns}
			switch group {
			case "":
				p.Heading = words.Of("look-up", k.name+"-top")
			case condition:
				p.Heading, p.Says = words.T("look-up.conditions"), words.Each("look-up", "conditions-about")
			}
			out = append(out, p)
		}
		cell := Cell{}
		if f.first || k.name != "craft" {
			cell = code(f.such)
		}
		out[i].Rows = append(out[i].Rows, []Cell{code(name), cell, said(f.may), said(k.means(meaning(f.path)))})
	}
	return out
}

// alike are names in whose place another one means the same.
var alike = []string{"roll", "pitch", "yaw", "horizon", "rate", "front-left", "front-right", "rear-left", "rear-right", ownName}

// meaning is the name of the message that says what a field means: its path without what makes no difference to that.
func meaning(path []string) string {
	if kept := slices.DeleteFunc(slices.Clone(path), func(s string) bool { return slices.Contains(alike, s) }); len(kept) > 0 {
		path = kept
	}
	return strings.ToLower(strings.Join(path, "-"))
}

func craftKind() *kind {
	return &kind{name: "craft", means: func(code string) words.Text { return words.Of("field-craft", code) }, free: []string{"jobs"}, whole: []string{"stored"},
		specimens: []string{shipped(assets.Craft(assets.BuiltIn)), specimen("craft"), specimen("craft-2")},
		read:      func(text []byte) error { _, err := craftfile.Parse("", text); return err }}
}

func radioKind() *kind {
	return &kind{name: "radio", means: func(code string) words.Text { return words.Of("field-radio", code) }, free: []string{"controls"},
		specimens: []string{specimen("radio"), specimen("radio-2")},
		read:      func(text []byte) error { _, err := radio.Parse("", text, radio.Known{}); return err }}
}

func gestureKind() *kind {
	return &kind{name: "gestures", means: func(code string) words.Text { return words.Of("field-gestures", code) }, free: []string{"gestures", "menus"},
		elsewhere: []string{"opens", "with", "start"}, specimens: []string{specimen("gestures"), shipped(assets.Gestures("examples"))}, fold: foldGestures,
		read: func(text []byte) error { _, err := patternfile.Parse("", text, slot); return err }}
}

func soundKind() *kind {
	return &kind{name: "sounds", means: func(code string) words.Text { return words.Of("field-sounds", code) }, specimens: []string{string(new(sound.Settings).Marshal())},
		read: func(text []byte) error { _, err := sound.Parse("", text); return err },
		fold: func(path []string) []string { return path[:1] }}
}

func courseKind() *kind {
	return &kind{name: "course", means: func(code string) words.Text { return words.Of("field-course", code) }, specimens: []string{specimen("course"), shipped(assets.Course("beginner"))},
		read: func(text []byte) error { _, err := drillfile.ParseCourse("", text); return err }}
}

func scriptKind() *kind {
	f, err := craftfile.Parse("", []byte(shipped(assets.Craft(assets.BuiltIn))))
	if err != nil {
		panic(err) // it ships
	}
	names := f.Names()
	names.Refusals, names.Happenings, names.Gestures = codes.Refusals(), codes.Happenings(), []string{"craft-menu"}
	return &kind{name: "script", means: func(code string) words.Text { return words.Of("field-script", code) }, elsewhere: []string{"expect", "refused", "gesture"},
		specimens: []string{specimen("script"), specimen("script-2")},
		read:      func(text []byte) error { _, err := script.Parse("", text, names); return err }}
}

// drillKind has all shipped drills as specimens behind the example, so that whatever one of them says has its row.
func drillKind() *kind {
	known := drillfile.Known{}
	if f, err := patternfile.Parse("", []byte(shipped(assets.Gestures("examples"))), slot); err == nil {
		known.Gestures, known.Menus = &f.Gestures, &f.Menus
	}
	k := &kind{name: "drill", means: func(code string) words.Text { return words.Of("field-drill", code) }, whole: []string{"choices", "faults", "leaves"},
		elsewhere: []string{"refuses", "refuses-only", "refused", "cured", "item", "answer", "gesture"},
		read:      func(text []byte) error { _, err := drillfile.Parse("", text, known); return err },
		specimens: []string{specimen("drill"), specimen("drill-2"), specimen("drill-3")}, fold: foldDrill}
	for _, code := range assets.Drills() {
		k.specimens = append(k.specimens, shipped(assets.Drill(code)))
	}
	return k
}

// foldDrill tells of conditions once, wherever they stand, and so of what is set on the bench; a case has what a drill has.
func foldDrill(path []string) []string {
	if path[0] == "cases" {
		path = path[1:]
	}
	if i := slices.IndexFunc(path, func(s string) bool { return s == "until" || s == "all" || s == "never" }); i >= 0 && i < len(path)-1 {
		return append([]string{condition}, path[i+1:]...)
	}
	if i := slices.Index(path, "bench"); i > 0 {
		return path[i:]
	}
	if len(path) > 1 && path[0] == "with-cue" && path[1] != "after" {
		return append([]string{"bench"}, path[1:]...)
	}
	return path
}

// condition heads the fields of conditions.
const condition = "CONDITION"

// foldGestures tells of a part of a chain as of a gesture, and of the items of a page as of those of the menu.
func foldGestures(path []string) []string {
	out := path[:0:0]
	for _, name := range path {
		if name != "parts" && (name != "items" || !slices.Contains(out, name)) {
			out = append(out, name)
		}
	}
	return out
}
