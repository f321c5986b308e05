package terms

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

func TestNoticesOfASource(t *testing.T) {
	for _, c := range []struct {
		name, source string
		want         []string
	}{
		{"none", "// Package x does y.\npackage x\n", nil},
		{"lines", "// Copyright 2020 Ann. All rights reserved.\n// Freely.\n\npackage x\n", []string{"Copyright 2020 Ann. All rights reserved.\nFreely.\n"}},
		{"a block", "/*\n * Copyright (c) 2002 Ann\n * Freely.\n */\nint x;\n", []string{"Copyright (c) 2002 Ann\nFreely.\n"}},
		{"a block between lines", "/*****************\n * a thing\n *----------------\n * Copyright (c) 2002 Ann\n *****************/\nint x;\n", []string{"Copyright (c) 2002 Ann\n"}},
		{"two in one comment", "// Copyright 2019 Bo.\n// ========\n// Copyright (C) 1993 by Ann.\n// Freely.\n// ========\n// more\npackage x\n", []string{"Copyright 2019 Bo.\n", "Copyright (C) 1993 by Ann.\nFreely.\n"}},
		{"no claim", "// keep the copyright of others\npackage x\n", nil},
		{"a tag", "// SPDX-FileCopyrightText: 2014 Ann\n\nvar x = 1 // Copyright\n", []string{"SPDX-FileCopyrightText: 2014 Ann\n"}},
	} {
		if got := notices(c.source); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// What a source says of authors counts as said where its module's licence names them, in whatever year; a licence counts by its words.
func TestSaidAlready(t *testing.T) {
	w := &Work{Texts: []Text{{Body: "Copyright 2009 The Ann Authors.\n\nFreely.\n"}}}
	for said, want := range map[string]bool{
		"Copyright 2021 The Ann Authors. All rights reserved.\n": true, "Copyright 2021 Bo\n": false, "SPDX-FileCopyrightText: 2020 The Ann Authors\n": true,
	} {
		if got := w.has(Text{Body: said}); got != want {
			t.Errorf("%q: %v", said, got)
		}
	}
	if w.has(Text{Body: "Copyright 2009 The Ann Authors.\nIn other words.\n", Licences: []string{"MIT"}}) {
		t.Error("a licence in other words is not there")
	}
}

// The files that programs carry are what the tool writes today.
func TestFilesAreAsWritten(t *testing.T) {
	root := filepath.Join("..", "..", "..")
	for _, b := range Builds {
		works, err := Gather(root, b)
		if err != nil {
			t.Fatal(err)
		}
		there, err := os.ReadFile(filepath.Join(root, "assets/licences", b.Name+".txt"))
		if err != nil || Write(works, Intro()) != string(there) {
			t.Errorf("assets/licences/%s.txt is not what is due: go -C scripts/packaging run ./licences (%v)", b.Name, err)
		}
		for _, w := range works {
			if !slices.ContainsFunc(w.Texts, func(t Text) bool { return len(t.Licences) > 0 }) {
				t.Errorf("%s: %s comes with no licence that is known", b.Name, w.Name)
			}
		}
	}
}
