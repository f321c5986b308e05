package prove

import (
	"maps"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// changed is one field of a craft that matters to what a pilot can tell, changed alone.
type changed struct {
	on *made
	do func(c *sim.Config)
	in Part // what the shortest difference is in
}

// changes has every field of link, layout, arming and of what decides whether motors turn, and the frame period.
func changes() map[string]changed {
	swi := func() *made { return bySwitch().short(4, 4, 5, 3, 3, 0) }
	sinks := func() *made { return bySwitch().short(4, 4, 5, 3, 3, 6) }
	sti := func() *made { return bySticks().short(4, 4, 5, 4, 3, 0) }
	stored := func() *made { return swi().stored(988, 1500, 988) }
	return map[string]changed{
		"SlotTicks": {swi(), func(c *sim.Config) { c.SlotTicks = 5 }, InMode | InRefusing | InArming},

		"Link.OnLoss":       {swi(), func(c *sim.Config) { c.Link.OnLoss = link.RepeatsLast }, InArming},
		"Link.Stored":       {stored(), func(c *sim.Config) { c.Link.Stored[4] = pulse.High }, InRefusing},
		"Link.Needed":       {swi().travel("roll", 988, 2190), func(c *sim.Config) { c.Link.Needed &^= 1 << c.Layout.Roll }, InArming | InMotors | InRefusing},
		"Link.SilenceSlots": {swi(), func(c *sim.Config) { c.Link.SilenceSlots++ }, InArming},
		"Link.CleanSlots":   {swi(), func(c *sim.Config) { c.Link.CleanSlots++ }, InRefusing},

		"Layout.Throttle":   {swi(), func(c *sim.Config) { c.Layout.Throttle = 1 }, InRefusing},
		"Layout.Roll":       {swi(), func(c *sim.Config) { c.Layout.Roll = 8 }, InRefusing},
		"Layout.Pitch":      {swi(), func(c *sim.Config) { c.Layout.Pitch = 8 }, InRefusing},
		"Layout.Yaw":        {sti(), func(c *sim.Config) { c.Layout.Yaw = 1 }, InRefusing},
		"Layout.Arm":        {swi().second(), func(c *sim.Config) { c.Layout.Arm = 5 }, InMode | InRefusing},
		"Layout.ArmSpan":    {swi(), func(c *sim.Config) { c.Layout.ArmSpan.Low = pulse.Micros(1400) }, InRefusing},
		"Layout.Second":     {swi().second(), func(c *sim.Config) { c.Layout.Second = layout.NoChannel }, InRefusing},
		"Layout.SecondSpan": {swi().second(), func(c *sim.Config) { c.Layout.SecondSpan.Low = pulse.Micros(1400) }, InRefusing | InArming},
		"Layout.Mode":       {swi(), func(c *sim.Config) { c.Layout.Mode = layout.NoChannel; c.Layout.FixedMode = layout.Horizon }, InMode},
		"Layout.FixedMode":  {swi().with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel }), func(c *sim.Config) { c.Layout.FixedMode = layout.Rate }, InMode},
		"Layout.Spans":      {swi(), func(c *sim.Config) { c.Layout.Spans[1].Mode = layout.Angle }, InMode},
		"Layout.SpanCount":  {swi(), func(c *sim.Config) { c.Layout.SpanCount = 1 }, InMode},

		"Arming.By": {swi(), func(c *sim.Config) {
			c.Arming.By, c.Layout.Arm = arming.BySticks, layout.NoChannel
		}, InRefusing},
		"Arming.LowThrottle":         {swi(), func(c *sim.Config) { c.Arming.LowThrottle++ }, InRefusing},
		"Arming.ArmDwell":            {sti(), func(c *sim.Config) { c.Arming.ArmDwell++ }, InRefusing},
		"Arming.DisarmDwell":         {sti(), func(c *sim.Config) { c.Arming.DisarmDwell++ }, InArming},
		"Arming.YawRight":            {sti(), func(c *sim.Config) { c.Arming.YawRight++ }, InRefusing},
		"Arming.YawLeft":             {sti(), func(c *sim.Config) { c.Arming.YawLeft-- }, InArming},
		"Arming.LeaveRight":          {sti(), func(c *sim.Config) { c.Arming.LeaveRight-- }, InRefusing | InArming},
		"Arming.LeaveLeft":           {sti(), func(c *sim.Config) { c.Arming.LeaveLeft++ }, InArming},
		"Arming.LeaveThrottle":       {sti(), func(c *sim.Config) { c.Arming.LeaveThrottle++ }, InRefusing | InArming},
		"Arming.SinkSlots":           {sinks(), func(c *sim.Config) { c.Arming.SinkSlots++ }, InArming | InSinking},
		"Arming.StillSlots":          {swi(), func(c *sim.Config) { c.Arming.StillSlots++ }, InRefusing},
		"Arming.TiltLimitTenths":     {swi(), func(c *sim.Config) { c.Arming.TiltLimitTenths++ }, InRefusing},
		"Arming.PackLimitMilliVolts": {swi(), func(c *sim.Config) { c.Arming.PackLimitMilliVolts = 3500 }, InRefusing},
		"Arming.OnlySelfLevelling":   {swi(), func(c *sim.Config) { c.Arming.OnlySelfLevelling = true }, InRefusing | InArming},
		"Arming.CameraMenuCounts":    {swi(), func(c *sim.Config) { c.Arming.CameraMenuCounts = true }, InRefusing},

		"Flight.AtLowThrottle": {swi(), func(c *sim.Config) { c.Flight.AtLowThrottle = flight.Idle }, InMotors},
		"Flight.IdleSpeed": {swi().with(func(m *made) { m.Config.Flight.AtLowThrottle = flight.Idle }), func(c *sim.Config) {
			c.Flight.IdleSpeed = 0
		}, InMotors},
		"Flight.AirModes":    {swi(), func(c *sim.Config) { c.Flight.AirModes = 0 }, InMotors},
		"Flight.AirWake":     {swi(), func(c *sim.Config) { c.Flight.AirWake++ }, InMotors},
		"Flight.SinkCarries": {sinks(), func(c *sim.Config) { c.Flight.SinkCarries = 0 }, InMotors},
	}
}

