package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/page"
)

// The page shows the cautions before the program has come: the same ones, in the same order.
func TestThePageHasTheCautions(t *testing.T) { assert.Equal(t, Cautions(), page.Cautions) }
