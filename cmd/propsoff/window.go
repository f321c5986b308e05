package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/sound"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/radio"
	"propsoff.example/sim"
	"propsoff.example/sim/pulse"
)

// windowFlags are the flags of the window.
type windowFlags struct {
	play, theme, size, device string
	shots                     []string
	outside, over             bool
	open, pupil               string
	// asked tells whether a flag was given.
	asked func(flag string) bool
}

func (f *windowFlags) add(w *world.World, cmd *cobra.Command) {
	s := cmd.Flags()
	f.asked = s.Changed
	s.StringVar(&f.play, "play", "", w.Say(words.T("flag.play")))
	s.StringVar(&f.theme, "sheet", "", w.Say(words.T("flag.sheet")))
	s.StringVar(&f.size, "size", "", w.Say(words.T("flag.size")))
	s.StringVar(&f.device, "device", "", w.Say(words.T("flag.device-window")))
	s.StringArrayVar(&f.shots, "picture", nil, w.Say(words.T("flag.picture")))
	s.BoolVar(&f.over, "over", false, w.Say(words.T("flag.over-pictures")))
	pupilFlag(s, &f.pupil, w.Say(words.T("flag.pupil-window")))
	s.StringVar(&f.open, "open", "", w.Say(words.T("flag.open", words.Args{"sheets": withCommas(house.Openable())})))
	_ = cmd.RegisterFlagCompletionFunc("open", func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return house.Openable(), cobra.ShellCompDirectiveNoFileComp
	})
	s.BoolVar(&f.outside, "outside", false, w.Say(words.T("flag.outside")))
	_ = cmd.RegisterFlagCompletionFunc("sheet", cobra.FixedCompletions(sheetNames(), cobra.ShellCompDirectiveNoFileComp))
}

// sheetNames are the names of the themes of a sheet.
func sheetNames() (names []string) {
	for _, t := range ink.Themes() {
		names = append(names, t.Name)
	}
	return names
}

// picture is a picture of the window to be written. Package window has a type for it and is no part of a build without the window.
type picture struct {
	after time.Duration
	file  string
}

// windowOptions is what a window begins with: what its flags say, and what was read for them.
type windowOptions struct {
	*windowFlags
	*world.Named
	world *world.World
	craft *world.Craft
	// radio is the file of --radio, nil where none was given.
	radio *radio.File
	// plan drives the window in the place of hands; nil for none.
	plan *playback.Plan
	// sheet is opened at once. With carried the craft stands outside from the first tick on.
	sheet    ui.Action
	carried  bool
	w, h     int
	pictures []picture
	// remembered is what is remembered of earlier starts; flags win for the one start, and what is played or pictured remembers nothing.
	remembered *remembered.File
	proofs     *remembered.Proofs
	book       *words.Book
}

func (f *windowFlags) options(w *world.World, flags *world.Named) (o windowOptions, err error) {
	o = windowOptions{windowFlags: f, Named: flags, world: w}
	if f.theme != "" && ink.ThemeNamed(f.theme) == nil {
		return o, exit.BadInput(words.Wrong("refused.sheet", words.Args{"value": words.Quote(f.theme)}))
	}
	if f.open != "" {
		if names := house.Openable(); !slices.Contains(names, f.open) {
			return o, exit.BadInput(words.Wrong("refused.one-of", words.Args{"flag": words.Quote("open"), "value": words.Quote(f.open), "words": withCommas(names)}))
		}
		o.sheet = ui.Place(f.open).Open()
	}
	if f.size != "" {
		if o.w, o.h, err = parseSize(f.size); err != nil {
			return o, exit.BadInput(err)
		}
	}
	for _, text := range f.shots {
		p, err := parsePicture(text)
		if err != nil {
			return o, exit.BadInput(err)
		}
		if err := w.Try(door.Out{Over: f.over}, p.file, p.file+".json"); err != nil { // what was drawn is told beside the picture
			return o, err
		}
		o.pictures = append(o.pictures, p)
	}
	w.Door.In = nil // the window may be another program, for which nothing would be left to read
	if f.play != "" {
		if o.plan, err = playback.New(w, flags, f.play); err != nil {
			return o, err
		}
		o.craft = o.plan.Craft
	} else if o.craft, o.radio, err = w.LoadFlown(flags); err != nil {
		return o, err
	}
	o.remember()
	err = o.stand()
	return o, err
}

// bare tells whether the window is for a script or for pictures, and not for a person.
func (o *windowOptions) bare() bool { return o.plan != nil || len(o.pictures) > 0 }

// remember takes from what is remembered whatever no flag says.
func (o *windowOptions) remember() {
	o.remembered, o.proofs, o.book = new(remembered.File), new(remembered.Proofs), o.world.Language()
	dir := o.world.Store.Dir
	if o.bare() || dir == "" {
		return
	}
	o.remembered = remembered.Open(filepath.Join(filepath.Dir(dir), remembered.FileName))
	o.proofs = remembered.OpenProofs(filepath.Join(filepath.Dir(dir), remembered.ProofsName))
	is := o.remembered.Settings
	if is.Sheet != "" && !o.asked("sheet") {
		o.theme = is.Sheet
	}
	if b, ok := words.Speaks(is.Language); ok && !o.asked("language") {
		o.book = b
	}
}

