package termlive

import (
	"context"
	"errors"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

const (
	// learnEvery is how often time is told to the learner: a still hand sends nothing.
	learnEvery = 20 * time.Millisecond
	// moreFor is how long nothing moves until further controls are no longer waited for where nobody can say that that is
	// all, in µs (ours).
	moreFor = 5_000_000
)

// learning is the learning of one radio in the terminal. It belongs to the goroutine of run. The reader is faithful: once it is asked about one
// radio it goes on with that one.
type learning struct {
	shows
	*reader
	options learn.Options
	output  string
	over    bool   // output may be written over
	anew    bool   // no file is tried
	wrote   string // what was written here already, which may be written over
	carries terminal.Carries

	tell    terminal.LearnLines
	said    once
	learner *learn.Learner
	file    radio.File // once all is answered
	learned bool
	failed  error // why it could not be written

	commands  <-chan learnCommand
	heeds     bool  // commands may still come
	quietFrom int64 // since when nothing moves while further controls are waited for, −1 while something does
	typed     []rune
	naming    bool
}

// errKept is given where the file was written at last.
var errKept = errors.New("kept")

// left is the error where a person leaves: what was being learned is gone, a file that was being tried is not.
func (g *learning) left() error {
	if g.learner != nil && g.learner.Tries() {
		return words.Wrong("ask.stopped-try")
	}
	return words.Wrong("ask.stopped")
}

// run learns one radio. It ends when the file is written, or cannot be and nobody is there to mend that.
func (g *learning) run(ctx context.Context) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	g.listen(ctx)
	err := g.w.Together(ctx, g.loop, g.shows.run)
	if g.screen {
		g.show(g.picture)
	}
	if werr := g.end(false); err == nil {
		err = werr
	}
	switch {
	case err == nil, errors.Is(err, errKept):
		return nil
	case g.learned && g.failed != nil:
		return g.giveUp(g.failed)
	}
	return exit.Trouble(err)
}

func (g *learning) loop(ctx context.Context) error {
	tick := time.NewTicker(learnEvery)
	defer tick.Stop()
	g.look()
	g.watcher.Poll(nil) // they are those that were there from the beginning
	lookAt, drawAt := time.Now().Add(LookEvery), time.Time{}
	for {
		g.hear()
		if g.learner == nil && !g.heeds {
			if g.look(); g.learner == nil { // it waited for a radio that nobody speaks of any more
				return words.Wrong("notice.nothing-to-learn")
			}
		}
		if done, err := g.step(); done || err != nil {
			return err
		}
		if now := time.Now(); g.screen && now.After(drawAt) {
			g.show(g.picture)
			drawAt = now.Add(RedrawEvery)
		}
		select {
		case <-ctx.Done():
			return g.left()
		case <-g.wake():
		case <-tick.C:
			if g.device == nil && time.Now().After(lookAt) {
				lookAt = time.Now().Add(LookEvery)
				g.look()
			}
		case <-g.watcher.Wake():
			for _, c := range g.watcher.Poll(nil) {
				if c.Kind == usb.OtherArrived {
					g.say(OtherMode(c.Notice))
				}
			}
			g.look()
		case c, ok := <-g.commands:
			if !ok {
				g.commands, g.heeds = nil, false
				continue
			}
			if err := g.obey(c); err != nil {
				return err
			}
		}
	}
}

// ms is the time since the start.
func (g *learning) ms() int64 { return (g.w.Now() - g.epoch) / 1000 }

// say tells a sentence once.
func (g *learning) say(t words.Text) {
	if g.said.new(t) {
		g.notice(t)
	}
}

func (g *learning) notice(t words.Text) {
	g.note(t)
	g.add(func(dst []byte) []byte { return g.tell.Notice(dst, g.ms(), t) })
}

// look finds the radio, or finds it again.
func (g *learning) look() {
	if g.device != nil || g.learned {
		return
	}
	found := g.watcher.Found()
	a := g.radio.Look(found, g.policy.Choose)
	switch {
	case g.learner != nil:
		if a.Step == whichradio.Reopen && g.openRadio(a.Radio) {
			g.learner.Resume()
		}
		return
	case a.Err != nil, len(found) == 0 && g.policy.Wanted != "":
		g.say(tell.NoSuchRadio(g.policy.Wanted))
		return
	case len(found) == 0:
		g.say(words.T("notice.no-radio"))
		return
	case !g.openRadio(a.Radio):
		return
	}
	if g.policy.Wanted == "" && len(found) > 1 {
		g.say(tell.Another(g.info.Name, len(found)))
	}
	if g.info.Blunted {
		g.say(tell.BluntedCentre(g.info.Name))
	}
	if g.output == "" {
		a := g.policy.FileFor(g.info)
		if given, path, ok := g.given(&a); ok {
			g.say(tell.ToTry(g.info.Name, path, g.letter("anew")))
			g.learner = learn.Try(g.info, given)
			return
		}
		if a.Trouble != nil {
			g.say(words.Error(a.Trouble))
		} else if a.How == whichradio.Exact {
			g.say(words.T("ask.again", words.Args{"name": words.Quote(g.info.Name), "path": words.Quote(a.Path)}))
		}
	}
	g.learner = learn.New(g.info, g.options)
}

