package prove

import (
	"bytes"
	"path/filepath"
	"reflect"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
)

// other is a craft and a radio to compare with, one of them at least not as it is now.
type other struct {
	says  words.Text
	like  tell.Like // what a card then says
	craft *craftfile.File
	file  *radio.File
	info  *input.Info
	// edited: it is the craft as changed and not saved; that one is B then, and the craft of the bench A.
	edited bool
}

// same tells whether two are the same to compare with.
func (o *other) same(a *other) bool {
	return o.like == a.like && o.edited == a.edited && bytes.Equal(o.craft.Text, a.craft.Text) && reflect.DeepEqual(o.file, a.file)
}

// mostBefore is how many earlier states of craft and radio are kept (ours).
const mostBefore = 4

// before is what craft and radio were before they were changed, since the program was started; the newest first.
type before struct {
	craft  *craftfile.File
	path   string
	file   *radio.File
	crafts []earlierCraft
	radios []radio.File
}

type earlierCraft struct {
	file *craftfile.File
	path string
}

// watch keeps what is replaced.
func (b *before) watch(s *screen.Screen) {
	o := &s.Options
	if was := b.craft; was != nil && o.Craft != nil && was != o.Craft && !bytes.Equal(was.Text, o.Craft.Text) {
		b.crafts = slices.DeleteFunc(b.crafts, func(c earlierCraft) bool { return bytes.Equal(c.file.Text, was.Text) })
		b.crafts = slices.Insert(b.crafts, 0, earlierCraft{was, b.path})
		b.crafts = b.crafts[:min(len(b.crafts), mostBefore)]
	}
	b.craft, b.path = o.Craft, o.CraftPath
	now := s.Known.File
	if now == nil || b.file != nil && sameStart(now, b.file) {
		return
	}
	if was := b.file; was != nil && was.Device == now.Device && !reflect.DeepEqual(was.Controls, now.Controls) {
		b.radios = slices.Insert(b.radios, 0, *was)
		b.radios = b.radios[:min(len(b.radios), mostBefore)]
	}
	kept := *now // the file that drives is written over when it is learned anew
	b.file = &kept
}

// sameStart tells whether two files hold the very same controls: a file is replaced as a whole.
func sameStart(a, b *radio.File) bool {
	if len(a.Controls) == 0 || len(b.Controls) == 0 {
		return len(a.Controls) == len(b.Controls)
	}
	return &a.Controls[0] == &b.Controls[0]
}

// gather finds everything that the layout of now can be compared with.
func (p *comparePart) gather() (all []other) {
	o, known := &p.s.Options, &p.s.Known
	craft, file := o.Craft, known.File
	var info *input.Info
	if known.Info.Name != "" {
		info = &known.Info
	}
	if f := p.unsaved(); f != nil {
		all = append(all, other{says: words.T("compare.with-edited"), like: tell.Like{Craft: craftFileName(o.CraftPath, craft), CraftWas: true}, craft: f, file: file, info: info, edited: true})
	}
	for i, c := range p.before.crafts {
		if bytes.Equal(c.file.Text, craft.Text) {
			continue
		}
		like := tell.Like{Craft: craftFileName(c.path, c.file), CraftWas: c.path == o.CraftPath}
		all = append(all, other{says: words.T("compare.with-craft-was", words.Args{"n": words.Count(i + 1), "craft": words.Quote(like.Craft)}), like: like, craft: c.file, file: file, info: info})
	}
	if file != nil {
		for i := range p.before.radios {
			r := &p.before.radios[i]
			if r.Device != file.Device || reflect.DeepEqual(r.Controls, file.Controls) {
				continue
			}
			all = append(all, other{says: words.T("compare.with-radio-was", words.Args{"radio": words.Quote(r.Device.Name)}), like: tell.Like{Radio: r.Device.Name, RadioWas: true}, craft: craft, file: r, info: info})
		}
	}
	for _, c := range o.Driver.KeptRadios() {
		if file != nil && reflect.DeepEqual(c.File, *file) {
			continue
		}
		one := c.File
		name := filepath.Base(c.Path)
		with := other{says: words.T("compare.with-radio", words.Args{"radio": words.Quote(one.Device.Name), "file": words.Quote(name)}), like: tell.Like{Radio: name}, craft: craft, file: &one}
		if info != nil && one.Device == radio.DeviceOf(*info) {
			with.info = info
		}
		all = append(all, with)
	}
	if o.OtherCrafts != nil {
		for _, c := range o.OtherCrafts(o.CraftPath) {
			if !bytes.Equal(c.File.Text, craft.Text) {
				says := words.T("compare.with-craft", words.Args{"craft": words.Quote(c.File.Name), "file": words.Quote(c.Name), "shipped": words.Flag(c.Shipped)})
				all = append(all, other{says: says, like: tell.Like{Craft: c.Name}, craft: c.File, file: file, info: info})
			}
		}
	}
	return all
}

// craftFileName is what the file of a craft is called, or the craft where it came from none.
func craftFileName(path string, f *craftfile.File) string {
	if path == "" {
		return f.Name
	}
	return filepath.Base(path)
}

// unsaved is the craft as it was changed and is not saved, nil for none.
func (p *comparePart) unsaved() *craftfile.File {
	if p.s.Unsaved == nil {
		return nil
	}
	return p.s.Unsaved()
}
