package screen

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// fill brings the view up to date.
func (s *Screen) fill() {
	v, d := &s.view, &s.Driving
	v.Facts = s.Told.now(s)
	v.Facts.Plain = s.Drilling() // nothing else may ask for anything
	v.Snap, v.Config = v.Facts.Snap, &v.Facts.Craft
	v.Goggles = s.Goggles(&v.Facts) // which menu is open is told on the bench too
	v.DeskUsed, v.Drilling, v.HideMode, v.CannotRecord = s.DeskUsed, s.Drilling(), false, words.Text{}
	v.CraftName = s.Options.CraftName
	if m := s.Flight.Live.In.Craft.Menu; m != pulse.MenuClosed {
		v.LastMenu = m
	}
	v.Chart = s.Options.Loop.Chart(v.Chart[:0])
	v.Waiting = s.Options.Loop.Waiting()
	s.refusals.Update(&v.Facts)
	v.Refusals = &s.refusals
	s.Flight.fill(v)
	if v.Flight.Replay.On {
		craft := v.Facts.Craft
		if then := s.Options.Loop.CraftAt(v.Snap.Tick); then != s.Options.Loop.Craft() {
			craft = *then
		}
		v.Facts = facts.Seen(&v.Snap, &craft)
		v.Goggles = ui.GogglesView{} // nobody kept where the mark stood then
	}
	s.fillHappenings()

	v.Driver, v.DriverName, v.Blunted = Who(d.Who), d.Name, d.Blunted
	after, radio := s.Options.Driver.After()
	v.Next, v.NextName = Who(after), radio
	v.Radios, v.Reading = d.Choices, d.Chosen
	v.Choosing = s.Choosing
	v.Leads = s.Options.Driver.Leads()
	v.StickMode, v.Ended = d.StickMode, d.Ended
	if v.Drives = (words.Text{}); s.asked != nil && s.asked.Drives != nil {
		v.Drives = s.asked.Drives()
	}
	v.Practises = words.T("people.tag", words.Args{"name": words.Quote(s.Pupil())})
	v.Full, v.Class = s.full, s.full
	if len(s.grips) == 0 { // what is held must not move away below the finger: it would be let go of beside
		v.Touch = s.touch
	}
	v.Handset, v.HasSeats = s.handset(), s.HasSeats()
	for _, fill := range s.Filled {
		fill(v)
	}
	s.fillNotices()
	if s.leafOf != s.Place() {
		s.leafOf, s.Leaf = s.Place(), 0
		v.Unrolled()
	}
	v.Leaves.At = s.Leaf
	s.sound.Fill(v)
	s.open().Fill(v)
}

// fillNotices gives the view what there is to know, the most urgent first.
func (s *Screen) fillNotices() {
	v, d := &s.view, &s.Driving
	v.Notices = v.Notices[:0]
	if s.Place() != s.idleOn { // whoever goes on has read it
		s.idle = words.Text{}
	}
	if age := s.Flight.Live.Tick - s.idleAt; age >= 0 && age < idleNote {
		note := v.Notice
		if s.idleGood {
			note = v.GoodNews
		}
		note(s.idle)
	}
	v.Notice(s.whyStood())
	v.GoodNews(v.Waits())
	for _, note := range s.Notes {
		v.GoodNews(note())
	}
	for _, n := range d.Notices {
		said := n.Code == whodrives.Blunted && v.Blunted || (n.Code == whodrives.Kept || n.Code == whodrives.NotKept) && d.Result != nil || n.Code == whodrives.Unplugged && v.Out
		if say := sentences[n.Code]; say != nil && !said { // by the sheet itself
			add := v.Notice
			if n.Code == whodrives.Kept || n.Code == whodrives.Adopted {
				add, n.Detail = v.GoodNews, v.PathShown(n.Detail)
			}
			add(say(n, func(a ui.Action) words.Text { return v.KeyFor(a, s.Place()) }))
		}
	}
	if err := s.Options.Loop.Trouble(); err != nil && d.Who == whodrives.Script {
		v.Notice(words.Error(err))
	}
	s.Record.fill(v)
	if s.noRadio() && s.Place() != ui.OnStart { // which says so itself
		v.Notice(s.NoRadio())
	}
	v.Notice(s.Options.Remembered.Trouble)
	if t := s.Options.Proofs.Trouble; v.Say(t) != v.Say(s.Options.Remembered.Trouble) { // one folder may take neither
		v.Notice(t)
	}
}

// noRadio tells whether it is to be said that no radio is plugged in: to a person who drives by keyboard only at first.
func (s *Screen) noRadio() bool {
	d, tick := &s.Driving, s.Flight.Live.Tick
	if d.Who != whodrives.Keyboard {
		s.keyboardSince = tick
	}
	waiting := slices.ContainsFunc(d.Notices, func(n whodrives.Notice) bool { return n.Code == whodrives.NoSuchRadio })
	early := d.Who == whodrives.Keyboard && tick-s.keyboardSince < keyboardNote
	return len(d.Choices) == 0 && !waiting && (d.Who == whodrives.Demo || d.Who == whodrives.Nobody || early)
}

