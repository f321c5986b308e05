package phrase

// Running heads a run: which script or take, and on which craft.
func Running(name, craft string, take bool) string {
	what := "Script: "
	if take {
		what = "Take: "
	}
	return what + name + ". Craft: " + craft + "."
}

// EndsArmed says how a run leaves the craft.
func EndsArmed(armed bool) string {
	if armed {
		return "At the end the craft is ARMED."
	}
	return "At the end the craft is DISARMED."
}

// Stopped says that a run was ended from outside.
func Stopped() string { return "Stopped before the end." }

// LinesLeftOut stands where lines are missing.
func LinesLeftOut(n int) string {
	return count(n, "line") + " " + plural(n, "was", "were") + " left out here: what reads this output does not keep up."
}
