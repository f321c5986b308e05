package main

import (
	"errors"
	"time"

	"github.com/spf13/cobra"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// listFor is how long each radio is read for the list, so that what moves just now is seen.
const listFor = 150 * time.Millisecond

func newRadios(w *world.World) *cobra.Command {
	var asJSON bool
	cmd := newCommand(w, "radios", words.T("command.radios"), words.T("command.radios-about"))
	cmd.Args = commandsOnly
	cmd.RunE = func(*cobra.Command, []string) error { return listRadios(w, asJSON) }
	jsonFlag(w, cmd, &asJSON)
	cmd.AddCommand(newRadiosTake(w))
	return cmd
}

// newRadiosTake takes a radio file that another pilot gives into the folder in which radios look for theirs.
func newRadiosTake(w *world.World) *cobra.Command {
	var over bool
	cmd := newCommand(w, "take FILE", words.T("command.radios-take"), words.T("command.radios-take-about"))
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return words.Wrong("refused.one-radio-file", words.Args{"command": words.Quote(cmd.CommandPath())})
		}
		return nil
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		text, err := w.ReadFile(args[0], "radio.file")
		if err != nil {
			return exit.BadInput(err)
		}
		file, err := radio.Parse(args[0], text, radio.Known{})
		if err != nil {
			return exit.BadInput(err)
		}
		path, kept, err := w.Store.Take(file, over)
		if errors.Is(err, radio.ErrOfNobody) {
			err = words.Within(args[0], err)
		}
		if err != nil {
			return exit.BadInput(err)
		}
		return put(w, []byte(mouth.Printable(w.Say(tell.RadioTaken(&file, path, kept)))+"\n"))
	}
	cmd.Flags().BoolVar(&over, "over", false, w.Say(words.T("flag.over-radio")))
	return cmd
}

func listRadios(w *world.World, asJSON bool) error {
	found, notices, err := w.Radios.List()
	if err != nil {
		return exit.Trouble(err)
	}
	opened := make([]input.Device, len(found))
	failed := make([]error, len(found))
	for i, f := range found {
		if f.Way != "" {
			opened[i], failed[i] = w.Radios.Open(f.Path, w.Now())
		}
	}
	if len(found) > 0 {
		w.Tell(tell.Cautions()[0])
		time.Sleep(listFor)
	}
	var out []byte
	form := terminal.Form{JSON: asJSON, Book: w.Language()}
	for i, f := range found {
		r := listed(i+1, f, opened[i], failed[i])
		out = form.Radio(out, &r)
	}
	if none := words.T("notice.no-radio-now"); len(found) == 0 && asJSON {
		out = form.Notice(out, 0, none)
	} else if len(found) == 0 {
		w.Tell(none)
	}
	if err := put(w, out); err != nil {
		return err
	}
	for _, n := range notices {
		w.Tell(termlive.OtherMode(n))
	}
	return nil
}

// listed makes the line of one radio and closes it.
func listed(number int, f usb.Found, d input.Device, failed error) terminal.Radio {
	info := whichradio.InfoOf(f)
	info.Buttons = f.Buttons
	var raw *input.Raw
	if d != nil {
		info = d.Info()
		if states, _ := d.Poll(nil); len(states) > 0 {
			raw = &states[len(states)-1]
		}
		_ = d.Close()
	}
	r := terminal.NewRadio(number, &info, raw)
	switch {
	case failed != nil:
		r.Trouble = words.Error(failed)
	case f.Way == "" && f.Trouble != nil:
		r.Trouble = tell.NotOpened(f.Name)
	case info.Blunted:
		r.Trouble = tell.BluntedCentre(f.Name)
	}
	return r
}
