//go:build !race

package mend

const raceDetector = false
