package learn

import (
	"testing"

	"propsoff.example/input/radio"

	"github.com/stretchr/testify/require"
)

func TestOrderOf(t *testing.T) {
	const none = radio.None
	for _, c := range []struct {
		path, row []int
	}{
		{[]int{5, 6}, []int{5, 6}},
		{[]int{none, 6}, []int{none, 6}},
		{[]int{none, 6, none}, []int{none, 6}},
		{[]int{5, 6, 7}, []int{5, 6, 7}},
		{[]int{5, none, 7}, []int{5, none, 7}},
		{[]int{5, 6, 7, 6, 5}, []int{5, 6, 7}},
		{[]int{5, 6, 5, 6, 7}, []int{6, 5, 7}}, // first passed again before the last: it lies between
		{[]int{none, 6, none, 8}, []int{6, none, 8}},
		{[]int{6, 5, 6, 7}, []int{5, 6, 7}},
		{[]int{none, 1, none, 2, none, 3, none}, []int{1, 2, 3}},
		{[]int{none, 1, none, 2, none, 3}, []int{1, 2, 3}},
		{[]int{4, 1, 4, 2, 3}, nil},
		{[]int{none, 1, none, 2, 3}, nil},
	} {
		row, ok := orderOf(c.path)
		require.Equal(t, c.row != nil, ok, "%v", c.path)
		require.Equal(t, c.row, row, "%v", c.path)
	}
}
