package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff/assets/door"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/screen"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/cmd/propsoff/internal/sound"
	"propsoff/input/radio"
)

// windowFlags are the flags of the window.
type windowFlags struct {
	play, theme, size, device string
	shots                     []string
	outside, over             bool
	open, pupil               string
}

func (f *windowFlags) add(cmd *cobra.Command) {
	s := cmd.Flags()
	s.StringVar(&f.play, "play", "", "let a pilot script or a take, `FILE` or \"demo\", drive the window")
	s.StringVar(&f.theme, "sheet", "light", "`SHEET` to draw on: light or dark")
	s.StringVar(&f.size, "size", "", "window of `WxH` pixels, such as 1280x800")
	s.StringVar(&f.device, "device", "", "radio to read, by `NAME`, by number as listed, or by path")
	s.StringArrayVar(&f.shots, "picture", nil, "write a picture of the window after a time, and leave after the last one: `TIME=FILE`, such as 2s=bench.png")
	s.BoolVar(&f.over, "over", false, "write pictures over files that are there already")
	s.Var(pupilName{&f.pupil}, "pupil", "`NAME` of who practises drills: the logbook is kept by it")
	s.StringVar(&f.open, "open", "", "open a `SHEET` over the bench at once: "+strings.Join(sheetNames(), ", "))
	_ = cmd.RegisterFlagCompletionFunc("open", cobra.FixedCompletions(sheetNames(), cobra.ShellCompDirectiveNoFileComp))
	s.BoolVar(&f.outside, "outside", false, "open the air bench without what a first flight asks for: for an instructor who shows it")
	_ = cmd.RegisterFlagCompletionFunc("sheet", cobra.FixedCompletions([]string{"light", "dark"}, cobra.ShellCompDirectiveNoFileComp))
}

// picture is a picture of the window to be written.
type picture struct {
	after time.Duration
	file  string
}

// windowOptions is what a window begins with.
type windowOptions struct {
	world *world
	craft *craft
	// radio is the file of --radio, nil where none was given.
	radio *radio.File
	// record is the path of the take to be written, empty for none.
	record string
	// plan drives the window in the place of hands; nil for none.
	plan   *plan
	device string
	dark   bool
	// outside opens the air bench at once.
	outside bool
	// pupil is who practises drills; empty for nobody yet.
	pupil string
	// open is the sheet to be opened at once.
	open     sheet.Action
	w, h     int
	pictures []picture
	// over: pictures may be written over files that are there.
	over bool
}

func (f *windowFlags) options(w *world, flags *shared) (o windowOptions, err error) {
	o = windowOptions{world: w, record: flags.record, device: f.device, pupil: f.pupil, dark: f.theme == "dark", outside: f.outside, over: f.over}
	if f.theme != "dark" && f.theme != "light" {
		return o, badInput(fmt.Errorf("--sheet %s: write light or dark", f.theme))
	}
	if f.open != "" {
		i := slices.Index(sheetNames(), f.open)
		if i < 0 {
			return o, badInput(fmt.Errorf("--open %s: write one of %s", f.open, strings.Join(sheetNames(), ", ")))
		}
		o.open = sheets[i].action
		o.outside = o.outside || o.open == sheet.OpenThree && f.play == "" // three crafts fly on the air bench only
	}
	if f.size != "" {
		if o.w, o.h, err = parseSize(f.size); err != nil {
			return o, badInput(err)
		}
	}
	for _, text := range f.shots {
		p, err := parsePicture(text)
		if err != nil {
			return o, badInput(err)
		}
		if err := w.try(door.Out{Over: f.over}, p.file, p.file+".json"); err != nil { // what was drawn is told beside the picture
			return o, err
		}
		o.pictures = append(o.pictures, p)
	}
	w.door.In = nil // the window may be another program, for which nothing would be left to read
	if f.play != "" {
		if o.plan, err = w.newPlan(flags, f.play); err != nil {
			return o, err
		}
		o.craft = o.plan.craft
		return o, nil
	}
	if o.craft, err = w.loadFlown(flags); err != nil {
		return o, err
	}
	o.radio, err = w.loadRadio(flags.radio, "", o.craft)
	return o, err
}

