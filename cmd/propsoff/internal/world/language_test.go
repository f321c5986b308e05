package world

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The language of a system by its environment: POSIX.1-2017, 8.2 (the order of the variables; C and POSIX), and for LANGUAGE the manual of
// GNU gettext, 2.3.3 (a list, most wished first, that counts only where the locale is another one than C).
func TestTheSystemsLanguage(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want string
	}{
		{nil, "en"},
		{map[string]string{"LANG": "de_DE.UTF-8"}, "de"},
		{map[string]string{"LANG": "de_AT@euro"}, "de"},
		{map[string]string{"LANG": "de"}, "de"},
		{map[string]string{"LANG": "en_GB.UTF-8"}, "en"},
		{map[string]string{"LANG": "zz_ZZ.UTF-8"}, "en"},
		{map[string]string{"LANG": "qaa.UTF-8"}, "en"}, // a code that no language has
		{map[string]string{"LANG": "no such thing"}, "en"},
		{map[string]string{"LC_MESSAGES": "de_CH.UTF-8", "LANG": "en_US.UTF-8"}, "de"},
		{map[string]string{"LC_ALL": "en_US.UTF-8", "LC_MESSAGES": "de_CH.UTF-8", "LANG": "de_DE.UTF-8"}, "en"},
		{map[string]string{"LC_ALL": "C", "LANG": "de_DE.UTF-8"}, "en"},
		{map[string]string{"LC_ALL": "POSIX", "LANG": "de_DE.UTF-8", "LANGUAGE": "de"}, "en"},
		{map[string]string{"LC_ALL": "", "LANG": "de_DE.UTF-8"}, "de"},
		{map[string]string{"LANG": "en_US.UTF-8", "LANGUAGE": "de:en"}, "de"},
		{map[string]string{"LANG": "de_DE.UTF-8", "LANGUAGE": "qaa:en"}, "en"},
		{map[string]string{"LANG": "de_DE.UTF-8", "LANGUAGE": "qaa"}, "de"},
		{map[string]string{"LANG": "C.UTF-8", "LANGUAGE": "de"}, "en"},
		{map[string]string{"LANGUAGE": "de"}, "en"},
	} {
		w := &World{Getenv: func(name string) string { return c.env[name] }}
		assert.Equal(t, c.want, w.SystemLanguage().Code(), "%v", c.env)
	}
	assert.Equal(t, "en", new(World).SystemLanguage().Code(), "a world without an environment")
}
