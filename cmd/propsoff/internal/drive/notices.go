package drive

import "slices"

// noticeLife is how long notices stand that tell of something done (ours), in µs; those that tell of a state stand as
// long as it lasts.
const noticeLife = 12_000_000

// Code of a Notice.
type Code uint8

const (
	Unplugged      Code = iota + 1 // the radio Name was pulled out
	OtherMode                      // Name is a USB device that may be a radio in another mode; Detail says what it offers
	Blunted                        // Name is read in a way that blunts the centre; Detail says how
	NoRights                       // Name may not be read with these rights
	NotOpened                      // Name could not be opened; Detail says why
	Adopted                        // a copy of the radio file that a person chose was kept at Detail, as Name's own
	OfAnother                      // the radio file that was given is of Detail, a radio of another make than Name
	SpoiltFile                     // a radio file could not be read when one was looked for, for Name; Detail says which and why
	Kept                           // the radio file of Name was kept at Detail
	NotKept                        // the radio file of Name could not be kept; Detail says where and why; KeepAgain tries again
	FileDoesNotFit                 // the radio file does not fit Name; Detail says why
	NoSuchRadio                    // the radio wanted, Name, is not plugged in; Detail says why
	TutorUnknown                   // Name was to be the instructor's radio, and has no radio file
	SourceFailed                   // what drove has failed; Detail says why
)

// Notice is one thing that a person should know now. The sentence is made where it is shown.
type Notice struct {
	Code         Code
	Name, Detail string
	// At is when it came up, on the loop's clock in µs.
	At int64
}

// note keeps one notice of a code and name.
func (d *Driver) note(c Code, name, detail string) {
	d.drop(c, name)
	d.notices = append(d.notices, Notice{Code: c, Name: name, Detail: detail, At: d.o.Clock.Now()})
}

// drop takes the notices of a code and name away (any name where it is empty), and those whose time is over.
func (d *Driver) drop(c Code, name string) {
	now := d.o.Clock.Now()
	d.notices = slices.DeleteFunc(d.notices, func(n Notice) bool {
		old := now-n.At > noticeLife && (n.Code == Kept || n.Code == Adopted || n.Code == OfAnother)
		return n.Code == c && (name == "" || n.Name == name) || old
	})
}
