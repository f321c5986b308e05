package usb

import (
	"io"
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/input"
)

// Every language says what can be wrong with a radio on the port. What only another system or a device that fails says is said here without it.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("usb")
	found := []Found{{Path: "/dev/input/event3", Name: "Curlew Field 2", Serial: "A1", Port: "p1"}, {Path: "joystick 4", Name: "Curlew"}}
	for want, of := range map[string][]Found{"": nil, "curlew": found, "lapwing": found} {
		_, err := Choose(of, want)
		room.Error(t, err)
	}
	room.Error(t, ErrNone)
	room.Error(t, goneError{name: "Curlew"})
	room.Error(t, (&device{info: input.Info{Name: "Curlew"}}).last(io.ErrUnexpectedEOF))

	for _, id := range []words.ID{"usb.none-browser", "usb.none-insecure", "usb.not-there", "usb.not-seen", "usb.no-axes", "usb.no-state"} {
		room.Error(t, words.Within("/dev/input/event3", words.Wrong(id)))
	}
	why := words.Args{"why": words.Error(io.ErrUnexpectedEOF)}
	for _, id := range []words.ID{
		"usb.none-page", "usb.not-classic", "usb.not-event", "usb.not-opened", "usb.bad-answer", "usb.no-list", "usb.no-input-folder",
	} {
		room.Error(t, words.Wrong(id, why))
	}
	room.Error(t, words.Wrong("usb.none-system", words.Args{"system": words.Quote("plan9")}))
	room.Error(t, words.Wrong("usb.not-joystick", words.Args{"first": words.Quote("joystick 0"), "last": words.Quote("joystick 15")}))
	room.Error(t, words.Wrong("usb.node-not-opened", words.Args{"path": words.Quote("/dev/input/event3"), "why": words.Error(io.ErrUnexpectedEOF)}))
	room.Error(t, words.Wrong("usb.no-answer", words.Args{"question": words.Quote("0x80084503"), "why": words.Error(io.ErrUnexpectedEOF)}))
	room.Whole(t)
}
