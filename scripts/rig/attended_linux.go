package main

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"math"
	"os"
	"strconv"
	"strings"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/hand"
)

// Where a person gives commands and finds answers, in the shared folder: the same as in scripts/attended, but that a pipe cannot be shared with a guest. So
// the commands are a file here, which is gone once it was read. What the program keeps is in the folder home.
const (
	attendedIn   = outShare + "/in"
	attendedSaid = outShare + "/said"
	attendedHome = "/home"
)

// changeMost is how long a batch waits until something is seen of it: a busy host draws a sheet in ten seconds (ours).
const changeMost = 15 * time.Second

// sitting is a person before the window, with mouse, keyboard and radio.
type sitting struct {
	screen  *xscreen
	hand    *xhand
	radio   *live
	program *child
	page    *image.RGBA // as it was shown last
}

// attended lets a person sit down before the program as it is on its first day, until the command end.
func attended(f *figures) (err error) {
	x, screen, err := display()
	if err != nil {
		return err
	}
	defer closing(&err, x.stop)
	defer screen.Close()
	m := fakeradio.Attended()
	if err := m.Check(); err != nil {
		return err
	}
	s := &sitting{screen: screen, radio: &live{made: m, hand: hand.New(&m, seedOf(m.Serial))}}
	if s.hand, err = handAt(screen); err != nil {
		return err
	}
	defer func() { closing(&err, s.radio.away) }()
	began := time.Now()
	home := outInside + attendedHome
	if err := os.MkdirAll(outShare+attendedHome, 0o755); err != nil {
		return err
	}
	s.program, err = start(
		started{chroot: hostRoot, env: append(windowEnvironment(), "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home)},
		outInside+"/propsoff", "--language", word(wordLanguage, "en"))
	if err != nil {
		return err
	}
	defer func() { closing(&err, s.program.leave) }()
	if err := s.shown(); err != nil {
		return err
	}
	f.add("the window stood after", fmt.Sprintf("%.0f s", time.Since(began).Seconds()))
	if err := s.answer(0, ""); err != nil {
		return err
	}
	for n := 1; ; n++ {
		lines, err := commands()
		if err != nil {
			return err
		}
		said, end := s.batch(lines)
		if err := s.answer(n, said); end || err != nil {
			f.add("batches", n)
			return err
		}
	}
}

// shown waits until the window stands on the empty screen.
func (s *sitting) shown() (err error) {
	if s.page, err = s.screen.picture(); err != nil {
		return err
	}
	if is, err := s.screen.changed(s.page, 3*time.Minute); !is || err != nil { // a busy host is slow
		return errors.Join(fmt.Errorf("the window did not come: %s", s.program.said()), err)
	}
	return nil
}

// commands waits for a batch. Whoever writes it does so in one piece, or nearly: it is whole when it was the same twice.
func commands() ([]string, error) {
	var before []byte
	for {
		time.Sleep(50 * time.Millisecond)
		now, err := os.ReadFile(attendedIn)
		if err != nil && !errors.Is(err, os.ErrNotExist) {
			return nil, err
		}
		if len(now) > 0 && bytes.Equal(now, before) {
			return strings.Split(string(now), "\n"), os.Remove(attendedIn)
		}
		before = now
	}
}

// batch does commands, waits until something is seen of them, and gives what is to be said.
func (s *sitting) batch(lines []string) (said string, end bool) {
	for _, line := range lines {
		line = strings.TrimSpace(line)
		if line == "end" {
			return said, true
		}
		if err := s.do(line); err != nil {
			said += fmt.Sprintf("%s: %v\n", line, err)
		}
	}
	if is, err := s.screen.changed(s.page, changeMost); err == nil && !is {
		said += "the screen is as it was\n"
	}
	return said, false
}

// answer shows what the screen shows, once it stands still, and says that a batch is done.
func (s *sitting) answer(n int, said string) (err error) {
	if s.program.ended() {
		said += fmt.Sprintf("the program has ended (%v) %s\n", s.program.err, s.program.said())
	}
	if s.page, err = s.screen.still(); err != nil {
		return err
	}
	if err := save(s.page, "page.png"); err != nil {
		return err
	}
	return os.WriteFile(attendedSaid, fmt.Appendf(nil, "%d\n%s", n, said), 0o644)
}

// do does one command of scripts/attended.
func (s *sitting) do(line string) error {
	name, rest, _ := strings.Cut(line, " ")
	switch name {
	case "":
		return nil
	case "wait", "press", "drag":
		return s.numbered(name, strings.Fields(rest))
	case "key":
		for _, k := range strings.Fields(rest) {
			if err := errors.Join(s.hand.key(k, true), s.hand.key(k, false)); err != nil {
				return err
			}
		}
		return nil
	case "down", "up":
		return s.hand.key(rest, name == "down")
	case "type":
		for _, r := range rest {
			if err := s.hand.types(r); err != nil {
				return err
			}
		}
		return nil
	case "axis":
		return s.axes(rest)
	case "button":
		number, on, _ := strings.Cut(rest, " ")
		if on != "on" && on != "off" {
			return errors.New("button NUMBER on|off")
		}
		return s.radio.turn(hand.Move{Job: "button " + number, To: map[string]hand.Target{"on": 1}[on]})
	case "plug":
		if s.radio.p == nil {
			return s.radio.plugIn()
		}
		return nil
	case "pull":
		return s.radio.away()
	case "touch", "lift", "fingers":
		return errors.New("there are no fingers here: the X server has no screen to be touched, only a mouse")
	case "size":
		return fmt.Errorf("the screen is %s here, and the window fills it", xSize)
	}
	return errors.New("not known")
}

// numbered does a command that has numbers alone.
func (s *sitting) numbered(name string, words []string) error {
	var n []int
	for _, w := range words {
		v, err := strconv.ParseFloat(w, 64)
		if err != nil {
			return err
		}
		n = append(n, int(v))
	}
	switch {
	case name == "wait" && len(n) == 1:
		time.Sleep(time.Duration(n[0]) * time.Millisecond)
		return nil
	case name == "press" && len(n) == 2:
		return s.hand.drags(n[0], n[1], n[0], n[1], 0)
	case name == "drag" && len(n) == 5:
		return s.hand.drags(n[0], n[1], n[2], n[3], time.Duration(n[4])*time.Millisecond)
	}
	return fmt.Errorf("wait MS, press X Y, drag X Y TO-X TO-Y MS; here are %d numbers", len(n))
}

// axes moves axes together: NUMBER VALUE MS, with commas between them.
func (s *sitting) axes(text string) error {
	var moves []hand.Move
	for part := range strings.SplitSeq(text, ",") {
		m, err := axisMove(&s.radio.made, part)
		if err != nil {
			return err
		}
		m.With = true
		if s.radio.p == nil { // the hand's time goes by what the radio sends; unplugged it sends nothing
			m.Over = 0
		}
		moves = append(moves, m)
	}
	return s.radio.turn(moves...)
}

// axisMove reads one axis, its number from 1, where it goes, −1 to 1, and over how many milliseconds. A lever goes to its nearest place.
func axisMove(made *fakeradio.Made, text string) (m hand.Move, err error) {
	var number, over int
	var to float64
	if _, err := fmt.Sscan(text, &number, &to, &over); err != nil || number < 1 || to < -1 || to > 1 || over < 0 {
		return m, fmt.Errorf("axis NUMBER VALUE MS, …: %q", text)
	}
	for _, c := range made.Controls {
		if c.Axis != number-1 {
			continue
		}
		most := int(hand.High)
		if len(c.Places) > 0 {
			most = len(c.Places) - 1
		}
		return hand.Move{Job: c.Job, To: hand.Target(math.Round((to + 1) / 2 * float64(most))), Over: time.Duration(over) * time.Millisecond}, nil
	}
	return m, fmt.Errorf("axis %d: nothing moves it", number)
}