// Every field that matters, changed alone, is found, and what was found is what both benches do. A new field fails the test until it stands in
// the table.
func TestEveryFieldThatMattersIsTold(t *testing.T) {
	all := changes()
	var fields []string
	cfg := reflect.TypeFor[sim.Config]()
	for i := range cfg.NumField() {
		switch f := cfg.Field(i); f.Name {
		case "Gestures", "Menus", "Control", "Body", "Transit": // data, held against each other as such
		case "Camera": // what it shows moves nothing
		case "SlotTicks":
			fields = append(fields, f.Name)
		default:
			for k := range f.Type.NumField() {
				fields = append(fields, f.Name+"."+f.Type.Field(k).Name)
			}
		}
	}
	slices.Sort(fields)
	assert.Equal(t, fields, slices.Sorted(maps.Keys(all)))
	for name, one := range all {
		a := &made{one.on.Layout}
		a.Radio.Controls = slices.Clone(one.on.Radio.Controls)
		b := &made{a.Layout}
		one.do(&b.Config)
		c := both(t, name, a, b)
		if !assert.Equal(t, Different, c.Likeness(), name) {
			continue
		}
		d := c.Difference
		t.Logf("%s: %b, %d movements, %d ms, lasts %d ms, %d situations: %+v %+v", name, d.Parts, d.Ways[0].Movements, d.Ways[0].Ms, d.Lasts, c.Situations, d.Answers[0], d.Answers[1])
		assert.NotZero(t, d.Parts&one.in, name)
		if g := c.Graver; g != nil {
			t.Logf("    graver: %b, %d movements, %d ms, lasts %d ms", g.Parts, g.Ways[0].Movements, g.Ways[0].Ms, g.Lasts)
		}
		assert.Zero(t, c.Apart&^ApartPeriod&^ApartFlight, name)
	}
}

// Each condition between two limits that differ is brought about and ended by its readings: once it is over, both crafts arm as if it had never been.
func TestConditionsComeAndGo(t *testing.T) {
	for _, name := range []string{"Arming.TiltLimitTenths", "Arming.PackLimitMilliVolts", "Arming.CameraMenuCounts"} {
		one := changes()[name]
		a, b := one.on, &made{one.on.Layout}
		one.do(&b.Config)
		h, err := newPairHands([2]*Layout{&a.Layout, &b.Layout}, lens{modes: true, arming: true, motors: true, refusals: true})
		require.NoError(t, err)
		require.Len(t, h.conditions, 3, "none, the cable, and the one between the limits")
		sent, on, _ := h.unpack(h.start)
		k := slices.IndexFunc(h.controls, func(c pairControl) bool { return c.channel[0] == a.Config.Layout.Arm })
		arm := &h.controls[k]
		high := slices.IndexFunc(arm.places, func(p pairPlace) bool { return p.means[0].sign.inside })
		d := newDuet(h, dues(h.cfg), false)
		stay := func(cond uint32) {
			for range 12 {
				d.do(move{Wait, -1}, h.pack(sent, on, cond))
			}
		}
		d.do(move{PowerOn, -1}, h.start)
		stay(0)
		d.do(move{h.conditions[2].on, -1}, h.pack(sent, on, 2))
		stay(2)
		d.do(move{h.conditions[2].off, -1}, h.pack(sent, on, 0))
		stay(0)
		d.do(move{Move, k}, h.pack(arm.with(sent, high), on, 0))
		found := d.difference()
		assert.Equal(t, Answer{Armed: true}, found.Answers[0], name)
		assert.Equal(t, found.Answers[0], found.Answers[1], name)
		for i, l := range [2]*made{a, b} {
			assert.Equal(t, found.Answers[i], told(&l.Layout, found.Ways[i], found.Ways[i].Final), name)
		}
	}
}