// stand says where the craft stands at first. Three crafts fly on the air bench only; what is played keeps to the bench that it names.
func (o *windowOptions) stand() error {
	three, says, air := o.sheet == ui.OnThree.Open(), false, false
	if !three && !o.outside {
		return nil // what is played need not be read through for it
	}
	if o.plan != nil {
		says, air = o.plan.Stands()
	}
	if three && says && !air {
		return exit.BadInput(words.Wrong("refused.three-played", words.Args{"name": words.Quote(o.play)}))
	}
	o.carried = !says
	o.outside = o.outside || o.carried
	return nil
}

// begins are the readings that the bench begins with, as a person would begin it: radio on first, then the craft; where it is carried outside,
// its propellers right. What is played turns both on by itself.
func (o *windowOptions) begins(cfg *sim.Config) (readings []pulse.Reading) {
	if o.plan == nil {
		readings = append(readings, pulse.Reading{Kind: pulse.Link, Value: 1}, pulse.Reading{Kind: pulse.Power, Value: 1})
	}
	if o.carried {
		readings = append(readings, lossrun.Carried(cfg)...)
	}
	return readings
}

// mostPixels is the widest and the highest window that is asked for (ours).
const mostPixels = 16384

func parseSize(text string) (w, h int, err error) {
	wide, high, ok := strings.Cut(text, "x")
	w, wErr := strconv.Atoi(wide)
	h, hErr := strconv.Atoi(high)
	switch {
	case !ok || wErr != nil || hErr != nil:
		return 0, 0, words.Wrong("refused.size", words.Args{"value": words.Quote(text)})
	case w < ink.LeastWidth || h < ink.LeastHeight:
		return 0, 0, words.Wrong("refused.size-least", words.Args{"value": words.Quote(text), "wide": words.Whole(ink.LeastWidth), "high": words.Whole(ink.LeastHeight)})
	case w > mostPixels || h > mostPixels:
		return 0, 0, words.Wrong("refused.size-most", words.Args{"value": words.Quote(text), "most": words.Whole(mostPixels)})
	}
	return w, h, nil
}

// pictureFolder makes sure, before a window opens, that there is a folder for a picture to be written into, and that its name
// says what it will be.
func pictureFolder(file string) error {
	if st, err := os.Stat(file); err == nil && st.IsDir() {
		return words.Wrong("refused.picture-folder", words.Args{"path": words.Quote(file)})
	}
	if st, err := os.Stat(filepath.Dir(file)); err != nil || !st.IsDir() {
		return words.Wrong("refused.picture-no-folder", words.Args{"path": words.Quote(file)})
	}
	if !strings.EqualFold(filepath.Ext(file), ".png") {
		return words.Wrong("refused.picture-ending", words.Args{"path": words.Quote(file)})
	}
	return nil
}

func parsePicture(text string) (picture, error) {
	after, file, _ := strings.Cut(text, "=")
	d, err := time.ParseDuration(after)
	if err != nil || d < 0 || file == "" {
		return picture{}, words.Wrong("refused.picture", words.Args{"value": words.Quote(text)})
	}
	return picture{d, file}, pictureFolder(file)
}

// screen is what the screen begins with, sound and drills left out.
func (o *windowOptions) screen(l *live.Loop, d *whodrives.Driver) screen.Options {
	so := screen.Options{
		Loop: l, Driver: d, CraftName: o.craft.Name, Craft: o.craft.File, CraftPath: o.craft.Path, Names: o.craft.Words, Radio: o.radio, Now: time.Now,
		Seed: uint64(time.Now().UnixNano()), Outside: o.outside, Open: o.sheet, Theme: ink.ThemeNamed(o.theme), Book: o.book,
		Bare: o.bare(), Remembered: o.remembered, Proofs: o.proofs, OtherCrafts: func(path string) []screen.CraftFile { return craftsBeside(o.world, path) },
	}
	if p, err := belongings.Known(); err == nil && len(o.pictures) == 0 { // a picture is the same on every machine
		so.Kept = &p
	}
	so.Start = !so.Bare && o.open == "" && !o.outside // whoever asks for something is not asked what he wants
	so.Gestures = screen.GestureOptions{Own: world.OwnGestures()}
	if g := o.craft.Gestures; g != nil {
		so.Gestures.Name, so.Gestures.Shipped, so.Gestures.Text = g.Name, g.Shipped, g.Text
	}
	if dir := o.world.Store.Dir; dir != "" {
		so.ReadFile = filepath.Join(filepath.Dir(dir), "cautions-read")
		so.Sounds.File = filepath.Join(filepath.Dir(dir), sound.FileName)
	}
	return so
}

func runWindow(ctx context.Context, w *world.World, flags *world.Named, f *windowFlags) error {
	o, err := f.options(w, flags)
	return beginWindow(ctx, o, err)
}

// beginWindow opens the window, where nothing was wrong with its options.
func beginWindow(ctx context.Context, o windowOptions, err error) error {
	if o.plan != nil {
		defer o.plan.Close()
	}
	if err != nil {
		return err
	}
	return openWindow(ctx, o)
}
