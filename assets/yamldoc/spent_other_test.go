//go:build !unix

package yamldoc

import (
	"testing"
	"time"
)

var began = time.Now()

// spent is the time since the tests began, where the system does not say how long a process had the processor.
func spent(*testing.T) time.Duration { return time.Since(began) }
