package phrase

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim"
)

// LossOf says what was shown: the craft, its height in m when the radio went off, and for how many ms it was off.
func LossOf(name string, height float64, off int64) string {
	return "Craft " + name + " hovered at " + Metres(height) + " on the air bench. The radio went off for " + Seconds(off) + "."
}

// LossThirdHas says what the third receiver has stored.
func LossThirdHas(s lossrun.Stored, cfg *sim.Config) string {
	return "The third receiver has stored: " + LossStored(s, cfg) + ". " + LossStoredFrom(s, cfg)
}

// LossSince heads the first column of the table.
func LossSince() string { return "since the radio went off" }

// LossRows is how many rows the table has.
const LossRows = 12

// LossRowName names a row of the table.
func LossRowName(row int) string {
	return [LossRows]string{
		"the radio's last frame", "silence limit", "link lost", "sinks", "disarmed", "motors stop", "on the ground", "speed there", "found",
		"radio back", "may be armed", "armed again",
	}[row]
}

// LossRow is a row of the table for one craft: as it was in the last moment without the radio, and in the end.
func LossRow(row int, silent, end LossCraft) string {
	r, e := silent.Run, end.Run
	at := func(tick int64, never string) string {
		if ms, ok := e.Since(tick); ok {
			return sinceOff(ms)
		}
		return never
	}
	number := func(i int) string {
		_, v := LossNumber(i, silent)
		return v
	}
	switch row {
	case 0:
		return at(r.Last, "–")
	case 1:
		return at(r.Limit, "–")
	case 2:
		return at(r.Lost, "never noticed")
	case 3:
		return at(r.Sinking, "–")
	case 4:
		if r.Disarmed == lossrun.NotYet && silent.Snap.Armed {
			return "never: still ARMED"
		}
		return at(r.Disarmed, "–")
	case 5:
		return number(0)
	case 6:
		return number(1)
	case 7:
		return number(2)
	case 8:
		return number(3)
	case 9:
		return at(e.Back, "–")
	case 10:
		if e.Free == lossrun.NotYet {
			return "not in this time"
		}
		return at(e.Free, "–")
	}
	return at(e.Again, "not in this time")
}

// LossPart heads the sentences under the table: 0 while the radio was off, 1 when it came back.
func LossPart(part int, cfg *sim.Config) string {
	switch {
	case part == 0:
		return "While the radio was off:"
	case facts.BySticks(cfg):
		return "When it came back, sticks and switches as they were (2 s later the hands lowered the throttle, then disarmed, armed and disarmed by the sticks):"
	}
	return "When it came back, sticks and switches as they were (2 s later the hands lowered the throttle, then switched off, on and off):"
}
