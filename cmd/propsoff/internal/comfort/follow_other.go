//go:build !js && !linux && !windows

package comfort

import "context"

// follow: this system is not asked. On macOS its own interface would take a C compiler.
func follow(context.Context, func(Wishes)) {}
