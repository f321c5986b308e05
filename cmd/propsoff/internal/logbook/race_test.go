//go:build race

package logbook

// killed is how often a writer is killed: each is a program of its own, in which the detector finds nothing and slows everything, so most kills
// are done without it.
const killed = 20
