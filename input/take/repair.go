package take

import (
	"errors"
	"io"
	"io/fs"
	"strings"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// ErrWhole is what Repair's error about a take that needs no repair wraps.
var ErrWhole error = words.Wrong("take.nothing-to-repair")

// RepairedPath is the path that Repair writes to: "flight.take" becomes "flight-repaired.take".
func RepairedPath(path string) string {
	stem, ok := strings.CutSuffix(path, ".take")
	if !ok {
		return path + "-repaired"
	}
	return stem + "-repaired.take"
}

// Repair copies the whole part of the take at path to RepairedPath(path), which must not exist yet, and says where it
// ends. Not a byte of the part is changed and the original is left alone. A take without a torn end or damage gives
// ErrWhole; one without whole settings cannot be repaired.
func Repair(path string) (copied string, end Torn, err error) {
	f, err := door.Open(path, "door.take")
	if err != nil {
		return "", Torn{}, err
	}
	defer f.Close()
	r, err := NewReader(struct{ io.Reader }{f}, path)
	if err != nil {
		return "", Torn{}, err
	}
	for err == nil {
		_, err = r.Next()
	}
	var damage *Damage
	switch {
	case errors.As(err, &damage):
		end = Torn{Offset: damage.Offset, Tick: damage.Tick}
	case err != io.EOF:
		return "", Torn{}, err
	case r.torn == nil:
		return "", Torn{}, words.Wrong("take.whole").In(path).Because(ErrWhole)
	default:
		end = *r.torn
	}
	copied = RepairedPath(path)
	err = door.Publish(copied, door.Out{}, func(out io.Writer) error {
		if _, err := f.Seek(0, io.SeekStart); err != nil {
			return err
		}
		_, err := io.CopyN(out, f, end.Offset)
		return err
	})
	if errors.Is(err, fs.ErrExist) {
		err = words.Wrong("take.copy-exists").In(copied)
	}
	if err != nil {
		return "", end, err
	}
	return copied, end, nil
}
