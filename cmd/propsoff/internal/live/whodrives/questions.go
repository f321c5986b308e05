package whodrives

import (
	"slices"
	"strconv"

	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
	"propsoff.example/sim/pulse"
)

// question begins to learn an open device.
func (d *Driver) question(dev input.Device, epoch int64) {
	d.questions(dev, epoch, learn.New(dev.Info(), LearnOptions(d.o.Names, d.mode)))
}

func (d *Driver) questions(dev input.Device, epoch int64, l *learn.Learner) {
	d.result = nil
	d.drop(NotTried, "")
	d.hand(Questions, nil, 0)
	d.device, d.epoch = dev, epoch
	d.learner = l
}

// LearnOptions are those for a craft: every job that it has beside those that are always asked for, by the name or the channel
// that a radio file knows it by, and the channels that it gives no job. mode is the stick mode that is shown first.
func LearnOptions(names input.Names, mode int) learn.Options {
	o := learn.Options{StickMode: mode}
	used := make([]bool, pulse.Channels)
	asked := make([]bool, pulse.Channels) // by a question of its own
	for job, c := range names.Channel {
		if c < 0 || c >= pulse.Channels {
			continue
		}
		used[c] = true
		switch {
		case job == "second":
			o.Also, asked[c] = append(o.Also, job), true
		case slices.Contains(radio.Jobs(), job):
			asked[c] = true
		}
	}
	for c := range pulse.Channels {
		switch {
		case !used[c]:
			o.Free = append(o.Free, c)
		case !asked[c]:
			o.Also = append(o.Also, "channel "+strconv.Itoa(c+1))
		}
	}
	return o
}

// resume goes on learning a radio that was pulled out in the middle: the questions stand where they were.
func (d *Driver) resume(f usb.Found) {
	dev, ok := d.open(f, d.epoch) // the time of questions that go on must not begin anew
	if ok {
		d.device = dev
		d.learner.Resume()
	}
}

// ask feeds the learner with what the radio has said.
func (d *Driver) ask() {
	if d.device == nil {
		if now := d.o.Clock.Now(); now >= d.retryAt { // it may have come back before it was noticed that it was gone
			d.retryAt = now + retryAfter
			d.settle()
		}
		return
	}
	now := d.o.Clock.Now() - d.epoch // before the reading, so that time never passes what is still to be read
	var err error
	d.raws, err = d.device.Poll(d.raws[:0])
	for i := range d.raws {
		d.learner.Feed(d.raws[i])
		d.last = d.raws[i]
	}
	if err != nil {
		_ = d.device.Close()
		d.device = nil
		d.radio.Lost()
		d.note(Unplugged, d.info.Name, "")
		d.retryAt = d.o.Clock.Now() + retryAfter
		return
	}
	d.learner.Tick(now)
	if file, done := d.learner.File(); done {
		d.learned(file)
	}
}

// learned keeps what was learned and drives with it. Where it cannot be kept it is used all the same.
func (d *Driver) learned(file radio.File) {
	if file.Given { // as it was, so there is nothing to keep
		d.untried()
	}
	r := &Result{Learn: d.learner.View(), Info: d.device.Info()}
	dev, first := d.device, d.last
	d.device, d.learner = nil, nil
	if !d.drive(dev, d.epoch, file, &first) {
		_ = dev.Close()
		d.keyboard()
	}
	if !file.Given {
		r.kept(d.keep(Kept, file))
		d.result = r
	}
}

// retryAfter is how long a radio that is out is not looked for again without news, in µs (ours).
const retryAfter = 500_000

// Skip leaves the open question without a control, where it may be (learn.Learner.Skip). It does nothing while no radio is learned, as
// do the others below.
func (d *Driver) Skip() { d.answer((*learn.Learner).Skip) }

// Back goes back by one step (learn.Learner.Back).
func (d *Driver) Back() { d.answer((*learn.Learner).Back) }

// Restart forgets everything and begins with the first question.
func (d *Driver) Restart() { d.answer((*learn.Learner).Restart) }

// Enough does what the view of the learner says that it does (learn.View.Enough).
func (d *Driver) Enough() { d.answer((*learn.Learner).Enough) }

// Call names the switch that was found last.
func (d *Driver) Call(name string) {
	d.answer(func(l *learn.Learner) { l.SetCalled(name) })
}

// SpringsBack turns round whether the switch that was found last springs back by itself.
func (d *Driver) SpringsBack() {
	d.answer(func(l *learn.Learner) {
		if v := l.View(); v.Last >= 0 && v.Last < len(v.Answers) {
			l.SetMomentary(!v.Answers[v.Last].Momentary)
		}
	})
}

// Clicks turns round whether what was found last is a switch, where it can be either (learn.Learner.SetClicks).
func (d *Driver) Clicks() {
	d.answer(func(l *learn.Learner) {
		if v := l.View(); v.CanClick {
			l.SetClicks(!v.Answers[v.Last].IsSwitch())
		}
	})
}

func (d *Driver) answer(f func(*learn.Learner)) {
	if d.learner != nil {
		f(d.learner)
	}
}

// DropResult forgets how the questions ended, once a person has seen it.
func (d *Driver) DropResult() { d.result = nil }

// SetStickMode says how the sticks are drawn and what new radio files say, 1 to 4.
// While a radio is learned it answers the question for it.
func (d *Driver) SetStickMode(mode int) {
	d.mode = (mode+3)%4 + 1
	d.answer(func(l *learn.Learner) { l.SetStickMode(d.mode) })
}
