package phrase

// KeptIn is said when a radio file was written.
func KeptIn(name, path string) string {
	return "What is known of " + name + " is kept in " + path + "."
}

// AdoptedIn is said when a copy of the radio file that a person chose was written for this very radio.
func AdoptedIn(name, path string) string {
	return "The radio file that you chose is kept for " + name + " in " + path + "."
}

// NotKept is said when a radio file could not be written; it is used all the same until the program ends. key tries again, empty
// where it does not now.
func NotKept(name, why, key string) string {
	if key != "" {
		key = "; " + key + " tries again"
	}
	return "What is known of " + name + " could not be kept: " + why + ". It is used until you leave" + key + "."
}

// SpoiltFile is said when a radio file could not be read.
func SpoiltFile(why string) string { return "A radio file cannot be read: " + why }

// FileDoesNotFit is said when a radio file and the radio do not go together.
func FileDoesNotFit(name, why string) string {
	return "The radio file does not fit " + name + ": " + why
}

// SourceFailed is said when what drove has failed.
func SourceFailed(name, why string) string { return name + " has stopped: " + why }
