package usb

import (
	"path/filepath"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
)

// Choose picks one of found by what a person wrote: a path, a number as listed (from 1), or a part of the name, in capital
// or small letters. An empty text takes the first. An error lists what there is to choose from.
func Choose(found []Found, want string) (Found, error) {
	if len(found) == 0 {
		return Found{}, words.Wrong("usb.nothing-plugged-in")
	}
	want = strings.TrimSpace(want)
	if want == "" {
		return found[0], nil
	}
	if f, ok := byPath(found, want); ok {
		return f, nil
	}
	if n, err := strconv.Atoi(want); err == nil && n >= 1 && n <= len(found) {
		return found[n-1], nil
	}
	var hits []int
	for i, f := range found {
		if strings.Contains(strings.ToLower(f.Name), strings.ToLower(want)) {
			hits = append(hits, i)
		}
	}
	switch len(hits) {
	case 1:
		return found[hits[0]], nil
	case 0:
		all := make([]int, len(found))
		for i := range all {
			all[i] = i
		}
		return Found{}, words.Wrong("usb.none-called", words.Args{"name": words.Typed(want), "radios": lines(found, all)})
	}
	return Found{}, words.Wrong("usb.several-called", words.Args{
		"n": words.Whole(len(hits)), "name": words.Typed(want), "radios": lines(found, hits),
	})
}

func byPath(found []Found, want string) (Found, bool) {
	real := want
	if strings.ContainsRune(want, filepath.Separator) {
		if r, err := filepath.EvalSymlinks(want); err == nil {
			real = r // the system's own links name a radio by its serial number or its port
		}
	}
	for _, f := range found {
		for _, p := range []string{f.Path, f.Event, f.Classic} {
			if p != "" && (p == want || p == real) {
				return f, true
			}
		}
	}
	return Found{}, false
}

// lines lists the radios with these indices, one a line, each with its number from 1.
func lines(found []Found, at []int) words.Text {
	var all []words.Text
	for _, i := range at {
		f := found[i]
		all = append(all, words.T("usb.listed", words.Args{
			"n": words.Whole(i + 1), "name": words.Quote(f.Name), "path": words.Quote(f.Path), "serial": words.Quote(f.Serial), "port": words.Quote(f.Port),
		}))
	}
	return words.Lines(all...)
}
