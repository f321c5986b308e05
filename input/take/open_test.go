package take

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What the system refuses is told in our words, with the system's error still to be found.
func TestPathsThatCannotBeUsed(t *testing.T) {
	dir := t.TempDir()
	plain := filepath.Join(dir, "plain")
	if err := os.WriteFile(plain, []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	open := func(path string) error { _, err := Open(path); return err }
	repair := func(path string) error { _, _, err := Repair(path); return err }
	create := func(path string) error { return recordTo(path, Settings{}) }
	for name, c := range map[string]struct {
		do   func(string) error
		path string
		want string
		is   error
	}{
		"open nothing":            {open, dir + "/none.take", "there is no such take", fs.ErrNotExist},
		"open a folder":           {open, dir, "this is a folder", nil},
		"repair nothing":          {repair, dir + "/none.take", "there is no such take", fs.ErrNotExist},
		"repair a folder":         {repair, dir, "this is a folder", nil},
		"create in no folder":     {create, dir + "/none/x.take", "there is no such folder to write into", fs.ErrNotExist},
		"create below a file":     {create, plain + "/x.take", "there is no such folder to write into", nil},
		"create over a file":      {create, plain, "there is a file of this name already", nil},
		"create with a long name": {create, dir + "/" + strings.Repeat("x", 5000), "cannot be written: ", nil},
	} {
		t.Run(name, func(t *testing.T) {
			err := c.do(c.path)
			if err == nil || !strings.HasPrefix(err.Error(), c.path+": "+c.want) {
				t.Fatalf("%v", err)
			}
			if strings.Count(err.Error(), c.path) != 1 {
				t.Errorf("the path is repeated: %v", err)
			}
			if c.is != nil && !errors.Is(err, c.is) {
				t.Errorf("%v is not %v", err, c.is)
			}
		})
	}
}
