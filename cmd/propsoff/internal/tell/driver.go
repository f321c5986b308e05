package tell

import "propsoff/assets/words"

// KeptIn is said when a radio file was written.
func KeptIn(name, path string) words.Text {
	return words.T("radio-file.kept", words.Args{"name": words.Quote(name), "path": words.Quote(path)})
}

// AdoptedIn is said when a copy of the radio file that a person chose was written for this very radio.
func AdoptedIn(name, path string) words.Text {
	return words.T("radio-file.adopted", words.Args{"name": words.Quote(name), "path": words.Quote(path)})
}

// NotKept is said when a radio file could not be written; it is used all the same until the program ends. key tries again, nothing
// where it does not now.
func NotKept(name string, why, key words.Text) words.Text {
	return words.T("radio-file.not-kept", words.Args{"name": words.Quote(name), "why": why, "key": key})
}

// SpoiltFile is said when a radio file could not be read.
func SpoiltFile(why words.Text) words.Text {
	return words.T("radio-file.spoilt", words.Args{"why": why})
}

// FileDoesNotFit is said when a radio file and the radio do not go together.
func FileDoesNotFit(name string, why words.Text) words.Text {
	return words.T("radio-file.does-not-fit", words.Args{"name": words.Quote(name), "why": why})
}

// SourceFailed is said when what drove has failed.
func SourceFailed(name string, why words.Text) words.Text {
	return words.T("radio-file.source-failed", words.Args{"name": words.Quote(name), "why": why})
}
