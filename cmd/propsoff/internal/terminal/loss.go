package terminal

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/happening"
)

// StoredWords are the words for what a third receiver has stored, by lossrun.Stored.
func StoredWords() []string {
	return []string{lossrun.OfFile: "file", lossrun.Disarming: "disarming", lossrun.ArmedLow: "armed-low", lossrun.ArmedThrottle: "armed-throttle"}
}

// Loss appends what came of a lost link with each receiver, on a craft of that name: as text a table and sentences, as JSON a line with the
// code "link-loss" and one with the code "craft" for each receiver. Times in JSON are ms since the radio went off.
func (f Form) Loss(dst []byte, name string, o *lossrun.Options, out *lossrun.Outcome) []byte {
	height := out.Silent[0].Run.Before.Height
	if !f.JSON {
		return f.lossText(dst, tell.LossOf(name, height, o.OffFor), o, out)
	}
	dst = AppendFields(dst, "code", "link-loss", "craft", name, "height_m", round3(height), "off_ms", o.OffFor, "stored", StoredWords()[o.Stored])
	for i := range out.Config {
		dst = AppendFields(dst, lossFields(out, i)...)
	}
	return dst
}

// lossCraft is a craft at a time, as the sentences need it.
func lossCraft(o *lossrun.Outcome, at *[lossrun.Receivers]lossrun.Moment, i int) tell.LossCraft {
	return tell.LossCraft{Cfg: &o.Config[i], Run: &at[i].Run, Snap: &at[i].Snap}
}

// lossText appends the table and the sentences.
func (f Form) lossText(dst []byte, title words.Text, o *lossrun.Options, out *lossrun.Outcome) []byte {
	b := bytes.NewBuffer(dst)
	fmt.Fprintf(b, "%s\n%s\n\n", say(f.Book, title), say(f.Book, tell.LossThirdHas(o.Stored, &o.Craft)))
	head, trade := []string{""}, []string{say(f.Book, words.T("loss.since"))}
	for i := range out.Config {
		ours, theirs := tell.OnLoss(facts.OnLoss(i))
		head, trade = append(head, say(f.Book, ours)), append(trade, "("+say(f.Book, theirs)+")")
	}
	table := tabwriter.NewWriter(b, 0, 0, 2, ' ', 0)
	fmt.Fprintf(table, "%s\n%s\n", strings.Join(head, "\t"), strings.Join(trade, "\t"))
	for row := range tell.LossRows {
		fmt.Fprint(table, say(f.Book, tell.LossRowName(row, &o.Craft)))
		for i := range out.Config {
			fmt.Fprintf(table, "\t%s", say(f.Book, tell.LossRow(row, lossCraft(out, &out.Silent, i), lossCraft(out, &out.End, i))))
		}
		fmt.Fprintln(table)
	}
	_ = table.Flush()
	for part, at := range []*[lossrun.Receivers]lossrun.Moment{&out.Silent, &out.Asks} {
		fmt.Fprintf(b, "\n%s\n", say(f.Book, tell.LossPart(part, &o.Craft)))
		for i := range out.Config {
			fmt.Fprintf(b, "  %s: %s\n", head[i+1], say(f.Book, tell.LossDoes(lossCraft(out, at, i))))
			if part == 1 && !at[i].Snap.Armed {
				seen := facts.Seen(&at[i].Snap, &out.Config[i])
				for _, l := range tell.Lines(&seen) {
					fmt.Fprintf(b, "    - %s\n", say(f.Book, l.Text))
				}
			}
		}
	}
	return b.Bytes()
}

// lossFields are those of the craft with one receiver. What did not happen is left out.
func lossFields(out *lossrun.Outcome, i int) []any {
	silent, end, asks := &out.Silent[i].Run, &out.End[i].Run, &out.Asks[i].Snap
	since := func(tick int64) any {
		if ms, ok := end.Since(tick); ok {
			return ms
		}
		return nil
	}
	var cause, speed, away any
	if silent.Disarmed != lossrun.NotYet {
		cause = codes.Cause(happening.Cause(silent.Cause))
	}
	if silent.Down != lossrun.NotYet {
		speed, away = round3(silent.Speed), round3(silent.Away)
	}
	free, again := since(end.Free), since(end.Again)
	if end.StayedArmed() { // what the hands switched later has nothing to do with the loss
		free, again = nil, nil
	}
	refusals := codes.Why(asks.Refusals) // a slot after the radio came back, its hands as they were
	if asks.Armed {                      // what refuses arming but a lost link never disarms
		refusals = nil
	}
	return []any{
		"code", "craft", "receiver", [...]string{"falls-silent", "repeats-last", "sends-stored"}[i], // as in a craft file
		"last_frame_ms", since(silent.Last), "silence_limit_ms", since(silent.Limit), "link_lost_ms", since(silent.Lost), "sinks_ms", since(silent.Sinking),
		"disarmed_ms", since(silent.Disarmed), "cause", cause, "armed_by_itself_ms", since(silent.ByItself), "motors_stopped_ms", since(silent.Stopped),
		"ground_ms", since(silent.Down), "ground_m_per_s", speed, "found_away_m", away, "says", tell.LossDoes(lossCraft(out, &out.Silent, i)),
		"radio_back_ms", since(end.Back), "refusals", refusals, "still_armed", asks.Armed, "link_clean_ms", since(end.Clean), "may_arm_ms", free,
		"armed_again_ms", again, "says_back", tell.LossDoes(lossCraft(out, &out.Asks, i)),
	}
}

// round3 rounds to thousandths.
func round3(v float64) float64 {
	v, _ = strconv.ParseFloat(strconv.FormatFloat(math.Abs(v), 'f', 3, 64), 64)
	return v
}
