package main

import (
	"cmp"
	"context"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/provescript"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/prove"
)

// layoutsNamed says which layout the arguments of prove name, or which two, by what the files are. A second craft without a radio of its own is held
// by the radio of the first, and a second radio holds the first craft.
func layoutsNamed(w *world.World, args []string) ([]world.Named, error) {
	kinds := "c" // the first is a craft, whatever it turns out to be
	for i, arg := range args {
		switch {
		case i == 0:
			if len(args) > 1 {
				w.KindOf(arg, "craft-file.craft") // standard input is the first craft's before anything else asks for it
			}
		case w.KindOf(arg, "radio.file") == "craft":
			kinds += "c"
		default:
			kinds += "r"
		}
	}
	switch kinds {
	case "c":
		return []world.Named{{Craft: args[0]}}, nil
	case "cr":
		return []world.Named{{Craft: args[0], Radio: args[1]}}, nil
	case "cc":
		return []world.Named{{Craft: args[0]}, {Craft: args[1]}}, nil
	case "ccr":
		return []world.Named{{Craft: args[0], Radio: args[2]}, {Craft: args[1], Radio: args[2]}}, nil
	case "crr":
		return []world.Named{{Craft: args[0], Radio: args[1]}, {Craft: args[0], Radio: args[2]}}, nil
	case "crcr":
		return []world.Named{{Craft: args[0], Radio: args[1]}, {Craft: args[2], Radio: args[3]}}, nil
	}
	return nil, words.Wrong("refused.many-crafts")
}

// compareLayouts holds the layout that pf names against another.
func compareLayouts(ctx context.Context, w *world.World, pf *proveFlags, other world.Named) error {
	other.Gestures = pf.Gestures
	var crafts [2]*world.Craft
	var files [2]*radio.File
	for i, named := range [2]*world.Named{&pf.Named, &other} {
		if i == 1 && other.Craft == pf.Craft { // one craft, and standard input gives it once
			crafts[i] = crafts[0]
			var err error
			if files[i], err = w.LoadRadio(other.Radio, "", crafts[i]); err != nil {
				return err
			}
			continue
		}
		var err error
		if crafts[i], files[i], err = w.LoadFlown(named); err != nil {
			return err
		}
	}
	for _, c := range crafts {
		if pf.write != "" {
			if err := provescript.MakeFolder(pf.write, c); err != nil {
				return err
			}
		}
	}
	if other.Radio == pf.Radio { // one radio is what it is, whichever craft reads its file
		files[1] = files[0]
	}
	l := facts.LayoutsOf([2]*craftfile.File{crafts[0].File, crafts[1].File}, files, [2]*input.Info{})
	c, err := comparison(ctx, w, l)
	if err != nil {
		return err
	}
	said := comparedOf(w, &l, c, crafts, files, [2]string{pf.Craft, other.Craft}, [2]string{pf.Radio, other.Radio})
	said.Writes = pf.write != ""
	var unwritten error
	if pf.write != "" {
		if said.Written, unwritten = provescript.WriteCompared(w, pf.write, crafts, said.Of, &l, c); unwritten == nil {
			said.Cleared, unwritten = provescript.ClearCompared(pf.write, c)
		}
	}
	if err := pf.put(w, said.AppendText, said.AppendJSON); err != nil {
		return err
	}
	return cmp.Or(unwritten, exit.Of(c.Verdict()))
}

// comparedOf is a comparison as it is printed: of which crafts and radios, read from which files, it is.
func comparedOf(w *world.World, l *[2]prove.Layout, c *prove.Comparison, crafts [2]*world.Craft, files [2]*radio.File, craftFiles, radioFiles [2]string) terminal.Compared {
	said := terminal.Compared{Book: w.Language(), Layouts: *l, Comparison: c, CraftFiles: craftFiles, RadioFiles: radioFiles}
	for i := range l {
		if said.Crafts[i] = crafts[i].Name; files[i] != nil {
			said.Radios[i] = l[i].Radio.Name
		}
		said.Of[i] = tell.Searched(crafts[i].Name, &l[i].Radio, facts.ByFile(files[i]))
	}
	said.Of = tell.OfFiles(said.Of, craftFiles, radioFiles)
	return said
}

// comparison compares two layouts until it is done or the context ends, and tells how far it is.
func comparison(ctx context.Context, w *world.World, l [2]prove.Layout) (*prove.Comparison, error) {
	progress, end := telling(ctx, w)
	c, err := facts.Compare(l, progress)
	end()
	if err != nil {
		return nil, exit.BadInput(err)
	}
	return &c, nil
}
