package whichradio

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/input/usb"
)

func TestWhatIsDoneWhenPlugsComeAndGo(t *testing.T) {
	reading := func(f usb.Found, open bool) (now Follower) {
		now.Reads(f)
		if !open {
			now.Lost()
		}
		return now
	}
	moved := heath
	moved.Path, moved.Port = "/e9", "1-9"
	back := moorA
	back.Path = "/e7" // the same radio by its serial number, under another node
	classic, locking := moorA, moorA
	classic.Way, locking.Way = usb.WayClassic, ""
	for _, c := range []struct {
		name    string
		now     Follower
		found   []usb.Found
		arrived bool
		step    Step
		radio   usb.Found
	}{
		{"nothing there", Follower{}, nil, true, Stay, usb.Found{}},
		{"the first comes", Follower{}, []usb.Found{heath}, true, Take, heath},
		{"one that could not be opened a moment ago", Follower{}, []usb.Found{heath}, false, Take, heath},
		{"another comes while one is read", reading(heath, true), []usb.Found{heath, moorA}, true, Stay, heath},
		{"another goes", reading(heath, true), []usb.Found{heath}, false, Stay, heath},
		{"pulled out", reading(heath, false), nil, false, Stay, heath},
		{"pulled out while another is there", reading(heath, false), []usb.Found{moorA}, false, Stay, heath},
		{"back", reading(moorA, false), []usb.Found{moorB, back}, true, Reopen, back},
		{"back before the reader knows that it was gone", reading(moorA, true), []usb.Found{back}, true, Reopen, back},
		{"its twin comes by serial number", reading(moorA, false), []usb.Found{moorB}, true, Take, moorB},
		{"moved to another port without a serial number", reading(heath, false), []usb.Found{moved}, true, Take, moved},
		{"it can be read in a better way", reading(classic, true), []usb.Found{moorA}, true, Reread, moorA},
		{"it may be read no longer, and is read still", reading(moorA, true), []usb.Found{locking}, true, Stay, locking},
		{"another one comes in its place", reading(heath, false), []usb.Found{moorA}, true, Take, moorA},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Policy{}
			if c.arrived {
				c.now.Hear(&usb.Change{Kind: usb.Arrived})
			}
			a := c.now.Look(c.found, p.Choose)
			require.NoError(t, a.Err)
			assert.Equal(t, c.step, a.Step)
			assert.Equal(t, c.radio, a.Radio)
		})
	}
	p := Policy{Wanted: "heath"}
	now := reading(heath, false)
	now.Hear(&usb.Change{Kind: usb.Arrived})
	a := now.Look([]usb.Found{moorA}, p.Choose)
	assert.Equal(t, Stay, a.Step, "only the one that was asked for")
	assert.Error(t, a.Err)
	_, again := Again(DeviceOf(locked), []usb.Found{locked})
	assert.False(t, again, "it cannot be read")
}

// A radio that went and came between two looks was out all the same, and one that is back is no longer waited for.
func TestGoneAndBackInOneLook(t *testing.T) {
	var f Follower
	f.Reads(moorA)
	f.Hear(&usb.Change{Kind: usb.Departed, Radio: moorA})
	f.Hear(&usb.Change{Kind: usb.Arrived, Radio: moorA})
	a := f.Look([]usb.Found{moorA}, nil)
	assert.Equal(t, Advice{Step: Stay, Radio: moorA, Went: true, Back: true}, a)
	assert.Equal(t, Advice{Step: Stay, Radio: moorA}, f.Look([]usb.Found{moorA}, nil))
	assert.False(t, f.Out())
	f.Hear(&usb.Change{Kind: usb.Departed, Radio: moorB})
	assert.Equal(t, Advice{Step: Stay, Radio: moorA}, f.Look([]usb.Found{moorA}, nil), "another one")
}

// hub is a bus with radios that hands plug, pull and lock, and somebody who does what the follower says; openings fail now and then.
type hub struct {
	f      Follower
	found  []usb.Found
	wanted string // by name, empty for any

	// What the plain rules need to know: the radio that is followed, that it is open, that a person was told that it is out, and that
	// something came since the last look.
	now       *usb.Found
	open      bool
	told, new bool
}

var errAnother = errors.New("none of that name")

func (h *hub) choose(found []usb.Found) (usb.Found, error) {
	for _, r := range found {
		if h.wanted == "" || r.Name == h.wanted {
			return r, nil
		}
	}
	return usb.Found{}, errAnother
}

// there is the followed radio where it is plugged in and can be read, or is read.
func (h *hub) there() bool {
	return h.now != nil && slices.ContainsFunc(h.found, func(r usb.Found) bool {
		return Same(DeviceOf(*h.now), r) && (r.Way != "" || h.open && r.Path == h.now.Path)
	})
}

