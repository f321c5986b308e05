package radio

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every file that may be this radio's is given, the likeliest first; a file that does not fit the device is none of them.
func TestFindAllInOrder(t *testing.T) {
	s := Store{t.TempDir()}
	info := sevenAxes()
	save := func(serial, port string, vendor uint16, mode, axis int) string {
		i := info
		i.Serial, i.Port = serial, port
		if vendor == 0 {
			i.Vendor, i.Product = 0, 0
		}
		f := fileFor(i, mode)
		f.Controls[0].Axis = axis
		path, err := s.Save(f)
		require.NoError(t, err)
		return path
	}
	info.Serial, info.Port = "", "1-2"
	moved := save("", "1-3", 1, 1, 4)
	exact := save("", "1-2", 1, 2, 4)
	less := save("", "1-2", 0, 3, 4)
	serial := save("S", "1-2", 1, 4, 4)
	wide := save("", "1-9", 1, 1, 25)
	all, spoilt, err := s.FindAll(info)
	require.NoError(t, err)
	var got []string
	for _, c := range all {
		got = append(got, c.Path)
	}
	require.Equal(t, []string{exact, moved, less, serial}, got)
	require.Equal(t, Exact, all[0].Match)
	require.Equal(t, []Why{0, OtherPort, LessKnown, LessKnown}, []Why{all[0].Why, all[1].Why, all[2].Why, all[3].Why})
	require.Len(t, spoilt, 1)
	require.ErrorContains(t, spoilt[0], wide+":")

	// Where the axes are not told yet, nothing can be held against them.
	info.Axes, info.Buttons = nil, 0
	all, spoilt, err = s.FindAll(info)
	require.NoError(t, err)
	require.Len(t, all, 5)
	require.Empty(t, spoilt)
}

func TestWriteFileWhereAPersonSays(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.yaml")
	file := fileFor(sevenAxes(), 3)
	require.NoError(t, WriteFile(path, file, false))
	got, err := Load(path, Known{})
	require.NoError(t, err)
	require.Equal(t, file, got)
	file.StickMode = 1
	require.ErrorIs(t, WriteFile(path, file, false), fs.ErrExist)
	require.NoError(t, WriteFile(path, file, true), "it is replaced")
	got, err = Load(path, Known{})
	require.NoError(t, err)
	require.Equal(t, 1, got.StickMode)

	link := filepath.Join(dir, "link.yaml")
	require.NoError(t, os.Symlink(path, link))
	file.StickMode = 2
	for _, over := range []bool{false, true} {
		require.ErrorContains(t, WriteFile(link, file, over), link+": this is a link, and links are not followed")
	}
	got, err = Load(link, Known{})
	require.NoError(t, err)
	require.Equal(t, 1, got.StickMode)

	require.ErrorContains(t, WriteFile(dir, file, true), dir+": this is a folder")
	nowhere := filepath.Join(dir, "none", "x.yaml")
	err = WriteFile(nowhere, file, false)
	require.ErrorIs(t, err, fs.ErrNotExist)
	require.ErrorContains(t, err, nowhere+": there is no such folder to write into")
	require.NotContains(t, err.Error(), ".part", "the work file in between is nothing to a person")
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 2)
}

// Where and why is said of a folder that cannot be written.
func TestSaveSaysWhereAndWhy(t *testing.T) {
	file := filepath.Join(t.TempDir(), "radios")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err := Store{file}.Save(fileFor(sevenAxes(), 1))
	require.ErrorContains(t, err, file)
	_, err = Store{filepath.Join(file, "deeper")}.Save(fileFor(sevenAxes(), 1))
	require.ErrorContains(t, err, file)
	if os.Getuid() == 0 {
		return // who may do everything is refused nothing
	}
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o500))
	_, err = Store{dir}.Save(fileFor(sevenAxes(), 1))
	require.ErrorIs(t, err, fs.ErrPermission)
	require.ErrorContains(t, err, filepath.Join(dir, "1f4a-0007"))
}
