//go:build !js

package main

import (
	"errors"
	"io"
	"io/fs"
	"path/filepath"

	"github.com/spf13/cobra"

	"propsoff.example/assets/door"
	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/scancode"
	"propsoff.example/cmd/propsoff/internal/serve"
	"propsoff.example/cmd/propsoff/internal/world"
)

// mostGiven is the longest file that is taken in, in bytes (ours).
const mostGiven = 512 << 20

// newKeep puts files where they belong, newPack packs all that is kept.
func newKeep(w *world.World) *cobra.Command {
	cmd := newCommand(w, "keep FILE…", words.T("command.keep"), words.T("command.keep-about"))
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 {
			return words.Wrong("refused.no-file-named", words.Args{"command": words.Quote(cmd.CommandPath())})
		}
		return nil
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		to, err := belongings.Known()
		if err != nil {
			return exit.Trouble(err)
		}
		var bad error
		machine := false
		for _, name := range args {
			said, err := keepFile(w, to, name)
			if !said.Empty() {
				if err := put(w, []byte(mouth.Printable(w.Say(said))+"\n")); err != nil {
					return err
				}
			}
			machine, bad = machine || ofMachine(err), errors.Join(bad, err)
		}
		if machine {
			return exit.Trouble(bad)
		}
		return exit.BadInput(bad)
	}
	return cmd
}

// ofMachine tells whether the machine is at fault, and not the file that was given.
func ofMachine(err error) bool {
	var shut *door.Error
	var place *fs.PathError // of a folder that could not be made
	return errors.As(err, &shut) && !shut.Asked() || shut == nil && errors.As(err, &place)
}

// oneFile refuses all but the name of one file.
func oneFile(cmd *cobra.Command, args []string) error {
	if len(args) != 1 {
		return words.Wrong("refused.one-file", words.Args{"command": words.Quote(cmd.CommandPath())})
	}
	return nil
}

// keepFile keeps one file, or the one that a link gives.
func keepFile(w *world.World, to belongings.Places, name string) (words.Text, error) {
	if linked, text, ok, err := belongings.OfLink(name); ok {
		if err != nil {
			return words.Text{}, err
		}
		return to.Keep(linked, text)
	}
	r, err := w.Door.Open(name, "door.file")
	if err != nil {
		return words.Text{}, err
	}
	defer r.Close()
	data, err := door.ReadAll(r, mostGiven)
	if err != nil {
		return words.Text{}, world.Unreadable(name, err)
	}
	return to.Keep(name, data)
}

func newPack(w *world.World) *cobra.Command {
	var over bool
	cmd := newCommand(w, "pack FILE", words.T("command.pack"), words.T("command.pack-about"))
	cmd.Args = oneFile
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		from, err := belongings.Known()
		if err != nil {
			return exit.Trouble(err)
		}
		files := from.Files()
		if len(files) == 0 {
			return exit.Trouble(words.Wrong("belongings.none-kept"))
		}
		err = w.Publish(args[0], door.Out{Over: over, Private: true}, func(to io.Writer) error { return belongings.Archive(to, files) })
		if err == nil && args[0] != door.Dash {
			err = put(w, []byte(mouth.Printable(w.Say(belongings.Packed(args[0], files)))+"\n"))
		}
		return err
	}
	cmd.Flags().BoolVar(&over, "over", false, w.Say(words.T("flag.over")))
	return cmd
}

// newGive gives a radio file or a craft file away as a link.
func newGive(w *world.World) *cobra.Command {
	var page string
	cmd := newCommand(w, "give FILE", words.T("command.give"), words.T("command.give-about"))
	cmd.Args = oneFile
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		text, err := w.ReadFile(args[0], "")
		if err != nil {
			return exit.BadInput(err)
		}
		link, err := belongings.Link(page, filepath.Base(args[0]), text)
		if err != nil {
			return exit.BadInput(words.Within(args[0], err))
		}
		if belongings.OnlyHere(link) { // a phone that reads it would ask itself
			err = put(w, []byte(link+"\n"))
			w.Tell(words.T("belongings.here-alone"))
			return err
		}
		code := scancode.Terminal(link)
		if code == "" {
			w.Tell(words.T("belongings.no-code"))
		}
		return put(w, []byte(link+"\n"+code))
	}
	cmd.Flags().StringVar(&page, "page", serve.Address(serve.Port), w.Say(words.T("flag.page-given")))
	return cmd
}
