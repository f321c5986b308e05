package icon

import "image"

// Pictures are none here: the page has its own.
func Pictures() []image.Image { return nil }
