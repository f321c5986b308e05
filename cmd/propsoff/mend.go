package main

import (
	"bytes"
	"cmp"
	"context"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/radio"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
)

// mendable says what is asked of mending that cannot be done.
func mendable(pf *proveFlags, taking bool) error {
	_, _, shipped := assets.Craft(pf.Craft)
	switch {
	case taking && !pf.mend:
		return words.Wrong("mend.take-alone")
	case pf.mend && pf.write != "":
		return words.Wrong("mend.with-write")
	case pf.mend && pf.elsewhere:
		return words.Wrong("elsewhere.with-mend")
	case taking && pf.take < 1:
		return words.Wrong("mend.take-number")
	case taking && shipped:
		return words.Wrong("mend.take-shipped")
	case taking && pf.Craft == "-":
		return words.Wrong("mend.take-stream")
	}
	return nil
}

// mendLayout finds what mends a layout, prints it, and takes one of the mends over into the craft file where that is asked for.
func mendLayout(ctx context.Context, w *world.World, pf *proveFlags, c *world.Craft, file *radio.File, proof terminal.Proof) error {
	line := newProgress(w)
	found, err := facts.Mend(*proof.Layout, c.More(), mend.Options{Progress: func(p mend.Progress) bool {
		line.tell(func(int64) words.Text { return tell.MendProgress(p) })
		return ctx.Err() != nil
	}})
	line.end()
	if err != nil {
		return exit.BadInput(err)
	}
	proof.Report = &found.Before
	_, _, shipped := assets.Craft(pf.Craft)
	mends := terminal.Mends{Proof: proof, Found: &found, Jobs: c.More(), Hint: pf.take == 0 && pf.Craft != "-" && !shipped}
	if err := pf.put(w, mends.AppendText, mends.AppendJSON); err != nil {
		return err
	}
	switch n := len(found.Mends); {
	case pf.take == 0, found.Verdict() == mend.NothingToMend:
		return exit.Of(found.Before.Verdict())
	case pf.take > n:
		return exit.BadInput(words.Wrong("mend.no-such", words.Args{"n": words.Count(n), "number": words.Whole(pf.take)}))
	}
	return takeMend(ctx, w, pf, c, file, proof.Layout, &found.Mends[pf.take-1])
}

// takeMend writes what a craft file can say of a mend into it. The status is that of the layout as it then is: what is to be set in the radio is not set yet.
func takeMend(ctx context.Context, w *world.World, pf *proveFlags, c *world.Craft, file *radio.File, l *prove.Layout, m *mend.Mend) error {
	f, err := mend.Take(c.File, l, m.Changes)
	if err != nil {
		return exit.BadInput(err)
	}
	taken := terminal.Taken{Book: w.Language(), Number: pf.take, Path: pf.Craft, Changed: !bytes.Equal(f.Text, c.Text)}
	if taken.Changed {
		if err := f.Save(pf.Craft, c.Text); err != nil {
			return exit.Shut(err)
		}
	}
	if taken.Report, err = search(ctx, w, facts.LayoutOf(f, file, nil)); err != nil {
		return err
	}
	return cmp.Or(pf.put(w, taken.AppendText, taken.AppendJSON), exit.Of(taken.Report.Verdict()))
}
