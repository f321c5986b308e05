package screen

import (
	"slices"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/comfort"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/examine"
)

// Options of a Screen. Loop and Driver are needed.
type Options struct {
	Loop      *live.Loop
	Driver    *whodrives.Driver
	CraftName string
	// Craft is the craft file, CraftPath where it came from (a shipped craft's name has no folder), Names its words.
	Craft     *craftfile.File
	CraftPath string
	Names     input.Names
	// OtherCrafts gives the craft files that there are to compare with the one at a path; nil gives none.
	OtherCrafts func(path string) []CraftFile
	// Kept are the places of the files that the program keeps; nil for none.
	Kept *belongings.Places
	// Radio is the file of --radio, nil where none was given.
	Radio *radio.File
	// Start begins with the sheet of the four doors, in place of the bench. Open is a sheet to be opened at once: an action that opens one.
	Start bool
	Open  ui.Action
	// Gestures tells of the gesture file.
	Gestures GestureOptions
	// Drills are the course; the zero value has none.
	Drills DrillOptions
	// Now gives the date for what is printed; the zero time leaves it out.
	Now func() time.Time
	// Record is what recording a take needs.
	Record RecordOptions
	// Theme is the one to begin with, nil where nobody chose one. System tells what a person has asked of every program, which holds for whatever was
	// not chosen here; nil asks nothing.
	Theme  *ink.Theme
	System func() comfort.Wishes
	// Book is the language to begin with; nil means English.
	Book *words.Book
	// ReadFile is where it is remembered that the cautions were read; empty shows them at every start.
	ReadFile string
	// Remembered is what is remembered from one start to the next; nil remembers until the program ends.
	Remembered *remembered.File
	// Proofs are what searches of layouts came to, likewise.
	Proofs *remembered.Proofs
	// Ended carries sources that have ended, from the loop's goroutine; it has room for some.
	Ended <-chan whodrives.Ended
	// Bare leaves the cautions out: for pictures and for a script that drives the window.
	Bare bool
	// InPage: the sheet stands in a page of a browser, which alone can close it, so no key leaves the program.
	InPage bool
	// Touch: a finger is what one points with here, until a mouse does.
	Touch bool
	// NoRadios is why no radio can be read here; empty where some can.
	NoRadios words.Text
	// Outside lets the craft be carried to the air bench at once, its propellers right and checked: for an instructor who shows
	// something. Seed shuffles the propellers that a pilot has to put right.
	Outside bool
	Seed    uint64
	Sounds  SoundOptions
	// Give hands a paper that was saved over to whoever asked for it, and keeps it no longer, where its folder is not one that a person can look into; nil
	// where it is.
	Give func(path string) error
	// Say is given what a person would see, in sentences for assistive technology: which sheet is open, what is chosen, what is asked, what the craft does,
	// what a drill says. urgent: it is to be heard at once. It is called from the window's goroutine; the language is that of View. Nil says nothing.
	Say func(text words.Text, urgent bool)
}

// CraftFile is a craft file that can be chosen: the name of its file, which for one that ships is the craft's.
type CraftFile struct {
	Name    string
	Shipped bool
	File    *craftfile.File
}

// GestureOptions are what the sheet of two-stick gestures needs besides the craft, which has the gestures themselves.
type GestureOptions struct {
	// Name is what the gesture file of the craft is called, Text what stands in it; Shipped tells that it came with the program.
	Name    string
	Shipped bool
	Text    []byte
	// Own is the path of the pilot's own gesture file, in which recorded gestures are kept; empty keeps none.
	Own string
}

// DrillOptions are what the sheet of drills needs.
type DrillOptions struct {
	Coach *drillrun.Coach
	// Course is what the course is called, Drills its drills in order; ShippedGestures tells that the gestures they name are those that ship.
	Course          words.Text
	ShippedGestures bool
	Drills          []*drillfile.Drill
	// Chapters are the parts of the course, none where it has none.
	Chapters []DrillChapter
	// Pupils keeps what came of them; nil keeps nothing.
	Pupils Pupils
	// Day gives the number of today, Seed makes times and cases random.
	Day  func() int32
	Seed uint64
}

// DrillChapter is a part of a course: its name and its drills, by their indices in DrillOptions.Drills; it has one at least.
type DrillChapter struct {
	Name   words.Text
	Drills []int
}

// ChaptersOf are the parts of a course with those of its drills that fit the craft; one of which none does is left out.
func ChaptersOf(course *drillfile.Course, drills []*drillfile.Drill) (out []DrillChapter) {
	for _, c := range course.Chapters {
		one := DrillChapter{Name: tell.CourseText(course.Code, c.Name)}
		for i, d := range drills {
			if slices.Contains(c.Drills, d.Config.Code) {
				one.Drills = append(one.Drills, i)
			}
		}
		if len(one.Drills) > 0 {
			out = append(out, one)
		}
	}
	return out
}

// Pupils keeps what pupils did.
type Pupils interface {
	// Open says who practises from now on; empty for nobody.
	Open(pupil string) error
	// Pupil is who practises, empty for nobody.
	Pupil() string
	// Names are everybody who has a logbook.
	Names() []string
	// Count is how many runs one has made.
	Count(pupil string) int
	// Rename gives one another name, who does not practise meanwhile.
	Rename(pupil, name string) error
	// Merge moves what one has done into the logbook of another; neither practises meanwhile.
	Merge(from, into string) error
	// Runs are all runs of the pupil in order of time.
	Runs() []drill.Run
	// Keep keeps a run, and what the pupil held in it; one without a try is none, and keeps nothing.
	Keep(run *drillrun.Result, d *drillfile.Drill, held Held) error
	// Asked are all questions of the examiner that the pupil was asked, in order of time.
	Asked() []examine.Asked
	// KeepAsked keeps one more, and which craft and radio it is about.
	KeepAsked(a examine.Asked, held Held) error
	// Refused counts a refusal, given as a set.
	Refused(set int32)
	// Where says where it is kept.
	Where() string
}

// Held is what a pupil practises with.
type Held struct {
	// Radio is its name, or the keyboard's; empty where it is not known.
	Radio string
	// StickMode is 1 to 4, 0 where it is not known.
	StickMode int
	// Craft is the pupil's own craft, as it is and not as the program was started; nil where it is not known. Gestures is the name of
	// its gesture file.
	Craft    *craftfile.File
	Gestures string
}
