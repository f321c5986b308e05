package termlive

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/spoken"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/drill/drillfile"
)

// TellsPlain tells whether plain sentences are told of drills.
func (o *DrillOptions) TellsPlain(w *world.World) bool { return !o.JSON && o.Plain.fits(w) }

// ByEar keeps of the drills those that can be done by ear, and names those that were left out. One that was asked for by its name is refused.
func (o *DrillOptions) ByEar(w *world.World, named bool) error {
	var kept []*drillfile.Drill
	for _, d := range o.Drills {
		switch {
		case !spoken.Eyes(d):
			kept = append(kept, d)
		case named:
			return exit.BadInput(words.Wrong("refused.eyes-drill", words.Args{"drill": words.Typed(d.Config.Code)}))
		}
	}
	if left := spoken.Leaves(o.Drills); !left.Empty() {
		w.Tell(left)
	}
	o.Drills = kept
	return nil
}

// byEar tells the drills of r in plain sentences.
func (r *drillRun) byEar() {
	r.plain = terminal.Form{Plain: true, Book: r.w.Language()}
	say := func(t words.Text, _ bool) { r.lines.Add(func(dst []byte) []byte { return r.plain.Sentence(dst, t) }) }
	r.ear = spoken.NewDrills(r.o.Coach, spoken.Drill{
		Say: say, GoOn: words.T("spoken.go-on", words.Args{"key": words.T("key-cap.enter")}), Hands: tell.DrillHands{Shipped: r.o.ShippedGestures},
	})
	if r.w.In != nil {
		say(words.T("spoken.typing", words.Args{"key": words.T("key-cap.enter"), "words": words.Listed(words.AsAre(TypedWords()[1:]...)...)}), false)
	}
}
