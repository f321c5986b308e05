package door

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
)

// Every language says why each door stays shut.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("door")
	file := filepath.Join(t.TempDir(), "x")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	for why := Machine; why <= TooLong; why++ {
		for _, e := range []Error{
			{Path: "x", Why: why}, {Path: "x", What: "craft-file.craft", Why: why}, {Path: "x", Writing: true, Why: why}, {Path: file, Writing: true, Why: why},
			{Path: "x", Writing: true, Why: why, Offer: true}, {Writing: true, Why: why},
		} {
			e.Err = syscall.EIO
			room.Error(t, &e)
		}
	}
	for _, err := range []error{ErrChanged, ErrBusy, ErrStopped, ErrTooLong} {
		room.Error(t, err)
		room.Error(t, &Error{Path: "x", Writing: true, Err: err})
	}
	_, err := Read(file, "", 1)
	room.Error(t, err)
	_, err = PublishFree(filepath.Dir(file), "x", "", 1, Out{}, Bytes(nil))
	room.Error(t, err)
	room.Error(t, words.Wrong("door.no-part").In("x"))
	for _, what := range []words.ID{"door.take", "door.script", "door.script-or-take", "door.drill-file", "door.drill-or-course-file", "door.logbook", "door.folder-wanted"} {
		_, err := Open(file+"none", what)
		room.Error(t, err)
	}
	room.Whole(t)
}

// Standard output has no path, and a name in every language.
func TestStandardOutputIsNamed(t *testing.T) {
	k := &Keeper{Out: io.Discard}
	err := k.Publish(Dash, Out{}, func(io.Writer) error { return syscall.ENOSPC })
	require.EqualError(t, err, "standard output: cannot be written: the disk is full; choose another place")
	require.Equal(t, "Standardausgabe: nicht beschreibbar: der Datenträger ist voll; wähle einen anderen Ort", words.In("de").Error(err))
	require.False(t, strings.Contains(fmt.Sprint(err), "⟦"))
}
