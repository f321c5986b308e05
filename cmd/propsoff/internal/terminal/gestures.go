package terminal

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
)

// Gesture appends gesture n as its sticks are in a stick mode: a line of JSON, or a paragraph of text. m holds the menus that gestures open.
func (f Form) Gesture(dst []byte, cfg *gestures.Config, m *menu.Config, n int, mode uint8) []byte {
	p := &cfg.Patterns[n]
	code, name := "", words.Text{}
	if i := int(p.Opens); i > 0 {
		code, name = m.Menus[i-1].Code, tell.MenuName(&m.Menus[i-1])
	}
	if !f.JSON {
		dst = append(dst, '\n')
		for _, line := range tell.GestureText(cfg, n, mode, name) {
			dst = append(append(dst, say(f.Book, line)...), '\n')
		}
		return dst
	}
	by, touch := "job", gestures.Corners(cfg, n, mode)
	if p.Physical {
		by = "stick"
	}
	parts := make([]Fields, p.Count)
	for i := range parts {
		s, j := p.StickZones(i, mode), p.JobZones(i, mode)
		for d, key := range [...]string{gestures.LeftAcross: "left_across", gestures.LeftUp: "left_up", gestures.RightAcross: "right_across", gestures.RightUp: "right_up"} {
			parts[i] = append(parts[i], key, codes.ZoneWord(s[d]))
		}
		for d, key := range [...]string{gestures.Throttle: "throttle", gestures.Roll: "roll", gestures.Pitch: "pitch", gestures.Yaw: "yaw"} {
			parts[i] = append(parts[i], key, codes.ZoneWord(j[d]))
		}
		parts[i] = append(parts[i], "hold_ms", int(p.Parts[i].Dwell)*int(cfg.SlotTicks), "within_ms", orNil(int(p.Parts[i].Within)*int(cfg.SlotTicks)))
	}
	return AppendFields(dst, "gesture", p.Code, "name", p.Name, "by", by, "stick_mode", int(mode), "parts", parts, "opens", orNil(code),
		"arm_corner", codes.Touch(touch.Arm), "disarm_corner", codes.Touch(touch.Disarm))
}
