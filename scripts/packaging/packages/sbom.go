package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"time"

	cdx "github.com/CycloneDX/cyclonedx-go"

	"propsoff.example/scripts/packaging/terms"
)

// partsList says what is in a program, in CycloneDX's JSON: whose work, which version, under which licences.
func partsList(w *what, works []terms.Work, goVersion string) ([]byte, error) {
	bom := cdx.NewBOM()
	main := cdx.Component{
		BOMRef: "propsoff", Type: cdx.ComponentTypeApplication, Name: "propsoff", Version: w.version, Licenses: licensed([]string{"MIT"}),
		Properties: &[]cdx.Property{{Name: "propsoff:commit", Value: w.commit}},
	}
	bom.Metadata = &cdx.Metadata{Timestamp: w.at.UTC().Format(time.RFC3339), Component: &main}
	var parts []cdx.Component
	var refs []string
	for _, work := range works {
		c := cdx.Component{Type: cdx.ComponentTypeLibrary, Name: work.Name, Version: work.Version, Licenses: licensed(kinds(work))}
		switch {
		case work.Name == terms.GoName:
			c.Name, c.Version, c.PackageURL = "std", strings.TrimPrefix(goVersion, "go"), "pkg:golang/std@"+strings.TrimPrefix(goVersion, "go")
		case work.Version == "":
			c.Type = cdx.ComponentTypeData
		default:
			c.PackageURL = "pkg:golang/" + purl(work.Name) + "@" + work.Version
		}
		c.BOMRef = c.PackageURL
		if c.BOMRef == "" {
			c.BOMRef = strings.ReplaceAll(c.Name, " ", "-")
		}
		refs = append(refs, c.BOMRef)
		parts = append(parts, c)
	}
	bom.Components = &parts
	bom.Dependencies = &[]cdx.Dependency{{Ref: "propsoff", Dependencies: &refs}}
	var b bytes.Buffer
	e := cdx.NewBOMEncoder(&b, cdx.BOMFileFormatJSON)
	e.SetPretty(true)
	err := e.EncodeVersion(bom, cdx.SpecVersion1_6)
	return b.Bytes(), err
}

// purl writes a module's path as the package URL specification has it: in small letters, each part by itself.
func purl(module string) string { return strings.ToLower(module) }

func licensed(names []string) *cdx.Licenses {
	if len(names) == 0 {
		return nil
	}
	var all cdx.Licenses
	for _, n := range names {
		all = append(all, cdx.LicenseChoice{License: &cdx.License{ID: n}})
	}
	return &all
}

// unlisted are what the classifier has a name for and the SPDX list has not.
var unlisted = []string{"SunPro"}

// kinds are the licences of a work as a whole and of single files, by the SPDX list.
func kinds(w terms.Work) []string {
	var out []string
	for _, t := range w.Texts {
		for _, kind := range t.Licences {
			if !slices.Contains(unlisted, kind) && !slices.Contains(out, kind) {
				out = append(out, kind)
			}
		}
	}
	slices.Sort(out)
	return out
}

// ofBuild gathers what a build holds, and fails where the file that the program carries is not of it.
func ofBuild(w *what, name string, there string) ([]terms.Work, error) {
	at := slices.IndexFunc(terms.Builds, func(b terms.Build) bool { return b.Name == name })
	works, err := terms.Gather(w.root, terms.Builds[at])
	if err != nil {
		return nil, err
	}
	if text := terms.Write(works, terms.Intro()); text != there {
		return nil, fmt.Errorf("assets/licences/%s.txt is not of this build: go -C scripts/packaging run ./licences", name)
	}
	return works, nil
}
