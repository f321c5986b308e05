//go:build !linux

package explore

// askLarge does nothing: these systems have no such advice, or follow none.
func askLarge(_, _ uintptr) {}
