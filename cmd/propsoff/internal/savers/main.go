// Command savers does what the program's window and a radio that is plugged in have the program read and write, and no command line
// reaches: scripts/attack kills it in the middle, runs several at once, and gives it spoilt files.
package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/mouth"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/sound"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
)

// jobs are what it can do: each gets the path and a word that tells it from others. A job that saves does it for ever, or as often as
// times says, or up to its error, and prints a line for each time that it was told that all is kept.
var jobs = map[string]func(path, word string) error{
	"sounds":     func(path, _ string) error { return readSounds(path) },
	"radios":     func(path, _ string) error { return readRadios(path) },
	"logbook":    keepLogbook,
	"craft":      keepCraft,
	"new-craft":  keepNewCraft,
	"radio":      keepRadio,
	"one-radio":  keepOneRadio,
	"radio-file": keepRadioFile,
	"set-sounds": keepSounds,
	"searches":   func(path, _ string) error { return readSearches(path) },
	"searched":   keepSearched,
	"gestures":   keepGestures,
}

func main() {
	if len(os.Args) < 3 || jobs[os.Args[1]] == nil {
		panic("savers JOB PATH [WORD]")
	}
	word := ""
	if len(os.Args) > 3 {
		word = os.Args[3]
	}
	door.Sweep(filepath.Dir(os.Args[2])) // as the program does in folders of its own
	if err := jobs[os.Args[1]](os.Args[2], word); err != nil {
		fmt.Fprintln(os.Stderr, mouth.Printable(err.Error()))
		os.Exit(2)
	}
}

func readSounds(path string) error {
	_, err := sound.Load(path)
	return err
}

// readRadios reads the folder in which a radio file stands, as is done for each radio that comes.
func readRadios(path string) error {
	found, spoilt, err := radio.Store{Dir: filepath.Dir(path)}.FindAll(device("Moorland Desk 7", ""))
	if err != nil {
		return err
	}
	fmt.Println(len(found), "found")
	return errors.Join(spoilt...)
}

// times is the environment's word for how often a job saves; 0 or nothing for ever.
const times = "SAVERS_TIMES"

// forEver saves again and again.
func forEver(save func(n int) (kept string, err error)) error {
	most, _ := strconv.Atoi(os.Getenv(times))
	for n := 1; most == 0 || n <= most; n++ {
		kept, err := save(n)
		if err != nil {
			return err
		}
		if _, err := fmt.Println(kept); err != nil {
			return err
		}
	}
	return nil
}

func keepLogbook(dir, pupil string) error {
	begun := time.Date(2031, 4, 5, 8, 20, 11, 0, time.UTC)
	b, err := logbook.Store{Dir: dir}.Open(pupil, begun)
	if err != nil {
		return err
	}
	return forEver(func(n int) (string, error) {
		size := 20
		if n%3 == 0 {
			size = 60_000 // now and then one of many pages, which a kill can cut in two
		}
		e := logbook.Began(begun.Add(time.Duration(n)*time.Second), logbook.Practice{Program: strconv.Itoa(n), Radio: strings.Repeat("r", size)})
		return strconv.Itoa(n), b.Append(e)
	})
}

// mark begins the line by which one version of a craft file is told from another.
const mark = "# kept "

// keepCraft saves a craft file that it read before, and says which version it took for the one that was there, and which is there now.
func keepCraft(path, word string) error {
	return forEver(func(n int) (string, error) {
		for {
			was, err := door.Read(path, "", yamldoc.Most)
			if err != nil {
				return "", err
			}
			base, old, _ := strings.Cut(string(was), mark)
			new := fmt.Sprintf("%s-%d", word, n)
			f, err := craftfile.Parse(path, []byte(base+mark+new+"\n"))
			if err != nil {
				return "", err
			}
			switch err := f.Save(path, was); {
			case err == nil:
				return strings.TrimSpace(old) + " " + new, nil
			case !errors.Is(err, craftfile.ErrChanged):
				return "", err
			}
		}
	})
}

func keepNewCraft(dir, word string) error {
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	if err != nil {
		return err
	}
	return forEver(func(n int) (string, error) { return f.SaveNew(dir, fmt.Sprint(word, n/4)) })
}

func device(name, serial string) input.Info {
	return input.Info{Name: name, Vendor: 0x1f4a, Product: 7, Serial: serial}
}

func file(name, serial string, mode int) radio.File {
	f := radio.File{Device: radio.DeviceOf(device(name, serial)), StickMode: mode}
	for i, job := range radio.Needed() {
		f.Controls = append(f.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: i})
	}
	return f
}

func keepRadio(dir, serial string) error {
	return forEver(func(n int) (string, error) {
		mode := 1 + n%4
		path, err := radio.Store{Dir: dir}.Save(file("Moorland Desk 7", serial, mode))
		return fmt.Sprint(path, " ", mode), err
	})
}

// keepOneRadio waits for a line, so that several can begin at once.
func keepOneRadio(dir, name string) error {
	if _, err := bufio.NewReader(os.Stdin).ReadString('\n'); err != nil {
		return err
	}
	path, err := radio.Store{Dir: dir}.Save(file(name, "", 2))
	if err == nil {
		fmt.Println(path)
	}
	return err
}

func keepRadioFile(path, _ string) error {
	return forEver(func(n int) (string, error) {
		mode := 1 + n%4
		return fmt.Sprint(path, " ", mode), radio.WriteFile(path, file("Moorland Desk 7", "A1", mode), true)
	})
}

func keepSounds(path, _ string) error {
	return forEver(func(n int) (string, error) {
		s := sound.Settings{Off: n%2 == 1}
		return strconv.FormatBool(s.Off), s.Save(path)
	})
}

// keepGestures saves as the gestures' sheet does.
func keepGestures(path, _ string) error {
	_, text, _ := assets.Gestures("examples")
	was, _ := door.Read(path, "", yamldoc.Most)
	return forEver(func(n int) (string, error) {
		now := fmt.Appendf(text[:len(text):len(text)], "%s%d\n", mark, n)
		err := door.Edit(path, was, now)
		was = now
		return strconv.Itoa(n), err
	})
}

// readSearches says of which layouts it is known what their search came to.
func readSearches(path string) error {
	p := remembered.OpenProofs(path)
	for i := range p.All {
		fmt.Println(p.All[i].Day)
	}
	if !p.Trouble.Empty() {
		return p.Trouble.Problem()
	}
	return nil
}

// keepSearched notes what searches came to, each of another layout and day.
func keepSearched(path, _ string) error {
	p := remembered.OpenProofs(path)
	return forEver(func(n int) (string, error) {
		if p.Note(remembered.Proof{Of: fmt.Sprintf("%064x", n), Day: n}); !p.Trouble.Empty() {
			return "", p.Trouble.Problem()
		}
		return strconv.Itoa(n), nil
	})
}
