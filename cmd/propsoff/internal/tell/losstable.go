package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim"
)

// LossOf says what was shown: the craft, its height in m when the radio went off, and for how many ms it was off.
func LossOf(name string, height float64, off int64) words.Text {
	return words.T("loss.shown", words.Args{"craft": words.Quote(name), "height": Metres(height), "time": Seconds(off)})
}

// LossThirdHas says what the third receiver has stored.
func LossThirdHas(s lossrun.Stored, cfg *sim.Config) words.Text {
	return words.Row(words.T("loss.third-has", words.Args{"values": LossStored(s, cfg)}), LossStoredFrom(s, cfg))
}

// LossRows is how many rows the table has.
const LossRows = 12

// LossRowName names a row of the table.
func LossRowName(row int) words.Text {
	return words.T([LossRows]words.ID{
		"loss.row-last", "loss.row-limit", "loss.row-lost", "loss.row-sinks", "loss.row-disarmed", "loss.row-motors-stop", "loss.row-ground", "loss.row-speed", "loss.row-found",
		"loss.row-back", "loss.row-free", "loss.row-again",
	}[row])
}

// LossRow is a row of the table for one craft: as it was in the last moment without the radio, and in the end.
func LossRow(row int, silent, end LossCraft) words.Text {
	r, e := silent.Run, end.Run
	var tick int64
	none := words.AsIs("–")
	switch row {
	case 0:
		tick = r.Last
	case 1:
		tick = r.Limit
	case 2:
		tick, none = r.Lost, words.T("loss.never-noticed")
	case 3:
		tick = r.Sinking
	case 4:
		if tick = r.Disarmed; silent.Snap.Armed {
			none = words.T("loss.never-disarmed")
		}
	case 5, 6, 7, 8:
		return orDash(lossValue(row-5, silent))
	case 9:
		tick = e.Back
	case 10:
		tick, none = e.Free, words.T("loss.not-in-this-time")
	default:
		tick, none = e.Again, words.T("loss.not-in-this-time")
	}
	ms, ok := e.Since(tick)
	switch {
	case !ok:
		return none
	case ms < 0:
		return words.T("loss.before", words.Args{"time": lossTime(-ms)})
	}
	return lossTime(ms)
}

// LossPart heads the sentences under the table: 0 while the radio was off, 1 when it came back.
func LossPart(part int, cfg *sim.Config) words.Text {
	if part == 0 {
		return words.T("loss.part-off")
	}
	return words.T("loss.part-back", words.Args{"sticks": words.Flag(facts.BySticks(cfg))})
}
