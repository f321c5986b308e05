package tell

import (
	"propsoff/assets/words"
	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// spanInto says where a switch must go to stand inside a span: "to 1700 µs or above".
func spanInto(span layout.Span) words.Text {
	if span.Low > pulse.Lowest && span.High >= pulse.Highest {
		return words.T("span.to-above", words.Args{"low": Exact(span.Low)})
	}
	return spanReads(span)
}

// spanStands is spanInto, said of a switch that is there already: "at 1700 µs or above".
func spanStands(span layout.Span) words.Text {
	if span.Low > pulse.Lowest && span.High >= pulse.Highest {
		return words.T("span.at-above", words.Args{"low": Exact(span.Low)})
	}
	return spanReads(span)
}

// spanReads says what must be read inside a span: "1700 µs or above".
func spanReads(span layout.Span) words.Text {
	switch {
	case span.Low <= pulse.Lowest:
		return words.T("span.below", words.Args{"high": Exact(span.High)})
	case span.High >= pulse.Highest:
		return words.T("span.above", words.Args{"low": Exact(span.Low)})
	}
	return words.T("span.between", words.Args{"low": Exact(span.Low), "high": Exact(span.High)})
}

// spanOutside says what must be read outside a span, and spanStandsOutside where a switch stands then.
func spanOutside(span layout.Span) words.Text {
	switch {
	case span.High >= pulse.Highest:
		return words.T("span.below", words.Args{"high": Exact(span.Low)})
	case span.Low <= pulse.Lowest:
		return words.T("span.above", words.Args{"low": Exact(span.High)})
	}
	return words.T("span.outside", words.Args{"low": Exact(span.Low), "high": Exact(span.High)})
}

func spanStandsOutside(span layout.Span) words.Text {
	if span.Low <= pulse.Lowest && span.High < pulse.Highest {
		return words.T("span.at-above", words.Args{"low": Exact(span.High)})
	}
	return spanOutside(span)
}

// channelReads says what a channel carries, as a clause: "channel 5 reads 2012 µs".
func channelReads(s *sim.Snapshot, channel int8) words.Text {
	if channel == layout.NoChannel {
		return words.T("reading.no-channel")
	}
	name, w := ChannelNumber(int(channel)), s.Received[channel]
	if !w.Valid() {
		return carriesNoPulse(name, w)
	}
	return words.T("reading.width", words.Args{"channel": name, "width": Micros(w)})
}

// carriesNoPulse says why the width of a channel is no pulse, as a clause.
func carriesNoPulse(channel words.Text, w pulse.Width) words.Text {
	if w == pulse.Missing {
		return words.T("reading.no-pulse", words.Args{"channel": channel})
	}
	return words.T("reading.bad-pulse", words.Args{"channel": channel, "width": Micros(w), "low": Micros(pulse.Lowest), "high": Micros(pulse.Highest)})
}

// missing names the first channels of the mask that carry no valid pulse, as a clause: "channel 5 (arm) carries no pulse". It says nothing
// where all carry one.
func missing(s *sim.Snapshot, cfg *sim.Config, mask uint16) words.Text {
	var names []words.Text
	var last pulse.Width
	for c := range pulse.Channels {
		if w := s.Received[c]; mask>>c&1 == 1 && !w.Valid() {
			names, last = append(names, Channel(&cfg.Layout, c)), w
		}
	}
	switch len(names) {
	case 0:
		return words.Text{}
	case 1:
		return carriesNoPulse(names[0], last)
	}
	return words.T("reading.several", words.Args{"channels": words.And(names...)})
}

// sinks says how this craft sinks: "level, carrying at most 95 % of its weight".
func sinks(cfg *sim.Config) words.Text {
	return words.T("state.sinks", words.Args{"share": Tenths(int64(cfg.Flight.SinkCarries))})
}
