package main

import (
	"cmp"
	"context"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/pupils"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/wayplay"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/examine"
)

// mostQuestions bounds one round of the examiner, and usualQuestions is how many it asks where nobody says (ours).
const mostQuestions, usualQuestions = 500, 10

type foreseeFlags struct {
	world.Named
	json   bool
	pupil  string
	number int
	seed   uint64
}

// newDrillForesee is `propsoff drill foresee`.
func newDrillForesee(w *world.World) *cobra.Command {
	var ff foreseeFlags
	cmd := newCommand(w, "foresee", words.T("command.drill-foresee"), words.T("command.drill-foresee-about", words.Args{"caution": tell.Cautions()[0]}))
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if ff.number < 1 || ff.number > mostQuestions {
			return exit.BadInput(words.Wrong("foresee.number", words.Args{"most": words.Whole(mostQuestions)}))
		}
		return foresee(cmd.Context(), w, &ff)
	}
	f := cmd.Flags()
	radioFlag(w, cmd, &ff.Radio)
	craftFlag(cmd, &ff.Craft, flownCraft(w))
	f.StringVar(&ff.Gestures, "gestures", "", w.Say(words.T("flag.gestures")))
	pupilFlag(f, &ff.pupil, w.Say(words.T("flag.pupil-drills")))
	jsonFlag(w, cmd, &ff.json)
	f.IntVar(&ff.number, "questions", usualQuestions, w.Say(words.T("flag.questions")))
	f.Uint64Var(&ff.seed, "seed", 0, w.Say(words.T("flag.seed-foresee")))
	return cmd
}

// foresee asks the questions of the examiner, as lines are typed.
func foresee(ctx context.Context, w *world.World, ff *foreseeFlags) (err error) {
	w.Door.In = nil // answers come from there
	c, file, err := w.LoadFlown(&ff.Named)
	if err != nil {
		return err
	}
	course, end, err := pupils.Course(c, drillrun.New(), ff.pupil)
	if err != nil {
		return err
	}
	defer func() {
		if ending := end(); err == nil {
			err = exit.Trouble(ending)
		}
	}()
	l := facts.LayoutOf(c.File, file, nil)
	examiner, err := facts.Examiner(&l, c.File, cmp.Or(ff.seed, course.Seed), nil)
	if err != nil {
		return exit.BadInput(err)
	}
	r := round{w: w, examiner: examiner, says: terminal.Foresee{Book: w.Language(), JSON: ff.json, Layout: &l, Of: ff.number}, keep: func(examine.Asked) error { return nil }}
	if k := course.Pupils; k != nil {
		held := screen.Held{Radio: l.Radio.Name, Craft: c.File}
		if file != nil {
			held.StickMode = l.Radio.StickMode
		}
		if c.Gestures != nil {
			held.Gestures = c.Gestures.Name
		}
		r.asked, r.keep = slices.Clone(k.Asked()), func(a examine.Asked) error { return k.KeepAsked(a, held) }
	}
	w.Tell(tell.Cautions()[0])
	if err := put(w, r.says.AppendAbout(nil, words.Row(tell.Searched(c.Name, &l.Radio, facts.ByFile(file)), tell.ForeseeNeverArms(&l)))); err != nil {
		return err
	}
	return r.run(ctx)
}

// round is some questions, one after the other.
type round struct {
	w        *world.World
	examiner *examine.Examiner
	says     terminal.Foresee
	// asked are all questions so far, those of earlier days included; of them now are of this round.
	asked []examine.Asked
	now   int
	keep  func(examine.Asked) error
}

func (r *round) run(ctx context.Context) error {
	next := func() (string, error) { return "", io.EOF }
	if r.w.In != nil {
		next = console.Lines(r.w.In)
	}
	for n := range r.says.Of {
		q, ok := r.examiner.Next(r.asked, nil)
		if !ok {
			r.w.Tell(tell.ForeseeNone(len(r.asked)))
			break
		}
		if err := put(r.w, r.says.AppendQuestion(nil, n+1, &q)); err != nil {
			return err
		}
		answer, left := r.answer(ctx, next)
		if left {
			break
		}
		a := examine.Asked{ID: q.ID, Ask: q.Ask, About: q.About, Verdict: q.Judge(tell.ForeseeAnswer(answer))}
		r.asked, r.now = append(r.asked, a), r.now+1
		plays := wayplay.Both(r.says.Layout.Config, &q)
		for _, p := range plays {
			p.To(p.Ends())
		}
		if err := put(r.w, r.says.AppendEnds(nil, &q, answer, &plays)); err != nil {
			return err
		}
		if err := r.keep(a); err != nil {
			r.w.Tell(words.Error(err))
		}
	}
	these := r.asked[len(r.asked)-r.now:]
	if err := put(r.w, r.says.AppendScore(nil, these)); err != nil {
		return err
	}
	switch {
	case ctx.Err() != nil:
		return exit.Trouble(exit.ErrStopped)
	case examine.Right(these) < len(these):
		return exit.With(exit.CodeFailed)
	}
	return nil
}

// answer is what is typed, counted from 0; left where nobody answers any more.
func (r *round) answer(ctx context.Context, next func() (string, error)) (n int, left bool) {
	type typed struct {
		line string
		err  error
	}
	for {
		came := make(chan typed, 1)
		go func() {
			line, err := next()
			came <- typed{line, err}
		}()
		var t typed
		select {
		case <-ctx.Done():
			return 0, true
		case t = <-came:
		}
		if t.err != nil && !errors.Is(t.err, console.ErrLongLine) {
			return 0, true
		}
		word := strings.ToLower(strings.TrimSpace(t.line))
		if word == "quit" {
			return 0, true
		}
		if n, err := strconv.Atoi(word); err == nil && n >= 1 && n <= len(tell.ForeseeAnswers()) {
			return n - 1, false
		}
		r.w.Tell(words.T("foresee.typed"))
	}
}