// given is the file to be tried: this very radio's, or the likeliest of its kind, where it came from elsewhere.
func (g *learning) given(a *whichradio.Answer) (file radio.File, path string, ok bool) {
	if g.anew {
		return file, "", false
	}
	if a.How == whichradio.Exact && a.File.Given {
		return a.File, a.Path, true
	}
	for _, c := range a.Alike {
		if c.File.Given {
			return whichradio.Own(c, g.info), c.Path, true
		}
	}
	return file, "", false
}

// learnAnew gives up a try: the radio is learned.
func (g *learning) learnAnew() {
	if g.learner.Tries() {
		g.notices = []words.Text{tell.Cautions()[0]}
		g.learner = learn.New(g.info, g.options)
	}
}

// letter is the letter of a command where keys come one at a time, empty elsewhere.
func (g *learning) letter(word string) string {
	if !g.screen {
		return ""
	}
	return letterOf(word)
}

func (g *learning) openRadio(f usb.Found) bool {
	if err := g.reader.open(f); err != nil {
		g.say(words.Error(err))
		return false
	}
	g.said, g.notices = nil, nil // what was missing is there
	if g.learner == nil {
		g.notices = []words.Text{tell.Cautions()[0]}
	}
	g.add(func(dst []byte) []byte { return g.tell.Radio(dst, g.ms(), &g.info) })
	return true
}

// hear feeds the learner with what the radio has said.
func (g *learning) hear() {
	if g.device == nil || g.learner == nil {
		return
	}
	now := g.w.Now() - g.epoch // before the reading, so that time never passes what is still to be read
	if g.read(func(raw *input.Raw) { g.learner.Feed(*raw) }) == nil {
		g.learner.Tick(now)
		return
	}
	g.radio.Lost()
	g.add(func(dst []byte) []byte { return g.tell.Unplugged(dst, g.ms(), g.info.Name) })
}

// step tells what is new, and writes the file once all is answered. done: it is written, or nobody can be asked again.
func (g *learning) step() (done bool, err error) {
	if g.learner == nil {
		return false, nil
	}
	if g.learned { // and could not be written
		if g.heeds {
			return false, nil
		}
		return true, g.failed
	}
	v := g.learner.View()
	g.more(&v)
	g.add(func(dst []byte) []byte { return g.tell.See(dst, g.ms(), &v) })
	file, ok := g.learner.File()
	if !ok {
		return false, nil
	}
	if g.learner.Tries() && file.Given {
		g.notice(words.T("ask.left-untried", words.Args{"name": words.Quote(g.info.Name)}))
		return true, nil
	}
	g.file, g.learned = file, true
	return g.keep(""), nil
}

// more ends the question for further controls where nobody can say that that is all, and takes the marked stick mode where nobody can
// choose.
func (g *learning) more(v *learn.View) {
	if !g.heeds && v.Question == learn.StickMode {
		g.say(words.T("ask.mode-taken", words.Args{"n": words.Whole(v.StickMode)}))
		g.learner.Enough()
		return
	}
	if g.heeds || v.Question != learn.More || v.Phase != learn.Moving || v.Axis >= 0 || v.Button >= 0 || g.device == nil {
		g.quietFrom = -1
		return
	}
	now := g.w.Now()
	switch {
	case g.quietFrom < 0:
		g.quietFrom = now
	case now-g.quietFrom >= moreFor:
		g.quietFrom = -1
		g.learner.Enough()
	}
}

// keep writes the radio file, and reports whether that went well.
func (g *learning) keep(path string) bool {
	where, err := g.save(path)
	g.failed = err
	if err != nil {
		g.add(func(dst []byte) []byte { return g.tell.NotKept(dst, g.ms(), words.Error(err)) })
		return false
	}
	g.add(func(dst []byte) []byte { return g.tell.Kept(dst, g.ms(), g.info.Name, where) })
	g.notices = []words.Text{tell.KeptIn(g.info.Name, where)}
	return true
}

// picture is the live screen.
func (g *learning) picture(columns, rows int) []string {
	v := terminal.LearnView{Book: g.form.Book, Name: g.info.Name, Info: &g.info, Carries: g.carries, Notices: g.notices, Out: g.device == nil, Naming: g.naming, Typed: string(g.typed)}
	if g.learner != nil {
		view := g.learner.View()
		v.Learn = &view
	}
	if g.learned && g.failed != nil {
		v.Kept = g.keepAgain()
	}
	return terminal.LearnScreen(&v, columns, rows)
}
