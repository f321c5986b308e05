package screen

import "propsoff/cmd/propsoff/internal/sheet"

// part is the work behind one sheet that is opened over the bench. Its methods belong to the window's goroutine.
type part interface {
	// open is called when its sheet is turned to, close when it is left.
	open()
	close()
	// turn is called at every turn of the screen, whether its sheet is open or not.
	turn()
	// fill brings its own part of the view up to date; called while its sheet is open.
	fill(v *sheet.View)
	// act does an action of its sheet; false leaves it to the screen.
	act(a sheet.Action) bool
	// key takes a key before the table of actions is asked, as typing does; false leaves it.
	key(name string, down bool) bool
	// hit does what a hit area stands for; false leaves it.
	hit(name string) bool
}

// tool ties a part to its place and the action that opens it.
type tool struct {
	place sheet.Place
	open  sheet.Action
	part  part
}

func newTools(s *Screen) []tool {
	s.drills, s.desk, s.gestures, s.layout = newDrills(s), &deskPart{s: s}, newGestures(s), &layoutPart{s: s, began: s.o.CraftPath}
	return []tool{
		{sheet.OnCheck, sheet.OpenCheck, &checkPart{s: s}},
		{sheet.OnLayout, sheet.OpenLayout, s.layout},
		{sheet.OnProve, sheet.OpenProve, &provePart{s: s}},
		{sheet.OnCard, sheet.OpenCard, &cardPart{s: s}},
		{sheet.OnFirst, sheet.OpenFirst, newFirst(s)},
		{sheet.OnThree, sheet.OpenThree, &threePart{s: s}},
		{sheet.OnGestures, sheet.OpenGestures, s.gestures},
		{sheet.OnLoss, sheet.OpenLoss, &lossPart{s: s}},
		{sheet.OnDrills, sheet.OpenDrills, s.drills},
		{sheet.OnDesk, sheet.OpenDesk, s.desk},
	}
}

// open is the part whose sheet is on top, nil for none.
func (s *Screen) open() part {
	place := s.place()
	for i := range s.tools {
		if s.tools[i].place == place {
			return s.tools[i].part
		}
	}
	return nil
}

// turnTo opens the sheet of an action, or goes back to the bench where it is open or a names none.
func (s *Screen) turnTo(a sheet.Action) {
	was := s.tool
	s.tool = 0
	for i := range s.tools {
		t := &s.tools[i]
		if t.place == was {
			t.part.close()
		}
		if t.open == a && t.place != was {
			s.tool = t.place
		}
	}
	for i := range s.tools {
		if s.tools[i].place == s.tool {
			s.tools[i].part.open()
		}
	}
}
