package phrase

// NothingToCheck stands in the place of the controls check where no radio drives.
func NothingToCheck() string {
	return "Not needed: the keyboard drives, and there is no radio to check."
}

// LeftOut stands beside what a pilot would have to show, where an instructor goes out at once.
func LeftOut() string { return "Left out, for a demonstration." }