// sheets are those that --open knows.
var sheets = []struct {
	name   string
	action sheet.Action
}{
	{"check", sheet.OpenCheck}, {"layout", sheet.OpenLayout}, {"prove", sheet.OpenProve}, {"card", sheet.OpenCard},
	{"first-flight", sheet.OpenFirst}, {"three", sheet.OpenThree}, {"gestures", sheet.OpenGestures}, {"link-loss", sheet.OpenLoss},
	{"drills", sheet.OpenDrills}, {"desk", sheet.OpenDesk},
}

func sheetNames() []string {
	var out []string
	for _, s := range sheets {
		out = append(out, s.name)
	}
	return out
}

// mostPixels is the widest and the highest window that is asked for (ours).
const mostPixels = 16384

func parseSize(text string) (w, h int, err error) {
	wide, high, ok := strings.Cut(text, "x")
	w, wErr := strconv.Atoi(wide)
	h, hErr := strconv.Atoi(high)
	switch {
	case !ok || wErr != nil || hErr != nil:
		return 0, 0, fmt.Errorf("--size %s: write width and height in pixels, such as 1280x800", text)
	case w < ink.LeastWidth || h < ink.LeastHeight:
		return 0, 0, fmt.Errorf("--size %s: %dx%d is the least", text, ink.LeastWidth, ink.LeastHeight)
	case w > mostPixels || h > mostPixels:
		return 0, 0, fmt.Errorf("--size %s: %dx%d is the most", text, mostPixels, mostPixels)
	}
	return w, h, nil
}

// pictureFolder makes sure, before a window opens, that there is a folder for a picture to be written into, and that its name
// says what it will be.
func pictureFolder(file string) error {
	if st, err := os.Stat(file); err == nil && st.IsDir() {
		return fmt.Errorf("--picture: %s: this is a folder; give the name of a file in it", file)
	}
	if st, err := os.Stat(filepath.Dir(file)); err != nil || !st.IsDir() {
		return fmt.Errorf("--picture: %s: there is no such folder to write a picture into; make it first, or choose another", file)
	}
	if !strings.EqualFold(filepath.Ext(file), ".png") {
		return fmt.Errorf("--picture: %s: pictures are written as PNG; end the name with .png", file)
	}
	return nil
}

func parsePicture(text string) (picture, error) {
	for i := range text {
		if text[i] == '=' {
			d, err := time.ParseDuration(text[:i])
			if err == nil && d >= 0 && i+1 < len(text) {
				return picture{d, text[i+1:]}, pictureFolder(text[i+1:])
			}
			break
		}
	}
	return picture{}, errors.New("--picture " + text + ": write a time and a file, such as 2s=window.png")
}

// screen is what the screen begins with, sound and drills left out.
func (o *windowOptions) screen(l *loop.Loop, d *drive.Driver) screen.Options {
	so := screen.Options{Loop: l, Driver: d, CraftName: o.craft.Name, Craft: o.craft.File, CraftPath: o.craft.path, Names: o.craft.names, Radio: o.radio, Now: time.Now,
		Seed: uint64(time.Now().UnixNano()), Outside: o.outside, Open: o.open, Dark: o.dark, Bare: o.plan != nil || len(o.pictures) > 0}
	so.Gestures = screen.GestureOptions{Own: ownGestures()}
	if g := o.craft.gestures; g != nil {
		so.Gestures.Name, so.Gestures.Shipped, so.Gestures.Text = g.name, g.shipped, g.Text
	}
	if dir := o.world.store.Dir; dir != "" {
		so.ReadFile = filepath.Join(filepath.Dir(dir), "cautions-read")
		so.Sounds.File = filepath.Join(filepath.Dir(dir), sound.FileName)
	}
	return so
}

func runWindow(ctx context.Context, w *world, flags *shared, f *windowFlags) error {
	o, err := f.options(w, flags)
	if o.plan != nil {
		defer o.plan.Close()
	}
	if err != nil {
		return err
	}
	return openWindow(ctx, o)
}