// Who is who drives, as the sheets tell it.
func Who(w whodrives.Who) ui.Driver {
	return [...]ui.Driver{whodrives.Demo: ui.Demo, whodrives.Keyboard: ui.Keyboard, whodrives.Radio: ui.Radio, whodrives.Questions: ui.Radio,
		whodrives.Which: ui.Radio, whodrives.Script: ui.Played}[w]
}

// recentMost is how many happenings are kept for the chart, recentTicks how far they go back from what is shown (ours).
const (
	recentMost  = 1024
	recentTicks = live.ChartTicks + 2000
)

// fillHappenings gives the view those of the time that is shown.
func (s *Screen) fillHappenings() {
	v := &s.view
	seen := len(s.recent)
	s.recent, s.next = s.Options.Loop.Happenings(s.recent, s.next)
	v.KeepDisarmed(s.recent[seen:])
	for len(s.recent) > recentMost || len(s.recent) > 0 && s.recent[0].Tick < s.Flight.Live.Tick-live.FilmTicks-recentTicks {
		s.recent = s.recent[1:]
	}
	s.shown = s.shown[:0]
	for _, h := range s.recent { // a plug of the demo's or a script's radio is no plug in this machine
		if secret(&h) && s.Place() != ui.OnDesk {
			continue
		}
		if (h.Code != happening.Plug || s.Driving.Who == whodrives.Radio) && h.Tick >= v.Snap.Tick-recentTicks && h.Tick <= v.Snap.Tick {
			s.shown = append(s.shown, h)
		}
	}
	v.Happenings = s.shown
}

// secret tells whether a line of the record is for the instructor alone.
func secret(h *happening.Happening) bool {
	d := pulse.Deed(h.A)
	return h.Code == happening.Instructed && d != pulse.DeedHands && d != pulse.DeedArmOff
}

// keyFor gives the key of an action as the sheet that is shown names it.
type keyFor func(ui.Action) words.Text

// sentences say the notices of the driver.
var sentences = map[whodrives.Code]func(n whodrives.Notice, key keyFor) words.Text{
	whodrives.Unplugged: func(n whodrives.Notice, _ keyFor) words.Text { return tell.Unplugged(n.Name) },
	whodrives.OtherMode: func(n whodrives.Notice, _ keyFor) words.Text { return tell.OtherUSBMode(n.Name, n.Detail, n.Storage) },
	whodrives.Blunted:   func(n whodrives.Notice, _ keyFor) words.Text { return tell.BluntedCentre(n.Name) },
	whodrives.NoRights:  func(whodrives.Notice, keyFor) words.Text { return words.T("notice.permission") },
	whodrives.NotOpened: func(n whodrives.Notice, _ keyFor) words.Text { return tell.NotOpened(n.Name) },
	whodrives.Adopted: func(n whodrives.Notice, _ keyFor) words.Text {
		return words.T("radio-file.adopted", words.Args{"name": words.Quote(n.Name), "path": words.Quote(n.Detail)})
	},
	whodrives.OfAnother: func(n whodrives.Notice, _ keyFor) words.Text {
		return words.T("notice.of-another", words.Args{"name": words.Quote(n.Name), "other": words.Quote(n.Detail)})
	},
	whodrives.SpoiltFile: func(n whodrives.Notice, _ keyFor) words.Text {
		return words.T("radio-file.spoilt", words.Args{"why": n.Why})
	},
	whodrives.Kept: func(n whodrives.Notice, _ keyFor) words.Text { return tell.KeptIn(n.Name, n.Detail) },
	whodrives.NotKept: func(n whodrives.Notice, key keyFor) words.Text {
		return words.T("radio-file.not-kept", words.Args{"name": words.Quote(n.Name), "why": n.Why, "key": key(ui.KeepAgain)})
	},
	whodrives.TutorUnknown: func(n whodrives.Notice, key keyFor) words.Text {
		return words.T("desk.not-learned", words.Args{"radio": words.Quote(n.Name), "key": key(ui.ChooseRadio)})
	},
	whodrives.FileDoesNotFit: func(n whodrives.Notice, _ keyFor) words.Text {
		return words.T("radio-file.does-not-fit", words.Args{"name": words.Quote(n.Name), "why": n.Why})
	},
	whodrives.NoSuchRadio: func(n whodrives.Notice, _ keyFor) words.Text { return tell.NoSuchRadio(n.Name) },
	whodrives.NotTried: func(n whodrives.Notice, key keyFor) words.Text {
		if n.Detail != "" {
			return tell.NotTried(n.Name, words.Text{}, false)
		}
		return tell.NotTried(n.Name, key(ui.AskAgain), false)
	},
	whodrives.SourceFailed: func(n whodrives.Notice, _ keyFor) words.Text {
		return words.T("radio-file.source-failed", words.Args{"name": words.Quote(n.Name), "why": n.Why})
	},
}
