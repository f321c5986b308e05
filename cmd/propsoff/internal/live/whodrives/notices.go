package whodrives

import (
	"slices"

	"propsoff.example/assets/words"
)

// noticeLife is how long notices stand that tell of something done (ours), in µs; those that tell of a state stand as
// long as it lasts.
const noticeLife = 12_000_000

// Code of a Notice.
type Code uint8

const (
	Unplugged      Code = iota + 1 // the radio Name was pulled out
	OtherMode                      // Name, or what is at port Detail, is a USB device that may be a radio in another mode
	Blunted                        // Name is read in a way that blunts the centre
	NoRights                       // Name may not be read with these rights
	NotOpened                      // Name could not be opened; Why says why
	Adopted                        // a copy of the radio file that a person chose was kept at Detail, as Name's own
	OfAnother                      // the radio file that was given is of Detail, a radio of another make than Name
	SpoiltFile                     // a radio file could not be read when one was looked for, for Name; Why says which and why
	Kept                           // the radio file of Name was kept at Detail
	NotKept                        // the radio file of Name could not be kept; Why says where and why; KeepAgain tries again
	FileDoesNotFit                 // the radio file does not fit Name; Why says why
	NoSuchRadio                    // the radio wanted, Name, is not plugged in; Why says why
	TutorUnknown                   // Name was to be the instructor's radio, and has no radio file
	NotTried                       // the radio file of Name came from elsewhere and has not been tried on this radio; Detail tells where a person named it
	SourceFailed                   // what drove has failed; Why says why
)

// Notice is one thing that a person should know now. The sentence is made where it is shown.
type Notice struct {
	Code Code
	// Name is whom it is about, Detail a path, a port or another name; neither is a sentence.
	Name, Detail string
	// Why is what went wrong.
	Why words.Text
	// Storage: what is in OtherMode offers storage, else a serial port.
	Storage bool
	// At is when it came up, on the loop's clock in µs.
	At int64
}

// note keeps one notice of a code and name.
func (d *Driver) note(c Code, name, detail string) {
	d.notice(Notice{Code: c, Name: name, Detail: detail})
}

// fail is note with what went wrong.
func (d *Driver) fail(c Code, name string, why error) {
	d.notice(Notice{Code: c, Name: name, Why: words.Error(why)})
}

func (d *Driver) notice(n Notice) {
	d.drop(n.Code, n.Name)
	n.At = d.o.Clock.Now()
	d.notices = append(d.notices, n)
}

// drop takes the notices of a code and name away (any name where it is empty), and those whose time is over.
func (d *Driver) drop(c Code, name string) {
	now := d.o.Clock.Now()
	d.notices = slices.DeleteFunc(d.notices, func(n Notice) bool {
		old := now-n.At > noticeLife && (n.Code == Kept || n.Code == Adopted || n.Code == OfAnother)
		return n.Code == c && (name == "" || n.Name == name) || old
	})
}
