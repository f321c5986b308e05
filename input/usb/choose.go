package usb

import (
	"errors"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
)

// Choose picks one of found by what a person wrote: a path, a number as listed (from 1), or a part of the name, in capital
// letters or small ones. Nothing written takes the first. An error lists what there is to choose from.
func Choose(found []Found, want string) (Found, error) {
	if len(found) == 0 {
		return Found{}, errors.New("no radio is plugged in; plug one in by USB and choose joystick on it")
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
		return Found{}, fmt.Errorf("no radio is called %q; choose one of these by number or name:%s", want, lines(found, all))
	}
	return Found{}, fmt.Errorf("%d radios are called %q; choose one of these by number:%s", len(hits), want, lines(found, hits))
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

// lines lists the radios at the places at, one a line, numbered as listed.
func lines(found []Found, at []int) string {
	var b strings.Builder
	for _, i := range at {
		f := found[i]
		fmt.Fprintf(&b, "\n  %d  %s (%s", i+1, f.Name, f.Path)
		if f.Serial != "" {
			fmt.Fprintf(&b, ", serial number %s", f.Serial)
		}
		if f.Port != "" {
			fmt.Fprintf(&b, ", at %s", f.Port)
		}
		b.WriteString(")")
	}
	return b.String()
}
