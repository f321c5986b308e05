package main

import (
	"context"
	"path/filepath"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/prove"
)

// provedLike compares the layout of a card with the old one that --like and --like-radio name, A the old one and B the card's. Where they are not
// proved alike, it tells what was found, and the error has the status of that.
func provedLike(ctx context.Context, w *world.World, cf *cardFlags, now *world.Craft, held cardRadio) (*tell.Like, error) {
	was, file, info := now, held.file, held.info
	var err error
	if cf.like.Craft != "" {
		old := world.Named{Craft: cf.like.Craft, Gestures: cf.Gestures}
		if was, _, err = w.LoadFlown(&old); err != nil {
			return nil, err
		}
	}
	if cf.like.Radio != "" && cf.like.Radio != cf.Radio {
		if file, err = w.LoadRadio(cf.like.Radio, "", was); err != nil {
			return nil, err
		}
		info = nil
	}
	l := facts.LayoutsOf([2]*craftfile.File{was.File, now.File}, [2]*radio.File{file, held.file}, [2]*input.Info{info, held.info})
	c, err := comparison(ctx, w, l)
	if err != nil {
		return nil, err
	}
	if c.Likeness() == prove.Alike {
		like := &tell.Like{}
		if cf.like.Craft != "" {
			like.Craft = filepath.Base(cf.like.Craft)
		}
		if cf.like.Radio != "" && cf.like.Radio != cf.Radio {
			like.Radio = filepath.Base(cf.like.Radio)
		}
		return like, nil
	}
	radios := [2]string{cf.Radio, cf.Radio}
	if cf.like.Radio != "" {
		radios[0] = cf.like.Radio
	}
	said := comparedOf(w, &l, c, [2]*world.Craft{was, now}, [2]*radio.File{file, held.file}, [2]string{was.Path, now.Path}, radios)
	to := w.Out
	if door.IsStdout(cf.out) {
		to = w.Err
	}
	if _, err := to.Write(said.AppendText(nil)); err != nil {
		return nil, exit.Trouble(err)
	}
	w.Tell(words.T("card.not-alike"))
	return nil, exit.Of(c.Verdict())
}
