package radio

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/input"
)

func fileFor(info input.Info, stickMode int) File {
	f := File{Device: DeviceOf(info), StickMode: stickMode}
	for i, job := range Needed() {
		f.Controls = append(f.Controls, Control{Job: job, Form: Axis, Axis: i})
	}
	return f
}

func TestStoreFindsWhatItSaved(t *testing.T) {
	s := Store{filepath.Join(t.TempDir(), "config", "propsoff", "radios")}
	info := sevenAxes()
	found, err := s.Find(info)
	require.NoError(t, err, "a folder that is not there holds no files")
	require.Equal(t, Found{}, found)

	path, err := s.Save(fileFor(info, 1))
	require.NoError(t, err)
	require.Equal(t, "1f4a-0007-moorland-desk-7-a12.yaml", filepath.Base(path))
	found, err = s.Find(info)
	require.NoError(t, err)
	require.Equal(t, Found{Match: Exact, File: fileFor(info, 1), Path: path}, found)

	again, err := s.Save(fileFor(info, 3))
	require.NoError(t, err)
	require.Equal(t, path, again, "the same radio's file is replaced")
	found, err = s.Find(info)
	require.NoError(t, err)
	require.Equal(t, 3, found.File.StickMode)

	if runtime.GOOS != "windows" {
		for dir := s.Dir; filepath.Base(dir) != "config"; dir = filepath.Dir(dir) {
			st, err := os.Stat(dir)
			require.NoError(t, err)
			require.Equal(t, fs.FileMode(0o700), st.Mode().Perm(), "XDG Base Directory Specification: new folders are 0700")
		}
	}
	entries, err := os.ReadDir(s.Dir)
	require.NoError(t, err)
	require.Len(t, entries, 1, "nothing else is left behind")
}

func TestTwinsAreToldApart(t *testing.T) {
	with := func(serial, port string) input.Info {
		i := sevenAxes()
		i.Serial, i.Port = serial, port
		return i
	}
	for _, c := range []struct {
		name  string
		saved []input.Info
		look  input.Info
		match Match
		why   Why
		which int
	}{
		{name: "serial beats port", saved: []input.Info{with("A", "1"), with("B", "2")}, look: with("B", "1"), match: Exact, which: 1},
		{name: "another serial", saved: []input.Info{with("A", "1")}, look: with("C", "1"), match: SameKind, why: OtherSerial},
		{name: "port without serials", saved: []input.Info{with("", "1"), with("", "2")}, look: with("", "2"), match: Exact, which: 1},
		{name: "moved plug", saved: []input.Info{with("A", "3"), with("", "1")}, look: with("", "3"), match: SameKind, why: OtherPort, which: 1},
		{name: "serial not told", saved: []input.Info{with("A", "1")}, look: with("", "1"), match: SameKind, why: LessKnown},
		{name: "neither told", saved: []input.Info{with("", "")}, look: with("", ""), match: Exact},
		{name: "nothing saved", look: with("A", "1")},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := Store{t.TempDir()}
			var paths []string
			for i, info := range c.saved {
				path, err := s.Save(fileFor(info, i+1))
				require.NoError(t, err)
				require.NotContains(t, paths, path)
				paths = append(paths, path)
			}
			found, err := s.Find(c.look)
			require.NoError(t, err)
			require.Equal(t, c.match, found.Match)
			require.Equal(t, c.why, found.Why)
			if c.match != NoMatch {
				require.Equal(t, paths[c.which], found.Path)
			}
		})
	}

	other := with("A", "1")
	other.Product++
	m, _ := DeviceOf(other).Compare(DeviceOf(with("A", "1")))
	require.Equal(t, NoMatch, m)
	other.Vendor, other.Product = 0, 0 // read in a way that does not tell the numbers
	m, why := DeviceOf(other).Compare(DeviceOf(with("A", "1")))
	require.Equal(t, SameKind, m)
	require.Equal(t, LessKnown, why)
}

