package terminal

import (
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// appendMove appends the fields of what the sticks did besides flying, and of what the instructor did.
func appendMove(dst []byte, h happening.Happening, cfg *sim.Config) []byte {
	switch h.Code {
	case happening.StickMode:
		dst = appendInt(dst, "mode", int64(h.A))
	case happening.Gesture:
		dst = appendString(dst, "gesture", codes.Gesture(h.A, cfg))
		dst = appendInt(dst, "held_ms", int64(h.B))
	case happening.GestureNear:
		dst = appendString(dst, "gesture", codes.Gesture(h.A, cfg))
		near, control := codes.NearOf(h.A, h.B, cfg)
		dst = appendString(dst, "near", near)
		if control != "" {
			dst = appendString(dst, "control", control)
		}
	case happening.MenuMark:
		dst = appendForeign(dst, "item", english(tell.MenuItem(h.A, cfg)))
	case happening.MenuValue:
		dst = appendForeign(dst, "item", english(tell.MenuItem(h.A, cfg)))
		dst = appendForeign(dst, "value", english(tell.MenuValue(h.A, h.B, cfg)))
	case happening.MenuLeft:
		dst = appendBool(dst, "kept", h.A != 0)
	case happening.Instructed:
		dst = appendString(dst, "did", codes.Deed(pulse.Deed(h.A)))
		dst = appendInt(dst, "number", int64(h.B))
	}
	return dst
}
