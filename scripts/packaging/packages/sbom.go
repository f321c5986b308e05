package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
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

// dues are the works within a program, and the texts that are due for them.
type dues struct {
	works []terms.Work
	text  []byte
}

// due gathers what is due for a build, and for the page within it. It fails where the files that programs carry are not what is due.
func (w *what) due(name string) (*dues, error) {
	d := new(dues)
	for _, build := range []string{name, "browser"} {
		if build == "browser" && !w.page {
			continue
		}
		at := slices.IndexFunc(terms.Builds, func(b terms.Build) bool { return b.Name == build })
		works, err := terms.Gather(w.root, terms.Builds[at])
		if err != nil {
			return nil, err
		}
		there, err := os.ReadFile(filepath.Join(w.root, "assets/licences", build+".txt"))
		if err != nil || terms.Write(works, terms.Intro()) != string(there) {
			return nil, fmt.Errorf("assets/licences/%s.txt is not what is due: go -C scripts/packaging run ./licences (%v)", build, err)
		}
		d.text = append(d.text, there...)
		for _, one := range works {
			if !slices.ContainsFunc(d.works, func(o terms.Work) bool { return o.Name == one.Name }) {
				d.works = append(d.works, one)
			}
		}
	}
	return d, nil
}
