package take

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
)

// ErrWhole is the root of Repair's error about a take that needs no repair.
var ErrWhole = errors.New("nothing to repair")

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
	f, err := openTake(path)
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
		return "", Torn{}, fmt.Errorf("%s: %w: every record is whole", path, ErrWhole)
	default:
		end = *r.torn
	}
	copied = RepairedPath(path)
	out, err := os.OpenFile(copied, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return "", end, fmt.Errorf("%s: there is a file of this name already: move it away first", copied)
	}
	if err != nil {
		return "", end, notMade(copied, err)
	}
	if _, err = f.Seek(0, io.SeekStart); err == nil {
		_, err = io.CopyN(out, f, end.Offset)
	}
	err = errors.Join(err, out.Sync(), out.Close())
	if err != nil {
		os.Remove(copied) // ours, and not whole
		return "", end, fmt.Errorf("%s: cannot be written: %w", copied, err)
	}
	return copied, end, nil
}