func TestFileNames(t *testing.T) {
	for want, d := range map[string]Device{
		"1f4a-0007-moorland-desk-7-a12": {"Moorland Desk 7", 0x1f4a, 7, "A12", "1-1.2"},
		"0000-0000-joystick":            {"..//Joystick ", 0, 0, "", ""},
		"0000-0000-stick-port-1-1-2":    {"Stick", 0, 0, "", "1-1.2"},
		"0000-0000":                     {"лётчик", 0, 0, "", ""},
		"ffff-ffff-" + repeat("a", 40):  {repeat("a", 90), 0xffff, 0xffff, "", ""},
	} {
		require.Equal(t, want, fileName(d))
	}
}

// Two radios whose names make the same file name keep a file each.
func TestNamesThatCollide(t *testing.T) {
	s := Store{t.TempDir()}
	a, b := sevenAxes(), sevenAxes()
	a.Name, b.Name = "Desk (7)", "Desk [7]"
	pa, err := s.Save(fileFor(a, 1))
	require.NoError(t, err)
	pb, err := s.Save(fileFor(b, 2))
	require.NoError(t, err)
	require.NotEqual(t, pa, pb)
	found, err := s.Find(a)
	require.NoError(t, err)
	require.Equal(t, 1, found.File.StickMode)
}

// Of several who keep different radios of one name at once none loses a file.
func TestSaversAtOnce(t *testing.T) {
	for range 10 {
		s := Store{t.TempDir()}
		var at sync.WaitGroup
		paths := make([]string, 6)
		for i := range paths {
			at.Go(func() {
				info := sevenAxes()
				info.Serial, info.Port = "", ""
				info.Name = "Desk " + string("!#$%&?"[i]) // the same letters in a file name
				var err error
				if paths[i], err = s.Save(fileFor(info, 1+i%4)); err != nil {
					t.Error(err)
				}
			})
		}
		at.Wait()
		for i, path := range paths {
			f, err := Load(path, Known{})
			require.NoError(t, err)
			require.Equal(t, "Desk "+string("!#$%&?"[i]), f.Device.Name)
		}
		left, err := os.ReadDir(s.Dir)
		require.NoError(t, err)
		require.Len(t, left, len(paths))
	}
}

