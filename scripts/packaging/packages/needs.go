package main

import (
	"bytes"
	"debug/elf"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// packageOf says in which package of Debian a shared library is. Those that a linker was told of must be there; the rest are opened by the
// engine when it begins, by their names.
var packageOf = map[string]string{
	"libX11.so.6": "libx11-6", "libasound.so.2": "libasound2", "libc.so.6": "libc6", "libm.so.6": "libc6",
	"libGL.so.1": "libgl1", "libXcursor.so.1": "libxcursor1", "libXrandr.so.2": "libxrandr2", "libXi.so.6": "libxi6",
	"libXinerama.so.1": "libxinerama1", "libXrender.so.1": "libxrender1", "libXxf86vm.so.1": "libxxf86vm1", "libXext.so.6": "libxext6",
	"libX11-xcb.so.1": "libx11-xcb1",
}

// spared are libraries that the engine knows how to open, and does not where OpenGL is there.
var spared = []string{"libEGL.so.1", "libGLES_CM.so.1", "libGLESv1_CM.so.1", "libGLESv2.so.2", "libOSMesa.so.6", "libOSMesa.so.8", "libOpenGL.so.0"}

var (
	soname  = regexp.MustCompile(`\blib[A-Za-z0-9_+-]+\.so\.[0-9]+\b`)
	libcAge = regexp.MustCompile(`^GLIBC_2\.(\d+)`)
)

// needs are the packages without which a program does not begin, or draws nothing: what it is linked with, what it opens by name, and how old
// the C library may be at most.
func needs(program []byte) ([]string, error) {
	f, err := elf.NewFile(bytes.NewReader(program))
	if err != nil {
		return nil, err
	}
	libraries, err := f.ImportedLibraries()
	if err != nil {
		return nil, err
	}
	if len(libraries) == 0 {
		return nil, nil
	}
	if data := f.Section(".rodata"); data != nil {
		text, err := data.Data()
		if err != nil {
			return nil, err
		}
		for _, name := range soname.FindAllString(string(text), -1) {
			if !slices.Contains(spared, name) {
				libraries = append(libraries, name)
			}
		}
	}
	symbols, err := f.ImportedSymbols()
	if err != nil {
		return nil, err
	}
	age := 0
	for _, s := range symbols {
		if m := libcAge.FindStringSubmatch(s.Version); m != nil {
			n, _ := strconv.Atoi(m[1])
			age = max(age, n)
		}
	}
	var out []string
	for _, l := range libraries {
		p, ok := packageOf[l]
		if !ok {
			return nil, fmt.Errorf("in which package of Debian is %s? It goes into packageOf, or into spared", l)
		}
		if p == "libc6" {
			p = fmt.Sprintf("libc6 (>= 2.%d)", age)
		}
		if !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	slices.SortFunc(out, strings.Compare)
	return out, nil
}