// What is data is held against each other as data, and is no difference of behaviour.
func TestWhatIsNotSearchedIsSaid(t *testing.T) {
	tiny := func() *made { return bySwitch().short(3, 3, 3, 3, 3, 0) }
	for want, do := range map[Apart]func(c *sim.Config){
		ApartFlight:  func(c *sim.Config) { c.Flight.IdleSpeed++ },
		ApartTransit: func(c *sim.Config) { c.Transit.Lost++ },
	} {
		b := tiny()
		do(&b.Config)
		c := both(t, "data", tiny(), b)
		assert.Equal(t, Alike, c.Likeness())
		assert.Equal(t, want, c.Apart)
	}
	b := tiny()
	b.Config.Body.Mass *= 1.5
	assert.Equal(t, ApartFlight, both(t, "mass", tiny(), b).Apart)
}

// Radios that differ where it matters, and where it does not.
func TestTwoRadios(t *testing.T) {
	tiny := func() *made { return bySwitch().short(4, 4, 5, 3, 3, 0) }
	springs := func(m *made) { m.control("arm").Momentary = true }
	for _, one := range []struct {
		name string
		a, b *made
		want Likeness
		in   Part
	}{
		{"other widths, same spans", tiny(), tiny().positions("arm", 1000, 1500, 2000), Alike, 0},
		{"two positions for three", tiny(), tiny().positions("arm", 988, 2012), Alike, 0},
		{"middle arms", tiny().positions("arm", 988, 1650, 2012), tiny(), Different, InRefusing},
		{"never on", tiny(), tiny().positions("arm", 988, 1400, 1590), Different, InRefusing},
		{"springs back", tiny(), tiny().with(springs), Different, InRefusing},
		{"no mode switch", tiny(), tiny().without("mode"), Different, InMode},
		{"a little less travel", tiny(), tiny().travel("throttle", 989, 2012), Alike, 0},
		{"never low", tiny(), tiny().travel("throttle", 1001, 2012), Different, InRefusing},
		{"beyond pulses", tiny(), tiny().travel("roll", 988, 2190), Different, InRefusing | InMotors},
		{"arm on a knob", tiny(), tiny().with(func(m *made) {
			c := m.control("arm")
			c.Kind, c.Positions, c.Low, c.High, c.Rest, c.Stays = handset.Knob, nil, pulse.Low, pulse.High, pulse.Low, true
		}), Different, InRefusing},
		{"one hand for arm and mode", tiny(), tiny().same("mode", "arm", false), Different, InMode},
		{"one hand for both, on both", tiny().same("mode", "arm", true), tiny().same("mode", "arm", true), Alike, 0},
		{"another channel of the same job", tiny(), tiny().with(func(m *made) {
			m.Config.Layout.Arm, m.control("arm").Channel = 9, 9
			m.Config.Link.Needed = m.Config.Layout.Needed()
		}), Alike, 0},
	} {
		c := both(t, one.name, one.a, one.b)
		assert.Equal(t, one.want, c.Likeness(), one.name)
		if d := c.Difference; d != nil {
			assert.NotZero(t, d.Parts&one.in, "%s: %b", one.name, d.Parts)
		}
	}
}

// What is found is played with the gestures of both crafts: where the sticks open a menu on the way, what both then do is told; where that keeps them
// from differing, nothing is called alike. One more gesture is data that differs.
func TestGesturesOnTheWayOfTwo(t *testing.T) {
	slow := func(m *made) { m.Config.Arming.ArmDwell++ }
	corner := pattern("corner", [4]gestures.Zone{low, any_, any_, high}, 2, 1)
	apart := pattern("apart", [4]gestures.Zone{mid, high, mid, low}, 5, 1)
	make := func(p gestures.Pattern) *made { return bySticks().short(3, 3, 3, 5, 3, 0).moves(p) }
	for name, p := range map[string]gestures.Pattern{"in the arm corner": corner, "elsewhere": apart} {
		for mode := 1; mode <= 4; mode++ {
			c := both(t, name, make(p).mode(mode), make(p).mode(mode).with(slow))
			assert.Equal(t, Different, c.Likeness(), name)
		}
		c := both(t, name, make(p), make(p))
		assert.Equal(t, Alike, c.Likeness(), name)
		assert.Zero(t, c.Apart)
	}
	assert.Equal(t, ApartGestures, both(t, "other gestures", make(corner), make(apart)).Apart)

	// A menu that opens in the arm corner keeps both from arming, so their motors never show that they differ on that way.
	c, err := Compare(make(corner).Layout, make(corner).with(func(m *made) { m.Config.Flight.AtLowThrottle = flight.Idle }).Layout, Options{})
	assert.NoError(t, err)
	assert.Equal(t, Undetermined, c.Likeness())
	assert.Equal(t, ApartOnTheWay, c.Apart)
}
