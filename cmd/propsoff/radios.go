package main

import (
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/input/usb"
)

// listFor is how long each radio is read for the list, so that what moves just now is seen.
const listFor = 150 * time.Millisecond

func newRadios(w *world) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "radios",
		Short: "List the radios that are plugged in, with their axes, buttons and values",
		Long: "List the radios that are plugged in by USB, numbered as --device takes them, with axes, buttons and their present\n" +
			"values in the device's own numbers. USB devices that may be a radio in another USB mode are named too.",
		Args: noArguments,
		RunE: func(*cobra.Command, []string) error { return listRadios(w, asJSON) },
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object a line")
	return cmd
}

func listRadios(w *world, asJSON bool) error {
	found, notices, err := w.radios.List()
	if err != nil {
		return trouble(err)
	}
	opened := make([]input.Device, len(found))
	failed := make([]error, len(found))
	for i, f := range found {
		if f.Way != "" {
			opened[i], failed[i] = w.radios.Open(f.Path, w.now())
		}
	}
	if len(found) > 0 {
		w.say(phrase.Cautions()[0])
		time.Sleep(listFor)
	}
	var out []byte
	for i, f := range found {
		r := listed(i+1, f, opened[i], failed[i])
		if asJSON {
			out = r.AppendJSON(out)
		} else {
			out = r.AppendText(out)
		}
	}
	if _, err := w.out.Write(out); err != nil {
		return trouble(err)
	}
	switch {
	case len(found) > 0:
	case asJSON:
		if _, err := w.out.Write(terminal.AppendNotice(nil, 0, phrase.NoRadio())); err != nil {
			return trouble(err)
		}
	default:
		w.say(phrase.NoRadio())
	}
	for _, n := range notices {
		w.say(otherMode(n))
	}
	return nil
}

// listed makes the line of one radio and closes it.
func listed(number int, f usb.Found, d input.Device, failed error) terminal.Radio {
	info := input.Info{Path: f.Path, Name: f.Name, Vendor: f.Vendor, Product: f.Product, Serial: f.Serial, Port: f.Port, Way: f.Way, Buttons: f.Buttons}
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
		r.Trouble = failed.Error()
	case f.Way == "" && f.Trouble != nil:
		r.Trouble = phrase.NotOpened(f.Name)
	case info.Blunted:
		r.Trouble = phrase.BluntedCentre(f.Name)
	}
	return r
}

// otherMode is the notice about a USB device that may be a radio in another USB mode.
func otherMode(n usb.Notice) string {
	name := n.Name
	if name == "" {
		name = n.Maker
	}
	if name == "" {
		name = "A USB device at port " + strconv.Quote(n.Port)
	}
	offers := "storage"
	if n.SerialPort {
		offers = "a serial port"
	}
	return phrase.OtherUSBMode(name, offers)
}
