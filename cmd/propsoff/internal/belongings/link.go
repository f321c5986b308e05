package belongings

import (
	"bytes"
	"compress/flate"
	_ "embed"
	"encoding/base64"
	"errors"
	"io"
	"net/netip"
	"net/url"
	"path"
	"strings"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// A link carries a short file behind the # of the page's address, which no browser sends to the host: the kind of packing, the name of the file, and
// its text, packed (RFC 1951) with a dictionary of what such files say and written in the letters of an address (RFC 4648, 5).
const (
	linkMark = "file1="
	mostLink = 16 << 10 // in letters (ours)
)

// ErrTooLongForALink: the file is too long to be given away as a link.
var ErrTooLongForALink error = words.Wrong("belongings.long-link")

// Fragment is what stands behind the # of a link that gives a file away.
func Fragment(name string, text []byte) (string, error) {
	var b bytes.Buffer
	w, err := flate.NewWriterDict(&b, flate.BestCompression, dictionary)
	if err == nil {
		_, err = io.WriteString(w, path.Base(name)+"\n"+string(text))
	}
	if err = errors.Join(err, w.Close()); err != nil {
		return "", err
	}
	fragment := linkMark + base64.RawURLEncoding.EncodeToString(b.Bytes())
	if len(fragment) > mostLink {
		return "", ErrTooLongForALink
	}
	return fragment, nil
}

// OfFragment is the file that a link gives; ok is false where it gives none, and err says what is wrong with one that is damaged.
func OfFragment(fragment string) (name string, text []byte, ok bool, err error) {
	packed, ok := strings.CutPrefix(strings.TrimPrefix(fragment, "#"), linkMark)
	if !ok {
		return "", nil, false, nil
	}
	damaged := words.Wrong("belongings.damaged-link")
	if len(packed) > mostLink {
		return "", nil, true, damaged
	}
	data, err := base64.RawURLEncoding.DecodeString(packed)
	if err != nil {
		return "", nil, true, damaged.Because(err)
	}
	all, err := door.ReadAll(flate.NewReaderDict(bytes.NewReader(data), dictionary), yamldoc.Most)
	if err != nil {
		return "", nil, true, damaged.Because(err)
	}
	name, rest, ok := strings.Cut(string(all), "\n")
	if !ok {
		return "", nil, true, damaged
	}
	return name, []byte(rest), true, nil
}

// dictionary is what links are packed with: a craft file and a radio file. It must stay as it is, letter by letter, for as long as links are about; a new
// one gets a new mark.
//
//go:embed dictionary.txt
var dictionary []byte

// Link is the address of a page, with a radio file or a craft file behind it.
func Link(page, name string, text []byte) (string, error) {
	if kind := yamldoc.KindOf(name, text); kind != "radio" && kind != "craft" {
		return "", words.Wrong("belongings.not-short")
	}
	fragment, err := Fragment(name, text)
	page, _, _ = strings.Cut(page, "#")
	return page + "#" + fragment, err
}

// OfLink is OfFragment of what stands behind the # of a whole address.
func OfLink(link string) (name string, text []byte, ok bool, err error) {
	address, fragment, ok := strings.Cut(link, "#")
	if !ok || !strings.HasPrefix(address, "http") {
		return "", nil, false, nil
	}
	return OfFragment(fragment)
}

// OnlyHere tells whether an address means whatever computer it is opened on, so that a link to it leads nobody to this one (RFC 6761, 6.3; RFC 6890).
func OnlyHere(address string) bool {
	u, err := url.Parse(address)
	if err != nil {
		return false
	}
	ip, err := netip.ParseAddr(u.Hostname())
	return err == nil && ip.Unmap().IsLoopback() || strings.EqualFold(u.Hostname(), "localhost")
}
