package pupils

import (
	"time"

	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/drill/drillfile"
)

// Course is the shipped course for a craft, with whom it is practised, empty for nobody yet; end ends the pupil's practice. Where there
// is no folder for a logbook, drills are run all the same. The error has its status (exit).
func Course(c *world.Craft, trainer *drillrun.Coach, pupil string) (o screen.DrillOptions, end func() error, err error) {
	cfg := c.Config()
	course, drills, err := drillfile.Shipped("beginner", drillfile.Known{Gestures: cfg.Gestures, Menus: cfg.Menus})
	if err != nil {
		return o, nil, exit.BadInput(err)
	}
	o = screen.DrillOptions{
		Coach: trainer, Course: tell.CourseWithout(tell.CourseText(course.Code, course.Name), len(course.Unfit)), Drills: drills,
		Day: func() int32 { return logbook.Day(time.Now()) }, Seed: uint64(time.Now().UnixNano()),
	}
	o.Chapters = screen.ChaptersOf(course, drills)
	o.ShippedGestures = c.Gestures != nil && c.Gestures.Shipped
	p, err := keeper(c)
	switch {
	case err != nil && pupil == "": // no folder for a logbook, and nobody asked for one
		return o, func() error { return nil }, nil
	case err != nil:
		return o, nil, exit.Trouble(err)
	}
	for _, d := range drills {
		p.course = append(p.course, d.Config.Code)
	}
	if err := p.Open(pupil); err != nil {
		return o, nil, exit.Trouble(err)
	}
	o.Pupils = p
	return o, p.Close, nil
}
