//go:build !race

package logbook

const killed = 200
