package terms

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

var (
	claim     = regexp.MustCompile(`(?i)copyright\b.*(\b(19|20)\d\d\b|©|\(c\))|SPDX-FileCopyrightText:`)
	years     = regexp.MustCompile(`\b(19|20)\d\d\b[-–, ]*`)
	separator = regexp.MustCompile(`^[-*=#~ ]{8,}$`)
	holder    = regexp.MustCompile(`(?i)^.*?(copyrighttext:|copyright( ©|\s*\(c\))?)\s*(by )?`)
)

// source adds what a source file says of authors whom the terms of its module do not name: each such statement once, whatever its years.
func (g *gatherer) source(w *Work, file, top string) error {
	text, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	where, err := filepath.Rel(top, file)
	if err != nil {
		return err
	}
	for _, notice := range notices(string(text)) {
		if t := g.text(filepath.ToSlash(where), notice); !w.has(t) {
			w.Texts = append(w.Texts, t)
		}
	}
	return nil
}

// has tells whether a licence is there already, or, of a statement that is none, whether all that it says of authors is said.
func (w *Work) has(said Text) bool {
	if len(said.Licences) > 0 {
		return slices.ContainsFunc(w.Texts, func(t Text) bool { return undated(t.Body) == undated(said.Body) })
	}
	for _, line := range strings.Split(said.Body, "\n") {
		if claim.MatchString(line) && !slices.ContainsFunc(w.Texts, func(t Text) bool {
			return strings.Contains(undated(t.Body), undated(holder.ReplaceAllString(line, "")))
		}) {
			return false
		}
	}
	return true
}

// undated is a text without years, and with all white space as one blank each.
func undated(s string) string {
	s = strings.ReplaceAll(strings.ReplaceAll(years.ReplaceAllString(s, ""), "All rights reserved", ""), ".", "")
	return strings.TrimSpace(strings.Join(strings.Fields(s), " "))
}

// notices are the comments of a source file in which somebody claims authorship, from the beginning of the comment, or the last line across it, to
// its end, or the next such line.
func notices(source string) (out []string) {
	var block []string
	flush := func() {
		from := 0
		for i := 0; i < len(block); i++ {
			if separator.MatchString(block[i]) {
				from = i + 1
			}
			if !claim.MatchString(block[i]) {
				continue
			}
			to := i
			for to < len(block) && !separator.MatchString(block[to]) {
				to++
			}
			out = append(out, strings.TrimSpace(strings.Join(block[from:to], "\n"))+"\n")
			from, i = to+1, to
		}
		block = nil
	}
	within := false // a comment that goes on until its end is said
	for _, line := range strings.Split(strings.ReplaceAll(source, "\r\n", "\n"), "\n") {
		t := strings.TrimSpace(line)
		text, plain := strings.CutPrefix(t, "//")
		switch {
		case within:
			text = strings.TrimPrefix(strings.TrimSuffix(t, "*/"), "*")
		case strings.HasPrefix(t, "/*"):
			within, text = true, strings.TrimSuffix(strings.TrimLeft(t, "/*"), "*/")
		case !plain:
			flush()
			continue
		}
		block = append(block, strings.TrimSuffix(strings.TrimRight(strings.TrimPrefix(text, " "), " \t"), "\r"))
		if within && strings.HasSuffix(t, "*/") {
			within = false
		}
	}
	flush()
	return out
}
