package main

import (
	"archive/zip"
	"bytes"
	"debug/pe"
	"encoding/binary"
	"flag"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/tc-hib/winres"
)

var (
	archive = flag.String("archive", "", "an archive for Windows, whose program is looked at too")
	says    = flag.String("says", "", "the version that it is of")
)

const root = "../../.."

// machines are the numbers of machines (Microsoft, PE Format: Machine Types).
var machines = map[winres.Arch]uint16{winres.ArchAMD64: pe.IMAGE_FILE_MACHINE_AMD64, winres.ArchARM64: pe.IMAGE_FILE_MACHINE_ARM64}

// A program that is built with the object shows an icon in every size, and its name, version and licence in every language; the object is the same each time.
func TestAProgramShowsItsIcon(t *testing.T) {
	for arch, machine := range machines {
		one, err := object(root, "0.1.0", arch)
		if err != nil {
			t.Fatal(err)
		}
		again, err := object(root, "0.1.0", arch)
		if other, err2 := object(root, "0.1.1", arch); err != nil || err2 != nil || !bytes.Equal(one, again) || bytes.Equal(one, other) {
			t.Errorf("%s: %v %v: the same %v, of another version the same %v", arch, err, err2, bytes.Equal(one, again), bytes.Equal(one, other))
		}
		dir := t.TempDir()
		for name, text := range map[string][]byte{"go.mod": []byte("module shown\n\ngo 1.26\n"), "main.go": []byte("package main\n\nfunc main() {}\n"), "r_windows_" + string(arch) + ".syso": one} {
			if err := os.WriteFile(filepath.Join(dir, name), text, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		build := exec.Command("go", "build", "-o", "shown.exe", ".")
		build.Dir, build.Env = dir, append(os.Environ(), "GOOS=windows", "GOARCH="+string(arch), "CGO_ENABLED=0", "GOFLAGS=", "GOWORK=off")
		if out, err := build.CombinedOutput(); err != nil {
			t.Fatalf("%s: %v %s", arch, err, out)
		}
		program, err := os.ReadFile(filepath.Join(dir, "shown.exe"))
		if err != nil {
			t.Fatal(err)
		}
		shows(t, program, machine, "0.1.0")
	}
}

// The program in an archive that was made shows the same.
func TestTheProgramInTheArchive(t *testing.T) {
	if *archive == "" {
		t.Skip("no archive is given: scripts/packages-test gives those that it made")
	}
	z, err := zip.OpenReader(*archive)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	for _, f := range z.File {
		if !strings.HasSuffix(f.Name, "/propsoff.exe") {
			continue
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		program, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		machine := machines[winres.ArchAMD64]
		if strings.Contains(f.Name, "arm64") {
			machine = machines[winres.ArchARM64]
		}
		shows(t, program, machine, *says)
		return
	}
	t.Fatalf("no program in %s", *archive)
}

// The sources have none of it lying about: each is made for a package and taken away again.
func TestNoObjectIsKept(t *testing.T) {
	out, err := exec.Command("git", "-C", root, "ls-files", "*.syso").Output()
	if err != nil || len(out) > 0 {
		t.Errorf("%v: %s", err, out)
	}
	if _, err := about(root, "next"); err == nil {
		t.Error("“next” is no version")
	}
}

// shows fails where a program has no icon in six sizes, or does not say what it is.
func shows(t *testing.T, program []byte, machine uint16, version string) {
	t.Helper()
	f, err := pe.NewFile(bytes.NewReader(program))
	if err != nil {
		t.Fatal(err)
	}
	if f.Machine != machine {
		t.Errorf("for machine %#x, want %#x", f.Machine, machine)
	}
	section := f.Section(".rsrc")
	if section == nil {
		t.Fatal("it has no resources")
	}
	data, err := section.Data()
	if err != nil {
		t.Fatal(err)
	}
	icons, groups, versions := resources(data, section.VirtualAddress, 3), resources(data, section.VirtualAddress, 14), resources(data, section.VirtualAddress, 16)
	if len(icons) != 6 || len(groups) != 1 || len(versions) == 0 {
		t.Fatalf("%d pictures, %d groups of them, %d versions", len(icons), len(groups), len(versions))
	}
	if n := binary.LittleEndian.Uint16(groups[0][4:]); n != 6 { // GRPICONDIR: idCount
		t.Errorf("%d sizes of the icon", n)
	}
	for _, icon := range icons {
		if !bytes.HasPrefix(icon, []byte("\x89PNG")) {
			t.Errorf("a picture begins with %q", icon[:4])
		}
	}
	for _, word := range []string{"propsoff", version, "MIT", "040904b0", "040704b0"} { // languages as VS_VERSIONINFO has them, in UTF-16
		found := false
		for _, v := range versions {
			found = found || bytes.Contains(v, wide(word))
		}
		if !found {
			t.Errorf("nowhere it says %q", word)
		}
	}
}

func wide(s string) (all []byte) {
	for _, u := range utf16.Encode([]rune(s)) {
		all = binary.LittleEndian.AppendUint16(all, u)
	}
	return all
}

// resources are those of a kind, read as the file format has them (Microsoft, PE Format: The .rsrc Section): a table of kinds, below each a table of names, below
// each one of languages, whose entries say where the data is, from the program's beginning.
func resources(section []byte, begins uint32, kind uint32) (all [][]byte) {
	var walk func(at, depth uint32)
	walk = func(at, depth uint32) {
		count := uint32(binary.LittleEndian.Uint16(section[at+12:])) + uint32(binary.LittleEndian.Uint16(section[at+14:]))
		for i := range count {
			name, to := binary.LittleEndian.Uint32(section[at+16+8*i:]), binary.LittleEndian.Uint32(section[at+20+8*i:])
			if depth == 0 && name != kind {
				continue
			}
			if to>>31 == 1 {
				walk(to&^(1<<31), depth+1)
				continue
			}
			from, size := binary.LittleEndian.Uint32(section[to:])-begins, binary.LittleEndian.Uint32(section[to+4:])
			all = append(all, section[from:from+size])
		}
	}
	walk(0, 0)
	return all
}