func (h *hub) plug(t *rapid.T) {
	r := rapid.SampledFrom([]usb.Found{moorA, moorB, heath, heath4}).Draw(t, "radio")
	if slices.ContainsFunc(h.found, func(x usb.Found) bool { return DeviceOf(x) == DeviceOf(r) }) {
		t.Skip("it is plugged in")
	}
	r.Path += rapid.SampledFrom([]string{"", "0"}).Draw(t, "node")
	r.Way = rapid.SampledFrom([]string{usb.WayEvent, usb.WayClassic, ""}).Draw(t, "way")
	h.found, h.new = append(h.found, r), true
	h.f.Hear(&usb.Change{Kind: usb.Arrived, Radio: r})
}

func (h *hub) one(t *rapid.T) int {
	if len(h.found) == 0 {
		t.Skip("nothing is plugged in")
	}
	return rapid.IntRange(0, len(h.found)-1).Draw(t, "which")
}

func (h *hub) pull(t *rapid.T) {
	i := h.one(t)
	h.f.Hear(&usb.Change{Kind: usb.Departed, Radio: h.found[i]})
	h.found = slices.Delete(h.found, i, i+1)
}

func (h *hub) alter(t *rapid.T) {
	r := &h.found[h.one(t)]
	r.Way = rapid.SampledFrom([]string{usb.WayEvent, usb.WayClassic, ""}).Draw(t, "way")
	h.f.Hear(&usb.Change{Kind: usb.Altered, Radio: *r})
	h.new = true
}

func (h *hub) look(t *rapid.T) {
	was, there, out := h.now, h.there(), h.f.Out()
	a := h.f.Look(slices.Clone(h.found), h.choose)
	if a.Step != Stay && !slices.Contains(paths(h.found), a.Radio.Path) {
		t.Fatalf("%v of %q, which is not plugged in", a.Step, a.Radio.Path)
	}
	switch {
	case was == nil && h.f.Any(), was != nil && !h.f.Any():
		t.Fatal("a look alone neither follows a radio nor lets one go")
	case there && (a.Step == Take || a.Err != nil):
		t.Fatalf("the radio is there, and it says %v (%v)", a.Step, a.Err)
	case there && !h.open && a.Step != Reopen:
		t.Fatalf("it is back, and nobody reads it: %v", a.Step)
	case there && h.open && a.Step == Reopen && slices.Contains(paths(h.found), was.Path) && Same(DeviceOf(*was), *h.at(was.Path)):
		t.Fatal("it is read and has not moved")
	case was != nil && !there && a.Step != Stay && (a.Step != Take || !h.new || h.f.Faithful):
		t.Fatalf("it is waited for: %v", a.Step)
	case was == nil && len(h.found) > 0 && (a.Step == Take) == (a.Err != nil):
		t.Fatalf("nothing is read, so one is taken, or none is the wanted one: %v %v", a.Step, a.Err)
	case a.Step == Take && h.wanted != "" && a.Radio.Name != h.wanted:
		t.Fatal("only the wanted one is taken")
	case a.Went && h.told:
		t.Fatal("it is out, and that was told")
	case a.Back && !a.Went && !h.told:
		t.Fatal("it is back, and nobody was told that it was out")
	case was != nil && !out && !there && !a.Went, out && there && !a.Back:
		t.Fatalf("news of it is not told: %+v", a)
	case there && h.f.Radio() != a.Radio:
		t.Fatal("it is known as it was found last")
	case was != nil && h.f.Out() == there:
		t.Fatal("out is what is not there")
	}
	h.told = (h.told || a.Went) && !a.Back
	h.new = false
	if was != nil && there {
		r := a.Radio
		h.now = &r
	}
	if a.Step == Stay || rapid.IntRange(0, 4).Draw(t, "opens") == 0 || a.Radio.Way == "" {
		return
	}
	h.f.Reads(a.Radio)
	h.now, h.open, h.told = &a.Radio, true, false
}

func (h *hub) at(path string) *usb.Found {
	return &h.found[slices.Index(paths(h.found), path)]
}

func paths(found []usb.Found) (all []string) {
	for _, f := range found {
		all = append(all, f.Path)
	}
	return all
}

// Whatever comes and goes, what the follower says keeps to the rules of the package's doc.
func TestFollowerKeepsToItsRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := &hub{f: Follower{Faithful: rapid.Bool().Draw(t, "faithful")}, wanted: rapid.SampledFrom([]string{"", "", "Heath"}).Draw(t, "wanted")}
		t.Repeat(map[string]func(*rapid.T){
			"plug": h.plug, "pull": h.pull, "alter": h.alter, "look": h.look,
			"lose": func(t *rapid.T) {
				if h.now == nil || !h.open {
					t.Skip("nothing is read")
				}
				if news := h.f.Lost(); news == h.told {
					t.Fatal("that it is out is told once")
				}
				h.open, h.told = false, true
			},
			"let go": func(*rapid.T) {
				h.f.LetGo()
				h.now, h.open, h.told = nil, false, false
			},
		})
	})
}
