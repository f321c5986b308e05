package loss

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/lossplot"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim"
	"propsoff.example/sim/lossmap"
)

// What the keys of the map do.
const (
	keyMap      ui.Action = "loss-map"          // the map instead of the three crafts, or back
	keyThrottle ui.Action = "loss-map-throttle" // at the next throttle
	keyWind     ui.Action = "loss-map-wind"     // in the next wind
	keyMeasure  ui.Action = "loss-map-measure"  // for the next measure
	keyReceiver ui.Action = "loss-map-receiver" // of the next receiver
	keyPlay     ui.Action = "loss-map-play"     // the three begin at the worst point that is seen
)

func mapKeys() []ui.Act {
	return []ui.Act{{Action: keyMap, Physical: "Slash", On: func(v *ui.View) bool { return Of(v).Map != nil }},
		{Action: keyThrottle, Physical: "Comma"}, {Action: keyWind, Physical: "Semicolon"}, {Action: keyMeasure, Physical: "Backslash", Says: func(v *ui.View) words.Text {
			next := lossmap.BySpeed
			if m := Of(v).Map; m != nil {
				next = (m.Measure + 1) % lossmap.Measures
			}
			return tell.MapMeasureShort(next)
		}},
		{Action: keyReceiver, Physical: "Insert"}, {Action: keyPlay, Physical: "Quote", On: func(v *ui.View) bool {
			m := Of(v).Map
			return m != nil && !m.Whole()
		}}}
}

// Map is the map of a craft with a receiver, and how it is looked at.
type Map struct {
	*lossmap.Map
	Craft          sim.Config
	Measure        lossmap.Measure
	Throttle, Wind int
}

// In tells whether a spot is seen.
func (m *Map) In(s lossmap.Spot) bool { return s.Throttle == m.Throttle && s.Wind == m.Wind }

// mapShows tells which keys there are while the map is shown, and which of its own while it is not.
func (l *View) mapShows(a ui.Action) (shows, known bool) {
	switch a {
	case keyMap:
		return true, true
	case keyThrottle, keyWind, keyMeasure:
		return l.Map != nil && l.Map.Level, true
	case keyReceiver:
		return l.Map != nil, true
	case keyPlay:
		if l.Map == nil {
			return false, true
		}
		_, ok := l.Map.Worst(l.Map.Measure, l.Map.In)
		return ok, true
	case ui.SwitchRadio, keyFly, keyAnew:
		return false, l.Map != nil
	case keyStored:
		return l.Map != nil && l.Map.Craft.Link.OnLoss == facts.SendsStored, l.Map != nil
	}
	return false, false
}

// maps are the maps that were asked for: of each receiver one, of the stored values that were chosen last.
type maps struct {
	on     bool
	at     Map
	way    int
	stored lossrun.Stored
	known  [lossrun.Receivers]*Map
	played words.Text
}

// perPicture is how many steps are worked out for each picture of the sheet: some ten milliseconds (ours).
const perPicture = 20_000

// open forgets all.
func (m *maps) open(craft *sim.Config) {
	*m = maps{way: int(craft.Link.OnLoss), at: Map{Throttle: lossmap.Hover}}
}

// shown is the map that is to be shown, nil where none is, worked out a little further.
func (m *maps) shown(craft *sim.Config, stored lossrun.Stored) *Map {
	if !m.on {
		return nil
	}
	if m.stored != stored {
		m.stored, m.known[facts.SendsStored] = stored, nil
	}
	is := m.known[m.way]
	if is == nil {
		is = &Map{}
		is.Map, is.Craft = facts.LossMap(craft, facts.OnLoss(m.way), stored)
		m.known[m.way] = is
	}
	is.Work(perPicture)
	is.Measure, is.Throttle, is.Wind = m.at.Measure, m.at.Throttle, m.at.Wind
	return is
}

// actMap does what a key of the map does.
func (p *part) actMap(a ui.Action) bool {
	m := &p.maps
	switch a {
	case keyMap:
		m.on = !m.on
	case keyThrottle:
		m.at.Throttle = (m.at.Throttle + 1) % lossmap.Throttles
	case keyWind:
		m.at.Wind = (m.at.Wind + 1) % len(lossmap.Winds())
	case keyMeasure:
		m.at.Measure = (m.at.Measure + 1) % lossmap.Measures
	case keyReceiver:
		m.way = (m.way + 1) % lossrun.Receivers
	case keyPlay:
		p.playWorst()
	default:
		return false
	}
	return true
}

// playWorst has the three begin at the worst point that is seen.
func (p *part) playWorst() {
	is := p.maps.known[p.maps.way]
	spot, ok := is.Worst(is.Measure, is.In)
	if !ok {
		return
	}
	p.s.Flight.Resume()
	p.begin()
	p.maps.on, p.maps.played = false, tell.MapPlayed(is.Map, spot)
	at := is.Point(spot)
	p.beside.Do(func() { p.three.Anew, p.three.At = true, &at })
}

// drawMap draws the map, and beside it, or above, what the craft does, at which throttle and in which wind it is shown, and the worst of it.
func (b *board) drawMap(r ink.Rect) {
	m := b.l.Map
	size := b.Small
	if b.V.Class {
		size = b.Body
	}
	left, right := b.Split(r, r.W*0.25, r.H*0.3, 1.4)
	b.Group("map-words")
	d := b.Down(left, 5*b.U)
	ours, trade := tell.OnLoss(m.Craft.Link.OnLoss)
	if !b.V.Class {
		d.R = b.Section(d.R, "map-heading", b.Say(words.T("loss-map.on-sheet")))
	}
	d.Say("map-receiver", ours, ink.Style{Size: b.Head, Weight: ink.Bold})
	d.Say("map-trade", trade, ink.Style{Size: b.Small, Colour: ink.Faint})
	if m.Craft.Link.OnLoss == facts.SendsStored {
		d.Say("map-stored", tell.LossStored(b.l.Stored, b.V.Config), ink.Style{Size: size})
	}
	d.Say("map-slice", words.Row(tell.MapThrottle(m.Map, m.Throttle), tell.MapWind(m.Winds[m.Wind])), ink.Style{Size: b.Body, Weight: ink.Bold})
	d.Whole("map-worst-here", tell.MapWorst(m.Map, m.Measure, false, m.In), ink.Style{Size: size})
	if !m.Whole() {
		d.Say("map-done", tell.MapProgress(m.Map), ink.Style{Size: size, Colour: ink.Faint})
	} else {
		d.Whole("map-worst-of-all", tell.MapWorst(m.Map, m.Measure, true, nil), ink.Style{Size: size})
	}
	if !b.V.Class {
		d.Whole("map-does", tell.MapDoes(&m.Craft), ink.Style{Size: size})
		d.Whole("map-stands", words.T("loss-map.stands"), ink.Style{Size: size, Colour: ink.Faint})
	}
	lossplot.Draw(b.Page, right, &lossplot.Look{Map: m.Map, Measure: m.Measure, Throttle: m.Throttle, Wind: m.Wind, Book: b.V.Language(), Small: size, U: b.U})
}
