package main

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/happening"
)

type lossFlags struct {
	craft, stored string
	height        float64
	off           time.Duration
	json          bool
}

// storedWords are the words of --stored, by lossrun.Stored.
var storedWords = []string{lossrun.OfFile: "file", lossrun.Disarming: "disarming", lossrun.ArmedLow: "armed-low", lossrun.ArmedThrottle: "armed-throttle"}

func newLinkLoss(w *world) *cobra.Command {
	var f lossFlags
	cmd := &cobra.Command{
		Use:   "link-loss",
		Short: "Show what a lost link does with each of the three receivers, as a table",
		Long: "Let a pilot hover on the air bench, switch the radio off and on again, and print what one and the same craft does with a\n" +
			"receiver that falls silent, one that repeats the last values, and one that sends stored values: when it notices, when its\n" +
			"motors stop, how fast it reaches the ground, and what it takes to arm it again. It is what the window shows with\n" +
			"--open link-loss, without the window.\n\n" +
			"Exit status: 0 shown; 2 bad input, or a craft that does not come to hover.",
		Args: noArguments,
		RunE: func(*cobra.Command, []string) error { return linkLoss(w, f) },
	}
	s := cmd.Flags()
	s.StringVar(&f.craft, "craft", "", "craft `FILE`, or a shipped craft: "+strings.Join(crafts(), ", "))
	s.StringVar(&f.stored, "stored", "", "what the third receiver has stored, `VALUES`: "+strings.Join(storedWords, ", "))
	s.Float64Var(&f.height, "height", 10, "height in `METRES` at which the radio goes off")
	s.DurationVar(&f.off, "off", 10*time.Second, "how long the radio is off, such as 10s")
	s.BoolVar(&f.json, "json", false, "print one JSON object a line")
	_ = cmd.RegisterFlagCompletionFunc("craft", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return crafts(), cobra.ShellCompDirectiveDefault
	})
	_ = cmd.RegisterFlagCompletionFunc("stored", cobra.FixedCompletions(storedWords, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func linkLoss(w *world, f lossFlags) error {
	c, err := w.loadCraft(f.craft, "")
	if err != nil {
		return err
	}
	o := lossrun.Options{Craft: c.Config(), Height: f.height, OffFor: f.off.Milliseconds()}
	o.Stored = lossrun.FirstStored(&o.Craft)
	if f.stored != "" {
		i := slices.Index(storedWords, f.stored)
		switch {
		case i < 0:
			return badInput(fmt.Errorf("--stored %s: write one of %s", f.stored, strings.Join(storedWords, ", ")))
		case lossrun.Stored(i) == lossrun.OfFile && !lossrun.Own(&o.Craft):
			return badInput(fmt.Errorf("--stored file: the receiver of %s sends no stored values; write one of %s", c.Name, strings.Join(storedWords[1:], ", ")))
		}
		o.Stored = lossrun.Stored(i)
	}
	if !(f.height >= lossrun.HeightLeast && f.height <= lossrun.HeightMost) {
		return badInput(fmt.Errorf("--height %v: write %d to %d metres", f.height, lossrun.HeightLeast, lossrun.HeightMost))
	}
	if o.OffFor < lossrun.OffLeast || o.OffFor > lossrun.OffMost {
		return badInput(fmt.Errorf("--off %v: write %v to %v", f.off, lossrun.OffLeast*time.Millisecond, lossrun.OffMost*time.Millisecond))
	}
	out, err := lossrun.Demonstrate(o)
	if err != nil {
		named := c.Name
		if f.craft != "" {
			named = f.craft + ": " + named
		}
		return badInput(fmt.Errorf("%s: %w", named, err))
	}
	if f.json {
		return put(w, lossJSON(c.Name, &o, out))
	}
	return put(w, lossText(c.Name, &o, out))
}

// lossWords is a craft at a time, as the sentences need it.
func lossWords(o *lossrun.Outcome, at *[lossrun.Receivers]lossrun.Moment, i int) phrase.LossCraft {
	return phrase.LossCraft{Cfg: &o.Config[i], Run: &at[i].Run, Snap: &at[i].Snap}
}

// lossText is the table and the sentences.
func lossText(name string, o *lossrun.Options, out *lossrun.Outcome) []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, phrase.LossOf(mouth.Printable(name), out.Silent[0].Run.Before.Height, o.OffFor))
	fmt.Fprintln(&b, phrase.LossThirdHas(o.Stored, &o.Craft))
	fmt.Fprintln(&b)
	var table [][]string
	head, trade := []string{""}, []string{phrase.LossSince()}
	for i := range out.Config {
		ours, theirs := phrase.OnLoss(facts.OnLoss(i))
		head, trade = append(head, ours), append(trade, "("+theirs+")")
	}
	table = append(table, head, trade)
	for row := range phrase.LossRows {
		cells := []string{phrase.LossRowName(row)}
		for i := range out.Config {
			cells = append(cells, phrase.LossRow(row, lossWords(out, &out.Silent, i), lossWords(out, &out.End, i)))
		}
		table = append(table, cells)
	}
	writeColumns(&b, table)
	for part := range 2 {
		fmt.Fprintf(&b, "\n%s\n", phrase.LossPart(part, &o.Craft))
		for i := range out.Config {
			ours, _ := phrase.OnLoss(facts.OnLoss(i))
			at := &out.Silent
			if part == 1 {
				at = &out.Asks
			}
			fmt.Fprintf(&b, "  %s: %s\n", ours, phrase.LossDoes(lossWords(out, at, i)))
			if part == 1 && !at[i].Snap.Armed {
				seen := facts.Seen(&at[i].Snap, &out.Config[i])
				for _, l := range phrase.Lines(&seen) {
					fmt.Fprintf(&b, "    - %s\n", l.Text)
				}
			}
		}
	}
	return b.Bytes()
}

