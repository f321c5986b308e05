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
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/world"
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

func newLinkLoss(w *world.World) *cobra.Command {
	var f lossFlags
	cmd := &cobra.Command{
		Use:   "link-loss",
		Short: w.Say(words.T("command.link-loss")),
		Long:  w.Say(words.T("command.link-loss-about")),
		Args:  noArguments,
		RunE:  func(*cobra.Command, []string) error { return linkLoss(w, f) },
	}
	s := cmd.Flags()
	craftFlag(cmd, &f.craft, flownCraft(w))
	s.StringVar(&f.stored, "stored", "", w.Say(words.T("flag.stored", words.Args{"values": withCommas(storedWords)})))
	s.Float64Var(&f.height, "height", 10, w.Say(words.T("flag.height")))
	s.DurationVar(&f.off, "off", 10*time.Second, w.Say(words.T("flag.off")))
	jsonFlag(w, cmd, &f.json)
	_ = cmd.RegisterFlagCompletionFunc("stored", cobra.FixedCompletions(storedWords, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func linkLoss(w *world.World, f lossFlags) error {
	c, err := w.LoadCraft(f.craft, "")
	if err != nil {
		return err
	}
	o := lossrun.Options{Craft: c.Config(), Height: f.height, OffFor: f.off.Milliseconds()}
	o.Stored = lossrun.FirstStored(&o.Craft)
	if f.stored != "" {
		i := slices.Index(storedWords, f.stored)
		switch {
		case i < 0:
			return exit.BadInput(words.Wrong("refused.one-of", words.Args{"flag": words.Quote("stored"), "value": words.Quote(f.stored), "words": withCommas(storedWords)}))
		case lossrun.Stored(i) == lossrun.OfFile && !lossrun.Own(&o.Craft):
			return exit.BadInput(words.Wrong("refused.stored-file", words.Args{"craft": words.Quote(c.Name), "words": withCommas(storedWords[1:])}))
		}
		o.Stored = lossrun.Stored(i)
	}
	if !(f.height >= lossrun.HeightLeast && f.height <= lossrun.HeightMost) {
		return exit.BadInput(words.Wrong("refused.height", words.Args{"value": words.Quote(fmt.Sprint(f.height)), "least": words.Whole(lossrun.HeightLeast), "most": words.Whole(lossrun.HeightMost)}))
	}
	if o.OffFor < lossrun.OffLeast || o.OffFor > lossrun.OffMost {
		return exit.BadInput(words.Wrong("refused.off", words.Args{"value": ofTime(f.off), "least": ofTime(lossrun.OffLeast * time.Millisecond), "most": ofTime(lossrun.OffMost * time.Millisecond)}))
	}
	out, err := lossrun.Demonstrate(o)
	if err != nil {
		named := c.Name
		if f.craft != "" {
			named = f.craft + ": " + named
		}
		return exit.BadInput(words.Within(named, err))
	}
	if f.json {
		return put(w, lossJSON(c.Name, &o, out))
	}
	return put(w, lossText(w, c.Name, &o, out))
}

// lossWords is a craft at a time, as the sentences need it.
func lossWords(o *lossrun.Outcome, at *[lossrun.Receivers]lossrun.Moment, i int) tell.LossCraft {
	return tell.LossCraft{Cfg: &o.Config[i], Run: &at[i].Run, Snap: &at[i].Snap}
}

// says is what the lines of JSON say of a craft at a time: in English, whoever reads them.
func says(o *lossrun.Outcome, at *[lossrun.Receivers]lossrun.Moment, i int) string {
	return words.English().Say(tell.LossDoes(lossWords(o, at, i)))
}

// lossText is the table and the sentences.
func lossText(w *world.World, name string, o *lossrun.Options, out *lossrun.Outcome) []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, w.Say(tell.LossOf(mouth.Printable(name), out.Silent[0].Run.Before.Height, o.OffFor)))
	fmt.Fprintln(&b, w.Say(tell.LossThirdHas(o.Stored, &o.Craft)))
	fmt.Fprintln(&b)
	var table [][]string
	head, trade := []string{""}, []string{w.Say(words.T("loss.since"))}
	for i := range out.Config {
		ours, theirs := tell.OnLoss(facts.OnLoss(i))
		head, trade = append(head, w.Say(ours)), append(trade, "("+w.Say(theirs)+")")
	}
	table = append(table, head, trade)
	for row := range tell.LossRows {
		cells := []string{w.Say(tell.LossRowName(row))}
		for i := range out.Config {
			cells = append(cells, w.Say(tell.LossRow(row, lossWords(out, &out.Silent, i), lossWords(out, &out.End, i))))
		}
		table = append(table, cells)
	}
	writeColumns(&b, table)
	for part := range 2 {
		fmt.Fprintf(&b, "\n%s\n", w.Say(tell.LossPart(part, &o.Craft)))
		for i := range out.Config {
			ours, _ := tell.OnLoss(facts.OnLoss(i))
			at := &out.Silent
			if part == 1 {
				at = &out.Asks
			}
			fmt.Fprintf(&b, "  %s: %s\n", w.Say(ours), w.Say(tell.LossDoes(lossWords(out, at, i))))
			if part == 1 && !at[i].Snap.Armed {
				seen := facts.Seen(&at[i].Snap, &out.Config[i])
				for _, l := range tell.Lines(&seen) {
					fmt.Fprintf(&b, "    - %s\n", w.Say(l.Text))
				}
			}
		}
	}
	return b.Bytes()
}

// ofTime is a time as flags take it.
func ofTime(d time.Duration) words.Quote { return words.Quote(d.String()) }

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
			ByItself: since(silent.ByItself), Stopped: since(silent.Stopped), Ground: since(silent.Down), Says: says(out, &out.Silent, i),
			Back: since(end.Back), Refusals: append([]string{}, codes.Why(asks.Refusals)...), StillArms: asks.Armed, Clean: since(end.Clean), MayArm: since(end.Free), Again: since(end.Again),
			SaysBack: says(out, &out.Asks, i),
		}
		if asks.Armed { // what refuses arming but a lost link never disarms
			c.Refusals = []string{}
		}
		if silent.Disarmed != lossrun.NotYet {
			c.Cause = codes.Cause(happening.Cause(silent.Cause))
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
