//go:build !js

package breath

// Take does nothing here.
func (*Breath) Take() {}
