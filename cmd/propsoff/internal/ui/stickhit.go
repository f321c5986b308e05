package ui

import (
	"fmt"

	"propsoff.example/input/keyboard"
)

// StickHit names the hit area of a stick by what it carries across and up; its room is that between the ends of travel.
func StickHit(across, up keyboard.Axis) string { return fmt.Sprintf("stick-%d-%d", across, up) }

// StickOf says what the stick of a hit area carries.
func StickOf(hit string) (across, up keyboard.Axis, ok bool) {
	var a, u uint8
	n, err := fmt.Sscanf(hit, "stick-%d-%d", &a, &u)
	return keyboard.Axis(a), keyboard.Axis(u), n == 2 && err == nil
}
