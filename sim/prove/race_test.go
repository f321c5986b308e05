//go:build race

package prove

const raceDetector = true