// writeColumns writes a table in columns two spaces apart.
func writeColumns(b *bytes.Buffer, table [][]string) {
	var wide []int
	for _, row := range table {
		for i, cell := range row {
			if i == len(wide) {
				wide = append(wide, 0)
			}
			wide[i] = max(wide[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range table {
		var line strings.Builder
		for i, cell := range row {
			line.WriteString(cell + strings.Repeat(" ", wide[i]-utf8.RuneCountInString(cell)+2))
		}
		fmt.Fprintln(b, strings.TrimRight(line.String(), " "))
	}
}

// The lines of JSON. Times are ms since the radio went off; what did not happen is left out.
type (
	lossShown struct {
		Code   string  `json:"code"` // "link-loss"
		Craft  string  `json:"craft"`
		Height float64 `json:"height_m"` // when the radio went off
		OffFor int64   `json:"off_ms"`
		Stored string  `json:"stored"`
	}
	lossCraft struct {
		Code      string   `json:"code"`     // "craft"
		Receiver  string   `json:"receiver"` // as in a craft file
		LastFrame *int64   `json:"last_frame_ms,omitempty"`
		Limit     *int64   `json:"silence_limit_ms,omitempty"`
		Lost      *int64   `json:"link_lost_ms,omitempty"`
		Sinks     *int64   `json:"sinks_ms,omitempty"`
		Disarmed  *int64   `json:"disarmed_ms,omitempty"`
		Cause     string   `json:"cause,omitempty"`
		ByItself  *int64   `json:"armed_by_itself_ms,omitempty"`
		Stopped   *int64   `json:"motors_stopped_ms,omitempty"`
		Ground    *int64   `json:"ground_ms,omitempty"`
		Speed     *float64 `json:"ground_m_per_s,omitempty"`
		Away      *float64 `json:"found_away_m,omitempty"`
		Says      string   `json:"says"`
		Back      *int64   `json:"radio_back_ms,omitempty"`
		Refusals  []string `json:"refusals"` // a slot after the radio came back, its hands as they were
		StillArms bool     `json:"still_armed"`
		Clean     *int64   `json:"link_clean_ms,omitempty"`
		MayArm    *int64   `json:"may_arm_ms,omitempty"`
		Again     *int64   `json:"armed_again_ms,omitempty"`
		SaysBack  string   `json:"says_back"`
	}
)

func lossJSON(name string, o *lossrun.Options, out *lossrun.Outcome) []byte {
	b := append(mouth.AppendJSON(nil, lossShown{"link-loss", name, round3(out.Silent[0].Run.Before.Height), o.OffFor, storedWords[o.Stored]}), '\n')
	for i := range out.Config {
		silent, end, asks := &out.Silent[i].Run, &out.End[i].Run, &out.Asks[i].Snap
		since := func(tick int64) *int64 {
			if ms, ok := end.Since(tick); ok {
				return &ms
			}
			return nil
		}
		c := lossCraft{
			Code: "craft", Receiver: [...]string{"falls-silent", "repeats-last", "sends-stored"}[i],
			LastFrame: since(silent.Last), Limit: since(silent.Limit), Lost: since(silent.Lost), Sinks: since(silent.Sinking), Disarmed: since(silent.Disarmed),
			ByItself: since(silent.ByItself), Stopped: since(silent.Stopped), Ground: since(silent.Down), Says: phrase.LossDoes(lossWords(out, &out.Silent, i)),
			Back: since(end.Back), Refusals: append([]string{}, phrase.Why(asks.Refusals)...), StillArms: asks.Armed, Clean: since(end.Clean), MayArm: since(end.Free), Again: since(end.Again),
			SaysBack: phrase.LossDoes(lossWords(out, &out.Asks, i)),
		}
		if asks.Armed { // what refuses arming but a lost link never disarms
			c.Refusals = []string{}
		}
		if silent.Disarmed != lossrun.NotYet {
			c.Cause = phrase.Cause(happening.Cause(silent.Cause))
		}
		if silent.Down != lossrun.NotYet {
			speed, away := round3(silent.Speed), round3(silent.Away)
			c.Speed, c.Away = &speed, &away
		}
		b = append(mouth.AppendJSON(b, c), '\n')
	}
	return b
}

// round3 rounds to thousandths.
func round3(v float64) float64 {
	v, _ = strconv.ParseFloat(strconv.FormatFloat(math.Abs(v), 'f', 3, 64), 64)
	return v
}
