//go:build linux

package kills

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a writer would leave that loses or tears something is found out, and what a good one leaves is not.
func TestWhatIsFoundAfterAKill(t *testing.T) {
	one := func(rel, whole string) victim { return victim{whole: map[string][]byte{rel: []byte(whole)}} }
	over := one("x", "new")
	over.old = []byte("old")
	says := one("x", "new")
	says.ack = "Saved: "
	for name, c := range map[string]struct {
		v      victim
		files  map[string]string
		said   string
		ended  bool
		status int
		want   []string
	}{
		"nothing yet":              {v: one("x", "new")},
		"whole":                    {v: one("x", "new"), files: map[string]string{"x": "new"}, ended: true},
		"torn":                     {v: one("x", "new"), files: map[string]string{"x": "ne"}, want: w(Torn)},
		"ended, nothing there":     {v: one("x", "new"), ended: true, want: w(Lost)},
		"ended otherwise":          {v: one("x", "new"), ended: true, status: 3},
		"told, nothing there":      {v: says, said: "Saved: x\n", want: w(Lost)},
		"the old one":              {v: over, files: map[string]string{"x": "old"}},
		"the old one gone":         {v: over, want: w(Lost)},
		"neither":                  {v: over, files: map[string]string{"x": "nol"}, want: w(Torn)},
		"what it reads is changed": {v: one("x", "new"), files: map[string]string{"dear": "other"}, want: w(Lost)},
		"an older version":         {v: victim{look: marked("dear"), outs: w("dear")}, files: map[string]string{"dear": "good# kept p-4\n"}, said: "p-4 p-5\n", want: w(Lost)},
		"a torn version":           {v: victim{look: marked("dear"), outs: w("dear")}, files: map[string]string{"dear": "goo"}, said: "p-4 p-5\n", want: w(Torn)},
		"the next version":         {v: victim{look: marked("dear"), outs: w("dear")}, files: map[string]string{"dear": "good# kept p-6\n"}, said: "p-4 p-5\n"},
		"new files":                {v: victim{look: newCrafts}, files: map[string]string{"folder/a.yaml": "whole"}, said: "folder/a.yaml\n"},
		"a new file lost":          {v: victim{look: newCrafts}, said: "folder/a.yaml\n", want: w(Lost)},
		"a new file torn":          {v: victim{look: newCrafts}, files: map[string]string{"folder/a.yaml": "whole", "folder/b.yaml": "who"}, said: "folder/a.yaml\n", want: w(Torn)},
		"a live take lost":         {v: victim{look: live}, said: "{\"t_ms\":1500}\n", want: w(Lost)},
		"a live take not begun":    {v: victim{look: live}, said: "{\"t_ms\":0}\n"},
	} {
		t.Run(name, func(t *testing.T) {
			c := c
			s := &scene{killing: &killing{good: map[string][]byte{"dear": []byte("good")}}, v: &c.v, dir: t.TempDir(), said: []byte(c.said), ended: c.ended, status: c.status}
			require.NoError(t, s.lay())
			for rel, text := range c.files {
				require.NoError(t, os.WriteFile(filepath.Join(s.dir, rel), []byte(text), 0o644))
			}
			var got []string
			for _, f := range s.look() {
				got = append(got, f.what)
			}
			assert.Equal(t, c.want, got)
		})
	}
}