func TestSpoiltFilesAreToldAndKept(t *testing.T) {
	s := Store{t.TempDir()}
	info := sevenAxes()
	spoilt := filepath.Join(s.Dir, "1f4a-0007-moorland-desk-7-a12.yaml")
	require.NoError(t, os.WriteFile(spoilt, []byte("propsoff: radio 1\ncontrols: {roll: 3}\n"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(s.Dir, "notes.txt"), []byte("x"), 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(s.Dir, "folder.yaml"), 0o700))
	found, err := s.Find(info)
	require.NoError(t, err)
	require.Equal(t, NoMatch, found.Match)
	require.Len(t, found.Spoilt, 1)
	require.ErrorContains(t, found.Spoilt[0], spoilt+":2:18: ")

	path, err := s.Save(fileFor(info, 1))
	require.NoError(t, err)
	require.NotEqual(t, spoilt, path, "what cannot be read is not overwritten")

	// A file that names axes which this very radio does not have.
	big := fileFor(info, 1)
	big.Controls[0].Axis = 30
	require.NoError(t, os.WriteFile(path, big.Marshal(), 0o600))
	found, err = s.Find(info)
	require.NoError(t, err)
	require.Equal(t, NoMatch, found.Match)
	require.ErrorContains(t, errors.Join(found.Spoilt...), "axis 31 of throttle: this radio has 9 axes")
}

func TestSaveRefusesABrokenFile(t *testing.T) {
	s := Store{t.TempDir()}
	f := fileFor(sevenAxes(), 1)
	f.Controls = f.Controls[1:]
	_, err := s.Save(f)
	require.ErrorContains(t, err, "throttle is missing")
	_, err = Store{}.Save(fileFor(sevenAxes(), 1))
	require.Error(t, err)
	entries, err := os.ReadDir(s.Dir)
	require.NoError(t, err)
	require.Empty(t, entries)
}

// Names with broken letters, control characters and great length are kept in a form that is found again.
func TestOddNames(t *testing.T) {
	for _, name := range []string{"a\xffb", "tab\there", "line\nfeed", "nul\x00", repeat("long ", 300), "\u2028", "\ufeffmark"} {
		s := Store{t.TempDir()}
		info := sevenAxes()
		info.Name, info.Serial = name, name
		_, err := s.Save(fileFor(info, 1))
		require.NoError(t, err, "%q", name)
		found, err := s.Find(info)
		require.NoError(t, err)
		require.Equal(t, Exact, found.Match, "%q", name)
	}
}

// XDG Base Directory Specification 0.8: unset or empty means $HOME/.config, and a relative path is ignored.
func TestConfigFolder(t *testing.T) {
	for _, c := range []struct{ xdg, home, want string }{
		{"/x/conf", "/h", "/x/conf"},
		{"", "/h", "/h/.config"},
		{"rel/path", "/h", "/h/.config"},
		{"", "", ""},
		{"rel", "rel", ""},
		{"/x", "", "/x"},
	} {
		env := map[string]string{"XDG_CONFIG_HOME": c.xdg, "HOME": c.home}
		got, err := configFolder("linux", func(k string) string { return env[k] })
		require.Equal(t, filepath.FromSlash(c.want), got)
		require.Equal(t, c.want == "", err != nil)
	}
	t.Setenv("XDG_CONFIG_HOME", "/x/conf")
	if runtime.GOOS == "linux" {
		dir, err := Folder()
		require.NoError(t, err)
		require.Equal(t, "/x/conf/propsoff/radios", dir)
	}
}

func repeat(s string, n int) string { return strings.Repeat(s, n) }

// A file that another pilot gives is kept under the radio that it names; what is there for that very radio stays, unless it says the same or it is
// to be written over.
func TestAFileOfAnotherPilotIsTaken(t *testing.T) {
	s := Store{Dir: t.TempDir()}
	f, err := Parse("radio.yaml", []byte(written), Known{})
	require.NoError(t, err)
	path, was, err := s.Take(f, false)
	require.NoError(t, err)
	require.Equal(t, KeptNew, was)
	written, err := os.ReadFile(path)
	require.NoError(t, err)
	remarked := append([]byte("# mine\n"), written...)
	require.NoError(t, os.WriteFile(path, remarked, 0o600))
	for _, over := range []bool{false, true} {
		again, was, err := s.Take(f, over)
		require.NoError(t, err)
		require.Equal(t, KeptSame, was)
		require.Equal(t, path, again, "the same once more is no harm")
		stands, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, remarked, stands, "a pilot's own remarks stay")
	}

	other := f
	other.StickMode = 4
	_, _, err = s.Take(other, false)
	require.ErrorContains(t, err, path)
	f.Given, other.Given = true, true // whatever the file itself says: it is still to be tried
	kept, err := Load(path, Known{})
	require.NoError(t, err)
	require.Equal(t, f, kept)
	_, was, err = s.Take(other, true)
	require.NoError(t, err)
	require.Equal(t, KeptOver, was)
	kept, err = Load(path, Known{})
	require.NoError(t, err)
	require.Equal(t, other, kept)

	tried := other
	tried.Given = false
	_, err = s.Save(tried)
	require.NoError(t, err)
	_, was, err = s.Take(other, true)
	require.NoError(t, err)
	require.Equal(t, KeptSame, was)
	kept, err = Load(path, Known{})
	require.NoError(t, err)
	require.Equal(t, tried, kept, "what was tried stays so where the same comes again")

	twin := f
	twin.Device.Serial = "another"
	path2, _, err := s.Take(twin, false)
	require.NoError(t, err)
	require.NotEqual(t, path, path2, "a radio of the same kind has a file of its own")
	twin.Device = Device{}
	_, _, err = s.Take(twin, true)
	require.Error(t, err, "it names no radio")
}
