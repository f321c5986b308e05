// Command resources writes what Windows shows of the program: its icon, and its name, version and licence.
//
//	go -C scripts/packaging run ./resources -root ROOT -version VERSION
//
// It makes an object for each kind of machine beside the program's sources, where “go build” takes them up by their names. scripts/package calls it, and
// takes them away again.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"regexp"

	"github.com/tc-hib/winres"
	"github.com/tc-hib/winres/version"

	"propsoff.example/assets/words"
)

// iconName is the number of the icon. Windows shows the group with the lowest one.
const iconName = winres.ID(1)

// lcid are the numbers of languages by their codes (MS-LCID: en-US and de-DE).
var lcid = map[string]uint16{"en": 0x0409, "de": 0x0407}

func main() {
	root := flag.String("root", "../..", "the project's folder")
	of := flag.String("version", "", "the version")
	flag.Parse()
	if err := write(*root, *of); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func write(root, of string) error {
	for _, arch := range []winres.Arch{winres.ArchAMD64, winres.ArchARM64} {
		object, err := object(root, of, arch)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(root, "cmd/propsoff", "resources_windows_"+string(arch)+".syso"), object, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// object is what the linker takes for one kind of machine, the same bytes each time.
func object(root, of string, arch winres.Arch) ([]byte, error) {
	var set winres.ResourceSet
	var pictures []image.Image
	for _, size := range []string{"256", "128", "64", "48", "32", "16"} {
		data, err := os.ReadFile(filepath.Join(root, "assets/icon", size+".png"))
		if err != nil {
			return nil, err
		}
		m, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			return nil, err
		}
		pictures = append(pictures, m)
	}
	icon, err := winres.NewIconFromImages(pictures)
	if err != nil {
		return nil, err
	}
	if err := set.SetIcon(iconName, icon); err != nil {
		return nil, err
	}
	about, err := about(root, of)
	if err != nil {
		return nil, err
	}
	set.SetVersionInfo(*about)
	var b bytes.Buffer
	err = set.WriteObject(&b, arch)
	return b.Bytes(), err
}

var (
	whose   = regexp.MustCompile(`(?m)^Copyright .*$`)
	numbers = regexp.MustCompile(`^\d+\.\d+\.\d+`)
)

// about is what stands in the properties of the file, in every language.
func about(root, of string) (*version.Info, error) {
	licence, err := os.ReadFile(filepath.Join(root, "LICENSE"))
	if err != nil {
		return nil, err
	}
	owner, number := whose.FindString(string(licence)), numbers.FindString(of)
	if owner == "" || number == "" {
		return nil, fmt.Errorf("the licence says “%s”, the version is “%s”: a line with Copyright and three numbers are wanted", owner, of)
	}
	info := &version.Info{Type: version.App}
	info.SetFileVersion(number)
	info.SetProductVersion(number)
	for _, tag := range words.Languages() {
		code := tag.String()
		id, ok := lcid[code]
		if !ok {
			return nil, fmt.Errorf("the language %s has no number in lcid: look it up in MS-LCID", code)
		}
		for key, value := range map[string]string{
			version.ProductName: "propsoff", version.InternalName: "propsoff", version.OriginalFilename: "propsoff.exe", version.CompanyName: "the propsoff authors",
			version.FileDescription: words.In(code).Say(words.T("package.summary")), version.FileVersion: of, version.ProductVersion: of, version.LegalCopyright: owner + ", MIT",
		} {
			if err := info.Set(id, key, value); err != nil {
				return nil, err
			}
		}
	}
	return info, nil
}
