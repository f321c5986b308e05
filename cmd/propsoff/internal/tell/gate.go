package tell

import "propsoff/assets/words"

// NothingToCheck stands in the place of the controls check where no radio drives.
func NothingToCheck() words.Text { return words.T("gate.nothing-to-check") }

// LeftOut stands beside what a pilot would have to show, where an instructor goes out at once.
func LeftOut() words.Text { return words.T("gate.left-out") }
